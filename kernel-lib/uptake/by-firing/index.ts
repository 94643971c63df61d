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
	type FiringRoute,
	type FiringUptake,
	firingRoutes,
	linkFirings,
} from "./link";
export { firingName } from "./tables";
export { unlinkedSentences } from "./unlinked";
