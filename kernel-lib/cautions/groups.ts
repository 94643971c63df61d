/** Substances that hurt alike, by their usual names on the list of substances. From memory of general chemistry; safety data sheets come first. */

export const strongAlkalis = [
	"potassium hydroxide",
	"sodium hydroxide",
	"lithium hydroxide",
	"barium hydroxide",
	"calcium oxide",
	"alkali, not named",
] as const;

/** Potassium and sodium go off as vapour where their alkalis meet glowing char. */
export const alkaliMetals = [
	"potassium hydroxide",
	"sodium hydroxide",
	"lithium hydroxide",
	"potassium carbonate",
	"sodium carbonate",
	"lithium carbonate",
	"potassium bicarbonate",
	"sodium bicarbonate",
	"sodium sesquicarbonate",
	"alkali, not named",
	"wood ash",
] as const;

export const alkalis = [
	...strongAlkalis,
	"potassium carbonate",
	"sodium carbonate",
	"sodium sesquicarbonate",
	"potassium bicarbonate",
	"sodium bicarbonate",
	"lithium carbonate",
	"calcium hydroxide",
	"soda lime",
	"wood ash",
	"cement",
	"trisodium phosphate",
	"tripotassium phosphate",
	"sodium silicate",
	"potassium silicate",
] as const;

export const acids = [
	"hydrochloric acid",
	"sulfuric acid",
	"phosphoric acid",
	"nitric acid",
	"aqua regia",
	"hydrofluoric acid",
	"perchloric acid",
	"peracetic acid",
	"sulfamic acid",
	"sodium bisulfate",
	"acetic acid",
	"formic acid",
	"oxalic acid",
	"vinegar",
	"citric acid",
	"tartaric acid",
	"lactic acid",
	"lemon or lime juice",
	"wood vinegar",
] as const;

/** They set chlorine free with acid. */
export const bleaches = [
	"sodium hypochlorite",
	"calcium hypochlorite",
	"sodium chlorite",
	"chloramine",
	"chloramine-T",
	"chlorine",
	"chlorine dioxide",
] as const;

/** With char they burn like gunpowder, or explode. */
export const oxidisers = [
	"potassium nitrate",
	"sodium nitrate",
	"calcium nitrate",
	"magnesium nitrate",
	"ammonium nitrate",
	"iron(III) nitrate",
	"copper(II) nitrate",
	"nitric acid",
	"aqua regia",
	"potassium chlorate",
	"sodium chlorate",
	"sodium chlorite",
	"potassium bromate",
	"potassium perchlorate",
	"sodium perchlorate",
	"perchloric acid",
	"potassium permanganate",
	"hydrogen peroxide",
	"sodium percarbonate",
	"sodium perborate",
	"peracetic acid",
	"ammonium persulfate",
	"potassium persulfate",
	"sodium persulfate",
	"potassium peroxymonosulfate",
	"sodium nitrite",
	"potassium nitrite",
	"silver nitrate",
	"potassium dichromate",
	"sodium dichromate",
	"potassium chromate",
	"sodium chromate",
	"chromium trioxide",
	"calcium hypochlorite",
	"ozone",
	"sodium periodate",
	"potassium periodate",
] as const;

export const ammonias = [
	"ammonia",
	"ammonium carbonate",
	"ammonium bicarbonate",
	"ammonium chloride",
	"ammonium nitrate",
	"ammonium sulfate",
	"diammonium phosphate",
	"ammonium dihydrogen phosphate",
	"urea",
	"urine",
] as const;

export const carbonates = [
	"calcium carbonate",
	"magnesium carbonate",
	"potassium carbonate",
	"sodium carbonate",
	"sodium sesquicarbonate",
	"potassium bicarbonate",
	"sodium bicarbonate",
	"lithium carbonate",
	"ammonium carbonate",
	"ammonium bicarbonate",
	"baking powder",
	"wood ash",
] as const;

export const cyanides = ["potassium cyanide", "sodium cyanide"] as const;

/** With acid they give off hydrogen sulfide or sulfur dioxide. */
export const sulfides = ["sodium sulfide", "lime sulfur"] as const;
export const sulfites = [
	"sodium sulfite",
	"potassium sulfite",
	"sodium bisulfite",
	"sodium metabisulfite",
	"potassium metabisulfite",
	"sodium dithionite",
] as const;

export const poisons = [
	...cyanides,
	"lead acetate",
	"mercury(II) chloride",
	"sodium arsenite",
	"arsenic trioxide",
	"barium chloride",
	"barium hydroxide",
	"sodium fluoride",
	"hydrogen sulfide",
	"hydrazine",
	"methanol",
	"carbon monoxide",
] as const;

export const chromates = [
	"potassium dichromate",
	"sodium dichromate",
	"potassium chromate",
	"sodium chromate",
	"chromium trioxide",
] as const;

export const solvents = [
	"ethanol",
	"isopropanol",
	"methanol",
	"acetone",
	"turpentine",
] as const;

export const metalSalts = [
	"iron(III) chloride",
	"iron(III) sulfate",
	"iron(III) nitrate",
	"copper(II) sulfate",
	"copper(II) chloride",
	"copper(II) nitrate",
	"zinc sulfate",
	"aluminium chloride",
	"tin(II) chloride",
	"silver nitrate",
	"manganese(II) sulfate",
	"manganese(II) chloride",
] as const;

/** Words of a feedstock that gives off poison when it is charred. */
export const treatedFeedstock = [
	"pvc",
	"vinyl",
	"plastic",
	"plastics",
	"tyre",
	"tyres",
	"tire",
	"tires",
	"rubber",
	"treated wood",
	"pressure-treated",
	"painted",
	"varnished",
	"chipboard",
	"mdf",
	"railway sleeper",
	"railway sleepers",
	"chlorinated",
] as const;
