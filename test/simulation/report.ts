/** Closes `npm run simulate`: one table of all that was asked and found, and the tables of the pages in data/simulation/. */
import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { type Finding, type Note, notes, notesTaken } from "./trials";

const pages = join(import.meta.dirname, "../../data/simulation");
const begin = "<!-- written by npm run simulate -->";
const end = "<!-- end -->";

export function setup(): void {
	rmSync(notes, { force: true });
}

export function teardown(): void {
	const taken = notesTaken();
	const findings = taken.filter((n) => n.of === "findings");
	console.log(
		markdown(findings.map((n) => findingRow(n.row as unknown as Finding))),
	);
	for (const page of new Set(taken.map((n) => n.of)))
		if (page !== "findings")
			console.log(
				renew(
					page,
					taken.filter((n) => n.of === page),
				),
			);
}

const percent = (share: number): string =>
	`${Number((100 * share).toFixed(1))} %`;

function findingRow(finding: Finding): Note["row"] {
	const { simulation, design, what, hits, trials, least, most } = finding;
	const asked = [
		least === undefined ? "" : `at least ${percent(least)}`,
		most === undefined ? "" : `at most ${percent(most)}`,
	];
	const held =
		hits / trials >= (least ?? 0) && hits / trials <= (most ?? 1) ? "" : "NOT";
	return {
		simulation,
		design,
		what,
		trials,
		found: percent(hits / trials),
		asked: asked.filter((a) => a !== "").join(", "),
		held,
	};
}

function markdown(rows: readonly Note["row"][]): string {
	if (rows.length === 0) return "";
	const names = Object.keys(rows[0]);
	const lines = rows.map((row) => names.map((name) => String(row[name] ?? "")));
	const widths = names.map((name, i) =>
		Math.max(name.length, ...lines.map((cells) => cells[i].length)),
	);
	const line = (cells: readonly string[]): string =>
		`| ${cells.map((cell, i) => cell.padEnd(widths[i])).join(" | ")} |`;
	return [
		line(names),
		line(widths.map((width) => "-".repeat(width))),
		...lines.map(line),
	].join("\n");
}

/** Writes a page's table anew; a run of some of the files leaves a fuller table alone. Says what it did. */
function renew(page: string, taken: readonly Note[]): string {
	const path = join(pages, `${page}.md`);
	const text = existsSync(path) ? readFileSync(path, "utf8") : "";
	const [from, to] = [text.indexOf(begin), text.indexOf(end)];
	if (from < 0 || to < from)
		throw new Error(`data/simulation/${page}.md has no place for a table.`);
	// Less the two lines of its head.
	const before = Math.max(
		0,
		(text.slice(from, to).match(/^\|/gm) ?? []).length - 2,
	);
	if (taken.length < before)
		return `data/simulation/${page}.md keeps its ${before} rows: this run gave ${taken.length}.`;
	const rows = [...taken]
		.sort((a, b) => (String(a.row.design) < String(b.row.design) ? -1 : 1))
		.map((n) => n.row);
	writeFileSync(
		path,
		`${text.slice(0, from)}${begin}\n\n${markdown(rows)}\n\n${text.slice(to)}`,
	);
	return `data/simulation/${page}.md is written.`;
}
