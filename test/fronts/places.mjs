/** Where the tests of real front ends find the templates and leave what is to be looked at; not kept in version control. */
import { mkdirSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { root } from "./environment.mjs";

export const templates = readdirSync(join(root, "notebooks"))
	.filter((name) => name.endsWith(".ipynb"))
	.sort();

/** Every front end with every template, or (FRONTS=few, which CI asks for) the slow ones with the templates below alone. */
const whole = process.env.FRONTS !== "few";

/** What differs between templates as a front end sees them: a verdict with its tables; fits that take long and show how far they are; readings on a line. */
const few = [
	"compare-treatments.ipynb",
	"isotherm-multi-dose.ipynb",
	"dye-uptake.ipynb",
];
const unknown = few.filter((name) => !templates.includes(name));
if (unknown.length > 0)
	throw new Error(`No such template: ${unknown.join(", ")}.`);

/** The templates that are run in the slow front ends. Under nbclient with our kernel, all are run always. */
export const inSlowFronts = whole ? templates : few;

/** What was run, in a sentence, so that nothing is left out in silence. */
export const extent = whole
	? `Every front end with all ${templates.length} templates.`
	: `All ${templates.length} templates under nbclient and as pages; JupyterLab, plain tslab, nbconvert, other looks of a page and its print with ${few.join(", ")} only. The whole matrix: npm run test:fronts:all.`;

export const pictures = join(root, "results", "fronts");
/** What our own runner made of each template. */
export const runs = join(pictures, "runs");
mkdirSync(runs, { recursive: true });
