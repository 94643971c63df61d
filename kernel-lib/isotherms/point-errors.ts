import {
	type ErrorColumn,
	errorColumns,
	minus,
	type Quantity,
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

/** One number of a flask whose errors are asked for. */
interface Result {
	/** Place of the flask among the flasks. */
	readonly flask: number;
	readonly of: "concentration" | "uptake" | "unseen titre";
	readonly quantity: Quantity;
}

/** One standard uncertainty of an error that is one flask's own moves its concentration (mg/L) and its uptake (mg/g) by so much. */
interface Push {
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
	const own = flasks.map((): Push[] => []);
	const columns: SharedEffect[] = [];
	for (const column of errorColumns(results.map((r) => r.quantity)).values()) {
		const touched = new Set(
			[...column.effect].flatMap(([k, e]) => (e === 0 ? [] : results[k].flask)),
		);
		const [flask] = touched;
		const { scope } = column.input;
		if (touched.size === 0) continue;
		// The scatter about the curve shows what differs from one flask to the next.
		if (touched.size === 1 && scope === "replicate") continue;
		if (touched.size === 1 && scope === "reading")
			own[flask].push(pushOf(column, results, balances[flask]));
		else columns.push(effectOf(column, results, flasks.length));
	}
	return {
		points: flasks.map(
			(u, i): IsothermPoint => ({
				flask: u.flask.name,
				is: u.residue.is === "value" ? "reading" : "below detection",
				concentration: concentrationOf(u).value,
				uptake: uptakeOf(u).value,
				balance: balances[i],
				own: ownErrors(own[i]),
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

/** What a reading does to the one flask that it belongs to. */
function pushOf(
	{ effect }: ErrorColumn,
	results: readonly Result[],
	{ slope }: KnownLine,
): Push {
	const of = (which: Result["of"]): number =>
		[...effect].reduce(
			(sum, [k, e]) => sum + (results[k].of === which ? e : 0),
			0,
		);
	const unseen = effect.size === 1 ? of("unseen titre") : 0;
	return {
		concentration: of("concentration") + unseen / slope,
		uptake: of("uptake") - unseen,
	};
}

/** What one input does to every flask. */
function effectOf(
	column: ErrorColumn,
	results: readonly Result[],
	flasks: number,
): SharedEffect {
	const concentration = new Float64Array(flasks);
	const uptake = new Float64Array(flasks);
	for (const [k, e] of column.effect) {
		const { flask, of } = results[k];
		if (of === "concentration") concentration[flask] = e;
		else if (of === "uptake") uptake[flask] = e;
	}
	const { key, degreesOfFreedom } = column.input;
	return { key, what: whatOf(column), degreesOfFreedom, concentration, uptake };
}

function whatOf({ input, node }: ErrorColumn): string {
	const { source } = input;
	return (
		node.name.meaning ||
		node.name.symbol ||
		(source.is === "cell"
			? `${source.file}, row ${source.row}, ${source.column}`
			: source.source)
	);
}
