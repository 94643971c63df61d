import {
	type Flask,
	isUsable,
	type Recorded,
	step,
	type Trial,
} from "../bench";
import { grouped } from "../quantity";
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
	const read = trial.flasks.flatMap((flask) => {
		const found = reading(flask);
		return flask.contents === "char" && isUsable(flask) && found.recorded
			? [{ treatment: flask.treatment, value: found.value }]
			: [];
	});
	const means = new Map(
		[...grouped(read, (r) => r.treatment)].map(([treatment, own]) => [
			treatment,
			mean(own.map((r) => r.value)),
		]),
	);
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
