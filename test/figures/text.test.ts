import fc from "fast-check";
import { expect, test } from "vitest";
import {
	shortened,
	textWidth,
	wrapped,
	xmlText,
} from "../../kernel-lib/figures/text";

test("widths are those of the typeface", () => {
	// Published widths of Helvetica in thousandths (Adobe font metrics; from memory): A 667, i 222, W 944, space 278, digits 556.
	expect(textWidth("A", 1000)).toBe(667);
	expect(textWidth("i", 1000)).toBe(222);
	expect(textWidth("W", 1000)).toBe(944);
	expect(textWidth(" ", 1000)).toBe(278);
	expect(textWidth("0123456789", 1000)).toBe(5560);
	expect(textWidth("A", 1000, true)).toBe(722);
	expect(textWidth("\u0000", 1000)).toBe(textWidth("\ufffd", 1000));
	expect(textWidth("ä", 1000)).toBe(textWidth("a", 1000));
});

test("wrapping keeps every character and every width", () => {
	fc.assert(
		fc.property(
			fc.string({ maxLength: 80 }),
			fc.integer({ min: 20, max: 300 }),
			(text, width) => {
				const lines = wrapped(text, width, 12, false, 1000);
				expect(lines.join("").replace(/\s/g, "")).toBe(text.replace(/\s/g, ""));
				for (const line of lines)
					expect(textWidth(line, 12) <= width || [...line].length === 1).toBe(
						true,
					);
			},
		),
	);
});

test("words are broken only where they are too wide alone", () => {
	expect(wrapped("wood vinegar, 24 hours", 80, 12)).toEqual([
		"wood vinegar,",
		"24 hours",
	]);
	expect(wrapped("a b c d e f", 14, 12, false, 2)).toHaveLength(2);
	expect(wrapped("aaaa bbbb cccc dddd", 40, 12, false, 2)[1]).toMatch(/…$/);
	expect(shortened("potash", 200, 12)).toBe("potash");
	expect(textWidth(shortened("a".repeat(99), 60, 12), 12)).toBeLessThan(60);
});

test("text is safe in XML", () => {
	expect(xmlText(`<img src=x onerror="a('&')">`)).toBe(
		"&lt;img src=x onerror=&quot;a(&#39;&amp;&#39;)&quot;&gt;",
	);
	expect(xmlText("a\u0000b\u001fc\ud800d😀")).toBe("a\ufffdb\ufffdc\ufffdd😀");
});
