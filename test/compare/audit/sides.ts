import type { Flask, Trial } from "../../../kernel-lib/bench";
import type { Looked, Sides } from "../../../kernel-lib/compare/audit/sides";
import {
	type Observation,
	observationsOf,
} from "../../../kernel-lib/compare/observations";
import type { FlaskUptake } from "../../../kernel-lib/uptake";
import { flaskUptake } from "../fixtures";

/** What a test says of a flask's row, and of its uptake. */
export interface Row extends Partial<Flask> {
	readonly of?: Partial<FlaskUptake>;
}

export function sideOf(
	treatment: string,
	rows: readonly Row[],
): readonly Observation[] {
	return observationsOf(
		rows.map(({ of = {}, ...row }, i): FlaskUptake => {
			const plain = flaskUptake({
				flask: `${treatment}${i}`,
				treatment,
				uptake: 300,
			});
			return { ...plain, ...of, flask: { ...plain.flask, ...row } };
		}),
	).list;
}

/** Flasks of steam and of water, its control; with as much of a trial as the test says. */
export function sides(
	treated: readonly Row[],
	untreated: readonly Row[],
	more: Partial<Omit<Sides, "trial">> & {
		readonly trial?: Partial<Trial>;
	} = {},
): Sides {
	return {
		control: "water",
		treated: sideOf("steam", treated),
		untreated: sideOf("water", untreated),
		measuringErrorOnly: false,
		...more,
		trial: (more.trial ?? {}) as Trial,
	};
}

/** So many rows of one kind, and then so many of another. */
export const rows = (...some: readonly (readonly [number, Row])[]): Row[] =>
	some.flatMap(([n, row]) => Array.from({ length: n }, () => row));

/** Whether it lies beyond its allowance, and what it could have made: "within, nothing". */
export const brief = (found: Looked): string =>
	found.is === "not recorded" ? found.is : `${found.is}, ${found.feigns}`;

/** What is told of the two sides: "open | closed". */
export const texts = (found: Looked): string =>
	found.is === "not recorded"
		? found.is
		: `${found.treated} | ${found.untreated}`;
