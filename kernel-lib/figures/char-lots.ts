import { requireTrial, type Trial } from "../bench";
import {
	type CharLot,
	commonFeedstock,
	type LotBasis,
	charLots as lotsOf,
	residuesAlike,
	unlikeFeedstocks,
} from "../compare";
import { listed, quoted } from "../quantity";
import { firingRoutes, uptakesByFiring } from "../uptake";
import type { Bar, Figure, Layer } from "./description";
import { figure } from "./figure";
import { ofProbe } from "./flask-words";
import type { Hatch, Ink } from "./look";
import { countOf, roundedTo } from "./words";

/** Two bars stand side by side in the row of a lot. */
const thickness = 0.32;
const places: Readonly<Record<LotBasis, number>> = {
	char: -0.19,
	feedstock: 0.19,
};

const uptakeOf = (lot: CharLot, basis: LotBasis): CharLot["perChar"] =>
	basis === "char" ? lot.perChar : lot.perFeedstock;

const value = (lot: CharLot, basis: LotBasis): number => {
	const found = uptakeOf(lot, basis);
	return found.is === "value" ? found.quantity.in("mg/g") : 0;
};

function textOf(lot: CharLot, basis: LotBasis): string {
	const found = uptakeOf(lot, basis);
	if (found.is !== "value") return "";
	const mean = found.quantity.to("mg/g");
	return roundedTo(mean.value, 10 * mean.standardUncertainty);
}

/** Whether the bar of a lot is to be relied on: what is per gram of feedstock leans on weighings. */
const leansOn = (lot: CharLot, basis: LotBasis): boolean =>
	basis === "char" || lot.unbalanced.length === 0;

function barsOf(
	lots: readonly CharLot[],
	basis: LotBasis,
	reliable: boolean,
): Bar[] {
	return lots.flatMap((lot, row) =>
		uptakeOf(lot, basis).is === "value" && leansOn(lot, basis) === reliable
			? [
					{
						at: row + places[basis],
						from: 0,
						to: value(lot, basis),
						hover: `${lot.name}\n${textOf(lot, basis)} mg/g`,
						label: `${textOf(lot, basis)}${reliable ? "" : ", not reliable"}`,
					},
				]
			: [],
	);
}

function barLayer(
	name: string,
	bars: readonly Bar[],
	ink: Ink,
	hatch: Hatch,
): Layer[] {
	return bars.length === 0
		? []
		: [{ is: "bars", name, ink, hatch, along: "x", width: thickness, bars }];
}

function altOf(
	title: string,
	lots: readonly CharLot[],
	feedstock: string,
): string {
	const said = lots.map((lot) => {
		const perChar = textOf(lot, "char");
		const perFeedstock = textOf(lot, "feedstock");
		return `${quoted(lot.name)}: ${perChar === "" ? "no mean" : `${perChar} mg/g of char`}${perFeedstock === "" ? "" : `, ${perFeedstock} mg/g of ${feedstock}${leansOn(lot, "feedstock") ? "" : ", not to be relied on"}`}`;
	});
	return `${title}. ${countOf(lots.length, "lot")} of char, the highest per gram of char first. ${said.join("; ")}.`;
}

function notesOf(lots: readonly CharLot[]): string[] {
	const astray = lots.filter((lot) => lot.unbalanced.length > 0);
	const without = lots.filter((lot) => lot.perChar.is !== "value");
	const residues = lots.flatMap((lot) => lot.residues);
	const [low, high] = [Math.min(...residues), Math.max(...residues)];
	return [
		...(high > residuesAlike * low
			? [
					`The flasks left ${roundedTo(low, 0.1 * low)} to ${roundedTo(high, 0.1 * high)} mg/L in solution: uptake grows with what is left, so that the bars alone do not rank the chars.`,
				]
			: []),
		...(astray.length > 0
			? [
					`Not reliable per gram of feedstock, for weighings do not balance: ${listed(astray.map((lot) => quoted(lot.name)))}.`,
				]
			: []),
		...(without.length > 0
			? [`Without a mean: ${listed(without.map((lot) => quoted(lot.name)))}.`]
			: []),
	];
}

/**
 * What each lot of char takes up, as two bars: per gram of char, and per gram of the feedstock that it was made from (mg/g is g/kg); the highest per gram of char first. What leans on weighings that do not balance is hatched, and says so.
 * @throws ProblemError where the trial cannot give uptakes
 * @example
 * figures.charLots(kilnTrial).y.scale.is // => "categories"
 */
export function charLots(trial: Trial): Figure {
	requireTrial(trial);
	const lots = [...lotsOf(uptakesByFiring(trial), firingRoutes(trial))].sort(
		(a, b) => value(b, "char") - value(a, "char"),
	);
	const feedstock =
		lots.length === 0 || unlikeFeedstocks(lots) !== ""
			? "its feedstock"
			: commonFeedstock(lots);
	const plain = feedstock.replaceAll('"', "");
	const title = `Uptake${ofProbe(trial.probe.name)} per gram of char and per gram of ${feedstock}`;
	return figure({
		title,
		alt: altOf(title, lots, feedstock),
		x: { label: "Uptake", unit: "mg/g", scale: { is: "linear", zero: true } },
		y: {
			label: "",
			unit: "",
			scale: { is: "categories", names: lots.map((lot) => lot.name) },
		},
		layers: [
			...barLayer(
				"per gram of char",
				barsOf(lots, "char", true),
				"blue",
				"plain",
			),
			...barLayer(
				`per gram of ${plain}`,
				barsOf(lots, "feedstock", true),
				"ochre",
				"rising",
			),
			...barLayer(
				"not reliable: weighings do not balance",
				barsOf(lots, "feedstock", false),
				"quiet",
				"crossed",
			),
		],
		notes: notesOf(lots),
	});
}
