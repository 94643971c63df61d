import { defineModel, type Model } from "../fit";

/** Where on the curve: a removal in percent, or a share (in percent) of the way from floor to ceiling. */
export type Level =
	| { readonly of: "removal"; readonly percent: number }
	| { readonly of: "range"; readonly percent: number };

/**
 * A form of removal (%) against dose that asks nothing of an isotherm: y = floor + (ceiling - floor)/(1 + exp(-steepness (X - X_mid))), X being the dose or its logarithm.
 */
export interface ResponseForm {
	readonly name: string;
	readonly equation: string;
	readonly latex: string;
	readonly source: string;
	/** The scale X of doses on which the form has one shape. */
	readonly scale: "dose" | "logarithm of the dose";
	/** Parameters floor, ceiling, midpoint (a dose), steepness, in this order. */
	readonly model: Model;
	/**
	 * The same curve with the place X of a level in place of the midpoint, so that the fit engine can profile it: parameters floor, headroom, place, steepness. The headroom is the logarithm of how far the ceiling
	 * lies above a removal (for a share of the way, the ceiling itself): a level that the ceiling barely clears is then no edge for the engine.
	 */
	readonly through: (level: Level) => Model;
}

/** Share of the way from floor to ceiling at which a level lies. */
export function shareOf(level: Level, floor: number, ceiling: number): number {
	return level.of === "range"
		? level.percent / 100
		: (level.percent - floor) / (ceiling - floor);
}

export function toScale(form: Pick<ResponseForm, "scale">, x: number): number {
	return form.scale === "dose" ? x : Math.log(x);
}

export function fromScale(
	form: Pick<ResponseForm, "scale">,
	place: number,
): number {
	return form.scale === "dose" ? place : Math.exp(place);
}

/** Dose at which a share (0 to 1) of the way is reached. */
export function doseAt(
	form: ResponseForm,
	theta: Float64Array,
	share: number,
): number {
	const [, , midpoint, steepness] = theta;
	return fromScale(
		form,
		toScale(form, midpoint) + Math.log(share / (1 - share)) / steepness,
	);
}

const sigmoid = (z: number): number => 1 / (1 + Math.exp(-z));

/** steepness (X - place), with no char at all far below every place. */
function ascent(place: number, x: number, steepness: number): number {
	return x === Number.NEGATIVE_INFINITY ? x : steepness * (x - place);
}

type About = Pick<
	ResponseForm,
	"name" | "equation" | "latex" | "source" | "scale"
> & { readonly steepnessUnit: string };

function form(about: About): ResponseForm {
	const { steepnessUnit, ...words } = about;
	return {
		...words,
		model: curveModel(about),
		through: (level) => modelThrough(about, level),
	};
}

function prepareFor({ scale }: About): (x: Float64Array) => Float64Array {
	return (x) => (scale === "dose" ? x : x.map((v) => Math.log(v)));
}

function curveModel(about: About): Model {
	const onLog = about.scale === "logarithm of the dose";
	return defineModel({
		name: about.name,
		formula: about.equation,
		parameters: [
			{ name: "floor", unit: "%" },
			{ name: "ceiling", unit: "%" },
			{
				name: "midpoint",
				unit: "g/L",
				lower: onLog ? 0 : Number.NEGATIVE_INFINITY,
			},
			{ name: "steepness", unit: about.steepnessUnit, lower: 0 },
		],
		prepare: prepareFor(about),
		evaluate: ([floor, ceiling, midpoint, steepness], x, out) => {
			const place = toScale(about, midpoint);
			for (let i = 0; i < out.length; i++)
				out[i] =
					floor + (ceiling - floor) * sigmoid(ascent(place, x[i], steepness));
		},
		derivatives: ([floor, ceiling, midpoint, steepness], x, out) => {
			const n = x.length;
			const place = toScale(about, midpoint);
			const perMidpoint = onLog ? steepness / midpoint : steepness;
			for (let i = 0; i < n; i++) {
				const s = sigmoid(ascent(place, x[i], steepness));
				const steep = (ceiling - floor) * s * (1 - s);
				out[i] = 1 - s;
				out[n + i] = s;
				out[2 * n + i] = -steep * perMidpoint;
				out[3 * n + i] = steep === 0 ? 0 : steep * (x[i] - place);
			}
		},
		start: (x, y, out) => out.set(startValues(x, y, about)),
	});
}

function modelThrough(about: About, level: Level): Model {
	return defineModel({
		name: `${about.name} through a level`,
		parameters: [
			{ name: "floor", unit: "%" },
			{ name: "headroom" },
			{ name: "place" },
			{ name: "steepness", unit: about.steepnessUnit, lower: 0 },
		],
		prepare: prepareFor(about),
		evaluate: ([floor, headroom, place, steepness], x, out) => {
			const ceiling = ceilingFrom(level, headroom);
			const raised = raisedBy(level, floor, headroom);
			for (let i = 0; i < out.length; i++)
				out[i] =
					floor +
					(ceiling - floor) * sigmoid(ascent(place, x[i], steepness) + raised);
		},
		derivatives: ([floor, headroom, place, steepness], x, out) => {
			const n = x.length;
			const ceiling = ceilingFrom(level, headroom);
			const raised = raisedBy(level, floor, headroom);
			const absolute = level.of === "removal";
			for (let i = 0; i < n; i++) {
				const s = sigmoid(ascent(place, x[i], steepness) + raised);
				const steep = (ceiling - floor) * s * (1 - s);
				out[i] = 1 - s - (absolute ? steep / (level.percent - floor) : 0);
				out[n + i] = absolute ? s * (ceiling - level.percent) - steep : s;
				out[2 * n + i] = -steep * steepness;
				out[3 * n + i] = steep === 0 ? 0 : steep * (x[i] - place);
			}
		},
	});
}

export function headroomOf(level: Level, ceiling: number): number {
	return level.of === "range" ? ceiling : Math.log(ceiling - level.percent);
}

function ceilingFrom(level: Level, headroom: number): number {
	return level.of === "range" ? headroom : level.percent + Math.exp(headroom);
}

/** ln(share/(1 - share)) of a level. */
function raisedBy(level: Level, floor: number, headroom: number): number {
	return level.of === "range"
		? Math.log(level.percent / (100 - level.percent))
		: Math.log(level.percent - floor) - headroom;
}

function startValues(
	x: Float64Array,
	y: Float64Array,
	about: Pick<ResponseForm, "scale">,
): number[] {
	const order = Array.from(x, (_, i) => i)
		.filter((i) => Number.isFinite(x[i]))
		.sort((a, b) => x[a] - x[b]);
	const floor = y.reduce((a, b) => Math.min(a, b));
	const ceiling = y.reduce((a, b) => Math.max(a, b));
	const near = (share: number): number => {
		const level = floor + share * (ceiling - floor);
		for (let k = 1; k < order.length; k++) {
			const [i, j] = [order[k - 1], order[k]];
			if (y[i] <= level && y[j] >= level && y[j] > y[i])
				return x[i] + ((level - y[i]) / (y[j] - y[i])) * (x[j] - x[i]);
		}
		return x[order[Math.floor(order.length / 2)]];
	};
	const width = near(0.75) - near(0.25);
	const span = x[order[order.length - 1]] - x[order[0]];
	return [
		floor,
		ceiling,
		fromScale(about, near(0.5)),
		Math.log(9) / (width > 0 ? width : span > 0 ? span : 1),
	];
}

/** y = floor + (ceiling - floor)/(1 + (midpoint/x)^steepness). */
export const hill: ResponseForm = form({
	name: "Hill",
	equation: "y = floor + (ceiling - floor)/(1 + (midpoint/x)^steepness)",
	latex:
		"y = \\mathrm{floor} + \\frac{\\mathrm{ceiling} - \\mathrm{floor}}{1 + (\\mathrm{midpoint}/x)^{\\mathrm{steepness}}}",
	source: "A. V. Hill, J. Physiol. 40 (1910) iv; from memory",
	scale: "logarithm of the dose",
	steepnessUnit: "",
});

/** y = floor + (ceiling - floor)/(1 + exp(-steepness (x - midpoint))). */
export const logistic: ResponseForm = form({
	name: "logistic",
	equation:
		"y = floor + (ceiling - floor)/(1 + exp(-steepness (x - midpoint)))",
	latex:
		"y = \\mathrm{floor} + \\frac{\\mathrm{ceiling} - \\mathrm{floor}}{1 + e^{-\\mathrm{steepness}\\,(x - \\mathrm{midpoint})}}",
	source: "P.-F. Verhulst, Corresp. Math. Phys. 10 (1838) 113; from memory",
	scale: "dose",
	steepnessUnit: "L/g",
});
