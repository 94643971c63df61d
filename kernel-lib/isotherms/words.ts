import { listed, significant } from "../quantity";
/** A number in as many digits as its use deserves; never an exponent for what a bench deals in. */
export function roughly(value: number): string {
	return significant(value, 2);
}

export function inDigits(value: number, digits: number): string {
	return significant(value, digits);
}

export function percent(share: number): string {
	return `${roughly(100 * share)} %`;
}

export function flasks(names: readonly string[]): string {
	return `${names.length === 1 ? "flask" : "flasks"} ${listed(names)}`;
}

/** Beyond this an evidence ratio says "much more" and no number: it is an exponential of what the model of the errors is good for. Our decision. */
const largestRatio = 1000;

/** "450 to 1" */
export function evidenceText(ratio: number): string {
	return ratio > largestRatio
		? `more than ${largestRatio} to 1`
		: `${inDigits(ratio, 2)} to 1`;
}
