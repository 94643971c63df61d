import { boundResidualSlope } from "./bound-residual";
import { derivativesAt, type Isotherm } from "./catalogue/index";
import { slopeAt } from "./deviations";
import type { IsothermPoint } from "./points";
import { residuesAt, type Setting, thetas } from "./residue-setting";
import type { Row } from "./shared-errors";

/** How the residual of each point answers to the parameters and to its own errors, for a curve. */
export function rowsAt(
	setting: Setting,
	theta: Float64Array,
	deviations: Float64Array,
): Row[] {
	const { isotherm, points, setOf, index } = setting;
	const expected = residuesAt(setting, theta);
	const own = thetas(setting, theta);
	return points.map((p, i) =>
		placed(
			rowOf(isotherm, own[setOf[i]], p, expected[i], deviations[i]),
			index[setOf[i]],
			theta.length,
		),
	);
}

/** A row of one set among the combined parameters. */
function placed(row: Row, index: readonly number[], size: number): Row {
	const gradient = new Float64Array(size);
	index.forEach((c, j) => {
		gradient[c] += row.gradient[j];
	});
	return { ...row, gradient };
}

function rowOf(
	isotherm: Isotherm,
	theta: Float64Array,
	point: IsothermPoint,
	expected: number,
	deviation: number,
): Row {
	const slope = slopeAt(isotherm, theta, expected);
	const line = point.balance.is === "known" ? point.balance.slope : 1;
	const factor =
		(point.is === "reading"
			? 1
			: -boundResidualSlope((point.concentration - expected) / deviation)) /
		deviation;
	const steepness = line + slope;
	return {
		gradient: derivativesAt(isotherm, theta, expected).map((d) =>
			expected > 0 ? (-d / steepness) * factor : 0,
		),
		perConcentration: (slope / steepness) * factor,
		perUptake: (-1 / steepness) * factor,
	};
}
