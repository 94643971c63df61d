import { fixed, listed, plainNumber, quoted } from "../../quantity";
import { reagentBlanks } from "../../residue";
import { recoveries } from "../../uptake";
import { flasksOf, type Looked, type Sides, unrecorded } from "./sides";

const daysOf = ({ treated, untreated }: Sides): string[] => [
	...new Set([...treated, ...untreated].map((o) => o.flask.flask.day)),
];

/** Recovery of the blanks without char that raises no question. */
export const recoveryAllowance = { low: 0.95, high: 1.02 } as const;

/** Recoveries of the days of both sides; both sides share them. */
export function recovery(sides: Sides): Looked {
	const found = recoveries(sides.trial);
	const ratios = daysOf(sides).flatMap((day) => {
		const r = found.forDay(day);
		return r.is === "measured" ? [r.ratio.value] : [];
	});
	if (ratios.length === 0) return unrecorded;
	const text = listed([...new Set(ratios.map((r) => fixed(r, 2)))]);
	const { low, high } = recoveryAllowance;
	return {
		is: ratios.every((r) => low <= r && r <= high) ? "within" : "beyond",
		feigns: "nothing",
		treated: text,
		untreated: text,
	};
}

/** A reagent blank takes no more than this, mL of titrant. Our decision. */
export const blankAllowance = 0.5;

export function reagentBlank(sides: Sides): Looked {
	const blanks = reagentBlanks(sides.trial);
	const titres = daysOf(sides).flatMap((day) => {
		const b = blanks.forDay(day);
		return b.is === "none" ? [] : [b.titre.in("mL")];
	});
	if (titres.length === 0) return unrecorded;
	const text = `${listed([...new Set(titres.map((t) => plainNumber(Number(t.toPrecision(2)))))])} mL`;
	return {
		is: titres.every((t) => t <= blankAllowance) ? "within" : "beyond",
		feigns: "nothing",
		treated: text,
		untreated: text,
	};
}

/** The order of titration: one side wholly after the other lets drift of titrant, light and losses look like a difference. */
export function order({ treated, untreated }: Sides): Looked {
	const [one, other] = [treated, untreated].map((side) =>
		flasksOf(side).flatMap((f) =>
			f.titratedAt.recorded ? [f.titratedAt.value.getTime()] : [],
		),
	);
	if (one.length < 2 || other.length < 2) return unrecorded;
	const later = Math.min(...one) > Math.max(...other);
	const earlier = Math.max(...one) < Math.min(...other);
	return {
		is: later || earlier ? "beyond" : "within",
		feigns: "nothing",
		treated: later
			? "all after the control"
			: earlier
				? "all before it"
				: "in turn",
		untreated: later ? "all before" : earlier ? "all after" : "in turn",
	};
}

/** What liquids are measured with, where the sheet names nothing: the errors of good glassware are taken, whatever was used. */
export function glassware({ trial, measuringErrorOnly }: Sides): Looked {
	const measuring = /\b(?:dose|aliquot|titre|made up)\b/;
	const used = trial.instruments.filter((i) => measuring.test(i.usedFor));
	if (used.length === 0) return unrecorded;
	const assumed = used.filter((i) => !i.named);
	const text =
		assumed.length === 0
			? "named"
			: assumed.length === used.length
				? "good glassware (class B), for the sheet names none"
				: `class B for what the sheet does not name (${listed(assumed.map((i) => i.name))})`;
	return {
		is: assumed.length === 0 ? "within" : "beyond",
		// With one flask a treatment the errors of the glassware are all that the word rests on.
		feigns: assumed.length > 0 && measuringErrorOnly ? "either" : "nothing",
		treated: text,
		untreated: text,
	};
}

/** Losses that no iodine blank shows: they are in both uptakes, and taken to be alike. */
export function losses({ treated, untreated, trial }: Sides): Looked {
	const all = [...treated, ...untreated];
	const unknown = all.length > 0 && all.every((o) => !o.flask.lossesTakenOff);
	const text = unknown
		? `losses of ${trial.probe.name} alike on both sides, for no blank without char shows them`
		: "taken off";
	return {
		is: unknown ? "beyond" : "within",
		feigns: "nothing",
		treated: text,
		untreated: text,
	};
}

/** A control that no row names. */
export function controlNamed({ trial, control }: Sides): Looked {
	const guessed = trial.controlByName !== "" && trial.controlByName === control;
	const text = guessed
		? `${quoted(control)} as the control, by its name`
		: "named";
	return {
		is: guessed ? "beyond" : "within",
		feigns: "nothing",
		treated: text,
		untreated: text,
	};
}
