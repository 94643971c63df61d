export {
	type CharLot,
	charLots,
	commonFeedstock,
	feedstockText,
	residuesAlike,
} from "./char-lots";
export {
	type HighestLots,
	highestLots,
	type LotBasis,
	unlikeFeedstocks,
} from "./highest-lots";
