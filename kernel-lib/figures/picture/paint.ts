import { type Theme, themes } from "../look";

/** Which colours a static picture has: those of one theme, or of both, by what the reader's screen prefers (print is always light). */
export type PictureTheme = "auto" | "light" | "dark";

type Colour = keyof Theme;

/** Gives the attributes that colour a mark. */
export interface Paint {
	fill(colour: Colour): string;
	stroke(colour: Colour): string;
	/** Fill and stroke together: an element may have one class attribute only. */
	both(fill: Colour, stroke: Colour): string;
	dash(array: string): string;
	/** The style sheet that the picture needs; "" for one theme alone. */
	readonly style: string;
}

/** Attributes hold the light colours (or those of the one theme), which every viewer understands; a style sheet over them holds the dark ones. */
export function paintOf(theme: PictureTheme): Paint {
	const colours = themes[theme === "dark" ? "dark" : "light"];
	const named = (...classes: string[]): string =>
		theme === "auto"
			? ` class="${classes.map((c) => `charledger-${c}`).join(" ")}"`
			: "";
	const names = Object.keys(themes.dark) as Colour[];
	const rules = names.map(
		(c) =>
			`.charledger-fill-${c}{fill:${themes.dark[c]}}.charledger-stroke-${c}{stroke:${themes.dark[c]}}`,
	);
	return {
		fill: (c) => ` fill="${colours[c]}"${named(`fill-${c}`)}`,
		stroke: (c) => ` stroke="${colours[c]}"${named(`stroke-${c}`)}`,
		both: (f, s) =>
			` fill="${colours[f]}" stroke="${colours[s]}"${named(`fill-${f}`, `stroke-${s}`)}`,
		dash: (array) => (array === "" ? "" : ` stroke-dasharray="${array}"`),
		style:
			theme === "auto"
				? `<style>@media screen and (prefers-color-scheme:dark){${rules.join("")}}</style>`
				: "",
	};
}
