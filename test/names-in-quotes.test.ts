/** A name that a sheet gives stands in double quotes wherever the library says a sentence: a treatment called "safe to drink" must never read as words of this program. */
import { afterAll, expect, test } from "vitest";
import * as library from "../kernel-lib/index";
import { ProblemError } from "../kernel-lib/quantity/index";
import { markedSheet } from "./marked-sheets";
import { charRow } from "./uptake/sheets";

type Callable = (...args: never[]) => unknown;

const { activation, bench, compare, dose, figures, isotherms } = library;
const { mixtures, properties, temperature, uptake, words } = library;

const sheets = {
	kiln: markedSheet("demo-activation", "kiln"),
	hazelnut: markedSheet("demo-run", "hazelnut"),
	dye: markedSheet("demo-dye", "dye"),
	doses: markedSheet("demo-isotherm", "isotherm"),
	numbers: markedSheet("demo-isotherm", "iodine-number"),
	barrel: markedSheet("demo-dose", "rain-barrel"),
	chars: markedSheet("demo-properties", "chars"),
};
afterAll(() => {
	for (const sheet of Object.values(sheets)) sheet.remove();
});

/** Little is recorded, nothing is alike, and deviations touch a flask, a solution, a firing and its readings. */
const faulty = bench.trialFromRows({
	flasks: [
		charRow("c1", { treatment: "Zq1", "char batch": "Zq2", soak: "Zq3" }),
		charRow("c2", { treatment: "Zq1", "char batch": "Zq2", "titre (mL)": 0 }),
		charRow("t1", {
			treatment: "Zq4",
			control: "Zq1",
			"char batch": "Zq5",
			soak: "Zq3",
			"titre (mL)": 3,
		}),
		charRow("t2", { treatment: "Zq4", control: "Zq1", "char batch": "Zq5" }),
		charRow("t3", { treatment: "Zq6", control: "Zq1", "titre (mL)": 0 }),
	],
	solutions: [
		{
			solution: "Zq7",
			substance: "iodine",
			"concentration (mol/L)": 0.05,
			counts: "I2",
		},
		{
			solution: "Zq8",
			substance: "sodium thiosulfate",
			"concentration (mol/L)": 0.1,
		},
	],
	activation: [
		{
			firing: "Zq3",
			"precursor mass (g)": 40,
			"rinse 1 (mL)": 100,
			"rinse 1 pH": 7,
		},
		{
			firing: "Zq9",
			"precursor mass (g)": 40,
			"precursor batch": "Zq3",
			"rinse 1 (mL)": 100,
			"rinse 1 pH": 7,
		},
	],
	deviations: [
		{ flask: "t2", "what happened": "tilted", handling: "keep" },
		{ firing: "Zq9", "what happened": "smoked", handling: "keep" },
		{
			firing: "Zq3",
			part: "rinse 1",
			"what happened": "spilt",
			handling: "leave out",
		},
	],
});
const trials = {
	kiln: bench.readTrial(sheets.kiln.path),
	hazelnut: bench.readTrial(sheets.hazelnut.path),
	dye: bench.readTrial(sheets.dye.path),
	doses: bench.readTrial(sheets.doses.path),
	numbers: bench.readTrial(sheets.numbers.path),
	barrel: bench.readTrial(sheets.barrel.path),
	faulty,
};
const chars = properties.readProperties(sheets.chars.path);
const margin = compare.marginOf(25);
const firedTwice = sheets.doses.marker("fired twice");

/** What was said, and where it was found. */
interface Said {
	readonly where: string;
	readonly text: string;
}

/** Labels, not sentences: entries of keys, heads of tables, marks of axes, texts on pointing, symbols, and what programs look things up by. */
const labels =
	/\.(?:name|names|symbol|hover|label|columns|layers|x|y|id|key|hash|extra)$/;

/** A cell of a table is a label, unless it ends as a sentence does. */
const isCell = ({ where, text }: Said): boolean =>
	where.endsWith(".rows") && !text.endsWith(".");

/** Every text below a result that is no label. */
function saidIn(result: unknown, where: string, seen: Set<object>): Said[] {
	if (typeof result === "string") return [{ where, text: result }];
	if (
		typeof result !== "object" ||
		result === null ||
		ArrayBuffer.isView(result) ||
		seen.has(result)
	)
		return [];
	seen.add(result);
	if ("standardUncertainty" in result && "name" in result) {
		const { meaning } = result.name as { readonly meaning: string };
		return [{ where: `${where}.meaning`, text: meaning }];
	}
	return Object.getOwnPropertyNames(result).flatMap((key) => {
		const at = Array.isArray(result) ? where : `${where}.${key}`;
		return labels.test(at)
			? []
			: saidIn((result as Record<string, unknown>)[key], at, seen);
	});
}

const marker = /Zq\d+/;

/** What names a soak follows its noun and needs no quotes. */
const afterSoak = /\b[Ss]oak Zq\d+/g;

/** Whether a name reads as the library's words; a text that is a name and nothing else is a field. */
function readsAsOurs(text: string): boolean {
	return (
		!/^Zq\d+$/.test(text) &&
		marker.test(text.replace(/"[^"]*"/g, "").replace(afterSoak, ""))
	);
}

/** What a call gives; the problem in words where it refuses what it was given. */
function given(call: () => unknown): unknown {
	try {
		return call();
	} catch (error) {
		if (error instanceof ProblemError) return error.message;
		throw error;
	}
}

/** Rooms whose functions take a trial or a comparison and nothing else. */
const rooms = {
	activation,
	cautions: library.cautions,
	compare,
	figures,
	residue: library.residue,
	solutions: library.solutions,
	uptake,
	words,
};

/** A frame has cells only, and comparisons are looked through once, below: what hangs on each decision takes long. */
const elsewhere = ["uptake.uptakeFrame", "compare.compareTreatments"];

/** Every function of these rooms with each trial, each comparison, the table of chars. */
function ofRooms(): [string, () => unknown][] {
	const comparisons = [trials.hazelnut, trials.dye, faulty].map((trial) =>
		compare.compareTreatments(trial, { margin }),
	);
	const atHand: unknown[][] = [
		...Object.values(trials).map((trial) => [trial]),
		...comparisons.flatMap((c) => [[c], [c, c.verdicts[0]]]),
		[chars],
		[properties.charProperties(chars)],
	];
	return Object.entries(rooms).flatMap(([room, members]) =>
		Object.entries(members).flatMap(([name, call]) =>
			typeof call !== "function" ||
			!/^[a-z]/.test(name) ||
			elsewhere.includes(`${room}.${name}`)
				? []
				: atHand.map((args): [string, () => unknown] => [
						`${room}.${name}`,
						() => (call as Callable)(...(args as never[])),
					]),
		),
	);
}

/** Calls that take more. */
function others(): Record<string, () => unknown> {
	const points = isotherms.isothermPoints(trials.doses, firedTwice);
	const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
	const [barrel] = isotherms.isothermPoints(trials.barrel);
	const inBarrel = isotherms.fitIsotherm(isotherms.freundlich, barrel);
	const ranked = isotherms.rankIsotherms(points, {
		isotherms: [isotherms.langmuir, isotherms.freundlich],
	});
	const removal = dose.removalCurve(inBarrel);
	const [low, high] = ["Zq21", "Zq22"].map((name) =>
		isotherms.fitIsotherm(
			isotherms.langmuir,
			isotherms.plainPoints(name, [10, 30, 90, 190], [50, 75, 90, 95]),
		),
	);
	const series = temperature.temperatureSeries([low, high], {
		celsius: { Zq21: 15, Zq22: 35 },
	});
	const steps = temperature.temperatureSteps(series, { molarMass: 100 });
	const vanTHoff = temperature.vanTHoff(steps, { name: "Zq23" });
	const solutes = ["Zq24", "Zq25"].map((name) => ({
		name,
		fit: low,
		molarMass: 100,
		start: 50,
	}));
	const found = uptake.uptakes(trials.hazelnut);
	const several = compare.compareTreatments(trials.doses, {
		margin,
		residue: compare.residueOf(300),
		isotherms: [isotherms.langmuir],
	});
	return {
		"isotherms.fitIsotherm": () => [points, fit],
		"isotherms.fitTables": () => isotherms.fitTables(fit),
		"isotherms.rankIsotherms": () => [ranked, ranked.table],
		"isotherms.averagedTable": () => isotherms.averagedTable([ranked], 300),
		"isotherms.isothermPoints": () =>
			isotherms.isothermPoints(trials.doses, "nobody"),
		"figures.isotherms": () => figures.isotherms([fit]),
		"figures.isotherms of two": () => figures.isotherms([low, high]),
		"dose.naturalBackground": () =>
			dose.naturalBackground(isotherms.langmuir, points),
		"dose.doseForTarget": () =>
			dose.doseForTarget(inBarrel, { start: 100, target: 10, beyond: "mark" }),
		"dose.removalCurve": () => removal,
		"figures.doseAndRemoval": () => figures.doseAndRemoval([removal]),
		"temperature.vanTHoff": () => [series, steps, vanTHoff],
		"figures.vanTHoffLine": () => figures.vanTHoffLine(vanTHoff),
		"mixtures.doseInMixture": () =>
			mixtures.doseInMixture("competitive Langmuir", solutes, {
				solute: "Zq24",
				target: 5,
				beyond: "mark",
			}),
		"mixtures.mixtureCurves": () =>
			mixtures.mixtureCurves("competitive Langmuir", solutes, "Zq26"),
		"figures.course": () =>
			[
				...activation.washouts(trials.kiln),
				...activation.dryings(trials.kiln),
			].map(figures.course),
		"figures.uptakeAgainstCondition": () =>
			figures.uptakeAgainstCondition(trials.kiln, "burn-off"),
		"uptake.costTable": () =>
			uptake.costTable(trials.kiln, { currency: "EUR", perKilowattHour: 0.3 }),
		"figures.particleSizeCurves": () =>
			figures.particleSizeCurves(chars.sievings),
		"figures.iodineNumberLine": () =>
			uptake.iodineNumbers(trials.numbers).map(figures.iodineNumberLine),
		"figures.charLots": () => figures.charLots(trials.kiln),
		"figures.gramsOfChar": () => figures.gramsOfChar(chars),
		"words.iodineNumberAnswer": () =>
			words.iodineNumberAnswer(uptake.iodineNumbers(trials.numbers)),
		"words.solutionsAnswer": () =>
			words.solutionsAnswer(
				[],
				library.solutions.concentrations(trials.hazelnut),
			),
		"properties.grainDensities": () => properties.grainDensities(chars),
		"properties.uptakesOfChars": () => properties.uptakesOfChars(chars, found),
		"compare on isotherms": () => [
			several,
			several.verdicts.map((v) => words.verdictSentence(several, v)),
			words.methodTable(several),
			words.nextSteps(several),
			figures.flasksAgainstControl(several),
			figures.differences(several),
		],
		"compare.compareTreatments": () =>
			compare.compareTreatments(faulty, { margin }),
		"quantity.budget": () =>
			library.quantity.budget(found[0].computedUptake).table.title,
	};
}

/** Functions whose results say names. */
const sayNames = `
activation.dryings activation.massBalances activation.washouts activation.yields
cautions.notConcluded cautions.notConcludedFromActivation cautions.notConcludedFromProperties
compare.compareTreatments compare.severalDoses
dose.doseForTarget dose.naturalBackground dose.removalCurve
figures.balanceLadder figures.charLots figures.course figures.differences figures.doseAndRemoval figures.flasksAgainstControl
figures.gramsOfChar figures.iodineNumberLine figures.isotherms figures.particleSizeCurves figures.residueAndUptake
figures.uptakeAgainstCondition figures.vanTHoffLine
isotherms.fitIsotherm isotherms.fitTables isotherms.isothermPoints isotherms.rankIsotherms
mixtures.doseInMixture mixtures.mixtureCurves
properties.grainDensities
residue.calibrationLines residue.residues solutions.concentrations
temperature.vanTHoff
uptake.iodineNumbers uptake.uptakes uptake.uptakesByFiring
words.charAnswer words.charNextSteps words.comparisonTable words.firingAnswer words.firingNextSteps
words.iodineNumberAnswer words.methodTable words.nextSteps words.solutionsAnswer words.verdictSentence
`
	.trim()
	.split(/\s+/);

test("names of a sheet stand in quotes in sentences, titles, captions and alt texts", () => {
	const seen = new Set<object>();
	const said = [...ofRooms(), ...Object.entries(others())]
		.flatMap(([name, call]) => saidIn(given(call), name, seen))
		.filter((s) => marker.test(s.text) && !isCell(s));
	const ours = said.filter(({ text }) => readsAsOurs(text));
	expect([...new Set(ours.map((s) => `${s.where}: ${s.text}`))]).toEqual([]);
	// The check looks at something: all that says names was heard.
	const heard = new Set(said.map(({ where }) => where.split(".", 2).join(".")));
	expect(sayNames.filter((name) => !heard.has(name))).toEqual([]);
});

test.each([
	["Zq1: dry", true],
	['"Zq1": dry', false],
	['"Zq1" against Zq2', true],
	["Soak Zq1 ran dry", false],
	["Zq1", false],
])("%s: read as words of the library: %s", (text, is) => {
	expect(readsAsOurs(text)).toBe(is);
});
