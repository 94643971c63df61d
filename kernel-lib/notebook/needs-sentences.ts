/** The sentences about what a notebook needs of a sheet and what the sheet lacks. */
import { listed } from "../quantity";
import type { NeedCheck, NotebookNeed } from "./needs";

/** Each need in words, as it follows "needs" and "no": "flasks with char". */
const words: Readonly<
	Record<
		Exclude<NotebookNeed, "iodine blanks">,
		{ readonly some: string; readonly no: string }
	>
> = {
	flasks: { some: "flasks with char", no: "no flasks with char" },
	"a control": { some: "a control", no: "no treatment with a control" },
	titrations: { some: "titrations", no: "no titrations" },
	readings: {
		some: "readings of an instrument",
		no: "no readings of an instrument",
	},
	"a calibration line": {
		some: "a calibration line",
		no: "no standards for a calibration line",
	},
	"several doses": {
		some: "a treatment at several doses",
		no: "no treatment at several doses",
	},
	"a standardisation": {
		some: "a standardised solution",
		no: "no standardised solution",
	},
	firings: { some: "firings", no: "no firings" },
	deviations: { some: "deviations", no: "no deviations" },
};

/** A blank without char is called by the probe that was dosed into it: an iodine blank, or one of a dye. */
function wordsOf(
	need: NotebookNeed,
	probe: string,
): { readonly some: string; readonly no: string } {
	if (need !== "iodine blanks") return words[need];
	const some = probe === "" ? "blanks without char" : `${probe} blanks`;
	return { some, no: `no ${some}` };
}

/** "This notebook needs flasks with char and a control, and uses firings where there are any." */
export function needsSentence(
	needs: readonly NotebookNeed[],
	uses: readonly NotebookNeed[],
	probe: string,
): string {
	const list = (names: readonly NotebookNeed[]): string =>
		listed(names.map((n) => wordsOf(n, probe).some));
	const needed = needs.length === 0 ? "" : `needs ${list(needs)}`;
	const used =
		uses.length === 0 ? "" : `uses ${list(uses)} where the sheet has them`;
	return `This notebook ${[needed, used].filter((t) => t !== "").join(", and ")}.`;
}

function lackText(check: NeedCheck, probe: string): string {
	if (check.is === "there") return "";
	const { no } = wordsOf(check.need, probe);
	return check.because === ""
		? no
		: `${no} (${check.because.replace(/\.$/, "")})`;
}

/** "no firings and no iodine blanks"; "" where nothing lacks. */
export function lacksText(checks: readonly NeedCheck[], probe: string): string {
	return listed(
		checks.map((check) => lackText(check, probe)).filter((t) => t !== ""),
	);
}

/** What the sheet lacks of what is used: the parts of the notebook that stay empty. */
export function sheetSentence(
	file: string,
	uses: readonly NeedCheck[],
	probe: string,
): string {
	const lacks = lacksText(uses, probe);
	return lacks === ""
		? `The sheet ${file} has all of it.`
		: `The sheet ${file} has ${lacks}: what rests on that is left out.`;
}
