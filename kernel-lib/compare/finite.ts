/** Degrees of freedom as they are reported: 0 where nothing was estimated from scatter, and the normal distribution stands for t. */
export const finite = (df: number): number => (Number.isFinite(df) ? df : 0);
