/** Flasks as the comparison sees them, as they stand. */
import { expect, test } from "vitest";
import {
	drawnFlasks,
	observationsOf,
} from "../../kernel-lib/compare/observations";
import { flasks } from "./fixtures";

const observations = observationsOf(
	flasks([
		{
			flask: "a",
			treatment: "steam",
			uptake: 100,
			reading: 3,
			shared: { titrant: 4, blank: 12 },
		},
		{
			flask: "b",
			treatment: "water",
			uptake: 50,
			is: "at least",
			reading: 5,
			shared: { titrant: 12, blank: 0 },
		},
	]),
);

test("plain numbers in mg/g, and whether they are values", () => {
	expect(
		observations.list.map(({ name, treatment, value, side }) => ({
			name,
			treatment,
			value,
			side,
		})),
	).toEqual([
		{ name: "a", treatment: "steam", value: 100, side: "value" },
		{ name: "b", treatment: "water", value: 50, side: "at least" },
	]);
	expect(observations.slopes).toEqual([]);
});

test("errors of one flask alone and those that both lean on, whatever the residue", () => {
	const { errors } = observations;
	expect([...errors.ownVariance]).toEqual([
		expect.closeTo(9, 10),
		expect.closeTo(25, 10),
	]);
	const titrant = errors.shared.map((s) => [...s.effect].map(Math.round));
	expect(titrant).toContainEqual([4, 12]);
});

test("a flask is drawn with all of them: its own, what differs between replicates, and what it shares", () => {
	expect(drawnFlasks(observations).map((d) => d.uncertainty)).toEqual([
		expect.closeTo(13, 9),
		expect.closeTo(13, 9),
	]);
	const { errors } = observations;
	const [replicated] = drawnFlasks({
		...observations,
		errors: { ...errors, replicateVariance: Float64Array.of(56, 0) },
	});
	expect(replicated.uncertainty).toBeCloseTo(15, 9);
});
