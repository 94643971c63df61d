import type { Kind, Measured } from "../quantity";

/** What a determination gave: a value, a limit, or nothing that can be said. */
export type Outcome<K extends Kind = Kind> =
	| Measured<K>
	| { readonly is: "not determined"; readonly because: string };
