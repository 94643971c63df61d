/** The lines of the ledger of a comparison: how each difference and the ends of its interval were reckoned, down to the uptakes of the flasks. */
import {
	type Comparison,
	firstReckoning,
	type Reckoned,
	type Reckoning,
	standardErrorOf,
	type TreatmentVerdict,
	type WeighedFlask,
	weighedFlasks,
} from "../compare";
import { confidenceText } from "../isotherms";
import {
	contentHash,
	type LedgerRow,
	type LineIds,
	listed,
	quoted,
} from "../quantity";
import type { ReportedReckoning, ReportedWeighed } from "./reported";
import { pairText } from "./verdict-table";

/** What a difference adds to a ledger, and what a page needs to find it there. */
export interface DifferenceLines {
	readonly lines: readonly LedgerRow[];
	readonly reckoned: ReportedReckoning;
}

/** A number as it was computed with; the least that is needed to reckon again. */
const full = (x: number): string =>
	String(Number(x.toPrecision(15))).replace("-", "−");

const uptakeText = (x: number): string => `${full(x)} mg/g`;

interface Described {
	readonly symbol: string;
	readonly meaning: string;
	readonly value: number;
	readonly standardUncertainty: number;
	readonly formula: string;
	readonly numbers: string;
	readonly inputs: readonly string[];
	readonly source: string;
}

/** @param asked what was set for the comparison, which two comparisons of the same flasks may differ in */
function lineOf(asked: string, described: Described): LedgerRow {
	const { symbol, meaning, formula, inputs } = described;
	return {
		...described,
		// Of names and inputs, never of digits.
		id: contentHash(JSON.stringify([asked, symbol, meaning, formula, inputs])),
		unit: "mg/g",
		file: "",
		hash: "",
		sheet: "",
		row: 0,
		column: "",
	};
}

/** How the uptake of a flask was carried to the residue of the comparison. */
function carried({ observation, value, along }: WeighedFlask): {
	readonly formula: string;
	readonly numbers: string;
} {
	const { flask, side, treatment } = observation;
	const uptake = flask.uptake.quantity.in("mg/g");
	const slope = along.taken.get(treatment);
	if (side !== "value" || slope === undefined)
		return {
			formula: "q × f",
			numbers: `${uptakeText(uptake)} × ${full(uptake === 0 ? 1 : value / uptake)}`,
		};
	const { at, edge } = along;
	const { near, beyond } = slope;
	const residue = flask.residue.quantity.in("mg/L");
	const step = (to: number, from: number, power: number): string =>
		`(${full(to)} mg/L / ${full(from)} mg/L)^${full(power)}`;
	return near === beyond || edge === at
		? {
				formula: "q × (C* / C)^s",
				numbers: `${uptakeText(uptake)} × ${step(at, residue, near)}`,
			}
		: {
				formula: "q × (C_edge / C)^s_near × (C* / C_edge)^s_beyond",
				numbers: `${uptakeText(uptake)} × ${step(edge, residue, near)} × ${step(at, edge, beyond)}`,
			};
}

/** The lines that a flask's carried uptake was made from. */
function inputsOf(
	{ observation: { flask } }: WeighedFlask,
	ids: LineIds,
	at: string,
): string[] {
	return [
		ids.get(flask.uptake.quantity),
		ids.get(flask.residue.quantity),
		at,
	].filter((id) => id !== undefined);
}

const weightText = (weight: number, first: boolean): string => {
	const size = full(Math.abs(weight));
	if (first) return weight < 0 ? `−${size}` : size;
	return weight < 0 ? `− ${size}` : `+ ${size}`;
};

const sumText = (
	terms: readonly { readonly weight: number; readonly text: string }[],
): string =>
	terms
		.map(({ weight, text }, i) => `${weightText(weight, i === 0)} × ${text}`)
		.join(" ");

/** What a standard error is made of, in words. */
function errorText(r: Reckoning): string {
	const { scatter, shared, slopes, readings } = r.variances;
	const parts = [
		{ variance: scatter, name: "scatter" },
		{ variance: shared, name: "errors that flasks share" },
		{ variance: slopes, name: "measured slopes" },
		{ variance: readings, name: "readings of single flasks" },
	]
		.filter(({ variance }) => variance > 0)
		.map(({ variance, name }) => `${full(Math.sqrt(variance))} of ${name}`);
	const degrees =
		r.degreesOfFreedom > 0
			? `${full(r.degreesOfFreedom)} degrees of freedom`
			: "not estimated from scatter";
	return `standard error ${full(standardErrorOf(r))} mg/g, squares added up: ${listed(parts)}; ${degrees}`;
}

/** Confidence, decisions and pairs of a comparison, as they were set. */
function askedOf({ confidence, decisions, verdicts }: Comparison): string {
	return JSON.stringify([
		confidence,
		decisions.map(({ name, taken }) => [name, taken]),
		verdicts.map(({ treatment, control }) => [treatment, control]),
	]);
}

interface Ground {
	readonly asked: string;
	readonly comparison: Comparison;
	readonly verdict: TreatmentVerdict;
	readonly ids: LineIds;
	/** Id of the residue of the comparison. */
	readonly at: string;
}

/** Each flask at the residue of the comparison. */
function flaskLines(
	r: Reckoning,
	g: Ground,
): readonly [LedgerRow, WeighedFlask][] {
	const { at, compared } = g.comparison;
	const drawn = new Map(
		at.is === "carried" ? at.flasks.map((f) => [f.name, f.uncertainty]) : [],
	);
	return weighedFlasks(r, compared).map((flask) => [
		lineOf(g.asked, {
			symbol: "q*",
			meaning: `uptake of flask ${flask.observation.name} at the residue of the comparison`,
			value: flask.value,
			standardUncertainty: drawn.get(flask.observation.name) ?? 0,
			...carried(flask),
			inputs: inputsOf(flask, g.ids, g.at),
			source: "",
		}),
		flask,
	]);
}

/** Uptakes that were read off isotherms, from all flasks of their treatments. */
function isothermLines(
	{ weighed }: Reckoning,
	g: Ground,
): readonly { readonly line: LedgerRow; readonly weight: number }[] {
	if (weighed.is !== "isotherms") return [];
	const { comparison, verdict, ids, at } = g;
	const name =
		comparison.at.is === "isotherms" ? comparison.at.isotherm.name : "";
	return [
		{ treatment: verdict.treatment, on: weighed.treated, weight: 1 },
		{ treatment: verdict.control, on: weighed.control, weight: -1 },
	].map(({ treatment, on, weight }) => ({
		weight,
		line: lineOf(g.asked, {
			symbol: "q*",
			meaning: `uptake of ${quoted(treatment)} on its isotherm at the residue of the comparison`,
			value: on.uptake,
			standardUncertainty: on.standardError,
			formula: `${name} isotherm at C*`,
			numbers: "",
			inputs: [
				...comparison.compared
					.filter((o) => o.treatment === treatment)
					.flatMap(({ flask }) => [
						ids.get(flask.uptake.quantity),
						ids.get(flask.residue.quantity),
					]),
				at,
			].filter((id) => id !== undefined),
			source: "",
		}),
	}));
}

/** A difference as the sum of lines that stand above it. */
function differenceLine(
	r: Reckoning,
	g: Ground,
	parts: readonly { readonly line: LedgerRow; readonly weight: number }[],
): LedgerRow {
	return lineOf(g.asked, {
		symbol: "Δ",
		meaning: pairText(g.verdict),
		value: r.estimate,
		standardUncertainty: standardErrorOf(r),
		formula: "Σ w × q*",
		numbers: sumText(
			parts.map(({ line, weight }) => ({
				weight,
				text: uptakeText(line.value),
			})),
		),
		inputs: parts.map(({ line }) => line.id),
		source: errorText(r),
	});
}

/** The same along the slopes that give an end: each flask is carried inside the sum. */
function differenceAlong(r: Reckoning, g: Ground, end: string): LedgerRow {
	const flasks = weighedFlasks(r, g.comparison.compared);
	return lineOf(g.asked, {
		symbol: "Δ",
		meaning: `${pairText(g.verdict)}, along the slopes that give the ${end} end`,
		value: r.estimate,
		standardUncertainty: standardErrorOf(r),
		formula: "Σ w × q*",
		numbers: sumText(
			flasks.map((f) => ({ weight: f.weight, text: carried(f).numbers })),
		),
		inputs: [...new Set(flasks.flatMap((f) => inputsOf(f, g.ids, g.at)))],
		source: errorText(r),
	});
}

/** An end of the interval: the difference, its critical value times its standard error, room for soak remains. */
function endLine(
	r: Reckoning,
	g: Ground,
	end: "lower" | "upper",
	difference: LedgerRow,
): LedgerRow {
	const { comparison, verdict } = g;
	const sign = end === "lower" ? -1 : 1;
	const room =
		end === "lower" ? verdict.soakAllowance.low : verdict.soakAllowance.high;
	const s = standardErrorOf(r);
	const mark = end === "lower" ? "−" : "+";
	const parts = [
		{ symbol: "k × s", text: `${full(r.criticalValue)} × ${uptakeText(s)}` },
		...(r.ofLimits > 0
			? [{ symbol: "U_limits", text: uptakeText(r.ofLimits) }]
			: []),
		...(room > 0 ? [{ symbol: "a", text: uptakeText(room) }] : []),
	];
	const together = comparison.method.simultaneous.pairs.length;
	return lineOf(g.asked, {
		symbol: `Δ_${end}`,
		meaning: `${end} end of the interval of ${pairText(verdict)}`,
		value: r.estimate + sign * (r.criticalValue * s + r.ofLimits + room),
		standardUncertainty: 0,
		formula: ["Δ", ...parts.map((p) => `${mark} ${p.symbol}`)].join(" "),
		numbers: [
			uptakeText(r.estimate),
			...parts.map((p) => `${mark} ${p.text}`),
		].join(" "),
		inputs: [difference.id],
		source: [
			`k: critical value for ${confidenceText(comparison.confidence)}, ${together === 1 ? "one difference" : `${together} differences together`}`,
			...(r.ofLimits > 0
				? ["U_limits: expanded uncertainty (k = 2) of the limits in the sum"]
				: []),
			...(room > 0
				? [
						`a: room for what soaks may have left${verdict.soakAllowance.steps.length === 0 ? "" : ` (${verdict.soakAllowance.steps.join("; ")})`}`,
					]
				: []),
			"an end has no uncertainty of its own",
		].join("; "),
	});
}

/** What a difference is the sum of, in lines of their own. */
function partsOf(
	r: Reckoning,
	g: Ground,
): readonly {
	readonly line: LedgerRow;
	readonly weight: number;
	readonly flask: string;
	readonly treatment: string;
}[] {
	return r.weighed.is === "flasks"
		? flaskLines(r, g).map(([line, { weight, observation }]) => ({
				line,
				weight,
				flask: observation.name,
				treatment: observation.treatment,
			}))
		: isothermLines(r, g).map(({ line, weight }) => ({
				line,
				weight,
				flask: "",
				treatment: weight > 0 ? g.verdict.treatment : g.verdict.control,
			}));
}

interface FirstLines {
	readonly difference: LedgerRow;
	/** That stand above it. */
	readonly above: readonly LedgerRow[];
	readonly weighed: readonly ReportedWeighed[];
}

/** A difference and what it is the sum of. */
function estimateLines(r: Reckoning, g: Ground): FirstLines {
	const parts = partsOf(r, g);
	return {
		difference: differenceLine(r, g, parts),
		above: parts.map(({ line }) => line),
		weighed: parts.map(({ line, weight, flask, treatment }) => ({
			flask,
			treatment,
			weight,
			uptake: line.value,
			line: line.id,
		})),
	};
}

/** A difference of which one end is known: its flasks are carried along the slopes that give that end, inside its sum. */
function limitLines(
	r: Reckoning,
	g: Ground,
	end: "lower" | "upper",
): FirstLines {
	return {
		difference: differenceAlong(r, g, end),
		above: [],
		weighed: weighedFlasks(r, g.comparison.compared).map(
			({ observation: o, weight, value }) => ({
				flask: o.name,
				treatment: o.treatment,
				weight,
				uptake: value,
				line: g.ids.get(o.flask.uptake.quantity) ?? "",
			}),
		),
	};
}

/** The ends that a difference shows, each with what it was reckoned from. */
function endsOf(
	reckoned: Exclude<Reckoned, { is: "nothing" }>,
): readonly (readonly ["lower" | "upper", Reckoning])[] {
	switch (reckoned.is) {
		case "interval":
			return [
				["lower", reckoned.low],
				["upper", reckoned.high],
			];
		case "at least":
			return [["lower", reckoned.limit]];
		case "at most":
			return [["upper", reckoned.limit]];
	}
}

/** How many flasks or isotherms a difference weighs. */
export function weighedCount(
	{ reckoned }: TreatmentVerdict,
	{ compared }: Comparison,
): number {
	if (reckoned.is === "nothing") return 0;
	const first = firstReckoning(reckoned);
	return reckoned.is === "interval" && first.weighed.is === "isotherms"
		? 2
		: weighedFlasks(first, compared).length;
}

/** How one difference was reckoned; nothing where there is none. */
export function differenceLines(
	comparison: Comparison,
	verdict: TreatmentVerdict,
	ids: LineIds,
): DifferenceLines {
	const { reckoned } = verdict;
	if (reckoned.is === "nothing")
		return { lines: [], reckoned: { lines: [], weighed: [] } };
	const g: Ground = {
		asked: askedOf(comparison),
		comparison,
		verdict,
		ids,
		at: ids.get(comparison.at.residue) ?? "",
	};
	const ends = endsOf(reckoned);
	const first = firstReckoning(reckoned);
	const { difference, above, weighed } =
		reckoned.is === "interval"
			? estimateLines(first, g)
			: limitLines(first, g, ends[0][0]);
	const own = [
		difference,
		...ends.flatMap(([end, r]) => {
			const along = r === first ? difference : differenceAlong(r, g, end);
			return [...(r === first ? [] : [along]), endLine(r, g, end, along)];
		}),
	];
	return {
		lines: [...above, ...own],
		reckoned: { lines: own.map(({ id }) => id), weighed },
	};
}
