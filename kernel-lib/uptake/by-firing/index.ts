export {
	costTable,
	type FiringUptakes,
	uptakesByFiring,
	withoutFlasks,
} from "./by-trial";
export { uptakeCost } from "./cost";
export {
	conditionOfUptake,
	type FiringLink,
	type FiringUptake,
	linkFirings,
} from "./link";
export { firingName } from "./tables";
export { unlinkedSentences } from "./unlinked";
