import { normalQuantile, studentTQuantile } from "../stats";
import { once } from "./once";

/**
 * An error whose size is known from few readings counts so many times: t(0.975; v) / z(0.975), so that its own 95 % interval is the right one whatever else stands beside it (6.5 times for two readings, 2.2 for three, 1.3 for
 * six). Welch and Satterthwaite's formula spreads the doubt over all components and comes out too narrow where the few readings agree by chance. Our decision.
 *
 * @param degreesOfFreedom Infinity where the size is taken as known: 1
 */
export const fewReadingsFactor: (degreesOfFreedom: number) => number = once(
	(degreesOfFreedom) =>
		Number.isFinite(degreesOfFreedom)
			? studentTQuantile(0.975, degreesOfFreedom) / normalQuantile(0.975)
			: 1,
);
