import fc from "fast-check";
import { expect, test } from "vitest";
import { readTrial } from "../../kernel-lib/bench/index";
import { ladderOf } from "../../kernel-lib/figures/balance-ladder";
import {
	balanceLadder,
	type FigureDescription,
} from "../../kernel-lib/figures/index";
import { dyeTrial } from "./calibration-fixtures";
import { sketchedUptake, uptakes } from "./fixtures";

function bars(f: FigureDescription, row: number) {
	return f.layers.flatMap((l) =>
		l.is === "bars" ? l.bars.filter((b) => b.at === row) : [],
	);
}

function added(f: FigureDescription, row: number): number {
	const marks = f.layers.flatMap((l) =>
		l.is === "points" && l.name === "added" ? l.points : [],
	);
	return marks.find((p) => p.y === row)?.x ?? Number.NaN;
}

const f = ladderOf(uptakes, "iodine", new Set());

test("the parts follow one another and end where what was added stands", () => {
	uptakes.forEach((_, row) => {
		const parts = bars(f, row);
		expect(parts[0].from).toBe(0);
		for (let i = 1; i < parts.length; i++)
			expect(parts[i].from).toBe(parts[i - 1].to);
		expect(parts[parts.length - 1].to).toBeCloseTo(added(f, row), 9);
	});
});

test("parts add up to what was added whatever their signs", () => {
	fc.assert(
		fc.property(
			fc.double({ min: -50, max: 500, noNaN: true }),
			fc.double({ min: 0, max: 2000, noNaN: true }),
			fc.double({ min: 0, max: 90, noNaN: true }),
			fc.double({ min: -30, max: 60, noNaN: true }),
			(uptake, residue, withdrawn, lost) => {
				const one = ladderOf(
					[
						sketchedUptake({
							name: "1",
							treatment: "t",
							day: "",
							uptake,
							residue,
							withdrawn,
							lost,
						}),
					],
					"iodine",
					new Set(),
				);
				const sum = bars(one, 0).reduce((s, b) => s + b.to - b.from, 0);
				expect(sum).toBeCloseTo(added(one, 0), 6);
				for (const b of bars(one, 0))
					expect(b.from * b.to).toBeGreaterThanOrEqual(0);
			},
		),
	);
});

test("a withdrawal and its flask are named, with numbers that add up in words", () => {
	const withdrawn = f.layers.find(
		(l) => l.is === "bars" && l.name === "withdrawn",
	);
	expect(withdrawn?.is === "bars" && withdrawn.bars).toHaveLength(1);
	expect(f.alt).toContain("Iodine balance of 24 flasks in six treatments");
	expect(f.alt).toContain(
		'Flask 7 ("potash"): 549.0 mg added = 375.0 mg taken up + 107.0 mg left + 63.00 mg withdrawn + 4.0 mg lost',
	);
	expect(f.layers[0].is === "bars" && f.layers[0].bars[6].hover).toContain(
		"taken up: 375.0 mg (68.3 % of what was added)",
	);
});

test("each part has a hatch of its own", () => {
	const hatches = f.layers.flatMap((l) => (l.is === "bars" ? [l.hatch] : []));
	expect(hatches).toHaveLength(4);
	expect(new Set(hatches).size).toBe(4);
});

test("a flask that was read above its line is marked as a bound, in its name, its words and a note", () => {
	const dye = balanceLadder(dyeTrial);
	const { scale } = dye.y;
	expect(
		scale.is === "categories" && scale.names.filter((n) => n.includes("bound")),
	).toEqual(["V3 · wood vinegar, rinsed · a bound"]);
	expect(dye.alt).toMatch(
		/Flask V3 [^;]*added = at most [\d.]+ mg taken up \+ at least [\d.]+ mg left/,
	);
	expect(dye.alt.match(/at most/g)).toHaveLength(1);
	expect(dye.notes.join()).toContain("read beyond its line");
	expect(dye.title).toBe("Where the methylene blue went, flask by flask");
	expect(dye.x.label).toBe("Methylene blue");
	expect(JSON.stringify(dye)).not.toMatch(/iodine/i);
});

test("a flask that a deviation leaves out is drawn and named as left out", () => {
	const trial = readTrial("data/demo-run/hazelnut.csv");
	const out = trial.deviations
		.filter((d) => d.handling === "leave out")
		.flatMap((d) => d.targets.map((t) => t.name));
	expect(out.length).toBeGreaterThan(0);
	const ladder = balanceLadder(trial);
	const { scale } = ladder.y;
	const names = scale.is === "categories" ? scale.names : [];
	const hollow = ladder.layers.flatMap((l) =>
		l.is === "bars" ? l.bars.filter((b) => b.hollow) : [],
	);
	expect(new Set(hollow.map((b) => names[b.at].split(" · ")[0]))).toEqual(
		new Set(out),
	);
	for (const b of hollow) expect(b.hover).toMatch(/\nleft out: \w+/);
	expect(ladder.notes.join(" ")).toContain(
		"Outlined, left out for a deviation",
	);
	expect(
		names.filter((n) => n.endsWith("left out")).map((n) => n.split(" · ")[0]),
	).toEqual(out);
	expect(names.length).toBe(
		trial.flasks.filter((f) => f.contents === "char").length,
	);
});

test("all of 80 flasks are drawn; of 81 those at the ends of each treatment and some between, and it says so", () => {
	const many = (count: number) =>
		ladderOf(
			Array.from({ length: count }, (_, i) =>
				sketchedUptake({
					name: `F${i}`,
					treatment: i < 60 ? "water" : "steam",
					day: "",
					uptake: i === 33 ? 400 : i === 75 ? 5 : 100 + (i % 7),
					residue: 900,
					withdrawn: 0,
					lost: 0,
				}),
			),
			"iodine",
			new Set(),
		);
	const names = ({ y }: FigureDescription): readonly string[] =>
		y.scale.is === "categories" ? y.scale.names : [];
	expect(names(many(80))).toHaveLength(80);
	expect(many(80).notes).toEqual([]);
	const fewer = many(81);
	const drawn = names(fewer).length;
	expect(drawn).toBeGreaterThanOrEqual(40);
	expect(drawn).toBeLessThanOrEqual(44);
	expect(names(fewer)).toContain("F33 · water");
	expect(names(fewer)).toContain("F75 · steam");
	expect(fewer.notes.join()).toContain(`Drawn are ${drawn} of 81 flasks`);
	expect(fewer.alt).toContain(`balance of ${drawn} of 81 flasks`);
});
