/** The page on paper: an installed Chromium prints it. No browser is fetched. */
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { type Checked, type Problem, problem } from "../../quantity";

const programs = [
	"chromium",
	"chromium-browser",
	"google-chrome",
	"google-chrome-stable",
	"chrome.exe",
	"msedge.exe",
];
const otherPlaces = [
	"/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
	"/Applications/Chromium.app/Contents/MacOS/Chromium",
];
const patienceMilliseconds = 120_000;

function found(): Checked<string> {
	const own = process.env.CHROMIUM ?? "";
	const onPath = (process.env.PATH ?? "")
		.split(delimiter)
		.filter((folder) => folder !== "")
		.flatMap((folder) => programs.map((program) => join(folder, program)));
	const places = own === "" ? [...onPath, ...otherPlaces] : [own];
	const place = places.find((p) => existsSync(p));
	if (place !== undefined) return { ok: true, value: place };
	return {
		ok: false,
		problems: [
			problem(
				"no-chromium",
				{},
				own === ""
					? "no Chromium on this machine"
					: `nothing at ${own}, where the variable CHROMIUM points`,
				"an installed Chromium, which prints the page (--pdf)",
				"Open the HTML page in any browser and print it to PDF there; or install Chromium, or set the variable CHROMIUM to its program.",
			),
		],
	};
}

function notPrinted(page: string, said: string): Problem {
	return problem(
		"not-printed",
		{ file: page },
		`no PDF from Chromium (${said === "" ? "it said nothing" : said})`,
		"a printed page",
		"Open the HTML page in a browser and print it there.",
	);
}

/** Is there a browser that can print? Asked before a run, so that a missing one is not found at its end. */
export function printerProblems(): Problem[] {
	const browser = found();
	return browser.ok ? [] : [...browser.problems];
}

/**
 * Prints a page of ours with the style that it has for paper.
 * @returns the path of the PDF; a problem where no Chromium is installed or it fails
 */
export function printPage(page: string, pdf: string): Checked<string> {
	const browser = found();
	if (!browser.ok) return browser;
	const profile = mkdtempSync(join(tmpdir(), "charledger-print-"));
	try {
		rmSync(pdf, { force: true });
		const done = spawnSync(
			browser.value,
			[
				"--headless",
				// As root, in a container, Chromium starts only without its sandbox; the page is our own, from disk, and asks for nothing.
				...(process.getuid?.() === 0 ? ["--no-sandbox"] : []),
				"--disable-gpu",
				"--disable-background-networking",
				"--no-first-run",
				"--no-pdf-header-footer",
				// With headings, tables and lists for those who do not see the page, and with its contents.
				"--export-tagged-pdf",
				"--generate-pdf-document-outline",
				`--user-data-dir=${profile}`,
				`--print-to-pdf=${resolve(pdf)}`,
				pathToFileURL(resolve(page)).href,
			],
			{ encoding: "utf8", timeout: patienceMilliseconds },
		);
		if (existsSync(pdf)) return { ok: true, value: pdf };
		const said = (done.error?.message ?? done.stderr ?? "").trim();
		return {
			ok: false,
			problems: [notPrinted(page, said.split("\n").pop() ?? "")],
		};
	} finally {
		rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
	}
}
