// Writes a set of results into the folder that is named, as a run does: first repairs what an earlier one left.
const {
	repair,
	stage,
} = require("../../../kernel-lib/dist/notebook/run/result-set.js");

const [folder, text] = process.argv.slice(2);
repair(folder);
const set = stage(folder);
try {
	for (const name of ["job.ipynb", "results.json", "ledger.csv", "job.html"])
		set.add(name, text);
} catch (error) {
	set.discard();
	throw error;
}
set.commit(["failed/job.html"]);
