/** The rules of the tree that no compiler knows: rooms and their doors, arrows, circles, one error model, nothing typed into a figure that its result says. The lists of exceptions may only become shorter. */
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, normalize, sep } from "node:path";
import ts from "typescript";
import { expect, test } from "vitest";

const library = join(import.meta.dirname, "../kernel-lib");

/** Rooms in the order of the flow: each imports from those before it, never from those after. The first know no chemistry. */
const flow = [
	"problem",
	"linear",
	"stats",
	"quantity",
	"fit",
	"substances",
	"bench",
	"solutions",
	"activation",
	"properties",
	"residue",
	"uptake",
	"isotherms",
	"dose",
	"temperature",
	"mixtures",
	"compare",
	"words",
	"cautions",
	"figures",
	"notebook",
];

/** Imports past a room's door, "from -> to", with the reason. */
const pastTheDoor: Readonly<Record<string, string>> = {};

/** Imports against the flow, "from -> to", with the reason. */
const againstTheFlow: Readonly<Record<string, string>> = {};

/** Circles, as the path that closes them, with the reason. */
const closedCircles: Readonly<Record<string, string>> = {};

/** Texts of figures that name iodine or 95 %, with the reason. */
const typedInto: Readonly<Record<string, string>> = {
	"figures/flask-words.ts: iodine": "asks which probe it is",
	"figures/flask-words.ts: iodine, as I₂": "that probe's own words",
	"figures/iodine-number-line.ts: Iodine taken up per gram of char":
		"an iodine number is of iodine",
	"figures/iodine-number-line.ts: Iodine uptake at ":
		"an iodine number is of iodine",
	"figures/iodine-number-line.ts: Residual normality of iodine":
		"an iodine number is of iodine",
};

interface Import {
	readonly from: string;
	readonly to: string;
	readonly typesOnly: boolean;
}

const slashed = (path: string): string => path.split(sep).join("/");

const files = readdirSync(library, { recursive: true, encoding: "utf8" })
	.map(slashed)
	.filter(
		(name) =>
			name.endsWith(".ts") &&
			!name.endsWith(".d.ts") &&
			!/(^|\/)(dist|node_modules)\//.test(name),
	)
	.sort();

const trees = new Map(
	files.map((name) => [
		name,
		ts.createSourceFile(
			name,
			readFileSync(join(library, name), "utf8"),
			ts.ScriptTarget.Latest,
			true,
		),
	]),
);

/** The file that a relative module name stands for; undefined for packages and generated files. */
function resolved(from: string, module: string): string | undefined {
	if (!module.startsWith(".")) return undefined;
	const path = slashed(normalize(join(dirname(from), module)));
	return [`${path}.ts`, `${path}/index.ts`, path].find((p) => trees.has(p));
}

function onlyTypes(statement: ts.Statement): boolean {
	if (ts.isExportDeclaration(statement)) return statement.isTypeOnly;
	if (!ts.isImportDeclaration(statement)) return false;
	const clause = statement.importClause;
	if (clause?.isTypeOnly) return true;
	const named = clause?.namedBindings;
	return (
		clause?.name === undefined &&
		named !== undefined &&
		ts.isNamedImports(named) &&
		named.elements.every((e) => e.isTypeOnly)
	);
}

const imports: readonly Import[] = [...trees].flatMap(([from, tree]) =>
	tree.statements.flatMap((statement) => {
		if (
			!(
				ts.isImportDeclaration(statement) || ts.isExportDeclaration(statement)
			) ||
			statement.moduleSpecifier === undefined ||
			!ts.isStringLiteral(statement.moduleSpecifier)
		)
			return [];
		const to = resolved(from, statement.moduleSpecifier.text);
		return to === undefined
			? []
			: [{ from, to, typesOnly: onlyTypes(statement) }];
	}),
);

/** "" for the files that stand beside the rooms. */
const roomOf = (name: string): string =>
	name.includes("/") ? name.slice(0, name.indexOf("/")) : "";

const between = imports.filter(
	({ from, to }) => roomOf(from) !== roomOf(to) && roomOf(from) !== "",
);

const arrow = ({ from, to }: Import): string => `${from} -> ${to}`;

test("the library is read", () => {
	expect(files.length).toBeGreaterThan(200);
	expect(imports.length).toBeGreaterThan(files.length);
});

test("every room has its place in the flow, and a door", () => {
	const rooms = [...new Set(files.map(roomOf))].filter((room) => room !== "");
	expect(rooms.filter((room) => !flow.includes(room))).toEqual([]);
	const doorless = rooms.filter(
		(room) =>
			!["index", "public"].some((door) => trees.has(`${room}/${door}.ts`)),
	);
	expect(doorless).toEqual([]);
});

test("nobody reaches past another room's door", () => {
	const found = between
		.filter(({ to }) => roomOf(to) !== "" && to !== `${roomOf(to)}/index.ts`)
		.map(arrow);
	expect(found.sort()).toEqual(Object.keys(pastTheDoor).sort());
});

test("the library's own face looks at doors alone", () => {
	const found = imports
		.filter(({ from }) => from === "index.ts")
		.map(({ to }) => to)
		.filter((to) => !/^[a-z-]+\/(index|public)\.ts$/.test(to));
	expect(found).toEqual([]);
});

test("arrows between rooms point along the flow", () => {
	const found = between
		.filter(
			({ from, to }) =>
				roomOf(to) !== "" &&
				flow.indexOf(roomOf(to)) >= flow.indexOf(roomOf(from)),
		)
		.map(arrow);
	expect(found.sort()).toEqual(Object.keys(againstTheFlow).sort());
});

/** Files that reach themselves again, each circle once, as a path. */
function circles(arrows: readonly Import[]): string[] {
	const next = new Map<string, Import[]>();
	for (const a of arrows) next.set(a.from, [...(next.get(a.from) ?? []), a]);
	const state = new Map<string, "open" | "done">();
	const found: string[] = [];
	const visit = (name: string, path: readonly string[]): void => {
		if (state.get(name) === "done") return;
		if (state.get(name) === "open") {
			found.push([...path.slice(path.indexOf(name)), name].join(" -> "));
			return;
		}
		state.set(name, "open");
		for (const { to } of next.get(name) ?? []) visit(to, [...path, name]);
		state.set(name, "done");
	};
	for (const name of files) visit(name, []);
	return found;
}

test("no file needs itself, not even for a type", () => {
	expect(circles(imports).sort()).toEqual(Object.keys(closedCircles).sort());
});

test("a circle would be found", () => {
	const to = (a: string, b: string): Import => ({
		from: a,
		to: b,
		typesOnly: false,
	});
	const [a, b, c] = files;
	expect(circles([to(a, b), to(b, c), to(a, c)])).toEqual([]);
	expect(circles([to(a, b), to(b, c), to(c, a)])).toEqual([
		`${a} -> ${b} -> ${c} -> ${a}`,
	]);
});

/** Calls `see` with every node below. */
function walk(node: ts.Node, see: (node: ts.Node) => void): void {
	see(node);
	node.forEachChild((child) => walk(child, see));
}

test("what a user can cause is a Problem, not a RangeError or TypeError", () => {
	const found: Record<string, number> = {};
	for (const [name, tree] of trees)
		walk(tree, (node) => {
			if (
				ts.isNewExpression(node) &&
				/^(Range|Type|Syntax|Reference)Error$/.test(node.expression.getText())
			)
				found[name] = (found[name] ?? 0) + 1;
		});
	expect(found).toEqual({});
});

test("figures read the probe and the confidence from their result", () => {
	const found: string[] = [];
	for (const [name, tree] of trees)
		if (roomOf(name) === "figures")
			walk(tree, (node) => {
				if (
					(ts.isStringLiteralLike(node) || ts.isTemplateLiteralToken(node)) &&
					!ts.isImportDeclaration(node.parent) &&
					!ts.isExportDeclaration(node.parent) &&
					/iodine|95 ?%/i.test(node.text)
				)
					found.push(`${name}: ${node.text}`);
			});
	expect(found.sort()).toEqual(Object.keys(typedInto).sort());
});
