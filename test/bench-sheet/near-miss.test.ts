import { describe, expect, it } from "vitest";
import { nearMiss } from "../../kernel-lib/bench/near-miss";

const meant = (header: string): string => nearMiss("flasks", header)?.key ?? "";

describe("the column that a header was perhaps meant for", () => {
	it.each([
		["dosse #", "dose #"],
		["odse", "dose #"],
		["titer", "titre #"],
		["alquot", "aliquot"],
		["treatmnet", "treatment"],
		["char mas", "char mass"],
		["char mssa", "char mass"],
	])("%s is nearly %s", (header, key) => {
		expect(meant(header)).toBe(key);
	});

	it.each([
		["doosse", "two letters more in a short name"],
		["trtmnet", "three letters off"],
		["do", "fewer than three letters"],
		["weather", "another word"],
	])("%s is nearly nothing: %s", (header) => {
		expect(meant(header)).toBe("");
	});
});
