import {
	entry,
	kitchenGoods,
	neither,
	type Substance,
	unclassified,
	unknownEffect,
} from "../substance";

const water = neither(
	"ordinary water brings nothing along that an iodine titration of milligrams would notice",
	"common practice, no source",
);

const gas = neither(
	"it does not react with iodine or iodide, and leaves nothing in the char that does",
);

/** What gives nothing to titrate: water, steam and the gases of a kiln. */
export const watersAndGases: readonly Substance[] = [
	entry(
		"water",
		"H2O",
		[
			"tap water",
			"distilled water",
			"deionised water",
			"deionized water",
			"demineralised water",
			"demineralized water",
			"purified water",
			"pure water",
			"rain water",
			"rainwater",
			"well water",
			"spring water",
			"ice water",
			"fresh water",
			"aqua dest",
			"wasser",
			"leitungswasser",
			"eau",
			"eau du robinet",
			"agua",
			"acqua",
		],
		water,
		{ volatile: true, goneAt600: true, ...kitchenGoods },
	),
	entry(
		"carbonated water",
		"",
		["soda water", "sparkling water", "carbonic acid"],
		water,
		{ volatile: true, goneAt600: true, ...kitchenGoods },
	),
	entry(
		"pond or river water",
		"",
		[
			"pond water",
			"river water",
			"lake water",
			"waste water",
			"wastewater",
			"sewage",
			"grey water",
			"ditch water",
		],
		unknownEffect("natural and used waters can hold reducing organic matter"),
		{ solubility: "mixed" },
	),
	entry(
		"steam",
		"",
		[
			"water vapour",
			"water vapor",
			"dampf",
			"wasserdampf",
			"vapeur",
			"vapeur d'eau",
			"vapor de agua",
		],
		gas,
		{ volatile: true, goneAt600: true, dangers: ["steam"] },
	),
	entry(
		"carbon dioxide",
		"CO2",
		[
			"carbonic gas",
			"dry ice",
			"kohlendioxid",
			"dioxyde de carbone",
			"dióxido de carbono",
			"anidride carbonica",
		],
		gas,
		{
			volatile: true,
			goneAt600: true,
			dangers: ["choking gas"],
		},
	),
	entry(
		"carbon monoxide",
		"CO",
		[
			"kohlenmonoxid",
			"kohlenmonoxyd",
			"monoxyde de carbone",
			"monóxido de carbono",
		],
		gas,
		{
			volatile: true,
			goneAt600: true,
			dangers: ["gas of a kiln"],
		},
	),
	entry("nitrogen", "N2", ["nitrogen gas", "stickstoff", "azote"], gas, {
		volatile: true,
		goneAt600: true,
		dangers: ["choking gas"],
	}),
	entry("argon", "Ar", ["argon gas"], gas, {
		volatile: true,
		goneAt600: true,
		dangers: ["choking gas"],
	}),
	entry("hydrogen", "H2", ["hydrogen gas", "wasserstoff"], gas, {
		volatile: true,
		goneAt600: true,
		dangers: ["gas that burns"],
	}),
	entry("air", "", ["hot air", "luft"], gas, {
		volatile: true,
		goneAt600: true,
		harmless: unclassified,
	}),
	entry("oxygen", "O2", ["oxygen gas", "sauerstoff", "oxygène"], gas, {
		volatile: true,
		goneAt600: true,
		dangers: ["oxygen"],
	}),
	entry(
		"flue gas",
		"",
		["smoke", "kiln gas", "wood gas", "syngas", "pyrolysis gas", "rauchgas"],
		unknownEffect("smoke leaves tar in the char, which holds phenols"),
		{ volatile: true, goneAt600: true, dangers: ["gas of a kiln"] },
	),
];
