import { describe, expect, test } from "vitest";
import { type FitData, fit as fitCurve } from "../../kernel-lib/fit";
import {
	betLiquid,
	dualSiteLangmuir,
	dubininRadushkevich,
	freundlich,
	henry,
	type Isotherm,
	langmuir,
	redlichPeterson,
	sips,
	temkin,
	toth,
} from "../../kernel-lib/isotherms/catalogue/index";
import { createRandom } from "../../kernel-lib/stats";
import { referenceData } from "../reference/check";
import { fitNist, nistSets } from "../reference/nist-nonlinear.checks";
import { apart } from "./fixtures";

interface SyntheticSet {
	readonly id: string;
	readonly weights: string;
	readonly x: number[];
	readonly y: number[];
	readonly fit: { readonly params: number[]; readonly ssr: number };
}
const { sets } = referenceData<{ sets: SyntheticSet[] }>("synthetic-fits.json");
const { starts, boxes, nist } = referenceData<{
	starts: number;
	nist: { starts: number; factor: number };
	boxes: Readonly<Record<string, readonly (readonly [number, number])[]>>;
}>("start-boxes.json");

const isotherms: Readonly<Record<string, Isotherm>> = {
	"henry-1": henry,
	"langmuir-1": langmuir,
	"langmuir-weighted-1": langmuir,
	"freundlich-1": freundlich,
	"sips-1": sips,
	"toth-1": toth,
	"redlich-peterson-1": redlichPeterson,
	"temkin-1": temkin,
	"dr-one-over-c-1": dubininRadushkevich(298.15, {
		form: "one over C",
		molarMass: 0.001,
	}),
	"dr-polanyi-1": dubininRadushkevich(298.15, {
		form: "solubility",
		solubility: 1300,
	}),
	"dual-site-langmuir-1": dualSiteLangmuir,
	"bet-liquid-1": betLiquid(250),
};

/** The two kinds of sites may change names; the stronger stands first in the reference. */
function inOrder(id: string, theta: Float64Array): Float64Array {
	return id === "dual-site-langmuir-1" && theta[1] < theta[3]
		? Float64Array.of(theta[2], theta[3], theta[0], theta[1])
		: theta;
}

/** How the fits of one set from all its starts ended. */
function outcomes(set: SyntheticSet): { right: number; wrong: string[] } {
	const { model } = isotherms[set.id];
	const random = createRandom(set.id);
	const data: FitData = {
		x: set.x,
		y: set.y,
		...(set.weights === "none"
			? {}
			: { sigmaY: set.y, sigmaIsAbsolute: false }),
	};
	let right = 0;
	const wrong: string[] = [];
	for (let k = 0; k < starts; k++) {
		const start = Object.fromEntries(
			boxes[set.id].map(([low, high], j) => [
				model.parameters[j].name,
				low * (high / low) ** random.uniform(),
			]),
		);
		const found = fitCurve(model, data, { start });
		if (!found.converged.holds) continue;
		if (apart(inOrder(set.id, found.theta), set.fit.params) < 1e-4) right++;
		else
			wrong.push(
				`from ${JSON.stringify(start)} to ${found.theta.join(", ")}, RSS ${found.residualSumOfSquares} against ${set.fit.ssr}`,
			);
	}
	return { right, wrong };
}

describe(`${starts} starts from a box stated beforehand: none ends converged at wrong values`, () => {
	test.each(Object.keys(boxes))("%s", (id) => {
		const set = sets.find((s) => s.id === id);
		if (set === undefined) throw new Error(`no set ${id}`);
		const { right, wrong } = outcomes(set);
		expect(wrong).toEqual([]);
		// And the promise is not kept by giving up.
		expect(right).toBe(starts);
	});
});

describe(`${nist.starts} more starts for every NIST set, parameters off by factors of up to ${nist.factor}`, () => {
	test("none ends converged at a minimum that is not the lowest, and hardly any gives up", () => {
		const wrong: string[] = [];
		let right = 0;
		for (const set of nistSets) {
			const random = createRandom(set.name);
			for (let k = 0; k < nist.starts; k++) {
				const start = set.certifiedParams.map(
					(p) => p * nist.factor ** (2 * random.uniform() - 1),
				);
				const found = fitNist(set, start);
				if (!found.converged.holds) continue;
				// Exchangeable terms may change places, so the sum of squares is what tells; that of Lanczos1 is rounding.
				const ratio = found.residualSumOfSquares / set.certifiedRSS;
				if (Math.abs(ratio - 1) < 1e-4 || found.residualSumOfSquares < 1e-20)
					right++;
				else wrong.push(`${set.name} from ${start.join(", ")}`);
			}
		}
		expect(wrong).toEqual([]);
		expect(right).toBeGreaterThanOrEqual(0.98 * nist.starts * nistSets.length);
	});
});
