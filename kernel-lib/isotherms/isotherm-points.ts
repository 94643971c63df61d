import { isUsable, type Trial } from "../bench";
import {
	type Kind,
	kept,
	minus,
	type Problem,
	problem,
	type Quantity,
	type SharedErrors,
	sharedErrors,
	type Table,
	table,
	throwProblems,
} from "../quantity";
import { everyUptake, type FlaskUptake } from "../uptake";

/** Errors of one flask alone (its titre, its weighing, its own deliveries): variances and covariance of concentration (mg/L) and uptake (mg/g). */
export interface OwnErrors {
	readonly concentration: number;
	readonly uptake: number;
	readonly covariance: number;
}

/**
 * The mass balance of a flask: whatever residue C (mg/L) it shows, its uptake is intercept - slope C. Isotherm and balance line meet at the residue that the flask should show.
 */
export type BalanceLine =
	| {
			readonly is: "known";
			/** mg/g: the uptake if nothing were left in solution. */
			readonly intercept: number;
			/** L/g: liquid per gram of char, losses included. */
			readonly slope: number;
	  }
	| { readonly is: "unknown" };

/** One flask on the way to an isotherm. */
export interface IsothermPoint {
	readonly flask: string;
	/** A flask that ran dry has no residue that could be read, only one that it does not exceed. */
	readonly is: "reading" | "below detection";
	/** mg/L; for a flask that ran dry, the most that it could hold unseen. */
	readonly concentration: number;
	/** mg/g at that concentration; for a flask that ran dry, "at least". */
	readonly uptake: number;
	readonly balance: BalanceLine;
	readonly own: OwnErrors;
}

/** An error that several flasks lean on: a titrant, a calibration, a blank. One standard uncertainty of it moves concentration and uptake of each point by so much. */
export interface SharedEffect {
	/** Identity of the input, the same in every set of points that leans on it. */
	readonly key: string;
	readonly what: string;
	readonly degreesOfFreedom: number;
	/** mg/L, one for each point. */
	readonly concentration: Float64Array;
	/** mg/g, one for each point. */
	readonly uptake: Float64Array;
}

/** Points of one treatment with all that the chain knows of their errors. */
export interface IsothermPoints {
	readonly name: string;
	readonly points: readonly IsothermPoint[];
	readonly shared: readonly SharedEffect[];
	/** The flasks behind the points; empty for numbers that were typed in. */
	readonly flasks: readonly FlaskUptake[];
	/** Flasks that do not enter, and why. */
	readonly leftOut: readonly LeftOut[];
}

/** A flask that cannot be a point, or was not to be one. */
export interface LeftOut {
	readonly flask: string;
	readonly because: string;
}

/**
 * The points of every treatment of a trial, in the order in which treatments first appear; residues in mg/L, uptakes in mg/g. Concentration and uptake of a flask come from one titre: their linked errors are kept.
 * Flasks that ran dry are kept as bounds; a flask whose uptake could not be told from none has a residue that was read, and is a reading like any other. Flasks that a deviation leaves out are named in `leftOut`.
 *
 * @throws ProblemError when there is no char flask, or when a treatment mixes uptakes per gram of dry char and per gram as weighed
 * @example
 * isotherms.isothermPoints(isothermTrial).length // => 2
 */
export const isothermPoints: (trial: Trial) => readonly IsothermPoints[] = kept(
	(trial) => pointsOfUptakes(everyUptake(trial)),
);

/** The same for a list of uptakes. */
export function pointsOfUptakes(
	uptakes: readonly FlaskUptake[],
): IsothermPoints[] {
	const treatments = [...new Set(uptakes.map((u) => u.flask.treatment))];
	throwProblems(problemsOf(uptakes, treatments));
	return treatments.map((treatment) => {
		const all = uptakes.filter((u) => u.flask.treatment === treatment);
		const leftOut = all.flatMap((u) => {
			const because = whyLeftOut(u);
			return because === "" ? [] : [{ flask: u.flask.name, because }];
		});
		const flasks = all.filter((u) => whyLeftOut(u) === "");
		return { name: treatment, ...withErrors(flasks), flasks, leftOut };
	});
}

/** "" for a flask that enters. */
function whyLeftOut(u: FlaskUptake): string {
	if (!isUsable(u.flask))
		return `a deviation: ${u.flask.marks.map((m) => m.whatHappened).join("; ") || "no titre or reading is left"}`;
	if (u.contradiction !== "")
		return `its numbers cannot all be right: ${u.contradiction}`;
	if (u.residue.is === "at least")
		return "it read above the highest standard, so that neither its residue nor its uptake is known";
	return u.residue.is !== "value" && u.demand.is === "suspected"
		? "it ran dry and what is left of its soak may have used up the iodine, so that it bounds nothing of the char"
		: "";
}

function problemsOf(
	uptakes: readonly FlaskUptake[],
	treatments: readonly string[],
): Problem[] {
	if (uptakes.length === 0)
		return [
			problem(
				"no-char-flasks",
				{},
				"no flask with char",
				"several flasks with different doses or masses of char",
				"Add the flasks with char to the bench sheet.",
			),
		];
	return treatments.flatMap((treatment) => {
		const own = uptakes.filter((u) => u.flask.treatment === treatment);
		return new Set(own.map((u) => u.perGram)).size > 1
			? [
					problem(
						"mixed-char-mass",
						own[0].flask.place,
						`uptakes of "${treatment}" per gram of dry char and per gram as weighed`,
						"one of them for all flasks of an isotherm",
						"Give the moisture of all of them, or of none.",
					),
				]
			: [];
	});
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
 * Losses go with the iodine dosed and left, lost = p (dosed + left), so that the uptake is linear in the residue: slope V (1 + p)/m.
 */
function balanceOf(u: FlaskUptake): Extract<BalanceLine, { is: "known" }> {
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
 * Splits the errors of all concentrations and uptakes: what touches one flask only, by a reading, is its own; all else is shared. A detection limit is a stated number, but the titre that stayed
 * below it was read with the usual errors: they come in through the difference between the least uptake and the computed one.
 */
function withErrors(
	flasks: readonly FlaskUptake[],
): Pick<IsothermPoints, "points" | "shared"> {
	const balances = flasks.map(balanceOf);
	const results: {
		readonly flask: number;
		readonly of: "concentration" | "uptake" | "unseen titre";
		readonly quantity: Quantity;
	}[] = flasks.flatMap((u, flask) => [
		{ flask, of: "concentration", quantity: concentrationOf(u) as Quantity },
		{ flask, of: "uptake", quantity: uptakeOf(u) as Quantity },
		...(u.residue.is === "value"
			? []
			: [
					{
						flask,
						of: "unseen titre" as const,
						quantity: minus(
							uptakeOf(u),
							u.computedUptake.to("mg/g"),
						) as Quantity,
					},
				]),
	]);
	const own = flasks.map(() => ({
		concentration: 0,
		uptake: 0,
		covariance: 0,
	}));
	const add = (flask: number, c: number, q: number): void => {
		own[flask].concentration += c * c;
		own[flask].uptake += q * q;
		own[flask].covariance += c * q;
	};
	const { ownVariance, shared } = sharedErrors<Kind>(
		results.map((r) => r.quantity),
	);
	results.forEach((r, k) => {
		const e = Math.sqrt(ownVariance[k]);
		const { slope } = balances[r.flask];
		if (r.of === "concentration") add(r.flask, e, 0);
		else if (r.of === "uptake") add(r.flask, 0, e);
		else add(r.flask, e / slope, -e);
	});
	const columns: SharedEffect[] = [];
	for (const column of shared) {
		const concentration = new Float64Array(flasks.length);
		const uptake = new Float64Array(flasks.length);
		const touched = new Set<number>();
		results.forEach((r, k) => {
			const e = column.effect[k];
			if (e === 0) return;
			touched.add(r.flask);
			if (r.of === "concentration") concentration[r.flask] = e;
			else if (r.of === "uptake") uptake[r.flask] = e;
		});
		const [flask] = touched;
		if (column.input.scope === "reading" && touched.size === 1)
			add(flask, concentration[flask], uptake[flask]);
		else
			columns.push({
				key: column.input.key,
				what: whatOf(column),
				degreesOfFreedom: column.input.degreesOfFreedom,
				concentration,
				uptake,
			});
	}
	return {
		points: flasks.map((u, i) => ({
			flask: u.flask.name,
			is: u.residue.is === "value" ? "reading" : "below detection",
			concentration: concentrationOf(u).value,
			uptake: uptakeOf(u).value,
			balance: balances[i],
			own: own[i],
		})),
		shared: columns,
	};
}

function whatOf({ input, node }: SharedErrors["shared"][number]): string {
	const { source } = input;
	return (
		node.name.meaning ||
		node.name.symbol ||
		(source.is === "cell"
			? `${source.file}, row ${source.row}, ${source.column}`
			: source.source)
	);
}

/**
 * Points from plain numbers, such as a published table. They have no balance lines and no errors of their own: only the ordinary fit of uptake on concentration can use them.
 *
 * @param concentration mg/L
 * @param uptake mg/g
 * @throws ProblemError for lists of different length or numbers that are not finite
 */
export function plainPoints(
	name: string,
	concentration: ArrayLike<number>,
	uptake: ArrayLike<number>,
): IsothermPoints {
	const c = Array.from(concentration);
	const q = Array.from(uptake);
	throwProblems([
		...(c.length === q.length
			? []
			: [
					problem(
						"unequal-lengths",
						{ column: "uptake" },
						`${c.length} concentrations and ${q.length} uptakes`,
						"one uptake for each concentration",
						"Leave out what has no partner.",
					),
				]),
		...[...c, ...q].flatMap((v, i) =>
			Number.isFinite(v)
				? []
				: [
						problem(
							"not-a-number",
							{
								column: i < c.length ? "concentration" : "uptake",
								row: (i % c.length) + 1,
							},
							String(v),
							"a finite number",
							"Leave the point out, or give its value.",
						),
					],
		),
	]);
	return {
		name,
		points: c.map((concentration, i) => ({
			flask: String(i + 1),
			is: "reading",
			concentration,
			uptake: q[i],
			balance: { is: "unknown" },
			own: { concentration: 0, uptake: 0, covariance: 0 },
		})),
		shared: [],
		flasks: [],
		leftOut: [],
	};
}

/** The points as a table, with the correlation that the common titre gives concentration and uptake of a flask. */
export function pointTable(points: IsothermPoints): Table {
	return table(
		`Points of the isotherm, ${points.name}`,
		[
			"flask",
			"residue (mg/L)",
			"own error of the residue (mg/L)",
			"uptake (mg/g)",
			"own error of the uptake (mg/g)",
			"correlation of the two errors",
			"remark",
		],
		points.points.map((p) => {
			const u = Math.sqrt(p.own.concentration);
			const v = Math.sqrt(p.own.uptake);
			const bound = p.is === "below detection";
			return [
				p.flask,
				`${bound ? "at most " : ""}${rounded(p.concentration)}`,
				rounded(u),
				`${bound ? "at least " : ""}${rounded(p.uptake)}`,
				rounded(v),
				u > 0 && v > 0 ? (p.own.covariance / (u * v)).toFixed(2) : "",
				bound ? "ran dry: enters as a bound" : "",
			];
		}),
		points.leftOut.map((l) => `Flask ${l.flask} is left out: ${l.because}.`),
	);
}

function rounded(value: number): string {
	return String(Number(value.toPrecision(4)));
}
