/**
 * The figures of ASTM D4607 (standard test method for the iodine number of activated carbon), from memory of the 1994 text with its reapprovals; scope and the
 * principle (three dosages, log-log line, reported at 0.02 N) were seen in print. What follows from volumes (its 12693.0 and 2.2) is computed from the volumes here.
 */
export const d4607 = {
	/** Iodine per equivalent as the standard uses it; 126.904 is the value of today's atomic weight. */
	milligramsPerMilliequivalent: 126.93,
	iodineVolume_mL: 100,
	acidVolume_mL: 10,
	aliquot_mL: 50,
	iodineNormality: 0.1,
	iodineNormalityTolerance: 0.001,
	/** Residual normalities that a point must lie between. */
	windowLow_N: 0.008,
	windowHigh_N: 0.04,
	reportedAt_N: 0.02,
	leastCorrelation: 0.995,
	leastDosages: 3,
	/** Repeatability and reproducibility between 600 and 1450 mg/g, percent; from memory, not verified. */
	repeatability_percent: 5.6,
	reproducibility_percent: 10.2,
} as const;
