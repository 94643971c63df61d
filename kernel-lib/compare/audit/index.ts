export {
	type Audited,
	audit,
	type Finding,
	feigning,
	findingsOf,
} from "./audit";
export type { Feigns, Sides } from "./sides";
