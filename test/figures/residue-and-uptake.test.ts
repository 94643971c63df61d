import { expect, test } from "vitest";
import { readTrial } from "../../kernel-lib/bench/index";
import {
	type FigureDescription,
	type Point,
	residueAndUptake,
} from "../../kernel-lib/figures/index";
import { uptakesAtResidues } from "../../kernel-lib/figures/residue-and-uptake";
import { exact, input } from "../../kernel-lib/quantity/index";
import type { FlaskUptake } from "../../kernel-lib/uptake/index";
import { dyeTrial } from "./calibration-fixtures";
import { uptakes } from "./fixtures";

const of = (some: readonly FlaskUptake[]): FigureDescription =>
	uptakesAtResidues(some, "iodine");
const f = of(uptakes);
const points = f.layers.flatMap((l): readonly Point[] =>
	l.is === "points" ? l.points : [],
);

test("every flask stands at its residue and its uptake", () => {
	expect(points).toHaveLength(uptakes.length);
	for (const u of uptakes) {
		const [p, ...more] = points.filter((q) =>
			q.hover.includes(`flask ${u.flask.name}\n`),
		);
		expect(more).toEqual([]);
		expect([p.x, p.y]).toEqual([
			u.residue.quantity.in("mg/L"),
			u.uptake.quantity.in("mg/g"),
		]);
	}
	expect(points.filter((p) => p.hollow)).toHaveLength(1);
});

test("hover tells sample, flask, uptake and residue with uncertainty", () => {
	expect(points[0].hover).toBe(
		[
			"sample hazelnut shell",
			"flask 1",
			"water-soaked control, soak wa1, day 1",
			"uptake 290.0 mg/g (u 5.2 mg/g) per gram of dry char",
			"residue 1570 mg/L (u 14 mg/L)",
		].join("\n"),
	);
});

test("a flask that ran dry has an arrow up and a residue from nothing to its limit", () => {
	const arrows = f.layers.flatMap((l) => (l.is === "arrows" ? l.arrows : []));
	expect(arrows.map((a) => [a.x, a.y, a.towards, a.label])).toEqual([
		[22, 508, "up", "at least"],
	]);
	// Near enough to the others, which begin at 840 mg/L, to stay on the axis.
	const dry = points.find((p) => p.x === 22);
	expect(dry?.xInterval).toEqual({ low: 0, high: 22 });
	expect(dry?.yInterval).toBe(undefined);
});

test("treatments differ in ink and in shape, and axes have units", () => {
	const looks = f.layers.flatMap((l) =>
		l.is === "points" ? [[l.ink, l.shape]] : [],
	);
	expect(new Set(looks.map((l) => l[0])).size).toBe(6);
	expect(new Set(looks.map((l) => l[1])).size).toBe(6);
	expect([f.x.unit, f.y.unit]).toEqual(["mg/L", "mg/g"]);
});

test("the alt text gives the range of both for each treatment", () => {
	expect(f.alt).toContain(
		'"water-soaked control": uptake 290 to 310 mg/g at a residue of 1460 to 1570 mg/L',
	);
	expect(f.alt).toContain("Only a limit: flask 24 (uptake at least 508 mg/g).");
});

test("the axis says what the gram is of, and that losses are included where they are", () => {
	expect(f.y.label).toBe("Uptake of iodine per gram of dry char");
	const rough = uptakes.map((u) => ({
		...u,
		perGram: "char as weighed" as const,
		lossesTakenOff: false,
	}));
	expect(of(rough).y.label).toBe(
		"Uptake of iodine per gram of char as weighed, losses included",
	);
	expect(of([uptakes[0], rough[1]]).y.label).toBe(
		"Uptake of iodine per gram of char",
	);
});

test("the probe is the trial's: a dye's figure says nothing of iodine", () => {
	const dye = residueAndUptake(dyeTrial);
	expect([dye.x.label, dye.y.label]).toEqual([
		"Residual concentration of methylene blue",
		"Uptake of methylene blue per gram of dry char",
	]);
	expect(JSON.stringify(dye)).not.toMatch(/iodine/i);
});

test("the deviations are the trial's: flasks that they touch are outlines", () => {
	const trial = readTrial("data/demo-run/hazelnut.csv");
	const names = trial.deviations
		.flatMap((d) => d.targets)
		.filter((t) => t.is === "flask")
		.map((t) => t.name);
	const hollow = residueAndUptake(trial)
		.layers.flatMap((l): readonly Point[] =>
			l.is === "points" ? l.points : [],
		)
		.filter((p) => p.hollow)
		.map((p) => /flask ([^\n]+)/.exec(p.hover)?.[1]);
	expect(hollow.length).toBeGreaterThan(0);
	expect(new Set(hollow)).toEqual(new Set(names));
});

test("a limit far from all else stands at the edge, an arrow alone with its numbers", () => {
	const far = of(
		uptakes.map((u) => ({
			...u,
			residue:
				u.residue.is === "value"
					? {
							...u.residue,
							quantity: input(
								"massConcentration",
								u.residue.quantity.in("mg/L") + 5000,
								"mg/L",
								exact,
								{},
							),
						}
					: u.residue,
		})),
	);
	const arrows = far.layers.flatMap((l) => (l.is === "arrows" ? l.arrows : []));
	expect(arrows.map((a) => a.label)).toEqual([
		"at least 508 mg/g at a residue of at most 22 mg/L",
	]);
	expect(
		far.layers.flatMap((l) => (l.is === "points" ? l.points : [])),
	).toHaveLength(uptakes.length - 1);
	expect(far.x.scale.is === "linear" && far.x.scale.shown?.low).toBeGreaterThan(
		5000,
	);
});
