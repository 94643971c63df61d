/** How the cells of a column stand: numbers to the right with their decimal marks below each other, words to the left. */

/** Room after a cell's text, so that decimal marks line up: so many digits, and so many em of other signs. */
export interface Room {
	readonly digits: number;
	readonly em: number;
}

export type ColumnLook =
	| { readonly side: "left" }
	| { readonly side: "right"; readonly rooms: readonly Room[] };

const words = "(?:at least |at most |about |below |more than |≥ ?|≤ ?)?";
const number = "[+−]?\\d+(?:\\.\\d+)?(?: × 10[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)?";
const unit = "(?: ?[%°A-Za-zµ/·²³]{1,8})?";

/** A number alone or with its unit, an interval, or a number with one in brackets. */
const numberLike = new RegExp(
	`^${words}${number}${unit}(?: to ${number}${unit})?(?: \\([^()]*\\))?$`,
);

/** What can follow the digits before the decimal mark where marks are lined up. */
const alignable = new RegExp(
	`^${words}[+−]?\\d+((?:\\.\\d+)?(?: \\(u [\\d.]+\\))?)$`,
);

/** A longer text is a sentence: it keeps its column to the left. */
const shortText = 24;

/** Widths of signs in em, about alike in the typefaces that screens use. */
const widths: Readonly<Record<string, number>> = {
	".": 0.28,
	" ": 0.28,
	"(": 0.33,
	")": 0.33,
	u: 0.56,
};

function roomOf(tail: string): Room {
	const signs = [...tail];
	return {
		digits: signs.filter((s) => /\d/.test(s)).length,
		em: signs.reduce((sum, s) => sum + (widths[s] ?? 0), 0),
	};
}

function tailOf(text: string): string | null {
	return alignable.exec(text)?.[1] ?? null;
}

/** Room that brings every cell's decimal mark below the others'. */
function roomsOf(texts: readonly string[]): Room[] {
	const tails = texts.map((text) => {
		const tail = tailOf(text);
		return tail === null ? null : roomOf(tail);
	});
	const digits = Math.max(0, ...tails.map((t) => t?.digits ?? 0));
	const em = Math.max(0, ...tails.map((t) => t?.em ?? 0));
	return tails.map((t) =>
		t === null
			? { digits: 0, em: 0 }
			: { digits: digits - t.digits, em: Number((em - t.em).toFixed(2)) },
	);
}

/** A column of numbers is one in which most cells that say anything are numbers, and none is a sentence. */
export function columnLook(texts: readonly string[]): ColumnLook {
	const said = texts.filter((text) => text !== "");
	const numbers = said.filter((text) => numberLike.test(text));
	return numbers.length * 2 > said.length &&
		said.every((text) => text.length <= shortText || numberLike.test(text))
		? { side: "right", rooms: roomsOf(texts) }
		: { side: "left" };
}

/** The looks of all columns. The first names the row where it holds words, whatever they look like. */
export function columnLooks({
	columns,
	rows,
}: {
	readonly columns: readonly string[];
	readonly rows: readonly (readonly {
		readonly is: string;
		readonly text: string;
	}[])[];
}): ColumnLook[] {
	return columns.map((_, i) =>
		i === 0 && rows.some((row) => row[0].is === "text")
			? { side: "left" }
			: columnLook(rows.map((row) => row[i].text)),
	);
}

/** The room as CSS, added to what every cell has; "" for none. */
export function roomStyle(
	look: ColumnLook,
	row: number,
	usual: string,
): string {
	const { digits, em } =
		look.side === "right" ? look.rooms[row] : { digits: 0, em: 0 };
	return digits === 0 && em === 0
		? ""
		: `padding-right:calc(${usual} + ${digits}ch + ${em}em)`;
}
