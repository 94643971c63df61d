import { decimalsFor, fixed, significant } from "../quantity";

const smallNumbers = [
	"no",
	"one",
	"two",
	"three",
	"four",
	"five",
	"six",
	"seven",
	"eight",
	"nine",
	"ten",
	"eleven",
	"twelve",
];

/** "six treatments", "24 flasks", "one flask", "no flasks". */
export function countOf(
	count: number,
	one: string,
	several = `${one}s`,
): string {
	const word = count < smallNumbers.length ? smallNumbers[count] : count;
	return `${word} ${count === 1 ? one : several}`;
}

export function sentence(text: string): string {
	return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A number rounded to the place that an uncertainty (here: half an interval's width) shows with two digits; four significant digits where there is none. */
export function roundedTo(value: number, uncertainty: number): string {
	if (!(uncertainty > 0)) return significant(value, 4);
	return fixed(value, decimalsFor(uncertainty));
}

/** The middle and ends of an interval, all to one place. */
export function roundedInterval(
	value: number,
	low: number,
	high: number,
): { readonly value: string; readonly low: string; readonly high: string } {
	const half = (high - low) / 2;
	return {
		value: roundedTo(value, half),
		low: roundedTo(low, half),
		high: roundedTo(high, half),
	};
}

/** With a plus sign in front of positive numbers, for differences. */
export function signed(text: string): string {
	return /^[−0]/.test(text) && !/^0\.\d*[1-9]/.test(text) ? text : `+${text}`;
}
