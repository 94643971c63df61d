/** The one error model: what was found, where, what was expected, how to mend it. Under all other rooms. */

export {
	doorFor,
	foundName,
	foundText,
	type ResultKind,
	requireList,
	requireNumbers,
	requireResult,
	requireResults,
	requireText,
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
