import {
	type Kind,
	minus,
	type Quantity,
	type SharedErrors,
	sharedErrors,
} from "../quantity";
import type { FlaskUptake } from "../uptake";
import type {
	BalanceLine,
	IsothermPoint,
	IsothermPoints,
	OwnErrors,
	SharedEffect,
} from "./points";

type KnownLine = Extract<BalanceLine, { is: "known" }>;
type SharedColumn = SharedErrors["shared"][number];

/** One number of a flask whose errors are asked for. */
interface Result {
	/** Place of the flask among the flasks. */
	readonly flask: number;
	readonly of: "concentration" | "uptake" | "unseen titre";
	readonly quantity: Quantity;
}

/** One standard uncertainty of an error that is one flask's own moves its concentration (mg/L) and its uptake (mg/g) by so much. */
interface Push {
	readonly flask: number;
	readonly concentration: number;
	readonly uptake: number;
}

function concentrationOf(u: FlaskUptake): Quantity<"massConcentration"> {
	return u.residue.quantity.to("mg/L");
}

/** For a flask that ran dry: the uptake at the residue that could be there unseen, which is the least one. */
function uptakeOf(u: FlaskUptake): Quantity<"uptake"> {
	return (u.residue.is === "value" ? u.computedUptake : u.uptake.quantity).to(
		"mg/g",
	);
}

/**
 * Losses go with what was dosed and what was left, lost = p (dosed + left), so that the uptake is linear in the residue: slope V (1 + p)/m.
 */
function balanceOf(u: FlaskUptake): KnownLine {
	const { added, withdrawn, left, lost } = u.balance;
	const inSolution = added.in("mg") - withdrawn.in("mg") + left.in("mg");
	const share = inSolution === 0 ? 0 : lost.in("mg") / inSolution;
	const slope = (u.liquid.in("L") * (1 + share)) / u.charMass.in("g");
	return {
		is: "known",
		intercept: uptakeOf(u).value + slope * concentrationOf(u).value,
		slope,
	};
}

/**
 * Points of flasks, their errors split in two: what touches one flask only, by a reading, is its own; all else is shared. What differs from one replicate to the next stays out: the scatter about the curve shows it. A detection limit is a stated number, but the titre that stayed
 * below it was read with the usual errors: they come in through the difference between the least uptake and the computed one.
 */
export function pointsWithErrors(
	flasks: readonly FlaskUptake[],
): Pick<IsothermPoints, "points" | "shared"> {
	const balances = flasks.map(balanceOf);
	const results = flasks.flatMap(resultsOf);
	const { ownVariance, shared } = sharedErrors<Kind>(
		results.map((r) => r.quantity),
	);
	const own: Push[] = results.map((r, k) => {
		const e = Math.sqrt(ownVariance[k]);
		const { flask } = r;
		if (r.of === "concentration") return { flask, concentration: e, uptake: 0 };
		if (r.of === "uptake") return { flask, concentration: 0, uptake: e };
		return { flask, concentration: e / balances[flask].slope, uptake: -e };
	});
	const columns: SharedEffect[] = [];
	for (const column of shared) {
		const { effect, touched } = effectOf(column, results, flasks.length);
		const [flask] = touched;
		// The scatter about the curve shows what differs from one flask to the next.
		if (column.input.scope === "replicate" && touched.length === 1) continue;
		if (column.input.scope === "reading" && touched.length === 1)
			own.push({
				flask,
				concentration: effect.concentration[flask],
				uptake: effect.uptake[flask],
			});
		else columns.push(effect);
	}
	return {
		points: flasks.map(
			(u, i): IsothermPoint => ({
				flask: u.flask.name,
				is: u.residue.is === "value" ? "reading" : "below detection",
				concentration: concentrationOf(u).value,
				uptake: uptakeOf(u).value,
				balance: balances[i],
				own: ownErrors(own.filter((p) => p.flask === i)),
			}),
		),
		shared: columns,
	};
}

/** Concentration and uptake, and for a flask that ran dry the titre that was too small to be seen. */
function resultsOf(u: FlaskUptake, flask: number): Result[] {
	const unseen: Result[] =
		u.residue.is === "value"
			? []
			: [
					{
						flask,
						of: "unseen titre",
						quantity: minus(
							uptakeOf(u),
							u.computedUptake.to("mg/g"),
						) as Quantity,
					},
				];
	return [
		{ flask, of: "concentration", quantity: concentrationOf(u) as Quantity },
		{ flask, of: "uptake", quantity: uptakeOf(u) as Quantity },
		...unseen,
	];
}

function ownErrors(pushes: readonly Push[]): OwnErrors {
	const sum = (of: (p: Push) => number): number =>
		pushes.reduce((total, p) => total + of(p), 0);
	return {
		concentration: sum((p) => p.concentration * p.concentration),
		uptake: sum((p) => p.uptake * p.uptake),
		covariance: sum((p) => p.concentration * p.uptake),
	};
}

/** What one input does to every flask, and which flasks it touches at all. */
function effectOf(
	column: SharedColumn,
	results: readonly Result[],
	flasks: number,
): { readonly effect: SharedEffect; readonly touched: readonly number[] } {
	const concentration = new Float64Array(flasks);
	const uptake = new Float64Array(flasks);
	const touched = new Set<number>();
	results.forEach((r, k) => {
		const e = column.effect[k];
		if (e === 0) return;
		touched.add(r.flask);
		if (r.of === "concentration") concentration[r.flask] = e;
		else if (r.of === "uptake") uptake[r.flask] = e;
	});
	const { key, degreesOfFreedom } = column.input;
	return {
		effect: {
			key,
			what: whatOf(column),
			degreesOfFreedom,
			concentration,
			uptake,
		},
		touched: [...touched],
	};
}

function whatOf({ input, node }: SharedColumn): string {
	const { source } = input;
	return (
		node.name.meaning ||
		node.name.symbol ||
		(source.is === "cell"
			? `${source.file}, row ${source.row}, ${source.column}`
			: source.source)
	);
}
