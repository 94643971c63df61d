import {
	type IsothermFit,
	type IsothermPoints,
	uptakeAt,
	uptakeAtResidue,
} from "../isotherms";
import type { Figure, Layer } from "./description";
import { figure } from "./figure";
import {
	curvePoints,
	drawnRange,
	pointLayers,
	residueAxis,
	residuePlaces,
	uptakeAxis,
} from "./isotherm-marks";
import { type SeriesLook, seriesLook } from "./look";
import { countOf, listed, roundedInterval, roundedTo } from "./words";

export interface IsothermFigureOptions {
	/** Both axes; linear if not given. */
	readonly scale?: "linear" | "log";
	/** Draws each flask's mass balance: whatever its titre, the flask lies somewhere on this line, and it should lie where the line meets the curve. Linear axes only. */
	readonly balanceLines?: boolean;
	/** A residue (mg/L) at which treatments are compared; marked, and read off in the alt text. */
	readonly atResidue?: number;
	readonly title?: string;
}

/** Largest uptake (as a multiple of the highest point or curve) up to which a band is drawn: a band without end would flatten everything else. */
const bandReach = 1.5;

/** A band at fewer places than its curve: each costs the propagation of all shared errors. */
const bandEvery = 3;

function parametersInWords(fit: IsothermFit): string {
	return fit.parameters
		.map((p) => {
			const unit = p.unit === "" ? "" : ` ${p.unit}`;
			return p.standardError.is === "value"
				? `${p.name} ${roundedTo(p.value, p.standardError.value)}${unit} (standard error ${roundedTo(p.standardError.value, p.standardError.value)})`
				: `${p.name} ${roundedTo(p.value, 0)}${unit} (no standard error)`;
		})
		.join(", ");
}

function bandOf(
	fit: IsothermFit,
	places: readonly number[],
	look: SeriesLook,
	name: string,
	ceiling: number,
): { layer: Layer[]; cut: boolean } {
	const inside = places.filter(
		(c, i) =>
			(i % bandEvery === 0 || i === places.length - 1) &&
			c < fit.isotherm.highestConcentration,
	);
	let cut = false;
	const points = uptakeAtResidue(fit, ...inside).flatMap((at) => {
		if (at.low.is === "not known" || at.high.is === "not known") return [];
		if (at.high.value > ceiling) cut = true;
		return [
			{
				x: at.residue,
				low: Math.min(Math.max(0, at.low.value), ceiling),
				high: Math.min(Math.max(0, at.high.value), ceiling),
			},
		];
	});
	return points.length > 1
		? { layer: [{ is: "band", name, ink: look.ink, points }], cut }
		: { layer: [], cut };
}

/** The stretch of a flask's balance line that lies on the figure. */
function balanceLayers(
	fits: readonly IsothermFit[],
	high: number,
	ceiling: number,
): Layer[] {
	const lines = fits
		.flatMap((f) => f.used)
		.flatMap((p) => (p.balance.is === "known" ? [p.balance] : []));
	const seen = new Set<string>();
	return lines.flatMap(({ intercept, slope }): Layer[] => {
		const key = `${intercept} ${slope}`;
		if (seen.has(key) || !(intercept > 0)) return [];
		seen.add(key);
		const from = Math.max(0, (intercept - ceiling) / slope);
		const to = Math.min(high, intercept / slope);
		return from >= to
			? []
			: [
					{
						is: "line",
						name: "mass balance of a flask",
						ink: "quiet",
						dash: "dotted",
						points: [
							{ x: from, y: intercept - slope * from },
							{ x: to, y: intercept - slope * to },
						],
					},
				];
	});
}

function residueWords(fit: IsothermFit, residue: number): string {
	const [at] = uptakeAtResidue(fit, residue);
	const where = `at ${roundedTo(residue, 0)} mg/L`;
	const outside = at.extrapolating ? ", outside the measured range" : "";
	if (at.low.is === "not known" || at.high.is === "not known")
		return `${where} ${roundedTo(at.uptake, 0)} mg/g (no interval)${outside}`;
	const r = roundedInterval(at.uptake, at.low.value, at.high.value);
	return `${where} ${r.value} mg/g (${r.low} to ${r.high})${outside}`;
}

/**
 * Uptake against residue with the fitted curves, each as far as its flasks were read: confidence band of the curve (shared errors in it), points with the flask's own errors (k = 2), flasks that ran dry as arrows.
 * Treatments are told apart by colour, shape and dash; several isotherms for one treatment by colour and dash.
 *
 * @param fits of one or several treatments, of one or several isotherms
 */
export function isotherms(
	fits: readonly IsothermFit[],
	options: IsothermFigureOptions = {},
): Figure {
	const { scale = "linear", balanceLines = false } = options;
	const sets = [...new Set(fits.map((f) => f.points))];
	const oneIsotherm = new Set(fits.map((f) => f.isotherm.name)).size === 1;
	const nameOf = (fit: IsothermFit): string =>
		sets.length === 1
			? fit.isotherm.name
			: oneIsotherm
				? fit.points.name
				: `${fit.points.name}, ${fit.isotherm.name}`;
	// One curve a treatment shares its entry in the key with its points.
	const curvesOf = (set: IsothermPoints): IsothermFit[] =>
		fits.filter((f) => f.points === set);
	const pointName = (set: IsothermPoints): string =>
		sets.length > 1
			? curvesOf(set).length === 1
				? nameOf(curvesOf(set)[0])
				: set.name
			: "flask";
	const curves = fits.map((fit, i) => ({
		fit,
		look: seriesLook(i),
		points: curvePoints(
			fit.isotherm,
			fit.theta,
			residuePlaces(
				drawnRange([fit], scale).low,
				drawnRange([fit], scale).high,
				scale,
			),
		),
	}));
	const highest = Math.max(
		0,
		...curves.flatMap((c) => c.points.map((p) => p.y)),
		...sets.flatMap((s) => s.points.map((p) => p.uptake)),
	);
	const ceiling = bandReach * highest;
	let cut = false;
	const bands: Layer[] = [];
	for (const c of curves) {
		const band = bandOf(
			c.fit,
			c.points.map((p) => p.x),
			c.look,
			nameOf(c.fit),
			ceiling,
		);
		bands.push(...band.layer);
		cut ||= band.cut;
	}
	const widest = Math.max(
		0,
		...curves.flatMap((c) => c.points.map((p) => p.x)),
	);
	const withBalance = balanceLines && scale === "linear";
	const layers: Layer[] = [
		...(withBalance ? balanceLayers(fits, widest, 1.05 * highest) : []),
		...bands,
		...curves.map(
			({ fit, look, points }): Layer => ({
				is: "line",
				name: nameOf(fit),
				ink: look.ink,
				dash: look.dash,
				points,
			}),
		),
		...sets.flatMap((set) => {
			const look = seriesLook(fits.findIndex((f) => f.points === set));
			return pointLayers(
				set,
				sets.length === 1 ? { ink: "text", shape: "circle" } : look,
				pointName(set),
				scale,
			);
		}),
		...(options.atResidue === undefined
			? []
			: [
					{
						is: "reference line" as const,
						name: "",
						axis: "x" as const,
						at: options.atResidue,
						label: `compared at ${roundedTo(options.atResidue, 0)} mg/L`,
						ink: "quiet" as const,
						dash: "dashed" as const,
					},
				]),
	];
	const confidence = Math.round(100 * (fits[0]?.confidence ?? 0.95));
	const flaskErrors = sets.some((s) =>
		s.points.some((p) => p.own.uptake > 0 || p.own.concentration > 0),
	);
	const leftOut = sets.flatMap((s) => s.leftOut.map((l) => l.flask));
	const notes = [
		bands.length > 0
			? `Shaded: ${confidence} % confidence band of the curve, shared errors included; single flasks scatter more widely.`
			: "No band: these data give the curve no error.",
		...(cut
			? [
					"A band is cut off where it leaves the figure: there the data do not determine the curve.",
				]
			: []),
		...(flaskErrors
			? ["Error bars: the flask's own reading errors, k = 2."]
			: []),
		...(leftOut.length > 0
			? [`Not in the fit: ${listed(leftOut.map((f) => `flask ${f}`))}.`]
			: []),
	];
	const dry = sets.flatMap((s) =>
		s.points.filter((p) => p.is === "below detection").map((p) => p.flask),
	);
	const title =
		options.title ??
		(oneIsotherm && fits.length > 0
			? `${fits[0].isotherm.name} isotherm${sets.length === 1 && sets[0].name !== "" ? `, ${sets[0].name}` : ""}`
			: `Isotherms${sets.length === 1 && sets[0].name !== "" ? `, ${sets[0].name}` : ""}`);
	return figure({
		title,
		alt: `${title}. Uptake against residual concentration, ${countOf(
			sets.reduce((n, s) => n + s.points.length, 0),
			"flask",
		)}${sets.length > 1 ? ` in ${countOf(sets.length, "treatment")}` : ""}, ${countOf(fits.length, "fitted curve")}. ${fits
			.map((f) => {
				const low = uptakeAt(f.isotherm, f.theta, f.range.low);
				const high = uptakeAt(f.isotherm, f.theta, f.range.high);
				return `${nameOf(f)}: the curve goes from ${roundedTo(low, 0)} mg/g at ${roundedTo(f.range.low, 0)} mg/L to ${roundedTo(high, 0)} mg/g at ${roundedTo(f.range.high, 0)} mg/L; ${parametersInWords(f)}${
					options.atResidue === undefined
						? ""
						: `; ${residueWords(f, options.atResidue)}`
				}`;
			})
			.join(". ")}.${
			dry.length === 0
				? ""
				: ` Ran dry, so only a limit: ${listed(dry.map((f) => `flask ${f}`))}.`
		}`,
		x: residueAxis(sets, scale),
		y: uptakeAxis(sets, scale),
		layers,
		notes,
	});
}
