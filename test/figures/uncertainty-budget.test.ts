import { expect, test } from "vitest";
import { figureSvg, uncertaintyBudget } from "../../kernel-lib/figures/index";
import { budgetBars } from "../../kernel-lib/figures/uncertainty-budget";
import { exact, input, normal, times } from "../../kernel-lib/quantity/index";
import { budgetRows } from "./fixtures";
import { readTexts } from "./svg-reading";

const f = budgetBars(budgetRows, "Uptake of flask 4");

test("bars are sorted, largest first, and as long as their share in percent", () => {
	const layer = f.layers[0];
	expect(layer.is === "bars" && layer.bars.map((b) => b.to)).toEqual(
		[46.1, 28.7, 12.2, 6.4, 6.3, 0.3].map((v) => expect.closeTo(v, 9)),
	);
	expect(f.y.scale.is === "categories" && f.y.scale.names[0]).toBe(
		"end point of the titration",
	);
	expect(budgetRows[0].share).toBe(0.461);
});

test("each bar has its share written at its end, at every width", () => {
	for (const width of [360, 720, 1100]) {
		const labels = readTexts(figureSvg(f, { width }))
			.filter((t) => t.role === "label")
			.map((t) => t.text);
		expect(labels.sort()).toEqual(
			["46 %", "29 %", "12 %", "6.4 %", "6.3 %", "0.3 %"].sort(),
		);
	}
});

test("the alt text lists the shares", () => {
	expect(f.alt).toBe(
		"Uptake of flask 4. Share of the variance of six inputs, largest first. end point of the titration: 46 %; thiosulfate, standardisation against iodate: 29 %; burette, calibration: 12 %; pipette 25 mL: 6.4 %; reagent blank of the day: 6.3 %; char mass: 0.3 %.",
	);
});

test("a negative share, of a correlated input, stands left of zero", () => {
	const g = budgetBars(
		[
			{ name: "a", share: 1.2 },
			{ name: "b", share: -0.2 },
		],
		"t",
	);
	expect(g.layers[0].is === "bars" && g.layers[0].bars[1].to).toBe(-20);
	expect(g.alt).toContain("b: −20 %");
	expect(figureSvg(g, { width: 720 })).toContain("−20 %");
});

test("the budget of a quantity: shares of its inputs, under their names", () => {
	// Relative uncertainties 3 % and 4 %: shares 9/25 and 16/25.
	const a = input("volume", 100, "mL", normal(3), { meaning: "flask" });
	const b = input("ratio", 0.5, "1", normal(0.02), { symbol: "f" });
	const c = input("ratio", 2, "1", exact, { meaning: "a factor" });
	const g = uncertaintyBudget(times(times(a, b), c));
	expect(g.alt).toContain(
		"of two inputs, largest first. f: 64 %; flask: 36 %.",
	);
	expect(g.title).toBe("Where the uncertainty comes from");
	expect(uncertaintyBudget(a).title).toBe(
		"Where the uncertainty of flask comes from",
	);
	expect(uncertaintyBudget(a, { title: "Flask" }).title).toBe("Flask");
	expect(() => uncertaintyBudget(a, { title: 1 } as never)).toThrow(/a text/);
});
