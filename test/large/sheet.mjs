// @ts-check
/** Writes an invented sheet of many flasks: the demo run with each of its flasks repeated, every copy in a soak of its own and with a scatter of its own. `node test/large/sheet.mjs 1000 some/folder` */
import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import papaparse from "papaparse";
import { csvOf } from "../../data/demo-run/csv.mjs";
import { generator } from "../../data/simulation/generator.mjs";

/** @typedef {Record<string, string | number>} Row */

const demo = fileURLToPath(new URL("../../data/demo-run", import.meta.url));

/** Spread of the titres from soak to soak and from flask to flask, mL, and of the weighed portions, g. */
const spread = { soak: 0.15, flask: 0.08, mass: 0.015 };

/** @param {string | number} text @param {number} more @param {number} digits */
const moved = (text, more, digits) => (Number(text) + more).toFixed(digits);

/**
 * One more flask like a flask of the demo run, with both its titres moved alike.
 * @param {Row} row @param {number} copy @param {number} titre @param {number} mass
 * @returns {Row}
 */
function copied(row, copy, titre, mass) {
	const onward =
		row["burette start 2 (mL)"] === row["burette end 1 (mL)"] ? titre : 0;
	return {
		...row,
		flask: `${row.flask}-${copy}`,
		soak: `${row.soak}.${copy}`,
		"char mass (g)": moved(row["char mass (g)"], mass, 3),
		"burette end 1 (mL)": moved(row["burette end 1 (mL)"], titre, 2),
		"burette start 2 (mL)": moved(row["burette start 2 (mL)"], onward, 2),
		"burette end 2 (mL)": moved(row["burette end 2 (mL)"], titre + onward, 2),
	};
}

/**
 * The rows of a sheet with so many flasks that hold char.
 * @param {Row[]} rows of the demo run @param {number} flasks
 */
function manyRows(rows, flasks) {
	// What went wrong on the bench is not copied, nor a burette that was refilled in the middle of a titration.
	const char = rows.filter(
		(r) =>
			r.contents === "char" &&
			(r.notes === "" || String(r.notes).startsWith("invented")) &&
			r["refilled at 1 (mL)"] === "" &&
			r["refilled at 2 (mL)"] === "",
	);
	const beside = rows.filter((r) => r.contents !== "char");
	const random = generator("large trial");
	/** @type {Map<string, number>} */
	const soaks = new Map();
	const copies = Array.from({ length: flasks }, (_, i) => {
		const row = char[i % char.length];
		const copy = Math.floor(i / char.length) + 1;
		const soak = `${row.soak}.${copy}`;
		const shift = soaks.get(soak) ?? random.normal(spread.soak);
		soaks.set(soak, shift);
		return copied(
			row,
			copy,
			shift + random.normal(spread.flask),
			random.normal(spread.mass),
		);
	});
	return [...beside, ...copies];
}

/**
 * Writes the sheet and its sister files.
 * @param {number} flasks @param {string} folder
 * @returns {string} path of the sheet
 */
export function writeLargeSheet(flasks, folder) {
	mkdirSync(folder, { recursive: true });
	const { data } = papaparse.parse(
		readFileSync(join(demo, "hazelnut.csv"), "utf8"),
		{ header: true, skipEmptyLines: true },
	);
	const path = join(folder, `flasks-${flasks}.csv`);
	writeFileSync(path, csvOf(manyRows(/** @type {Row[]} */ (data), flasks)));
	for (const sister of ["solutions", "glassware"])
		copyFileSync(
			join(demo, `hazelnut.${sister}.csv`),
			join(folder, `flasks-${flasks}.${sister}.csv`),
		);
	return path;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href)
	console.log(writeLargeSheet(Number(process.argv[2]), process.argv[3]));
