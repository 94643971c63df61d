/** Statistics that know nothing of chemistry: random numbers, distributions, quadrature, simultaneous comparisons, tests, power. */
export { holmAdjustedP } from "./adjusted-p";
export { type OneWayAnova, oneWayAnova } from "./anova";
export {
	chiSquareCdf,
	chiSquareDensity,
	chiSquareQuantile,
	chiSquareUpperTail,
} from "./chi-square";
export {
	standardDeviationUpperLimit,
	type UncertaintyComponent,
	welchSatterthwaite,
} from "./degrees-of-freedom";
export {
	mean,
	sampleCovariance,
	sampleStandardDeviation,
	sampleVariance,
	sumOfSquares,
} from "./descriptive";
export { type DrawnSeed, drawnSeeds, noteSeed } from "./drawn-seeds";
export { fCdf, fQuantile, fUpperTail } from "./f-distribution";
export { type ManyToOne, manyToOne } from "./many-to-one";
export {
	type Alternative,
	type BoxProbability,
	boxProbability,
	type CorrelationMatrix,
	type SimultaneousFamily,
	simultaneousAdjustedP,
	simultaneousCriticalValue,
	simultaneousFamily,
} from "./multivariate-t";
export { type NestedModel, nestedModel } from "./nested-model";
export { noncentralTCdf, noncentralTUpperTail } from "./noncentral-t";
export { normalCdf, normalDensity, normalQuantile } from "./normal";
export {
	cochranCriticalValue,
	type GrubbsTest,
	grubbsCriticalValue,
	grubbsTest,
} from "./outliers";
export {
	detectableDifference,
	powerOfContrast,
	replicatesForPower,
	type TwoGroupPlan,
	tTestPower,
} from "./power";
export { gaussLegendre, integrate, type QuadratureRule } from "./quadrature";
export { createRandom, type Random } from "./random";
export { bracketedRoot } from "./root";
export type {
	MeanDifference,
	MeanPair,
} from "./simultaneous-differences";
export { createSobol, SOBOL_MAX_DIMENSIONS, type Sobol } from "./sobol";
export {
	studentTCdf,
	studentTDensity,
	studentTQuantile,
	studentTTwoSidedP,
	studentTUpperTail,
} from "./student-t";
export { pooledTTest, type TTest, welchTTest } from "./t-test";
export {
	type RandomLevel,
	type VarianceComponent,
	varianceComponents,
} from "./variance-components";
