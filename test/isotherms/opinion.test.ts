import { describe, expect, test } from "vitest";
import hardCases from "../../data/reference/hard-cases.json";
import syntheticSets from "../../data/reference/synthetic-fits.json";
import {
	betLiquid,
	dualSiteLangmuir,
	dubininRadushkevich,
	fitIsotherm,
	fitTables,
	freundlich,
	henry,
	type Isotherm,
	langmuir,
	plainPoints,
	redlichPeterson,
	sips,
	temkin,
	toth,
} from "../../kernel-lib/isotherms/index";
import { opinionOn } from "../../kernel-lib/isotherms/opinion";
import { known, notKnown } from "../../kernel-lib/quantity/index";
import { goodLines, pointsOn } from "./plain-lines";

const models: Readonly<Record<string, Isotherm>> = {
	langmuir,
	dualSiteLangmuir,
	sips,
	toth,
};

/** What the page has to say of each hard case: which parameters are not to be relied on. */
const mustSay: Readonly<Record<string, RegExp>> = {
	"langmuir-in-henry-range": /^q_max is not determined by these data/,
	"langmuir-barely-curved-a":
		/^q_max is not determined by these data: the highest point reaches 11 % of the plateau/,
	"langmuir-barely-curved-b": /^q_max is not determined by these data/,
	"langmuir-barely-curved-c":
		/^q_max is not determined by these data: the highest point reaches 9.9 % of the plateau, and its interval holds only as far as the curve keeps its form/,
	"langmuir-open-upper": /^q_max is not determined by these data/,
	"langmuir-on-plateau":
		/^K_L is not determined by these data: already the lowest point reaches 95 % of the plateau/,
	"dual-site-on-exact-single-site": /^Do not quote q_1, b_1, q_2 and b_2/,
	"sips-on-freundlich-n5": /^q_max is not determined by these data/,
	"toth-on-freundlich-n5": /^q_max is not determined by these data/,
};

describe("data that cannot support an isotherm are not fitted with a straight face", () => {
	test.each(hardCases.cases.map((c) => [c.id, c] as const))("%s", (id, c) => {
		const fit = fitIsotherm(models[c.model], plainPoints(id, c.x, c.y));
		expect(fit.opinion.some((o) => mustSay[id].test(o))).toBe(true);
		const shown = JSON.stringify(fitTables(fit).quality);
		expect(shown).toContain("not ");
		expect(shown).not.toMatch(/NaN|Infinity|undefined/);
	});

	test("every hard case of the reference is an isotherm that is asked about", () => {
		expect(hardCases.cases.map((c) => c.id).sort()).toEqual(
			Object.keys(mustSay).sort(),
		);
	});
});

/** Sets of the reference whose points show all that the isotherm needs. */
const goodSets: Readonly<Record<string, Isotherm>> = {
	"henry-1": henry,
	"langmuir-1": langmuir,
	"freundlich-1": freundlich,
	"sips-1": sips,
	"toth-1": toth,
	"redlich-peterson-1": redlichPeterson,
	"temkin-1": temkin,
	"dr-polanyi-1": dubininRadushkevich(298.15, {
		form: "solubility",
		solubility: 1300,
	}),
	"dual-site-langmuir-1": dualSiteLangmuir,
	"bet-liquid-1": betLiquid(250),
};

const setOf = (id: string) => {
	const set = syntheticSets.sets.find((s) => s.id === id);
	if (set === undefined) throw new Error(`no set ${id}`);
	return set;
};

describe("good data raise no alarm", () => {
	test.each(Object.entries(goodSets))("%s", (id, isotherm) => {
		const { x, y } = setOf(id);
		const fit = fitIsotherm(isotherm, plainPoints(id, x, y));
		for (const o of fit.opinion) expect(o).toMatch(/^Strongly correlated/);
	});

	test("a good trial on balance lines has nothing to remark", () => {
		const fit = fitIsotherm(
			langmuir,
			pointsOn(langmuir, [350, 0.01], goodLines, {
				errors: [3, -4, 1, 5, -2, -5, 4, 2, -3],
			}),
		);
		expect(fit.opinion).toEqual([]);
	});

	test("points that show a third of the plateau are told so, however narrow the interval", () => {
		const { x, y } = setOf("dr-one-over-c-1");
		const isotherm = dubininRadushkevich(298.15, {
			form: "one over C",
			molarMass: 0.001,
		});
		const fit = fitIsotherm(isotherm, plainPoints("d", x, y));
		expect(fit.opinion[0]).toMatch(
			/^q_s is not determined by these data: the highest point reaches 34 % of the plateau, and its interval/,
		);
	});
});

describe("what to do next is said", () => {
	const foot = [40, 60, 80, 100, 120, 140].map((intercept) => ({
		intercept,
		slope: 0.1,
	}));

	test("more iodine for each gram, where the plateau was not reached", () => {
		const fit = fitIsotherm(
			langmuir,
			pointsOn(langmuir, [400, 0.0004], foot, {
				errors: [6, -7, 2, 8, -9, 1],
			}),
		);
		expect(fit.opinion[0]).toMatch(
			/^q_max is not determined by these data: the highest point reaches \d+ % of the plateau; add flasks at a residue of about \d+ mg\/L or more, which needs stronger iodine or less dilution/,
		);
	});

	test("the amount of iodine, where the flasks could hold it", () => {
		const lines = [
			...foot.slice(0, 5),
			{ intercept: 125, slope: 0.02 },
			{ intercept: 128, slope: 0.02 },
		];
		const fit = fitIsotherm(
			langmuir,
			pointsOn(langmuir, [400, 0.0004], lines, {
				errors: [6, -7, 2, 8, -9, 1, 3],
			}),
		);
		const said = fit.opinion.find((o) => o.startsWith("q_max"));
		expect(said).toMatch(
			/residue of about \d+ mg\/L or more: about \d+ mg of iodine for each gram of char in \d+ mL of liquid per gram/,
		);
	});

	test("what is taken up is called by its name; where none is told, nothing is invented", () => {
		const said = (probe: string, intercepts: number[]): string =>
			fitIsotherm(
				langmuir,
				pointsOn(
					langmuir,
					[400, 0.0004],
					intercepts.map((intercept) => ({ intercept, slope: 0.1 })),
					{ errors: [6, -7, 2, 8, -9, 1], probe },
				),
			).opinion.join("\n");
		const foots = foot.map((f) => f.intercept);
		expect(said("methylene blue", foots)).toContain(
			"which needs stronger methylene blue or less dilution",
		);
		expect(said("", foots)).toContain(
			"which needs a stronger solution or less dilution",
		);
		const onPlateau = (probe: string): string =>
			fitIsotherm(
				langmuir,
				pointsOn(
					langmuir,
					[300, 0.5],
					[400, 500, 600, 700, 800, 900].map((intercept) => ({
						intercept,
						slope: 0.1,
					})),
					{ errors: [30, -40, 20, -30, 20, 10], probe },
				),
			).opinion.join("\n");
		expect(onPlateau("methylene blue")).toContain(
			"(more char, or less methylene blue)",
		);
		expect(onPlateau("")).toContain("(more char, or less solute)");
	});

	test("few points, a short range, and bounds are named", () => {
		const lines = [
			{ intercept: 20, slope: 0.1 },
			...[500, 520, 540, 560].map((intercept) => ({ intercept, slope: 0.1 })),
		];
		const { opinion } = fitIsotherm(
			freundlich,
			pointsOn(freundlich, [80, 0.2], lines, {
				errors: [0, 5, -4, 3, -5],
				limit: 5,
			}),
		);
		const all = opinion.join("\n");
		expect(all).toMatch(/4 points for 2 parameters are few/);
		expect(all).toMatch(/The residues span a factor of \d(\.\d)? only/);
		expect(all).toMatch(/Ran dry and counted as bounds: flask 1\./);
	});

	test("the ordinary fit says that bounds have no place in it", () => {
		const points = pointsOn(
			langmuir,
			[350, 0.01],
			[{ intercept: 20, slope: 0.1 }, ...goodLines],
			{ limit: 10 },
		);
		const { opinion } = fitIsotherm(langmuir, points, {
			method: "uptake on concentration",
		});
		expect(opinion.join("\n")).toContain(
			"Ran dry and left out, for the ordinary fit has no place for a bound: flask 1.",
		);
	});

	test("an error that all flasks share is named when it rules", () => {
		const points = pointsOn(langmuir, [350, 0.01], goodLines, {
			errors: [3, -4, 1, 5, -2, -5, 4, 2, -3],
		});
		const { opinion } = fitIsotherm(langmuir, {
			...points,
			shared: [
				{
					key: "m",
					what: "calibration error of the balance",
					degreesOfFreedom: Number.POSITIVE_INFINITY,
					concentration: new Float64Array(goodLines.length),
					uptake: Float64Array.from(points.points, (p) => 0.02 * p.uptake),
				},
			],
		});
		expect(opinion.join("\n")).toMatch(
			/Most of the uncertainty of q_max.* is shared by all flasks \(first of all: calibration error of the balance\)/,
		);
	});

	test("errors taken as they were read are said to leave out what else scatters", () => {
		const { opinion } = fitIsotherm(
			langmuir,
			pointsOn(langmuir, [350, 0.01], goodLines),
			{ sigmaIsAbsolute: true },
		);
		expect(opinion.join("\n")).toContain(
			"The errors are those of the readings alone",
		);
	});
});

describe("where each remark begins", () => {
	const good = fitIsotherm(
		langmuir,
		pointsOn(langmuir, [350, 0.01], goodLines, {
			errors: [3, -4, 1, 5, -2, -5, 4, 2, -3],
		}),
	);
	/** The residue at which a Langmuir curve reaches this share of its plateau. */
	const residueAt = (share: number): number =>
		share / (1 - share) / good.theta[1];
	const said = (change: Partial<typeof good>): string =>
		opinionOn({ ...good, ...change }).join("\n");
	/** The parameters, the first with an interval of so many times its value to each side. */
	const asWide = (half: number): typeof good.parameters =>
		good.parameters.map((p, j) =>
			j > 0
				? p
				: {
						...p,
						profile: known({
							low: { kind: "closed" as const, value: p.value * (1 - half) },
							high: { kind: "closed" as const, value: p.value * (1 + half) },
							confidence: 0.95,
							method: "",
						}),
					},
		);

	test("an interval of half the value to each side is quoted, a wider one is not", () => {
		expect(said({ parameters: asWide(0.499) })).not.toContain("Do not quote");
		expect(said({ parameters: asWide(0.501) })).toContain("Do not quote q_max");
	});

	test("a plateau is seen from four fifths on where the interval is wide, from half on where it is narrow", () => {
		const upTo = (share: number): typeof good.range => ({
			low: 1,
			high: residueAt(share),
		});
		const parameters = asWide(0.6);
		const missing = "q_max is not determined by these data";
		expect(said({ parameters, range: upTo(0.799) })).toContain(missing);
		expect(said({ parameters, range: upTo(0.801) })).not.toContain(missing);
		expect(said({ range: upTo(0.499) })).toContain(missing);
		expect(said({ range: upTo(0.501) })).not.toContain(missing);
	});

	test("points from seven tenths of the plateau on say nothing of the rise", () => {
		const [plateau, affinity] = good.parameters;
		const parameters = [plateau, { ...affinity, profile: notKnown("open") }];
		const from = (share: number): string =>
			said({ parameters, range: { low: residueAt(share), high: 1e5 } });
		const missing = "K_L is not determined by these data: already the lowest";
		expect(from(0.701)).toContain(missing);
		expect(from(0.699)).not.toContain(missing);
	});

	test("residues that span a factor of five are enough", () => {
		const span = (factor: number): string =>
			said({ range: { low: 500, high: 500 * factor } });
		expect(span(4.99)).toContain("The residues span a factor of 5 only");
		expect(span(5.01)).not.toContain("span");
	});

	test("shared errors are named from half of the variance on", () => {
		const sharing = (share: number): string =>
			said({
				parameters: good.parameters.map((p) => ({
					...p,
					standardError: known(1),
					shared: known(Math.sqrt(share)),
				})),
				sharedShifts: [
					{
						key: "t",
						what: "the titrant",
						degreesOfFreedom: 5,
						effect: Float64Array.of(1, 1),
					},
				],
			});
		expect(sharing(0.501)).toContain("(first of all: the titrant)");
		expect(sharing(0.499)).not.toContain("first of all");
	});

	test("two points a parameter and two more are enough", () => {
		const few = (count: number): string =>
			said({ used: good.used.slice(0, count) });
		expect(few(5)).toContain("5 points for 2 parameters are few");
		expect(few(6)).not.toContain("are few");
	});
});
