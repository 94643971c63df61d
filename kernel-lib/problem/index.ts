/** The one error model: what was found, where, what was expected, how to mend it. Under all other rooms. */

export {
	doorFor,
	foundText,
	type ResultKind,
	requireResult,
	requireResults,
} from "./parts";
export {
	type Checked,
	nowhere,
	type Problem,
	ProblemError,
	type ProblemPlace,
	problem,
	problemText,
	refuse,
	throwProblems,
	valueOrThrow,
} from "./problem";
