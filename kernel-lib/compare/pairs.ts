import { type Problem, problem } from "../quantity";
import type { FlaskUptake } from "../uptake";

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

function quoted(texts: readonly string[]): string {
	return texts.map((t) => `"${t}"`).join(", ");
}

/** Who is compared with whom. A control may have a control of its own, if the sheet declares it. */
export function pairsOf(uptakes: readonly FlaskUptake[]): Pairs {
	const problems: Problem[] = [];
	const names = uptakes.map((u) => u.flask.name);
	for (const name of distinct(
		names.filter((name, i) => names.indexOf(name) !== i),
	))
		problems.push(
			problem(
				"flask-name-twice",
				uptakes[names.lastIndexOf(name)].flask.place,
				`the flask "${name}" more than once`,
				"one row for each flask",
				"Give every flask a name of its own.",
			),
		);
	for (const u of uptakes)
		if (u.flask.treatment === "")
			problems.push(
				problem(
					"treatment-missing",
					{ ...u.flask.place, column: "treatment" },
					`no treatment for flask "${u.flask.name}"`,
					"the name of a treatment",
					"Write what was done to the char of this flask, or the name of the control.",
				),
			);

	const treatments = distinct(uptakes.map((u) => u.flask.treatment)).filter(
		(t) => t !== "",
	);
	const declared = new Map<string, string>();
	for (const treatment of treatments) {
		const own = uptakes.filter((u) => u.flask.treatment === treatment);
		const controls = distinct(own.map((u) => u.flask.control)).filter(
			(c) => c !== "",
		);
		const where = { ...own[0].flask.place, column: "control" };
		if (controls.length > 1)
			problems.push(
				problem(
					"several-controls",
					where,
					`${controls.length} controls (${quoted(controls)}) for the treatment "${treatment}"`,
					"one control for each treatment",
					"Keep the control that was handled like the treatment in everything but the treatment.",
				),
			);
		for (const control of controls) {
			if (control === treatment)
				problems.push(
					problem(
						"own-control",
						where,
						`the treatment "${treatment}" as its own control`,
						"another treatment, or an empty cell for a control",
						"Leave the cell empty in the rows of the control.",
					),
				);
			else if (!treatments.includes(control))
				problems.push(
					problem(
						"control-not-there",
						where,
						`the control "${control}" for the treatment "${treatment}"`,
						treatments.length > 1
							? `one of the other treatments with char: ${quoted(treatments.filter((t) => t !== treatment))}`
							: "another treatment with char, and there is none",
						"Mend the spelling, or add the flasks of the control; where flasks were selected, select those of the control too.",
					),
				);
		}
		declared.set(treatment, controls[0] ?? "");
	}
	const controls = new Set(declared.values());
	return {
		treatments,
		pairs: treatments
			.map((treatment) => ({
				treatment,
				control: declared.get(treatment) ?? "",
			}))
			.filter((p) => p.control !== "" || !controls.has(p.treatment)),
		problems,
	};
}
