import { ancestors } from "./graph";
import { identities } from "./identity";
import type { Operation } from "./operations";
import type { QuantityNode } from "./quantity";
import type { Input } from "./source";

/**
 * An expression graph turned once into a flat list of block instructions, so that a Monte Carlo run walks plain arrays and no objects. A value that varies is always
 * `offset + scale * column`: the mean and the standard uncertainty of an input, constant factors, sums with constants and changes of sign cost no pass over memory
 * of their own, they are folded into the operation that reads the column.
 */
export interface BlockPlan {
	/** The uncertain inputs, in the order of their first use. */
	readonly inputs: readonly PlannedInput[];
	readonly instructions: readonly Instruction[];
	/** For each result: where it stands after the last instruction. */
	readonly results: readonly Affine[];
	/** How many columns are in use at once. */
	readonly columns: number;
}

export interface PlannedInput {
	readonly input: Input;
	readonly node: QuantityNode;
}

/** offset + scale * column; a constant has column -1 and scale 0. */
export interface Affine {
	readonly column: number;
	readonly offset: number;
	readonly scale: number;
}

export type Instruction =
	/** Draws an input: standard deviates of its distribution, not yet scaled. */
	| { readonly is: "draw"; readonly out: number; readonly input: number }
	| {
			readonly is: "product" | "quotient" | "sum";
			readonly out: number;
			readonly a: Affine;
			readonly b: Affine;
	  }
	/** a.offset + a.scale * column, written out. */
	| { readonly is: "copy"; readonly out: number; readonly a: Affine }
	| {
			readonly is: "general";
			readonly out: number;
			readonly operation: Operation;
			readonly parameter: number;
			readonly operands: readonly number[];
	  };

/** What a column of deviates must be multiplied by to have a standard deviation of 1; for Student's t, JCGM 101:2008, 6.4.9: the scale is s/sqrt(n) itself. */
const deviateScale: Readonly<Record<Input["distribution"], number>> = {
	exact: 0,
	normal: 1,
	rectangular: Math.sqrt(3),
	triangular: Math.sqrt(6),
	student: 1,
};

function isConstant(a: Affine): boolean {
	return a.column < 0;
}

function constant(value: number): Affine {
	return { column: -1, offset: value, scale: 0 };
}

function scaledBy(a: Affine, factor: number): Affine {
	return { ...a, offset: a.offset * factor, scale: a.scale * factor };
}

/** A plan as it grows, each instruction with a column of its own. */
interface Draft {
	readonly inputs: PlannedInput[];
	readonly steps: Instruction[];
}

function step(draft: Draft, make: (out: number) => Instruction): Affine {
	const out = draft.steps.length;
	draft.steps.push(make(out));
	return { column: out, offset: 0, scale: 1 };
}

function drawn(draft: Draft, node: QuantityNode, input: Input): Affine {
	const { column } = step(draft, (out) => ({
		is: "draw",
		out,
		input: draft.inputs.length,
	}));
	draft.inputs.push({ input, node });
	return {
		column,
		offset: node.base,
		scale: input.uncertainty * deviateScale[input.distribution],
	};
}

function added(draft: Draft, a: Affine, b: Affine): Affine {
	if (isConstant(b)) return { ...a, offset: a.offset + b.offset };
	if (isConstant(a)) return { ...b, offset: a.offset + b.offset };
	if (a.column === b.column)
		return {
			column: a.column,
			offset: a.offset + b.offset,
			scale: a.scale + b.scale,
		};
	return step(draft, (out) => ({ is: "sum", out, a, b }));
}

function multiplied(draft: Draft, a: Affine, b: Affine): Affine {
	if (isConstant(b)) return scaledBy(a, b.offset);
	if (isConstant(a)) return scaledBy(b, a.offset);
	return step(draft, (out) => ({ is: "product", out, a, b }));
}

function divided(draft: Draft, a: Affine, b: Affine): Affine {
	if (isConstant(b)) return scaledBy(a, 1 / b.offset);
	return step(draft, (out) => ({ is: "quotient", out, a, b }));
}

/** The column of a value, written out where it is not one as it stands. */
function written(draft: Draft, a: Affine): number {
	if (a.column >= 0 && a.offset === 0 && a.scale === 1) return a.column;
	return step(draft, (out) => ({ is: "copy", out, a })).column;
}

/** The value of a node whose operands have the values x. */
function combined(
	draft: Draft,
	node: QuantityNode,
	x: readonly Affine[],
): Affine {
	const sum = (): Affine => x.reduce((a, b) => added(draft, a, b));
	switch (node.operation?.id) {
		case "sum":
			return sum();
		case "average":
			return scaledBy(sum(), 1 / x.length);
		case "difference":
			return added(draft, x[0], scaledBy(x[1], -1));
		case "scaling":
			return scaledBy(x[0], node.parameter);
		case "product":
			return multiplied(draft, x[0], x[1]);
		case "quotient":
			return divided(draft, x[0], x[1]);
		default: {
			const operands = x.map((a) => written(draft, a));
			return step(draft, (out) => ({
				is: "general",
				out,
				operation: node.operation as Operation,
				parameter: node.parameter,
				operands,
			}));
		}
	}
}

export function planBlocks(roots: readonly QuantityNode[]): BlockPlan {
	const identity = identities(roots);
	const values = new Map<number, Affine>();
	const draft: Draft = { inputs: [], steps: [] };
	const affineOf = (node: QuantityNode): Affine =>
		values.get(identity.get(node) as number) as Affine;
	const planned = (node: QuantityNode): Affine => {
		if (node.input !== null)
			return node.input.uncertainty === 0
				? constant(node.base)
				: drawn(draft, node, node.input);
		const x = node.operands.map(affineOf);
		return x.every(isConstant) ? constant(node.base) : combined(draft, node, x);
	};
	for (const root of roots)
		for (const node of ancestors(root)) {
			const id = identity.get(node) as number;
			if (!values.has(id)) values.set(id, planned(node));
		}
	return reuseColumns(draft.inputs, drawLate(draft.steps), roots.map(affineOf));
}

/** Moves each draw to just before the first instruction that reads it, so that few columns are alive at once. */
function drawLate(steps: readonly Instruction[]): Instruction[] {
	const drawOf = new Map<number, Instruction>();
	const ordered: Instruction[] = [];
	for (const step of steps) {
		if (step.is === "draw") {
			drawOf.set(step.out, step);
			continue;
		}
		for (const read of readBy(step)) {
			const draw = drawOf.get(read);
			if (draw) ordered.push(draw);
			drawOf.delete(read);
		}
		ordered.push(step);
	}
	return [...ordered, ...drawOf.values()];
}

function readBy(step: Instruction): readonly number[] {
	switch (step.is) {
		case "draw":
			return [];
		case "copy":
			return step.a.column < 0 ? [] : [step.a.column];
		case "general":
			return step.operands;
		default:
			return [step.a.column, step.b.column].filter((c) => c >= 0);
	}
}

/** Gives a column to another value as soon as nobody reads it any more; every operation may write over one of its own operands. */
function reuseColumns(
	inputs: readonly PlannedInput[],
	steps: readonly Instruction[],
	results: readonly Affine[],
): BlockPlan {
	const lastRead = new Map<number, number>();
	steps.forEach((step, i) => {
		for (const read of readBy(step)) lastRead.set(read, i);
	});
	for (const r of results) lastRead.set(r.column, Number.POSITIVE_INFINITY);
	const place = new Map<number, number>([[-1, -1]]);
	const free: number[] = [];
	let columns = 0;
	const placed = (a: Affine): Affine => ({
		...a,
		column: place.get(a.column) as number,
	});
	const instructions = steps.map((step, i): Instruction => {
		const reads = [...new Set(readBy(step))];
		const moved =
			step.is === "draw"
				? step
				: step.is === "general"
					? {
							...step,
							operands: step.operands.map((o) => place.get(o) as number),
						}
					: step.is === "copy"
						? { ...step, a: placed(step.a) }
						: { ...step, a: placed(step.a), b: placed(step.b) };
		// A general operation may read an operand after it began to write (a sum of many): it gets a column of its own.
		const release = (): void => {
			for (const read of reads)
				if (lastRead.get(read) === i) free.push(place.get(read) as number);
		};
		if (step.is !== "general") release();
		const out = free.pop() ?? columns++;
		place.set(step.out, out);
		if (step.is === "general") release();
		return { ...moved, out };
	});
	return { inputs, instructions, results: results.map(placed), columns };
}

/** Fills a column with deviates of an input, standard in the sense of `deviateScale`. */
export type Draw = (input: number, column: Float64Array) => void;

// The loops below read their coefficients from a Float64Array: numbers in object fields may be stored in several ways, and the compiler would check that in every round.

function product(
	out: Float64Array,
	x: Float64Array,
	y: Float64Array,
	k: Float64Array,
): void {
	const [a0, a1, b0, b1] = [k[0], k[1], k[2], k[3]];
	for (let j = 0; j < out.length; j++)
		out[j] = (a0 + a1 * x[j]) * (b0 + b1 * y[j]);
}

function quotient(
	out: Float64Array,
	x: Float64Array,
	y: Float64Array,
	k: Float64Array,
): void {
	const [a0, a1, b0, b1] = [k[0], k[1], k[2], k[3]];
	for (let j = 0; j < out.length; j++)
		out[j] = (a0 + a1 * x[j]) / (b0 + b1 * y[j]);
}

function sum(
	out: Float64Array,
	x: Float64Array,
	y: Float64Array,
	k: Float64Array,
): void {
	const [offset, a1, b1] = [k[0] + k[2], k[1], k[3]];
	for (let j = 0; j < out.length; j++) out[j] = offset + a1 * x[j] + b1 * y[j];
}

function copy(
	out: Float64Array,
	x: Float64Array,
	_y: Float64Array,
	k: Float64Array,
): void {
	const [offset, scale] = [k[0], k[1]];
	for (let j = 0; j < out.length; j++) out[j] = offset + scale * x[j];
}

type Loop = (
	out: Float64Array,
	x: Float64Array,
	y: Float64Array,
	k: Float64Array,
) => void;

/** Runs a plan for blocks of one length. It owns the columns and reuses them from block to block. */
export function blockRunner(
	plan: BlockPlan,
	length: number,
): (draw: Draw, results: readonly Float64Array[]) => void {
	const columns = Array.from(
		{ length: plan.columns },
		() => new Float64Array(length),
	);
	// Stands in for the column of a constant, which is multiplied by zero.
	const zeros = new Float64Array(length);
	const at = (a: Affine): Float64Array =>
		a.column < 0 ? zeros : columns[a.column];
	const nothing: Affine = { column: -1, offset: 0, scale: 0 };
	const loop = (
		run: Loop,
		out: Float64Array,
		a: Affine,
		b: Affine,
	): (() => void) => {
		const k = Float64Array.of(a.offset, a.scale, b.offset, b.scale);
		const [x, y] = [at(a), at(b)];
		return () => run(out, x, y, k);
	};
	const bind = (step: Instruction): ((draw: Draw) => void) => {
		const out = columns[step.out];
		if (step.is === "draw") return (draw) => draw(step.input, out);
		if (step.is === "copy") return loop(copy, out, step.a, nothing);
		if (step.is === "general") {
			const operands = step.operands.map((o) => columns[o]);
			const { operation, parameter } = step;
			return () => operation.evaluateBlock(operands, parameter, out);
		}
		return loop({ product, quotient, sum }[step.is], out, step.a, step.b);
	};
	const bound = plan.instructions.map(bind);
	const finish = plan.results.map((a) => ({
		x: at(a),
		k: Float64Array.of(a.offset, a.scale),
	}));
	return (draw, results) => {
		for (const run of bound) run(draw);
		finish.forEach(({ x, k }, i) => {
			copy(results[i], x, zeros, k);
		});
	};
}
