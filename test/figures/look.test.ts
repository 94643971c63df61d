import { describe, expect, test } from "vitest";
import {
	dashes,
	hatches,
	type Ink,
	seriesInks,
	seriesLook,
	shapes,
	themes,
} from "../../kernel-lib/figures/look";

type Rgb = [number, number, number];

function linear(colour: string): Rgb {
	return [1, 3, 5].map((i) => {
		const c = Number.parseInt(colour.slice(i, i + 2), 16) / 255;
		return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
	}) as Rgb;
}

/** Relative luminance and contrast as WCAG 2.2 defines them. */
const luminance = ([r, g, b]: Rgb): number =>
	0.2126 * r + 0.7152 * g + 0.0722 * b;
function contrast(a: string, b: string): number {
	const [low, high] = [luminance(linear(a)), luminance(linear(b))].sort(
		(x, y) => x - y,
	);
	return (high + 0.05) / (low + 0.05);
}

// Machado, Oliveira, Fernandes (2009), severity 1, on linear RGB; from memory (each row sums to 1, which is checked below).
const sights: Record<string, Rgb[]> = {
	normal: [
		[1, 0, 0],
		[0, 1, 0],
		[0, 0, 1],
	],
	protanopia: [
		[0.152286, 1.052583, -0.204868],
		[0.114503, 0.786281, 0.099216],
		[-0.003882, -0.048116, 1.051998],
	],
	deuteranopia: [
		[0.367322, 0.860646, -0.227968],
		[0.280085, 0.672501, 0.047413],
		[-0.01182, 0.04294, 0.968881],
	],
	tritanopia: [
		[1.255528, -0.076749, -0.178779],
		[-0.078411, 0.930809, 0.147602],
		[0.004733, 0.691367, 0.3039],
	],
};

function seen(colour: string, sight: Rgb[]): Rgb {
	const c = linear(colour);
	return sight.map((row) =>
		Math.min(1, Math.max(0, row[0] * c[0] + row[1] * c[1] + row[2] * c[2])),
	) as Rgb;
}

/** Oklab (Ottosson 2020; from memory): distances near 0.1 are distinguished at a glance. */
function oklab([r, g, b]: Rgb): Rgb {
	const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
	const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
	const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
	return [
		0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
		1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
		0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
	];
}

describe.each(["light", "dark"] as const)("%s", (name) => {
	const theme = themes[name];

	test.each([...seriesInks])("%s stands out from the paper, 3 to 1", (ink) => {
		expect(contrast(theme[ink], theme.paper)).toBeGreaterThanOrEqual(3);
	});

	test.each(["text", "quiet"] as Ink[])("%s is readable, 4.5 to 1", (ink) => {
		expect(contrast(theme[ink], theme.paper)).toBeGreaterThanOrEqual(4.5);
	});

	test.each(Object.keys(sights))("inks are distinguished with %s", (sight) => {
		const rows = sights[sight];
		for (const row of rows) expect(row[0] + row[1] + row[2]).toBeCloseTo(1, 5);
		const labs = seriesInks.map((i) => oklab(seen(theme[i], rows)));
		for (let i = 0; i < labs.length; i++)
			for (let j = 0; j < i; j++)
				expect(
					Math.hypot(...labs[i].map((v, k) => v - labs[j][k])),
					`${seriesInks[i]} and ${seriesInks[j]}`,
				).toBeGreaterThan(0.12);
	});

	test("inks are seven different greys in print", () => {
		const greys = seriesInks
			.map((i) => Math.cbrt(luminance(linear(theme[i]))))
			.sort((a, b) => a - b);
		for (let i = 1; i < greys.length; i++)
			expect(greys[i] - greys[i - 1]).toBeGreaterThan(0.05);
	});
});

test("no two of the first seven series share an ink, and neighbours share nothing", () => {
	const looks = Array.from({ length: 84 }, (_, i) => seriesLook(i));
	expect(new Set(looks.slice(0, 7).map((l) => l.ink)).size).toBe(7);
	expect(new Set(looks.slice(0, 42).map((l) => l.ink + l.shape)).size).toBe(42);
	for (let i = 1; i < looks.length; i++) {
		expect(looks[i].ink).not.toBe(looks[i - 1].ink);
		expect(looks[i].shape).not.toBe(looks[i - 1].shape);
		expect(looks[i].dash).not.toBe(looks[i - 1].dash);
		expect(looks[i].hatch).not.toBe(looks[i - 1].hatch);
	}
	expect(shapes.length * dashes.length * hatches.length).toBeGreaterThan(100);
});
