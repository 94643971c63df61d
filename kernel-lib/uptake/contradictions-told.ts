import type { FlaskUptake } from "./flask-uptake";

/** What a flask's own numbers say against each other; both texts are "" where nothing does. */
export interface Contradicted
	extends Pick<FlaskUptake, "contradiction" | "likelyCause"> {
	readonly flask: Pick<FlaskUptake["flask"], "name">;
}

/** Flasks are named up to this number, more are counted. */
const mostNamed = 3;

function opening(own: readonly Contradicted[], all: number): string {
	const names = own.map((u) => u.flask.name);
	if (names.length === 1) return `Flask ${names[0]}: `;
	const which =
		names.length === all
			? `All ${all} flasks, so that most likely a whole column is wrong`
			: names.length > mostNamed
				? `Flasks ${names.slice(0, mostNamed).join(", ")} and ${names.length - mostNamed} more`
				: `Flasks ${names.join(", ")}`;
	return `${which}; of flask ${names[0]}: `;
}

/** Why the numbers of some flasks cannot all be right, with the likely cause: once for all flasks that share the cause. */
export function contradictionsTold(
	flasks: readonly Contradicted[],
): readonly string[] {
	const groups = new Map<string, Contradicted[]>();
	for (const u of flasks)
		if (u.contradiction !== "")
			groups.set(u.likelyCause, [...(groups.get(u.likelyCause) ?? []), u]);
	return [...groups.values()].map((own) =>
		`${opening(own, flasks.length)}${own[0].contradiction} ${own[0].likelyCause}`.trim(),
	);
}
