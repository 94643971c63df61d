import type { IsothermFit } from "../isotherms";
import type { Arrow, Figure, Layer, Point } from "./description";
import { figure } from "./figure";
import { pointWords, residueAxis } from "./isotherm-marks";
import { seriesLook } from "./look";
import { countOf, listed, roundedTo, signed } from "./words";

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

/**
 * Residuals of one or several isotherm fits, in standard deviations, against the residue: a fit that suits its data leaves no pattern, and about one flask in twenty outside the shaded stretch. A flask that ran dry has an arrow
 * down: its residue lies at the limit or lower.
 */
export function isothermResiduals(...fits: readonly IsothermFit[]): Figure {
	const method = fits[0]?.method ?? "balance lines";
	const all = fits.map(residualsOf);
	const several = fits.length > 1;
	const layers: Layer[] = [
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
	fits.forEach((fit, k) => {
		const look = several
			? seriesLook(k)
			: { ink: "blue" as const, shape: "circle" as const };
		const name = several
			? new Set(fits.map((f) => f.isotherm.name)).size === 1
				? fit.points.name
				: `${fit.points.name}, ${fit.isotherm.name}`
			: "";
		const drawn = all[k].filter((r) => r.x > 0);
		const points: Point[] = drawn
			.filter((r) => !r.bound)
			.map((r) => ({ x: r.x, y: r.size, hover: r.hover, label: r.flask }));
		const arrows: Arrow[] = drawn
			.filter((r) => r.bound)
			.map((r) => ({
				x: r.x,
				y: r.size,
				towards: "down",
				label: r.flask,
				hover: r.hover,
				shape: look.shape,
			}));
		layers.push({
			is: "points",
			name,
			ink: look.ink,
			shape: look.shape,
			points,
		});
		if (arrows.length > 0)
			layers.push({ is: "arrows", name: "ran dry", ink: look.ink, arrows });
	});
	const far = all.flat().filter((r) => !r.bound && Math.abs(r.size) > wide);
	const what =
		method === "balance lines"
			? "Residue that was read less residue on the curve"
			: "Uptake that was found less uptake on the curve";
	const title = `What the curve leaves over: ${listed([...new Set(fits.map((f) => f.isotherm.name))])}`;
	return figure({
		title,
		alt: `${title}. ${what}, in standard deviations, of ${countOf(all.flat().length, "flask")}. ${
			far.length === 0
				? "All lie within two standard deviations"
				: `Outside two standard deviations: ${listed(far.map((r) => `flask ${r.flask} (${signed(roundedTo(r.size, 0.1))})`))}`
		}. In order of the residue: ${all
			.flat()
			.filter((r) => !r.bound)
			.sort((a, b) => a.x - b.x)
			.map((r) => signed(roundedTo(r.size, 0.1)))
			.join(", ")}.`,
		x: residueAxis(
			fits.map((f) => f.points),
			"log",
		),
		y: { label: what, unit: "standard deviations", scale: { is: "linear" } },
		layers,
		notes: [
			fits[0]?.scaleFrom === "reading errors"
				? "Standard deviations from the reading errors."
				: "The size of the standard deviation is taken from this scatter itself: look for a pattern, not for the size.",
		],
	});
}
