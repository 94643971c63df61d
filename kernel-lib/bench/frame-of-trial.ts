/** Which trial a data frame was made of: a mark on the frame itself, no column, so that it is in nobody's way. */
import type { DataFrame } from "./data-frame";
import type { Trial } from "./trial";

const mark = Symbol("files that the frame was made of");

function filesOf(trial: Trial): string {
	return trial.files.map((f) => f.hash).join(" ");
}

function setMark(frame: object, files: unknown): void {
	Object.defineProperty(frame, mark, { value: files, enumerable: false });
}

export function ofTrial(trial: Trial, frame: DataFrame): DataFrame {
	setMark(frame, filesOf(trial));
	return frame;
}

/** True for a frame that carries the mark of another trial. One without a mark (joined, or typed in) says nothing of where it is from. */
export function isOfAnother(trial: Trial, frame: DataFrame): boolean {
	const files = (frame as { readonly [mark]?: string })[mark];
	return files !== undefined && files !== filesOf(trial);
}

/** A frame of the package, of its outer or its inner class: filters give the one, most other methods the other. */
function isFrame(value: unknown): value is object {
	return typeof value === "object" && value !== null && "$columns" in value;
}

/** Teaches the package's frames that what a method makes of a marked frame (filtered, sorted, first rows) carries its mark too. */
export function keepMarks(made: new (...args: never[]) => object): void {
	if (mark in made.prototype) return;
	setMark(made.prototype, undefined);
	for (
		let owner = made.prototype;
		owner !== Object.prototype;
		owner = Object.getPrototypeOf(owner)
	)
		for (const [name, { value }] of Object.entries(
			Object.getOwnPropertyDescriptors(owner as Record<string, unknown>),
		)) {
			if (name === "constructor" || typeof value !== "function") continue;
			Object.defineProperty(owner, name, {
				configurable: true,
				writable: true,
				enumerable: false,
				value(this: object, ...args: unknown[]): unknown {
					const result: unknown = value.apply(this, args);
					if (isFrame(result) && !Object.hasOwn(result, mark))
						setMark(result, (this as Record<symbol, unknown>)[mark]);
					return result;
				},
			});
		}
}
