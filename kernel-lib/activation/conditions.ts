import type { Firing, ThermalStep } from "../bench";
import {
	type Kind,
	known,
	type MaybeKnown,
	type Measured,
	measured,
	type NotKnown,
	notKnown,
	type Quantity,
} from "../quantity";
import type { FiringYields } from "./firing-yields";

/** What uptakes may be set against. */
export const activationConditions = [
	"burn-off",
	"char yield",
	"impregnation ratio",
	"agent per carbon",
	"highest temperature",
	"hold at the highest temperature",
	"soak time",
] as const;

export type ActivationCondition = (typeof activationConditions)[number];

/** The step that goes to the highest temperature. */
function hottestStep({ programme }: Firing): MaybeKnown<ThermalStep> {
	const [first, ...rest] = programme;
	return first === undefined
		? notKnown("no step of the thermal programme is recorded")
		: known(
				rest.reduce(
					(most, s) =>
						s.temperature.in("°C") > most.temperature.in("°C") ? s : most,
					first,
				),
			);
}

/** The value of a condition of one firing. */
export function conditionOf(
	yields: FiringYields,
	condition: ActivationCondition,
): Measured<Kind> | NotKnown {
	const { firing } = yields;
	const step = hottestStep(firing);
	const recorded = (
		reading: Firing["soakTime"],
		what: string,
	): Measured<Kind> | NotKnown =>
		reading.recorded
			? measured(reading.value as Quantity)
			: notKnown(`${what} is not recorded`);
	switch (condition) {
		case "burn-off":
			return yields.burnOff;
		case "char yield":
			return yields.charYield;
		case "impregnation ratio":
			return yields.impregnationRatio;
		case "agent per carbon":
			return yields.agentPerCarbon;
		case "highest temperature":
			return step.is === "not known" ? step : measured(step.value.temperature);
		case "hold at the highest temperature":
			return step.is === "not known"
				? step
				: recorded(step.value.hold, "the hold at the highest temperature");
		case "soak time":
			return recorded(firing.soakTime, "the time of the soak");
	}
}
