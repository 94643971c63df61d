import type { FlaskUptake } from "../uptake";
import type { Arrow, Layer, Point } from "./description";
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
): Arrow[] {
	return side === "value"
		? []
		: [{ ...at, towards: side === "at least" ? "up" : "down", label: side }];
}

/** Arrows as a layer; none where there is none. */
export function onlyLimits(ink: Ink, arrows: readonly Arrow[]): Layer[] {
	return arrows.length === 0
		? []
		: [{ is: "arrows", name: "only a limit", ink, arrows }];
}
