import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { dryProduct } from "../../kernel-lib/activation/index";
import type { Firing, TypedRow } from "../../kernel-lib/bench/index";
import {
	checkRows,
	columnGuide,
	firingFrame,
	firingReadings,
	firingsInUse,
	readTrial,
	trialFromRows,
} from "../../kernel-lib/bench/index";
import { cellText } from "../../kernel-lib/quantity/index";
import { firingOf, kilnOf } from "../activation/firings";
import { plain } from "./plain-run";
import { brief, csv, soundFlasks, soundSolutions } from "./rows";

const require = createRequire(import.meta.url);
let folder = "";
beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), "firings-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** A firing in which every column is filled and nothing is wrong. */
const full: TypedRow = {
	firing: "K1",
	precursor: "hazelnut shell",
	"precursor batch": "autumn",
	"precursor size": "2 to 4 mm",
	"precursor mass (g)": 50.02,
	"precursor moisture, wet basis (%)": 8,
	"precursor ash (%)": 1.2,
	"precursor carbon (%)": 49,
	agent: "K2CO3",
	"agent solution mass (g)": 120.5,
	"agent strength (% w/w)": 20,
	"soak time (h)": 24,
	"soak temperature (°C)": 22,
	"impregnated mass (g)": 90.11,
	"liquor drained (g)": 60.2,
	"liquor strength (%)": 21,
	"step 1 temperature (°C)": 450,
	"step 1 rate (°C/min)": 5,
	"step 1 hold (min)": 30,
	"step 1 atmosphere": "own gas under a lid",
	"step 2 temperature (°C)": 800,
	"step 2 hold (min)": 60,
	"step 2 atmosphere": "steam",
	"step 2 steam (g/min)": 1.5,
	"charred mass (g)": 33.04,
	"fired mass (g)": 25.51,
	"condensate (g)": 30.02,
	"gas mass (g)": 20.03,
	"rinse 1 (mL)": 200,
	"rinse 1 pH": 11.2,
	"rinse 1 conductivity (mS/cm)": 2.4,
	"rinse 1 diluted": 10,
	"rinse 2 (mL)": 200,
	"rinse 2 conductivity (mS/cm)": 3.1,
	"rinse water conductivity (mS/cm)": 0.012,
	"rinse water pH": 6.8,
	"reference strength (g/L)": 10,
	"reference conductivity (mS/cm)": 15.2,
	"fines caught (g)": 0.31,
	"dish mass (g)": 41.52,
	"drying 1 time (h)": 1,
	"drying 1 mass (g)": 60.21,
	"drying 2 time (h)": 3,
	"drying 2 mass (g)": 56.42,
	"product mass (g)": 14.87,
	"product moisture, wet basis (%)": 1,
	"product ash (%)": 4,
	"product volatile matter (%)": 9,
	"energy used (kWh)": 6.5,
	"fired on": "2031-05-03",
	"what happened": "nothing",
	notes: "lid sat well",
	weather: "rain",
};

function one(change: TypedRow = {}): Firing {
	return firingOf({ ...full, ...change });
}

function problems(...rows: readonly TypedRow[]): string[] {
	const checked = checkRows({ activation: rows });
	return checked.ok ? [] : checked.problems.map(brief);
}

describe("a row of the activation table", () => {
	const firing = one();

	test("carries every column", () => {
		expect(firing.precursorMass.in("g")).toBeCloseTo(50.02, 12);
		expect(firing.precursorMoisture).toMatchObject({
			recorded: true,
			value: { basis: "wet" },
		});
		expect(firing.agentAmount).toMatchObject({
			recorded: true,
			value: { as: "solution by mass" },
		});
		expect(firing.programme.map((s) => s.temperature.in("°C"))).toEqual([
			expect.closeTo(450, 9),
			expect.closeTo(800, 9),
		]);
		expect(firing.programme[1].rate.recorded).toBe(false);
		expect(firing.programme[1].atmosphere).toBe("steam");
		expect(firing.rinses.map((r) => r.diluted)).toEqual([10, 1]);
		expect(firing.rinses[1].pH.recorded).toBe(false);
		expect(firing.drying.map((w) => w.mass.in("g"))).toEqual([
			expect.closeTo(60.21 - 41.52, 9),
			expect.closeTo(56.42 - 41.52, 9),
		]);
		expect(firing.extra).toEqual({ weather: "rain" });
		const left = Object.entries(firing).filter(
			([, v]) => (v as { recorded?: boolean }).recorded === false,
		);
		expect(left).toEqual([]);
	});

	test("weighings of one dish share its error", () => {
		const [a, b] = firing.drying;
		expect(a.mass.standardUncertainty).toBeGreaterThan(0);
		expect(b.mass.standardUncertainty).toBeGreaterThan(0);
	});

	test("an empty cell is not recorded, and never 0", () => {
		const bare = firingOf({ firing: "B", "precursor mass (g)": 50 });
		for (const [key, value] of Object.entries(bare))
			if (typeof value === "object" && "recorded" in value)
				expect([key, value.recorded]).toEqual([key, false]);
		expect([bare.rinses, bare.drying, bare.programme]).toEqual([[], [], []]);
		expect(bare.agent).toBe("");
	});

	test("the last weighing of the drying stands in for a product mass that is not there, and this is said", () => {
		const { "product mass (g)": _, ...without } = full;
		const trial = kilnOf([without]);
		const product = dryProduct({
			...trial.firings[0],
			productMoisture: { recorded: false },
		});
		expect(product).toEqual({
			is: "value",
			quantity: trial.firings[0].drying[1].mass,
		});
		expect(trial.assumptions.join(" ")).toContain(
			"the last weighing of the drying is taken",
		);
	});
});

test("the units of the sheet change nothing", () => {
	const units: readonly (readonly [string, string, number])[] = [
		["precursor mass (g)", "precursor mass (kg)", 1e-3],
		["fired mass (g)", "fired mass (mg)", 1e3],
		["rinse 1 (mL)", "rinse 1 (L)", 1e-3],
		["rinse 2 conductivity (mS/cm)", "rinse 2 conductivity (µS/cm)", 1e3],
		["reference strength (g/L)", "reference strength (mg/L)", 1e3],
		["soak time (h)", "soak time (min)", 60],
		["drying 2 time (h)", "drying 2 time (min)", 60],
		["step 1 rate (°C/min)", "step 1 rate (°C/h)", 60],
		["step 2 steam (g/min)", "step 2 steam (g/h)", 60],
		["energy used (kWh)", "energy used (MJ)", 3.6],
		["product ash (%)", "product ash (fraction)", 0.01],
		[
			"precursor moisture, wet basis (%)",
			"precursor moisture, wet basis (fraction)",
			0.01,
		],
	];
	// The place of the last digit is stated, since other units show other digits.
	const glassware = [
		{
			piece: "balance",
			"used for": "activation",
			"readability (g)": 0.01,
			"tolerance (g)": 0.02,
		},
	];
	const shown = (rows: TypedRow): unknown =>
		JSON.parse(
			JSON.stringify(plain(firingOf(rows, glassware), 9), (key, value) =>
				key === "column" ? undefined : value,
			),
		);
	const other = Object.fromEntries(
		Object.entries(full).map(([head, value]) => {
			const change = units.find(([from]) => from === head);
			return change === undefined
				? [head, value]
				: [change[1], Number((Number(value) * change[2]).toPrecision(12))];
		}),
	);
	expect(shown(other)).toEqual(shown(full));
});

describe("what is wrong is found", () => {
	const sheetCases: readonly (readonly [string, TypedRow, string])[] = [
		["agent measured twice", { "agent mass (g)": 3 }, "agent-twice"],
		["agent without a name", { agent: "none" }, "agent-unnamed"],
		["strength missing", { "agent strength (% w/w)": "" }, "strength-missing"],
		[
			"a step without its temperature",
			{ "step 2 temperature (°C)": "" },
			"step-without-temperature",
		],
		["a rinse without volume", { "rinse 2 (mL)": "" }, "rinse-without-volume"],
		[
			"half a reference",
			{ "reference strength (g/L)": "" },
			"reference-incomplete",
		],
		[
			"a reference below the water",
			{ "reference conductivity (mS/cm)": 0.01 },
			"reference-below-water",
		],
		[
			"a time without weighing",
			{ "drying 2 mass (g)": "" },
			"drying-incomplete",
		],
		["times out of order", { "drying 2 time (h)": 1 }, "drying-order"],
		["lighter than the dish", { "drying 2 mass (g)": 40 }, "lighter-than-dish"],
		[
			"parts above the whole",
			{ "product volatile matter (%)": 97 },
			"parts-above-whole",
		],
		[
			"moisture on both bases",
			{ "precursor moisture, dry basis (%)": 8.7 },
			"moisture-twice",
		],
		["no mass", { "precursor mass (g)": "" }, "cell-missing"],
		["a pH of 70", { "rinse 1 pH": 70 }, "out-of-range"],
	];
	for (const [name, change, code] of sheetCases)
		test(name, () => {
			expect(
				problems({ ...full, firing: "K0" }, { ...full, ...change }),
			).toEqual([
				expect.stringMatching(new RegExp(`^activation 3 .*: ${code}$`)),
			]);
		});

	test("a strength in % for a volume, whose density nobody knows", () => {
		const { "agent solution mass (g)": _, ...rest } = full;
		expect(problems({ ...rest, "agent solution volume (mL)": 100 })).toEqual([
			"activation 2 agent strength (% w/w): strength-unit",
		]);
	});

	test("all at once, those of the flasks too", () => {
		const rows = {
			flasks: soundFlasks.map((f) =>
				f.flask === "c2" ? { ...f, "char mass (g)": -1 } : f,
			),
			solutions: soundSolutions,
			activation: [
				full,
				{ ...full, "drying 2 time (h)": 0.5 },
				{ ...full, firing: "", agent: "" },
			],
		};
		let message = "";
		try {
			trialFromRows(rows);
		} catch (error) {
			message = String(error);
		}
		for (const words of [
			"char mass (g)",
			'the firing "K1" in rows 2 and 3',
			"which is not after the weighing before",
			"an amount of agent and no name for it",
		])
			expect(message).toContain(words);
	});

	test("a misspelt column that counts is no note but a problem", () => {
		expect(problems({ ...full, "fird mass (g)": 25 })).toEqual([
			expect.stringContaining("fird mass (g)"),
		]);
	});
});

describe("where the table may lie", () => {
	const flasks = soundFlasks.map((f) =>
		f.treatment === "potash" ? { ...f, soak: "K1" } : f,
	);
	const withFiring = trialFromRows({
		flasks,
		solutions: soundSolutions,
		activation: [full],
	});
	const same = (firing: object): unknown =>
		JSON.parse(JSON.stringify(plain(firing)));

	function write(name: string, content: string | Uint8Array): string {
		const path = join(folder, name);
		writeFileSync(path, content);
		return path;
	}

	test("beside the flasks, alone under any name, and from either path", () => {
		const trial = write("trial.csv", csv(flasks));
		write("trial.solutions.csv", csv(soundSolutions));
		const beside = write("trial.activation.csv", csv([full]));
		const alone = write("my kiln.csv", csv([full]));
		expect(same(readTrial(trial).firings[0])).toEqual(
			same(withFiring.firings[0]),
		);
		for (const path of [trial, beside, alone])
			expect(same(readTrial(path).firings[0])).toEqual(
				same(withFiring.firings[0]),
			);
	});

	test("as a sheet of a workbook", () => {
		const xlsx = require("xlsx");
		const book = xlsx.utils.book_new();
		for (const [name, rows] of [
			["flasks", flasks],
			["solutions", soundSolutions],
			["activation", [full]],
		] as const)
			xlsx.utils.book_append_sheet(book, xlsx.utils.json_to_sheet(rows), name);
		const path = write(
			"trial.xlsx",
			xlsx.write(book, { type: "buffer", bookType: "xlsx" }),
		);
		expect(same(readTrial(path).firings[0])).toEqual(
			same(withFiring.firings[0]),
		);
		expect(same(readTrial(path).firings[0])).toEqual(
			same(withFiring.firings[0]),
		);
	});

	test("alone: no flasks, no solutions, nothing to say of them", () => {
		const trial = readTrial(write("only.csv", csv([full])));
		expect([trial.flasks, trial.solutions, trial.notRecorded]).toEqual([
			[],
			[],
			[],
		]);
		expect(trial.assumptions.join(" ")).not.toContain("named by no flask");
		expect(trial.file).toBe("only.csv");
	});

	test("under the head of earlier sheets", () => {
		const { firing, ...rest } = full;
		const old = { "activation run": firing, ...rest };
		const { place, ...read } = readTrial(write("old kiln.csv", csv([old])))
			.firings[0];
		expect(place.column).toBe("activation run");
		expect(same(read)).toEqual(
			same({ ...withFiring.firings[0], place: undefined }),
		);
		expect(firingOf(old).name).toBe("K1");
		expect(problems({ ...full, "activation run": "K1" })).toEqual([
			expect.stringMatching(/cell-twice$/),
		]);
	});

	test("work that needs a firing says what to write where there is none", () => {
		expect(firingsInUse(withFiring)).toHaveLength(1);
		const path = write("none.csv", csv(flasks));
		write("none.solutions.csv", csv(soundSolutions));
		expect(() => firingsInUse(readTrial(path))).toThrow(
			/none\.activation\.csv/,
		);
	});

	test("a firing that no flask names is in the assumptions", () => {
		expect(withFiring.assumptions.join(" ")).not.toContain("named by no flask");
		expect(
			trialFromRows({
				flasks,
				solutions: soundSolutions,
				activation: [full, { ...full, firing: "K2" }],
			}).assumptions.join(" "),
		).toContain('"K2" is named by no flask');
	});

	test("case and extra spaces make no other firing", () => {
		expect(
			trialFromRows({
				flasks,
				solutions: soundSolutions,
				activation: [{ ...full, firing: "k1" }],
			}).assumptions.join(" "),
		).not.toContain("named by no flask");
		expect(
			problems(
				{ ...full, firing: "steam 30" },
				{ ...full, firing: "Steam  30" },
			),
		).toEqual([expect.stringMatching(/firing-twice$/)]);
	});
});

describe("frames and guide", () => {
	const trial = kilnOf([full, { firing: "B", "precursor mass (g)": 40 }]);

	test("readings as they stand in the sheet, a row a firing", () => {
		const readings = firingReadings(trial);
		const cell = (row: number, head: string): string => {
			const at = readings.columns.indexOf(head);
			expect([head, at]).not.toEqual([head, -1]);
			return cellText(readings.rows[row][at], head);
		};
		expect(readings.rows.length).toBe(2);
		expect(cell(0, "rinse 1 conductivity (mS/cm)")).toBe("2.4");
		expect(cell(0, "rinse 1 diluted")).toBe("10");
		expect(cell(0, "step 2 steam (g/min)")).toBe("1.5");
		expect(cell(0, "drying 2 mass without dish (g)")).toBe("14.9");
		expect(cell(1, "precursor mass (g)")).toBe("40");
		expect(cell(1, "fired mass (g)")).toBe("");
	});

	test("a data frame, units in the names", () => {
		const frame = firingFrame(trial);
		expect(frame.shape[0]).toBe(2);
		expect(frame.column("fired mass (g)").values).toEqual([25.51, Number.NaN]);
	});

	test("the column guide lists the table", () => {
		const rows = columnGuide().rows.map((r) => r.map(String));
		const own = rows.filter((r) => r.includes("activation"));
		expect(own.length).toBeGreaterThan(45);
		expect(own.flat().join(" ")).toContain("rinse 1 pH");
	});
});
