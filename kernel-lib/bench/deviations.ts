import { quoted } from "../quantity";
import type { Firing } from "./firing";
import type {
	CalibrationStandard,
	InstrumentReadings,
} from "./instrument-readings";
import type { Deviation, DeviationTarget, Mark } from "./mark";
import type {
	Flask,
	Recorded,
	Solution,
	TitrationReading,
	Trial,
} from "./trial";

/** The parts that each kind of thing has. */
export const partsOf = {
	flask: ["titre", "reading"],
	solution: ["titre"],
	standard: ["reading"],
	firing: ["rinse", "weighing"],
} as const satisfies Record<DeviationTarget["is"], readonly string[]>;

/** What was touched, in words: "flask 3, titre 2". */
export function targetText({ is, name, part }: DeviationTarget): string {
	const shown = is === "solution" || is === "firing" ? quoted(name) : name;
	return `${is} ${shown}${part.is === "whole" ? "" : `, ${part.is} ${part.number}`}`;
}

/** True where some deviation leaves the thing out. */
export function isLeftOut({
	marks,
}: {
	readonly marks: readonly Mark[];
}): boolean {
	return marks.some((m) => m.handling === "leave out");
}

/** The things that no deviation leaves out. */
export function inUse<T extends { readonly marks: readonly Mark[] }>(
	things: readonly T[],
): T[] {
	return things.filter((thing) => !isLeftOut(thing));
}

/** The readings of a liquid that no deviation leaves out. */
export function readingsInUse(
	readings: InstrumentReadings,
): InstrumentReadings {
	if (readings.marks.length === 0) return readings;
	const out = new Set(
		readings.marks
			.filter((m) => m.handling === "leave out")
			.map((m) => m.number),
	);
	return {
		...readings,
		values: readings.values.filter((_, i) => !out.has(i + 1)),
		marks: [],
	};
}

/** The flask with the titres and readings that no deviation leaves out; a flask that has none left keeps them all, and is not usable. */
export function asUsed(flask: Flask): Flask {
	const titrations = inUse(flask.titrations);
	if (!flask.readings.recorded)
		return titrations.length === 0 ? flask : { ...flask, titrations };
	const readings = readingsInUse(flask.readings.value);
	return readings.values.length === 0
		? flask
		: { ...flask, readings: { recorded: true, value: readings } };
}

/** True for a flask that no deviation leaves out, neither as a whole nor by leaving out every titre or reading of it. */
export function isUsable(flask: Flask): boolean {
	if (isLeftOut(flask)) return false;
	return flask.readings.recorded
		? readingsInUse(flask.readings.value).values.length > 0
		: flask.titrations.length === 0 || inUse(flask.titrations).length > 0;
}

/** Why a flask does not count, in the words of the deviations; "" for a flask that does. */
export function whyLeftOut(flask: Flask): string {
	if (isUsable(flask)) return "";
	const marks: readonly Mark[] = isLeftOut(flask)
		? flask.marks
		: [
				...flask.titrations.flatMap((t) => t.marks),
				...(flask.readings.recorded ? flask.readings.value.marks : []),
			];
	return [
		...new Set(
			marks
				.filter((m) => m.handling === "leave out")
				.map((m) => m.whatHappened),
		),
	].join("; ");
}

type MarksOf = (
	is: DeviationTarget["is"],
	name: string,
	part: DeviationTarget["part"]["is"],
	number?: number,
) => readonly Mark[];

function markFinder(deviations: readonly Deviation[]): MarksOf {
	const marks = new Map<string, Mark[]>();
	const key = (
		is: string,
		name: string,
		part: string,
		number: number,
	): string => JSON.stringify([is, name, part, number]);
	for (const { targets, whatHappened, handling } of deviations)
		for (const { is, name, part } of targets) {
			const k = key(is, name, part.is, part.is === "whole" ? 0 : part.number);
			marks.set(k, [...(marks.get(k) ?? []), { whatHappened, handling }]);
		}
	return (is, name, part, number = 0) =>
		marks.get(key(is, name, part, number)) ?? [];
}

function markedTitrations(
	titrations: readonly TitrationReading[],
	marks: (number: number) => readonly Mark[],
): TitrationReading[] {
	return titrations.map((t) => ({ ...t, marks: marks(t.number) }));
}

function markedReadings(
	readings: InstrumentReadings,
	marks: (number: number) => readonly Mark[],
): InstrumentReadings {
	return {
		...readings,
		marks: readings.values.flatMap((_, i) =>
			marks(i + 1).map((m) => ({ ...m, number: i + 1 })),
		),
	};
}

function markedFlask(flask: Flask, marksOf: MarksOf): Flask {
	const { name } = flask;
	const readings: Recorded<InstrumentReadings> = flask.readings.recorded
		? {
				recorded: true,
				value: markedReadings(flask.readings.value, (n) =>
					marksOf("flask", name, "reading", n),
				),
			}
		: flask.readings;
	return {
		...flask,
		marks: marksOf("flask", name, "whole"),
		titrations: markedTitrations(flask.titrations, (n) =>
			marksOf("flask", name, "titre", n),
		),
		readings,
	};
}

function markedSolution(solution: Solution, marksOf: MarksOf): Solution {
	const { basis, name } = solution;
	return {
		...solution,
		marks: marksOf("solution", name, "whole"),
		basis:
			basis.is === "standardised"
				? {
						...basis,
						titrations: markedTitrations(basis.titrations, (n) =>
							marksOf("solution", name, "titre", n),
						),
					}
				: basis,
	};
}

function markedStandard(
	standard: CalibrationStandard,
	marksOf: MarksOf,
): CalibrationStandard {
	return {
		...standard,
		marks: marksOf("standard", standard.standard, "whole"),
		readings: markedReadings(standard.readings, (n) =>
			marksOf("standard", standard.standard, "reading", n),
		),
	};
}

function markedFiring(firing: Firing, marksOf: MarksOf): Firing {
	const { name } = firing;
	return {
		...firing,
		marks: marksOf("firing", name, "whole"),
		rinses: firing.rinses.map((r) => ({
			...r,
			marks: marksOf("firing", name, "rinse", r.number),
		})),
		drying: firing.drying.map((w) => ({
			...w,
			marks: marksOf("firing", name, "weighing", w.number),
		})),
	};
}

/** What the deviations touch. */
type Markable = Pick<
	Trial,
	"flasks" | "solutions" | "standards" | "firings" | "deviations"
>;

/** The deviations as far as they touch what a trial has: without those of flasks that play no part in it. */
export function deviationsOn(
	flasks: readonly Flask[],
	deviations: readonly Deviation[],
): Deviation[] {
	const names = new Set(flasks.map((f) => f.name));
	return deviations
		.map((d) => ({
			...d,
			targets: d.targets.filter(
				({ is, name }) => is !== "flask" || names.has(name),
			),
		}))
		.filter((d) => d.targets.length > 0);
}

/** The same with every deviation as a mark on what it touched; earlier marks are replaced. */
export function withMarks<T extends Markable>(trial: T): T {
	const marksOf = markFinder(trial.deviations);
	return {
		...trial,
		flasks: trial.flasks.map((f) => markedFlask(f, marksOf)),
		solutions: trial.solutions.map((s) => markedSolution(s, marksOf)),
		standards: trial.standards.map((s) => markedStandard(s, marksOf)),
		firings: trial.firings.map((f) => markedFiring(f, marksOf)),
	};
}

/** Whether the thing that a deviation names has the part that it names. */
export function hasPart(
	target: DeviationTarget,
	trial: Omit<Markable, "deviations">,
): boolean {
	const { is, name, part } = target;
	if (part.is === "whole") return true;
	const titrated = (titrations: readonly TitrationReading[]): boolean =>
		titrations.some((t) => t.number === part.number);
	switch (is) {
		case "flask":
			return trial.flasks
				.filter((f) => f.name === name)
				.some((f) =>
					part.is === "titre"
						? titrated(f.titrations)
						: f.readings.recorded &&
							f.readings.value.values.length >= part.number,
				);
		case "solution":
			return trial.solutions
				.filter((s) => s.name === name)
				.some(
					({ basis }) =>
						basis.is === "standardised" && titrated(basis.titrations),
				);
		case "standard":
			return trial.standards
				.filter((s) => s.standard === name)
				.some((s) => s.readings.values.length >= part.number);
		case "firing":
			return trial.firings
				.filter((f) => f.name === name)
				.some((f) =>
					(part.is === "rinse" ? f.rinses : f.drying).some(
						(p) => p.number === part.number,
					),
				);
	}
}
