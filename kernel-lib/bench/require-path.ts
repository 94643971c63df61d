import { foundText, refuse } from "../quantity";

/**
 * The door of what reads a file: a number would be taken for a file that the system has open already.
 * @throws ProblemError for anything but a text
 */
export function requirePath(given: unknown): void {
	if (typeof given === "string") return;
	refuse(
		"no-path",
		"",
		foundText(given),
		'the path of a file in quotes, such as "hazelnut.csv"',
		"Write where the sheet lies, seen from the folder of the notebook.",
	);
}
