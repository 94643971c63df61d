/** Parameters of a notebook: defaults in the cell tagged `parameters`, overrides in a cell of their own right after it. */
import {
	type Checked,
	didYouMean,
	type Problem,
	problem,
} from "../../quantity";
import { type CodeCell, hasTag, type Notebook } from "../ipynb";
import {
	injectedTag,
	type Json,
	type Parameter,
	parametersIn,
	parametersOf,
	parametersTag,
} from "../parameters";
import { forOtherSheets, namesDemoData } from "../settings";

/**
 * The settings of a run. Where they name another sheet than the notebook's own demo, the parameters that serve the demo alone are set to what they are for any other sheet, except those that the settings name.
 */
export function withOtherSheet(
	notebook: Notebook,
	values: ReadonlyMap<string, string>,
): ReadonlyMap<string, string> {
	const own = parametersOf(notebook, parametersTag).find(
		(p) => p.name === "sheet",
	);
	const sheet = values.get("sheet");
	if (sheet === undefined || own === undefined) return values;
	const same = own.value.is === "value" && own.value.value === sheet;
	if (same || !namesDemoData(own.value)) return values;
	const others = Object.entries(forOtherSheets(notebook)).map(
		([name, value]) =>
			[name, Array.isArray(value) ? value.join(", ") : String(value)] as const,
	);
	return new Map([...others, ...values]);
}

/** "60, 80, 100" as numbers; an empty text is an empty list. */
function numbersIn(text: string): readonly number[] {
	return text.trim() === ""
		? []
		: text
				.replace(/^\s*\[|\]\s*$/g, "")
				.split(",")
				.map((part) => (part.trim() === "" ? Number.NaN : Number(part)));
}

/** A list of numbers, as a template's default is one. */
function isNumberList(value: Json): boolean {
	return Array.isArray(value) && value.every((v) => typeof v === "number");
}

/** The value as TypeScript, by the type of the default; texts are quoted so that nothing in them is code. */
function literal(parameter: Parameter, text: string): Checked<string> {
	const { name } = parameter;
	const refuse = (expected: string, mend: string): Checked<string> => ({
		ok: false,
		problems: [
			problem(
				"parameter",
				{},
				`"${text}" for the parameter "${name}"`,
				expected,
				mend,
			),
		],
	});
	if (parameter.value.is === "value" && isNumberList(parameter.value.value)) {
		const numbers = numbersIn(text);
		return numbers.every(Number.isFinite)
			? { ok: true, value: JSON.stringify(numbers) }
			: refuse(
					"numbers, as its default is a list of numbers",
					`Write for instance --set ${name}=60,80,100 (with decimal points, without a unit).`,
				);
	}
	switch (parameter.value.is === "value" ? typeof parameter.value.value : "") {
		case "string":
			return { ok: true, value: JSON.stringify(text) };
		case "number":
			return text.trim() !== "" && Number.isFinite(Number(text))
				? { ok: true, value: String(Number(text)) }
				: refuse(
						"a number, as its default is one",
						`Write for instance --set ${name}=25 (with a decimal point, without a unit).`,
					);
		case "boolean":
			return text === "true" || text === "false"
				? { ok: true, value: text }
				: refuse(
						"true or false, as its default is",
						`Write --set ${name}=true.`,
					);
		default:
			return refuse(
				"a parameter with a plain number, text, list of numbers, true or false as default",
				`"${name}" is computed in the parameters cell; set what it is computed from, or edit the notebook.`,
			);
	}
}

function injectedCell(source: string): CodeCell {
	return {
		cell_type: "code",
		id: injectedTag,
		metadata: { tags: [injectedTag] },
		source,
		outputs: [],
		execution_count: null,
	};
}

/**
 * The notebook with its parameters set: a cell tagged `injected-parameters` after the one tagged `parameters`, in the place of an earlier one. Unknown names and values
 * that do not fit are problems, all at once.
 */
export function withParameters(
	notebook: Notebook,
	values: ReadonlyMap<string, string>,
): Checked<Notebook> {
	if (values.size === 0) return { ok: true, value: notebook };
	const cells = notebook.cells.filter((c) => !hasTag(c, injectedTag));
	const at = cells.findIndex(
		(c) => c.cell_type === "code" && hasTag(c, parametersTag),
	);
	if (at < 0)
		return {
			ok: false,
			problems: [
				problem(
					"no-parameters",
					{},
					"a notebook without a cell tagged `parameters`",
					"such a cell with the defaults",
					"Tag the cell that holds the settings, or run without --set and --sheet.",
				),
			],
		};
	const parameters = parametersIn(cells[at].source);
	const names = parameters.map((p) => p.name);
	const problems: Problem[] = [];
	const lines: string[] = [];
	for (const [name, text] of values) {
		const parameter = parameters.find((p) => p.name === name);
		if (parameter === undefined) {
			problems.push(
				problem(
					"parameter",
					{},
					`the parameter "${name}", which the notebook does not have`,
					"one that its parameters cell declares",
					didYouMean(name, names),
				),
			);
			continue;
		}
		const value = literal(parameter, text);
		if (value.ok) lines.push(`${parameter.keyword} ${name} = ${value.value};`);
		else problems.push(...value.problems);
	}
	if (problems.length > 0) return { ok: false, problems };
	return {
		ok: true,
		value: {
			...notebook,
			cells: [
				...cells.slice(0, at + 1),
				injectedCell(lines.join("\n")),
				...cells.slice(at + 1),
			],
		},
	};
}
