/** What a notebook was set to, and by whom: a function of the notebook alone. */
import type { Notebook } from "./ipynb";
import {
	injectedTag,
	type Json,
	type Parameter,
	type ParameterValue,
	parametersOf,
	parametersTag,
} from "./parameters";

/**
 * Who chose a value: the "user" (set for this run, or another than the template's), the "template" (its default, in a copy that was made of it), or nobody knows: it is written so in the "notebook", which may be a
 * template or anybody's own.
 */
export type SetBy = "user" | "template" | "notebook";

export type Setting = {
	readonly name: string;
	readonly setBy: SetBy;
} & ParameterValue;

/** Parameters as plain data, by name. */
export type Defaults = Readonly<Record<string, ParameterValue>>;

const metadataKey = "charledger";

/** What a notebook says of its own settings. */
interface OwnMetadata {
	/** The defaults of the template that it was copied from, as `new` wrote them down. */
	readonly defaults?: Defaults;
	/** Parameters whose default suits the demo sheet alone, each with what it is for any other sheet. */
	readonly otherSheet?: Readonly<Record<string, Json>>;
}

function ownMetadata(notebook: Notebook): OwnMetadata {
	return (notebook.metadata[metadataKey] ?? {}) as OwnMetadata;
}

/** A copy of a template remembers its defaults, so that a later change to them is told from them. */
export function withTemplateDefaults(
	notebook: Notebook,
	defaults: readonly Parameter[],
): Notebook {
	return {
		...notebook,
		metadata: {
			...notebook.metadata,
			[metadataKey]: {
				...ownMetadata(notebook),
				defaults: Object.fromEntries(defaults.map((p) => [p.name, p.value])),
			},
		},
	};
}

function sameValue(a: ParameterValue, b: ParameterValue): boolean {
	return a.is === "value"
		? b.is === "value" && JSON.stringify(a.value) === JSON.stringify(b.value)
		: b.is === "computed" && a.code === b.code;
}

/**
 * What the parameters that serve the demo alone are where somebody brings a sheet of their own: those that name demo data are "", the others what the notebook's metadata say. The parameter `sheet` is none of them.
 */
export function forOtherSheets(
	notebook: Notebook,
): Readonly<Record<string, Json>> {
	const declared = parametersOf(notebook, parametersTag);
	const { defaults = {}, otherSheet = {} } = ownMetadata(notebook);
	const emptied = declared
		.filter(
			({ name, value }) =>
				name !== "sheet" &&
				[value, defaults[name] ?? value].some(
					(v) =>
						v.is === "value" && typeof v.value === "string" && namesDemoData(v),
				),
		)
		.map((p) => [p.name, ""] as const);
	const names = new Set(declared.map((p) => p.name));
	return Object.fromEntries([
		...emptied,
		...Object.entries(otherSheet).filter(([name]) => names.has(name)),
	]);
}

function setting(
	{ name, value }: Parameter,
	injected: readonly Parameter[],
	defaults: Defaults,
	otherSheet: Readonly<Record<string, Json>>,
): Setting {
	const byTemplate = (v: ParameterValue): boolean =>
		Object.hasOwn(otherSheet, name) &&
		sameValue(v, { is: "value", value: otherSheet[name] });
	const own = injected.filter((p) => p.name === name).pop();
	if (own !== undefined)
		return {
			name,
			setBy: byTemplate(own.value) ? "template" : "user",
			...own.value,
		};
	if (!Object.hasOwn(defaults, name))
		return { name, setBy: "notebook", ...value };
	const setBy =
		sameValue(value, defaults[name]) || byTemplate(value) ? "template" : "user";
	return { name, setBy, ...value };
}

/** Every parameter with the value that counts, in the order of the notebook. */
export function settingsOf(notebook: Notebook): Setting[] {
	const declared = parametersOf(notebook, parametersTag);
	const injected = parametersOf(notebook, injectedTag);
	const { defaults = {} } = ownMetadata(notebook);
	const otherSheet = forOtherSheets(notebook);
	const names = new Set(declared.map((p) => p.name));
	return [...declared, ...injected.filter((p) => !names.has(p.name))].map((p) =>
		setting(p, injected, defaults, otherSheet),
	);
}

/** A path of the demo data, as templates and their copies name it. */
const demoPath = /(?:^|[\\/"'`])data[\\/]demo-[\w-]+[\\/]/;

function textsIn(value: Json): string[] {
	if (typeof value === "string") return [value];
	return typeof value === "object" && value !== null
		? Object.values(value).flatMap(textsIn)
		: [];
}

/** Does a parameter name a file of the demo data? */
export function namesDemoData(value: ParameterValue): boolean {
	return (value.is === "value" ? textsIn(value.value) : [value.code]).some(
		(text) => demoPath.test(text),
	);
}

/** True where a setting names demo data, which are invented. */
export function isDemo(notebook: Notebook): boolean {
	return settingsOf(notebook).some(namesDemoData);
}
