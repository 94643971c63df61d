/** Public names of earlier versions, and what to call now; in alphabetical order. The kernel shows it where a notebook still calls the old name. */
export const successors: Readonly<Record<string, string>> = {
	"activation.ActivationAgent": "substances.Substance",
	"activation.ActivationFigures": "activation.FiringYields",
	"activation.Finding":
		"a type without a public name now; leave it out, the compiler knows it",
	"activation.RefusedWashout":
		"a type without a public name now; leave it out, the compiler knows it",
	"activation.RunCost":
		"a type without a public name now; leave it out, the compiler knows it",
	"activation.SoakAgent": "substances.Substance",
	"activation.Span":
		"a type without a public name now; leave it out, the compiler knows it",
	"activation.WashCurvePoint":
		"a type without a public name now; leave it out, the compiler knows it",
	"activation.activationAgents": "substances.substanceTable()",
	"activation.activationFigures": "activation.yields(trial)",
	"activation.activationNextSteps": "words.firingNextSteps(trial, targets)",
	"activation.activationSentence": "words.firingAnswer(trial)",
	"activation.agentInRinse":
		"internal now; use activation.yields(trial), whose agentRecovered counts the rinses",
	"activation.agentLeft":
		"activation.washouts(trial, targets), each with its agentLeft",
	"activation.agentNamed": "substances.substanceNamed(name)",
	"activation.agentUsed":
		"internal now; use activation.yields(trial), whose impregnationRatio has it in its working",
	"activation.agentWashedOut":
		"internal now; use activation.yields(trial), whose agentRecovered counts the rinses",
	"activation.agentsIn": "substances.substancesIn(text)",
	"activation.balanceFaults": "activation.massBalances(trial)",
	"activation.conditionOf": "internal now; use uptake.uptakesByFiring(trial)",
	"activation.definitionTable": "activation.yields(trial).definitions",
	"activation.dryPrecursor":
		"activation.yields(trial), each with its dryPrecursor",
	"activation.dryProduct": "activation.yields(trial), each with its dryProduct",
	"activation.drying": "activation.dryings(trial, targets)",
	"activation.dryingTable":
		"activation.dryings(trial, targets); each is shown as a table",
	"activation.figuresTable":
		"activation.yields(trial), which is shown as a table",
	"activation.findingText":
		'internal now; a value has is: "value", "at least", "at most" or "not known"',
	"activation.firingCost": "uptake.costTable(trial, prices)",
	"activation.firingYields": "activation.yields(trial)",
	"activation.massBalance": "activation.massBalances(trial)",
	"activation.massBalanceTable":
		"activation.massBalances(trial), which is shown as a table",
	"activation.moneyText": "internal now; use uptake.costTable(trial, prices)",
	"activation.nextSteps": "words.firingNextSteps(trial, targets)",
	"activation.properties": "properties, a room of its own",
	"activation.rinsesNeeded":
		"activation.washouts(trial, targets), each with what is needed",
	"activation.runCost": "uptake.costTable(trial, prices)",
	"activation.soakAgents": "substances.substanceTable()",
	"activation.targetNumber":
		"internal now; give the targets to activation.washouts(trial, targets)",
	"activation.washCurve":
		"figures.course(washing), of one of activation.washouts(trial)",
	"activation.washingTable":
		"activation.washouts(trial, targets); each is shown as a table",
	"activation.washout": "activation.washouts(trial, targets)",
	"activation.washoutTable":
		"activation.washouts(trial, targets); each is shown as a table",
	"activation.yieldTable":
		"activation.yields(trial), which is shown as a table",
	"bench.ActivationRun": "bench.Firing",
	"bench.ActivationSheet": "bench.Trial",
	"bench.AgentAmount":
		"a type without a public name now; leave it out, the compiler knows it",
	"bench.CalibrationStandard":
		"a type without a public name now; leave it out, the compiler knows it",
	"bench.DryingWeighing":
		"a type without a public name now; leave it out, the compiler knows it",
	"bench.FurtherRow":
		"a type without a public name now; leave it out, the compiler knows it",
	"bench.FurtherTable":
		"a type without a public name now; leave it out, the compiler knows it",
	"bench.InstrumentReadings":
		"a type without a public name now; leave it out, the compiler knows it",
	"bench.NumberRead":
		"a type without a public name now; leave it out, the compiler knows it",
	"bench.ReadingKind":
		"a type without a public name now; leave it out, the compiler knows it",
	"bench.Rinse":
		"a type without a public name now; leave it out, the compiler knows it",
	"bench.Run": "bench.Trial",
	"bench.SignalKind":
		"a type without a public name now; leave it out, the compiler knows it",
	"bench.TableForm":
		"a type without a public name now; leave it out, the compiler knows it",
	"bench.ThermalStep":
		"a type without a public name now; leave it out, the compiler knows it",
	"bench.WrittenName":
		"a type without a public name now; leave it out, the compiler knows it",
	"bench.activationFrame": "bench.firingFrame(trial)",
	"bench.activationReadings": "bench.firingReadings(trial)",
	"bench.activationRunsOf": "trial.firings",
	"bench.activationsFromRows": "bench.trialFromRows({ activation: rows })",
	"bench.activationsOf": "trial.firings",
	"bench.checkActivationRows": "bench.trialFromRows({ activation: rows })",
	"bench.checkActivationRuns": "bench.readTrial(path)",
	"bench.checkRows": "bench.trialFromRows(rows)",
	"bench.checkRun": "bench.readTrial(path)",
	"bench.firingsOf": "trial.firings",
	"bench.furtherTable":
		"internal now; properties.readProperties(path) reads such a table",
	"bench.furtherTableOfRows":
		"internal now; properties.propertiesFromRows(rows) reads such a table",
	"bench.guideTo": "properties.propertyColumnGuide()",
	"bench.nearestName":
		"internal now; the library asks for the nearest name by itself",
	"bench.overview": "trial, which is shown as its overview",
	"bench.readActivations": "bench.readTrial(path)",
	"bench.readRun": "bench.readTrial(path)",
	"bench.requireActivations": "trial.firings",
	"bench.requireFirings": "trial.firings",
	"bench.runFromRows": "bench.trialFromRows(rows)",
	"bench.runKey":
		"internal now; case and extra spaces do not count in the name of a firing",
	"bench.sheetFiles":
		"internal now; trial.sources lists the files that were read",
	"bench.signalOf": "internal now; a calibration line has its signalKind",
	"bench.spellingProblems":
		"internal now; bench.readTrial(path) says what is spelled in two ways",
	"bench.withEveryDeviation":
		"internal now; compare.compareTreatments(trial, { margin }) gives its words with every deviation kept and with every one left out",
	"cautions.Hazard":
		"a type without a public name now; leave it out, the compiler knows it",
	"cautions.cautionTexts": "cautions.cautionsFor(trial)",
	"cautions.cautionsForActivation": "cautions.cautionsFor(trial)",
	"cautions.cautionsForProperties": "cautions.cautionsFor(sheet)",
	"cautions.hazards": "cautions.cautionsFor(trial)",
	"cautions.hazardsIn": "cautions.cautionsFor(trial)",
	"cautions.neverConcluded": 'cautions.neverConcludedOf("iodine")',
	"compare.AtResidueOptions": "compare.CompareOptions",
	"compare.ComparisonAtResidue": "compare.Comparison",
	"compare.compareAtResidue":
		"compare.compareTreatments(trial, { margin, residue })",
	"compare.comparisonTable": "words.comparisonTable(comparison)",
	"compare.methodTable": "words.methodTable(comparison)",
	"compare.methodText": "words.methodTable(comparison)",
	"compare.nextSteps": "words.nextSteps(comparison)",
	"compare.requireDoses": "compare.severalDoses(trial)",
	"curves.AveragedUptake": "isotherms.averagedTable(rankings, residue)",
	"curves.BalanceLine": "isotherms.BalanceLine",
	"curves.FitMethod": "isotherms.FitMethod",
	"curves.Isotherm": "isotherms.Isotherm",
	"curves.IsothermEstimate": "isotherms.IsothermEstimate",
	"curves.IsothermFit": "isotherms.IsothermFit",
	"curves.IsothermFitOptions": "isotherms.IsothermFitOptions",
	"curves.IsothermParameter": "isotherms.IsothermParameter",
	"curves.IsothermPoint": "isotherms.IsothermPoint",
	"curves.IsothermPoints": "isotherms.IsothermPoints",
	"curves.IsothermRanking": "isotherms.IsothermRanking",
	"curves.LeftOut": "isotherms.LeftOut",
	"curves.OwnCurve": "isotherms.OwnCurve",
	"curves.OwnErrors": "isotherms.OwnErrors",
	"curves.Plateau": "isotherms.Plateau",
	"curves.PointOptions":
		"isotherms.isothermPoints(trial) needs no options: the trial knows its deviations",
	"curves.PotentialForm": "isotherms.PotentialForm",
	"curves.RankedIsotherm": "isotherms.RankedIsotherm",
	"curves.RankingOptions": "isotherms.RankingOptions",
	"curves.SharedEffect": "isotherms.SharedEffect",
	"curves.SharedParameterOptions":
		"a type without a public name now; leave it out, the compiler knows it",
	"curves.SharedShift":
		"IsothermFit.sharedShifts holds them, without a name of their own",
	"curves.StraightLine": "isotherms.StraightLine",
	"curves.StraightLineForm": "isotherms.StraightLineForm",
	"curves.UptakeAtResidue": "isotherms.UptakeAtResidue",
	"curves.averagedUptake": "isotherms.averagedTable(rankings, residue)",
	"curves.betLiquid": "isotherms.betLiquid",
	"curves.checksTable": "isotherms.fitTables(...fits).checks",
	"curves.derivativesAt":
		"internal now; isotherms.uptakeAtResidue(fit, residue) carries the errors",
	"curves.derivativesOver":
		"internal now; an isotherm brings its derivatives in isotherm.model",
	"curves.dose": "dose",
	"curves.dualSiteLangmuir": "isotherms.dualSiteLangmuir",
	"curves.dubininRadushkevich": "isotherms.dubininRadushkevich",
	"curves.fitIsotherm": "isotherms.fitIsotherm",
	"curves.fitIsothermTogether":
		"internal now; isotherms.fitIsotherm(isotherm, points) fits each treatment, and fit.fitShared fits a curve of your own with parameters in common",
	"curves.fitTable": "isotherms.fitTables(...fits).quality",
	"curves.freundlich": "isotherms.freundlich",
	"curves.henry": "isotherms.henry",
	"curves.isothermPoints": "isotherms.isothermPoints",
	"curves.isothermsWithoutConstants":
		"isotherms.rankIsotherms(points) takes these where none are named",
	"curves.langmuir": "isotherms.langmuir",
	"curves.mixtures": "mixtures",
	"curves.numericalSlope":
		"internal now; isotherms.ownIsotherm(own) takes the slope of your curve by itself",
	"curves.ownIsotherm": "isotherms.ownIsotherm",
	"curves.parameterTable":
		"isotherms.fitTables(...fits), which is shown as a table",
	"curves.plainPoints": "isotherms.plainPoints",
	"curves.pointTable":
		"isotherms.isothermPoints(trial); each treatment is shown as a table",
	"curves.pointsOfTreatment": "isotherms.isothermPoints(trial, treatment)",
	"curves.quotedTable":
		"isotherms.fitTables(...fits), whose table has the profile intervals, the ones to quote",
	"curves.rankIsotherms": "isotherms.rankIsotherms",
	"curves.rankingTable":
		"isotherms.rankIsotherms(points), which is shown as a table",
	"curves.redlichPeterson": "isotherms.redlichPeterson",
	"curves.residualTable": "isotherms.fitTables(...fits).residuals",
	"curves.sips": "isotherms.sips",
	"curves.straightLineForms":
		"isotherms.straightLines(points), each with its form",
	"curves.straightLineTable":
		"isotherms.straightLines(points), which is shown as a table",
	"curves.straightLines": "isotherms.straightLines",
	"curves.temkin": "isotherms.temkin",
	"curves.temperature": "temperature",
	"curves.toth": "isotherms.toth",
	"curves.uptakeAt": "isotherms.uptakeAtResidue(fit, residue)",
	"curves.uptakeAtResidue": "isotherms.uptakeAtResidue",
	"dose.DoseSensitivity": "dose.doseForTarget(fit, question).sensitivityTable",
	"dose.ResponseDose":
		"a type without a public name now; leave it out, the compiler knows it",
	"dose.doseForRemoval":
		"dose.responseOf(form, { flasks, start }, { percents }), whose value has a table",
	"dose.doseSensitivity": "dose.doseForTarget(fit, question).sensitivityTable",
	"dose.doseSentence": "dose.doseForTarget(fit, question).sentence",
	"dose.doseTable":
		"dose.doseForTarget(fit, question) or dose.scenarios(fit, starts, targets), which are shown as a table",
	"dose.fitResponse":
		"dose.responseOf(form, { flasks, start }), with a dose and a removal for each flask",
	"dose.planTable": "dose.doseForTarget(fit, question).planTable",
	"dose.removalPoints": "dose.removalCurve(fit).flasks",
	"dose.removalTable": "dose.removalCurve(fit).table",
	"dose.responseCurve":
		"dose.responseOf(form, { flasks, start }), whose value has a curve",
	"dose.responseTable":
		"dose.responseOf(form, { flasks, start }, { percents }), whose value has a table",
	"dose.sensitivityTable": "dose.doseForTarget(fit, question).sensitivityTable",
	"dose.stageTable": "dose.doseForTarget(fit, question).stageTable",
	"dose.withNonAdsorbable":
		"dose.naturalBackground(isotherm, points).fit, which has the background where it is shown",
	"figures.NarrowLayout":
		"a type without a public name now; leave it out, the compiler knows it",
	"figures.PlotlyFigure":
		"a type without a public name now; leave it out, the compiler knows it",
	"figures.SeriesLook":
		"a type without a public name now; leave it out, the compiler knows it",
	"figures.SimulatedEstimates":
		"a type without a public name now; leave it out, the compiler knows it",
	"figures.ThemeName": "figures.PictureTheme",
	"figures.budgetBars": "figures.uncertaintyBudget(quantity)",
	"figures.dryingCurve": "figures.course(drying)",
	"figures.estimatesAgainstTruth": "figures.straightLines(repeats)",
	"figures.figureHtml":
		"internal now; a figure shows itself, and figures.figureSvg(figure) gives its picture",
	"figures.figureMimeType": "internal now; a figure shows itself",
	"figures.figureSchema":
		"internal now; figures.figure(description) says what is wrong with a description",
	"figures.isothermResiduals": "figures.isotherms(fits, { residuals: true })",
	"figures.narrowLayout":
		"internal now; the page of a notebook has the interactive form",
	"figures.plotlyFigure":
		"internal now; the page of a notebook has the interactive form",
	"figures.readFigure":
		"internal now; figures.figure(description) says what is wrong with a description",
	"figures.seriesLook":
		'internal now; write the look of a layer yourself, such as { ink: "blue", shape: "circle" }',
	"figures.stageSteps": "figures.isotherms([fit], { stages: answer })",
	"figures.straightLineAxes": "figures.straightLines(line)",
	"figures.straightLineForms": "figures.straightLines(lines, fit)",
	"figures.washingCurve": "figures.course(washing)",
	"fit.Band":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.BootstrapKind":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.BootstrapParameter":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.Cell":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.CurveOverArray":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.DerivativesOverArray":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.FitChecks":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.FitManyOptions":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.FitScope":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.Fitter":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.Flag":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.InformationCriteria":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.JointRegion":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.Known":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.LikelihoodSummary":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.Loss":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.ManyFits":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.ModelParameter":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.OnProgress":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.ProfileRule":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.QuickFit":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.RegionPoint":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.Row":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.StartFromData":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.Task":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.TestResult":
		"a type without a public name now; leave it out, the compiler knows it",
	"fit.checkFit":
		"fit.fit(model, data).quality has the checks and criteria of a fit",
	"fit.createFitter": "internal now; fit.fit(model, data) makes one fit",
	"fit.errorsInWords":
		"fit.fit(model, data).quality has the checks and criteria of a fit",
	"fit.fitMany": "internal now; call fit.fit(model, data) for each data set",
	"fit.fitTable": "fit.fit(model, data).quality",
	"fit.informationCriteria":
		"fit.fit(model, data).quality has the checks and criteria of a fit",
	"fit.jointRegion":
		"internal now; fit.profileIntervals(fit) gives the interval of each parameter",
	"fit.notAvailable": 'internal now; it is the text "not available"',
	"fit.parameterTable": "fit.fit(model, data), which is shown as a table",
	"fit.pointTable":
		"the fit itself has fitted, residuals and leverage, one number for each point",
	"isotherms.AveragedUptake": "isotherms.averagedTable(rankings, residue)",
	"isotherms.PointOptions":
		"isotherms.isothermPoints(trial) needs no options: the trial knows its deviations",
	"isotherms.SharedParameterOptions":
		"a type without a public name now; leave it out, the compiler knows it",
	"isotherms.SharedShift":
		"IsothermFit.sharedShifts holds them, without a name of their own",
	"isotherms.averagedUptake": "isotherms.averagedTable(rankings, residue)",
	"isotherms.checksTable": "isotherms.fitTables(...fits).checks",
	"isotherms.derivativesAt":
		"internal now; isotherms.uptakeAtResidue(fit, residue) carries the errors",
	"isotherms.derivativesOver":
		"internal now; an isotherm brings its derivatives in isotherm.model",
	"isotherms.fitIsothermTogether":
		"internal now; isotherms.fitIsotherm(isotherm, points) fits each treatment, and fit.fitShared fits a curve of your own with parameters in common",
	"isotherms.fitTable": "isotherms.fitTables(...fits).quality",
	"isotherms.isothermsWithoutConstants":
		"isotherms.rankIsotherms(points) takes these where none are named",
	"isotherms.numericalSlope":
		"internal now; isotherms.ownIsotherm(own) takes the slope of your curve by itself",
	"isotherms.parameterTable":
		"isotherms.fitTables(...fits), which is shown as a table",
	"isotherms.pointTable":
		"isotherms.isothermPoints(trial); each treatment is shown as a table",
	"isotherms.pointsOfTreatment": "isotherms.isothermPoints(trial, treatment)",
	"isotherms.quotedTable":
		"isotherms.fitTables(...fits), whose table has the profile intervals, the ones to quote",
	"isotherms.rankingTable":
		"isotherms.rankIsotherms(points), which is shown as a table",
	"isotherms.residualTable": "isotherms.fitTables(...fits).residuals",
	"isotherms.straightLineForms":
		"isotherms.straightLines(points), each with its form",
	"isotherms.straightLineTable":
		"isotherms.straightLines(points), which is shown as a table",
	"isotherms.uptakeAt": "isotherms.uptakeAtResidue(fit, residue)",
	"isotherms.withNonAdsorbable":
		"dose.naturalBackground(isotherm, points).fit, which has the background where it is shown",
	"mixtures.mixtureTable":
		"mixtures.doseInMixture(rule, solutes, wanted), which is shown as a table",
	"mixtures.residuesInMixture":
		"internal now; mixtures.doseInMixture(rule, solutes, wanted) has in its left what the dose leaves, and mixtures.mixtureCurves(rule, solutes, name) draws it against the dose",
	"mixtures.uptakesInMixture":
		"internal now; mixtures.doseInMixture(rule, solutes, wanted) has in its left what a dose leaves and what the char holds",
	"notebook.attachPhotographs": "notebook.attach(trial)",
	"notebook.attachSheet": "notebook.attach(trial)",
	"properties.agreementOf":
		"properties.charProperties(sheet), whose agreement is a table",
	"properties.agreementTable": "properties.charProperties(sheet).agreement",
	"properties.answer": "words.charAnswer(sheet)",
	"properties.apparentDensity":
		"properties.propertiesFromRows(rows), a row for each determination",
	"properties.ballPanHardness":
		"properties.propertiesFromRows(rows), a row for each determination",
	"properties.checkProperties": "properties.readProperties(path, limits)",
	"properties.checkPropertyRows": "properties.propertiesFromRows(rows, limits)",
	"properties.contentsOf": "properties.charProperties(sheet)",
	"properties.densityWindowTable": "properties.grainDensities(sheet)",
	"properties.densityWindows": "properties.grainDensities(sheet)",
	"properties.determinationTable":
		"properties.readProperties(path), which is shown as a table",
	"properties.fixedCarbon":
		"properties.propertiesFromRows(rows), a row for each determination",
	"properties.floatedShare": "properties.charProperties(sheet)",
	"properties.floatingBias":
		"properties.floatingBiasOfChars(sheet, uptakes, options)",
	"properties.floatingBiasTable":
		"properties.floatingBiasOfChars(sheet, uptakes, options)",
	"properties.massForDryMass":
		"internal now; moist mass = dry mass / (1 - moisture)",
	"properties.meanOfDeterminations": "properties.charProperties(sheet)",
	"properties.moisture":
		"properties.propertiesFromRows(rows), a row for each determination",
	"properties.moistureOnDryBasis": "internal now; X = W / (1 - W)",
	"properties.moistureOnWetBasis": "internal now; W = X / (1 + X)",
	"properties.nextSteps": "words.charNextSteps(sheet)",
	"properties.particleSizes":
		"properties.propertiesFromRows(rows), a row for each determination",
	"properties.pooledScatter": "properties.charProperties(sheet)",
	"properties.propertyAdvice": "words.charNextSteps(sheet)",
	"properties.propertySentences": "words.charAnswer(sheet)",
	"properties.propertyTable":
		"properties.charProperties(sheet), which is shown as a table",
	"properties.sieveOpening":
		"properties.propertiesFromRows(rows), a row for each determination",
	"properties.standardsTable": "properties.charProperties(sheet).methods",
	"properties.toBasis": "properties.uptakesOfChars(sheet, uptakes, { basis })",
	"properties.totalAsh":
		"properties.propertiesFromRows(rows), a row for each determination",
	"properties.uptakeBasisTable":
		"properties.uptakesOfChars(sheet, uptakes, { basis })",
	"properties.uptakeOnBasis":
		"properties.uptakesOfChars(sheet, uptakes, { basis })",
	"properties.volatileMatter":
		"properties.propertiesFromRows(rows), a row for each determination",
	"properties.waterSoluble":
		"properties.propertiesFromRows(rows), a row for each determination",
	"properties.wholeCharUptake":
		"properties.floatingBiasOfChars(sheet, uptakes, options)",
	"quantity.AdaptiveMonteCarlo":
		"a type without a public name now; leave it out, the compiler knows it",
	"quantity.Balance": "bench.Balance",
	"quantity.Checked":
		"a type without a public name now; leave it out, the compiler knows it",
	"quantity.CorrelatedInput":
		"a type without a public name now; leave it out, the compiler knows it",
	"quantity.GlasswareOptions": "bench.GlasswareOptions",
	"quantity.GlasswareStandard":
		"a type without a public name now; leave it out, the compiler knows it",
	"quantity.GlasswareTolerance":
		"a type without a public name now; leave it out, the compiler knows it",
	"quantity.InputDescription":
		"a type without a public name now; leave it out, the compiler knows it",
	"quantity.LedgerRow":
		"a type without a public name now; leave it out, the compiler knows it",
	"quantity.PieceOfGlassware": "bench.PieceOfGlassware",
	"quantity.ReadTogether":
		"a type without a public name now; leave it out, the compiler knows it",
	"quantity.Same":
		"a type without a public name now; leave it out, the compiler knows it",
	"quantity.SharedErrors":
		"a type without a public name now; leave it out, the compiler knows it",
	"quantity.SmoothFunction":
		"a type without a public name now; leave it out, the compiler knows it",
	"quantity.adaptiveMonteCarlo":
		"quantity.monteCarlo(q, { trials: 1_000_000 }) gives the interval; quantity.compareWithFirstOrder(q) chooses the number of trials itself",
	"quantity.baseUnits":
		"internal now; the message for a wrong unit lists the units of its kind",
	"quantity.budgetTable":
		"quantity.budget(quantity), which is shown as a table",
	"quantity.cellText": "internal now; String(q) is the text of a quantity",
	"quantity.contentHash": "internal now",
	"quantity.correlatedInputs": "internal now; the fits use it",
	"quantity.cosineOf": "internal now",
	"quantity.countOption": "internal now",
	"quantity.covariance":
		"quantity.correlation(a, b) times both standard uncertainties",
	"quantity.decimalsFor": "internal now; String(q) rounds by the uncertainty",
	"quantity.densityOf": "quantity.per(mass, volume), a mass concentration",
	"quantity.didYouMean": "internal now",
	"quantity.effectiveDegreesOfFreedom":
		"quantity.budget(q).expanded.degreesOfFreedom is the number",
	"quantity.eitherOption": "internal now",
	"quantity.escapeHtml": "internal now",
	"quantity.exactRatio": 'quantity.input("ratio", value, "1", quantity.exact)',
	"quantity.expandedText":
		"quantity.budget(q).expanded holds half-width and limits",
	"quantity.expandedUncertainty":
		"quantity.budget(q, { confidence }).expanded is the same",
	"quantity.exponentialOf": "internal now",
	"quantity.fixed": "internal now; toFixed() rounds a number",
	"quantity.fromBase": 'internal now; q.in("g") gives the number in a unit',
	"quantity.functionOf": "internal now",
	"quantity.glasswareCalibration":
		"bench.measuredVolume(piece, size, value, options) carries the calibration error of its piece",
	"quantity.glasswareTolerance":
		"internal now; bench.measuredVolume(piece, size, value, options) applies it",
	"quantity.halfDivision": "quantity.rectangular(a) with half a division",
	"quantity.jupyterDisplay": "internal now",
	"quantity.kept": "internal now",
	"quantity.known": "internal now",
	"quantity.knownIfFinite": "internal now",
	"quantity.ledgerCsv": "internal now; a run writes ledger.csv",
	"quantity.ledgerRows": "quantity.ledger(values)",
	"quantity.ledgerTable": "quantity.ledger(values)",
	"quantity.listOption": "internal now",
	"quantity.mapKnown": "internal now",
	"quantity.massConcentrationOf": "internal now",
	"quantity.massPerMass": "internal now",
	"quantity.meanOfReplicates":
		"quantity.meanOf(values) keeps the errors of the values, quantity.repeatedReadings(kind, numbers, unit) takes their scatter",
	"quantity.measuredText": "internal now",
	"quantity.measuredVolume":
		"bench.measuredVolume(piece, size, value, options)",
	"quantity.monteCarloTrials":
		"quantity.monteCarlo(q, options) gives mean, standard uncertainty and intervals of the trials",
	"quantity.naturalLog": "internal now",
	"quantity.nearestName": "internal now",
	"quantity.notKnown": "internal now",
	"quantity.nowhere": "internal now",
	"quantity.numberOption": "internal now",
	"quantity.numericalTolerance": "internal now",
	"quantity.objectOption": "internal now",
	"quantity.optionProblems": "internal now",
	"quantity.piecesOfGlassware":
		"internal now; the message for an unknown piece lists them",
	"quantity.plainNumber": "internal now; toPrecision() rounds a number",
	"quantity.problem": "internal now",
	"quantity.problemText": "internal now",
	"quantity.purity":
		'quantity.input("ratio", percent, "%", quantity.rectangular(halfWidth)) is the same',
	"quantity.purityAtLeast":
		'quantity.input("ratio", 99.75, "%", quantity.rectangular(0.25)) is "at least 99.5 %"',
	"quantity.quantityOption": "internal now",
	"quantity.raised": "internal now",
	"quantity.readTogether": "internal now",
	"quantity.readUnit": "internal now",
	"quantity.readingUncertainty": "internal now",
	"quantity.requireOptions": "internal now",
	"quantity.roundedPair": "internal now; String(q) rounds by the uncertainty",
	"quantity.sharedErrors":
		"internal now; quantity.correlation(a, b) says what two results share",
	"quantity.sheetHash": "internal now",
	"quantity.sineOf": "internal now",
	"quantity.stated":
		'the source is a text now: { source: "label of the bottle" }',
	"quantity.tableHtml": "internal now; a table shows itself",
	"quantity.tableText": "internal now; a table shows itself",
	"quantity.textOption": "internal now",
	"quantity.throwProblems": "internal now",
	"quantity.toBase": 'internal now; q.in("g") gives the number in a unit',
	"quantity.tolerancesOf":
		"internal now; bench.measuredVolume(piece, size, value, options) applies them",
	"quantity.total": "quantity.plus(a, b, c) takes any number of values",
	"quantity.traceTree": "quantity.working(quantity).trace",
	"quantity.unitText": "internal now",
	"quantity.units":
		"internal now; the message for a wrong unit lists the units of its kind",
	"quantity.valueOrThrow": "internal now",
	"quantity.weighedMass": "bench.weighedMass(value, balance)",
	"quantity.withTemperatureSpread":
		"bench.measuredVolume(piece, size, value, { temperatureWithin: 4 }) has it as an option",
	"quantity.withWord": "internal now",
	"quantity.withoutReadingErrors": "internal now",
	"quantity.wordOption": "internal now",
	"quantity.yesNoOption": "internal now",
	"residue.Absorptivity":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.BandPoint":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.ByItself":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.CalibrationOptions":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.CalibrationPoint":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.CharMass":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.ConcentrationKind":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.DetectionLimits":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.DriftCheck":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.FlaskAccount":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.FlaskResidue": "residue.TitratedResidue",
	"residue.InverseReading":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.LimitDefinition":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.LimitOptions":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.LineModel":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.ReadingError":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.ReadingOptions": "bench.TrialOptions",
	"residue.ShapeTest":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.SignalKind":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.Wavelengths":
		"a type without a public name now; leave it out, the compiler knows it",
	"residue.absorbanceOfIntensity":
		"internal now; residue.residues(trial) turns intensities into absorbances",
	"residue.absorbanceOfTransmittance":
		"internal now; residue.residues(trial) turns transmittances into absorbances",
	"residue.accountOf": "residue.residues(trial), each with its account",
	"residue.bendTest": "residue.calibrationLines(trial), each with its checks",
	"residue.byItself":
		"internal now; residue.residues(trial) knows readings that need no line",
	"residue.charMassOf": "uptake.uptakes(trial), each with its charMass",
	"residue.checkCalibration": "residue.calibrate(standards, options)",
	"residue.correctedTitre":
		"residue.residues(trial), each titrated one with its titre",
	"residue.detectionLimit": "internal now; a titre below 0.05 mL is a bound",
	"residue.detectionLimits":
		"residue.calibrationLines(trial), each with its checks",
	"residue.dimerConstant": "internal now; 4000 L/mol, from memory",
	"residue.dimerShare":
		"internal now; a residue that was read has it among its cautions",
	"residue.displacement": "internal now; 0.5 mL of liquid for a gram of char",
	"residue.driftChecks": "residue.calibrationLines(trial).drift",
	"residue.driftTable": "residue.calibrationLines(trial).drift",
	"residue.evenScatter":
		"residue.calibrationLines(trial), each with its checks",
	"residue.iodineTitrated": "residue.residues(trial), each with what was left",
	"residue.lackOfFit": "residue.calibrationLines(trial), each with its checks",
	"residue.lightOfChannel":
		"internal now; residue.residues(trial) turns channels into light",
	"residue.lineChecksTable":
		"residue.calibrationLines(trial), each with its checks",
	"residue.lineFromAbsorptivity":
		"bench.readTrial(path, { absorptivities: [...] })",
	"residue.lineTable":
		"residue.calibrationLines(trial); each is shown as a table",
	"residue.predictionBand": "figures.calibrationLine(line)",
	"residue.readBackwards":
		"internal now; residue.residues(trial) reads the flasks on their lines",
	"residue.readOnLine":
		"internal now; residue.residues(trial) reads the flasks on their lines",
	"residue.readResidueTable": "residue.residues(trial)",
	"residue.residueTable": "residue.residues(trial), which is shown as a table",
	"residue.residuesByReading": "residue.residues(trial)",
	"residue.standardsTable":
		"residue.calibrationLines(trial), each with its standards",
	"residue.workingRange":
		"residue.calibrationLines(trial), each with its checks",
	"solutions.Composition":
		"a type without a public name now; leave it out, the compiler knows it",
	"solutions.Drift":
		"a type without a public name now; leave it out, the compiler knows it",
	"solutions.Dye":
		"a type without a public name now; leave it out, the compiler knows it",
	"solutions.MassConcentrations":
		"a type without a public name now; leave it out, the compiler knows it",
	"solutions.Substance":
		"a type without a public name now; leave it out, the compiler knows it",
	"solutions.aliquotConcentration":
		"internal now; solutions.concentrations(trial) standardises the solutions of a sheet",
	"solutions.composition": "substances.molarMass(formula)",
	"solutions.densitiesOnRecord":
		"internal now; solutions.concentrationFromMassFraction names the solutes that it knows when it is asked for another",
	"solutions.diluteConcentrate":
		"solutions.dilute(formula, massFraction, wanted, volume, { density })",
	"solutions.drift":
		"there is no line through two standardisations any more; quantity.minus(second, first) is the change with its uncertainty, and a new standardisation is better than a line",
	"solutions.dyeOf": "substances.substanceNamed(name)",
	"solutions.dyes": "substances.substanceTable()",
	"solutions.equivalentsPerMole":
		"internal now; substances.substanceNamed(name) has the equivalents in its titrimetry",
	"solutions.makeUpByMassFraction":
		"solutions.makeUp(formula, massFraction, totalMass)",
	"solutions.makeUpByMassPerVolume":
		"solutions.makeUp(formula, massPerVolume, volume)",
	"solutions.makeUpMolar": "solutions.makeUp(formula, concentration, volume)",
	"solutions.massConcentrations":
		"internal now; solutions.concentrations(trial) shows the solutions of any sheet",
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
	"solutions.solutionDensity":
		"internal now; solutions.concentrationFromMassFraction(formula, massFraction) takes the density from the table by itself",
	"solutions.solutionTable":
		"solutions.concentrations(trial), which is shown as a table",
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
	"stats.Alternative":
		"a type without a public name now; leave it out, the compiler knows it",
	"stats.BoxProbability":
		"a type without a public name now; leave it out, the compiler knows it",
	"stats.CorrelationMatrix":
		"a type without a public name now; leave it out, the compiler knows it",
	"stats.QuadratureRule":
		"a type without a public name now; leave it out, the compiler knows it",
	"stats.Random":
		"a type without a public name now; leave it out, the compiler knows it",
	"stats.SOBOL_MAX_DIMENSIONS":
		"internal now; stats keeps what a course in statistics calls",
	"stats.Sobol":
		"a type without a public name now; leave it out, the compiler knows it",
	"stats.TwoGroupPlan":
		"a type without a public name now; leave it out, the compiler knows it",
	"stats.UncertaintyComponent":
		"a type without a public name now; leave it out, the compiler knows it",
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
	"stats.createRandom":
		"internal now; give a seed to quantity.monteCarlo or to fit.bootstrap",
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
	"stats.normalQuantile":
		"internal now; quantity.budget gives the expanded uncertainty",
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
	"stats.standardError":
		"stats.sampleStandardDeviation(values) / Math.sqrt(values.length)",
	"stats.studentTCdf":
		"internal now; stats keeps what a course in statistics calls",
	"stats.studentTDensity":
		"internal now; stats keeps what a course in statistics calls",
	"stats.studentTQuantile":
		"internal now; stats.welchTTest and fit.fit give their intervals",
	"stats.studentTTwoSidedP":
		"internal now; stats keeps what a course in statistics calls",
	"stats.studentTUpperTail":
		"internal now; stats keeps what a course in statistics calls",
	"stats.sumOfSquares":
		"internal now; stats keeps what a course in statistics calls",
	"stats.tTestPower":
		"internal now; compare.compareTreatments(trial, { margin }) says what would decide",
	"stats.welchSatterthwaite":
		"quantity.budget(quantity).expanded uses the effective degrees of freedom",
	"temperature.constantTable": "temperature.vanTHoff(steps).constants",
	"temperature.gasConstant": "internal now; it is 8.314462618 J/(mol K), exact",
	"temperature.isostericTable":
		"temperature.isostericHeats(series, uptakes), which is shown as a table",
	"temperature.kelvinsOf": "temperature.temperatureSeries(fits, { celsius })",
	"temperature.usualMistakes":
		"temperature.temperatureSeries(fits).usualMistakes",
	"temperature.vanTHoffSentences": "temperature.vanTHoff(steps).sentences",
	"temperature.vanTHoffTable": "temperature.vanTHoff(steps).table",
	"uptake.ActivatedUptake": "uptake.FiringUptake",
	"uptake.ActivationLink":
		"a type without a public name now; leave it out, the compiler knows it",
	"uptake.ColourDose":
		"a type without a public name now; leave it out, the compiler knows it",
	"uptake.DoseForRemoval":
		"a type without a public name now; leave it out, the compiler knows it",
	"uptake.IodineBalance": "uptake.ProbeBalance",
	"uptake.LogLine":
		"a type without a public name now; leave it out, the compiler knows it",
	"uptake.NumberOnLine":
		"a type without a public name now; leave it out, the compiler knows it",
	"uptake.Provenance":
		"a type without a public name now; leave it out, the compiler knows it",
	"uptake.RelativeDecolourising":
		"a type without a public name now; leave it out, the compiler knows it",
	"uptake.UptakeCost":
		"a type without a public name now; leave it out, the compiler knows it",
	"uptake.activatedUptakeTable": "uptake.uptakesByFiring(trial)",
	"uptake.activationAnswer": "words.firingAnswer(trial)",
	"uptake.balanceTable": "uptake.uptakes(trial).balances",
	"uptake.byTreatment":
		"internal now; bench.selectFlasks(trial, flasks) goes on with some flasks",
	"uptake.caramelDefinitions": "internal now",
	"uptake.colourRemoved": "internal now; (A0 - A) / A0",
	"uptake.conditionOfUptake": "uptake.uptakesByFiring(trial)",
	"uptake.conditionTable":
		"uptake.iodineNumbers(trial), each with its conditionTable",
	"uptake.d4607":
		"internal now; uptake.iodineNumbers(trial) has the conditions of the standard",
	"uptake.demandOf": "uptake.uptakes(trial), each with its demand",
	"uptake.dosageFor": "uptake.iodineNumbers(trial), each with its nextDosages",
	"uptake.dosagePoints": "uptake.iodineNumbers(trial).dosages",
	"uptake.dosageTable": "uptake.iodineNumbers(trial).dosages",
	"uptake.dyeSurface": "uptake.methyleneBlueSurface(trial)",
	"uptake.feedstockCapacity":
		"uptake.uptakesByFiring(trial), each with its perFeedstock",
	"uptake.feedstockTable": "uptake.uptakesByFiring(trial).perFeedstock",
	"uptake.firingAnswer": "words.firingAnswer(trial)",
	"uptake.firingTable":
		"uptake.uptakesByFiring(trial), which is shown as a table",
	"uptake.iodineNumberTable":
		"uptake.iodineNumbers(trial), which is shown as a table",
	"uptake.logLine": "uptake.iodineNumbers(trial), each with its line",
	"uptake.lossOf": "uptake.uptakes(trial).balances",
	"uptake.methyleneBlueAreas": "uptake.methyleneBlueSurface(trial)",
	"uptake.methyleneBlueNumber":
		"uptake.methyleneBlueNumbers([{ definition, sample, volume, strength, char }])",
	"uptake.methyleneBlueTable":
		"uptake.methyleneBlueNumbers(titrations), which is shown as a table",
	"uptake.nextDosages":
		"uptake.iodineNumbers(trial), each with its nextDosages",
	"uptake.nextTrial": "uptake.iodineNumbers(trial), each with its nextTrial",
	"uptake.relativeDecolourising": "internal now",
	"uptake.removalDoseTable": "uptake.numbersByDefinition(trial, definition)",
	"uptake.removalDoses": "uptake.numbersByDefinition(trial, definition)",
	"uptake.roughSurfaceAreas": "uptake.iodineNumbers(trial).roughSurfaceAreas",
	"uptake.runUptakeSentences": "words.firingAnswer(trial)",
	"uptake.singleDoseTable":
		"uptake.singleDoses(trial, slope), which is shown as a table",
	"uptake.uptakeCost": "uptake.costTable(trial, prices)",
	"uptake.uptakeCostTable": "uptake.costTable(trial, prices)",
	"uptake.uptakeNumberTable": "uptake.numbersByDefinition(trial, definition)",
	"uptake.uptakeNumbers": "uptake.numbersByDefinition(trial, definition)",
	"uptake.uptakeTable": "uptake.uptakes(trial), which is shown as a table",
	"uptake.uptakesByReading": "uptake.uptakes(trial)",
	"uptake.withActivation": "uptake.uptakesByFiring(trial)",
};
