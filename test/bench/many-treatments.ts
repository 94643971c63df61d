/** Processor time of a comparison of so many treatments (500) of three soaks with one control of six: node test/bench/run.mjs many-treatments.ts 500 */
import file from "../../data/simulation/designs.json";
import { designsOf, simulate } from "../../data/simulation/simulate.mjs";
import { type Trial, trialFromRows } from "../../kernel-lib/bench/index";
import { compareTreatments, marginOf } from "../../kernel-lib/compare/index";
import { uptakes } from "../../kernel-lib/uptake/index";

function trialOf(treatments: number): Trial {
	const [design] = designsOf(file);
	const [control, treated] = design.treatments;
	const three = [["day 1"], ["day 1"], ["day 1"]];
	const { truth, ...sheet } = simulate(
		{
			...design,
			bench: { ...design.bench, days: { "day 1": design.bench.days["day 1"] } },
			treatments: [
				{ ...control, lots: [...three, ...three] },
				...Array.from({ length: treatments }, (_, i) => ({
					...treated,
					treatment: `salt ${i + 1}`,
					prefix: `S${i + 1}-`,
					uptake: 300 + (i % 7) * 10,
					lots: three,
				})),
			],
		},
		1,
	);
	return trialFromRows(sheet);
}

export function main([count = "500"]: string[]): void {
	const start = process.cpuUsage();
	const tell = (what: string): void => {
		const { user, system } = process.cpuUsage(start);
		console.log(
			`${what} after ${((user + system) / 1e6).toFixed(1)} s of processor time, ${(process.memoryUsage().rss / 1e6).toFixed(0)} MB`,
		);
	};
	const trial = trialOf(Number(count));
	uptakes(trial);
	tell(`${count} treatments read, with their uptakes,`);
	const compared = compareTreatments(trial, { margin: marginOf(25) });
	tell(`compared (limits ${compared.method.simultaneous.are})`);
}
