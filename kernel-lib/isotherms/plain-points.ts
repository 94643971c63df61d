import {
	notKnown,
	problem,
	requireNumbers,
	requireOptions,
	requireText,
	textOption,
	throwProblems,
	type WithTable,
	withTable,
} from "../quantity";
import { pointTable } from "./point-table";
import type { IsothermPoints } from "./points";

export interface PlainPointOptions {
	/** What was taken up, such as "phenol": sentences and figures then name it. */
	readonly probe?: string;
}

/**
 * Points from plain numbers, such as a published table. They have no balance lines and no errors of their own: only the ordinary fit of uptake on concentration can use them.
 *
 * @param concentration mg/L
 * @param uptake mg/g
 * @throws ProblemError for lists of different length or numbers that are not finite
 * @example
 * isotherms.plainPoints("oak char", [10, 30], [50, 75], { probe: "phenol" }).points[1].uptake // => 75
 */
export function plainPoints(
	name: string,
	concentration: ArrayLike<number>,
	uptake: ArrayLike<number>,
	options: PlainPointOptions = {},
): WithTable<IsothermPoints> {
	requireOptions(options, { probe: textOption }, "plainPoints");
	requireText(name, 'a name in quotes, such as "oak char"', "plainPoints");
	requireNumbers(concentration, "plainPoints");
	requireNumbers(uptake, "plainPoints");
	const c = Array.from(concentration);
	const q = Array.from(uptake);
	throwProblems([
		...(c.length === q.length
			? []
			: [
					problem(
						"unequal-lengths",
						{ column: "uptake" },
						`${c.length} concentrations and ${q.length} uptakes`,
						"one uptake for each concentration",
						"Leave out what has no partner.",
					),
				]),
		...[...c, ...q].flatMap((v, i) =>
			Number.isFinite(v)
				? []
				: [
						problem(
							"not-a-number",
							{
								column: i < c.length ? "concentration" : "uptake",
								row: (i % c.length) + 1,
							},
							String(v),
							"a finite number",
							"Leave the point out, or give its value.",
						),
					],
		),
	]);
	const points: IsothermPoints = {
		name,
		probe: options.probe ?? "",
		file: "",
		hash: "",
		points: c.map((concentration, i) => ({
			flask: String(i + 1),
			is: "reading",
			concentration,
			uptake: q[i],
			balance: notKnown("typed-in points have no mass balance"),
			own: { concentration: 0, uptake: 0, covariance: 0 },
		})),
		shared: [],
		flasks: [],
		leftOut: [],
	};
	return withTable(points, pointTable);
}
