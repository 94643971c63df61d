/** Flasks whose start differs by more from that of the curve do not belong to it. Our decision. */
const sameStartWithin = 0.05;

/** Whether a flask started like the curve; any does where the curve has no start. */
export function startsAlike(
	flask: { readonly start: number },
	start: number,
): boolean {
	return start <= 0 || Math.abs(flask.start / start - 1) <= sameStartWithin;
}
