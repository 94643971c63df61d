import type { TypedRow } from "../../kernel-lib/bench/index";

/** The truth of a made-up firing, in plain numbers; written without the library. */
export interface Truth {
	readonly precursor: number;
	/** Wet basis. */
	readonly moisture: number;
	readonly agentMass: number;
	readonly agentStrength: number;
	/** Parts of the soak that leave it. */
	readonly drained: number;
	/** Parts of what goes into the kiln, as mass fractions. */
	readonly condensate: number;
	readonly gas: number;
	/** Agent that comes out of the kiln, g. */
	readonly agentFired: number;
	readonly fines: number;
	/** mL */
	readonly retained: number;
	readonly volumes: readonly number[];
	/** µS/cm */
	readonly water: number;
	/** µS/cm per g/L */
	readonly conducts: number;
}

export const usualTruth: Truth = {
	precursor: 40,
	moisture: 0.08,
	agentMass: 100,
	agentStrength: 0.2,
	drained: 0.4,
	condensate: 0.3,
	gas: 0.2,
	agentFired: 10,
	fines: 0.4,
	retained: 40,
	volumes: [200, 200, 200, 200],
	water: 12,
	conducts: 1500,
};

/** Strengths of the rinses, g/L: each mixes wholly with what is retained. The first liquor holds all the agent in `retained`. */
export function rinseStrengths(t: Truth): number[] {
	let strength = (1000 * t.agentFired) / t.retained;
	return t.volumes.map((v) => {
		strength *= t.retained / (t.retained + v);
		return strength;
	});
}

/** Masses of every stage by the truth, g. */
export function massesOf(
	t: Truth,
): Readonly<
	Record<
		| "soaked"
		| "drained"
		| "condensate"
		| "gas"
		| "fired"
		| "washedOut"
		| "agentLeft"
		| "product",
		number
	>
> {
	const all = t.precursor + t.agentMass;
	const drained = t.drained * all;
	const soaked = all - drained;
	const condensate = t.condensate * soaked;
	const gas = t.gas * soaked;
	const fired = soaked - condensate - gas;
	const washedOut = rinseStrengths(t).reduce(
		(sum, c, i) => sum + (c * t.volumes[i]) / 1000,
		0,
	);
	return {
		soaked,
		drained,
		condensate,
		gas,
		fired,
		washedOut,
		agentLeft: t.agentFired - washedOut,
		product: fired - washedOut - t.fines,
	};
}

/** The firing as a row of a sheet. `error` gives the error of each reading by its head: absolute for masses, relative for the rest. */
export function rowOf(
	t: Truth,
	error: (head: string) => number = () => 0,
	name = "made up",
): TypedRow {
	const m = massesOf(t);
	const mass = (head: string, value: number): [string, number] => [
		`${head} (g)`,
		value + error(head),
	];
	return {
		firing: name,
		precursor: "hazelnut shell",
		agent: "K2CO3",
		"precursor moisture, wet basis (%)": 100 * t.moisture,
		"agent strength (% w/w)": 100 * t.agentStrength,
		...Object.fromEntries([
			mass("precursor mass", t.precursor),
			mass("agent solution mass", t.agentMass),
			mass("impregnated mass", m.soaked),
			mass("liquor drained", m.drained),
			mass("condensate", m.condensate),
			mass("gas mass", m.gas),
			mass("fired mass", m.fired),
			mass("fines caught", t.fines),
			mass("product mass", m.product),
		]),
		"rinse water conductivity (µS/cm)": t.water,
		"reference strength (g/L)": 10,
		"reference conductivity (µS/cm)": t.water + 10 * t.conducts,
		...Object.fromEntries(
			rinseStrengths(t).flatMap((c, i): [string, number][] => [
				[`rinse ${i + 1} (mL)`, t.volumes[i]],
				[
					`rinse ${i + 1} conductivity (µS/cm)`,
					(t.water + t.conducts * c) *
						(1 + error(`rinse ${i + 1} conductivity`)),
				],
			]),
		),
	};
}
