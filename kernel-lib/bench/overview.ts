import { type Table, table } from "../quantity";
import { inUse, isUsable, targetText } from "./deviations";
import { unusualDecisions } from "./reading-decisions";
import type { Trial } from "./trial";

function counted(n: number, what: string): string {
	return `${n} ${what}${n === 1 ? "" : "s"}`;
}

/** Distinct texts in the order of their first occurrence; empty ones left out. */
function distinct(texts: readonly string[]): string[] {
	return [...new Set(texts)].filter((t) => t !== "");
}

/** ", 1 left out"; "" where nothing is. */
function leftOut(all: readonly unknown[], used: readonly unknown[]): string {
	const out = all.length - used.length;
	return out === 0 ? "" : `, ${out} left out`;
}

function flaskLines(trial: Pick<Trial, "flasks">): [string, string][] {
	const chars = trial.flasks.filter((f) => f.contents === "char");
	const lines = distinct(chars.map((f) => f.treatment)).map(
		(treatment): [string, string] => {
			const own = chars.filter((f) => f.treatment === treatment);
			const soaks = distinct(own.map((f) => f.soak)).length;
			const { control } = own[0];
			return [
				treatment,
				[
					`${counted(own.length, "flask")}${leftOut(own, own.filter(isUsable))}`,
					soaks === 0 ? "soaks not recorded" : `from ${counted(soaks, "soak")}`,
					control === "" ? "a control" : `against ${control}`,
				].join(", "),
			];
		},
	);
	for (const contents of [
		"reagent blank",
		"iodine blank",
		"leachate",
	] as const) {
		const own = trial.flasks.filter((f) => f.contents === contents);
		const of = distinct(own.map((f) => f.treatment));
		lines.push([
			contents === "iodine blank" &&
			trial.flasks.every((f) => f.readings.recorded)
				? "blanks without char"
				: `${contents}s`,
			own.length === 0
				? "none"
				: `${own.length}${contents === "leachate" && of.length > 0 ? ` (${of.join(", ")})` : ""}${leftOut(own, own.filter(isUsable))}`,
		]);
	}
	return lines;
}

function basisText(s: Trial["solutions"][number]): string {
	const { basis } = s;
	switch (basis.is) {
		case "stated":
			return `${s.substance}, stated ${basis.concentration.quantity}`;
		case "weighed":
			return `${s.substance}, ${basis.mass} in ${basis.volume}`;
		case "standardised":
			return `${s.substance}, standardised against ${basis.against} (${counted(basis.titrations.length, "titration")}${leftOut(basis.titrations, inUse(basis.titrations))})`;
	}
}

/** What was read, what was assumed, what is not recorded and what was carried along: the first thing to look at. */
export function overview(trial: Omit<Trial, "table">): Table {
	const days = distinct(trial.flasks.map((f) => f.day));
	const rows: [string, string][] = [
		...trial.files.map(({ file, hash }): [string, string] => [
			"file",
			`${file} (content ${hash})`,
		]),
		...flaskLines(trial),
		...[...new Set(trial.standards.map((s) => s.line))].map(
			(line): [string, string] => {
				const own = trial.standards.filter((s) => s.line === line);
				const again = own.filter((s) => s.readAfter !== "").length;
				return [
					`line ${line}`,
					`${counted(own.length - again, "row")} of standards${again === 0 ? "" : `, ${again} read again`}${leftOut(own, inUse(own))}`,
				];
			},
		),
		...(trial.firings.length === 0
			? []
			: [
					["firings", trial.firings.map((a) => a.name).join(", ")] as [
						string,
						string,
					],
				]),
		["days", days.length === 0 ? "not recorded" : days.join(", ")],
		...trial.solutions.map((s): [string, string] => [
			`solution ${s.name}`,
			basisText(s),
		]),
		...trial.deviations.map((d): [string, string] => [
			`deviation, ${d.targets.map(targetText).join(", ")}`,
			`${d.whatHappened} (${d.handling})`,
		]),
		...trial.instruments.map((i): [string, string] => [
			`measured with, for ${i.usedFor}`,
			`${i.description} (${i.toleranceSource})`,
		]),
		...trial.assumptions.map((a): [string, string] => ["assumed", a]),
		...unusualDecisions(trial.settings).map((d): [string, string] => [
			"decided otherwise than usual",
			d,
		]),
		...trial.notRecorded.map((n): [string, string] => [
			"not recorded",
			`${n.what}${n.flasks.length === 0 ? "" : ` (flask ${n.flasks.join(", ")})`}: ${n.limits}`,
		]),
		...trial.columns
			.filter((c) => c.takenFor.startsWith("carried along"))
			.map((c): [string, string] => [
				"carried along",
				`${c.sheet}: "${c.header}"${c.takenFor.slice("carried along".length)}`,
			]),
	];
	return table(`What was read from ${trial.file}`, ["what", "found"], rows);
}
