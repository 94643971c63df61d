import { describe, expect, it } from "vitest";
import { figure, type Layer } from "../../kernel-lib/figures";
import { allMarks, evenly, outermost } from "../../kernel-lib/figures/thinned";

const axis = (label: string) => ({
	label,
	unit: "g",
	scale: { is: "linear" as const },
});

/** So many points that go up and down, the tenth of them far above. */
function points(name: string, count: number): Extract<Layer, { is: "points" }> {
	return {
		is: "points",
		name,
		ink: "blue",
		shape: "circle",
		points: Array.from({ length: count }, (_, i) => ({
			x: i,
			y: i === 10 ? 1000 : Math.sin(i),
			hover: String(i),
		})),
	};
}

const drawn = (layers: readonly Layer[]) =>
	figure({
		title: "t",
		alt: "a",
		x: axis("x"),
		y: axis("y"),
		layers,
		notes: ["own note"],
	});

const counts = (layers: readonly Layer[]): number[] =>
	layers.map((l) => (l.is === "points" ? l.points.length : 0));

describe("a figure of very many marks", () => {
	it(`draws all up to ${allMarks}, and says how many of more`, () => {
		const all = drawn([points("one", allMarks)]);
		expect(counts(all.layers)).toEqual([allMarks]);
		expect(all.notes).toEqual(["own note"]);
		const fewer = drawn([points("one", 2000)]);
		const [left] = counts(fewer.layers);
		expect(left).toBeGreaterThanOrEqual(allMarks);
		expect(left).toBeLessThanOrEqual(allMarks + 4);
		expect(fewer.notes).toEqual([
			"own note",
			`Drawn are ${left} of 2000 marks: of each kind the outermost, and others at even steps in the order of the sheet.`,
		]);
	});

	it("keeps the outermost, and the few of a small treatment", () => {
		const { layers } = drawn([points("many", 5000), points("few", 18)]);
		expect(counts(layers)[1]).toBe(18);
		const [many] = layers;
		const hovers = many.is === "points" ? many.points.map((p) => p.hover) : [];
		expect(hovers).toContain("10");
		expect(hovers).toContain("0");
		expect(hovers).toContain("4999");
	});

	it("leaves curves as they are", () => {
		const curve: Layer = {
			is: "line",
			name: "",
			ink: "blue",
			dash: "solid",
			points: points("", 1000).points.map(({ x, y }) => ({ x, y })),
		};
		expect(drawn([curve]).layers).toEqual([curve]);
	});
});

describe("places", () => {
	it("at even steps begin with the first; all where there are no more", () => {
		expect(evenly(10, 5)).toEqual([0, 2, 4, 6, 8]);
		expect(evenly(3, 5)).toEqual([0, 1, 2]);
	});

	it("of the least and the greatest value, the first of those alike", () => {
		expect(outermost([2, 1, 3, 1, 3])).toEqual([1, 2]);
	});
});
