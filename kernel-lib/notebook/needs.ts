/** What a notebook can need of a trial, each a plain check. */
import { type Flask, isUsable, type Trial } from "../bench";
import { severalDoses, tooManyComparisons } from "../compare";
import type { Problem } from "../quantity";

export type NotebookNeed =
	| "flasks"
	| "a control"
	| "iodine blanks"
	| "titrations"
	| "readings"
	| "a calibration line"
	| "several doses"
	| "a standardisation"
	| "firings"
	| "deviations";

/** Is it in the sheet? If not, `because` says what is missing where that is not plain from the need itself; "" otherwise. */
export type NeedCheck =
	| { readonly need: NotebookNeed; readonly is: "there" }
	| {
			readonly need: NotebookNeed;
			readonly is: "lacking";
			readonly because: string;
	  };

type Check = (trial: Trial) => {
	readonly holds: boolean;
	readonly because?: string;
};

function charFlasks(trial: Trial): readonly Flask[] {
	return trial.flasks.filter((f) => f.contents === "char" && isUsable(f));
}

/** Flasks of one treatment at clearly different residues, as an isotherm takes them. */
function dosesOf(trial: Trial): ReturnType<Check> {
	if (charFlasks(trial).length === 0) return { holds: false };
	const { treatments } = severalDoses(trial);
	return {
		holds: treatments.some((t) => t.enough),
		// Of many treatments, the table of the comparison tells more than a sentence can.
		because: treatments.length === 1 ? treatments[0].because : "",
	};
}

const checks: Readonly<Record<NotebookNeed, Check>> = {
	flasks: (trial) => ({ holds: charFlasks(trial).length > 0 }),
	"a control": (trial) => ({
		holds: charFlasks(trial).some((f) => f.control !== ""),
	}),
	"iodine blanks": (trial) => ({
		holds: trial.flasks.some(
			(f) => f.contents === "iodine blank" && isUsable(f),
		),
	}),
	titrations: (trial) => ({
		holds: charFlasks(trial).some((f) => f.titrations.length > 0),
	}),
	readings: (trial) => ({
		holds: charFlasks(trial).some((f) => f.readings.recorded),
	}),
	"a calibration line": (trial) => ({ holds: trial.standards.length > 0 }),
	"several doses": dosesOf,
	"a standardisation": (trial) => ({
		holds: trial.solutions.some((s) => s.basis.is === "standardised"),
	}),
	firings: (trial) => ({ holds: trial.firings.length > 0 }),
	deviations: (trial) => ({ holds: trial.deviations.length > 0 }),
};

/** What a sheet holds too much of for a notebook that needs this, so that it is told before anything is computed. */
export function limitsOf(trial: Trial, need: NotebookNeed): Problem[] {
	if (need !== "a control") return [];
	const compared = charFlasks(trial).flatMap((f) =>
		f.control === "" ? [] : [f.treatment],
	);
	return tooManyComparisons(new Set(compared).size, trial.file);
}

export const notebookNeeds = Object.keys(checks) as readonly NotebookNeed[];

export function checkNeed(trial: Trial, need: NotebookNeed): NeedCheck {
	const { holds, because = "" } = checks[need](trial);
	return holds ? { need, is: "there" } : { need, is: "lacking", because };
}
