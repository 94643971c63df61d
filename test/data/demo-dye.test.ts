import { describe, expect, test } from "vitest";
import { files } from "../../data/demo-dye/make.mjs";
import {
	bench,
	compare,
	dose,
	isotherms,
	uptake,
} from "../../kernel-lib/index";
import { verdictReasons } from "../../kernel-lib/words";
import { pathOf, reader, testMadeByScript } from "./made-by-script";

const read = reader("demo-dye");

describe("the demo run with methylene blue", () => {
	testMadeByScript("demo-dye", files());
});

describe("what the library makes of it", () => {
	const truth = JSON.parse(read("truth.json")) as {
		readonly flasks: readonly {
			readonly flask: string;
			readonly uptake_mg_g: number;
			readonly residue_mg_L: number;
			readonly aboveTheLine: boolean;
		}[];
		readonly recovery: number;
	};
	const trial = bench.readTrial(pathOf("demo-dye", "dye.csv"));
	const recovered = uptake.recoveries(trial);
	const uptakes = uptake.uptakes(trial);

	test.each(truth.flasks)("flask $flask: its interval holds the truth", (t) => {
		const own = uptakes.find((u) => u.flask.name === t.flask);
		if (own === undefined) throw new Error(`no flask ${t.flask}`);
		const q = own.uptake.quantity;
		const c = own.residue.quantity;
		if (t.aboveTheLine) {
			expect(own.uptake.is).toBe("at most");
			expect(own.residue.is).toBe("at least");
			expect(t.uptake_mg_g).toBeLessThan(q.in("mg/g"));
			expect(t.residue_mg_L).toBeGreaterThan(c.in("mg/L"));
			return;
		}
		expect(own.uptake.is).toBe("value");
		// The stock is 1.2 % stronger than its label, less than one standard uncertainty.
		expect(Math.abs(q.in("mg/g") - t.uptake_mg_g)).toBeLessThan(
			3 * q.standardUncertainty,
		);
		expect(Math.abs(c.in("mg/L") - t.residue_mg_L)).toBeLessThan(
			3 * c.standardUncertainty,
		);
	});

	test("the balance of a flask above the calibration is bounds, that of all others values", () => {
		const { columns, rows } = uptakes.balances;
		const sides = rows.map((row) =>
			["taken up (mg)", "left (mg)"].map((column) => {
				const cell = row[columns.indexOf(column)];
				return typeof cell === "object" && "is" in cell ? cell.is : "value";
			}),
		);
		expect(uptakes.map((u, i) => [u.flask.name, ...sides[i]])).toEqual(
			uptakes.map((u) =>
				u.flask.name === "V3"
					? ["V3", "at most", "at least"]
					: [u.flask.name, "value", "value"],
			),
		);
	});

	test("one flask is above the calibration", () => {
		expect(truth.flasks.filter((f) => f.aboveTheLine)).toHaveLength(1);
	});

	test("what goes to glass and filter is found by the dye blanks", () => {
		for (const day of ["2031-05-12", "2031-05-13"]) {
			const r = recovered.forDay(day);
			if (r.is !== "measured") throw new Error("no recovery");
			expect(Math.abs(r.ratio.value - truth.recovery)).toBeLessThan(
				3 * r.ratio.standardUncertainty,
			);
		}
	});

	test("steam is higher; wood vinegar cannot be told while one of its flasks is only a bound", () => {
		const comparison = compare.compareTreatments(trial, {
			margin: compare.marginOf(8),
		});
		const { verdicts } = comparison;
		expect(verdicts.map((v) => [v.treatment, v.word])).toEqual([
			["second firing in steam", "higher"],
			["wood vinegar, rinsed", "cannot tell"],
		]);
		expect(verdictReasons(comparison, verdicts[1]).join()).toContain(
			"Dilute what is left of the filtrate",
		);
	});
});

describe("the demo run with several doses of methylene blue", () => {
	const { doses } = JSON.parse(read("truth.json")) as {
		readonly doses: {
			readonly langmuirK_L_per_mg: number;
			readonly treatments: readonly {
				readonly treatment: string;
				readonly qMax_mg_g: number;
			}[];
			readonly flasks: readonly {
				readonly flask: string;
				readonly residue_mg_L: number;
			}[];
		};
	};
	const trial = bench.readTrial(pathOf("demo-dye", "dye-doses.csv"));
	const { langmuirK_L_per_mg: k, treatments } = doses;

	test("is a control and a treatment with five doses of two soaks each, marked invented", () => {
		const chars = trial.flasks.filter((f) => f.contents === "char");
		for (const { treatment } of treatments) {
			const own = chars.filter((f) => f.treatment === treatment);
			expect(own).toHaveLength(10);
			expect(new Set(own.map((f) => f.soak)).size).toBe(2);
		}
		for (const name of [
			"dye-doses",
			"dye-doses.calibration",
			"dye-doses.solutions",
		])
			expect(read(`${name}.csv`).split("\n")[1]).toContain("invented");
	});

	test.each(doses.flasks)("flask $flask: its residue holds the truth", (t) => {
		const own = uptake.uptakes(trial).find((u) => u.flask.name === t.flask);
		if (own === undefined) throw new Error(`no flask ${t.flask}`);
		const c = own.residue.quantity;
		expect(Math.abs(c.in("mg/L") - t.residue_mg_L)).toBeLessThan(
			3.5 * c.standardUncertainty,
		);
	});

	test.each(treatments)(
		"$treatment: the dose for a target holds the true one",
		({ treatment, qMax_mg_g }) => {
			const points = isotherms.isothermPoints(trial, treatment);
			expect(points.probe).toBe("methylene blue");
			const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
			const answer = dose.doseForTarget(fit, { start: 150, target: 40 });
			if (answer.is !== "dose") throw new Error(answer.because);
			const { low, high } = answer.dose;
			if (low.is !== "value" || high.is !== "value") throw new Error("open");
			// (150 - 40) mg/L over qMax K C/(1 + K C) at 40 mg/L
			const truth = (150 - 40) / ((qMax_mg_g * k * 40) / (1 + k * 40));
			expect(low.value).toBeLessThan(truth);
			expect(high.value).toBeGreaterThan(truth);
			expect(answer.sentence).not.toContain("iodine");
		},
	);

	test("the treatments are compared at a residue that both reached", () => {
		const [verdict] = compare.compareTreatments(trial, {
			margin: compare.marginOf(4),
			residue: compare.residueOf(60),
		}).verdicts;
		// 60 mg/L: K C/(1 + K C) = 0.75 of the plateaus, which lie 16 mg/g apart
		expect(verdict.word).toBe("higher");
	});
});
