// Invented numbers for the figures' tests and for the gallery: no measurement stands behind any of them.
import {
	type Deviation,
	type Flask,
	nothingOfASoak,
	readTrial,
} from "../../kernel-lib/bench/index";
import type {
	Comparison,
	DrawnFlask,
	GroupSummary,
	TreatmentVerdict,
} from "../../kernel-lib/compare/index";
import {
	type Figure,
	type FigureDescription,
	figure,
	seriesLook,
} from "../../kernel-lib/figures/index";
import type { Repeats } from "../../kernel-lib/isotherms/index";
import {
	exact,
	input,
	known,
	type Measured,
	normal,
	nowhere,
	type Quantity,
	table,
} from "../../kernel-lib/quantity/index";
import type { FlaskUptake } from "../../kernel-lib/uptake/index";

export const hostile = `<img src=x onerror="alert('&1')">`;

interface Sketch {
	name: string;
	treatment: string;
	day: string;
	uptake: number;
	residue: number;
	bound?: "at least" | "at most";
	withdrawn?: number;
	lost?: number;
	sample?: string;
	marks?: Flask["marks"];
}

function flask(sketch: Sketch): Flask {
	return {
		name: sketch.name,
		contents: "char",
		treatment: sketch.treatment,
		control: "",
		sample: sketch.sample ?? "hazelnut shell",
		charBatch: "A",
		soak: `${sketch.treatment.slice(0, 2)}${sketch.day}`,
		soakedIn: "",
		soaking: nothingOfASoak,
		soakConsumesIodine: "not recorded",
		replicate: "",
		day: sketch.day,
		charMass: { recorded: false },
		massBasis: "dry",
		moisture: { recorded: false },
		events: [],
		aliquot: input("volume", 25, "mL", normal(0.02), {}),
		titrations: [],
		readings: { recorded: false },
		liquorRetained: { recorded: false },
		leachateVolume: { recorded: false },
		leachateTaken: { recorded: false },
		acidified: "yes",
		firstRunningsDiscarded: "yes",
		blueReturned: "no",
		acidBoiled: "not recorded",
		groundFine: "not recorded",
		lid: "yes",
		finalPH: { recorded: false },
		dosedAt: { recorded: false },
		titratedAt: { recorded: false },
		contactTime: { recorded: false },
		particleSize: "",
		photographs: [],
		photographShows: "",
		notes: "",
		extra: {},
		marks: sketch.marks ?? [],
		place: nowhere,
	};
}

/** One gram of char in 100 mL. */
export function sketchedUptake(sketch: Sketch): FlaskUptake {
	const { withdrawn = 0, lost = 4, bound } = sketch;
	const mg = (value: number, u: number): Quantity<"mass"> =>
		input("mass", value, "mg", normal(u), {});
	const uptake = input("uptake", sketch.uptake, "mg/g", normal(5.2), {});
	const residue = input(
		"massConcentration",
		sketch.residue,
		"mg/L",
		normal(14),
		{},
	);
	const left = sketch.residue / 10;
	return {
		flask: flask(sketch),
		probe: "iodine",
		balance: {
			added: mg(sketch.uptake + left + withdrawn + lost, 2.1),
			takenUp: mg(sketch.uptake, 5.2),
			left: mg(left, 1.4),
			withdrawn: mg(withdrawn, withdrawn === 0 ? 0 : 0.6),
			lost: mg(lost, 1.1),
		},
		liquid: input("volume", 100, "mL", normal(0.1), {}),
		charMass: input("mass", 1, "g", normal(0.001), {}),
		perGram: "dry char",
		uptake: bound
			? { is: bound, quantity: uptake, because: "invented" }
			: { is: "value", quantity: uptake },
		atWithdrawals: [],
		computedUptake: uptake,
		residue:
			bound === "at least"
				? ({
						is: "at most",
						quantity: residue,
						because: "invented",
					} as Measured<"massConcentration">)
				: { is: "value", quantity: residue },
		demand: { is: "none expected" },
		soakMass: known({ most: 0, steps: [] }),
		ammonia: "none named",
		takenAs: [],
		lossesTakenOff: true,
		cautions: [],
		contradiction: "",
		likelyCause: "",
		nextDose: "",
	};
}

const layout: [string, number, number][] = [
	["water-soaked control", 301, 1510],
	["potash", 352, 1120],
	["washing soda", 318, 1350],
	["wood vinegar, 24 hours", 289, 1600],
	["fired once, under a lid", 330, 1260],
	["second firing under a lid", 512, 640],
];

/** 24 flasks in six treatments, two days; one ran dry, one withdrawal. */
export const uptakes: FlaskUptake[] = layout.flatMap(
	([treatment, uptake, residue], t) =>
		[0, 1, 2, 3].map((i) =>
			sketchedUptake({
				name: String(4 * t + i + 1),
				treatment,
				day: i < 2 ? "1" : "2",
				uptake: uptake + [-11, 6, 9, -4][i] + (t === 1 ? 14 * (i - 1) : 0),
				residue: t === 5 && i === 3 ? 22 : residue + [60, -25, -50, 30][i],
				...(t === 5 && i === 3 ? { bound: "at least" as const } : {}),
				...(t === 1 && i === 2 ? { withdrawn: 63 } : {}),
				...(t === 1 && i === 1
					? {
							marks: [
								{
									whatHappened: "flask cracked",
									handling: "leave out" as const,
								},
							],
						}
					: {}),
			}),
		),
);

export const touched: ReadonlySet<string> = new Set(["6"]);

const deviations: Deviation[] = [
	{
		targets: [{ is: "flask", name: "6", part: { is: "whole" } }],
		whatHappened: "flask cracked",
		handling: "leave out",
		place: nowhere,
	},
];

function group(
	treatment: string,
	mean: number,
	half: number,
	more: Partial<GroupSummary> = {},
): GroupSummary {
	return {
		treatment,
		units: 4,
		flasks: 4,
		boundFlasks: [],
		mean,
		low: mean - half,
		high: mean + half,
		residue: 1000,
		left: 1000,
		is: "value",
		...more,
	};
}

function verdict(
	treatment: string,
	control: string,
	word: TreatmentVerdict["word"],
	difference: TreatmentVerdict["difference"],
): TreatmentVerdict {
	return {
		treatment,
		control,
		word,
		numbersSay: word,
		obstacles: [],
		audited: [],
		residues: { is: "unknown" },
		units: { treated: 3, control: 3 },
		difference,
		otherwise: "higher",
		soakAllowance: { low: 0, high: 0, complete: true, steps: [] },
		reckoned: { is: "nothing" },
		working: table("", [], []),
		margin: known(20),
		ground: {
			claim: "difference",
			judged: [],
			provable: "any",
			forbidden: [],
		},
		exceedsMargin: false,
		replicates: { is: "enough" },
		withoutDeviations: word,
		withDeviations: word,
	};
}

function estimate(value: number, half: number): TreatmentVerdict["difference"] {
	return {
		is: "estimate",
		estimate: value,
		standardError: half / 2.6,
		low: value - half,
		high: value + half,
		oneSided: { low: value - 0.7 * half, high: value + 0.7 * half },
		degreesOfFreedom: 17,
		adjustedP: 0.01,
	};
}

const water = "water-soaked control";
const fired = "fired once, under a lid";

/** Flasks as a comparison would have them whose residues are all alike. */
export const observed = (flasks: readonly FlaskUptake[]): DrawnFlask[] =>
	flasks.map((flask) => {
		const q = flask.uptake.quantity.to("mg/g");
		return {
			flask,
			name: flask.flask.name,
			treatment: flask.flask.treatment,
			value: q.value,
			uncertainty: q.standardUncertainty,
			side: flask.uptake.is,
		};
	});

export const comparison: Comparison = {
	trial: { ...readTrial("data/demo-run/small-trial.csv"), deviations },
	flasks: uptakes,
	compared: [],
	deviations: { flasks: [], happened: [], elsewhere: [] },
	probe: "iodine",
	confidence: 0.95,
	at: {
		is: "carried",
		residue: input("massConcentration", 2500, "mg/L", exact, {}),
		statedBy: "the experimenter",
		slopes: new Map(),
		flasks: observed(uptakes),
	},
	margin: {
		is: "uptake",
		uptake: input("uptake", 20, "mg/g", normal(0), {}),
	},
	claim: "difference",
	sameness: "one-sided tests",
	scope: "treatment",
	groups: [
		group(water, 301, 11.3),
		group("potash", 359, 16.2),
		group("washing soda", 318, 11.9),
		group("wood vinegar, 24 hours", 289, 10.8),
		group(fired, 330, 10.6),
		group("second firing under a lid", 512, 14.4, {
			boundFlasks: ["24"],
		}),
	],
	decisions: [],
	verdicts: [
		verdict("potash", water, "cannot tell", estimate(58, 21.5)),
		verdict("washing soda", water, "cannot tell", estimate(17, 19)),
		verdict(
			"wood vinegar, 24 hours",
			water,
			"no difference that matters",
			estimate(-3.4, 15.2),
		),
		verdict("second firing under a lid", fired, "higher", {
			is: "at least",
			limit: 168,
			flasks: ["24"],
			without: { low: 168, high: 200 },
			atLimit: { low: 168, high: 200 },
		}),
	],
	method: {
		is: "carried",
		unit: "soak",
		units: new Map(),
		days: [],
		spread: {
			deviation: 11,
			degreesOfFreedom: 17,
			fromReadings: false,
			groups: new Map(),
		},
		simultaneous: {
			pairs: [],
			degreesOfFreedom: [17],
			criticalValues: [2.6],
			are: "computed",
		},
	},
	degreesOfFreedom: 17,
	pooledDeviation: 11,
};

/** Names as somebody would type them to do harm, or simply long. */
export const hostileUptakes: FlaskUptake[] = [
	sketchedUptake({
		name: hostile,
		sample: `${hostile}\u0000\u000b\ud800`,
		treatment: hostile,
		day: "<b>1</b>",
		uptake: 310,
		residue: 900,
	}),
	sketchedUptake({
		name: "=HYPERLINK(1)",
		treatment:
			"a very long name of a treatment that somebody wrote out in full so that nobody should ever be in doubt about what was done to the char",
		day: "<b>1</b>",
		uptake: -4,
		residue: 1200,
		lost: -6,
		bound: "at most",
	}),
	sketchedUptake({
		name: "$x^2$",
		treatment: "Pneumonoultramicroscopicsilicovolcanoconiosis-Kohle",
		day: "2",
		uptake: 290,
		residue: 700,
	}),
];

export const hostileComparison: Comparison = {
	...comparison,
	trial: { ...comparison.trial, deviations: [] },
	flasks: hostileUptakes,
	at:
		comparison.at.is === "carried"
			? { ...comparison.at, flasks: observed(hostileUptakes) }
			: comparison.at,
	groups: hostileUptakes.map((u) =>
		group(u.flask.treatment, u.uptake.quantity.in("mg/g"), 9),
	),
	verdicts: [
		verdict(
			hostileUptakes[1].flask.treatment,
			hostile,
			"lower",
			estimate(-314, 20),
		),
		verdict(hostileUptakes[2].flask.treatment, hostile, "cannot tell", {
			is: "not available",
			why: "contradiction",
		}),
	],
};

export const budgetRows = [
	{ name: "end point of the titration", share: 0.461 },
	{ name: "burette, calibration", share: 0.122 },
	{ name: "thiosulfate, standardisation against iodate", share: 0.287 },
	{ name: "pipette 25 mL", share: 0.064 },
	{ name: "char mass", share: 0.003 },
	{ name: "reagent blank of the day", share: 0.063 },
];

/** What three ways made of five trials. */
export const repeats: Repeats = {
	truth: { plateau: 387, affinity: 0.02 },
	flasks: "of the trial",
	trials: 5,
	confidence: 0.95,
	ways: [
		{
			name: "fitted curve",
			estimates: [384, 386, 387, 388, 391],
			covered: 0.95,
			median: 387,
			low: 384.2,
			high: 390.7,
		},
		{
			name: "1/q against 1/C",
			estimates: [290, 340, 380, 420, 590],
			covered: 0.99,
			median: 380,
			low: 295,
			high: 573,
		},
		{
			name: "C/q against C",
			estimates: [370, 376, 380, 385, 395],
			covered: 0.71,
			median: 380,
			low: 370.6,
			high: 394,
		},
	],
};

const grid = Array.from({ length: 41 }, (_, i) => i);

/** Every kind of layer that later figures need, on linear axes. */
export const isotherm: Figure = figure({
	title: "An isotherm with its bands (invented)",
	alt: "Invented isotherm: uptake rises from 120 to 480 mg/g between 20 and 1000 mg/L.",
	x: { label: "Residual concentration", unit: "mg/L", scale: { is: "linear" } },
	y: { label: "Uptake", unit: "mg/g", scale: { is: "linear", zero: true } },
	layers: [
		{
			is: "band",
			name: "95 % band of the curve",
			ink: "blue",
			points: grid.map((i) => {
				const q = (520 * i * 25) / (90 + i * 25);
				return { x: i * 25, low: q - 12 - i * 0.5, high: q + 12 + i * 0.5 };
			}),
		},
		{
			is: "line",
			name: "Langmuir",
			ink: "blue",
			dash: "solid",
			points: grid.map((i) => ({
				x: i * 25,
				y: (520 * i * 25) / (90 + i * 25),
			})),
		},
		{
			is: "line",
			name: "straight-line form",
			ink: "rust",
			dash: "dashed",
			points: grid.map((i) => ({
				x: i * 25,
				y: (470 * i * 25) / (60 + i * 25),
			})),
		},
		{
			is: "points",
			name: "flask",
			ink: "text",
			shape: "circle",
			points: [
				[28, 120],
				[95, 262],
				[210, 371],
				[480, 430],
				[960, 478],
			].map(([x, y], i) => ({
				x,
				y,
				xInterval: { low: x - 12, high: x + 12 },
				yInterval: { low: y - 15, high: y + 15 },
				hover: `flask ${i + 1}`,
				label: i === 4 ? "highest dose" : "",
			})),
		},
		{
			is: "region",
			name: "95 % region",
			ink: "teal",
			points: grid.map((i) => ({
				x: 700 + 90 * Math.cos((i * Math.PI) / 20),
				y: 180 + 60 * Math.sin((i * Math.PI) / 20),
			})),
		},
		{
			is: "reference line",
			name: "",
			axis: "y",
			at: 520,
			label: "plateau 520 mg/g",
			ink: "quiet",
			dash: "dotted",
		},
		{
			is: "reference line",
			name: "",
			axis: "x",
			at: 254,
			label: "0.02 N",
			ink: "quiet",
			dash: "dashed",
		},
		{
			is: "zone",
			name: "",
			axis: "x",
			from: 900,
			to: 1000,
			label: "extrapolated",
			ink: "quiet",
		},
		{
			is: "labels",
			labels: [{ x: 700, y: 180, text: "both parameters" }],
		},
	],
	notes: ["Invented."],
});

/** Log axes, bars upright, all series looks. */
export const logarithmic: Figure = figure({
	title: "Seven series on logarithmic axes (invented)",
	alt: "Invented: seven power laws.",
	x: { label: "Residue", unit: "mol/L", scale: { is: "log" } },
	y: { label: "Uptake", unit: "mg/g", scale: { is: "log" } },
	layers: [0, 1, 2, 3, 4, 5, 6].flatMap((s) => {
		const look = seriesLook(s);
		const points = [0.004, 0.012, 0.03, 0.08].map((x) => ({
			x,
			y: 3000 * (1 + s * 0.55) * x ** (0.3 + s * 0.02),
		}));
		return [
			{
				is: "line" as const,
				name: "",
				ink: look.ink,
				dash: look.dash,
				points,
			},
			{
				is: "points" as const,
				name: `series ${s + 1}`,
				ink: look.ink,
				shape: look.shape,
				points: points.map((p) => ({
					...p,
					yInterval: { low: p.y * 0.93, high: p.y * 1.07 },
					hover: `series ${s + 1}`,
					hollow: s === 6,
				})),
			},
		];
	}),
	notes: [],
});

export const uprightBars: FigureDescription = figure({
	title: "Yield and burn-off (invented)",
	alt: "Invented: three chars, yield and burn-off.",
	x: {
		label: "",
		unit: "",
		scale: { is: "categories", names: ["one hour", "two hours", "four hours"] },
	},
	y: { label: "Part of the mass", unit: "%", scale: { is: "linear" } },
	layers: [
		{
			is: "bars",
			name: "yield",
			ink: "teal",
			hatch: "rising",
			along: "y",
			width: 0.5,
			bars: [78, 61, 44].map((v, at) => ({
				at,
				from: 0,
				to: v,
				hover: `${v} %`,
			})),
		},
		{
			is: "bars",
			name: "burn-off",
			ink: "rust",
			hatch: "falling",
			along: "y",
			width: 0.5,
			bars: [78, 61, 44].map((v, at) => ({
				at,
				from: v,
				to: 100,
				hover: `${100 - v} %`,
			})),
		},
		{
			is: "reference line",
			name: "",
			axis: "y",
			at: 50,
			label: "half",
			ink: "text",
			dash: "dotted",
		},
		{
			is: "zone",
			name: "",
			axis: "y",
			from: 40,
			to: 60,
			label: "usual range",
			ink: "plum",
		},
	],
	notes: [],
});
