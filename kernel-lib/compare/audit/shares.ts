import type { Flask } from "../../bench";
import type { LooksLike } from "../../uptake";
import {
	acting,
	type Feigns,
	flasksOf,
	type Looked,
	ofOneSide,
	type Sides,
	shareWith,
	unrecorded,
} from "./sides";

/** Something that a flask has or has not. */
export interface Having {
	readonly has: (flask: Flask) => boolean;
	/** Whether its row says anything of it. */
	readonly says: (flask: Flask) => boolean;
	readonly looksLike: LooksLike;
	/** "open", and "closed" for a flask without it. */
	readonly with: string;
	readonly without: string;
	/** True where it spoils the titration of a flask by itself, alike on both sides or not. */
	readonly spoils: boolean;
}

function textOf(flasks: readonly Flask[], h: Having): string {
	const having = flasks.filter(h.has).length;
	if (having === 0) return flasks.some(h.says) ? h.without : "not recorded";
	return having === flasks.length
		? h.with
		: `${h.with} in ${having} of ${flasks.length}`;
}

function feignedBy(treated: number, untreated: number, h: Having): Feigns {
	if (!h.spoils) {
		if (Math.abs(treated - untreated) < ofOneSide) return "nothing";
		return acting(treated > untreated ? "treated" : "control", h.looksLike);
	}
	const spoilt = [treated >= ofOneSide, untreated >= ofOneSide];
	if (!spoilt.includes(true)) return "nothing";
	if (!spoilt.includes(false)) return "either";
	return acting(spoilt[0] ? "treated" : "control", h.looksLike);
}

/** Flasks that have a thing, on the one side and on the other. What is not recorded of some flasks is not taken for had. */
export const shares =
	(having: Having) =>
	({ treated, untreated }: Sides): Looked => {
		const [one, other] = [treated, untreated].map(flasksOf);
		if (![...one, ...other].some(having.says)) return unrecorded;
		const [a, b] = [one, other].map((side) => shareWith(side, having.has));
		const feigns = feignedBy(a, b, having);
		return {
			is: feigns === "nothing" && a === b ? "within" : "beyond",
			feigns,
			treated: textOf(one, having),
			untreated: textOf(other, having),
		};
	};

/** A text that both sides should have alike: a sieve cut. */
export const texts =
	(text: (flask: Flask) => string) =>
	({ treated, untreated }: Sides): Looked => {
		const plain = (t: string): string =>
			t
				.normalize("NFKC")
				.toLowerCase()
				.replace(/[–—]/g, "-")
				.replace(/\s+/g, "");
		const [one, other] = [treated, untreated].map((side) =>
			flasksOf(side)
				.map(text)
				.filter((t) => t !== ""),
		);
		if (one.length === 0 || other.length === 0) return unrecorded;
		const foreign = (
			own: readonly string[],
			others: readonly string[],
		): number => {
			const known = new Set(others.map(plain));
			return own.filter((t) => !known.has(plain(t))).length / own.length;
		};
		const apart = Math.max(foreign(one, other), foreign(other, one));
		return {
			is: apart > 0 ? "beyond" : "within",
			feigns: apart >= ofOneSide ? "either" : "nothing",
			treated: [...new Set(one)].join(", "),
			untreated: [...new Set(other)].join(", "),
		};
	};
