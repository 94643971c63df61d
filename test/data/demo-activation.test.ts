import { describe, expect, test } from "vitest";
import { files } from "../../data/demo-activation/make.mjs";
import {
	agentLeft,
	drying,
	firingYields,
	stageBalances,
	washout,
} from "../../kernel-lib/activation/index";
import { readTrial } from "../../kernel-lib/bench/index";
import { uptakes } from "../../kernel-lib/uptake/index";
import { pathOf, reader, testMadeByScript } from "./made-by-script";

const read = reader("demo-activation");

describe("the demo kiln", () => {
	testMadeByScript("demo-activation", files());
});

interface TrueRun {
	readonly name: string;
	readonly product: number;
	readonly charYield: number;
	readonly burnOff?: number;
	readonly impregnationRatio?: number;
	readonly splashed: number;
	readonly retained?: number;
	readonly agentLeft?: number;
}
const truth: {
	readonly runs: readonly TrueRun[];
	readonly flasks: readonly {
		readonly flask: string;
		readonly uptake: number;
	}[];
} = JSON.parse(read("truth.json"));
const trial = readTrial(pathOf("demo-activation", "kiln.csv"));
const figures = trial.firings.map(firingYields);

describe("what the library finds in it", () => {
	test.each(truth.runs)("$name: yield, burn-off, ratio within 3 u", (t) => {
		const f = figures.find((g) => g.firing.name === t.name);
		if (f === undefined) throw new Error("no such run");
		for (const [result, expected] of [
			[f.charYield, t.charYield],
			[f.burnOff, t.burnOff],
			[f.impregnationRatio, t.impregnationRatio],
		] as const) {
			if (expected === undefined) {
				expect(result.is).toBe("not known");
				continue;
			}
			if (result.is === "not known") throw new Error(result.because);
			const q = result.quantity.to("1");
			expect(Math.abs(q.value - expected)).toBeLessThan(
				3 * q.standardUncertainty,
			);
		}
	});

	test("one balance does not close, and it is the washing that lost a splash", () => {
		const all = trial.firings.flatMap((r) =>
			stageBalances(r).map((s) => ({ run: r.name, s })),
		);
		const open = all.filter(
			({ s }) => s.is === "balance" && s.verdict === "does not close",
		);
		expect(open.map(({ run, s }) => [run, s.stage])).toEqual([
			["potash 1", "washing and drying"],
		]);
		const { s } = open[0];
		if (s.is !== "balance") throw new Error("no balance");
		const lost = s.unaccounted.to("g");
		expect(Math.abs(lost.value - 1.45)).toBeLessThan(
			3 * lost.standardUncertainty,
		);
		const washing = all.find(
			(x) => x.run === "potash 0.5" && x.s.stage === "washing and drying",
		);
		expect(washing?.s.is === "balance" && washing.s.verdict).toBe("closes");
	});

	test("retained liquor and agent left of both potash runs", () => {
		for (const t of truth.runs) {
			if (!t.name.startsWith("potash")) continue;
			const r = trial.firings.find((a) => a.name === t.name);
			if (r === undefined || t.retained === undefined) throw new Error(t.name);
			const w = washout(r);
			if (w.is === "not known") throw new Error(w.because);
			expect(w.retainedInterval.low).toBeLessThan(t.retained);
			const { high } = w.retainedInterval;
			expect(high.is === "value" && high.value).toBeGreaterThan(t.retained);
			const { mass } = agentLeft(w);
			if (mass.is === "not known") throw new Error(mass.because);
			const q = mass.quantity.to("g");
			expect(Math.abs(q.value - (t.agentLeft ?? 0))).toBeLessThan(
				4 * q.standardUncertainty,
			);
		}
	});

	test("dry, not dry, cannot tell", () => {
		const verdicts = Object.fromEntries(
			trial.firings
				.filter((r) => r.drying.length > 0)
				.map((r) => [r.name, drying(r).verdict]),
		);
		expect(verdicts["potash 1"]).toBe("not dry");
		expect(verdicts["phosphoric 1"]).toBe("not dry");
		expect(["dry", "cannot tell"]).toContain(verdicts["potash 0.5"]);
	});

	test("uptakes lie within 3 u of the truth", () => {
		const list = uptakes(trial);
		expect(list).toHaveLength(truth.flasks.length);
		for (const t of truth.flasks) {
			const u = list.find((x) => x.flask.name === t.flask);
			const q = u?.computedUptake.to("mg/g");
			if (q === undefined) throw new Error(t.flask);
			expect(Math.abs(q.value - t.uptake)).toBeLessThan(
				3 * q.standardUncertainty,
			);
		}
	});
});
