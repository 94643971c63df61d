import { notKnown } from "../../quantity";
import {
	consumes,
	entry,
	type IodineEffect,
	type Substance,
	unknownEffect,
} from "../substance";

const sulfite = (moles: number): IodineEffect =>
	consumes(moles, "sulfite left in the char is oxidised by iodine to sulfate");

const mixture = notKnown("it is a mixture");

const sugar = consumes(
	1,
	"sugar left in the char can be oxidised by iodine where the liquid is not acid",
);

const organic = {
	organic: true,
	goneAt600: true,
} as const;

const phenols = (name: string): IodineEffect =>
	consumes(
		mixture,
		`${name} left in the char holds phenols, which react with iodine`,
	);

/** Substances that reduce iodine or take it up into their molecules, beside acids, alkalis and salts that do. */
export const reducing: readonly Substance[] = [
	entry(
		"sodium sulfite",
		"Na2SO3",
		["sulfite", "natriumsulfit", "sulfite de sodium"],
		sulfite(1),
		{ acidity: "alkaline", dissociation: "partial" },
	),
	entry("potassium sulfite", "K2SO3", [], sulfite(1), {
		acidity: "alkaline",
		dissociation: "partial",
	}),
	entry(
		"sodium bisulfite",
		"NaHSO3",
		["bisulfite", "sodium hydrogen sulfite", "sodium hydrogensulfite"],
		sulfite(1),
		{ acidity: "acid", dissociation: "partial" },
	),
	entry(
		"sodium metabisulfite",
		"Na2S2O5",
		["metabisulfite", "disulfite", "sodium disulfite", "sodium pyrosulfite"],
		sulfite(2),
		{ acidity: "acid", dissociation: "partial" },
	),
	entry(
		"potassium metabisulfite",
		"K2S2O5",
		["campden tablets", "campden tablet", "potassium disulfite"],
		sulfite(2),
		{ acidity: "acid", dissociation: "partial" },
	),
	entry("sulfur dioxide", "SO2", ["sulfurous acid", "H2SO3"], sulfite(1), {
		acidity: "acid",
		volatile: true,
		goneAt600: true,
	}),
	entry(
		"sodium dithionite",
		"Na2S2O4",
		["dithionite", "hydrosulfite", "sodium hydrosulfite"],
		consumes(3, "dithionite left in the char is oxidised by iodine to sulfate"),
	),
	entry(
		"sodium sulfide",
		"Na2S",
		["sulfide", "natriumsulfid"],
		consumes(
			1,
			"sulfide left in the char is oxidised by iodine to sulfur; in alkali it takes up to four times as much",
		),
		{ acidity: "alkaline", dissociation: "partial" },
	),
	entry(
		"hydrogen sulfide",
		"H2S",
		[],
		consumes(
			1,
			"sulfide left in the char is oxidised by iodine to sulfur; in alkali it takes up to four times as much",
		),
		{
			acidity: "acid",
			dissociation: "partial",
			volatile: true,
			goneAt600: true,
		},
	),
	entry(
		"lime sulfur",
		"",
		["calcium polysulfide", "liver of sulfur", "potassium polysulfide"],
		consumes(
			mixture,
			"polysulfide and thiosulfate left in the char are oxidised by iodine",
		),
		{ acidity: "alkaline" },
	),
	entry(
		"sulfur",
		"S",
		["brimstone", "flowers of sulfur", "schwefel", "soufre", "azufre"],
		unknownEffect(
			"sulfur itself hardly reacts with iodine, but in alkali it gives sulfide and thiosulfate, which do",
		),
		{ solubility: "insoluble" },
	),
	entry(
		"tin(II) chloride",
		"SnCl2",
		["stannous chloride", "tin chloride"],
		consumes(1, "tin(II) left in the char reduces iodine"),
		{ acidity: "acid" },
	),
	entry(
		"sodium arsenite",
		"NaAsO2",
		["arsenite"],
		consumes(1, "arsenic(III) left in the char reduces iodine"),
	),
	entry(
		"arsenic trioxide",
		"As2O3",
		["white arsenic"],
		consumes(2, "arsenic(III) left in the char reduces iodine"),
		{
			solubility: "slightly soluble",
			volatile: true,
		},
	),
	entry(
		"hydrazine",
		"N2H4",
		["hydrazine hydrate"],
		consumes(2, "hydrazine left in the char reduces iodine"),
		{ acidity: "alkaline", volatile: true, goneAt600: true },
	),
	entry(
		"hydroxylamine",
		"NH3O",
		["NH2OH"],
		consumes(2, "hydroxylamine left in the char reduces iodine"),
		{ goneAt600: true },
	),
	entry(
		"sodium borohydride",
		"NaBH4",
		["borohydride"],
		consumes(4, "borohydride left in the char reduces iodine"),
		{ acidity: "alkaline" },
	),
	entry(
		"sodium hypophosphite",
		"NaH2PO2",
		["hypophosphite"],
		consumes(2, "hypophosphite left in the char reduces iodine slowly"),
	),
	entry(
		"glucose",
		"C6H12O6",
		["dextrose", "grape sugar", "traubenzucker", "glukose"],
		sugar,
		organic,
	),
	entry("fructose", "C6H12O6", ["fruit sugar", "fruchtzucker"], sugar, organic),
	entry("lactose", "C12H22O11", ["milk sugar", "milchzucker"], sugar, organic),
	entry(
		"sucrose",
		"C12H22O11",
		[
			"sugar",
			"table sugar",
			"cane sugar",
			"beet sugar",
			"saccharose",
			"zucker",
			"sucre",
			"azúcar",
			"zucchero",
		],
		consumes(
			2,
			"sucrose itself hardly reacts with iodine, but warm acid splits it into glucose and fructose, which can",
		),
		organic,
	),
	entry(
		"honey or molasses",
		"",
		[
			"honey",
			"molasses",
			"treacle",
			"syrup",
			"corn syrup",
			"honig",
			"melasse",
			"miel",
		],
		consumes(
			mixture,
			"honey and molasses left in the char hold sugars, which can be oxidised by iodine",
		),
		{ organic: true },
	),
	entry(
		"milk",
		"",
		["whey", "milch", "lait", "leche"],
		consumes(
			mixture,
			"milk left in the char holds proteins, sugar and fat, which take up iodine",
		),
		{ organic: true, solubility: "mixed" },
	),
	entry(
		"starch",
		"C6H10O5",
		[
			"corn starch",
			"cornstarch",
			"potato starch",
			"stärke",
			"amidon",
			"almidón",
		],
		unknownEffect(
			"starch binds iodine; whether all of it comes back to thiosulfate is not known",
		),
		{ ...organic, solubility: "slightly soluble" },
	),
	entry(
		"cellulose or flour",
		"",
		["flour", "paper pulp"],
		unknownEffect("what it does to iodine in a flask is not known"),
		{ ...organic, solubility: "insoluble" },
	),
	entry(
		"phenol",
		"C6H6O",
		["carbolic acid", "carbolic", "C6H5OH", "karbolsäure"],
		consumes(3, "phenol takes iodine into its ring, up to three I2 a mole"),
		{ ...organic, volatile: true, dissociation: "partial", acidity: "acid" },
	),
	entry(
		"cresol",
		"C7H8O",
		["cresols"],
		consumes(3, "phenols take iodine into their ring, up to three I2 a mole"),
		{ ...organic, volatile: true, dissociation: "partial", acidity: "acid" },
	),
	entry(
		"guaiacol",
		"C7H8O2",
		["methoxyphenol"],
		consumes(3, "phenols take iodine into their ring, up to three I2 a mole"),
		{ ...organic, volatile: true, dissociation: "partial", acidity: "acid" },
	),
	entry(
		"dihydroxybenzene",
		"C6H6O2",
		["resorcinol", "catechol", "hydroquinone", "pyrocatechol", "quinol"],
		consumes(3, "phenols reduce iodine or take it into their ring"),
		organic,
	),
	entry(
		"pyrogallol",
		"C6H6O3",
		["pyrogallic acid"],
		consumes(3, "phenols reduce iodine or take it into their ring"),
		organic,
	),
	entry(
		"gallic acid",
		"C7H6O5",
		[],
		consumes(3, "phenols reduce iodine or take it into their ring"),
		{ ...organic, acidity: "acid", dissociation: "partial" },
	),
	entry(
		"tannic acid",
		"C76H52O46",
		["tannin", "tannins", "gallotannin", "gerbsäure", "tanin"],
		consumes(
			notKnown("it depends on the tannin"),
			"tannin left in the char holds phenols, which react with iodine",
		),
		{
			...organic,
			acidity: "acid",
			dissociation: "partial",
			weighingNote:
				"Tannic acid is a mixture; its formula stands for the usual decagalloyl glucose.",
		},
	),
	entry(
		"tea",
		"",
		["black tea", "green tea", "tea leaves", "tee"],
		phenols("tea"),
		organic,
	),
	entry("coffee", "", ["kaffee", "café"], phenols("coffee"), organic),
	entry(
		"wine or beer",
		"",
		["wine", "red wine", "white wine", "beer", "cider"],
		phenols("wine or beer"),
		organic,
	),
	entry(
		"bark extract",
		"",
		["oak bark extract", "bark tea", "bark liquor", "tan liquor", "oak galls"],
		phenols("bark"),
		organic,
	),
	entry(
		"humic acid",
		"",
		["humic acids", "humate", "potassium humate", "fulvic acid", "peat water"],
		phenols("humic matter"),
		{ organic: true },
	),
	entry("lignin", "", ["lignosulfonate", "black liquor"], phenols("lignin"), {
		organic: true,
		solubility: "mixed",
	}),
	entry(
		"bio-oil",
		"",
		["biooil", "pyrolysis oil", "pyrolysis liquid", "bio-crude"],
		consumes(
			mixture,
			"bio-oil left in the char holds phenols and aldehydes, which react with iodine",
		),
		{
			...organic,
			acidity: "acid",
			dissociation: "partial",
			solubility: "mixed",
		},
	),
	entry(
		"wood tar",
		"",
		[
			"tar",
			"pine tar",
			"birch tar",
			"creosote",
			"tar water",
			"holzteer",
			"goudron",
			"alquitrán",
		],
		consumes(
			mixture,
			"tar left in the char holds phenols, which react with iodine",
		),
		{ ...organic, solubility: "mixed" },
	),
	entry(
		"formaldehyde",
		"CH2O",
		["formalin", "methanal", "HCHO"],
		consumes(
			1,
			"aldehydes are oxidised by iodine where the liquid is not acid",
		),
		{ ...organic, volatile: true },
	),
	entry(
		"acetaldehyde",
		"C2H4O",
		["ethanal", "CH3CHO"],
		consumes(
			4,
			"acetaldehyde is oxidised by iodine and gives iodoform in alkali",
		),
		{ ...organic, volatile: true },
	),
	entry(
		"furfural",
		"C5H4O2",
		["furfuraldehyde"],
		consumes(
			notKnown("it depends on the pH"),
			"aldehydes are oxidised by iodine where the liquid is not acid",
		),
		{ ...organic, volatile: true },
	),
	entry(
		"acetone",
		"C3H6O",
		["propanone", "nail polish remover", "aceton"],
		consumes(3, "acetone takes up iodine in acid and gives iodoform in alkali"),
		{ ...organic, volatile: true },
	),
	entry(
		"ethanol",
		"C2H6O",
		[
			"C2H5OH",
			"EtOH",
			"alcohol",
			"ethyl alcohol",
			"spirit",
			"methylated spirit",
			"methylated spirits",
			"alkohol",
			"weingeist",
			"alcool",
		],
		consumes(
			4,
			"ethanol gives iodoform in alkali; in neutral solution it hardly reacts",
		),
		{ ...organic, volatile: true },
	),
	entry(
		"isopropanol",
		"C3H8O",
		[
			"isopropyl alcohol",
			"rubbing alcohol",
			"propan-2-ol",
			"2-propanol",
			"IPA",
		],
		consumes(
			4,
			"isopropanol gives iodoform in alkali; in neutral solution it hardly reacts",
		),
		{ ...organic, volatile: true },
	),
	entry(
		"methanol",
		"CH4O",
		["CH3OH", "MeOH", "methyl alcohol", "wood alcohol", "wood spirit"],
		unknownEffect(
			"what methanol and what comes with it do to iodine in a flask is not known",
		),
		{ ...organic, volatile: true },
	),
	entry(
		"glycerol",
		"C3H8O3",
		["glycerine", "glycerin"],
		unknownEffect("what glycerol does to iodine in a flask is not known"),
		organic,
	),
	entry(
		"vegetable oil",
		"",
		["oil", "linseed oil", "olive oil", "sunflower oil", "cooking oil", "fat"],
		consumes(mixture, "unsaturated oils take up iodine at their double bonds"),
		{ ...organic, solubility: "insoluble" },
	),
	entry(
		"turpentine",
		"",
		["oil of turpentine", "resin", "rosin", "limonene", "terpentin"],
		consumes(mixture, "terpenes take up iodine at their double bonds"),
		{ ...organic, volatile: true, solubility: "insoluble" },
	),
	entry(
		"urine",
		"",
		["urin", "orina"],
		consumes(
			mixture,
			"urine left in the char holds uric acid and ammonia, which react with iodine",
		),
		{ organic: true, solubility: "mixed" },
	),
	entry(
		"protein",
		"",
		["gelatin", "gelatine", "egg white", "albumin", "yeast", "blood"],
		consumes(mixture, "proteins take up iodine and are oxidised by it"),
		{ organic: true, solubility: "mixed" },
	),
];
