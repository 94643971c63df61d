import type { Table } from "../../quantity";
import type { AmmoniaNamed } from "../../substances";
import type { Condition } from "./conditions";
import type { LogLine } from "./log-line";
import type { DosagePoint } from "./points";

/** What one char's dosages give. */
export type NumberOfDosages =
	| {
			readonly is: "value";
			/** The sheet that its dosages stand in. */
			readonly file: string;
			/** What it may be called: the standard's name only with the standard's volumes and every condition met. */
			readonly name: string;
			readonly treatment: string;
			/** Whether iodine would meet ammonia in its char: then nothing advises to dose it. */
			readonly ammonia: AmmoniaNamed;
			/** Why its char must not be dried or boiled in acid as the method asks, full sentences; "" where nothing that the sheet names forbids it. */
			readonly notAsAsked: string;
			/** The result in one sentence. */
			readonly sentence: string;
			readonly line: LogLine;
			readonly points: readonly DosagePoint[];
			/** Dosages that have no place on the line, a full sentence each. */
			readonly offTheLine: readonly string[];
			readonly conditions: readonly Condition[];
			/** Full sentences: what weakens the figure, what it is comparable with. */
			readonly remarks: readonly string[];
			readonly nextDosages: Table;
	  }
	| {
			readonly is: "not available";
			/** The sheet that its dosages stand in. */
			readonly file: string;
			readonly treatment: string;
			/** Whether iodine would meet ammonia in its char: then nothing advises to dose it. */
			readonly ammonia: AmmoniaNamed;
			/** Why its char must not be dried or boiled in acid as the method asks, full sentences; "" where nothing that the sheet names forbids it. */
			readonly notAsAsked: string;
			readonly sentence: string;
			readonly because: string;
			readonly remarks: readonly string[];
			/** What to weigh instead, a full sentence; "" where these dosages cannot say. */
			readonly weighInstead: string;
	  };
