export { type UptakeCost, uptakeCost, uptakeCostTable } from "./cost";
export { feedstockCapacity } from "./feedstock";
export {
	type ActivatedUptake,
	type ActivationLink,
	conditionOfUptake,
	withActivation,
} from "./link";
export { activationAnswer, runUptakeSentences } from "./sentences";
export { activatedUptakeTable, feedstockTable } from "./tables";
