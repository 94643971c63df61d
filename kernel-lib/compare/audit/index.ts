export {
	type Audited,
	auditedAt,
	type Finding,
	feigning,
	findingsOf,
	type PairAudit,
	pairAudit,
} from "./audit";
