import {
	type Checked,
	type Kind,
	type Measured,
	type NotKnown,
	notKnown,
	type Problem,
	problem,
	type Quantity,
	quoted,
} from "../quantity";
import type { SampleState } from "./basis";
import { checkApparentDensity, filling } from "./bed-density";
import { type PropertyKey, propertyForm } from "./columns";
import {
	type CompleteRow,
	type PropertyTable,
	sievesOf,
} from "./complete-rows";
import {
	checkMoisture,
	checkTotalAsh,
	checkVolatileMatter,
	checkWaterSoluble,
} from "./contents";
import { checkFloatedShare, type FloatSinkSplit } from "./float-sink";
import { checkBallPanHardness } from "./hardness";
import { checkParticleSizes, type ParticleSizes } from "./particle-size";
import type { Sieving } from "./sieving";
import type { PropertyName } from "./standards";
import type { Weighings } from "./weighings";

/** What a row came to: one figure, or three for a sieving. */
export interface RowFigures {
	/** Under which condition; "" where there is none. */
	readonly at: string;
	readonly figures: readonly (readonly [
		PropertyName,
		Measured<Kind> | NotKnown,
	])[];
	readonly sizes: readonly ParticleSizes[];
	readonly splits: readonly FloatSinkSplit[];
}

const weighings = ({ read, property }: CompleteRow): Weighings => ({
	dish: read.mass("dish", `dish, empty (${property})`),
	dishAndSample: read.mass("dish and sample", `dish with sample (${property})`),
	dishAfter: read.mass("dish after", `dish afterwards (${property})`),
});

function sievingOf(
	table: PropertyTable,
	{ row, read }: CompleteRow,
	leftOut: (number: number) => boolean,
): Sieving {
	return {
		sieves: sievesOf(table, row).map((n) => ({
			opening: read.opening(n),
			retained: read.mass("sieve # mass", `on sieve ${n}`, n),
			leftOut: leftOut(n),
		})),
		pan: read.mass("pan", "in the pan"),
		...(row.isEmpty("sample mass")
			? {}
			: { sample: read.mass("sample mass", "put on the sieves") }),
	};
}

function oneFigure(
	property: PropertyName,
	checked: Checked<Quantity>,
	at = "",
): Checked<RowFigures> {
	return checked.ok
		? {
				ok: true,
				value: {
					at,
					figures: [[property, { is: "value", quantity: checked.value }]],
					sizes: [],
					splits: [],
				},
			}
		: checked;
}

/** How the sample was weighed; the mean moisture of its char where it was not dried. */
function stateOf(
	{ table, moistures, moistureLeftOut }: RowContext,
	{ row, sample }: CompleteRow,
): Checked<SampleState | NotKnown> {
	if (row.text("dried") === "yes") return { ok: true, value: { is: "dried" } };
	const moisture = moistures.get(sample);
	if (moisture !== undefined)
		return { ok: true, value: { is: "moist", moisture } };
	if (moistureLeftOut(sample))
		return {
			ok: true,
			value: notKnown(
				`it was not dried before it was weighed, and every determination of the moisture of ${quoted(sample)} is left out`,
			),
		};
	// Where there is a moisture and it is wrong, that has been said.
	const wrong = table.rows.some(
		(r) => r.text("sample") === sample && r.text("property") === "moisture",
	);
	return {
		ok: false,
		problems: wrong
			? []
			: [
					problem(
						"moisture-missing",
						{ column: "dried" },
						`"no" for ${quoted(sample)}, whose moisture is nowhere in this table`,
						"a determination of its moisture",
						'Add a row "moisture" for the same sample, or dry before weighing.',
					),
				],
	};
}

function densityOf({ row, read }: CompleteRow, state: SampleState) {
	return checkApparentDensity(
		{
			mass: row.isEmpty("sample mass")
				? filling(
						read.mass("dish", "cylinder, empty"),
						read.mass("dish and sample", "cylinder, filled"),
					)
				: read.mass("sample mass", "char in the cylinder"),
			volume: read.cylinder("volume", "volume of the bed"),
		},
		state,
	);
}

function solublesOf({ read }: CompleteRow, state: SampleState) {
	return checkWaterSoluble(
		{
			sample: read.mass("sample mass", "char extracted"),
			extract: read.cylinder("extract volume", "all of the extract"),
			aliquot: read.pipette("aliquot volume", "part that was evaporated"),
			dish: read.mass("dish", "dish, empty (water-soluble content)"),
			dishAfter: read.mass("dish after", "dish with the residue"),
		},
		state,
	);
}

function splitOf({ row, read }: CompleteRow): Checked<RowFigures> {
	const split: FloatSinkSplit = {
		liquid: row.text("liquid") || `liquid of ${read.density().in("g/mL")} g/mL`,
		liquidDensity: read.density(),
		floated: read.mass("floated", "dry mass that floated"),
		sunk: read.mass("sunk", "dry mass that sank"),
	};
	const share = oneFigure(
		"floated share",
		checkFloatedShare(split),
		`${split.liquidDensity.in("g/mL")} g/mL`,
	);
	return share.ok
		? { ok: true, value: { ...share.value, splits: [split] } }
		: share;
}

function sizesOf(sieving: Sieving): Checked<RowFigures> {
	const sizes = checkParticleSizes(sieving);
	return sizes.ok
		? {
				ok: true,
				value: {
					at: "",
					figures: [
						["effective size", sizes.value.effectiveSize],
						["uniformity coefficient", sizes.value.uniformityCoefficient],
						["mean particle diameter", sizes.value.meanDiameter],
					],
					sizes: [sizes.value],
					splits: [],
				},
			}
		: sizes;
}

/** What the figures of a row are calculated with, beside the row. */
export interface RowContext {
	readonly table: PropertyTable;
	/** Mean moisture of each char that has one. */
	readonly moistures: ReadonlyMap<string, Quantity<"ratio">>;
	/** Whether a deviation leaves out a moisture of this char. */
	readonly moistureLeftOut: (sample: string) => boolean;
	/** Whether a deviation leaves out this sieve of the row. */
	readonly sievesLeftOut: (number: number) => boolean;
}

/** The figures of one row, or what is wrong with its readings. */
export function rowFigures(
	context: RowContext,
	entry: CompleteRow,
): Checked<RowFigures> {
	const { read, property } = entry;
	const withState = (
		name: PropertyName,
		check: (state: SampleState) => Checked<Quantity>,
	): Checked<RowFigures> => {
		const state = stateOf(context, entry);
		if (!state.ok) return state;
		return state.value.is === "not known"
			? {
					ok: true,
					value: {
						at: "",
						figures: [[name, state.value]],
						sizes: [],
						splits: [],
					},
				}
			: oneFigure(name, check(state.value));
	};
	switch (property) {
		case "moisture":
			return oneFigure(property, checkMoisture(weighings(entry)));
		case "total ash":
			return withState(property, (s) => checkTotalAsh(weighings(entry), s));
		case "volatile matter":
			return withState(property, (s) =>
				checkVolatileMatter(weighings(entry), s),
			);
		case "apparent density":
			return withState(property, (s) => densityOf(entry, s));
		case "water-soluble content":
			return withState(property, (s) => solublesOf(entry, s));
		case "ball-pan hardness":
			return oneFigure(
				property,
				checkBallPanHardness({
					loaded: read.mass("sample mass", "put into the pan"),
					retained: read.mass("retained", "on the hardness test sieve"),
				}),
			);
		case "pH":
			return oneFigure(property, { ok: true, value: read.pH() });
		case "float-sink":
			return splitOf(entry);
		case "particle size":
			return sizesOf(sievingOf(context.table, entry, context.sievesLeftOut));
	}
}

/** Problems of a calculation know their column; the row tells where that is. */
export function placed(
	{ row }: CompleteRow,
	problems: readonly Problem[],
): Problem[] {
	return problems.map((p) => ({
		...p,
		where: row.place(
			Object.hasOwn(propertyForm.columns, p.where.column)
				? (p.where.column as PropertyKey)
				: "property",
		),
	}));
}
