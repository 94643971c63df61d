/** Public names of earlier versions, and what to call now; in alphabetical order. The kernel shows it where a notebook still calls the old name. */
export const successors: Readonly<Record<string, string>> = {
	"activation.activationAgents": "substances.substanceTable()",
	"activation.agentsIn": "substances.substancesIn(text)",
	"activation.soakAgents": "substances.substanceTable()",
	"bench.readRun": "bench.readTrial(path)",
	"bench.runFromRows": "bench.trialFromRows(rows)",
	"solutions.composition": "substances.molarMass(formula)",
	"solutions.dyeOf": "substances.substanceNamed(name)",
	"solutions.dyes": "substances.substanceTable()",
	"solutions.molarMass": "substances.molarMass(formula)",
	"solutions.substances": "substances.substanceTable()",
};
