import { inDigits, roughly } from "../isotherms";
import { type Problem, problem } from "../quantity";

/** Removals that span less than this many percent show no rise. Our decision. */
const leastRise = 10;

/** Problems with doses and removals that a form with so many free parameters is to be fitted to. */
export function responseProblems(
	doses: readonly number[],
	removals: readonly number[],
	free: number,
): Problem[] {
	if (doses.length !== removals.length)
		return [
			problem(
				"unequal-lengths",
				{ column: "removal" },
				`${doses.length} doses and ${removals.length} removals`,
				"one removal for each dose",
				"Leave out what has no partner.",
			),
		];
	const broken = brokenPairs(doses, removals);
	return broken.length > 0
		? broken
		: [...fewDoses(doses, free), ...noRise(doses, removals)].slice(0, 1);
}

function brokenPairs(
	doses: readonly number[],
	removals: readonly number[],
): Problem[] {
	return doses.flatMap((dose, i) =>
		Number.isFinite(dose) && dose >= 0 && Number.isFinite(removals[i])
			? []
			: [
					problem(
						"not-a-number",
						{ column: "dose and removal", row: i + 1 },
						`${dose} g/L and ${removals[i]} %`,
						"a dose of 0 or more and a finite removal",
						"Leave the flask out, or give its values.",
					),
				],
	);
}

function fewDoses(doses: readonly number[], free: number): Problem[] {
	const different = new Set(doses).size;
	if (different <= 1)
		return [
			problem(
				"one-dose-only",
				{ column: "dose" },
				different === 0 ? "no flask" : `one dose only, ${doses[0]} g/L`,
				`at least ${free + 1} different doses`,
				"Flasks of the same water with a quarter, a half, twice and four times that dose would show how the removal rises.",
			),
		];
	return different < free + 1
		? [
				problem(
					"too-few-doses",
					{ column: "dose" },
					`${different} different doses for ${free} free parameters`,
					`at least ${free + 1}`,
					"Add doses between those that remove little and those that remove nearly all, or hold floor and ceiling where the chemistry gives them.",
				),
			]
		: [];
}

function noRise(
	doses: readonly number[],
	removals: readonly number[],
): Problem[] {
	const low = Math.min(...removals);
	const high = Math.max(...removals);
	const flasks = (...times: readonly number[]): string => {
		const dose = times[0] < 1 ? Math.min(...doses) : Math.max(...doses);
		const [a, b, c] = times.map((f) => roughly(f * dose));
		return `Flasks with ${a}, ${b} and ${c} g of char per litre would show`;
	};
	return high - low < leastRise
		? [
				problem(
					"all-on-the-plateau",
					{ column: "removal" },
					`removals of ${inDigits(low, 3)} to ${inDigits(high, 3)} %, all ${low > 50 ? "on the plateau" : "at the foot"} of the curve`,
					"removals from little to nearly all",
					low > 50
						? `${flasks(1 / 16, 1 / 8, 1 / 4)} the rise.`
						: `${flasks(4, 8, 16)} it.`,
				),
			]
		: [];
}
