import {
	exact,
	input,
	named,
	plus,
	type Quantity,
	rectangular,
	stated,
	times,
} from "../../quantity";

/** Volumetric expansion of water near 20 °C, per °C, as EURACHEM/CITAC QUAM takes it; from memory. Glass (about 1e-5) is small beside it. */
const waterExpansion = 2.1e-4;

/**
 * A volume that was used at a temperature within plus or minus `halfWidth` °C of the 20 °C of its calibration, every temperature equally likely: V (1 + β ΔT) with ΔT = 0.
 *
 * All volumes share the temperature of the room.
 */
export function withTemperatureSpread(
	volume: Quantity<"volume">,
	halfWidth: number,
): Quantity<"volume"> {
	const beta = input("perTemperature", waterExpansion, "1/°C", exact, {
		symbol: "β",
		meaning: "volumetric expansion of water",
		source: stated(
			"2.1e-4 per °C near 20 °C; from memory: EURACHEM/CITAC QUAM",
		),
	});
	const spread = input(
		"temperatureDifference",
		0,
		"°C",
		rectangular(halfWidth),
		{
			symbol: "ΔT",
			meaning: `temperature of the room less 20 °C`,
			source: stated(`within ${halfWidth} °C of 20 °C`),
		},
	);
	return named(
		plus(volume, times(volume, times(beta, spread))),
		volume.name.symbol,
		volume.name.meaning,
	);
}
