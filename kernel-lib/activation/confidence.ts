/** Confidence of every interval of this room. */
export const confidence = 0.95;

/** Half-width of such an interval in standard uncertainties, where the error is normal. */
export const normalCoverage = 1.96;
