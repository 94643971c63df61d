import { readFileSync } from "node:fs";
import { join } from "node:path";

const folder = join(__dirname, "../../data/reference");

/** A reference file parsed as JSON. */
export function referenceJson<T>(name: string): T {
	return JSON.parse(readFileSync(join(folder, name), "utf8")) as T;
}

/** The rows of a reference CSV as objects of texts. */
export function referenceRows(name: string): Record<string, string>[] {
	const [header, ...lines] = readFileSync(join(folder, name), "utf8")
		.trim()
		.split("\n");
	const columns = header.split(",");
	return lines.map((line) => {
		const cells = line.split(",");
		return Object.fromEntries(
			columns.map((column, index) => [column, cells[index]]),
		);
	});
}

/** |found - expected| relative to the expected value. */
export function relativeError(found: number, expected: number): number {
	return expected === 0 ? Math.abs(found) : Math.abs(found / expected - 1);
}
