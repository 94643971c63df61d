import { expect, test } from "vitest";
import { kept } from "../../kernel-lib/quantity/index";

test("a step runs once for each object, also where it gives undefined", () => {
	let runs = 0;
	const step = kept((from: { readonly n: number }) => {
		runs++;
		return from.n === 0 ? undefined : [from.n];
	});
	const one = { n: 1 };
	const none = { n: 0 };
	expect(step(one)).toBe(step(one));
	step(none);
	step(none);
	expect(runs).toBe(2);
});

test("a step that fails is tried again", () => {
	let runs = 0;
	const step = kept((_: object): number => {
		runs++;
		throw new Error("no");
	});
	const from = {};
	expect(() => step(from)).toThrow();
	expect(() => step(from)).toThrow();
	expect(runs).toBe(2);
});
