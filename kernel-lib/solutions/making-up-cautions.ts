import {
	composition,
	dangerKinds,
	dangers,
	labelled,
	meetingsAmong,
	substanceNamed,
	substancesIn,
} from "../substances";

const localRules =
	"Usual cautions only (from memory): the label, the safety data sheet and the rules of the place come first.";

/** What to beware of while each of these, named or written as formulas, is dissolved or diluted: what must not meet, what each kind does, and that local rules come first. */
export function cautionsOf(written: readonly string[]): readonly string[] {
	const named = new Map(
		written
			.flatMap((w) => substancesIn(w))
			.flatMap((found) =>
				found.is === "known"
					? [[found.substance.name, found.substance] as const]
					: [],
			),
	);
	const there = [...named.values()];
	const chemical = there.length > 0 || written.some((w) => composition(w).ok);
	if (!chemical) return [];
	const ofKinds = dangerKinds
		.filter((kind) => there.some((s) => s.dangers.includes(kind)))
		// Without a kiln this kind has nothing to say.
		.filter((kind) => kind !== "alkali metal")
		.map((kind) => {
			const { says, inSolution, spilt, waste } = dangers[kind];
			return `${says}${labelled("While dissolving", inSolution)}${labelled("Spilt", spilt)}${labelled("Waste", waste)}`;
		});
	const unknown = [
		...there
			.filter((s) => s.dangers.length === 0 && s.harmless === "")
			.map((s) => s.name),
		...written.filter(
			(w) => substanceNamed(w).is === "not known" && composition(w).ok,
		),
	].map(
		(name) =>
			`Of the hazards of ${name} this program knows nothing: read its safety data sheet first.`,
	);
	return [
		...meetingsAmong(there.map((s) => s.dangers)).map(
			({ says }) => `Must not be done: ${says}`,
		),
		...ofKinds,
		...unknown,
		localRules,
	];
}
