import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { marginOf, secondOpinionTable } from "../../kernel-lib/compare";
import { referenceData } from "../reference/check";
import { compareTreatments, flasks } from "./fixtures";

const { machines } = referenceData<{
	machines: {
		readonly groups: readonly (readonly (readonly number[])[])[];
		readonly differences: readonly { readonly estimate: number }[];
	};
}>("means-of-groups.json");

/** The published scores taken for uptakes: each machine a treatment, each worker a soak, each score a flask. */
function machineTrial(day: (soak: number) => string) {
	return compareTreatments(
		flasks(
			machines.groups.flatMap((soaks, m) =>
				soaks.flatMap((scores, s) =>
					scores.map((uptake, k) => ({
						flask: `${m}.${s}.${k}`,
						treatment: `machine ${m}`,
						control: m === 0 ? "" : "machine 0",
						soak: `${m}.${s}`,
						day: day(s),
						uptake,
					})),
				),
			),
		),
		{ margin: marginOf(5), spread: "pooled" },
	);
}

it("puts both textbook ways beside the comparison, which agrees where a trial is balanced and nothing else is recorded", () => {
	const { rows, columns } = secondOpinionTable(machineTrial(() => "day 1"));
	expect(
		rows.map((r) => r[columns.indexOf("soaks (treated, control)")]),
	).toEqual(["6, 6", "6, 6"]);
	rows.forEach((row, i) => {
		const [here, dunnett, mixed] = [row[3], row[4], row[6]];
		expect(dunnett).toBe(mixed);
		expect(here).toBe(dunnett);
		expect(String(dunnett)).toContain(
			machines.differences[i].estimate.toFixed(1),
		);
	});
});

it("says where the comparison departs: days, bounds, too few soaks", () => {
	const notes = (text: string[]): string => text.join(" ");
	const twoDays = secondOpinionTable(machineTrial((s) => `day ${s % 2}`));
	expect(notes([...twoDays.notes])).toContain("stood on 2 days");
	const bound = secondOpinionTable(
		compareTreatments(
			flasks([
				{ flask: "C1", treatment: "water", soak: "a", uptake: 100 },
				{
					flask: "T1",
					treatment: "steam",
					control: "water",
					soak: "b",
					uptake: 150,
				},
				{
					flask: "T2",
					treatment: "steam",
					control: "water",
					soak: "c",
					uptake: 160,
					is: "at least",
				},
			]),
			{ margin: marginOf(5) },
		),
	);
	expect(notes([...bound.notes])).toContain(
		"only a bound have no place in the textbook ways: T2",
	);
	expect(notes([...bound.notes])).toContain("No treatment has two soaks");
	expect(bound.rows[0][4]).toBe("not available");
});

it("of a trial of one day without bounds it says no more than that shared errors have no part, and at which residue it compares", () => {
	expect(secondOpinionTable(machineTrial(() => "day 1")).notes).toEqual([
		expect.stringMatching(/^Both textbook ways take the uptakes for exact/),
		expect.stringMatching(/^Here all treatments are compared at one residue/),
	]);
});

it("shows a bound as one, what is not available as that, and a treatment without a control as none", () => {
	const soaks = (treatment: string, control: string, more = {}) =>
		[100, 104, 108].map((uptake, i) => ({
			flask: `${treatment}${i}`,
			treatment,
			control,
			soak: `${treatment}${i}`,
			uptake: treatment === "water" ? uptake : uptake + 40,
			...more,
		}));
	const c = compareTreatments(
		flasks([
			...soaks("water", ""),
			...soaks("steam", "water"),
			...soaks("dry", "water", { is: "at least", reading: 1 }),
			...soaks("alone", ""),
		]),
		{ margin: marginOf(5) },
	);
	const { rows, notes } = secondOpinionTable(c);
	const row = (treatment: string) => rows.find((r) => r[0] === treatment);
	expect(row("dry")?.slice(1)).toEqual([
		"water",
		"0, 3",
		expect.stringMatching(/^at least \d+\.\d$/),
		"not available",
		"",
		"not available",
	]);
	expect(row("alone")?.slice(1, 4)).toEqual([
		"none named",
		"3, 0",
		"not available",
	]);
	expect(row("steam")?.[1]).toBe("water");
	expect(row("steam")?.[5]).toBeGreaterThan(0);
	expect(notes.join(" ")).toContain("dry0, dry1 and dry2");
	expect(notes.join(" ")).not.toContain("No treatment has two soaks");
});

it("leaves out what the sheet leaves out", () => {
	const c = machineTrial(() => "day 1");
	const out = c.flasks.map((u, i) =>
		i === 0
			? {
					...u,
					flask: {
						...u.flask,
						marks: [
							{ handling: "leave out", whatHappened: "spilt" },
						] as unknown as typeof u.flask.marks,
					},
				}
			: u,
	);
	const [own, less] = [c, { ...c, flasks: out }].map((each) =>
		String(secondOpinionTable(each).rows[0][4]),
	);
	expect(less).not.toBe(own);
});

it("uses nothing of the comparison but its result: no code that computes", () => {
	const source = readFileSync(
		new URL("../../kernel-lib/compare/second-opinion.ts", import.meta.url),
		"utf8",
	);
	const own = [...source.matchAll(/^import (.*) from "\.\/(.*)";$/gm)];
	expect(own.map(([, what, file]) => [what, file])).toEqual([
		// How a difference is written.
		["{ shownDifference }", "difference-places"],
		// What a comparison is known by.
		["{ requireComparison }", "doors"],
		// How a concentration is written.
		["{ residueText }", "stated-residue"],
		["type { Comparison }", "verdict"],
	]);
});
