import type * as properties from "../properties";
import {
	charProperties,
	type GramOfChar,
	type GramPart,
	gramParts,
	gramsOfChar as gramsOf,
	shareText,
} from "../properties";
import { listed, quoted } from "../quantity";
import type { Bar, Figure, Layer } from "./description";
import { figure } from "./figure";
import type { Hatch, Ink } from "./look";
import { countOf, sentence } from "./words";

const looks: Readonly<Record<GramPart, readonly [Ink, Hatch]>> = {
	moisture: ["teal", "level"],
	"total ash": ["rust", "rising"],
	"volatile matter": ["ochre", "falling"],
	"fixed carbon": ["blue", "plain"],
};

/** Thickness of a bar, of its row. */
const thickness = 0.5;

/** What was determined of one char, left to right; a share below nothing, which its error explains, has no length. */
function barsOf(gram: GramOfChar, at: number): Map<GramPart, Bar> {
	const bars = new Map<GramPart, Bar>();
	let from = 0;
	for (const own of gram.shares) {
		const to = from + Math.max(0, own.share.in("%"));
		bars.set(own.part, {
			at,
			from,
			to,
			hover: `${gram.sample}\n${own.part} ${own.share}`,
		});
		from = to;
	}
	return bars;
}

function partLayer(
	part: GramPart,
	all: readonly ReadonlyMap<GramPart, Bar>[],
): Layer[] {
	const bars = all.flatMap((own) => own.get(part) ?? []);
	const [ink, hatch] = looks[part];
	return bars.length === 0
		? []
		: [
				{
					is: "bars",
					name: part,
					ink,
					hatch,
					along: "x",
					width: thickness,
					bars,
				},
			];
}

/** "4.2 % moisture, 3.1 % ash, ...". */
function partsText({ shares }: GramOfChar): string {
	return shares
		.map((own) => `${shareText(own)} ${own.part.replace("total ", "")}`)
		.join(", ");
}

/** At the end of the row: what is asked for first. */
function endText({ shares }: GramOfChar): string {
	const carbon = shares.find((own) => own.part === "fixed carbon");
	return carbon === undefined ? "" : `${shareText(carbon)} fixed carbon`;
}

const missing = ({ shares, basis }: GramOfChar): readonly GramPart[] =>
	gramParts.filter(
		(part) =>
			(basis === "as weighed" || part !== "moisture") &&
			!shares.some((s) => s.part === part),
	);

function notesOf(grams: readonly GramOfChar[]): string[] {
	const lacking = grams.filter((g) => missing(g).length > 0);
	const apart = grams.filter((g) =>
		g.shares.some((s) => s.rests === "on disagreeing ones"),
	);
	return [
		...(apart.length > 0
			? [
					`Not settled, for determinations disagree: ${listed(apart.map((g) => quoted(g.sample)))}.`,
				]
			: []),
		...lacking.map(
			(g) => `Not determined of ${quoted(g.sample)}: ${listed(missing(g))}.`,
		),
	];
}

/**
 * What is in a gram of each char, as a bar from 0 to 100 %: moisture, ash, volatile matter, and fixed carbon as what remains. As weighed where the moisture of every char is known, else of a dry gram. What was not determined is left open, and named.
 * @example
 * const chars = properties.readProperties("data/demo-properties/chars.csv");
 * figures.gramsOfChar(chars).title // => "What is in a gram of char, as weighed"
 */
export function gramsOfChar(sheet: properties.PropertySheet): Figure {
	const grams = gramsOf(charProperties(sheet));
	const all = grams.map(barsOf);
	const basis = grams.some((g) => g.basis === "dry") ? "dry" : "as weighed";
	const title = `What is in a gram of char, ${basis}`;
	return figure({
		title,
		alt: `${title}, ${countOf(grams.length, "char")}. ${grams.map((g) => `${sentence(quoted(g.sample))}: ${g.shares.length === 0 ? "nothing of it determined" : partsText(g)}`).join("; ")}.`,
		x: {
			label: "Share of the gram",
			unit: "%",
			scale: { is: "linear", zero: true },
		},
		y: {
			label: "",
			unit: "",
			scale: {
				is: "categories",
				names: grams.map((g) => g.sample),
				ends: grams.map(endText),
			},
		},
		layers: gramParts.flatMap((part) => partLayer(part, all)),
		notes: notesOf(grams),
	});
}
