import { describe, expect, test } from "vitest";
import {
	doseForRemoval,
	fitResponse,
	hill,
	logistic,
	responseCurve,
	responseOf,
	responseTable,
} from "../../kernel-lib/dose/index";
import { tableText } from "../../kernel-lib/quantity/index";

const doses = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20];
const noise = [0.6, -0.8, 0.4, 0.9, -0.5, -0.7, 0.3, 0.2];
const hillAt = (x: number, top = 100): number => top / (1 + (1.5 / x) ** 1.6);
const removals = doses.map((x, i) => hillAt(x) + noise[i]);

describe("response forms", () => {
	test("exact points give the truth back, for both forms", () => {
		const h = fitResponse(
			hill,
			doses,
			doses.map((x) => hillAt(x)),
		);
		expect([...h.fit.theta].map((v) => Number(v.toFixed(6)))).toEqual([
			0, 100, 1.5, 1.6,
		]);
		const x = [0, 1, 2, 3, 4, 5, 6, 8];
		const l = fitResponse(
			logistic,
			x,
			x.map((v) => 2 + 95 / (1 + Math.exp(-1.2 * (v - 3)))),
		);
		expect([...l.fit.theta].map((v) => Number(v.toFixed(6)))).toEqual([
			2, 97, 3, 1.2,
		]);
	});

	test("the dose for a removal lies on the curve and inside its interval, which is asymmetric", () => {
		const r = fitResponse(hill, doses, removals, { fixed: { floor: 0 } });
		for (const d of doseForRemoval(r, [50, 90])) {
			if (d.is !== "dose" || d.interval.is !== "value") throw new Error();
			const [floor, ceiling, c, h] = r.fit.theta;
			expect(floor + (ceiling - floor) / (1 + (c / d.dose) ** h)).toBeCloseTo(
				d.level.percent,
				8,
			);
			const { low, high } = d.interval.value;
			if (low.kind !== "closed" || high.kind !== "closed") throw new Error();
			expect(low.value).toBeLessThan(d.dose);
			expect(high.value).toBeGreaterThan(d.dose);
			if (d.level.percent === 90)
				expect(high.value - d.dose).toBeGreaterThan(d.dose - low.value);
		}
	});

	test("a removal that the curve does not reach has no dose, one that it may not reach has no upper end", () => {
		const level = doses.map((x, i) => hillAt(x, 95) + noise[i]);
		const r = fitResponse(hill, doses, level);
		const [reached, , never] = doseForRemoval(r, [90, 94, 99]);
		expect(reached.is).toBe("dose");
		if (never.is !== "no dose") throw new Error("99 % of 95 %");
		expect(never.because).toContain("levels off at");
		expect(never.wouldTell).toMatch(/^Flasks with/);
		const barely = doseForRemoval(r, [r.fit.theta[1] - 0.05])[0];
		if (barely.is !== "dose" || barely.interval.is !== "value")
			throw new Error();
		expect(barely.interval.value.high.kind).toBe("open");
		expect(tableText(responseTable(r, [50, 90, 99]))).toContain("none");
	});

	test("data that cannot answer are refused with the flasks that could", () => {
		expect(() => fitResponse(hill, [1, 1, 1], [50, 52, 49])).toThrow(
			/one dose only.*quarter/,
		);
		expect(() =>
			fitResponse(hill, [5, 8, 12, 20, 30], [97, 97.5, 97.2, 97.8, 98]),
		).toThrow(/on the plateau.*0\.31/s);
		expect(() => fitResponse(hill, [1, 2, 3], [10, 50, 80])).toThrow(
			/3 different doses for 4 free parameters/,
		);
		expect(() => fitResponse(hill, [1, 2], [10])).toThrow(/2 doses and 1/);
		expect(() => fitResponse(hill, [1, Number.NaN, 3], [10, 20, 30])).toThrow(
			/NaN g\/L and 20 %/,
		);
		const r = fitResponse(hill, doses, removals);
		expect(() => doseForRemoval(r, [100])).toThrow(/below 100/);
	});

	test("the form as a curve, with a band", () => {
		const curve = responseCurve(fitResponse(hill, doses, removals), 100);
		expect(curve.from).toBe("response form");
		for (const a of curve.at) {
			if (a.low.is !== "value" || a.high.is !== "value") throw new Error();
			expect(a.low.value).toBeLessThan(a.high.value);
		}
	});

	test("removals that span ten percent show a rise, less does not", () => {
		const spread = (span: number) =>
			fitResponse(
				hill,
				doses,
				doses.map((_, i) => 20 + (span * i) / (doses.length - 1)),
			);
		expect(() => spread(9.99)).toThrow(/at the foot of the curve/);
		expect(() => spread(10.01)).not.toThrow();
	});

	test("a ceiling of which four fifths are shown is shown", () => {
		const unseen = (share: number): boolean => {
			// The last flask ends the curve at this share of the way.
			const most = 1.5 * (share / (1 - share)) ** (1 / 1.6);
			const few = [0.1, 0.2, 0.4, 0.7, 1, 1.4].filter((x) => x < most);
			const x = [...few, most];
			return fitResponse(
				hill,
				x,
				x.map((v) => hillAt(v)),
			).opinion.some((o) => o.startsWith("The ceiling is not shown"));
		};
		expect(unseen(0.799)).toBe(true);
		expect(unseen(0.801)).toBe(false);
	});

	test("a fitted form brings its table and its curve", () => {
		const r = fitResponse(hill, doses, removals, {
			percents: [50, 60],
			start: 80,
			confidence: 0.9,
		});
		expect(tableText(r.table)).toBe(tableText(responseTable(r, [50, 60])));
		expect(r.table.notes[0]).toBe("Profile intervals at 90 %.");
		expect(r.curve).toEqual(responseCurve(r, 80));
		expect(fitResponse(hill, doses, removals).table.rows).toHaveLength(3);
		expect(() =>
			fitResponse(hill, doses, removals, { fixd: { floor: 0 } } as object),
		).toThrow(/Did you mean "fixed"/);
	});

	test("an end is open from thirty times the greatest dose on", () => {
		const r = fitResponse(
			hill,
			doses,
			doses.map((x, i) => hillAt(x, 95) + noise[i]),
		);
		const endOf = (percent: number) => {
			const [d] = doseForRemoval(r, [percent]);
			if (d.is !== "dose" || d.interval.is !== "value") throw new Error();
			return d.interval.value.high;
		};
		let [closed, open] = [80, 94.5];
		for (let i = 0; i < 24; i++) {
			const middle = (closed + open) / 2;
			if (endOf(middle).kind === "open") open = middle;
			else closed = middle;
		}
		const last = endOf(closed);
		const next = endOf(open);
		if (last.kind === "open" || next.kind !== "open") throw new Error();
		expect(last.value / 600).toBeCloseTo(1, 2);
		expect(last.value).toBeLessThanOrEqual(600);
		expect(next.reason).toContain("beyond 600 g/L, 30 times");
	});

	test("flasks that cannot carry a form say why instead", () => {
		const flasks = (removalOf: (dose: number) => number) => ({
			start: 100,
			flasks: doses.map((dose) => ({
				flask: String(dose),
				is: "reading" as const,
				dose,
				start: 100,
				residue: 100 - removalOf(dose),
				removal: removalOf(dose),
				low: removalOf(dose),
				high: removalOf(dose),
			})),
		});
		const carried = responseOf(hill, flasks(hillAt));
		if (carried.is === "not known") throw new Error(carried.because);
		expect(carried.value.curve.start).toBe(100);
		const flat = responseOf(
			hill,
			flasks(() => 90),
		);
		expect(flat.is === "not known" && flat.because).toMatch(
			/on the plateau of the curve.*would show the rise/,
		);
	});
});
