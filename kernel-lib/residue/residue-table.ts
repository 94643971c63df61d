import { type Flask, isUsable, type Trial, whyLeftOut } from "../bench";
import {
	furtherApart,
	listed,
	type Table,
	type TableCell,
	table,
} from "../quantity";
import { titreVolume } from "../solutions";
import type { ReadResidue } from "./by-reading";
import { everyResidue, type Residue } from "./every-residue";
import type { TitratedResidue } from "./titrated-residue";

const sentence = (text: string): string =>
	text.charAt(0).toUpperCase() + text.slice(1);

/** What a flask was there for, where an instrument read it. */
const contentsRead: Readonly<Record<Flask["contents"], string>> = {
	char: "char",
	"iodine blank": "blank without char",
	"reagent blank": "reagent blank",
	leachate: "leachate",
};

/** Why a flask does not count; "" where it does. */
function leftOutText({ flask }: Residue): string {
	return isUsable(flask) ? "" : `left out: ${whyLeftOut(flask)}`;
}

function remarkOf({ settings }: Trial, r: Residue): string {
	const out = leftOutText(r);
	return [
		out === "" ? "" : `${sentence(out)}.`,
		...(r.is === "read"
			? [
					r.residue.is === "value" ? "" : `${sentence(r.residue.because)}.`,
					r.contradiction,
					...r.cautions,
				]
			: [
					furtherApart(
						r.flask.titrations.map((t) => titreVolume(t, settings.endPoint)),
						"Its titres",
						"mL",
					),
				]),
	]
		.filter((text) => text !== "")
		.join(" ");
}

const titratedColumns = [
	"flask",
	"contents",
	"titre less blank (mL)",
	"liquid (mL)",
	"residual iodine (mg/L)",
	"iodine left, as I2 (mmol)",
];

function titratedRow(r: TitratedResidue): TableCell[] {
	return [
		r.flask.name,
		r.flask.contents,
		r.titre,
		r.account.liquid,
		r.residue,
		r.measurable ? r.left : "not measurable",
	];
}

/** A column of remarks only where there is one. */
function withRemarks(
	trial: Trial,
	columns: readonly string[],
	residues: readonly Residue[],
	rows: readonly (readonly TableCell[])[],
): [string[], TableCell[][]] {
	const remarks = residues.map((r) => remarkOf(trial, r));
	return remarks.every((text) => text === "")
		? [[...columns], rows.map((r) => [...r])]
		: [[...columns, "remark"], rows.map((r, i) => [...r, remarks[i]])];
}

function titratedTable(
	trial: Trial,
	residues: readonly TitratedResidue[],
): Table {
	const [columns, rows] = withRemarks(
		trial,
		titratedColumns,
		residues,
		residues.map(titratedRow),
	);
	return table("Iodine left in solution", columns, rows, blankNotes(residues));
}

function readRow(r: ReadResidue): TableCell[] {
	return [
		r.flask.name,
		contentsRead[r.flask.contents],
		r.reading.is === "on a line"
			? r.reading.on.concentration
			: "read by itself",
		r.flask.readings.recorded ? r.flask.readings.value.dilution : "",
		r.residue,
		{ ...r.residue, quantity: r.left },
	];
}

function readTable(trial: Trial, residues: readonly ReadResidue[]): Table {
	const units = [
		...new Set(
			residues.flatMap((r) =>
				r.reading.is === "on a line"
					? [r.reading.on.line.concentrationUnit]
					: [],
			),
		),
	];
	return table(
		"Left in solution",
		[
			"flask",
			"contents",
			units.length === 1 ? `in the cuvette (${units[0]})` : "in the cuvette",
			"dilution",
			"residue (mg/L)",
			"left (mg)",
			"remark",
		],
		residues.map((r) => [...readRow(r), remarkOf(trial, r)]),
		blankNotes(residues),
	);
}

/** Titrated and read flasks side by side. */
function mixedTable(trial: Trial, residues: readonly Residue[]): Table {
	return table(
		`Left in solution: ${trial.probe.name}`,
		[
			"flask",
			"contents",
			"found by",
			"liquid (mL)",
			"residue (mg/L)",
			"remark",
		],
		residues.map((r) => [
			r.flask.name,
			r.is === "read" ? contentsRead[r.flask.contents] : r.flask.contents,
			r.is === "titrated"
				? "titration"
				: r.reading.is === "on a line"
					? `line ${r.reading.on.line.name}`
					: "reading by itself",
			r.account.liquid,
			r.residue,
			remarkOf(trial, r),
		]),
		blankNotes(residues),
	);
}

function blankNotes(residues: readonly Residue[]): string[] {
	const without = (["titrated", "read"] as const).flatMap((is) => {
		const own = residues.filter((r) => r.is === is);
		const bare = own.filter((r) => r.reagentBlank === "none");
		if (bare.length === 0) return [];
		return [
			`${bare.length === own.length ? "the" : "some"} ${is === "titrated" ? "titres" : "readings"}`,
		];
	});
	return [
		...(without.length > 0
			? [
					`No reagent blank is in use for ${listed(without)}: nothing was taken off them.`,
				]
			: []),
		...(residues.some((r) => r.reagentBlank === "other days")
			? [
					"Some days have no reagent blank of their own; the mean of the other days was taken.",
				]
			: []),
	];
}

/** Flasks that a deviation leaves out and for which nothing could be computed. */
function notComputed(trial: Trial, shown: readonly Residue[]): string[] {
	const names = new Set(shown.map((r) => r.flask.name));
	return trial.flasks
		.filter((f) => f.contents !== "reagent blank" && !names.has(f.name))
		.map(
			(f) =>
				`Flask ${f.name} is left out, without a residue: ${whyLeftOut(f)}.`,
		);
}

/** What was found in each flask, for people, flasks that a deviation leaves out included (and marked). Titres in mL, residues in mg/L. */
export function residueTable(trial: Trial): Table {
	const all = everyResidue(trial);
	const titrated = all.filter((r) => r.is === "titrated");
	const read = all.filter((r) => r.is === "read");
	const { title, columns, rows, notes } =
		read.length === 0
			? titratedTable(trial, titrated)
			: titrated.length === 0
				? readTable(trial, read)
				: mixedTable(trial, all);
	return table(title, columns, rows, [...notes, ...notComputed(trial, all)]);
}
