import { notKnown } from "../../quantity";
import {
	consumes,
	entry,
	frees,
	type Substance,
	type Titrimetry,
	unclassified,
} from "../substance";

const thiosulfate = {
	titrimetry: {
		role: "thiosulfate",
		species: "S2O3",
		equivalents: 1,
		halfReaction: "2 S2O3(2−) → S4O6(2−) + 2 e−",
	} satisfies Titrimetry,
} as const;

const reduces = consumes(
	0.5,
	"thiosulfate left in the char reduces iodine, two moles for one; in alkali it takes up to eight times as much",
);

const iodineTitrimetry: Titrimetry = {
	role: "iodine",
	species: "I2",
	equivalents: 2,
	halfReaction: "I2 + 2 e− → 2 I−",
};

/** What stands in a burette or is titrated: iodine, thiosulfate and their standards. */
export const titrimetric: readonly Substance[] = [
	entry(
		"iodine",
		"I2",
		[
			"iodine solution",
			"iodine in potassium iodide",
			"iodine in ki",
			"iodine/ki",
			"iodine potassium iodide",
			"iodide-iodine",
			"triiodide",
			"KI3",
			"lugol",
			"lugol's",
			"lugol's solution",
			"lugol's iodine",
			"jod",
			"iod",
			"iode",
			"yodo",
			"iodio",
		],
		frees(1, "iodine left in the char is titrated with the rest"),
		{
			thiosulfate: "oxidises thiosulfate",
			volatile: true,
			goneAt600: true,
			solubility: "slightly soluble",
			titrimetry: iodineTitrimetry,
			dangers: ["iodine"],
		},
	),
	entry(
		"iodine preparation",
		"",
		[
			"tincture of iodine",
			"iodine tincture",
			"povidone iodine",
			"povidone iodine solution",
			"pvp iodine",
			"pvp-i",
			"iodophor",
			"tincture",
			"povidone",
			"pvp",
			"jodtinktur",
		],
		frees(
			notKnown("its percentage is not iodine in potassium iodide"),
			"iodine left in the char is titrated with the rest",
		),
		{
			thiosulfate: "oxidises thiosulfate",
			organic: true,
			volatile: true,
			goneAt600: true,
			dangers: ["iodine"],
		},
	),
	entry(
		"sodium thiosulfate",
		"",
		[
			"thiosulfate",
			"hypo",
			"hyposulfite of soda",
			"fixer",
			"natriumthiosulfat",
			"fixiersalz",
			"thiosulfate de sodium",
			"tiosulfato de sodio",
		],
		reduces,
		{
			...thiosulfate,
			weighingNote:
				"Grams of sodium thiosulfate may be of the anhydrous salt or of the pentahydrate, 36 % apart: say which.",
			harmless: unclassified,
		},
	),
	entry(
		"sodium thiosulfate anhydrous",
		"Na2S2O3",
		[
			"anhydrous sodium thiosulfate",
			"sodium thiosulfate, anhydrous",
			"sodium thiosulfate (anhydrous)",
			"anhydrous thiosulfate",
		],
		reduces,
		{ ...thiosulfate, harmless: unclassified },
	),
	entry(
		"sodium thiosulfate pentahydrate",
		"Na2S2O3·5H2O",
		[
			"sodium thiosulfate 5-hydrate",
			"sodium thiosulfate, pentahydrate",
			"sodium thiosulfate (pentahydrate)",
			"thiosulfate pentahydrate",
		],
		reduces,
		{ ...thiosulfate, harmless: unclassified },
	),
	entry("ammonium thiosulfate", "(NH4)2S2O3", ["rapid fixer"], reduces, {
		dangers: ["ammonia"],
	}),
	entry(
		"potassium iodate",
		"KIO3",
		["iodate", "kaliumjodat", "kaliumiodat"],
		frees(3, "iodate left in the char frees iodine from iodide in acid"),
		{
			thiosulfate: "oxidises thiosulfate",
			titrimetry: {
				role: "standard",
				species: "IO3",
				equivalents: 6,
				halfReaction: "IO3(−) + 5 I(−) + 6 H(+) → 3 I2 + 3 H2O",
			},
			dangers: ["iodate"],
		},
	),
	entry(
		"potassium dichromate",
		"K2Cr2O7",
		["dichromate", "bichromate", "bichromate of potash", "kaliumdichromat"],
		frees(3, "dichromate left in the char frees iodine from iodide in acid"),
		{
			thiosulfate: "oxidises thiosulfate",
			titrimetry: {
				role: "standard",
				species: "Cr2O7",
				equivalents: 6,
				halfReaction: "Cr2O7(2−) + 14 H(+) + 6 e− → 2 Cr(3+) + 7 H2O",
			},
			dangers: ["oxidiser", "chromate"],
		},
	),
];
