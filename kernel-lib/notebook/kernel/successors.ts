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
	"fit.checkFit":
		"fit.fitTable(fit) has the checks and criteria of a fit in one row",
	"fit.createFitter": "internal now; fit.fit(model, data) makes one fit",
	"fit.errorsInWords":
		"fit.fitTable(fit) has the checks and criteria of a fit in one row",
	"fit.fitMany": "internal now; call fit.fit(model, data) for each data set",
	"fit.informationCriteria":
		"fit.fitTable(fit) has the checks and criteria of a fit in one row",
	"fit.jointRegion":
		"internal now; fit.profileIntervals(fit) gives the interval of each parameter",
	"fit.pointTable":
		"the fit itself has fitted, residuals and leverage, one number for each point",
	"solutions.composition": "substances.molarMass(formula)",
	"solutions.dyeOf": "substances.substanceNamed(name)",
	"solutions.dyes": "substances.substanceTable()",
	"solutions.molarMass": "substances.molarMass(formula)",
	"solutions.substances": "substances.substanceTable()",
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
