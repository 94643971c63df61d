/** Statistics of plain numbers, as a course in statistics calls them. */

export { type OneWayAnova, oneWayAnova } from "./anova";
export {
	mean,
	sampleStandardDeviation,
} from "./descriptive";
export { type GrubbsTest, grubbsTest } from "./outliers";
export { type TTest, welchTTest } from "./t-test";
