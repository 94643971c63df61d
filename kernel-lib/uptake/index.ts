export { demandOf } from "./demand";
export type { FlaskUptake, IodineBalance, IodineDemand } from "./flask-uptake";
export {
	lossOf,
	type Recoveries,
	type Recovery,
	recoveries,
} from "./recovery";
export { balanceTable, uptakeTable } from "./tables";
export { byTreatment, uptakes } from "./uptakes";
