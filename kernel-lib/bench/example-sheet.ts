/**
 * A first bench sheet as CSV texts, to be saved as NAME.csv and NAME.solutions.csv and overwritten with one's own readings. Its numbers are invented.
 * @example
 * bench.exampleSheet().flasks.split("\n")[1] // => "1,water-soaked,,1.003,40,100,25,6.35,invented example: replace every row"
 */
export function exampleSheet(): {
	readonly flasks: string;
	readonly solutions: string;
} {
	return {
		flasks: [
			"flask,treatment,control,char mass (g),dose 1 (mL),made up to (mL),aliquot (mL),titre (mL),notes",
			"1,water-soaked,,1.003,40,100,25,6.35,invented example: replace every row",
			"2,water-soaked,,0.998,40,100,25,6.40,",
			"3,soda-soaked,water-soaked,1.001,40,100,25,5.80,",
			"4,soda-soaked,water-soaked,1.005,40,100,25,5.65,",
			"",
		].join("\n"),
		solutions: [
			"solution,substance,concentration (N),uncertainty (%),notes",
			"iodine,iodine,0.1,0.5,invented example",
			"thiosulfate,sodium thiosulfate,0.1,0.5,",
			"",
		].join("\n"),
	};
}
