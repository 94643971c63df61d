/** What one descent is told: limits, where it ends, how far its first step may go. */
export interface DescentSettings {
	readonly lower: Float64Array;
	readonly upper: Float64Array;
	readonly tolerance: number;
	readonly maxEvaluations: number;
	/** First radius of the trust region, in units of the scaled start. */
	readonly firstRadius: number;
}
