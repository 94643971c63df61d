import {
	type ActivationCondition,
	balanceFaults,
	conditionOf,
	type FiringYields,
	firingYields,
} from "../../activation";
import { firingKey, isLeftOut, type Trial } from "../../bench";
import {
	type Kind,
	known,
	type MaybeKnown,
	type Measured,
	mapMeasured,
	measured,
	type NotKnown,
	named,
	nearestName,
	notKnown,
	type Quantity,
	quoted,
	times,
} from "../../quantity";
import type { FlaskUptake } from "../flask-uptake";

/** The firing that a flask's char came from, or why it is not known; `linkedBy` says which cell named it. */
export type FiringLink =
	| {
			readonly is: "linked";
			readonly yields: FiringYields;
			readonly linkedBy: "soak" | "char batch";
			/** Dry char per dry feedstock, over the firings that this one's precursor came from (`precursor batch` names a firing). */
			readonly yieldFromFeedstock: Measured<"ratio"> | NotKnown;
			/** Names of the firings from feedstock to product. */
			readonly chain: readonly string[];
			/** Names of those among them whose balance does not close: nothing that is computed from their masses is to be relied on. */
			readonly unbalanced: readonly string[];
	  }
	| NotKnown;

/** An uptake with the firing that its char came from; it goes wherever an uptake goes. */
export interface FiringUptake extends FlaskUptake {
	readonly firing: FiringLink;
	/** Uptake per mass of dry feedstock: uptake times the yield of char from it, q Y. mg/g is g/kg. */
	readonly perFeedstock: Measured<"uptake"> | NotKnown;
}

/** The firings of a trial by their names, and the names of those that a deviation leaves out. */
interface Firings {
	readonly byName: ReadonlyMap<string, FiringYields>;
	readonly leftOut: ReadonlySet<string>;
	readonly names: readonly string[];
}

function firingsOf({ firings }: Trial): Firings {
	const inUse = firings.filter((f) => !isLeftOut(f));
	return {
		byName: new Map(inUse.map((f) => [firingKey(f.name), firingYields(f)])),
		leftOut: new Set(firings.filter(isLeftOut).map((f) => firingKey(f.name))),
		names: firings.map((f) => f.name),
	};
}

/** The firings from feedstock to product, the last one given. */
function chainOf(
	last: FiringYields,
	{ byName, leftOut }: Firings,
): MaybeKnown<readonly FiringYields[]> {
	const chain: FiringYields[] = [];
	let next: FiringYields | undefined = last;
	while (next !== undefined && !chain.includes(next)) {
		chain.unshift(next);
		const { precursorBatch } = next.firing;
		if (leftOut.has(firingKey(precursorBatch)))
			return notKnown(
				`the firing ${quoted(precursorBatch)}, which its precursor came from, is left out`,
			);
		next = byName.get(firingKey(precursorBatch));
	}
	return known(chain);
}

/** The product of the char yields of a chain. */
function yieldOf(chain: readonly FiringYields[]): Measured<"ratio"> | NotKnown {
	let product: Quantity<"ratio"> | null = null;
	for (const { charYield } of chain) {
		if (charYield.is !== "value") return charYield;
		product =
			product === null
				? charYield.quantity
				: times(product, charYield.quantity).to("%");
	}
	return product === null ? notKnown("there is no firing") : measured(product);
}

/** The way from the feedstock to the char of a firing. */
export interface FiringRoute {
	readonly yields: FiringYields;
	/** From feedstock to product; the firing alone where an earlier one is left out. */
	readonly chain: readonly FiringYields[];
	/** Dry char per dry feedstock, over all firings of the way. */
	readonly yieldFromFeedstock: Measured<"ratio"> | NotKnown;
	/** Names of the firings of the way whose balance does not close. */
	readonly unbalanced: readonly string[];
}

function routeOf(yields: FiringYields, firings: Firings): FiringRoute {
	const found = chainOf(yields, firings);
	const chain = found.is === "not known" ? [yields] : found.value;
	return {
		yields,
		chain,
		yieldFromFeedstock: found.is === "not known" ? found : yieldOf(chain),
		unbalanced: chain.flatMap((y) =>
			balanceFaults(y).length > 0 ? [y.firing.name] : [],
		),
	};
}

/** The way to the char of every firing that is not left out. */
export function firingRoutes(trial: Trial): readonly FiringRoute[] {
	const firings = firingsOf(trial);
	return [...firings.byName.values()].map((yields) => routeOf(yields, firings));
}

/** The firing that the soak names, else the one that the char batch names. */
function linkOf(
	{ soak, charBatch }: FlaskUptake["flask"],
	firings: Firings,
): FiringLink {
	const { byName, leftOut, names } = firings;
	const isFiring = (name: string): boolean =>
		byName.has(firingKey(name)) || leftOut.has(firingKey(name));
	const linkedBy = isFiring(soak) ? "soak" : "char batch";
	const meant = linkedBy === "soak" ? "" : nearestName(soak, names);
	if (meant !== "")
		return notKnown(
			`the soak ${quoted(soak)} is no firing (did you mean ${quoted(meant)}?)`,
		);
	const name = linkedBy === "soak" ? soak : charBatch;
	if (leftOut.has(firingKey(name)))
		return notKnown(`the firing ${quoted(name)} is left out`);
	const yields = byName.get(firingKey(name));
	if (yields === undefined)
		return notKnown(
			soak === "" && charBatch === ""
				? "neither a soak nor a char batch is named"
				: `neither the soak ${quoted(soak)} nor the char batch ${quoted(charBatch)} is the name of a firing`,
		);
	const route = routeOf(yields, firings);
	return {
		is: "linked",
		yields,
		linkedBy,
		yieldFromFeedstock: route.yieldFromFeedstock,
		chain: route.chain.map((y) => y.firing.name),
		unbalanced: route.unbalanced,
	};
}

/** q Y; errors that uptake and yield share (the balance, the moisture) count once. A bound stays a bound. */
function perFeedstockOf(
	{ flask, uptake }: FlaskUptake,
	link: FiringLink,
): Measured<"uptake"> | NotKnown {
	if (link.is === "not known") return link;
	const { yieldFromFeedstock, chain } = link;
	if (yieldFromFeedstock.is === "not known") return yieldFromFeedstock;
	return mapMeasured(uptake, (q) =>
		named(
			times(q, yieldFromFeedstock.quantity).to("mg/g"),
			"q_{\\text{feedstock}}",
			`uptake per gram of dry feedstock, flask ${flask.name}, by way of ${chain.map(quoted).join(", ")}`,
		),
	);
}

/**
 * Gives every uptake its firing: the one that the flask's `soak` names, else the one that its `char batch` names. Case and extra spaces do not count. A `soak` that nearly is the name of a
 * firing is most likely that name mistyped: its flask gets no firing, and the reason asks for the name that was perhaps meant.
 */
export function linkFirings(
	uptakes: readonly FlaskUptake[],
	trial: Trial,
): readonly FiringUptake[] {
	const firings = firingsOf(trial);
	return uptakes.map((u): FiringUptake => {
		const firing = linkOf(u.flask, firings);
		return { ...u, firing, perFeedstock: perFeedstockOf(u, firing) };
	});
}

/** A condition's value where the flask's firing is known. */
export function conditionOfUptake(
	{ firing }: FiringUptake,
	condition: ActivationCondition,
): Measured<Kind> | NotKnown {
	return firing.is === "linked"
		? conditionOf(firing.yields, condition)
		: firing;
}
