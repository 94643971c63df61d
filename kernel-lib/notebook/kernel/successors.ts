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
	"solutions.composition": "substances.molarMass(formula)",
	"solutions.dyeOf": "substances.substanceNamed(name)",
	"solutions.dyes": "substances.substanceTable()",
	"solutions.molarMass": "substances.molarMass(formula)",
	"solutions.substances": "substances.substanceTable()",
};
