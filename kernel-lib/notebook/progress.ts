import { randomUUID } from "node:crypto";
import { escapeHtml } from "../quantity";
import type { Bundle } from "./display";
import { displayOfRunningKernel } from "./kernel/tslab";

/** Tells how far a work is, from 0 to 1. */
export type Tell = (fraction: number) => void;

/** Least time between two pictures of the bar. */
const pauseMilliseconds = 100;
const barLength = 20;

function percent(fraction: number): number {
	return Number.isFinite(fraction)
		? Math.round(100 * Math.min(1, Math.max(0, fraction)))
		: 0;
}

function going(title: string, fraction: number): Bundle {
	const done = percent(fraction);
	const full = Math.round((done / 100) * barLength);
	return {
		"text/html": `<label>${escapeHtml(title)} <progress value="${done}" max="100"></progress> ${done} %</label>`,
		"text/plain": `${title} [${"#".repeat(full)}${".".repeat(barLength - full)}] ${done} %`,
	};
}

function summary(title: string, end: string): Bundle {
	return {
		"text/html": `<small>${escapeHtml(title)}: ${escapeHtml(end)}</small>`,
		"text/plain": `${title}: ${end}`,
	};
}

/**
 * Does a long work under a bar that fills in place and turns into one line at the end. Outside a notebook nothing is shown.
 *
 * @param title what is being done, e.g. "2,000 resamplings"
 * @param work gets a function to tell how far it is: `(tell) => fit.bootstrap(found, { onProgress: tell })`; may return a promise
 * @returns what the work returned
 * @throws what the work threw; the bar then says how far it had come
 * @example
 * notebook.progress("adding up", (tell) => [1, 2, 3].reduce((sum, x) => sum + x)) // => 6
 */
export function progress<T>(title: string, work: (tell: Tell) => T): T {
	const write = displayOfRunningKernel();
	if (write === null) return work(() => {});
	const transient = { display_id: randomUUID() };
	const show = (data: Bundle, update: boolean): void =>
		write({ data, metadata: {}, transient }, update);
	let reached = 0;
	let shownAt = performance.now();
	show(going(title, 0), false);
	const tell: Tell = (fraction) => {
		reached = fraction;
		const now = performance.now();
		if (now - shownAt < pauseMilliseconds) return;
		shownAt = now;
		show(going(title, fraction), true);
	};
	const end = <V>(value: V): V => {
		show(summary(title, "done"), true);
		return value;
	};
	const stopped = (error: unknown): never => {
		show(summary(title, `stopped at ${percent(reached)} %`), true);
		throw error;
	};
	try {
		const result = work(tell);
		return result instanceof Promise
			? (result.then(end, stopped) as T)
			: end(result);
	} catch (error) {
		return stopped(error);
	}
}
