import {
	defineModel,
	type Fit,
	type FitOptions,
	fit as fitCurve,
	type Model,
	profileIntervals,
} from "../../kernel-lib/fit";
import {
	freundlich,
	plainPoints,
	straightLines,
} from "../../kernel-lib/isotherms/index";
import { type Check, type Provenance, referenceData } from "./check";

interface PublicSet {
	readonly id: string;
	readonly source: string;
	readonly paramNames: readonly string[];
	readonly x: readonly number[];
	readonly y: readonly number[];
	readonly params: readonly number[];
	readonly se: readonly number[];
	readonly corr: number;
	readonly ssr: number;
	readonly residualSD: number;
	readonly waldCI95: readonly (readonly [number, number])[];
	readonly profileCI95_tBased: readonly (readonly [number, number])[];
	readonly aicc: number | null;
	readonly logLogOLS?: { readonly K: number; readonly nInv: number };
}

const { sets } = referenceData<{ sets: readonly PublicSet[] }>(
	"public-fits.json",
);

const hyperbola = defineModel({
	name: "hyperbola",
	formula: "y = Vm x / (K + x)",
	parameters: ["Vm", "K"],
	curve: (x, vm, k) => (vm * x) / (k + x),
});
const firstOrder = defineModel({
	name: "first order",
	formula: "y = A (1 - exp(-k t))",
	parameters: ["A", "k"],
	curve: (t, a, k) => -a * Math.expm1(-k * t),
});

/** The sets that have no certified values of their own elsewhere in the list of checks; start values are plain guesses, where a curve makes none. */
const fitted: Readonly<
	Record<string, { readonly model: Model; readonly options: FitOptions }>
> = {
	"Puromycin-treated": { model: hyperbola, options: { start: { K: 0.1 } } },
	"Puromycin-untreated": { model: hyperbola, options: { start: { K: 0.1 } } },
	BOD: { model: firstOrder, options: { start: { k: 1 } } },
	"GAC-handbook-Freundlich": { model: freundlich.model, options: {} },
};

const fits = new Map<string, Fit>();
function fitOf(set: PublicSet): Fit {
	const known = fits.get(set.id);
	if (known !== undefined) return known;
	const { model, options } = fitted[set.id];
	const made = fitCurve(model, { x: set.x, y: set.y }, options);
	fits.set(set.id, made);
	return made;
}

function endOf(
	interval: ReturnType<typeof profileIntervals>[number]["interval"],
	end: "low" | "high",
): number {
	if (interval.is === "not known") return Number.NaN;
	const limit = interval.value[end];
	return limit.kind === "closed" ? limit.value : Number.NaN;
}

function checksOf(set: PublicSet): Check[] {
	const common = {
		source: `${set.source}; fitted with SciPy; data/reference/public-fits.json`,
		provenance: "computed with a general library" as Provenance,
		unit: "",
	};
	const ends = ["low", "high"] as const;
	const { aicc } = set;
	return [
		...set.params.flatMap((expected, j): Check[] => [
			{
				...common,
				what: `${set.id}: ${set.paramNames[j]}`,
				expected,
				got: () => fitOf(set).theta[j],
				tolerance: 1e-7,
			},
			{
				...common,
				what: `${set.id}: standard error of ${set.paramNames[j]}`,
				expected: set.se[j],
				got: () => {
					const e = fitOf(set).parameters[j].standardError;
					return e.is === "value" ? e.value : Number.NaN;
				},
				tolerance: 1e-5,
			},
			...ends.flatMap((end, k): Check[] => [
				{
					...common,
					what: `${set.id}: symmetric interval of ${set.paramNames[j]}, ${end} end`,
					expected: set.waldCI95[j][k],
					got: () => endOf(fitOf(set).parameters[j].interval, end),
					tolerance: 1e-5,
				},
				{
					...common,
					what: `${set.id}: profile interval of ${set.paramNames[j]}, ${end} end`,
					expected: set.profileCI95_tBased[j][k],
					got: () =>
						endOf(profileIntervals(fitOf(set), { rule: "F" })[j].interval, end),
					tolerance: 1e-5,
				},
			]),
		]),
		{
			...common,
			what: `${set.id}: correlation of the parameters`,
			expected: set.corr,
			got: () => {
				const { correlation } = fitOf(set);
				return correlation.is === "value" ? correlation.value[1] : Number.NaN;
			},
			tolerance: 1e-5,
		},
		{
			...common,
			what: `${set.id}: residual standard deviation`,
			expected: set.residualSD,
			got: () => {
				const { residualSD } = fitOf(set);
				return residualSD.is === "value" ? residualSD.value : Number.NaN;
			},
			tolerance: 1e-8,
		},
		...(aicc === null
			? [
					{
						...common,
						what: `${set.id}: AICc is not given for so few points (1 for not given)`,
						expected: 1,
						got: () => (fitOf(set).criteria.aicc.is === "not known" ? 1 : 0),
						tolerance: 0,
					},
				]
			: [
					{
						...common,
						what: `${set.id}: AICc`,
						expected: aicc,
						got: () => {
							const found = fitOf(set).criteria.aicc;
							return found.is === "value" ? found.value : Number.NaN;
						},
						tolerance: 1e-8,
					},
				]),
	];
}

interface StraightLineValues {
	readonly langmuir1: readonly {
		readonly form: string;
		readonly qm: number;
		readonly KL: number;
	}[];
	readonly freundlich1: {
		readonly form: string;
		readonly KF: number;
		readonly nInv: number;
	};
}

const straight = referenceData<StraightLineValues>("linearised-fits.json");
const synthetic = referenceData<{
	sets: readonly {
		readonly id: string;
		readonly x: readonly number[];
		readonly y: readonly number[];
	}[];
}>("synthetic-fits.json").sets;

/** Parameters of one straight-line form for a set of points. */
function lineOf(
	points: { readonly x: readonly number[]; readonly y: readonly number[] },
	form: string,
): Float64Array {
	const lines = straightLines(plainPoints("points", points.x, points.y));
	const found = lines.find((l) => l.form.name === form);
	if (found === undefined) throw new Error(`no form "${form}"`);
	return found.theta;
}

function syntheticSet(id: string): (typeof synthetic)[number] {
	const set = synthetic.find((s) => s.id === id);
	if (set === undefined) throw new Error(`no set ${id}`);
	return set;
}

/** The reference names its forms "C/q vs C (...)"; ours read "C/q against C". */
const ourName = (form: string): string =>
	form.replace(/ \(.*\)$/, "").replace(" vs ", " against ");

const lineSource = {
	source:
		"straight line through transformed points with numpy; data/reference/linearised-fits.json",
	provenance: "computed with a general library" as const,
	tolerance: 1e-9,
	unit: "",
};

const handbook = sets.find((s) => s.id === "GAC-handbook-Freundlich");

export const straightLineChecks: Check[] = [
	...straight.langmuir1.flatMap((row): Check[] =>
		(["qm", "KL"] as const).map((name, j) => ({
			...lineSource,
			what: `langmuir-1, ${ourName(row.form)}: ${name}`,
			expected: row[name],
			got: () => lineOf(syntheticSet("langmuir-1"), ourName(row.form))[j],
		})),
	),
	...(["KF", "nInv"] as const).map((name, j) => ({
		...lineSource,
		what: `freundlich-1, ${ourName(straight.freundlich1.form)}: ${name}`,
		expected: straight.freundlich1[name],
		got: () =>
			lineOf(syntheticSet("freundlich-1"), ourName(straight.freundlich1.form))[
				j
			],
	})),
	...(handbook?.logLogOLS === undefined
		? []
		: (["K", "nInv"] as const).map((name, j) => ({
				...lineSource,
				source: `${handbook.source}; data/reference/public-fits.json`,
				provenance: "from memory" as const,
				what: `handbook example, ln q against ln C: ${name}`,
				expected: handbook.logLogOLS?.[name] ?? Number.NaN,
				got: () => lineOf(handbook, "ln q against ln C")[j],
			}))),
];

export const publicFitChecks: Check[] = sets
	.filter((set) => Object.hasOwn(fitted, set.id))
	.flatMap(checksOf);
