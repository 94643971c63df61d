import { requireTrial, type Trial } from "../bench";
import {
	listOption,
	problem,
	requireOptions,
	throwProblems,
	wordOption,
} from "../quantity";
import { emit } from "./display";
import { checkNeed, limitsOf, type NotebookNeed, notebookNeeds } from "./needs";
import { lacksText, needsSentence, sheetSentence } from "./needs-sentences";

export type { NotebookNeed } from "./needs";

/** What a notebook asks of a sheet. */
export interface NotebookNeeds {
	/** What it cannot do without. */
	readonly needs?: readonly NotebookNeed[];
	/** What it uses where the sheet has it. */
	readonly uses?: readonly NotebookNeed[];
}

const need = listOption(wordOption(...notebookNeeds));

/**
 * Says at the top of a notebook what it needs and what this sheet lacks. Where something lacks that it cannot do without, the notebook stops here, with a sentence that says what.
 *
 * @param trial what `bench.readTrial` returned
 * @param what `needs`: what the notebook cannot do without; `uses`: what it uses where the sheet has it. Each a list of "flasks", "a control", "iodine blanks", "titrations", "readings", "a calibration line",
 * "several doses", "a standardisation", "firings", "deviations"
 * @throws ProblemError for a sheet that lacks what is needed or holds too much of it (more than 500 treatments to compare), and for words that are none of these
 * @example
 * notebook.requires(trial, { needs: ["flasks", "a control"], uses: ["firings"] })
 */
export function requires(trial: Trial, what: NotebookNeeds): void {
	requireTrial(trial);
	requireOptions(what, { needs: need, uses: need }, "requires");
	const { needs = [], uses = [] } = what;
	const probe = trial.probe.name;
	const sentence = needsSentence(needs, uses, probe);
	const lacks = lacksText(
		needs.map((n) => checkNeed(trial, n)),
		probe,
	);
	throwProblems([
		...needs.flatMap((n) => limitsOf(trial, n)),
		...(lacks === ""
			? []
			: [
					problem(
						"sheet-lacks",
						{ file: trial.file },
						`a sheet with ${lacks}`,
						`what the notebook cannot do without. ${sentence.replace(/\.$/, "")}`,
						"Take another notebook for this sheet, or add to the sheet what it lacks.",
					),
				]),
	]);
	const said = `${sentence} ${sheetSentence(
		trial.file,
		uses.map((n) => checkNeed(trial, n)),
		probe,
	)}`;
	emit({ "text/markdown": said, "text/plain": said });
}
