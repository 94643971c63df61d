import { type Firing, type Flask, firingKey, type Trial } from "../bench";
import { known, notKnown } from "../quantity";
import { charMassOf } from "../residue";
import {
	type NamedSubstance,
	type Substance,
	substancesIn,
} from "../substances";
import type {
	IodineDemand,
	LooksLike,
	SoakCeiling,
	SoakSuspicion,
} from "./flask-uptake";
import { ceilingOf } from "./soak-ceiling";

/** A label such as "I2" or "O3" counts soaks; it is no formula there. */
const label = /^\p{L}\p{N}$/u;

/** The treatment names what was done and a soak which one it was: iodine there is what was titrated, and a word that is not on the list is no name of a substance. */
function namedByLabel(text: string): NamedSubstance[] {
	return substancesIn(text).filter(
		(s) =>
			s.is === "known" &&
			s.substance.name !== "iodine" &&
			!label.test(s.written),
	);
}

/** The firing that a flask's char came from, named by its soak or its char batch, and those that its precursor came from. */
export function firingsOf({ firings }: Trial, flask: Flask): readonly Firing[] {
	const byName = new Map(firings.map((f) => [firingKey(f.name), f]));
	const chain: Firing[] = [];
	let next =
		byName.get(firingKey(flask.soak)) ?? byName.get(firingKey(flask.charBatch));
	while (next !== undefined && !chain.includes(next)) {
		chain.push(next);
		next = byName.get(firingKey(next.precursorBatch));
	}
	return chain;
}

/** All that the sheet says of what a flask's char was treated with: soak, treatment, agents of its firings. */
export const soakTexts = (trial: Trial, flask: Flask): readonly string[] => [
	flask.soakedIn,
	flask.treatment,
	flask.soak,
	...firingsOf(trial, flask).map((f) => f.agent),
];

/** Names of the listed substances among the agents of a flask's firings. */
export function agentsOf(trial: Trial, flask: Flask): ReadonlySet<string> {
	return new Set(
		firingsOf(trial, flask)
			.flatMap((f) => substancesIn(f.agent))
			.flatMap((s) => (s.is === "known" ? [s.substance.name] : [])),
	);
}

/** Says that there was no soak; ordinary words around it do not matter. */
const saysNone =
	/\b(?:not soaked|unsoaked|no soak|never soaked|nothing|none)\b/iu;

/** Words of the treatment and the soak that are neither listed nor ordinary; the name of a firing is a label. */
function unknownOfLabels(trial: Trial, flask: Flask): NamedSubstance[] {
	const ofFirings = firingsOf(trial, flask).map((f) => firingKey(f.name));
	return [flask.treatment, flask.soak]
		.filter((text) => !ofFirings.includes(firingKey(text)))
		.flatMap((text) => substancesIn(text))
		.filter((s) => s.is === "not known");
}

/**
 * What the sheet names a flask's soak by: all of what it was soaked in and of the agents of its firings, and the substances in the names of treatment and soak. Where the sheet does not
 * say otherwise what it was soaked in, a word of these that is not known may be the name of what it was.
 */
export function soakNames(
	trial: Trial,
	flask: Flask,
): readonly NamedSubstance[] {
	const agents = [
		...substancesIn(flask.soakedIn),
		...firingsOf(trial, flask).flatMap((f) => substancesIn(f.agent)),
	];
	const labels = [
		...namedByLabel(flask.treatment),
		...namedByLabel(flask.soak),
	];
	const named = [...agents, ...labels];
	return named.length > 0 || saysNone.test(flask.soakedIn)
		? named
		: unknownOfLabels(trial, flask);
}

/** The listed substances of a flask's soak. */
export function soakSubstances(
	trial: Trial,
	flask: Flask,
): readonly Substance[] {
	return soakNames(trial, flask).flatMap((s) =>
		s.is === "known" ? [s.substance] : [],
	);
}

/** What remains of one thing that a soak names may do to iodine. */
interface Remains {
	readonly consumes: boolean;
	readonly frees: boolean;
	readonly because: string;
}

const alkaliToo =
	"it also makes the liquid alkaline, and iodine disproportionates in alkali";

/** An oxidiser in alkali (bleach) may do either: it frees iodine, and what is left when it is spent consumes it. */
function remainsOf(named: NamedSubstance): Remains {
	if (named.is === "not known")
		return {
			consumes: true,
			frees: true,
			because: `${named.because}: whether what is left of it in the char consumes or frees iodine is not known`,
		};
	const { iodine, acidity } = named.substance;
	const unknown = iodine.is === "unknown";
	const frees = iodine.is === "frees iodine";
	const alkaline = frees && acidity === "alkaline";
	return {
		consumes: unknown || alkaline || iodine.is === "consumes iodine",
		frees: unknown || frees,
		because: alkaline ? `${iodine.because}; ${alkaliToo}` : iodine.because,
	};
}

function suspicionOf({ consumes, frees, because }: Remains): SoakSuspicion[] {
	if (!consumes && !frees) return [];
	return [
		{
			looksLike:
				consumes && frees ? "either" : consumes ? "more uptake" : "less uptake",
			because,
		},
	];
}

/** What several suspicions may look like together. */
export function jointly(list: readonly LooksLike[]): LooksLike {
	return list.every((l) => l === list[0]) ? list[0] : "either";
}

/** What remains of a soak may do, in the words of a sentence. */
export const soakMay: Readonly<Record<LooksLike, string>> = {
	"more uptake": "may consume iodine",
	"less uptake": "may free iodine",
	either: "may consume or free iodine",
};

/** The same with what it would look like. */
export const soakMayLook: Readonly<Record<LooksLike, string>> = {
	"more uptake": "may consume iodine and look like uptake",
	"less uptake": "may free iodine and look like less uptake",
	either: "may consume or free iodine and look like more uptake or less",
};

/** Several suspicions as one, with all their reasons. */
function together(
	list: readonly SoakSuspicion[],
	ceiling: SoakCeiling,
): IodineDemand {
	if (list.length === 0) return { is: "none expected" };
	return {
		is: "suspected",
		looksLike: jointly(list.map((s) => s.looksLike)),
		because: [...new Set(list.map((s) => s.because))].join("; "),
		ceiling,
	};
}

const consumesBySheet = "the sheet says that the soak consumes iodine";

/**
 * Whether what is left of a flask's soak may consume or free iodine, and how much at most, before any leachate is looked at. The sheet's own word ("soak consumes iodine") settles what it is about; that
 * something frees iodine, or may, is another question. Without that word, the names in the sheet speak, and an unknown one may do either.
 */
export function suspectedDemand(trial: Trial, flask: Flask): IodineDemand {
	const names = soakNames(trial, flask);
	const remains = names.map(remainsOf);
	const frees = remains.flatMap((r) => suspicionOf({ ...r, consumes: false }));
	const ceiling = (): SoakCeiling =>
		ceilingOf(
			trial,
			flask,
			charMassOf(flask).mass,
			names,
			agentsOf(trial, flask),
		);
	switch (flask.soakConsumesIodine) {
		case "no":
			return together(frees, { ...ceiling(), more: known(0) });
		case "yes":
			return together(
				[{ looksLike: "more uptake", because: consumesBySheet }, ...frees],
				{
					...ceiling(),
					more: notKnown(`${consumesBySheet}, and not how much`),
				},
			);
		case "not recorded":
			return together(remains.flatMap(suspicionOf), ceiling());
	}
}
