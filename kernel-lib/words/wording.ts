import type { Comparison, TreatmentVerdict } from "../compare";
import {
	listed,
	type MaybeKnown,
	mapKnown,
	plainNumber,
	significant,
} from "../quantity";

/** Small pieces of wording that several sentences use. */

/** A number to two significant digits, for what is only meant roughly. */
export function roughly(x: number): string {
	return plainNumber(Number(x.toPrecision(2)));
}

export function percent(fraction: number): string {
	return `${plainNumber(100 * fraction)} %`;
}

export function flasksNamed(names: readonly string[]): string {
	return `${names.length === 1 ? "flask" : "flasks"} ${listed(names)}`;
}

export function counted(n: number, one: string, many = `${one}s`): string {
	return `${n} ${n === 1 ? one : many}`;
}

export function capital(text: string): string {
	return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Ends a text with a full stop, if it has none. */
export function sentence(text: string): string {
	const trimmed = text.trim();
	return /[.!?]$/.test(trimmed) ? trimmed : `${trimmed}.`;
}

/** The margin of a pair in words: "25 mg/g", or "21.3 mg/g (10 % of the control)". */
export function marginText(
	{ margin: asked }: Comparison,
	{ margin }: TreatmentVerdict,
): MaybeKnown<string> {
	const share =
		asked.is === "percent of the control"
			? ` (${plainNumber(asked.percent)} % of the control)`
			: "";
	return mapKnown(margin, (value) => `${plainNumber(value)} mg/g${share}`);
}

/** What the cell of a table begins with where something must be done: pages show it in red. */
export const attentionMark = "\u26a0";

/** A cell that says what must be done. */
export function attention(text: string): string {
	return `${attentionMark} ${text}`;
}

/** "1080 to 1180", three digits of each; one number where they are alike. */
export function rangeText(low: number, high: number): string {
	const [from, to] = [low, high].map((value) => significant(value, 3));
	return from === to ? from : `${from} to ${to}`;
}
