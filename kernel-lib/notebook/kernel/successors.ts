/** Public names of earlier versions, and what to call now; in alphabetical order. The kernel shows it where a notebook still calls the old name. */
export const successors: Readonly<Record<string, string>> = {
	"bench.readRun": "bench.readTrial(path)",
	"bench.runFromRows": "bench.trialFromRows(rows)",
	"notebook.attachPhotographs": "notebook.attach(trial)",
	"notebook.attachSheet": "notebook.attach(trial)",
};
