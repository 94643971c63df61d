import { firingKey } from "../../bench";
import {
	grouped,
	type Measured,
	meanOf,
	type NotKnown,
	notKnown,
	type Quantity,
	quoted,
} from "../../quantity";
import {
	type FiringRoute,
	type FiringUptake,
	firingName,
	isLimited,
} from "../../uptake";

/** What a lot takes up: the mean of its flasks, or why there is none that could be set beside others. */
export type LotUptake =
	| { readonly is: "value"; readonly quantity: Quantity<"uptake"> }
	| NotKnown;

/** Flasks of one firing, treatment and soak: one lot of char, however many flasks were weighed out of it. */
export interface CharLot {
	readonly firing: string;
	/** What it is called where several lots of a trial stand side by side. */
	readonly name: string;
	readonly flasks: readonly FiringUptake[];
	/** Lowest and highest residue of its flasks, mg/L. */
	readonly residues: readonly [number, number];
	readonly perGram: FiringUptake["perGram"];
	/** mg/g of char. */
	readonly perChar: LotUptake;
	/** mg/g of `feedstock`. */
	readonly perFeedstock: LotUptake;
	/** What its first firing started from, as the sheet names it; "" where it does not. */
	readonly feedstock: string;
	/** False where the moisture of a precursor on its way is not recorded: then masses as weighed stand for dry ones. */
	readonly dryFeedstock: boolean;
	/** Names of the firings on its way whose weighings do not balance. */
	readonly unbalanced: readonly string[];
}

/** Flasks whose residues lie further apart than this, highest over lowest, are not averaged: uptake changes with the residue (a choice of this library, no source). */
export const residuesAlike = 1.2;

/** Why flasks have no mean that could be set beside those of other lots; "" where they have one. */
function whyNoMean(own: readonly FiringUptake[]): string {
	const residues = own.map((u) => u.residue.quantity.in("mg/L"));
	const bounded = own.filter((u) => u.uptake.is !== "value");
	if (own.some((u) => u.contradiction !== ""))
		return "its numbers cannot all be right";
	if (bounded.length > 0)
		return `${bounded.length} of ${own.length} flasks ${bounded.length === 1 ? "gives" : "give"} a limit only`;
	if (Math.max(...residues) > residuesAlike * Math.min(...residues))
		return "its flasks stand at unlike residues";
	return own.some(
		({ demand }) => demand.is === "suspected" && !isLimited(demand.ceiling),
	)
		? "nothing limits what is left of its soak, which may look like uptake"
		: "";
}

function meanOfLot(
	measured: readonly (Measured<"uptake"> | NotKnown)[],
	whyNot: string,
): LotUptake {
	if (whyNot !== "") return notKnown(whyNot);
	const unknown = measured.find((m) => m.is === "not known");
	if (unknown?.is === "not known") return unknown;
	return {
		is: "value",
		quantity: meanOf(
			measured.flatMap((m) =>
				m.is === "not known" ? [] : [m.quantity.to("mg/g")],
			),
		),
	};
}

function lotOf(
	own: readonly FiringUptake[],
	name: string,
	route: FiringRoute,
): CharLot {
	const [{ perGram }] = own;
	const residues = own.map((u) => u.residue.quantity.in("mg/L"));
	const firings = route.chain.map((y) => y.firing);
	const whyNot = own.every((u) => u.perGram === perGram)
		? whyNoMean(own)
		: "some of its flasks are per gram of dry char, others per gram as weighed";
	return {
		firing: firingName(own[0]),
		name,
		flasks: own,
		residues: [Math.min(...residues), Math.max(...residues)],
		perGram,
		perChar: meanOfLot(
			own.map((u) => u.uptake),
			whyNot,
		),
		perFeedstock: meanOfLot(
			own.map((u) => u.perFeedstock),
			whyNot,
		),
		feedstock: firings[0].precursor.trim(),
		dryFeedstock: firings.every((f) => f.precursorMoisture.recorded),
		unbalanced: route.unbalanced,
	};
}

/** The lots of the flasks that have a firing, in the order of the flasks. A firing with several treatments or soaks has a lot for each. */
export function charLots(
	uptakes: readonly FiringUptake[],
	routes: readonly FiringRoute[],
): readonly CharLot[] {
	const linked = uptakes.filter((u) => u.firing.is === "linked");
	return [...grouped(linked, firingName)].flatMap(([firing, ofFiring]) => {
		const route = routes.find((r) => r.yields.firing.name === firing);
		if (route === undefined) return [];
		const groups = grouped(ofFiring, ({ flask }) =>
			JSON.stringify([flask.treatment, firingKey(flask.soak)]),
		);
		return [...groups.values()].map((own) => {
			const [{ flask }] = own;
			const parts = [flask.treatment, flask.soak].filter((p) => p !== "");
			return lotOf(
				own,
				groups.size === 1 ? firing : `${firing} (${parts.join(", ")})`,
				route,
			);
		});
	});
}

/** What a lot starts from, in words: "dry hazelnut shell", "bought char as weighed". */
export function feedstockText({
	feedstock,
	dryFeedstock,
}: Pick<CharLot, "feedstock" | "dryFeedstock">): string {
	const name = feedstock === "" ? "feedstock" : quoted(feedstock);
	return dryFeedstock ? `dry ${name}` : `${name} as weighed`;
}

/** What lots start from that all start from one thing, in words. */
export function commonFeedstock(lots: readonly CharLot[]): string {
	const known = lots.filter((lot) => lot.perFeedstock.is === "value");
	const [{ feedstock }] = known.length > 0 ? known : lots;
	return feedstockText({
		feedstock,
		dryFeedstock: known.some((lot) => lot.dryFeedstock),
	});
}
