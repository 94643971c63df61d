import type { DangerKind } from "../dangers";
import { entry, type Substance, unknownEffect } from "../substance";

const notKnownHere = (name: string) =>
	unknownEffect(`what ${name} does to iodine in a flask is not known`);

/** An organic liquid that leaves with warm air. */
function solvent(
	name: string,
	formula: string,
	synonyms: readonly string[],
	dangers: readonly DangerKind[],
): Substance {
	return entry(name, formula, synonyms, notKnownHere(name), {
		organic: true,
		volatile: true,
		solubility: "slightly soluble",
		thiosulfate: "unknown",
		dangers,
	});
}

function poison(
	name: string,
	formula: string,
	synonyms: readonly string[],
	others: readonly DangerKind[] = [],
): Substance {
	return entry(name, formula, synonyms, notKnownHere(name), {
		thiosulfate: "unknown",
		dangers: ["poison", ...others],
	});
}

export const solventsAndPoisons: readonly Substance[] = [
	solvent(
		"benzene",
		"C6H6",
		["benzol", "benzène", "benceno"],
		["poison", "solvent"],
	),
	solvent(
		"toluene",
		"C7H8",
		["toluol", "toluène", "tolueno", "methylbenzene"],
		["solvent"],
	),
	solvent(
		"xylene",
		"C8H10",
		["xylol", "xylène", "xileno", "xylenes"],
		["solvent"],
	),
	solvent("hexane", "C6H14", ["n-hexane", "hexan", "hexano"], ["solvent"]),
	solvent("heptane", "C7H16", ["n-heptane", "heptan", "heptano"], ["solvent"]),
	solvent(
		"petrol",
		"",
		[
			"gasoline",
			"petroleum ether",
			"white spirit",
			"mineral spirits",
			"kerosene",
			"paraffin oil",
			"diesel",
			"benzina",
			"gasolina",
		],
		["solvent"],
	),
	solvent("diethyl ether", "C4H10O", ["ether", "äther", "éther"], ["solvent"]),
	solvent(
		"ethyl acetate",
		"C4H8O2",
		["ethylacetat", "acétate d'éthyle", "acetato de etilo"],
		["solvent"],
	),
	solvent("acetonitrile", "C2H3N", ["acetonitril"], ["poison", "solvent"]),
	solvent(
		"chloroform",
		"CHCl3",
		["trichloromethane", "chloroforme", "cloroformo"],
		["poison"],
	),
	solvent(
		"dichloromethane",
		"CH2Cl2",
		["methylene chloride", "DCM", "dichlormethan"],
		["poison"],
	),
	solvent("carbon tetrachloride", "CCl4", ["tetrachloromethane"], ["poison"]),
	solvent(
		"carbon disulfide",
		"CS2",
		["carbon disulphide", "schwefelkohlenstoff"],
		["poison", "solvent"],
	),
	solvent("aniline", "C6H7N", ["anilin", "anilina"], ["poison"]),
	solvent("pyridine", "C5H5N", ["pyridin", "piridina"], ["poison", "solvent"]),
	solvent("tetrahydrofuran", "C4H8O", ["THF"], ["solvent"]),
	solvent(
		"dioxane",
		"C4H8O2",
		["1,4-dioxane", "dioxan"],
		["poison", "solvent"],
	),
	solvent("dimethylformamide", "C3H7NO", ["DMF"], ["poison"]),
	entry(
		"drain cleaner",
		"",
		["oven cleaner", "abflussreiniger", "rohrreiniger", "déboucheur"],
		notKnownHere("drain cleaner"),
		{
			acidity: "alkaline",
			dissociation: "partial",
			thiosulfate: "unknown",
			dangers: ["strong alkali"],
		},
	),
	entry(
		"sodium azide",
		"NaN3",
		["azide", "natriumazid"],
		notKnownHere("sodium azide"),
		{ thiosulfate: "unknown", dangers: ["azide"] },
	),
	entry(
		"hydrogen cyanide",
		"HCN",
		[
			"prussic acid",
			"hydrocyanic acid",
			"blausäure",
			"acide cyanhydrique",
			"ácido cianhídrico",
		],
		notKnownHere("hydrogen cyanide"),
		{ volatile: true, thiosulfate: "unknown", dangers: ["cyanide"] },
	),
	poison(
		"lead(II) nitrate",
		"Pb(NO3)2",
		["lead nitrate", "bleinitrat", "nitrate de plomb", "nitrato de plomo"],
		["nitrate"],
	),
	poison("lead(II) chloride", "PbCl2", ["lead chloride"]),
	poison("nickel(II) sulfate", "NiSO4", ["nickel sulfate"]),
	poison("nickel(II) chloride", "NiCl2", ["nickel chloride"]),
	poison("nickel(II) nitrate", "Ni(NO3)2", ["nickel nitrate"], ["nitrate"]),
	poison("cobalt(II) chloride", "CoCl2", ["cobalt chloride"]),
	poison("cobalt(II) nitrate", "Co(NO3)2", ["cobalt nitrate"], ["nitrate"]),
	poison("cadmium chloride", "CdCl2", []),
	poison("cadmium nitrate", "Cd(NO3)2", [], ["nitrate"]),
	poison("mercury(II) nitrate", "Hg(NO3)2", ["mercuric nitrate"], ["nitrate"]),
	poison("picric acid", "C6H3N3O7", ["trinitrophenol"], ["oxidiser"]),
];
