import { isStep, plainSymbol, symbolOf } from "./expression";
import { plainDigits } from "./format";
import { ancestors } from "./graph";
import { contentHash } from "./input";
import { identityOf } from "./input-key";
import { computedScaling } from "./operations";
import { nodeOf, type Quantity, type QuantityNode } from "./quantity";

/**
 * Ids of the inputs and steps below what is reported, the same in every run and on every machine: an input's comes from its place in the sheet or from what was written about it, a
 * step's from its name, its formula and the ids of what stands in it. No digit of a computed value is in them, since engines differ in the last digits of a logarithm or a power.
 */
export function structuralIds(
	roots: readonly QuantityNode[],
): Map<QuantityNode, string> {
	const idOf = new Map<QuantityNode, string>();
	const placeOf = placesAmongAlike();
	for (const root of roots)
		for (const node of ancestors(root)) {
			if (idOf.has(node) || !(node === root || isStep(node))) continue;
			idOf.set(node, contentHash(contentOf(node, idOf, placeOf)));
		}
	return idOf;
}

/** The place of an input, known by its key, among those of one identity, in the order in which they are met: two numbers typed in alike are two inputs, and the second comes after the first. */
type PlaceAmongAlike = (identity: string, key: string) => number;

function placesAmongAlike(): PlaceAmongAlike {
	const places = new Map<string, number>();
	const met = new Map<string, number>();
	return (identity, key) => {
		// A cell of a sheet has an identity of its own.
		if (identity === key) return 0;
		const known = places.get(key);
		if (known !== undefined) return known;
		const place = met.get(identity) ?? 0;
		met.set(identity, place + 1);
		places.set(key, place);
		return place;
	};
}

function contentOf(
	node: QuantityNode,
	idOf: ReadonlyMap<QuantityNode, string>,
	placeOf: PlaceAmongAlike,
): string {
	const { kind, input, name } = node;
	if (input === null)
		return JSON.stringify([
			kind,
			plainSymbol(symbolOf(node)),
			name.meaning,
			formulaOf(node, idOf),
		]);
	const identity = identityOf(input, node.base);
	return JSON.stringify([
		kind,
		plainSymbol(name.symbol),
		identity,
		placeOf(identity, input.key),
	]);
}

/** Parts of a sum or a product, each with the sign before it. */
function parts(
	node: QuantityNode,
	joining: string,
	undoing: string,
	inverted: boolean,
): readonly (readonly [sign: string, part: QuantityNode])[] {
	return node.operands.flatMap((part, i) => {
		const under = inverted !== (node.operation?.id === undoing && i === 1);
		return !isStep(part) &&
			[joining, undoing].includes(part.operation?.id ?? "")
			? parts(part, joining, undoing, under)
			: [[under ? undoing : joining, part] as const];
	});
}

/** The formula of a step, down to the next named steps and inputs, with their ids in the places of their symbols. */
function formulaOf(
	root: QuantityNode,
	idOf: ReadonlyMap<QuantityNode, string>,
): string {
	const row = (node: QuantityNode, joining: string, undoing: string): string =>
		parts(node, joining, undoing, false)
			.map(([sign, part]) => `${sign} ${text(part)}`)
			.join(", ");
	const text = (node: QuantityNode): string => {
		if (node !== root && isStep(node)) return idOf.get(node) ?? "";
		switch (node.operation?.id) {
			case "sum":
			case "difference":
				return `(${row(node, "sum", "difference")})`;
			case "product":
			case "quotient":
				return `(${row(node, "product", "quotient")})`;
			default: {
				const constant =
					node.operation === computedScaling
						? "computed"
						: plainDigits(node.parameter);
				return `${node.operation?.id} ${constant} (${node.operands.map(text).join(", ")})`;
			}
		}
	};
	return text(root);
}

/** The ids of some values. */
export function idsOf(quantities: readonly Quantity[]): string[] {
	const roots = quantities.map((q) => nodeOf(q) as QuantityNode);
	const ids = structuralIds(roots);
	return roots.map((root) => ids.get(root) as string);
}
