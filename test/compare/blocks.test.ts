import { describe, expect, test } from "vitest";
import { type Difference, marginOf } from "../../kernel-lib/compare";
import { createRandom } from "../../kernel-lib/stats";
import {
	compareTreatments,
	type FlaskFixture,
	flasks,
	verdictOf,
} from "./fixtures";

type Estimate = Extract<Difference, { is: "estimate" }>;

function estimate(
	fixtures: readonly FlaskFixture[],
	treatment: string,
): Estimate {
	const { difference } = verdictOf(
		compareTreatments(flasks(fixtures), {
			margin: marginOf(10),
			spread: "pooled",
		}),
		treatment,
	);
	if (difference.is !== "estimate") throw new Error(JSON.stringify(difference));
	return difference;
}

/** Solves a square system by elimination with row exchange: another way than the library's. */
function solve(a: number[][], b: number[]): number[] {
	const m = a.map((row, i) => [...row, b[i]]);
	for (let k = 0; k < m.length; k++) {
		let p = k;
		for (let i = k; i < m.length; i++)
			if (Math.abs(m[i][k]) > Math.abs(m[p][k])) p = i;
		[m[k], m[p]] = [m[p], m[k]];
		for (let i = 0; i < m.length; i++) {
			if (i === k) continue;
			const f = m[i][k] / m[k][k];
			for (let j = k; j <= m.length; j++) m[i][j] -= f * m[k][j];
		}
	}
	return m.map((row, i) => row[m.length] / row[i]);
}

/** Treatment + day by the normal equations with intercept, treated indicators and day contrasts that sum to zero: a parametrisation unlike the library's. */
function byNormalEquations(
	rows: readonly { t: number; dayShares: readonly number[]; y: number }[],
	treatments: number,
	days: number,
): { effects: number[]; s2: number; df: number; variances: number[] } {
	const x = rows.map((r) => [
		1,
		...Array.from({ length: treatments - 1 }, (_, i) =>
			r.t === i + 1 ? 1 : 0,
		),
		...Array.from(
			{ length: days - 1 },
			(_, j) => r.dayShares[j] - r.dayShares[days - 1],
		),
	]);
	const p = x[0].length;
	const xtx = Array.from({ length: p }, (_, i) =>
		Array.from({ length: p }, (_, j) =>
			x.reduce((s, row) => s + row[i] * row[j], 0),
		),
	);
	const xty = Array.from({ length: p }, (_, i) =>
		x.reduce((s, row, k) => s + row[i] * rows[k].y, 0),
	);
	const beta = solve(xtx, xty);
	const rss = rows.reduce(
		(s, r, k) => s + (r.y - x[k].reduce((q, v, i) => q + v * beta[i], 0)) ** 2,
		0,
	);
	const df = rows.length - p;
	const variances = Array.from({ length: treatments - 1 }, (_, i) => {
		const unit = Array.from({ length: p }, (_, j) => (j === i + 1 ? 1 : 0));
		return (solve(xtx, unit)[i + 1] * rss) / df;
	});
	return { effects: beta.slice(1, treatments), s2: rss / df, df, variances };
}

describe("days as blocks", () => {
	test("a balanced trial: differences of means and the residual mean square of treatment + day", () => {
		const y = [
			[101, 123, 96, 110],
			[118, 137, 121, 129],
			[99, 130, 104, 108],
		];
		const names = ["C", "T", "U"];
		const fixtures = y.flatMap((row, i) =>
			row.map((uptake, j) => ({
				flask: `${names[i]}${j}`,
				treatment: names[i],
				control: i > 0 ? "C" : "",
				soak: String(j),
				day: `day ${j}`,
				uptake,
			})),
		);
		const mean = (v: readonly number[]): number =>
			v.reduce((s, a) => s + a, 0) / v.length;
		const grand = mean(y.flat());
		const rows = y.map(mean);
		const cols = y[0].map((_, j) => mean(y.map((r) => r[j])));
		let ss = 0;
		y.forEach((r, i) => {
			r.forEach((v, j) => {
				ss += (v - rows[i] - cols[j] + grand) ** 2;
			});
		});
		const comparison = compareTreatments(flasks(fixtures), {
			margin: marginOf(10),
		});
		expect(comparison.degreesOfFreedom).toBe(12 - 3 - 4 + 1);
		expect(comparison.pooledDeviation ** 2).toBeCloseTo(ss / 6, 9);
		const d = estimate(fixtures, "T");
		expect(d.estimate).toBeCloseTo(rows[1] - rows[0], 10);
		expect(d.standardError).toBeCloseTo(Math.sqrt((ss / 6) * (2 / 4)), 10);
	});

	test("unbalanced, with soaks whose flasks lie on two days: as the normal equations give it", () => {
		const random = createRandom("blocks");
		const names = ["C", "T", "U", "V"];
		const dayEffect = [0, 30, -20];
		for (let trial = 0; trial < 20; trial++) {
			const fixtures: FlaskFixture[] = [];
			const rows: { t: number; dayShares: number[]; y: number }[] = [];
			names.forEach((treatment, t) => {
				const soaks = 2 + random.integer(3);
				for (let s = 0; s < soaks; s++) {
					const count = 1 + random.integer(3);
					const shares = [0, 0, 0];
					let sum = 0;
					for (let f = 0; f < count; f++) {
						// the first soaks of every treatment go round the days, so that nothing is left unconnected
						const day = f === 0 ? (s + t) % 3 : random.integer(3);
						const uptake = 200 + 15 * t + dayEffect[day] + 8 * random.normal();
						shares[day] += 1 / count;
						sum += uptake;
						fixtures.push({
							flask: `${treatment}${s}.${f}`,
							treatment,
							control: t > 0 ? "C" : "",
							soak: `s${s}`,
							day: `day ${day}`,
							uptake,
						});
					}
					rows.push({ t, dayShares: shares, y: sum / count });
				}
			});
			const other = byNormalEquations(rows, 4, 3);
			const comparison = compareTreatments(flasks(fixtures), {
				margin: marginOf(10),
				spread: "pooled",
			});
			expect(comparison.degreesOfFreedom).toBe(other.df);
			expect(comparison.pooledDeviation).toBeCloseTo(Math.sqrt(other.s2), 8);
			names.slice(1).forEach((t, i) => {
				const d = verdictOf(comparison, t).difference;
				if (d.is !== "estimate") throw new Error(d.is);
				expect(d.estimate).toBeCloseTo(other.effects[i], 8);
				expect(d.standardError).toBeCloseTo(Math.sqrt(other.variances[i]), 8);
			});
		}
	});

	test("treatment and day cannot be distinguished: cannot tell, with the reason", () => {
		const fixtures = ["C", "T"].flatMap((treatment, t) =>
			[1, 2, 3].map((i) => ({
				flask: `${treatment}${i}`,
				treatment,
				control: t > 0 ? "C" : "",
				soak: String(i),
				day: t > 0 ? "Tuesday" : "Monday",
				uptake: 100 + 50 * t + i,
			})),
		);
		const v = verdictOf(
			compareTreatments(flasks(fixtures), { margin: marginOf(10) }),
			"T",
		);
		expect(v.word).toBe("cannot tell");
		expect(v.sentence).toBe(
			'"T": at 300 mg/L iodine left, cannot tell: treatment and day cannot be distinguished.',
		);
		expect(v.difference.is).toBe("not available");
		expect(v.replicates.is).toBe("not given");
	});

	test("a third treatment that was measured on both days ties them together", () => {
		const fixtures: FlaskFixture[] = [
			...["Monday", "Monday", "Tuesday", "Tuesday"].map((day, i) => ({
				flask: `B${i}`,
				treatment: "B",
				control: "C",
				soak: String(i),
				day,
				uptake: (day === "Monday" ? 100 : 140) + (i % 2),
			})),
			...[0, 1].map((i) => ({
				flask: `C${i}`,
				treatment: "C",
				soak: String(i),
				day: "Monday",
				uptake: 100 + i,
			})),
			...[0, 1].map((i) => ({
				flask: `T${i}`,
				treatment: "T",
				control: "C",
				soak: String(i),
				day: "Tuesday",
				uptake: 140 + i,
			})),
		];
		expect(estimate(fixtures, "T").estimate).toBeCloseTo(0, 10);
	});
});
