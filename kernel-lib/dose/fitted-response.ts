import type { Fit, Interval } from "../fit";
import type { MaybeKnown } from "../quantity";
import type { ResponseForm } from "./response-forms";

/** A response form fitted to removal against dose. */
export interface FittedResponse {
	readonly kind: "response fit";
	readonly name: string;
	readonly form: ResponseForm;
	readonly fit: Fit;
	readonly profiles: readonly {
		readonly name: string;
		readonly interval: MaybeKnown<Interval>;
	}[];
	readonly doses: readonly number[];
	readonly removals: readonly number[];
	readonly confidence: number;
	/** What a reader should know before using the numbers. */
	readonly opinion: readonly string[];
}
