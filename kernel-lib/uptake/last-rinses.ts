import {
	type Flask,
	isUsable,
	type Recorded,
	step,
	type Trial,
} from "../bench";
import { mean } from "../stats";

/** pH of a flask's last rinse. */
export function rinsePH({ soaking }: Flask): Recorded<number> {
	const { pH } = soaking.lastRinse;
	return pH.recorded ? { recorded: true, value: pH.value.value } : pH;
}

/** Conductivity of a flask's last rinse, µS/cm. */
export function rinseConductivity({ soaking }: Flask): Recorded<number> {
	const { conductivity } = soaking.lastRinse;
	return conductivity.recorded
		? { recorded: true, value: conductivity.value.in("µS/cm") }
		: conductivity;
}

type OfTreatment = (treatment: string) => Recorded<number>;

function meansOf(
	trial: Trial,
	reading: (flask: Flask) => Recorded<number>,
): OfTreatment {
	const read = new Map<string, number[]>();
	for (const flask of trial.flasks) {
		if (flask.contents !== "char" || !isUsable(flask)) continue;
		const found = reading(flask);
		if (!found.recorded) continue;
		const own = read.get(flask.treatment);
		if (own === undefined) read.set(flask.treatment, [found.value]);
		else own.push(found.value);
	}
	const means = new Map([...read].map(([t, values]) => [t, mean(values)]));
	return (treatment) => {
		const value = means.get(treatment);
		return value === undefined
			? { recorded: false }
			: { recorded: true, value };
	};
}

/** What the last rinses of a treatment showed, in the mean of its flasks that are in use. */
export const lastRinses: (trial: Trial) => {
	readonly pH: OfTreatment;
	readonly conductivity: OfTreatment;
} = step((trial) => ({
	pH: meansOf(trial, rinsePH),
	conductivity: meansOf(trial, rinseConductivity),
}));
