export {
	type Audited,
	audit,
	auditedAt,
	type Finding,
	feigning,
	findingsOf,
	harmlessAbove,
} from "./audit";
