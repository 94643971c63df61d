/** Is told how much of a long computation is done, as a fraction above 0 and up to 1. At most 20 calls, the last with 1. */
export type OnProgress = (fraction: number) => void;

/** More news than this no reader could use, and drawing them would cost more than the work. */
const mostCalls = 20;

/** Makes the function that a loop of `total` rounds calls after each round, with the number of rounds done. */
export function progressOf(
	total: number,
	onProgress: OnProgress | undefined,
): (done: number) => void {
	if (onProgress === undefined) return () => {};
	let told = 0;
	return (done) => {
		const stage = Math.floor((mostCalls * done) / total);
		if (stage <= told) return;
		told = stage;
		onProgress(done / total);
	};
}
