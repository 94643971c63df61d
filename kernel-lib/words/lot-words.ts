import {
	type CharLot,
	commonFeedstock,
	type HighestLots,
	highestLots,
	type LotBasis,
	unlikeFeedstocks,
} from "../compare";
import {
	decimalsFor,
	expandedNumbers,
	expandedUncertainty,
	fixed,
	grouped,
	listed,
	type Quantity,
	quoted,
	type Table,
	table,
} from "../quantity";
import { counted, rangeText } from "./wording";

/** More lots than this are counted and not named. Our decision. */
export const mostNamedLots = 3;

/** To one digit of half of its interval: "499 mg/g". */
function roundly(q: Quantity<"uptake">): string {
	const mean = q.to("mg/g");
	const { halfWidth } = expandedUncertainty(mean);
	return `${fixed(mean.value, Math.max(0, decimalsFor(halfWidth) - 1))} mg/g`;
}

function named(lot: CharLot, basis: LotBasis): string {
	const found = basis === "char" ? lot.perChar : lot.perFeedstock;
	return found.is === "value"
		? `${quoted(lot.name)}, ${roundly(found.quantity)}`
		: quoted(lot.name);
}

const names = (lots: readonly CharLot[]): string =>
	lots.length > mostNamedLots
		? counted(lots.length, "lot")
		: listed(lots.map((lot) => quoted(lot.name)));

function asideText(notRanked: HighestLots["notRanked"]): string {
	const [only] = notRanked;
	if (only === undefined) return "";
	return ` (not ranked: ${names(notRanked.map((r) => r.lot))}${notRanked.length === 1 ? `, because ${only.because}` : ""})`;
}

/** Who leads, alone or with those that cannot be told apart. */
function leadersText(
	{ leaders, behind, notRanked }: HighestLots,
	basis: LotBasis,
): string {
	if (leaders.length === 0) return "no lot has a place";
	const [first, ...alike] = leaders;
	const aside = asideText(notRanked);
	if (leaders.length === 1)
		return `${behind.length === 0 ? "only " : ""}${named(first, basis)}${aside}`;
	return alike.length < mostNamedLots
		? `${listed(leaders.map((lot) => named(lot, basis)))}, which cannot be told apart${aside}`
		: `${named(first, basis)}, which cannot be told apart from ${alike.length} other lots${aside}`;
}

/** What a gram of char is per gram of, in words. */
const charOf = (lots: readonly CharLot[]): string =>
	lots.some((lot) => lot.perGram === "dry char")
		? "gram of char"
		: "gram of char as weighed";

/** The sentence at the head: the highest lot per gram of char, and the highest per gram of feedstock. */
export function lotFinding(lots: readonly CharLot[], probe: string): string {
	const unlike = unlikeFeedstocks(lots);
	const perFeedstock =
		unlike === ""
			? `per gram of ${commonFeedstock(lots)}: ${leadersText(highestLots(lots, "feedstock"), "feedstock")}`
			: `per gram of feedstock nothing is ranked, because ${unlike}`;
	return `Highest uptake of ${probe} per ${charOf(lots)}: ${leadersText(highestLots(lots, "char"), "char")}; ${perFeedstock}.`;
}

/** What the lots can stand for. */
export function lotLimits(lots: readonly CharLot[]): string[] {
	const treatments = grouped(lots, (lot) => lot.flasks[0].flask.treatment);
	const repeated = [...treatments.values()].some((own) => own.length > 1);
	return [
		repeated
			? "Each lot of char is ranked by itself, firings of one treatment too: whether the treatments differ is for compare-treatments."
			: "Each treatment was fired once, so this ranks these lots of char: another firing under the same programme may differ by more than they do.",
		"In brackets: 95 % intervals of measuring. Each uptake stands at the residue of its own flasks; lots are told apart only where that cannot be the reason.",
	];
}

/** Why lots have no place, a sentence a reason; what stands against all of them is in the finding. */
export function notRankedSentences(lots: readonly CharLot[]): string[] {
	const bases = [
		["char", "per gram of char"],
		["feedstock", "per gram of feedstock"],
	] as const;
	return bases.flatMap(([basis, words]) =>
		basis === "feedstock" && unlikeFeedstocks(lots) !== ""
			? []
			: [...grouped(highestLots(lots, basis).notRanked, (r) => r.because)].map(
					([because, own]) =>
						`Not ranked ${words}, because ${because}: ${listed(own.map((r) => quoted(r.lot.name)))}.`,
				),
	);
}

function cellOf(found: CharLot["perChar"]): string {
	return found.is === "value"
		? expandedNumbers(found.quantity.to("mg/g"))
		: "not ranked";
}

function residueText({ residues: [low, high] }: CharLot): string {
	return rangeText(low, high);
}

function remarkOf(
	lot: CharLot,
	perChar: HighestLots,
	perFeedstock: HighestLots,
): string {
	const leads = ({ leaders }: HighestLots): boolean => leaders.includes(lot);
	return [
		leads(perChar) ? "highest per gram of char" : "",
		leads(perFeedstock) ? "highest per gram of feedstock" : "",
		lot.unbalanced.length > 0 ? "weighings do not balance" : "",
	]
		.filter((text) => text !== "")
		.join("; ");
}

/** A row a lot, the highest per gram of char first. */
export function lotTable(lots: readonly CharLot[]): Table {
	const perChar = highestLots(lots, "char");
	const perFeedstock = highestLots(lots, "feedstock");
	const order = [
		...perChar.leaders,
		...perChar.behind,
		...perChar.notRanked.map((r) => r.lot),
	];
	const feedstock =
		unlikeFeedstocks(lots) === ""
			? commonFeedstock(lots).replaceAll('"', "")
			: "its feedstock";
	return table(
		"",
		[
			"firing",
			"per gram of char (mg/g)",
			"at a residue of (mg/L)",
			`per gram of ${feedstock} (mg/g)`,
			"",
		],
		order.map((lot) => [
			lot.name,
			cellOf(lot.perChar),
			residueText(lot),
			lot.unbalanced.length > 0 ? "not reliable" : cellOf(lot.perFeedstock),
			remarkOf(lot, perChar, perFeedstock),
		]),
	);
}
