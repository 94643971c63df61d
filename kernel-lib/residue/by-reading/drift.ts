import { type Flask, step, type Trial } from "../../bench";
import {
	exactRatio,
	meanOfRepeats,
	minus,
	named,
	per,
	plus,
	type Quantity,
	scaled,
	type Table,
	table,
	type UnitOf,
} from "../../quantity";
import { studentTQuantile } from "../../stats";
import {
	lineVariance,
	meanSignal,
	readingVariance,
	type SignalKind,
	signalAt,
} from "../colorimetry";
import {
	inOneUnit,
	linesOf,
	standardsInUse,
	wavelengthsOf,
} from "./lines-of-trial";
import { signalsOf } from "./signal";

/** A standard that was read again after some flasks. */
export interface DriftCheck {
	readonly line: string;
	readonly standard: string;
	/** Flask after which it was read, and that flask's place in the sheet. */
	readonly after: string;
	readonly position: number;
	/** What the line says and what was read, in the signal unit of the line. */
	readonly expected: number;
	readonly found: number;
	/** Half-width of the 95 % prediction interval of such a reading. */
	readonly allowed: number;
	readonly drifted: boolean;
	/** Expected over found signal, both less the intercept: what a signal is multiplied by to be as the line's; not available for a standard of no concentration. */
	readonly factor:
		| { readonly is: "value"; readonly quantity: Quantity<"ratio"> }
		| { readonly is: "not available" };
}

/** Every standard that was read again, against the prediction interval of its line: (1 - 0.05) of such readings lie inside while nothing drifts. */
export const driftChecks: (trial: Trial) => readonly DriftCheck[] =
	step(checksOf);

function checksOf(trial: Trial): DriftCheck[] {
	const order = new Map(trial.sheetOrder.map((name, i) => [name, i]));
	return linesOf(trial).flatMap((line) =>
		inOneUnit(standardsInUse(trial).filter((s) => s.line === line.name))
			.filter((s) => s.readAfter !== "")
			.map((s): DriftCheck => {
				const unit = line.signalUnit as UnitOf<SignalKind>;
				const signals = signalsOf(s.readings, wavelengthsOf(trial, line.name));
				const signal = meanSignal(
					line,
					signals,
					`standard ${s.standard} read again after flask ${s.readAfter}`,
				);
				const c = s.concentration;
				const expected = signalAt(line, c);
				const found = signal.in(unit);
				const allowed =
					studentTQuantile(0.975, line.degreesOfFreedom) *
					Math.sqrt(
						readingVariance(line, expected, signals.length) +
							lineVariance(line, c),
					);
				const { intercept, slope, curvature } = line.shared;
				const above = plus(scaled(slope, c), scaled(curvature, c * c));
				return {
					line: line.name,
					standard: s.standard,
					after: s.readAfter,
					position: order.get(s.readAfter) ?? 0,
					expected,
					found,
					allowed,
					drifted: Math.abs(found - expected) > allowed,
					factor:
						c > 0
							? {
									is: "value",
									quantity: named(
										per(above, minus(signal, intercept)) as Quantity<"ratio">,
										"f_{drift}",
										`drift factor after flask ${s.readAfter}`,
									),
								}
							: { is: "not available" },
				};
			}),
	);
}

/** The drift factors in the order of the sheet; where several standards were read after one flask, the mean of theirs. */
function factorsByPosition(
	checks: readonly DriftCheck[],
): { position: number; factor: Quantity<"ratio"> }[] {
	const byPosition = new Map<number, Quantity<"ratio">[]>();
	for (const { position, factor } of checks)
		if (factor.is === "value")
			byPosition.set(position, [
				...(byPosition.get(position) ?? []),
				factor.quantity,
			]);
	return [...byPosition]
		.map(([position, factors]) => ({
			position,
			factor: meanOfRepeats(factors, "standards read again"),
		}))
		.sort((a, b) => a.position - b.position);
}

/**
 * The factor that a flask's signal is multiplied by: 1 at the calibration (before the first flask), the factors of the checks where they were read, straight lines between them; after the last check the last
 * factor.
 */
export function driftFactor(
	flask: Flask,
	trial: Trial,
	checks: readonly DriftCheck[],
): Quantity<"ratio"> {
	const at = trial.sheetOrder.indexOf(flask.name);
	const one = exactRatio(1, "1");
	const known = [{ position: -1, factor: one }, ...factorsByPosition(checks)];
	const before = known.filter((k) => k.position < at).at(-1) ?? known[0];
	const after = known.find((k) => k.position >= at);
	if (after === undefined) return before.factor;
	if (after.position === before.position) return after.factor;
	const share = (at - before.position) / (after.position - before.position);
	return plus(scaled(before.factor, 1 - share), scaled(after.factor, share));
}

/** Did the instrument drift? Every standard that was read again, with what its line allows. */
export function driftTable(trial: Trial): Table {
	const checks = driftChecks(trial);
	return table(
		"Did the instrument drift?",
		[
			"line",
			"standard",
			"read after flask",
			"expected",
			"found",
			"95 % of such readings differ by less than",
			"drifted",
		],
		checks.map((c) => [
			c.line,
			c.standard,
			c.after,
			c.expected.toFixed(4),
			c.found.toFixed(4),
			c.allowed.toFixed(4),
			c.drifted ? "yes" : "no",
		]),
		checks.length === 0
			? [
					"No standard was read again: a drift of the instrument would go unseen.",
				]
			: [],
	);
}
