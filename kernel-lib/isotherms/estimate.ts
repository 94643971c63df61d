import type { Interval } from "../fit";
import { known, type MaybeKnown, notKnown } from "../quantity";
import type { Isotherm } from "./catalogue/index";
import type { IsothermEstimate } from "./fit-result";
import { combinedDegreesOfFreedom, twoSided } from "./intervals";
import { lazily } from "./lazily";
import { type EndsWanted, profileWithShared } from "./profile-with-shared";
import type { RawFit } from "./raw-fit";
import type { SharedShift } from "./shared-errors";

const held = notKnown("held at this value");

/** Parameter j of treatment k, with the errors that its flasks share. */
export function estimate(
	raw: RawFit,
	k: number,
	j: number,
	isotherm: Isotherm,
	shifts: readonly SharedShift[],
	confidence: number,
): IsothermEstimate {
	const { name, unit, value, role, limit, standardError } =
		raw.fits[k].parameters[j];
	const frame = {
		name,
		unit,
		meaning: isotherm.parameters[j].meaning,
		value,
		role,
		limit,
	};
	if (standardError.is === "not known") {
		const profile = lazily((): MaybeKnown<Interval> => {
			if (role === "fixed") return held;
			return raw.degreesOfFreedom === 0
				? standardError
				: profileWithShared(
						raw,
						raw.index[k][j],
						endsWithoutError(raw, confidence),
					);
		});
		return {
			...frame,
			scatter: standardError,
			shared: standardError,
			standardError,
			interval: standardError,
			get profile() {
				return profile();
			},
		};
	}
	const ends = endsFrom(raw, j, standardError.value, shifts, confidence);
	const profile = lazily(() =>
		role === "fixed" ? held : profileWithShared(raw, raw.index[k][j], ends),
	);
	return {
		...frame,
		...errorsOf(value, ends),
		get profile() {
			return profile();
		},
	};
}

function endsFrom(
	raw: RawFit,
	j: number,
	standardError: number,
	shifts: readonly SharedShift[],
	confidence: number,
): EndsWanted {
	const scatter = standardError * raw.besideEngine;
	const shared = shifts.map(({ effect, degreesOfFreedom }) => ({
		effect: effect[j],
		degreesOfFreedom,
	}));
	return {
		effects: shared.map((s) => s.effect),
		scatter,
		quantile: twoSided(
			confidence,
			combinedDegreesOfFreedom(scatter ** 2, raw.degreesOfFreedom, shared),
		),
		confidence,
	};
}

/** Where the fit has no errors, the profile alone looks for ends. */
function endsWithoutError(raw: RawFit, confidence: number): EndsWanted {
	return {
		effects: raw.effects.map(() => 0),
		scatter: 1,
		quantile: twoSided(confidence, raw.degreesOfFreedom),
		confidence,
	};
}

function errorsOf(
	value: number,
	{ effects, scatter, quantile, confidence }: EndsWanted,
): Pick<IsothermEstimate, "scatter" | "shared" | "standardError" | "interval"> {
	const shared = Math.hypot(...effects, 0);
	const total = Math.hypot(scatter, shared);
	return {
		scatter: known(scatter),
		shared: known(shared),
		standardError: known(total),
		interval: known(symmetric(value, quantile * total, confidence)),
	};
}

function symmetric(value: number, half: number, confidence: number): Interval {
	return {
		low: { kind: "closed", value: value - half },
		high: { kind: "closed", value: value + half },
		confidence,
		method:
			"standard error of scatter and shared errors together times Student's t",
	};
}
