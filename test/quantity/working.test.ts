import katex from "katex";
import { describe, expect, test } from "vitest";
import {
	exact,
	exactRatio,
	input,
	jupyterDisplay,
	meanOf,
	minus,
	named,
	naturalLog,
	normal,
	per,
	plus,
	type Quantity,
	raised,
	scaled,
	stated,
	times,
	working,
} from "../../kernel-lib/quantity/index";
import { uptakeOf } from "./example-chain";

const mass = (x: number, symbol: string): Quantity<"mass"> =>
	input("mass", x, "g", exact, { symbol, source: stated("invented") });
const a = mass(3, "a");
const b = mass(2, "b");
const c = mass(1, "c");

/** Formula and line of numbers of the last step. */
function lines(q: Quantity): [string, string] {
	const step = working(q).steps.at(-1);
	return step === undefined ? ["", ""] : [step.formula, step.numbers];
}

describe("formulas", () => {
	test.each<[string, Quantity, string, string]>([
		["a sum", plus(a, b, c), "a + b + c", "3 g + 2 g + 1 g"],
		[
			"nested differences",
			minus(a, minus(b, c)),
			"a − b + c",
			"3 g − 2 g + 1 g",
		],
		["a half", scaled(a, 0.5), "a / 2", "3 g / 2"],
		["factors that cancel", scaled(scaled(a, 6), 0.5), "3 × a", "3 × 3 g"],
		["factors that undo each other", scaled(scaled(a, 4), 0.25), "a", "3 g"],
		["a decimal factor", scaled(a, 0.3), "0.3 × a", "0.3 × 3 g"],
		[
			"a negative factor",
			minus(a, scaled(b, -2)),
			"a + 2 × b",
			"3 g + 2 × 2 g",
		],
		[
			"a bracket where it is needed",
			per(plus(a, b), c),
			"(a + b) / c",
			"(3 g + 2 g) / 1 g",
		],
		["one divisor", per(a, scaled(b, 2)), "a / (2 × b)", "3 g / (2 × 2 g)"],
		[
			"a double fraction",
			per(a, per(b, exactRatio(4, "k"))),
			"a × k / b",
			"3 g × 4 / 2 g",
		],
		["a bare number", times(exactRatio(0.998), a), "0.998 × a", "0.998 × 3 g"],
		["a mean", meanOf([a, b]), "mean(a, b)", "mean(3 g, 2 g)"],
		["a logarithm", naturalLog(per(a, b)), "ln(a / b)", "ln(3 g / 2 g)"],
		["a power", raised(per(a, b), 0.2), "(a / b)^0.2", "(3 g / 2 g)^0.2"],
	])("%s", (_what, q, formula, numbers) => {
		expect(lines(q)).toEqual([formula, numbers]);
	});

	test("a mean of many is shortened", () => {
		const many = meanOf(
			Array.from({ length: 30 }, (_, i) => mass(i, `m_{${i}}`)),
		);
		expect(lines(many)[0]).toBe("mean(m_0, m_1, …, m_29)");
	});

	test("a negative number in brackets", () => {
		const below = mass(-1, "d");
		expect(lines(minus(a, below))[1]).toBe("3 g − (−1 g)");
		expect(lines(times(exactRatio(2, "k"), below))[1]).toBe("2 × (−1 g)");
	});
});

describe("working of an uptake from its raw readings", () => {
	const { uptake } = uptakeOf(2);
	const shown = working(uptake);

	test("steps in order, each with formula, numbers, and result rounded by its uncertainty", () => {
		expect(shown.steps.map((s) => s.symbol)).toEqual([
			"n_dosed",
			"V_titre, 1",
			"V_titre, 2",
			"V_t",
			"n_left",
			"q",
		]);
		expect(shown.steps.at(-1)).toMatchObject({
			number: 6,
			meaning: "uptake",
			formula: "(n_dosed − n_left) × M_I2 / m",
			numbers: "(1.25000 mmol − 0.61823 mmol) × 253.809 g/mol / 1.0143 g",
			result: "158.09 mg/g (u 0.91 mg/g)",
		});
	});

	test("readings are shown to the place they were read to, corrections of zero are left out and said to be", () => {
		expect(shown.steps[1].numbers).toBe("12.50 mL − 0.17 mL");
		expect(shown.steps[1].formula).toBe("V_end, 1 − V_start, 1 + δ_burette");
		expect(shown.notes[0]).toContain("zero");
	});

	test("every reading is given with file, row and column", () => {
		expect(shown.givens.find((g) => g.symbol === "V_end, 2")?.from).toBe(
			'run.csv, sheet "flasks", row 2, column "titre end 2 (mL)"',
		);
		// Two titrants, one dose, four burette readings, the burette, the molar mass, the char.
		expect(shown.givens).toHaveLength(10);
	});

	test("the numbers shown lead to the result shown", () => {
		expect(((1.25 - 0.61823) * 253.809) / 1.0143).toBeCloseTo(158.09, 2);
	});

	test("the LaTeX is accepted by KaTeX, and the bundle has a plain form", () => {
		const bundle = (
			shown as unknown as {
				[jupyterDisplay]: () => Record<string, string>;
			}
		)[jupyterDisplay]();
		expect(Object.keys(bundle).sort()).toEqual(["text/markdown", "text/plain"]);
		const blocks = [...shown.markdown.matchAll(/\$\$([\s\S]*?)\$\$/g)];
		expect(blocks).toHaveLength(6);
		for (const [, tex] of blocks)
			expect(() =>
				katex.renderToString(tex, { displayMode: true, strict: "error" }),
			).not.toThrow();
		for (const g of shown.givens)
			expect(() =>
				katex.renderToString(g.latexSymbol, { strict: "error" }),
			).not.toThrow();
	});
});

test("symbols and names from a sheet cannot break out of LaTeX, Markdown or HTML", () => {
	const evil = input("mass", 1, "g", normal(0.1), {
		symbol: "m_{50 % \\evil $x$ #1}",
		meaning: "<script>alert(1)</script> | **bold**",
		source: stated("a | b"),
	});
	const shown = working(named(scaled(evil, 2), "x\\y_{z", "twice"));
	for (const [, tex] of shown.markdown.matchAll(/\$\$([\s\S]*?)\$\$/g))
		expect(() => katex.renderToString(tex)).not.toThrow();
	expect(shown.markdown).not.toContain("<script>");
	expect(shown.markdown).toContain("\\|");
	expect(shown.markdown).toContain("\\*\\*bold");
});

test("a single input is given and needs no step", () => {
	const shown = working(a);
	expect(shown.steps).toEqual([]);
	expect(shown.text).toBe("Given\n  a = 3 g [invented]");
});
