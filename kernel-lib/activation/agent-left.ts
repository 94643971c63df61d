import {
	correlatedInputs,
	known,
	type MaybeKnown,
	type Measured,
	mapMeasured,
	type NotKnown,
	named,
	notKnown,
	per,
	type Quantity,
	quoted,
	scaled,
	times,
} from "../quantity";
import { strengthByConductivity } from "./agent-masses";
import { dryProduct } from "./dry-masses";
import type { FittedWashout } from "./washout";
import { dilutionExponent } from "./washout-model";

/** Agent still in the char after the last rinse. */
export interface AgentLeft {
	readonly mass: Measured<"mass"> | NotKnown;
	/** Of the dry product. */
	readonly share: Measured<"ratio"> | NotKnown;
	readonly sentence: string;
}

const lag =
	"the model takes the liquor in the char as wholly mixed; agent deep in the pores comes on top";

/** Retained volume and conductivity beyond the water's after the last rinse, as the fit gives them, with their correlation. */
function lastLiquor(
	washed: FittedWashout,
): MaybeKnown<readonly [Quantity<"volume">, Quantity<"conductivity">]> {
	const { fit, volumes, nextVolume, firing } = washed;
	if (fit.covariance.is === "not known")
		return notKnown("the washout model has no errors");
	const size = fit.theta.length;
	const c = fit.covariance.value;
	const exponent = dilutionExponent(
		volumes,
		volumes.length,
		washed.retained,
		nextVolume,
	);
	const excess = Math.exp(fit.theta[0] - exponent);
	// d ln(excess) / d ln(V_r) = sum of V_k / (V_r + V_k)
	const slope = volumes.reduce((s, v) => s + v / (washed.retained + v), 0);
	const varRetained = c[size + 1];
	const varExcess = c[0] + 2 * slope * c[1] + slope * slope * c[size + 1];
	const covariance = c[1] + slope * c[size + 1];
	const r =
		varRetained > 0 && varExcess > 0
			? covariance / Math.sqrt(varRetained * varExcess)
			: 0;
	const liquor = correlatedInputs(
		[
			{
				kind: "volume",
				unit: "mL",
				value: washed.retained,
				standardUncertainty: washed.retained * Math.sqrt(varRetained),
				symbol: "V_r",
				meaning: `liquor retained between rinses, firing ${quoted(firing.name)}`,
			},
			{
				kind: "conductivity",
				unit: "µS/cm",
				value: excess,
				standardUncertainty: excess * Math.sqrt(varExcess),
				symbol: "\\Delta\\kappa_N",
				meaning: `conductivity of the liquor beyond the water's after the last rinse, firing ${quoted(firing.name)}`,
			},
		] as const,
		[
			[1, r],
			[r, 1],
		],
		`washout model fitted to the ${washed.points.length} readings of firing ${quoted(firing.name)}`,
		fit.degreesOfFreedom,
	) as readonly [Quantity<"volume">, Quantity<"conductivity">];
	return known(liquor);
}

function massLeft(washed: FittedWashout): Measured<"mass"> | NotKnown {
	if (washed.reading === "pH")
		return notKnown(
			"pH does not say how much agent there is; fit the washing to conductivity",
		);
	const liquor = lastLiquor(washed);
	if (liquor.is === "not known") return liquor;
	const [volume, excess] = liquor.value;
	const strength = strengthByConductivity(washed.firing, scaled(excess, 1));
	return strength.is === "not known"
		? strength
		: {
				is: "at least",
				quantity: named(
					times(strength.quantity, volume),
					"m_{\\text{agent left}}",
					`agent in the liquor retained, firing ${quoted(washed.firing.name)}`,
				).to("mg"),
				because: lag,
			};
}

/**
 * Agent still in the pores after the last rinse, from the liquor retained: m = V_r c_N, with c_N by conductivity in proportion to the reference solution. Always "at least": the
 * pores lag behind the well-mixed model.
 */
export function agentLeft(washed: FittedWashout): AgentLeft {
	const mass = massLeft(washed);
	const product = dryProduct(washed.firing);
	const share =
		product.is === "not known"
			? product
			: mapMeasured(mass, (m) =>
					named(
						per(m, product.quantity).to("%"),
						"w_{\\text{agent left}}",
						`agent left per dry product, firing ${quoted(washed.firing.name)}`,
					),
				);
	return {
		mass,
		share,
		sentence:
			mass.is === "not known"
				? `Agent still in ${quoted(washed.firing.name)}: not known, for ${mass.because}.`
				: `Agent still in ${quoted(washed.firing.name)} after ${washed.volumes.length} rinses: at least ${mass.quantity.to("mg")}; ${lag}.`,
	};
}
