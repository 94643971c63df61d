import type { FlaskUptake } from "../uptake";
import type { Arrow, Interval, Layer, Point, Scale } from "./description";
import { errorBarOf } from "./error-bar";
import type { Ink } from "./look";

/** Error bar of an uptake; a bound has none. */
export function uptakeBar({ uptake }: FlaskUptake): Pick<Point, "yInterval"> {
	return uptake.is === "value"
		? { yInterval: errorBarOf(uptake.quantity.to("mg/g")) }
		: {};
}

/** The arrow of what is a bound, up for "at least", down for "at most"; none for a value. */
export function boundArrow(
	side: FlaskUptake["uptake"]["is"],
	at: Omit<Arrow, "towards" | "label">,
	label: string = side,
): Arrow[] {
	return side === "value"
		? []
		: [{ ...at, towards: side === "at least" ? "up" : "down", label }];
}

/** A limit farther from all else than this many times the length that all else takes stands at the edge of its axis, with its number. Our decision: nearer by, the rest keeps half of the axis. */
export const farthestLimit = 1;

/** The stretch of an axis for values and for the limits that lie near enough; null where all do. */
export function shownStretch(
	values: readonly number[],
	limits: readonly number[],
): Interval | null {
	const [low, high] = [Math.min(...values), Math.max(...values)];
	const reach = farthestLimit * (high - low);
	const near = limits.filter((v) => v >= low - reach && v <= high + reach);
	return reach > 0 && near.length < limits.length
		? { low: Math.min(low, ...near), high: Math.max(high, ...near) }
		: null;
}

/** A linear axis that is about that stretch, or about all that is drawn. */
export function linearOver(shown: Interval | null): Scale {
	return shown === null ? { is: "linear" } : { is: "linear", shown };
}

/** Arrows as a layer; none where there is none. */
export function onlyLimits(ink: Ink, arrows: readonly Arrow[]): Layer[] {
	return arrows.length === 0
		? []
		: [{ is: "arrows", name: "only a limit", ink, arrows }];
}
