import { describe, expect, test } from "vitest";
import { readTrial } from "../../kernel-lib/bench";
import { type CharLot, charLots } from "../../kernel-lib/compare";
import { charLots as drawn } from "../../kernel-lib/figures";
import { notKnown, scaled } from "../../kernel-lib/quantity";
import { firingRoutes, uptakesByFiring } from "../../kernel-lib/uptake";
import { firingAnswer } from "../../kernel-lib/words";
import {
	lotFinding,
	lotLimits,
	lotTable,
	notRankedSentences,
} from "../../kernel-lib/words/lot-words";
import {
	yieldAnswerTable,
	yieldFinding,
} from "../../kernel-lib/words/yield-words";
import { kilnOf } from "../activation/firings";

const trial = readTrial("data/demo-activation/kiln.csv");
const routes = firingRoutes(trial);
const lots = charLots(uptakesByFiring(trial), routes);
const [lid, steam30, steam60, potash05, potash1, phosphoric] = lots;

/** The same lot under another name, with other things changed. */
const like = (
	lot: CharLot,
	name: string,
	change: Partial<CharLot> = {},
): CharLot => ({ ...lot, name, ...change });

/** With so many times its uptakes. */
const times = (lot: CharLot, name: string, factor: number): CharLot => {
	const of = (found: CharLot["perChar"]): CharLot["perChar"] =>
		found.is === "value"
			? { is: "value", quantity: scaled(found.quantity, factor) }
			: found;
	return like(lot, name, {
		flasks: lot.flasks.map((f) => ({
			...f,
			uptake: { ...f.uptake, quantity: scaled(f.uptake.quantity, factor) },
		})),
		perChar: of(lot.perChar),
		perFeedstock: of(lot.perFeedstock),
	});
};

describe("the finding of lots", () => {
	test("names the highest on each basis, and what is not ranked on it", () => {
		expect(lotFinding(lots, "iodine")).toBe(
			'Highest uptake of iodine per gram of char: "potash 1", 499 mg/g; per gram of dry "hazelnut shell": "phosphoric 1", 245 mg/g (not ranked: "potash 1", because its weighings do not balance).',
		);
	});
	test("says of lots that they cannot be told apart, up to three by name", () => {
		const near = [lid, like(lid, "other")];
		expect(lotFinding(near, "iodine")).toMatch(
			/per gram of char: "lid 1", 326 mg\/g and "other", 326 mg\/g, which cannot be told apart; per gram/,
		);
		const four = ["a", "b", "c"].map((name) => like(lid, name));
		expect(lotFinding([lid, ...four], "iodine")).toMatch(
			/: "lid 1", 326 mg\/g, which cannot be told apart from 3 other lots; /,
		);
	});
	test("of one lot says that it is the only one", () => {
		expect(lotFinding([lid], "iodine")).toContain(
			'per gram of char: only "lid 1", 326 mg/g; ',
		);
	});
	test("without a place for any, of many without one, per gram as weighed", () => {
		const none = (name: string): CharLot =>
			like(lid, name, { perChar: notKnown("it ran dry") });
		expect(lotFinding([none("a")], "iodine")).toContain(
			"per gram of char: no lot has a place; ",
		);
		expect(lotFinding([lid, none("a"), none("b")], "iodine")).toContain(
			'only "lid 1", 326 mg/g (not ranked: "a" and "b"); ',
		);
		expect(
			lotFinding([lid, ...["a", "b", "c", "d"].map(none)], "iodine"),
		).toContain("(not ranked: 4 lots)");
		expect(
			lotFinding([like(lid, "a", { perGram: "char as weighed" })], "iodine"),
		).toContain("per gram of char as weighed: ");
	});
	test("ranks nothing per gram of unlike feedstocks", () => {
		const wood = like(steam60, "wood", { feedstock: "wood" });
		expect(lotFinding([lid, wood], "iodine")).toMatch(
			/; per gram of feedstock nothing is ranked, because the lots start from different feedstocks\.$/,
		);
		expect(lotTable([lid, wood]).columns[3]).toBe(
			"per gram of its feedstock (mg/g)",
		);
		expect(notRankedSentences([lid, wood])).toEqual([]);
	});
});

describe("what stands beside it", () => {
	test("a row a lot, the highest first, each at its residue, what does not balance without a figure per feedstock", () => {
		const { rows, columns } = lotTable(lots);
		expect(columns).toHaveLength(5);
		expect(rows.map((row) => row[0])).toEqual([
			"potash 1",
			"phosphoric 1",
			"steam 60",
			"potash 0.5",
			"steam 30",
			"lid 1",
		]);
		expect(rows[0].slice(2)).toEqual([
			"1080 to 1180",
			"not reliable",
			"highest per gram of char; weighings do not balance",
		]);
		expect(rows[1][4]).toBe("highest per gram of feedstock");
		expect(rows[2][4]).toBe("");
	});
	test("a lot without a mean stands last, and says so", () => {
		const dry = like(potash05, "dry", { perChar: notKnown("it ran dry") });
		const { rows } = lotTable([dry, steam30]);
		expect(rows[1].slice(0, 2)).toEqual(["dry", "not ranked"]);
		expect(notRankedSentences([dry, steam30])).toEqual([
			'Not ranked per gram of char, because it ran dry: "dry".',
		]);
	});
	test("one firing of each treatment is no replicate; several are ranked one by one", () => {
		expect(lotLimits(lots)[0]).toMatch(/^Each treatment was fired once/);
		expect(lotLimits([lid, like(lid, "again")])[0]).toMatch(
			/^Each lot of char is ranked by itself/,
		);
	});
	test("the answer has what was left out before what each firing gave", () => {
		const { statements } = firingAnswer(trial);
		expect(statements[2]).toBe(
			'Not ranked per gram of feedstock, because its weighings do not balance: "potash 1".',
		);
		expect(statements[3]).toMatch(/^"lid 1": char yield/);
	});
	test("the figure has both bars of a lot, and says what is not to be relied on", () => {
		const f = drawn(trial);
		const layers = f.layers.flatMap((l) => (l.is === "bars" ? [l] : []));
		expect(layers.map((l) => l.bars.length)).toEqual([6, 5, 1]);
		expect(layers[0].bars.map((b) => b.to)).toEqual(
			layers[0].bars.map((b) => b.to).sort((a, b) => b - a),
		);
		expect(layers[2].name).toContain("not reliable");
		expect(layers[2].bars[0].label).toContain("not reliable");
		expect(f.alt).toContain('"potash 1": 499 mg/g of char, 99.9');
		expect(f.alt).toContain("not to be relied on");
		expect(f.notes).toEqual([
			"The flasks left 1080 to 3110 mg/L in solution: uptake grows with what is left, so that the bars alone do not rank the chars.",
			'Not reliable per gram of feedstock, for weighings do not balance: "potash 1".',
		]);
	});
	test("a lot that doubles another leads, whatever the others", () => {
		expect(
			lotFinding([...lots, times(potash1, "twice", 2)], "iodine"),
		).toContain('per gram of char: "twice", 998 mg/g; ');
		expect(lotFinding([phosphoric, lid], "iodine")).toContain(
			'shell": "phosphoric 1", 245 mg/g.',
		);
	});
});

describe("firings without flasks", () => {
	test("give yields from what they started from, those that do not balance aside", () => {
		expect(yieldFinding(routes)).toBe(
			'No flask belongs to these firings, so nothing is known of uptake; dry char from dry "hazelnut shell": 20.1 % ("steam 60") to 50.2 % ("phosphoric 1") (1 of 6 firings without a yield to rely on).',
		);
		const { rows } = yieldAnswerTable(routes);
		expect(rows[1].slice(0, 3)).toEqual([
			"steam 30",
			"dry hazelnut shell",
			"lid 1",
		]);
		expect(rows[4][4]).toBe("weighings do not balance");
	});
	test("of one, of unlike feedstocks, of none that can be relied on", () => {
		const of = (...rows: Parameters<typeof kilnOf>[0]) =>
			firingRoutes(kilnOf(rows));
		const fired = (firing: string, precursor: string) => ({
			firing,
			precursor,
			"precursor mass (g)": 100,
			"fired mass (g)": 30,
		});
		expect(yieldFinding(of(fired("a", "wood")))).toMatch(
			/; dry char from "wood" as weighed: 30 % \("a"\)\.$/,
		);
		expect(yieldFinding(of(fired("a", "wood"), fired("b", "shell")))).toContain(
			"dry char from what each started from: ",
		);
		const lost = of({ firing: "a", "precursor mass (g)": 100 });
		expect(yieldFinding(lost)).toMatch(/; no yield is to be relied on\.$/);
		expect(yieldAnswerTable(lost).rows).toEqual([
			["a", "feedstock as weighed", "", "not known", ""],
		]);
	});
});
