/** The table of conditions on two sides, what of it lies beyond, and which word that could have made; what each condition finds has tests beside this one. */
import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../../kernel-lib/bench";
import {
	type Audited,
	audit,
	auditedAt,
	type Finding,
	feigning,
	findingsOf,
	harmlessAbove,
} from "../../../kernel-lib/compare/audit";
import { conditions } from "../../../kernel-lib/compare/audit/conditions";
import type { Looked } from "../../../kernel-lib/compare/audit/sides";
import { known } from "../../../kernel-lib/quantity";
import { char, soundSolutions } from "../../bench-sheet/rows";
import { sideOf } from "./sides";

const trial = trialFromRows({
	flasks: [char("w", "water", 5), char("s", "steam", 4, { control: "water" })],
	solutions: soundSolutions,
});

describe("the audit", () => {
	const list = [
		...sideOf("steam", [{ lid: "no" }]),
		...sideOf("water", [{ lid: "yes" }]),
		...sideOf("smoke", [{ lid: "no" }]),
	];
	const found = (treatment: string, control: string) =>
		audit({ treatment, control }, list, {
			trial,
			measuringErrorOnly: false,
		});
	test("looks at every condition, on the flasks of the pair alone", () => {
		const audited = found("steam", "water");
		expect(audited.map((a) => a.condition.name)).toEqual(
			conditions.map((c) => c.name),
		);
		const lid = (pair: readonly Audited[]) =>
			pair.find((a) => a.condition.name === "lid")?.found;
		expect(lid(audited)).toEqual({
			is: "beyond",
			feigns: "higher",
			treated: "open",
			untreated: "closed",
		});
		expect(lid(found("water", "steam"))).toMatchObject({ feigns: "lower" });
		expect(lid(found("smoke", "steam"))).toMatchObject({ is: "within" });
		expect(audited[0].condition).not.toHaveProperty("look");
	});
	test("knows which control it is, and whether the word rests on measuring errors alone", () => {
		const guessed = { ...trial, controlByName: "water" };
		const of = (control: string, measuringErrorOnly: boolean) =>
			audit({ treatment: "steam", control }, list, {
				trial: guessed,
				measuringErrorOnly,
			});
		const looked = (all: readonly Audited[], name: string) =>
			all.find((a) => a.condition.name === name)?.found;
		expect(looked(of("water", false), "control")?.is).toBe("beyond");
		expect(looked(of("smoke", false), "control")?.is).toBe("within");
		expect(looked(of("water", true), "glassware")).toMatchObject({
			feigns: "either",
		});
		expect(looked(of("water", false), "glassware")).toMatchObject({
			feigns: "nothing",
		});
	});
});

const named = (name: string, found: Looked): Audited => ({
	condition: { name, is: "recorded", allowance: "", effect: "" },
	found,
});
const sound = { feigns: "nothing", treated: "a", untreated: "b" } as const;

test("findings are what lies beyond, in plain words", () => {
	expect(
		findingsOf([
			named("lid", { ...sound, is: "within" }),
			named("notes", { is: "not recorded" }),
			named("contact", { ...sound, is: "beyond", feigns: "higher" }),
		]),
	).toEqual([
		{
			condition: "contact",
			is: "recorded",
			feigns: "higher",
			treated: "a",
			untreated: "b",
		},
	]);
});

describe("what does no harm at larger margins", () => {
	const above = (mg: number): Looked => ({
		...sound,
		is: "beyond",
		feigns: "higher",
		harmless: { above: mg, by: "shown" },
	});
	test("what is not recorded, or shows nothing, stays as it is at every margin", () => {
		const plain = [
			named("notes", { is: "not recorded" }),
			named("lid", { ...sound, is: "beyond", feigns: "higher" }),
		];
		expect(auditedAt(plain, known(1000))).toEqual(plain);
	});
	test("all of it above the largest of them; above 0 where there is none", () => {
		expect(
			harmlessAbove([
				named("contact", above(15)),
				named("other", above(20)),
				named("notes", { is: "not recorded" }),
				named("lid", { ...sound, is: "within" }),
			]),
		).toBe(20);
		expect(harmlessAbove([named("notes", { is: "not recorded" })])).toBe(0);
		expect(harmlessAbove([])).toBe(0);
	});
});

describe("the findings that could have made a word", () => {
	const findings = (["higher", "lower", "either", "nothing"] as const).map(
		(feigns): Finding => ({
			condition: feigns,
			is: "recorded",
			feigns,
			treated: "",
			untreated: "",
		}),
	);
	test.each([
		["higher", ["higher", "either"]],
		["lower", ["lower", "either"]],
		["no difference that matters", ["higher", "lower", "either"]],
		["cannot tell", []],
	] as const)("%s: %j", (word, made) => {
		expect(feigning(findings, word).map((f) => f.condition)).toEqual(made);
	});
});
