import { notKnown } from "../../quantity";
import {
	consumes,
	type Detail,
	entry,
	frees,
	kitchenGoods,
	neither,
	type Substance,
	unknownEffect,
} from "../substance";

const withoutReaction = neither(
	"it does not react with iodine or iodide; below about pH 2 air frees iodine from iodide slowly and thiosulfate decomposes, which the final pH shows",
);

function acid(
	name: string,
	formula: string,
	synonyms: readonly string[],
	detail: Detail = {},
	iodine = withoutReaction,
): Substance {
	return entry(name, formula, synonyms, iodine, {
		acidity: "acid",
		thiosulfate: "decomposes thiosulfate",
		dangers: ["strong acid"],
		...detail,
	});
}

const organicAcid = {
	organic: true,
	dissociation: "partial",
	thiosulfate: "neither",
	goneAt600: true,
	dangers: ["mild acid"],
} as const;

const mixture = notKnown("it is a mixture");

export const acids: readonly Substance[] = [
	acid(
		"hydrochloric acid",
		"HCl",
		[
			"hydrochloric",
			"muriatic acid",
			"hydrogen chloride",
			"spirit of salt",
			"spirits of salt",
			"spirit of salts",
			"salzsäure",
			"acide chlorhydrique",
			"ácido clorhídrico",
			"acido muriático",
			"acido cloridrico",
		],
		{ volatile: true, goneAt600: true },
	),
	acid("sulfuric acid", "H2SO4", [
		"sulfuric",
		"oil of vitriol",
		"battery acid",
		"schwefelsäure",
		"acide sulfurique",
		"ácido sulfúrico",
		"acido solforico",
	]),
	acid(
		"phosphoric acid",
		"H3PO4",
		[
			"phosphoric",
			"orthophosphoric acid",
			"phosphorsäure",
			"acide phosphorique",
			"ácido fosfórico",
			"acido fosforico",
		],
		{
			washingCaution:
				"Below about pH 2.7 phosphoric acid is not wholly dissociated: there the pH rises more slowly than the strength falls. Phosphates that hold to the char do not show in the rinses.",
			dangers: ["strong acid", "phosphoric acid"],
		},
	),
	acid(
		"nitric acid",
		"HNO3",
		[
			"nitric",
			"aqua fortis",
			"salpetersäure",
			"acide nitrique",
			"ácido nítrico",
		],
		{
			volatile: true,
			goneAt600: true,
			thiosulfate: "oxidises thiosulfate",
			dangers: ["strong acid", "oxidiser"],
		},
		frees(
			notKnown("it depends on strength, time and traces of nitrite"),
			"nitric acid and the nitrous acid in it free iodine from iodide",
		),
	),
	acid(
		"aqua regia",
		"",
		["königswasser", "eau régale", "agua regia", "acqua regia"],
		{
			thiosulfate: "oxidises thiosulfate",
			goneAt600: true,
			dangers: ["strong acid", "oxidiser"],
		},
		frees(mixture, "aqua regia frees iodine from iodide"),
	),
	acid(
		"hydrofluoric acid",
		"HF",
		[
			"hydrofluoric",
			"hydrogen fluoride",
			"flusssäure",
			"flussaeure",
			"acide fluorhydrique",
			"ácido fluorhídrico",
		],
		{
			dissociation: "partial",
			volatile: true,
			goneAt600: true,
			dangers: ["fluoride", "strong acid"],
		},
	),
	acid("boric acid", "H3BO3", ["boracic acid", "borsäure"], {
		dissociation: "partial",
		thiosulfate: "neither",
		dangers: ["borate"],
	}),
	acid("sulfamic acid", "H3NSO3", ["amidosulfuric acid"], {
		dangers: ["mild acid"],
	}),
	acid(
		"citric acid",
		"C6H8O7",
		[
			"citric",
			"zitronensäure",
			"citronensäure",
			"acide citrique",
			"ácido cítrico",
		],
		organicAcid,
	),
	acid(
		"acetic acid",
		"C2H4O2",
		[
			"acetic",
			"CH3COOH",
			"HAc",
			"AcOH",
			"ethanoic acid",
			"essigsäure",
			"acide acétique",
			"ácido acético",
		],
		{ ...organicAcid, volatile: true },
	),
	acid(
		"tartaric acid",
		"C4H6O6",
		["weinsäure", "acide tartrique"],
		organicAcid,
	),
	acid(
		"potassium bitartrate",
		"KC4H5O6",
		["cream of tartar", "potassium hydrogen tartrate", "weinstein"],
		{
			...organicAcid,
			goneAt600: false,
			solubility: "slightly soluble",
			dangers: ["alkali metal"],
		},
		unknownEffect(
			"it does not react with iodine in the cold, but fired it leaves carbonate, and iodine disproportionates in that alkali",
		),
	),
	acid(
		"oxalic acid",
		"C2H2O4",
		["oxalsäure", "kleesalz"],
		organicAcid,
		unknownEffect(
			"oxalic acid reacts with iodine slowly, and faster in light; how much in a flask is not known",
		),
	),
	acid(
		"formic acid",
		"CH2O2",
		["HCOOH", "ameisensäure", "acide formique"],
		{ ...organicAcid, volatile: true },
		consumes(1, "formic acid is oxidised slowly by iodine"),
	),
	acid(
		"lactic acid",
		"C3H6O3",
		["milchsäure"],
		organicAcid,
		unknownEffect("what lactic acid does to iodine in a flask is not known"),
	),
	acid(
		"vinegar",
		"",
		[
			"white vinegar",
			"cider vinegar",
			"spirit vinegar",
			"white spirit vinegar",
			"wine vinegar",
			"essig",
			"vinaigre",
			"vinagre",
			"aceto",
		],
		{ ...organicAcid, volatile: true },
		consumes(
			mixture,
			"vinegar can hold aldehydes, sugars, phenols and sulfite, which react with iodine",
		),
	),
	acid(
		"wood vinegar",
		"",
		[
			"pyroligneous acid",
			"pyroligneous",
			"liquid smoke",
			"mokusaku",
			"holzessig",
			"vinaigre de bois",
			"acide pyroligneux",
			"vinagre de madera",
			"ácido piroleñoso",
		],
		{ ...organicAcid, dangers: ["mild acid", "tar"] },
		consumes(
			mixture,
			"wood vinegar left in the char holds phenols and aldehydes, which react with iodine",
		),
	),
	acid(
		"lemon or lime juice",
		"",
		[
			"lemon juice",
			"lime juice",
			"juice of limes",
			"juice of lemons",
			"lemon",
			"lemons",
			"limes",
			"citrus juice",
			"orange juice",
			"fruit juice",
			"zitronensaft",
			"limettensaft",
			"jus de citron",
			"jugo de limón",
			"zumo de limón",
		],
		organicAcid,
		consumes(
			mixture,
			"fruit juice left in the char holds ascorbic acid and sugars, which react with iodine",
		),
	),
	acid(
		"ascorbic acid",
		"C6H8O6",
		[
			"vitamin c",
			"ascorbic",
			"ascorbate",
			"ascorbinsäure",
			"acide ascorbique",
			"vitamine c",
		],
		{ ...organicAcid, dangers: [], ...kitchenGoods },
		consumes(1, "ascorbic acid left in the char reduces iodine, mole for mole"),
	),
];
