import {
	nowhere,
	type ProblemPlace,
	problem,
	throwProblems,
} from "../quantity";

/** A substance of the iodometric bench: what is weighed, and how many electrons a mole of it exchanges there. */
export interface Substance {
	readonly name: string;
	/** Other names that sheets use, in small letters. */
	readonly alsoCalled: readonly string[];
	/** What is usually weighed. */
	readonly formula: string;
	/** Equivalents per mole in iodometry. */
	readonly equivalents: number;
	readonly halfReaction: string;
}

export const substances: readonly Substance[] = [
	{
		name: "iodine",
		alsoCalled: ["i2", "iodine solution", "triiodide"],
		formula: "I2",
		equivalents: 2,
		halfReaction: "I2 + 2 e− → 2 I−",
	},
	{
		name: "sodium thiosulfate",
		alsoCalled: [
			"thiosulfate",
			"thiosulphate",
			"sodium thiosulphate",
			"sodium thiosulfate pentahydrate",
			"sodium thiosulfate anhydrous",
			"na2s2o3",
			"na2s2o3.5h2o",
			"na2s2o3·5h2o",
		],
		formula: "Na2S2O3·5H2O",
		equivalents: 1,
		halfReaction: "2 S2O3(2−) → S4O6(2−) + 2 e−",
	},
	{
		name: "potassium iodate",
		alsoCalled: ["iodate", "kio3"],
		formula: "KIO3",
		equivalents: 6,
		halfReaction: "IO3(−) + 5 I(−) + 6 H(+) → 3 I2 + 3 H2O",
	},
	{
		name: "potassium dichromate",
		alsoCalled: ["dichromate", "k2cr2o7"],
		formula: "K2Cr2O7",
		equivalents: 6,
		halfReaction: "Cr2O7(2−) + 14 H(+) + 6 e− → 2 Cr(3+) + 7 H2O",
	},
];

export type SubstanceFound =
	| { readonly known: true; readonly substance: Substance }
	| { readonly known: false };

/** Finds a substance by any of its names; case and extra spaces do not matter. */
export function findSubstance(name: string): SubstanceFound {
	const text = name.trim().toLowerCase().replaceAll(/\s+/g, " ");
	const substance = substances.find(
		(s) => s.name === text || s.alsoCalled.includes(text),
	);
	return substance === undefined
		? { known: false }
		: { known: true, substance };
}

/** @throws ProblemError for a substance that is not on record */
export function substanceOf(
	name: string,
	where: ProblemPlace = nowhere,
): Substance {
	const found = findSubstance(name);
	if (found.known) return found.substance;
	throwProblems([
		problem(
			"substance-unknown",
			where,
			`the substance "${name}"`,
			`one whose iodometric equivalents are on record: ${substances.map((s) => s.name).join(", ")}`,
			"Name one of these, or give its concentration in mol/L.",
		),
	]);
	throw new Error("unreachable");
}
