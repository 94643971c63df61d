import { grouped } from "../../quantity";
import type { FiringUptake } from "./link";

const flaskList = (own: readonly FiringUptake[]): string =>
	`${own.length === 1 ? "Flask" : "Flasks"} ${own.map((u) => u.flask.name).join(", ")}`;

/** Flasks without a firing and why, one sentence a reason. */
export function unlinkedSentences(uptakes: readonly FiringUptake[]): string[] {
	const reasons = grouped(
		uptakes.filter((u) => u.firing.is === "not known"),
		(u) => (u.firing.is === "not known" ? u.firing.because : ""),
	);
	return [...reasons].map(
		([because, own]) => `${flaskList(own)}: no firing is known; ${because}.`,
	);
}
