import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { pixelsOf } from "../../kernel-lib/notebook/pixels";

describe("how many pixels a picture has", () => {
	test("a PNG says so in its first part", () => {
		const logo = readFileSync(
			join(import.meta.dirname, "../../data/kernelspec/logo-64x64.png"),
		);
		expect(pixelsOf(logo, "image/png")).toBe(64 * 64);
		expect(pixelsOf(logo.subarray(0, 20), "image/png")).toBe(0);
	});

	/** Start, a comment of two letters, a table, then a frame of 300 by 200. */
	const jpeg = Buffer.from([
		0xff, 0xd8, 0xff, 0xfe, 0, 4, 65, 66, 0xff, 0xc4, 0, 3, 1, 0xff, 0xff, 0xc2,
		0, 11, 8, 0, 200, 1, 44, 1, 1, 0x11, 0,
	]);

	test("a JPEG where its frame begins, behind other parts and filling bytes", () => {
		expect(pixelsOf(jpeg, "image/jpeg")).toBe(300 * 200);
	});

	test("one that is cut short, or has no frame, does not say", () => {
		expect(pixelsOf(jpeg.subarray(0, 18), "image/jpeg")).toBe(0);
		expect(pixelsOf(Buffer.from([0xff, 0xd8, 0xff]), "image/jpeg")).toBe(0);
	});
});
