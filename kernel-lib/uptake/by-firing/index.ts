export {
	costTable,
	type FiringUptakes,
	firingAnswer,
	uptakesByFiring,
} from "./by-trial";
export { uptakeCost } from "./cost";
export {
	conditionOfUptake,
	type FiringLink,
	type FiringUptake,
	linkFirings,
} from "./link";
