import { join } from "node:path";
import { startKernel } from "./front-end";

/** Our kernel and the one that it extends, side by side: from start to the first result of the library, and a cell that is run again. */
const root = join(import.meta.dirname, "../..");
// As it is built: the clock runs for what a person starts.
const kernels = {
	ours: [join(root, "kernel-lib/dist/notebook/kernel/main.js")],
	"plain tslab": [
		join(root, "node_modules/tslab/bin/tslab"),
		"kernel",
		"--config-path",
	],
};
const first =
	'import { bench } from "charledger"; const trial = bench.readTrial("../data/demo-run/hazelnut.csv"); trial.flasks.length';
const again =
	"const twice = (x: number): number => 2 * x; twice(trial.flasks.length)";
const rounds = 5;
const repeats = 20;

async function times(program: readonly string[]): Promise<[number, number]> {
	const begin = performance.now();
	const kernel = await startKernel(join(root, "notebooks"), program);
	const run = async (code: string): Promise<void> => {
		const reply = await kernel.execute(
			code,
			{ stopOnError: true, timeoutSeconds: 60 },
			() => {},
		);
		if (reply.is !== "ok") throw new Error(reply.is);
	};
	try {
		await run(first);
		const started = performance.now() - begin;
		await run(again);
		const before = performance.now();
		for (let i = 0; i < repeats; i++) await run(again);
		return [started, (performance.now() - before) / repeats];
	} finally {
		await kernel.stop();
	}
}

function median(values: readonly number[]): number {
	return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
}

export async function main(): Promise<void> {
	const ours: [number, number][] = [];
	const plain: [number, number][] = [];
	for (let i = 0; i < rounds; i++) {
		ours.push(await times(kernels.ours));
		plain.push(await times(kernels["plain tslab"]));
	}
	for (const [what, at] of [
		["start to the first result of the library", 0],
		["a cell that is run again", 1],
	] as const) {
		const ratio = median(ours.map((o, i) => o[at] / plain[i][at]));
		console.log(
			`${what}: ${median(ours.map((o) => o[at])).toFixed(0)} ms, plain tslab ${median(plain.map((o) => o[at])).toFixed(0)} ms; median ratio of ${rounds} rounds ${ratio.toFixed(2)}`,
		);
	}
}
