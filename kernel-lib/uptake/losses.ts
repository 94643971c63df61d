/** How a loss that blanks without char show is shared out among flasks with char. */
import type { LossRule, Trial } from "../bench";
import {
	input,
	minus,
	one,
	per,
	plus,
	type Quantity,
	rectangular,
	scaled,
	stated,
	times,
} from "../quantity";
import type { Account } from "../residue";

/**
 * Position between the two extreme ways of sharing out a loss: -1 and 1 are the extremes, all positions equally likely. One and the same for all flasks of a trial,
 * for it is one unknown about how the method loses iodine.
 */
const sharing: Quantity<"ratio"> = input("ratio", 0, "1", rectangular(1), {
	symbol: "z",
	meaning: "where the loss lies between its two extremes",
	source: stated("unknown share of the losses; a decision of ours"),
	scope: "shared",
});

type Amount = Quantity<"amount">;
type Ratio = Quantity<"ratio">;

/** How much was lost of what was dosed (less what was withdrawn), of which so much is left, when a blank without char kept the share `recovery`. */
type LossOfDosed = <K extends "amount" | "mass">(
	dosed: Quantity<K>,
	left: Quantity<K>,
	recovery: Ratio,
) => Quantity<K>;

/** Losses are reckoned alike in moles and in grams. */
function inEither(
	loss: (dosed: Amount, left: Amount, recovery: Ratio) => Amount,
): LossOfDosed {
	return loss as unknown as LossOfDosed;
}

/** One extreme: a loss from all that was dosed, (1 - R) A. */
const fromDosed = (dosed: Amount, _: Amount, recovery: Ratio): Amount =>
	times(dosed, minus(one, recovery));

/** The other: a loss from what was left only, L (1/R - 1). */
const fromLeft = (_: Amount, left: Amount, recovery: Ratio): Amount =>
	times(left, minus(per(one, recovery), one));

function extreme(isBeyond: (a: Amount, b: Amount) => boolean): LossOfDosed {
	return inEither((dosed, left, recovery) => {
		const ofDosed = fromDosed(dosed, left, recovery);
		const ofLeft = fromLeft(dosed, left, recovery);
		return isBeyond(ofDosed, ofLeft) ? ofDosed : ofLeft;
	});
}

/** The most that can have been lost: for the least that was taken up, since a bound takes the worst end of what is assumed. */
export const mostLost: LossOfDosed = extreme((a, b) => a.value > b.value);

/** The least that can have been lost, for the most that was taken up. */
export const leastLost: LossOfDosed = extreme((a, b) => a.value < b.value);

/**
 * Iodine lost from a flask to air, stopper and light (or dye to glass and filter), in moles or in grams, when a blank without char kept the share R of its dose.
 *
 * Losses go with the iodine in solution. With A dosed (less what was withdrawn) and L left, the iodine in solution falls from A to L, and a loss in proportion to the mean of the
 * two is (1 - R)/(1 + R) (A + L); for the blank itself (L = R A) this gives A - L back. The extremes are a loss from all that was dosed, (1 - R) A, and a loss from what was left only,
 * L (1/R - 1); half the spread between them is the half-width of a rectangular component. With R = 0.90 and L = 0.1 A the uptakes are 0.800 A, 0.842 A and 0.889 A.
 */
export const lossOf: LossOfDosed = inEither((dosed, left, recovery) => {
	const proportion = per(minus(one, recovery), plus(one, recovery));
	const proportional = times(plus(dosed, left), proportion);
	const halfSpread = scaled(
		minus(fromDosed(dosed, left, recovery), fromLeft(dosed, left, recovery)),
		0.5,
	);
	return plus(proportional, times(halfSpread, sharing));
});

/** How much was lost from a flask that holds so much still. */
export type Loss = <K extends "amount" | "mass">(
	account: Pick<Account<K>, "added" | "withdrawn">,
	left: Quantity<K>,
	recovery: Ratio,
) => Quantity<K>;

/** The loss that is taken off, and the ends of what it may be, for bounds. */
export interface LossModel {
	readonly likely: Loss;
	readonly most: Loss;
	readonly least: Loss;
	/** Whether losses grow while a flask stands; else all was missing from the start. */
	readonly grows: boolean;
}

/** A withdrawal has taken its part out of what can be lost. */
function afterWithdrawals(loss: LossOfDosed): Loss {
	return ({ added, withdrawn }, left, recovery) =>
		loss(minus(added, withdrawn), left, recovery);
}

function only(loss: Loss, grows: boolean): LossModel {
	return { likely: loss, most: loss, least: loss, grows };
}

const models: Readonly<Record<LossRule, LossModel>> = {
	"between the extremes": {
		likely: afterWithdrawals(lossOf),
		most: afterWithdrawals(mostLost),
		least: afterWithdrawals(leastLost),
		grows: true,
	},
	"from the dose": only(afterWithdrawals(inEither(fromDosed)), true),
	"from what is left": only(afterWithdrawals(inEither(fromLeft)), true),
	// What the blank held was there to begin with; the rest of the nominal dose never was, whatever was withdrawn later.
	"the blank is the dose": only(
		({ added }, left, recovery) => inEither(fromDosed)(added, left, recovery),
		false,
	),
};

/** How losses are shared out in a trial, as it was set when its sheet was read. */
export function lossModel({ settings }: Trial): LossModel {
	return models[settings.losses];
}
