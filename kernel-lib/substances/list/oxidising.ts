import { notKnown } from "../../quantity";
import {
	type Detail,
	entry,
	frees,
	neither,
	type Substance,
	unknownEffect,
} from "../substance";

function oxidiser(
	name: string,
	formula: string,
	synonyms: readonly string[],
	/** I2 freed from iodide by a mole, at most. */
	moles: number | "not known",
	detail: Detail = {},
): Substance {
	return entry(
		name,
		formula,
		synonyms,
		frees(
			moles === "not known"
				? notKnown("it is a mixture, or it depends on acid and time")
				: moles,
			`${name} left in the char frees iodine from iodide`,
		),
		{
			thiosulfate: "oxidises thiosulfate",
			dangers: ["oxidiser"],
			...detail,
		},
	);
}

export const oxidising: readonly Substance[] = [
	oxidiser(
		"hydrogen peroxide",
		"H2O2",
		[
			"peroxide",
			"perhydrol",
			"wasserstoffperoxid",
			"eau oxygénée",
			"agua oxigenada",
			"peróxido de hidrógeno",
			"acqua ossigenata",
		],
		1,
		{ goneAt600: true },
	),
	oxidiser(
		"sodium percarbonate",
		"2Na2CO3·3H2O2",
		["percarbonate", "oxygen bleach", "oxi bleach"],
		3,
		{
			acidity: "alkaline",
			dissociation: "partial",
			dangers: ["oxidiser", "carbonate"],
		},
	),
	oxidiser("sodium perborate", "NaBO3", ["perborate"], 1, {
		acidity: "alkaline",
		dissociation: "partial",
		dangers: ["oxidiser", "borate"],
	}),
	oxidiser("peracetic acid", "C2H4O3", ["peroxyacetic acid"], 1, {
		acidity: "acid",
		dissociation: "partial",
		goneAt600: true,
		organic: true,
		volatile: true,
		dangers: ["oxidiser", "strong acid"],
	}),
	oxidiser(
		"sodium hypochlorite",
		"NaOCl",
		[
			"bleach",
			"NaClO",
			"household bleach",
			"chlorine bleach",
			"hypochlorite",
			"bleaching solution",
			"eau de javel",
			"javel",
			"javel water",
			"chlorbleiche",
			"lejía",
			"lejia",
			"candeggina",
			"natriumhypochlorit",
			"hypochlorite de sodium",
			"hipoclorito de sodio",
		],
		1,
		{ acidity: "alkaline", dissociation: "partial", dangers: ["bleach"] },
	),
	oxidiser(
		"calcium hypochlorite",
		"Ca(OCl)2",
		[
			"Ca(ClO)2",
			"bleaching powder",
			"chloride of lime",
			"chlorinated lime",
			"chlorkalk",
			"chlorure de chaux",
		],
		2,
		{
			acidity: "alkaline",
			dissociation: "partial",
			dangers: ["oxidiser", "bleach"],
		},
	),
	oxidiser(
		"chlorine",
		"Cl2",
		["chlorine water", "chlorine gas", "chlor", "chlore", "cloro"],
		1,
		{ volatile: true, goneAt600: true, dangers: ["poison", "bleach"] },
	),
	oxidiser("bromine", "Br2", ["bromine water"], 1, {
		volatile: true,
		goneAt600: true,
		dangers: ["poison", "oxidiser"],
	}),
	oxidiser("chlorine dioxide", "ClO2", [], 2.5, {
		volatile: true,
		goneAt600: true,
		dangers: ["poison", "bleach"],
	}),
	oxidiser("sodium chlorite", "NaClO2", ["chlorite"], 2, {
		dangers: ["oxidiser", "bleach"],
	}),
	oxidiser("chloramine", "NH2Cl", ["monochloramine"], 1, {
		goneAt600: true,
		dangers: ["bleach", "ammonia"],
	}),
	oxidiser("chloramine-T", "C7H7ClNNaO2S", [], 1, {
		organic: true,
		dangers: ["bleach"],
	}),
	oxidiser("ozone", "O3", ["ozon", "ozonised water"], 1, {
		volatile: true,
		goneAt600: true,
		dangers: ["poison", "oxidiser"],
	}),
	oxidiser(
		"potassium permanganate",
		"KMnO4",
		[
			"permanganate",
			"condy's crystals",
			"permanganate of potash",
			"kaliumpermanganat",
			"permanganate de potassium",
			"permanganato de potasio",
		],
		2.5,
	),
	oxidiser(
		"manganese dioxide",
		"MnO2",
		["pyrolusite", "manganese(IV) oxide", "braunstein"],
		1,
		{ solubility: "insoluble", dangers: ["metal salt"] },
	),
	oxidiser("potassium chromate", "K2CrO4", ["chromate"], 1.5, {
		acidity: "alkaline",
		dissociation: "partial",
		dangers: ["oxidiser", "chromate"],
	}),
	oxidiser("sodium chromate", "Na2CrO4", [], 1.5, {
		acidity: "alkaline",
		dissociation: "partial",
		dangers: ["oxidiser", "chromate"],
	}),
	oxidiser("sodium dichromate", "Na2Cr2O7", ["sodium bichromate"], 3, {
		acidity: "acid",
		dissociation: "partial",
		dangers: ["oxidiser", "chromate"],
	}),
	oxidiser(
		"chromium trioxide",
		"CrO3",
		["chromic acid", "chromic anhydride"],
		1.5,
		{ acidity: "acid", dangers: ["oxidiser", "chromate", "strong acid"] },
	),
	oxidiser(
		"ammonium persulfate",
		"(NH4)2S2O8",
		["persulfate", "ammonium peroxodisulfate", "peroxodisulfate"],
		1,
		{ dangers: ["oxidiser", "ammonia"] },
	),
	oxidiser("potassium persulfate", "K2S2O8", ["potassium peroxodisulfate"], 1),
	oxidiser("sodium persulfate", "Na2S2O8", ["sodium peroxodisulfate"], 1),
	oxidiser("potassium peroxymonosulfate", "KHSO5", ["peroxymonosulfate"], 1, {
		acidity: "acid",
	}),
	oxidiser(
		"sodium nitrite",
		"NaNO2",
		["nitrite", "curing salt", "natriumnitrit"],
		"not known",
		{ dangers: ["poison", "nitrate"] },
	),
	oxidiser("potassium nitrite", "KNO2", [], "not known", {
		dangers: ["poison", "nitrate"],
	}),
	oxidiser(
		"potassium chlorate",
		"KClO3",
		[
			"chlorate",
			"chlorate of potash",
			"kaliumchlorat",
			"chlorate de potassium",
			"clorato de potasio",
		],
		3,
		{ goneAt600: true },
	),
	oxidiser("sodium chlorate", "NaClO3", ["chlorate of soda"], 3, {
		goneAt600: true,
	}),
	oxidiser("potassium bromate", "KBrO3", ["bromate"], 3),
	entry(
		"perchloric acid",
		"HClO4",
		["perchloric", "perchlorsäure", "acide perchlorique", "ácido perclórico"],
		unknownEffect(
			"cold dilute perchloric acid hardly frees iodine; what a soak of char in it leaves is not known",
		),
		{
			acidity: "acid",
			thiosulfate: "decomposes thiosulfate",
			volatile: true,
			dangers: ["perchlorate", "strong acid"],
		},
	),
	entry(
		"potassium perchlorate",
		"KClO4",
		["perchlorate"],
		neither("perchlorate does not oxidise iodide in cold dilute solution"),
		{ dangers: ["perchlorate"] },
	),
	entry(
		"sodium perchlorate",
		"NaClO4",
		[],
		neither("perchlorate does not oxidise iodide in cold dilute solution"),
		{ dangers: ["perchlorate"] },
	),
	oxidiser("cerium(IV) sulfate", "Ce(SO4)2", ["ceric sulfate"], 0.5, {
		acidity: "acid",
	}),
	oxidiser("sodium periodate", "NaIO4", ["periodate"], 4),
	oxidiser("potassium periodate", "KIO4", [], 4),
];
