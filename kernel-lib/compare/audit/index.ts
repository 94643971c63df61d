export {
	type Audited,
	audit,
	auditedAt,
	type Finding,
	feigning,
	findingsOf,
	type PairAudit,
	pairAudit,
} from "./audit";
export type { Feigns, Sides } from "./sides";
