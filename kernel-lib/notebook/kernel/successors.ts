/** Public names of earlier versions, and what to call now; in alphabetical order. The kernel shows it where a notebook still calls the old name. */
export const successors: Readonly<Record<string, string>> = {
	"activation.activationAgents": "substances.substanceTable()",
	"activation.agentsIn": "substances.substancesIn(text)",
	"activation.soakAgents": "substances.substanceTable()",
	"bench.readRun": "bench.readTrial(path)",
	"bench.runFromRows": "bench.trialFromRows(rows)",
	"figures.budgetBars": "figures.uncertaintyBudget(quantity)",
	"figures.figureHtml":
		"internal now; a figure shows itself, and figures.figureSvg(figure) gives its picture",
	"figures.figureMimeType": "internal now; a figure shows itself",
	"figures.figureSchema":
		"internal now; figures.figure(description) says what is wrong with a description",
	"figures.narrowLayout":
		"internal now; the page of a notebook has the interactive form",
	"figures.plotlyFigure":
		"internal now; the page of a notebook has the interactive form",
	"figures.readFigure":
		"internal now; figures.figure(description) says what is wrong with a description",
	"figures.seriesLook":
		'internal now; write the look of a layer yourself, such as { ink: "blue", shape: "circle" }',
	"solutions.aliquotConcentration":
		"internal now; solutions.concentrations(trial) standardises the solutions of a sheet",
	"solutions.composition": "substances.molarMass(formula)",
	"solutions.densitiesOnRecord":
		"internal now; solutions.solutionDensity names the solutes that it knows when it is asked for another",
	"solutions.diluteConcentrate":
		"solutions.dilute(formula, massFraction, wanted, volume, { density })",
	"solutions.dyeOf": "substances.substanceNamed(name)",
	"solutions.dyes": "substances.substanceTable()",
	"solutions.equivalentsPerMole":
		"internal now; substances.substanceNamed(name) has the equivalents in its titrimetry",
	"solutions.makeUpByMassFraction":
		"solutions.makeUp(formula, massFraction, totalMass)",
	"solutions.makeUpByMassPerVolume":
		"solutions.makeUp(formula, massPerVolume, volume)",
	"solutions.makeUpMolar": "solutions.makeUp(formula, concentration, volume)",
	"solutions.molarMass": "substances.molarMass(formula)",
	"solutions.molarMassOf": "substances.molarMass(formula)",
	"solutions.molarityOf":
		"internal now; solutions.concentrations(trial) counts in mol/L",
	"solutions.normalityOf":
		"internal now; the table of solutions.concentrations(trial) has the normality",
	"solutions.outlierAdvice":
		"internal now; a titrant of solutions.concentrations(trial) has its outlierAdvice",
	"solutions.recipeSentence":
		"solutions.makeUp(formula, strength, amount).sentence",
	"solutions.recipeVolume":
		'quantity.input("volume", 500, "mL", quantity.exact, {})',
	"solutions.strengthSentence":
		"solutions.concentrations(trial).byName(name).sentence",
	"solutions.substances": "substances.substanceTable()",
	"solutions.titrantConcentration":
		"internal now; solutions.concentrations(trial) standardises the solutions of a sheet",
	"solutions.titrantConcentrationFromMass":
		"internal now; solutions.concentrations(trial) standardises the solutions of a sheet",
	"solutions.titreVolume": "internal now; residue.residues(trial) uses it",
	"solutions.weighedConcentration":
		"internal now; solutions.concentrations(trial) knows what was weighed",
};
