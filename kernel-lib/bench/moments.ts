/** A date, or a date with a time of day. Times without a zone are taken as they stand, as if on one clock. */
export interface Moment {
	readonly date: Date;
	readonly hasTime: boolean;
}

const iso =
	/^(\d{4})-(\d{1,2})-(\d{1,2})(?:[T ]+(\d{1,2}):(\d{2})(?::(\d{2})(?:\.\d+)?)?\s*(Z|[+-]\d{2}:?\d{2})?)?$/;

/** Reads an ISO date or date and time; null for anything else, 31 February included. */
export function readMoment(text: string): Moment | null {
	const m = iso.exec(text);
	if (m === null) return null;
	const [year, month, day, hour, minute, second] = [1, 2, 3, 4, 5, 6].map((i) =>
		Number(m[i] ?? 0),
	);
	const date = new Date(Date.UTC(year, month - 1, day, hour, minute, second));
	// 31 February would be in March, month 13 in January.
	const kept =
		date.getUTCMonth() === month - 1 && hour < 24 && minute < 60 && second < 60;
	if (!kept) return null;
	const zone = m[7] ?? "Z";
	if (zone !== "Z") {
		const sign = zone[0] === "-" ? -1 : 1;
		const offset = Number(zone.slice(1, 3)) * 60 + Number(zone.slice(-2));
		date.setTime(date.getTime() - sign * offset * 60_000);
	}
	return { date, hasTime: m[4] !== undefined };
}
