import {
	exactRatio,
	fixed,
	minus,
	type NotKnown,
	named,
	notKnown,
	plus,
	problem,
	type Quantity,
	scaled,
	type Table,
	table,
	throwProblems,
	times,
} from "../quantity";

/** A char of which only the part that sank was tested. */
export interface TestedWithoutFloating {
	/** Uptake of the part that was tested, per gram of it. */
	readonly uptake: Quantity<"uptake">;
	/** Share by dry mass that floated and was left out. */
	readonly floated: Quantity<"ratio">;
}

/** The comparison for the whole chars, if floating grains take up `factor` times what sunk ones do. */
export interface WholeCharComparison {
	readonly factor: number;
	readonly treated: Quantity<"uptake">;
	readonly control: Quantity<"uptake">;
	readonly difference: Quantity<"uptake">;
	/** How far the difference moved from the one that was measured. */
	readonly shift: Quantity<"uptake">;
}

export interface FloatingBias {
	/** The difference as measured, on what sank. */
	readonly difference: Quantity<"uptake">;
	readonly ifFloatingDiffer: readonly WholeCharComparison[];
	/** The factor at which the two whole chars would be alike, where a factor above 0 does that. */
	readonly alikeAt:
		| { readonly is: "factor"; readonly factor: number }
		| NotKnown;
	readonly sentence: string;
}

/**
 * Uptake of the whole char, if the grains that floated and were left out take up `factor` times what the tested ones do: q (1 + F (factor - 1)). The factor is an assumption, not a
 * measurement; 1 says that floating grains are like the others.
 */
export function wholeCharUptake(
	tested: TestedWithoutFloating,
	factor: number,
): Quantity<"uptake"> {
	if (!(factor >= 0) || !Number.isFinite(factor))
		throwProblems([
			problem(
				"factor-out-of-range",
				{},
				`the factor ${factor} for floating grains`,
				"a number of 0 or more",
				"Give what floating grains may take up, as a multiple of the others.",
			),
		]);
	const share = tested.floated.in("1");
	if (!(share >= 0 && share <= 1))
		throwProblems([
			problem(
				"share-out-of-range",
				{},
				`a floated share of ${tested.floated}`,
				"between 0 and 100 %",
				"Look the two masses up again.",
			),
		]);
	return named(
		times(
			tested.uptake,
			plus(exactRatio(1), scaled(tested.floated, factor - 1)),
		),
		"q_{whole}",
		`uptake of the whole char, floating grains taking up ${factor} times the others`,
	);
}

const percent = (q: Quantity<"ratio">): string =>
	`${fixed(100 * q.in("1"), 1)} %`;

/**
 * Why floating grains bias a comparison: light grains are the open, well burnt or the air-filled ones, and a treatment changes how many there are. Throwing them away compares
 * different parts of the two chars. This says how far the difference would move if floating grains took up some other factor times the uptake of the others.
 *
 * @param factors what floating grains might take up, relative to the others; chosen beforehand
 */
export function floatingBias(
	treated: TestedWithoutFloating,
	control: TestedWithoutFloating,
	factors: readonly number[] = [0.5, 2],
): FloatingBias {
	const difference = named(
		minus(treated.uptake, control.uptake),
		"\\Delta q",
		"difference as measured, on what sank",
	);
	const ifFloatingDiffer = factors.map((factor): WholeCharComparison => {
		const [t, c] = [treated, control].map((x) => wholeCharUptake(x, factor));
		const whole = named(
			minus(t, c),
			"\\Delta q_{whole}",
			`difference of the whole chars at a factor of ${factor}`,
		);
		return {
			factor,
			treated: t,
			control: c,
			difference: whole,
			shift: minus(whole, difference),
		};
	});
	// Linear in the factor: 0 = Δq + (factor - 1) slope.
	const slope =
		treated.uptake.in("mg/g") * treated.floated.in("1") -
		control.uptake.in("mg/g") * control.floated.in("1");
	const alike = slope === 0 ? -1 : 1 - difference.in("mg/g") / slope;
	const turns = ifFloatingDiffer.filter(
		(r) => r.difference.value * difference.value < 0,
	);
	return {
		difference,
		ifFloatingDiffer,
		alikeAt:
			alike > 0
				? { is: "factor", factor: alike }
				: notKnown("no factor above 0 makes the two whole chars alike"),
		sentence: [
			`${percent(treated.floated)} of the treated char and ${percent(control.floated)} of the control floated and were left out.`,
			`As measured on what sank, the difference is ${difference}.`,
			...ifFloatingDiffer.map(
				(r) =>
					`If floating grains took up ${r.factor} times what the others do, it would be ${r.difference} for the whole chars.`,
			),
			turns.length > 0
				? "Within these factors the difference changes its sign: the verdict depends on grains that were not tested."
				: "Within these factors the difference keeps its sign; its size is about what sank all the same.",
			alike > 0 && Number.isFinite(alike)
				? `The whole chars would be alike at a factor of ${Number(alike.toPrecision(2))}.`
				: "",
		]
			.filter((s) => s !== "")
			.join(" "),
	};
}

export function floatingBiasTable(bias: FloatingBias): Table {
	return table(
		"If floating grains took up more or less than the others",
		[
			"floating grains take up",
			"treated, whole (mg/g)",
			"control, whole (mg/g)",
			"difference (mg/g)",
			"moved by (mg/g)",
		],
		bias.ifFloatingDiffer.map((r) => [
			`${r.factor} times`,
			r.treated,
			r.control,
			r.difference,
			r.shift,
		]),
		[
			bias.sentence,
			"u holds measuring errors only, and not how flasks or soaks differ. The factors are assumptions: test the floating part by itself, or crush the whole char before it is divided, and none is needed.",
		],
	);
}
