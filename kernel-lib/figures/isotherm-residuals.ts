import type { IsothermFit } from "../isotherms";
import { listed } from "../quantity";
import type { Figure, Layer } from "./description";
import { figure } from "./figure";
import { pointWords, residueAxis } from "./isotherm-marks";
import { type SeriesLook, seriesLook } from "./look";
import { countOf, roundedTo, signed } from "./words";

/** Beyond this many standard deviations a flask is named: about one in twenty lies there by chance. */
const wide = 2;

interface Residual {
	readonly flask: string;
	readonly x: number;
	readonly size: number;
	readonly bound: boolean;
	readonly hover: string;
}

/** What was read less what the curve gives, over its standard deviation. */
function residualsOf(fit: IsothermFit): Residual[] {
	const onBalance = fit.method === "balance lines";
	return fit.used.map((p, i) => {
		const read = onBalance ? p.concentration : p.uptake;
		const size = (read - fit.expected[i]) / fit.deviations[i];
		const unit = onBalance ? "mg/L" : "mg/g";
		const bound = p.is === "below detection";
		return {
			flask: p.flask,
			x: p.concentration,
			size: Number.isFinite(size) ? size : 0,
			bound,
			hover: `${pointWords(p, fit.points)}\n${onBalance ? "residue" : "uptake"} on the curve ${roundedTo(fit.expected[i], fit.deviations[i])} ${unit}\nresidual ${bound ? "at most " : ""}${signed(roundedTo(size, 0.1))} standard deviations`,
		};
	});
}

const background: readonly Layer[] = [
	{
		is: "zone",
		name: "",
		axis: "y",
		from: -wide,
		to: wide,
		label: "nineteen in twenty lie here",
		ink: "quiet",
	},
	{
		is: "reference line",
		name: "",
		axis: "y",
		at: 0,
		label: "",
		ink: "quiet",
		dash: "solid",
	},
];

/** What tells a fit from the others; "" where there are none. */
function nameOf(fit: IsothermFit, fits: readonly IsothermFit[]): string {
	if (fits.length < 2) return "";
	return new Set(fits.map((f) => f.isotherm.name)).size === 1
		? fit.points.name
		: `${fit.points.name}, ${fit.isotherm.name}`;
}

function fitLayers(
	residuals: readonly Residual[],
	name: string,
	{ ink, shape }: Pick<SeriesLook, "ink" | "shape">,
): Layer[] {
	const drawn = residuals.filter((r) => r.x > 0);
	const points = drawn
		.filter((r) => !r.bound)
		.map((r) => ({ x: r.x, y: r.size, hover: r.hover, label: r.flask }));
	const arrows = drawn
		.filter((r) => r.bound)
		.map((r) => ({
			x: r.x,
			y: r.size,
			towards: "down" as const,
			label: r.flask,
			hover: r.hover,
			shape,
		}));
	return [
		{ is: "points", name, ink, shape, points },
		...(arrows.length > 0
			? [{ is: "arrows" as const, name: "ran dry", ink, arrows }]
			: []),
	];
}

function sizeText({ size }: Residual): string {
	return signed(roundedTo(size, 0.1));
}

function farWords(residuals: readonly Residual[]): string {
	const far = residuals.filter((r) => !r.bound && Math.abs(r.size) > wide);
	return far.length === 0
		? "All lie within two standard deviations"
		: `Outside two standard deviations: ${listed(far.map((r) => `flask ${r.flask} (${sizeText(r)})`))}`;
}

/**
 * Residuals of one or several isotherm fits, in standard deviations, against the residue: a fit that suits its data leaves no pattern, and about one flask in twenty outside the shaded stretch. A flask that ran dry has an arrow
 * down: its residue lies at the limit or lower.
 */
export function isothermResiduals(...fits: readonly IsothermFit[]): Figure {
	const onBalance = (fits[0]?.method ?? "balance lines") === "balance lines";
	const all = fits.map(residualsOf);
	const what = onBalance
		? "Residue that was read less residue on the curve"
		: "Uptake that was found less uptake on the curve";
	const title = `What the curve leaves over: ${listed([...new Set(fits.map((f) => f.isotherm.name))])}`;
	const inOrder = all
		.flat()
		.filter((r) => !r.bound)
		.sort((a, b) => a.x - b.x);
	return figure({
		title,
		alt: `${title}. ${what}, in standard deviations, of ${countOf(all.flat().length, "flask")}. ${farWords(all.flat())}. In order of the residue: ${inOrder.map(sizeText).join(", ")}.`,
		x: residueAxis(
			fits.map((f) => f.points),
			"log",
		),
		y: { label: what, unit: "standard deviations", scale: { is: "linear" } },
		layers: [
			...background,
			...fits.flatMap((fit, k) =>
				fitLayers(
					all[k],
					nameOf(fit, fits),
					fits.length > 1 ? seriesLook(k) : { ink: "blue", shape: "circle" },
				),
			),
		],
		notes: [
			fits[0]?.scaleFrom === "reading errors"
				? "Standard deviations from the reading errors."
				: "The size of the standard deviation is taken from this scatter itself: look for a pattern, not for the size.",
		],
	});
}
