import * as properties from "../../kernel-lib/properties/index";
import {
	exact,
	input,
	type Kind,
	type Measured,
	type NotKnown,
	type Quantity,
	type UnitOf,
} from "../../kernel-lib/quantity";
import { type Check, referenceData } from "./check";

interface WeighingsInGrams {
	readonly dish_g: number;
	readonly dishAndSample_g: number;
	readonly dishAfter_g: number;
}

const data = referenceData<{
	source: string;
	moisture: WeighingsInGrams & {
		wetBasis_percent: number;
		dryBasis_percent: number;
	};
	totalAsh: WeighingsInGrams & { percent: number };
	apparentDensity: {
		mass_g: number;
		volume_mL: number;
		moisture_percent: number;
		dry_g_mL: number;
		asReceived_g_mL: number;
	};
	extractDose: {
		dryMass_g: number;
		moisture_percent: number;
		sample_g: number;
	};
	particleSize: {
		openings_mm: number[];
		retained_g: number[];
		meanOpenings_mm: number[];
		pan_g: number;
		panMeanOpening_mm: number;
		passing_percent: number[];
		meanDiameter_mm: number;
		effectiveSize_mm: number;
		sixtyPercentSize_mm: number;
		uniformityCoefficient: number;
	};
	uptakeOnBasis: {
		from: properties.Basis;
		to: properties.Basis;
		uptake_mg_g: number;
		moisture_percent: number;
		ash_percent: number;
		expected_mg_g: number;
	}[];
}>("char-properties.json");

function known<K extends Kind>(
	kind: K,
	value: number,
	unit: UnitOf<K>,
): Quantity<K> {
	return input(kind, value, unit, exact, {});
}

function weighings(w: WeighingsInGrams): properties.Weighings {
	return {
		dish: known("mass", w.dish_g, "g"),
		dishAndSample: known("mass", w.dishAndSample_g, "g"),
		dishAfter: known("mass", w.dishAfter_g, "g"),
	};
}

function sizes(): properties.ParticleSizes {
	const d = data.particleSize;
	return properties.particleSizes({
		sieves: d.openings_mm.map((opening, i) => ({
			opening: known("length", opening, "mm"),
			retained: known("mass", d.retained_g[i], "g"),
			meanOpening: known("length", d.meanOpenings_mm[i], "mm"),
		})),
		pan: known("mass", d.pan_g, "g"),
		panMeanOpening: known("length", d.panMeanOpening_mm, "mm"),
	});
}

/** The value of an outcome; a limit is none. */
function told<K extends Kind>(
	outcome: Measured<K> | NotKnown,
	unit: UnitOf<K>,
): number {
	return outcome.is === "value" ? outcome.quantity.in(unit) : Number.NaN;
}

function density(dried: boolean): number {
	const d = data.apparentDensity;
	return properties
		.apparentDensity(
			{
				mass: known("mass", d.mass_g, "g"),
				volume: known("volume", d.volume_mL, "mL"),
			},
			dried
				? { is: "dried" }
				: { is: "moist", moisture: known("ratio", d.moisture_percent, "%") },
		)
		.in("g/mL");
}

function check(
	what: string,
	expected: number,
	unit: string,
	got: () => number,
): Check {
	return {
		what,
		source: data.source,
		provenance: "computed with a general library",
		expected,
		got,
		tolerance: 1e-9,
		unit,
	};
}

export const charPropertyChecks: Check[] = [
	check("moisture, wet basis", data.moisture.wetBasis_percent, "%", () =>
		properties.moisture(weighings(data.moisture)).in("%"),
	),
	check("moisture, dry basis", data.moisture.dryBasis_percent, "%", () =>
		properties
			.moistureOnDryBasis(properties.moisture(weighings(data.moisture)))
			.in("%"),
	),
	check("total ash", data.totalAsh.percent, "%", () =>
		properties.totalAsh(weighings(data.totalAsh)).in("%"),
	),
	check("apparent density, dry", data.apparentDensity.dry_g_mL, "g/mL", () =>
		density(false),
	),
	check(
		"apparent density, as it came",
		data.apparentDensity.asReceived_g_mL,
		"g/mL",
		() => density(true),
	),
	check("moist char for 10 g of dry char", data.extractDose.sample_g, "g", () =>
		properties
			.massForDryMass(
				known("mass", data.extractDose.dryMass_g, "g"),
				known("ratio", data.extractDose.moisture_percent, "%"),
			)
			.in("g"),
	),
	...data.particleSize.passing_percent.map((percent, i) =>
		check(`passes ${data.particleSize.openings_mm[i]} mm`, percent, "%", () =>
			sizes().passing[i].share.in("%"),
		),
	),
	check("effective size", data.particleSize.effectiveSize_mm, "mm", () =>
		told(sizes().effectiveSize, "mm"),
	),
	check(
		"size that 60 % is finer than",
		data.particleSize.sixtyPercentSize_mm,
		"mm",
		() => told(sizes().sixtyPercentSize, "mm"),
	),
	check(
		"uniformity coefficient",
		data.particleSize.uniformityCoefficient,
		"",
		() => told(sizes().uniformityCoefficient, "1"),
	),
	check("mean particle diameter", data.particleSize.meanDiameter_mm, "mm", () =>
		told(sizes().meanDiameter, "mm"),
	),
	...data.uptakeOnBasis.map((c) =>
		check(`uptake from "${c.from}" to "${c.to}"`, c.expected_mg_g, "mg/g", () =>
			properties
				.toBasis(known("uptake", c.uptake_mg_g, "mg/g"), c.from, c.to, {
					moisture: known("ratio", c.moisture_percent, "%"),
					ash: known("ratio", c.ash_percent, "%"),
				})
				.in("mg/g"),
		),
	),
];
