import { type Problem, type ProblemPlace, problem, quoted } from "../quantity";
import type { FlaskUptake } from "../uptake";
import { tooManyComparisons } from "./most-comparisons";

/** A treatment and the control that the sheet names for it; "" where it names none. */
export interface Pair {
	readonly treatment: string;
	readonly control: string;
}

export interface Pairs {
	/** Every treatment of the sheet, in the order of its first flask. */
	readonly treatments: readonly string[];
	/** Those that are compared (or should have been: control ""). A treatment that others name as their control and that names none itself is not among them. */
	readonly pairs: readonly Pair[];
	readonly problems: readonly Problem[];
}

function distinct(texts: readonly string[]): string[] {
	return [...new Set(texts)];
}

function repeatedFlasks(uptakes: readonly FlaskUptake[]): Problem[] {
	const names = uptakes.map((u) => u.flask.name);
	return distinct(names.filter((name, i) => names.indexOf(name) !== i)).map(
		(name) =>
			problem(
				"flask-name-twice",
				uptakes[names.lastIndexOf(name)].flask.place,
				`the flask "${name}" more than once`,
				"one row for each flask",
				"Give every flask a name of its own.",
			),
	);
}

function missingTreatments(uptakes: readonly FlaskUptake[]): Problem[] {
	return uptakes
		.filter((u) => u.flask.treatment === "")
		.map(({ flask }) =>
			problem(
				"treatment-missing",
				{ ...flask.place, column: "treatment" },
				`no treatment for flask "${flask.name}"`,
				"the name of a treatment",
				"Write what was done to the char of this flask, or the name of the control.",
			),
		);
}

/** A treatment with the controls that its flasks name. */
interface Declared {
	readonly treatment: string;
	readonly controls: readonly string[];
	readonly where: Partial<ProblemPlace>;
}

function declaredOf(
	uptakes: readonly FlaskUptake[],
	treatment: string,
): Declared {
	const own = uptakes.filter((u) => u.flask.treatment === treatment);
	return {
		treatment,
		controls: distinct(own.map((u) => u.flask.control)).filter((c) => c !== ""),
		where: { ...own[0].flask.place, column: "control" },
	};
}

/** What keeps one of the named controls from being a control. */
function controlProblems(
	{ treatment, where }: Declared,
	control: string,
	treatments: readonly string[],
): Problem[] {
	if (control === treatment)
		return [
			problem(
				"own-control",
				where,
				`the treatment ${quoted(treatment)} as its own control`,
				"another treatment, or an empty cell for a control",
				"Leave the cell empty in the rows of the control.",
			),
		];
	return treatments.includes(control)
		? []
		: [
				problem(
					"control-not-there",
					where,
					`the control ${quoted(control)} for the treatment ${quoted(treatment)}`,
					treatments.length > 1
						? `one of the other treatments with char: ${treatments
								.filter((t) => t !== treatment)
								.map(quoted)
								.join(", ")}`
						: "another treatment with char, and there is none",
					"Mend the spelling, or add the flasks of the control; where flasks were selected, select those of the control too.",
				),
			];
}

function declarationProblems(
	declared: Declared,
	treatments: readonly string[],
): Problem[] {
	const { treatment, controls, where } = declared;
	return [
		...(controls.length > 1
			? [
					problem(
						"several-controls",
						where,
						`${controls.length} controls (${controls.map(quoted).join(", ")}) for the treatment ${quoted(treatment)}`,
						"one control for each treatment",
						"Keep the control that was handled like the treatment in everything but the treatment.",
					),
				]
			: []),
		...controls.flatMap((control) =>
			controlProblems(declared, control, treatments),
		),
	];
}

/** Who is compared with whom. A control may have a control of its own, if the sheet declares it. */
export function pairsOf(uptakes: readonly FlaskUptake[]): Pairs {
	const treatments = distinct(uptakes.map((u) => u.flask.treatment)).filter(
		(t) => t !== "",
	);
	const declared = treatments.map((t) => declaredOf(uptakes, t));
	const pairs = declared.map(
		({ treatment, controls: [control = ""] }): Pair => ({ treatment, control }),
	);
	const controls = new Set(pairs.map((p) => p.control));
	const compared = pairs.filter(
		(p) => p.control !== "" || !controls.has(p.treatment),
	);
	return {
		treatments,
		pairs: compared,
		problems: [
			...tooManyComparisons(compared.length),
			...repeatedFlasks(uptakes),
			...missingTreatments(uptakes),
			...declared.flatMap((d) => declarationProblems(d, treatments)),
		],
	};
}
