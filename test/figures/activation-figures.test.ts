import { describe, expect, test } from "vitest";
import { readTrial } from "../../kernel-lib/bench/index";
import {
	course,
	type FigureDescription,
	figureSvg,
	type Layer,
} from "../../kernel-lib/figures/index";
import {
	uptakeAgainstCondition,
	uptakesAgainstCondition,
} from "../../kernel-lib/figures/uptake-against-condition";
import { known } from "../../kernel-lib/quantity/index";
import {
	dried,
	fired,
	washed,
	washedByPH,
	washedTwice,
	weighedTwice,
} from "./activation-fixtures";

type Is<K extends Layer["is"]> = Extract<Layer, { is: K }>;
function layers<K extends Layer["is"]>(f: FigureDescription, is: K): Is<K>[] {
	return f.layers.filter((l): l is Is<K> => l.is === is);
}

describe("washing curve", () => {
	const f = course(washed);

	test("every reading stands at its rinse", () => {
		expect(layers(f, "points")[0].points.map((p) => [p.x, p.y])).toEqual(
			washed.washout.points.map((p) => [p.rinse, p.value]),
		);
	});

	test("the curve goes on, dashed, a rinse beyond the one that reaches the target", () => {
		const [fitted, predicted] = layers(f, "line");
		const n = washed.needed;
		if (n.is !== "foretold") throw new Error(n.because);
		expect(fitted.points.map((p) => p.x)).toEqual([1, 2, 3, 4]);
		expect(predicted.dash).toBe("dashed");
		const last = predicted.points[predicted.points.length - 1];
		expect(last.x).toBe(n.total + 1);
		const at = (x: number): number =>
			predicted.points.find((p) => p.x === x)?.y ?? Number.NaN;
		expect(at(n.total)).toBeLessThanOrEqual(50);
		expect(at(n.total - 1)).toBeGreaterThan(50);
	});

	test("target and water are lines; conductivity is on a logarithmic axis with its unit", () => {
		expect(layers(f, "reference line").map((l) => l.at)).toEqual([12, 50]);
		expect([f.y.scale.is, f.y.unit]).toEqual(["log", "µS/cm"]);
		expect(f.alt).toContain("still needed");
	});

	test("pH is on a plain axis, and its target is read as a pH", () => {
		const g = course(washedByPH);
		expect(g.y.scale.is).toBe("linear");
		expect(layers(g, "reference line").map((l) => l.at)).toEqual([7, 6]);
	});

	test("without a model there are readings, no curve, and the reason", () => {
		const g = course(washedTwice);
		expect(layers(g, "line")).toEqual([]);
		expect(g.notes.join()).toContain("at least three");
	});
});

describe("drying curve", () => {
	const f = course(dried);
	test("weighings, curve and the interval of the final mass", () => {
		expect(layers(f, "points")[0].points.map((p) => p.y)).toEqual(
			dried.points.map((p) => p.grams),
		);
		if (dried.curve.is === "not known") throw new Error(dried.curve.because);
		const [zone] = layers(f, "zone");
		expect({ low: known(zone.from), high: known(zone.to) }).toEqual(
			dried.curve.finalMassInterval,
		);
		const [line] = layers(f, "line");
		for (const p of line.points)
			expect(p.y).toBeGreaterThan(dried.curve.finalMass);
		expect(f.title).toContain(dried.verdict);
	});
	test("without a fit, the weighings and the reason", () => {
		const g = course(weighedTwice);
		expect(layers(g, "line")).toEqual([]);
		expect(g.notes.join()).toContain("at least four weighings");
	});
});

describe("uptake against a condition of the firing", () => {
	const f = uptakesAgainstCondition(fired, "iodine", "burn-off");
	test("every flask of a known firing stands at the burn-off of that firing", () => {
		const points = layers(f, "points").flatMap((l) => l.points);
		expect(points.map((p) => [p.x, p.y])).toEqual(
			[
				[4, 300],
				[4, 310],
				[18, 380],
				[18, 372],
				[36.5, 455],
				[36.5, 470],
			].map(([x, y]) => [expect.closeTo(x, 9), expect.closeTo(y, 9)]),
		);
	});
	test("a bound is an arrow; a flask without a firing is named", () => {
		expect(layers(f, "arrows")[0].arrows.map((a) => a.towards)).toEqual(["up"]);
		expect(f.notes.join()).toContain("Without burn-off: flask 7.");
	});
	test("a condition from a balance that does not close has that word beside it; a temperature has not", () => {
		const astray = fired.map((u) =>
			u.firing.is === "linked" && u.flask.treatment === "potash"
				? { ...u, firing: { ...u.firing, unbalanced: ["po1"] } }
				: u,
		);
		const word = 'the balance does not close: burn-off of "po1".';
		expect(
			uptakesAgainstCondition(astray, "iodine", "burn-off").notes.join(),
		).toContain(word);
		expect(f.notes.join()).not.toContain("does not close");
		expect(
			uptakesAgainstCondition(
				astray,
				"iodine",
				"highest temperature",
			).notes.join(),
		).not.toContain("does not close");
	});
	test("the trial gives the flasks and the probe; a condition that firings do not have is refused", () => {
		const trial = readTrial("data/demo-activation/kiln.csv");
		const g = uptakeAgainstCondition(trial, "burn-off");
		expect(g.y.label).toBe("Uptake of iodine per gram of dry char");
		expect(() =>
			uptakeAgainstCondition(trial, "burn off" as "burn-off"),
		).toThrow(/"burn off".*burn-off/s);
	});
	test("temperature in °C", () => {
		const g = uptakesAgainstCondition(fired, "iodine", "highest temperature");
		expect(g.x.unit).toBe("°C");
		expect(layers(g, "points")[2].points[0].x).toBeCloseTo(800, 9);
	});
});

test("pictures at every width, without NaN", () => {
	for (const f of [
		course(washed),
		course(washedByPH),
		course(washedTwice),
		course(dried),
		course(weighedTwice),
		uptakesAgainstCondition(fired, "iodine", "burn-off"),
		uptakesAgainstCondition([], "iodine", "soak time"),
	])
		for (const width of [360, 720])
			expect(figureSvg(f, { width }) + f.alt).not.toMatch(
				/NaN|undefined|Infinity/,
			);
});
