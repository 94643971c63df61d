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
	"notebook.attachPhotographs": "notebook.attach(trial)",
	"notebook.attachSheet": "notebook.attach(trial)",
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
	"stats.boxProbability":
		"internal now; compare.compareTreatments(trial, { margin }) compares several treatments at once",
	"stats.bracketedRoot":
		"internal now; stats keeps what a course in statistics calls",
	"stats.chiSquareCdf":
		"internal now; stats keeps what a course in statistics calls",
	"stats.chiSquareDensity":
		"internal now; stats keeps what a course in statistics calls",
	"stats.chiSquareQuantile":
		"internal now; stats keeps what a course in statistics calls",
	"stats.chiSquareUpperTail":
		"internal now; stats keeps what a course in statistics calls",
	"stats.cochranCriticalValue":
		"internal now; stats keeps what a course in statistics calls",
	"stats.createSobol":
		"internal now; stats keeps what a course in statistics calls",
	"stats.detectableDifference":
		"internal now; compare.compareTreatments(trial, { margin }) says what would decide",
	"stats.fCdf": "internal now; stats keeps what a course in statistics calls",
	"stats.fQuantile":
		"internal now; stats keeps what a course in statistics calls",
	"stats.fUpperTail":
		"internal now; stats keeps what a course in statistics calls",
	"stats.gaussLegendre":
		"internal now; stats keeps what a course in statistics calls",
	"stats.grubbsCriticalValue":
		"stats.grubbsTest(values, confidence) gives the critical value with the test",
	"stats.holmAdjustedP":
		"internal now; compare.compareTreatments(trial, { margin }) compares several treatments at once",
	"stats.integrate":
		"internal now; stats keeps what a course in statistics calls",
	"stats.noncentralTCdf":
		"internal now; stats keeps what a course in statistics calls",
	"stats.noncentralTUpperTail":
		"internal now; stats keeps what a course in statistics calls",
	"stats.normalCdf":
		"internal now; stats keeps what a course in statistics calls",
	"stats.normalDensity":
		"internal now; stats keeps what a course in statistics calls",
	"stats.normalQuantile": "stats.studentTQuantile(p, Infinity)",
	"stats.pooledTTest": "stats.welchTTest(first, second)",
	"stats.powerOfContrast":
		"internal now; compare.compareTreatments(trial, { margin }) says what would decide",
	"stats.replicatesForPower":
		"internal now; compare.compareTreatments(trial, { margin }) says what would decide",
	"stats.sampleCovariance":
		"internal now; stats keeps what a course in statistics calls",
	"stats.sampleVariance": "the square of stats.sampleStandardDeviation(values)",
	"stats.simultaneousAdjustedP":
		"internal now; compare.compareTreatments(trial, { margin }) compares several treatments at once",
	"stats.simultaneousCriticalValue":
		"internal now; compare.compareTreatments(trial, { margin }) compares several treatments at once",
	"stats.standardDeviationUpperLimit":
		"internal now; stats keeps what a course in statistics calls",
	"stats.studentTCdf":
		"internal now; stats keeps what a course in statistics calls",
	"stats.studentTDensity":
		"internal now; stats keeps what a course in statistics calls",
	"stats.studentTTwoSidedP":
		"internal now; stats keeps what a course in statistics calls",
	"stats.studentTUpperTail":
		"internal now; stats keeps what a course in statistics calls",
	"stats.sumOfSquares":
		"internal now; stats keeps what a course in statistics calls",
	"stats.tTestPower":
		"internal now; compare.compareTreatments(trial, { margin }) says what would decide",
	"stats.welchSatterthwaite":
		"quantity.expandedUncertainty(quantity) uses the effective degrees of freedom",
};
