import katex from "katex";
import { describe, expect, test } from "vitest";
import { texLines } from "../../kernel-lib/quantity/tex-lines";

/** What a flask took up by difference, with its losses: the longest formula of the demo runs. */
const balance =
	"\\left(2.5232\\,\\text{mmol} - 0\\,\\text{mmol} - 1.26396\\,\\text{mmol} - \\frac{\\left(2.5232\\,\\text{mmol} - 0\\,\\text{mmol} + 1.26396\\,\\text{mmol}\\right) \\times \\left(1 - 0.97456\\right)}{1 + 0.97456} - \\frac{\\left(\\left(2.5232\\,\\text{mmol} - 0\\,\\text{mmol}\\right) \\times \\left(1 - 0.97456\\right) - 1.26396\\,\\text{mmol} \\times \\left(\\frac{1}{0.97456} - 1\\right)\\right) \\times 0.0}{2}\\right) \\times 253.8000\\,\\text{g/mol}";
const mean = `\\operatorname{mean}\\left(${Array.from({ length: 12 }, (_, i) => `V_{\\text{titre ${i}}} + δ_{\\text{burette}}`).join(",\\ ")}\\right)`;

/** The formula again, from its lines. */
const joined = (lines: readonly string[]): string =>
	lines
		.join(" ")
		.replaceAll(/\\left\.|\\right\.|\{\}/g, "")
		.replaceAll(/\s+/g, " ");

describe("a long formula", () => {
	test.each([
		["a balance", balance],
		["a mean", mean],
	])(
		"%s is broken into lines that can be set, and none of it is lost",
		(_, tex) => {
			const lines = texLines(tex);
			expect(lines.length).toBeGreaterThan(1);
			expect(joined(lines).replaceAll("\\ ", " ").replaceAll(/ +/g, " ")).toBe(
				tex.replaceAll("\\ ", " ").replaceAll(/ +/g, " "),
			);
			for (const line of lines) {
				expect(line.match(/\\left/g)?.length).toBe(
					line.match(/\\right/g)?.length,
				);
				expect(() =>
					katex.renderToString(line, { strict: "error" }),
				).not.toThrow();
			}
		},
	);

	test("begins its further lines with their sign", () => {
		for (const line of texLines(balance).slice(1))
			expect(line).toMatch(/^(\\left\.)*\{\}(\+|-|\\times) /);
	});

	test("is left whole where it fits", () => {
		const tex = "\\frac{m_{\\text{fired}} + δ}{m_{\\text{dry}}} \\times 2";
		expect(texLines(tex)).toEqual([tex]);
		expect(texLines("")).toEqual([]);
	});

	test("is broken where a line grows longer than the limit, and not before", () => {
		// Two terms of half an em a digit, and the sign.
		const tex = "1234567890 + 1234567890";
		expect(texLines(tex, 11.2)).toHaveLength(1);
		expect(texLines(tex, 11.1)).toEqual(["1234567890", "{}+ 1234567890"]);
	});

	test("is rather broken between brackets than within", () => {
		expect(
			texLines(
				"\\left(aaaa + bbbb\\right) \\times \\left(cccc + dddd\\right)",
				9,
			),
		).toEqual([
			"\\left(aaaa + bbbb\\right)",
			"{}\\times \\left(cccc + dddd\\right)",
		]);
	});
});
