import type { Firing, ThermalStep } from "../bench";
import type { Kind, Quantity } from "../quantity";
import { type Finding, found, notKnown } from "./finding";
import type { FiringYields } from "./yields";

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

function hottest(firing: Firing): Finding<"temperature"> & {
	readonly step?: ThermalStep;
} {
	const [first, ...rest] = firing.programme;
	if (first === undefined)
		return notKnown("no step of the thermal programme is recorded");
	const step = rest.reduce(
		(most, s) =>
			s.temperature.in("°C") > most.temperature.in("°C") ? s : most,
		first,
	);
	return { ...found(step.temperature), step };
}

/** The value of a condition in one run; an agent's ratio is 0 where no agent was used. */
export function conditionOf(
	figures: FiringYields,
	condition: ActivationCondition,
): Finding<Kind> {
	const { firing } = figures;
	const recorded = (
		reading: Firing["soakTime"],
		what: string,
	): Finding<Kind> =>
		reading.recorded
			? found(reading.value as Quantity)
			: notKnown(`${what} is not recorded`);
	switch (condition) {
		case "burn-off":
			return figures.burnOff;
		case "char yield":
			return figures.charYield;
		case "impregnation ratio":
			return figures.impregnationRatio;
		case "agent per carbon":
			return figures.agentPerCarbon;
		case "highest temperature":
			return hottest(firing);
		case "hold at the highest temperature": {
			const { step } = hottest(firing);
			return step === undefined
				? notKnown("no step of the thermal programme is recorded")
				: recorded(step.hold, "the hold at the highest temperature");
		}
		case "soak time":
			return recorded(firing.soakTime, "the time of the soak");
	}
}
