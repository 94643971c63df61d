/** What the tests of real front ends share: a folder to work in, a browser, the results of our own runner to compare with. */
import {
	cpSync,
	existsSync,
	mkdirSync,
	mkdtempSync,
	readFileSync,
	rmSync,
	symlinkSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium } from "playwright-core";
import { type Notebook, readNotebook } from "../../kernel-lib/notebook/ipynb";
import {
	type ResultsFile,
	resultsText,
} from "../../kernel-lib/notebook/results-file";
import { valueOrThrow } from "../../kernel-lib/quantity/index";
import { root } from "./environment.mjs";
import { inSlowFronts, pictures, runs, templates } from "./places.mjs";

export { inSlowFronts, pictures, templates };

export interface Workshop {
	/** Holds copies of notebooks/ and data/, so that nothing in the repository changes. */
	readonly folder: string;
	/** Surroundings for Jupyter that know nothing of the person's own settings. */
	readonly surroundings: NodeJS.ProcessEnv;
	close(): void;
}

export function openWorkshop(): Workshop {
	const folder = mkdtempSync(join(tmpdir(), "charledger-fronts-"));
	for (const part of ["notebooks", "data"])
		cpSync(join(root, part), join(folder, part), { recursive: true });
	// Plain tslab finds a library only in node_modules; our kernel does not need this.
	mkdirSync(join(folder, "node_modules"));
	symlinkSync(root, join(folder, "node_modules", "charledger"));
	const own = (name: string): string => {
		const path = join(folder, ".jupyter", name);
		mkdirSync(path, { recursive: true });
		return path;
	};
	return {
		folder,
		surroundings: {
			...process.env,
			JUPYTER_CONFIG_DIR: own("config"),
			JUPYTER_DATA_DIR: own("data"),
			JUPYTER_RUNTIME_DIR: own("runtime"),
			IPYTHONDIR: own("ipython"),
			JUPYTERLAB_SETTINGS_DIR: own("settings"),
			JUPYTERLAB_WORKSPACES_DIR: own("workspaces"),
		},
		close: () => rmSync(folder, { recursive: true, force: true }),
	};
}

export function readExecuted(path: string): Notebook {
	return valueOrThrow(readNotebook(readFileSync(path, "utf8"), path));
}

/** results.json as data, without the times, which differ from run to run. */
function withoutTimes(text: string): Omit<ResultsFile, "times"> {
	const { times, ...rest } = JSON.parse(text) as ResultsFile;
	return rest;
}

/** What an executed notebook gives as results.json, without the times. */
export function resultsOf(notebook: Notebook): Omit<ResultsFile, "times"> {
	return withoutTimes(resultsText(notebook));
}

/** The same of a file. */
export function resultsIn(path: string): Omit<ResultsFile, "times"> {
	return withoutTimes(readFileSync(path, "utf8"));
}

/** Error outputs of a notebook, as one text; "" for none. */
export function errorsOf(notebook: Notebook): string {
	return notebook.cells
		.flatMap((c) => (c.cell_type === "code" ? c.outputs : []))
		.flatMap((o) => (o.output_type === "error" ? o.traceback : []))
		.join("\n");
}

/** Where the setup has put what our own runner made of a template: the executed notebook, the page, the results. */
export function ranByUs(template: string): string {
	const out = join(runs, template);
	if (!existsSync(join(out, "results.json")))
		throw new Error(`Our runner did not come to the end of ${template}.`);
	return out;
}

/** The installed Chromium; no other browser is downloaded. */
export async function openBrowser(): Promise<Browser> {
	const places = [
		process.env.CHROMIUM ?? "",
		"/usr/bin/chromium",
		"/usr/bin/chromium-browser",
		"/usr/bin/google-chrome",
	];
	const executablePath = places.find((p) => p !== "" && existsSync(p));
	if (executablePath === undefined)
		throw new Error(
			"No Chromium was found. On Debian: apt-get install chromium",
		);
	return chromium.launch({
		executablePath,
		args: [
			"--headless",
			"--no-sandbox",
			"--disable-gpu",
			"--disable-background-networking",
			"--no-first-run",
		],
	});
}
