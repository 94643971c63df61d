import { defineModel, type Model } from "../fit";

/** Where on the curve: a removal in percent, or a share (in percent) of the way from bottom to top. */
export type Level =
	| { readonly of: "removal"; readonly percent: number }
	| { readonly of: "range"; readonly percent: number };

/**
 * A form of removal (%) against dose that asks nothing of an isotherm: y = bottom + (top - bottom)/(1 + exp(-slope (X - X_mid))), X being the dose or its logarithm.
 */
export interface ResponseForm {
	readonly name: string;
	readonly equation: string;
	readonly latex: string;
	readonly source: string;
	/** The scale X of doses on which the form has one shape. */
	readonly scale: "dose" | "logarithm of the dose";
	/** Parameters bottom, top, midpoint (a dose), slope, in this order. */
	readonly model: Model;
	/**
	 * The same curve with the place X of a level in place of the midpoint, so that the fit engine can profile it: parameters bottom, headroom, place, slope. The headroom is the logarithm of how far the top
	 * lies above a removal (for a share of the way, the top itself): a level that the top barely clears is then no edge for the engine.
	 */
	readonly through: (level: Level) => Model;
}

/** Share of the way from bottom to top at which a level lies. */
export function shareOf(level: Level, bottom: number, top: number): number {
	return level.of === "range"
		? level.percent / 100
		: (level.percent - bottom) / (top - bottom);
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
	const [, , midpoint, slope] = theta;
	return fromScale(
		form,
		toScale(form, midpoint) + Math.log(share / (1 - share)) / slope,
	);
}

const sigmoid = (z: number): number => 1 / (1 + Math.exp(-z));

/** slope (X - place), with no char at all far below every place. */
function ascent(place: number, x: number, slope: number): number {
	return x === Number.NEGATIVE_INFINITY ? x : slope * (x - place);
}

function form(
	about: Pick<
		ResponseForm,
		"name" | "equation" | "latex" | "source" | "scale"
	> & { readonly slopeUnit: string },
): ResponseForm {
	const { scale, slopeUnit, ...words } = about;
	const onLog = scale === "logarithm of the dose";
	const prepare = (x: Float64Array): Float64Array =>
		onLog ? x.map((v) => Math.log(v)) : x;
	const parameters = (middle: string, unit: string, lower: number) => [
		{ name: "bottom", unit: "%" },
		{ name: "top", unit: "%" },
		{ name: middle, unit, lower },
		{ name: "slope", unit: slopeUnit, lower: 0 },
	];
	return {
		...words,
		scale,
		model: defineModel({
			name: words.name,
			formula: words.equation,
			parameters: parameters(
				"midpoint",
				"g/L",
				onLog ? 0 : Number.NEGATIVE_INFINITY,
			),
			prepare,
			evaluate: ([bottom, top, midpoint, slope], x, out) => {
				const place = toScale(about, midpoint);
				for (let i = 0; i < out.length; i++)
					out[i] =
						bottom + (top - bottom) * sigmoid(ascent(place, x[i], slope));
			},
			derivatives: ([bottom, top, midpoint, slope], x, out) => {
				const n = x.length;
				const place = toScale(about, midpoint);
				const perMidpoint = onLog ? slope / midpoint : slope;
				for (let i = 0; i < n; i++) {
					const s = sigmoid(ascent(place, x[i], slope));
					const steep = (top - bottom) * s * (1 - s);
					out[i] = 1 - s;
					out[n + i] = s;
					out[2 * n + i] = -steep * perMidpoint;
					out[3 * n + i] = steep === 0 ? 0 : steep * (x[i] - place);
				}
			},
			start: (x, y, out) => out.set(startValues(x, y, about)),
		}),
		through: (level) =>
			defineModel({
				name: `${words.name} through a level`,
				parameters: [
					{ name: "bottom", unit: "%" },
					{ name: "headroom" },
					{ name: "place" },
					{ name: "slope", unit: slopeUnit, lower: 0 },
				],
				prepare,
				evaluate: ([bottom, headroom, place, slope], x, out) => {
					const top = topFrom(level, headroom);
					const raised = raisedBy(level, bottom, headroom);
					for (let i = 0; i < out.length; i++)
						out[i] =
							bottom +
							(top - bottom) * sigmoid(ascent(place, x[i], slope) + raised);
				},
				derivatives: ([bottom, headroom, place, slope], x, out) => {
					const n = x.length;
					const top = topFrom(level, headroom);
					const raised = raisedBy(level, bottom, headroom);
					const absolute = level.of === "removal";
					for (let i = 0; i < n; i++) {
						const s = sigmoid(ascent(place, x[i], slope) + raised);
						const steep = (top - bottom) * s * (1 - s);
						out[i] = 1 - s - (absolute ? steep / (level.percent - bottom) : 0);
						out[n + i] = absolute ? s * (top - level.percent) - steep : s;
						out[2 * n + i] = -steep * slope;
						out[3 * n + i] = steep === 0 ? 0 : steep * (x[i] - place);
					}
				},
			}),
	};
}

export function headroomOf(level: Level, top: number): number {
	return level.of === "range" ? top : Math.log(top - level.percent);
}

function topFrom(level: Level, headroom: number): number {
	return level.of === "range" ? headroom : level.percent + Math.exp(headroom);
}

/** ln(share/(1 - share)) of a level. */
function raisedBy(level: Level, bottom: number, headroom: number): number {
	return level.of === "range"
		? Math.log(level.percent / (100 - level.percent))
		: Math.log(level.percent - bottom) - headroom;
}

function startValues(
	x: Float64Array,
	y: Float64Array,
	about: Pick<ResponseForm, "scale">,
): number[] {
	const order = Array.from(x, (_, i) => i)
		.filter((i) => Number.isFinite(x[i]))
		.sort((a, b) => x[a] - x[b]);
	const bottom = y.reduce((a, b) => Math.min(a, b));
	const top = y.reduce((a, b) => Math.max(a, b));
	const near = (share: number): number => {
		const level = bottom + share * (top - bottom);
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
		bottom,
		top,
		fromScale(about, near(0.5)),
		Math.log(9) / (width > 0 ? width : span > 0 ? span : 1),
	];
}

/** y = bottom + (top - bottom)/(1 + (midpoint/x)^slope). */
export const hill: ResponseForm = form({
	name: "Hill",
	equation: "y = bottom + (top - bottom)/(1 + (midpoint/x)^slope)",
	latex:
		"y = \\mathrm{bottom} + \\frac{\\mathrm{top} - \\mathrm{bottom}}{1 + (\\mathrm{midpoint}/x)^{\\mathrm{slope}}}",
	source: "A. V. Hill, J. Physiol. 40 (1910) iv; from memory",
	scale: "logarithm of the dose",
	slopeUnit: "",
});

/** y = bottom + (top - bottom)/(1 + exp(-slope (x - midpoint))). */
export const logistic: ResponseForm = form({
	name: "logistic",
	equation: "y = bottom + (top - bottom)/(1 + exp(-slope (x - midpoint)))",
	latex:
		"y = \\mathrm{bottom} + \\frac{\\mathrm{top} - \\mathrm{bottom}}{1 + e^{-\\mathrm{slope}\\,(x - \\mathrm{midpoint})}}",
	source: "P.-F. Verhulst, Corresp. Math. Phys. 10 (1838) 113; from memory",
	scale: "dose",
	slopeUnit: "L/g",
});
