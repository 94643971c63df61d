import { describe, expect, test } from "vitest";
import { doseForTarget as doseOf } from "../../kernel-lib/dose/index";
import {
	doseAndRemoval,
	doseForTarget,
	figureSvg,
	isotherms,
	type Layer,
	vanTHoffLine,
} from "../../kernel-lib/figures/index";
import { uptakeAt } from "../../kernel-lib/isotherms/index";
import {
	answers,
	background,
	counterCurrent,
	crossCurrent,
	doseFit,
	flasks,
	hillCurve,
	mixture,
	refusedDose,
	removal,
	removals,
	twoTemperatures,
	vanTHoff,
} from "./dose-fixtures";

const of = <K extends Layer["is"]>(
	layers: readonly Layer[],
	is: K,
): Extract<Layer, { is: K }>[] =>
	layers.filter((l): l is Extract<Layer, { is: K }> => l.is === is);

describe("removal against dose", () => {
	const f = doseAndRemoval([removal], removals, { answers });

	test("every flask stands at its dose and what it removed", () => {
		const [points] = of(f.layers, "points");
		expect(points.points).toHaveLength(flasks.points.length);
		points.points.forEach((p, i) => {
			expect(p.x).toBe(removals[i].dose);
			expect(p.y).toBeCloseTo(
				100 * (1 - flasks.points[i].concentration / 200),
				9,
			);
			expect(p.hover).toContain(`flask ${i + 1}`);
		});
	});

	test("a dose for a target lies on the curve with its interval across", () => {
		const marks = of(f.layers, "points")[1].points;
		expect(marks.map((m) => Math.round(m.y))).toEqual([90, 70]);
		for (const m of marks) {
			expect(m.xInterval?.low).toBeLessThan(m.x);
			expect(m.xInterval?.high).toBeGreaterThan(m.x);
		}
		expect(f.alt).toMatch(/Doses for targets: 20 mg\/L with .* g\/L \(/);
	});

	test("the band holds the curve and stays between nothing and all", () => {
		const [band] = of(f.layers, "band");
		band.points.forEach((p, i) => {
			expect(p.low).toBeLessThanOrEqual(removal.at[i].removal);
			expect(p.high).toBeGreaterThanOrEqual(removal.at[i].removal);
			expect(p.low).toBeGreaterThanOrEqual(0);
			expect(p.high).toBeLessThanOrEqual(100);
		});
	});

	test("it is said that the curve was not fitted to the removals, and where it leaves the flasks", () => {
		expect(f.notes.join(" ")).toContain("not fitted to the removals");
		expect(f.notes.join(" ")).toContain("Dotted");
		expect(doseAndRemoval([hillCurve]).notes.join(" ")).not.toContain(
			"not fitted to the removals",
		);
	});

	test("flasks of another start are outlined; a flask that ran dry has an arrow", () => {
		const mixed = removals.map((r, i) =>
			i === 0
				? { ...r, start: 100 }
				: i === 7
					? { ...r, is: "below detection" as const }
					: r,
		);
		const g = doseAndRemoval([removal], mixed);
		expect(
			of(g.layers, "points")[0].points.filter((p) => p.hollow),
		).toHaveLength(1);
		expect(of(g.layers, "arrows")[0].arrows[0].towards).toBe("up");
		expect(g.notes.join(" ")).toContain("flask 1");
	});

	test("the mixture is drawn beside what the solute alone would have promised", () => {
		const g = doseAndRemoval([mixture.alone, mixture.mixture]);
		const names = of(g.layers, "line").map((l) => l.name);
		expect(names).toContain("tint alone");
		expect(names).toContain("tint beside leaf brown");
		expect(g.notes.join(" ")).toContain("no flask of the mixture");
	});
});

describe("stages", () => {
	test("counter-current: the steps go between the isotherm and the balance line, from the start to the target", () => {
		const f = isotherms([doseFit], { stages: counterCurrent });
		const [, balance, steps] = of(f.layers, "line");
		const on = (x: number): number =>
			((x - balance.points[0].x) /
				(balance.points[1].x - balance.points[0].x)) *
			balance.points[1].y;
		expect(steps.points[0].x).toBe(200);
		expect(steps.points[steps.points.length - 1]).toEqual({ x: 20, y: 0 });
		steps.points.forEach((p, i) => {
			if (i % 2 === 1)
				expect(p.y).toBeCloseTo(
					uptakeAt(doseFit.isotherm, doseFit.theta, p.x),
					9,
				);
			else expect(p.y).toBeCloseTo(on(p.x), 6);
		});
		expect(f.notes[0]).toContain("enters fresh where the water leaves");
	});

	test("cross-current: a line for each stage, of slope minus one over its dose", () => {
		const f = isotherms([doseFit], { stages: crossCurrent });
		const stages = crossCurrent.is === "dose" ? crossCurrent.stages : [];
		expect(stages).toHaveLength(3);
		of(f.layers, "line")
			.slice(1)
			.forEach((l, i) => {
				const [a, b] = l.points;
				expect((a.y - b.y) / (a.x - b.x)).toBeCloseTo(-1 / stages[i].dose, 9);
			});
		expect(figureSvg(f, { width: 720 })).toContain("stage 3");
		expect(f.alt).toMatch(/^Three stages, cross-current: 200 to 20 mg\/L/);
	});

	test("they belong to one fit", () => {
		expect(() =>
			isotherms([doseFit, doseFit], { stages: counterCurrent }),
		).toThrow(/2 fits and the stages of one dose; expected the one fit/);
	});

	test("without a dose there is nothing to draw", () => {
		expect(refusedDose.is).toBe("no dose");
		expect(() => isotherms([doseFit], { stages: refusedDose })).toThrow(
			/an answer without a dose, because .*; expected an answer with a dose/,
		);
	});
});

describe("van 't Hoff", () => {
	test("points at 1000/T and ln K, the line through their middle, the enthalpy in the words", () => {
		const f = vanTHoffLine(vanTHoff);
		const [points] = of(f.layers, "points");
		expect(points.points[0].x).toBeCloseTo(1000 / 278.15, 12);
		expect(points.points[0].y).toBeCloseTo(Math.log(0.082 * 253809), 12);
		const [line] = of(f.layers, "line");
		const slope =
			(line.points[1].y - line.points[0].y) /
			(line.points[1].x - line.points[0].x);
		expect(slope * 1000 * -8.314462618e-3).toBeCloseTo(
			vanTHoff.enthalpy.value,
			9,
		);
		expect(f.alt).toMatch(/enthalpy −?\d+.* kJ\/mol \(/);
	});

	test("two temperatures: a dotted line, no band", () => {
		const f = vanTHoffLine(twoTemperatures);
		expect(of(f.layers, "band")).toHaveLength(0);
		expect(of(f.layers, "line")[0].dash).toBe("dotted");
		expect(f.alt).toContain("without an interval");
	});
});

test("a flask belongs to the curve up to 5 % from its start, and is an outline beyond", () => {
	const hollow = (factor: number): boolean[] =>
		of(
			doseAndRemoval(
				[removal],
				removals.map((r) => ({ ...r, start: removal.start * factor })),
			).layers,
			"points",
		).flatMap((l) => l.points.map((p) => p.hollow ?? false));
	for (const factor of [0.951, 1.049])
		expect(hollow(factor).some((h) => h)).toBe(false);
	for (const factor of [0.949, 1.051])
		expect(hollow(factor).every((h) => h)).toBe(true);
});

describe("what is left against dose, for a target", () => {
	const f = doseForTarget([answers[0]], [removal], { background });

	test("the dose stands on the line of the target, with its interval", () => {
		const diamond = of(f.layers, "points").find((l) => l.shape === "diamond");
		if (!diamond) throw new Error("no dose");
		const [{ x, y, xInterval, label }] = diamond.points;
		expect(y).toBe(20);
		expect(xInterval?.low).toBeLessThan(x);
		expect(xInterval?.high).toBeGreaterThan(x);
		expect(label).toMatch(/^[\d.]+ g\/L \([\d.]+ to [\d.]+\)$/);
		expect(
			of(f.layers, "reference line").map((l) => [l.axis, l.at, l.label]),
		).toEqual([
			["y", 20, "target 20 mg/L"],
			["y", 10, "10 mg/L stays at any dose"],
			["x", x, ""],
		]);
		expect(f.alt).toContain(`20 mg/L with ${label}`);
	});

	test("every flask stands at what it left", () => {
		const circles = of(f.layers, "points").find((l) => l.shape === "circle");
		expect(circles?.points.map((p) => p.y)).toEqual(
			removals.map((r) => r.residue),
		);
	});

	test("the band is that of the curve, turned into what is left", () => {
		const [band] = of(f.layers, "band");
		const [line] = of(f.layers, "line").filter((l) => l.dash !== "dotted");
		band.points.forEach((p, i) => {
			expect(p.low).toBeLessThanOrEqual(line.points[i].y);
			expect(p.high).toBeGreaterThanOrEqual(line.points[i].y);
		});
	});

	test("without a dose the curve and the target are still there, and no mark", () => {
		const none = doseForTarget([refusedDose], [removal]);
		expect(of(none.layers, "points").map((l) => l.shape)).toEqual(["circle"]);
		expect(none.alt).toContain("no dose for 300 mg/L");
		expect(of(none.layers, "line").length).toBeGreaterThan(0);
	});

	test("the axis is logarithmic where the target is under a fifth of the start", () => {
		const scaleAt = (target: number) =>
			doseForTarget(
				[doseOf(doseFit, { start: 200, target, beyond: "mark" })],
				[removal],
			).y.scale.is;
		expect(scaleAt(40.1)).toBe("linear");
		expect(scaleAt(39.9)).toBe("log");
	});

	test("flasks that started more than a twentieth away are not drawn", () => {
		const counted = (start: number) =>
			of(
				doseForTarget([answers[0]], [{ ...removal, start }]).layers,
				"points",
			).filter((l) => l.shape === "circle").length;
		expect(counted(200 / 1.049)).toBe(1);
		expect(counted(200 / 1.051)).toBe(0);
	});

	test("of a mixture each curve has its name and its dose", () => {
		const both = doseForTarget(
			[answers[0], refusedDose],
			[mixture.alone, mixture.mixture],
		);
		expect(
			of(both.layers, "line").flatMap((l) => (l.name === "" ? [] : [l.name])),
		).toEqual(["tint alone", "tint beside leaf brown"]);
		expect(both.alt).toMatch(
			/"tint alone": 20 mg\/L with .*"tint beside leaf brown": no dose/,
		);
	});
});
