import { join } from "node:path";
import { expect, test, vi } from "vitest";
import { readTrial } from "../../kernel-lib/bench/index";
import { charProperties, readProperties } from "../../kernel-lib/properties";
import {
	type LedgerRow,
	ledgerRows,
	type Quantity,
} from "../../kernel-lib/quantity/index";
import { uptakes } from "../../kernel-lib/uptake/index";

const data = join(import.meta.dirname, "../../data");

const reported: readonly (readonly [string, () => readonly Quantity[]])[] = [
	[
		"methylene blue on a calibration line",
		() =>
			uptakes(readTrial(join(data, "demo-dye/dye.csv"))).map(
				(u) => u.computedUptake,
			),
	],
	[
		"properties of chars",
		() =>
			charProperties(
				readProperties(join(data, "demo-properties/chars.csv"), {}),
			).flatMap((p) => (p.outcome.is === "value" ? [p.outcome.quantity] : [])),
	],
];

/** Functions in whose last digit engines differ. */
const inexact = ["exp", "log", "pow", "log10", "sin", "cos"] as const;

/** The next number that a double can hold. */
function next(x: number): number {
	if (!Number.isFinite(x) || x === 0) return x;
	const bits = new BigInt64Array(1);
	const value = new Float64Array(bits.buffer);
	value[0] = x;
	bits[0] += 1n;
	return value[0];
}

/** The ledger as an engine would compute it whose functions differ in the last digit. */
function onAnotherEngine(make: () => readonly LedgerRow[]) {
	const spies = inexact.map((name) => {
		const own = Math[name] as (...x: number[]) => number;
		return vi
			.spyOn(Math, name)
			.mockImplementation((...x: number[]) => next(own(...x)));
	});
	try {
		return make();
	} finally {
		for (const spy of spies) spy.mockRestore();
	}
}

test.each(reported)(
	"%s: another engine gives the same ids, each of them once",
	(_, make) => {
		const here = ledgerRows(make());
		const elsewhere = onAnotherEngine(() => ledgerRows(make()));
		expect(elsewhere.map((r) => r.id)).toEqual(here.map((r) => r.id));
		expect(new Set(here.map((r) => r.id)).size).toBe(here.length);
	},
);
