import {
	expandedUncertainty,
	minus,
	type Quantity,
	readingUncertainty,
	scaled,
} from "../../quantity";
import { studentTQuantile } from "../../stats";
import { slopeRange } from "../slope-range";
import type { CharLot } from "./char-lots";

/** Per gram of what lots are set beside one another. */
export type LotBasis = "char" | "feedstock";

/** Which lots take up most. */
export interface HighestLots {
	/** The one with the highest mean first, then those that cannot be told apart from it. */
	readonly leaders: readonly CharLot[];
	/** Told apart from the first, the highest first. */
	readonly behind: readonly CharLot[];
	/** Without a place, and why. */
	readonly notRanked: readonly {
		readonly lot: CharLot;
		readonly because: string;
	}[];
}

type Mean = Quantity<"uptake">;

const uptakeOf = (lot: CharLot, basis: LotBasis): CharLot["perChar"] =>
	basis === "char" ? lot.perChar : lot.perFeedstock;

/** Confidence of the interval that tells two lots apart. With the highest of many against the second it keeps its level, since the gap between the two highest of equals is smaller than that of any two. Our decision. */
const confidence = 0.95;

/** How flasks of one lot scatter, relative to their mean, over all lots; nothing where no lot has two flasks. */
function pooledScatter(lots: readonly CharLot[]): {
	readonly relative: number;
	readonly degreesOfFreedom: number;
} {
	let squares = 0;
	let degreesOfFreedom = 0;
	for (const { perChar, flasks } of lots) {
		const mean = perChar.is === "value" ? perChar.quantity.in("mg/g") : 0;
		if (!(mean > 0)) continue;
		for (const { uptake } of flasks)
			squares += (uptake.quantity.in("mg/g") / mean - 1) ** 2;
		degreesOfFreedom += flasks.length - 1;
	}
	return {
		relative: degreesOfFreedom > 0 ? Math.sqrt(squares / degreesOfFreedom) : 0,
		degreesOfFreedom,
	};
}

/** How much of an uptake may come from what is left of the soak ("more"), or be hidden by it ("less"), mg/g of char. */
function soakRoom({ flasks }: CharLot, side: "more" | "less"): number {
	return Math.max(
		0,
		...flasks.map(({ demand }) => {
			const limit = demand.is === "suspected" ? demand.ceiling[side] : null;
			return limit?.is === "value" ? limit.value : 0;
		}),
	);
}

/** The higher of two lots stands at the higher residue: what is left of its uptake, at least, where the other one stands, along the steepest curve that its kind of solute has. */
function carriedBy(high: CharLot, low: CharLot): number {
	const [at, from] = [low.residues[0], high.residues[1]];
	if (from <= at || !(at > 0)) return from <= at ? 1 : 0;
	const { high: steepest } = slopeRange(
		[...high.flasks, ...low.flasks].map((flask) => ({ flask })),
	);
	return (at / from) ** steepest;
}

/** Half of the interval of a difference: measuring, or the scatter of flasks in place of their reading errors where that is larger. */
function halfWidth(
	difference: Mean,
	scatter: number,
	degreesOfFreedom: number,
): number {
	const reading = readingUncertainty(difference);
	if (scatter <= reading)
		return expandedUncertainty(difference, confidence).halfWidth;
	const u = Math.sqrt(
		difference.standardUncertainty ** 2 - reading ** 2 + scatter ** 2,
	);
	return studentTQuantile((1 + confidence) / 2, degreesOfFreedom) * u;
}

/** Whether the higher of two lots surely lies higher, at one residue, whatever the soaks may have left. */
function isToldApart(
	high: CharLot,
	low: CharLot,
	basis: LotBasis,
	scatter: ReturnType<typeof pooledScatter>,
): boolean {
	const [a, b] = [uptakeOf(high, basis), uptakeOf(low, basis)];
	if (a.is !== "value" || b.is !== "value") return false;
	const factor = carriedBy(high, low);
	const difference = minus(scaled(a.quantity, factor), b.quantity);
	const part = (lot: CharLot, mean: Mean, times: number): number =>
		(times * mean.in("mg/g") * scatter.relative) / Math.sqrt(lot.flasks.length);
	const scattered = Math.hypot(
		part(high, a.quantity, factor),
		part(low, b.quantity, 1),
	);
	// What the soaks may have left is per gram of char; per gram of feedstock it is less in the ratio of the two uptakes.
	const share = (lot: CharLot, mean: Mean): number =>
		lot.perChar.is === "value" && basis === "feedstock"
			? mean.in("mg/g") / lot.perChar.quantity.in("mg/g")
			: 1;
	const room =
		factor * soakRoom(high, "more") * share(high, a.quantity) +
		soakRoom(low, "less") * share(low, b.quantity);
	return (
		difference.in("mg/g") -
			halfWidth(difference, scattered, scatter.degreesOfFreedom) -
			room >
		0
	);
}

/** Why a lot has no place beside the others; "" where it has one. */
function whyNotRanked(
	lot: CharLot,
	all: readonly CharLot[],
	basis: LotBasis,
): string {
	const found = uptakeOf(lot, basis);
	if (found.is === "not known") return found.because;
	if (
		lot.perGram === "char as weighed" &&
		all.some((l) => l.perGram === "dry char")
	)
		return "it is per gram of char as weighed, others are per gram of dry char";
	if (
		lot.flasks.some((u) => !u.lossesTakenOff) &&
		all.some((l) => l.flasks.every((u) => u.lossesTakenOff))
	)
		return "losses are not taken off its uptake";
	if (basis === "char") return "";
	if (lot.unbalanced.length > 0) return "its weighings do not balance";
	return !lot.dryFeedstock && all.some((l) => l.dryFeedstock)
		? "the moisture of its precursor is not recorded"
		: "";
}

/** The feedstocks that lots start from, as far as named; "" for one that is not. */
function feedstocksOf(lots: readonly CharLot[]): readonly string[] {
	return [
		...new Map(
			lots.map(({ feedstock }) => [feedstock.toLowerCase(), feedstock]),
		).values(),
	];
}

/** Why no lot can be set beside another per gram of feedstock; "" where all start from one. */
export function unlikeFeedstocks(lots: readonly CharLot[]): string {
	const feedstocks = feedstocksOf(
		lots.filter((lot) => lot.perFeedstock.is === "value"),
	);
	if (feedstocks.length < 2) return "";
	return feedstocks.includes("")
		? "the sheet does not say of every lot what it was made from"
		: "the lots start from different feedstocks";
}

/**
 * Which lots take up most per gram of char, or per gram of what they were made from. A lot lies highest where it can be told apart from every other one: the 95 % interval of their difference leaves out zero, at the residue of
 * either, with room for what the soaks may have left. Lots that start from different feedstocks are not set beside one another per gram of feedstock.
 */
export function highestLots(
	lots: readonly CharLot[],
	basis: LotBasis,
): HighestLots {
	const unlike = basis === "feedstock" ? unlikeFeedstocks(lots) : "";
	const reasons = lots.map((lot) => ({
		lot,
		because: unlike === "" ? whyNotRanked(lot, lots, basis) : unlike,
	}));
	const value = (lot: CharLot): number => {
		const found = uptakeOf(lot, basis);
		return found.is === "value" ? found.quantity.in("mg/g") : 0;
	};
	const ranked = reasons
		.filter((r) => r.because === "")
		.map((r) => r.lot)
		.sort((a, b) => value(b) - value(a));
	const [first, ...others] = ranked;
	const scatter = pooledScatter(lots);
	const apart = others.filter((lot) => isToldApart(first, lot, basis, scatter));
	return {
		leaders: ranked.filter((lot) => !apart.includes(lot)),
		behind: apart,
		notRanked: reasons.filter((r) => r.because !== ""),
	};
}
