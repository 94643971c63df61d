/** The demo sheets with a marker word in the place of every name that they give: what reads as a name cannot come from the library. */
import {
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const data = join(import.meta.dirname, "../data");

/** Columns whose cells are names, or name what has one. */
const naming = [
	"treatment",
	"control",
	"sample",
	"solution",
	"activation run",
	"precursor batch",
	"standardised against",
	"made from",
];

const cell = /("(?:[^"]|"")*"|[^,\r\n]*)(,|\r?\n|$)/g;

function rowsOf(csv: string): string[][] {
	return csv
		.trimEnd()
		.split(/\r?\n/)
		.map((line) =>
			[...line.matchAll(cell)]
				.filter((found, i) => i === 0 || found.index < line.length)
				.map(([, text]) => text),
		);
}

/** A folder with the files of a demo whose names begin with `start`, its names made marker words. */
export function markedSheet(folder: string, start: string) {
	const source = join(data, folder);
	const target = mkdtempSync(join(tmpdir(), "marked-"));
	const tables = readdirSync(source)
		.filter((file) => file === `${start}.csv` || file.startsWith(`${start}.`))
		.map((file) => ({
			file,
			rows: rowsOf(readFileSync(join(source, file), "utf8")),
		}));
	const markers = new Map<string, string>();
	const marked = (text: string): string => {
		if (!markers.has(text)) markers.set(text, `Zq${markers.size + 1}`);
		return markers.get(text) as string;
	};
	for (const { rows } of tables)
		for (const row of rows.slice(1))
			for (const [i, text] of row.entries())
				if (text !== "" && naming.includes(rows[0][i])) marked(text);
	const firings = new Set(
		tables.flatMap(({ rows }) =>
			rows[0][0] === "activation run" ? rows.map(([name]) => name) : [],
		),
	);
	for (const { file, rows } of tables) {
		const own = rows[0].map(
			(head) =>
				naming.includes(head) || head === "soak" || head === "char batch",
		);
		const lines = rows.map((row, r) =>
			row
				.map((text, i) =>
					r > 0 && own[i] && (naming.includes(rows[0][i]) || firings.has(text))
						? (markers.get(text) ?? text)
						: text,
				)
				.join(","),
		);
		writeFileSync(join(target, file), `${lines.join("\n")}\n`);
	}
	return {
		path: join(target, `${start}.csv`),
		/** The marker in the place of a name of the demo. */
		marker: (name: string): string => markers.get(name) ?? name,
		remove: (): void => rmSync(target, { recursive: true }),
	};
}
