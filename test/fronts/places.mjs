/** Where the tests of real front ends find the templates and leave what is to be looked at; not kept in version control. */
import { mkdirSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { root } from "./environment.mjs";

export const templates = readdirSync(join(root, "notebooks"))
	.filter((name) => name.endsWith(".ipynb"))
	.sort();

export const pictures = join(root, "results", "fronts");
/** What our own runner made of each template. */
export const runs = join(pictures, "runs");
mkdirSync(runs, { recursive: true });
