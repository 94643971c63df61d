import { exactRatio, type Quantity } from "../quantity";
import type { AgentAmount } from "./firing";
import {
	contentSpread,
	notRecorded,
	ofItself,
	type RowReader,
} from "./firing-cells";
import type { FiringTable } from "./firing-checks";
import { numberOf, type ParsedRow } from "./parsed-table";
import type { Recorded } from "./trial";

function strengthOf(
	table: FiringTable,
	row: ParsedRow,
	read: RowReader,
): Recorded<Quantity<"massConcentration"> | Quantity<"concentration">> {
	const kind = numberOf(table, row, "agent strength")?.kind;
	const words = [
		"agent strength",
		"c_{\\text{agent}}",
		"strength of the agent's solution",
		ofItself(contentSpread),
	] as const;
	return kind === "concentration"
		? read.number("concentration", ...words)
		: read.number("massConcentration", ...words);
}

function solidOf(
	read: RowReader,
	mass: Quantity<"mass">,
	assumptions: Set<string>,
): AgentAmount {
	const purity = read.number(
		"ratio",
		"agent purity",
		"P",
		"purity of the agent",
		ofItself(contentSpread),
	);
	if (!purity.recorded)
		assumptions.add("Purity of the agent not recorded: 100 % assumed, exact.");
	return {
		as: "solid",
		mass,
		purity: purity.recorded
			? purity.value
			: exactRatio(1, "P", "purity of the agent, assumed"),
	};
}

function solutionByMass(
	read: RowReader,
	mass: Quantity<"mass">,
): Recorded<AgentAmount> {
	const massFraction = read.number(
		"ratio",
		"agent strength",
		"w_{\\text{agent}}",
		"mass fraction of agent in its solution",
		ofItself(contentSpread),
	);
	return massFraction.recorded
		? {
				recorded: true,
				value: {
					as: "solution by mass",
					mass,
					massFraction: massFraction.value,
				},
			}
		: notRecorded;
}

/** The agent as it was weighed or measured: solid, solution by mass, solution by volume; not recorded where a part of that is missing. */
export function agentOf(
	table: FiringTable,
	row: ParsedRow,
	read: RowReader,
	assumptions: Set<string>,
): Recorded<AgentAmount> {
	const solid = read.mass("agent mass", "agent", "mass of the agent");
	if (solid.recorded)
		return { recorded: true, value: solidOf(read, solid.value, assumptions) };
	const solution = read.mass(
		"agent solution mass",
		"agent solution",
		"mass of the agent's solution",
	);
	if (solution.recorded) return solutionByMass(read, solution.value);
	const volume = read.volume(
		"agent solution volume",
		"V_{\\text{agent}}",
		"the agent's solution",
	);
	const strength = volume.recorded ? strengthOf(table, row, read) : notRecorded;
	return volume.recorded && strength.recorded
		? {
				recorded: true,
				value: {
					as: "solution by volume",
					volume: volume.value,
					strength: strength.value,
				},
			}
		: notRecorded;
}
