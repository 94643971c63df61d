/** Variance components of trials drawn from known ones: how often their intervals hold the truth. The generator knows nothing of the library. */
import { describe, expect, test } from "vitest";
import {
	type RandomLevel,
	type VarianceComponent,
	varianceComponents,
} from "../../kernel-lib/stats";
import { hold, trialsOf } from "./trials";

const deviations = { day: 3, soak: 4, flask: 2, titration: 1 };
type Name = keyof typeof deviations;
const names = Object.keys(deviations) as Name[];

interface Design {
	readonly name: string;
	readonly treatments: number;
	readonly soaks: number;
	readonly flasks: (treatment: number, soak: number) => number;
	readonly titrations: (soak: number, flask: number) => number;
	readonly days: number;
}

const designs: readonly Design[] = [
	{
		name: "balanced",
		treatments: 3,
		soaks: 4,
		flasks: () => 2,
		titrations: () => 2,
		days: 4,
	},
	{
		name: "unbalanced",
		treatments: 3,
		soaks: 4,
		flasks: (t, s) => 1 + ((t + s) % 3),
		titrations: (s, f) => 1 + ((s + f) % 2),
		days: 4,
	},
	{
		name: "few soaks",
		treatments: 2,
		soaks: 3,
		flasks: (_, s) => 1 + (s % 2),
		titrations: () => 2,
		days: 2,
	},
];

/** Normal numbers by the polar method on a linear congruential generator of Park and Miller. */
function normals(seed: number): () => number {
	let state = seed;
	const uniform = (): number => {
		state = (state * 48271) % 2147483647;
		return state / 2147483647;
	};
	for (let i = 0; i < 10; i++) uniform();
	return () => {
		for (;;) {
			const [u, v] = [2 * uniform() - 1, 2 * uniform() - 1];
			const s = u * u + v * v;
			if (s > 0 && s < 1) return u * Math.sqrt((-2 * Math.log(s)) / s);
		}
	};
}

function drawn(design: Design, seed: number): VarianceComponent[] {
	const normal = normals(seed);
	const values: number[] = [];
	const treatments: string[] = [];
	const labels: Record<Name, string[]> = {
		day: [],
		soak: [],
		flask: [],
		titration: [],
	};
	const days = Array.from(
		{ length: design.days },
		() => deviations.day * normal(),
	);
	for (let t = 0; t < design.treatments; t++)
		for (let s = 0; s < design.soaks; s++) {
			const soak = deviations.soak * normal();
			for (let f = 0; f < design.flasks(t, s); f++) {
				const flask = deviations.flask * normal();
				const day = (s + f) % design.days;
				for (let k = 0; k < design.titrations(s, f); k++) {
					values.push(
						300 +
							10 * t +
							days[day] +
							soak +
							flask +
							deviations.titration * normal(),
					);
					treatments.push(String(t));
					labels.day.push(String(day));
					labels.soak.push(`${t}.${s}`);
					labels.flask.push(`${t}.${s}.${f}`);
					labels.titration.push(String(values.length));
				}
			}
		}
	const levels = names.map(
		(name): RandomLevel => ({ name, groups: labels[name] }),
	);
	return varianceComponents(values, treatments, levels, 0.95);
}

const asked = 2000;

describe.each(designs)("$name", (design) => {
	const trials = trialsOf(asked, 60);
	const runs = Array.from({ length: trials }, (_, i) =>
		drawn(design, 1000 + 7 * i),
	);
	test.each(names)("%s", (name) => {
		const truth = deviations[name] ** 2;
		const known = runs
			.map((r) => r[names.indexOf(name)])
			.filter((c) => c.is !== "not known");
		const mean = known.reduce((sum, c) => sum + c.estimate, 0) / known.length;
		// In few trials the mean of a component may lie far off; it is of the right size.
		expect(mean / truth).toBeGreaterThan(0.5);
		expect(mean / truth).toBeLessThan(2);
		hold({
			simulation: "variance components",
			design: design.name,
			what: `${name}: its 95 % interval holds it`,
			hits: known.filter((c) => c.low <= truth && truth <= c.high).length,
			trials: known.length,
			asked,
			least: 0.93,
		});
	});
});
