import type * as properties from "../properties";
import { quoted, requireResults } from "../quantity";
import type { Arrow, Figure, Layer, Point } from "./description";
import { sievingKind } from "./doors";
import { errorBarOf } from "./error-bar";
import { figure } from "./figure";
import { dashes, type SeriesLook, seriesLook } from "./look";
import { countOf, roundedTo } from "./words";

type Size = properties.ParticleSizes["effectiveSize"];

const marked = [
	{ share: 10, name: "d10", of: "effectiveSize" },
	{ share: 60, name: "d60", of: "sixtyPercentSize" },
] as const;

function sizeText(size: Size): string {
	if (size.is === "not known") return "not determined";
	const d = size.quantity.to("mm");
	const value = `${roundedTo(d.value, size.is === "value" ? d.standardUncertainty : 0)} mm`;
	return size.is === "value" ? value : `${size.is} ${value}`;
}

function sizePoint(
	{ name, sample, sizes }: properties.SievingOfSample,
	mark: (typeof marked)[number],
): Point[] {
	const size = sizes[mark.of];
	if (size.is !== "value") return [];
	const d = size.quantity.to("mm");
	const bar = errorBarOf(d);
	return [
		{
			x: d.value,
			y: mark.share,
			hover: `${sample}, ${name}\n${mark.name} = ${d}`,
			hollow: true,
			...(bar.low > 0 ? { xInterval: bar } : {}),
		},
	];
}

function sizeArrow(
	{ name, sample, sizes }: properties.SievingOfSample,
	mark: (typeof marked)[number],
): Arrow[] {
	const size = sizes[mark.of];
	if (size.is === "value" || size.is === "not known") return [];
	return [
		{
			x: size.quantity.to("mm").value,
			y: mark.share,
			towards: size.is === "at least" ? "right" : "left",
			label: `${mark.name} ${size.is}`,
			hover: `${sample}, ${name}\n${mark.name} ${sizeText(size)}\n${size.because}`,
		},
	];
}

/** The curve of one sieving; `before` sievings of the same char came before it. */
function sievingLayers(
	sieving: properties.SievingOfSample,
	before: number,
	{ ink, shape }: SeriesLook,
): Layer[] {
	const { sample, name, sizes } = sieving;
	const points = sizes.passing.map((p) => ({
		x: p.opening.to("mm").value,
		y: p.share.to("%").value,
		hover: `${sample}, ${name}\n${p.share} passes ${p.opening.to("mm").value} mm`,
	}));
	return [
		{
			is: "line",
			name: "",
			ink,
			dash: dashes[before % dashes.length],
			points: [...points].reverse(),
		},
		{ is: "points", name: before === 0 ? sample : "", ink, shape, points },
		{
			is: "points",
			name: "",
			ink,
			shape,
			size: "large",
			points: marked.flatMap((m) => sizePoint(sieving, m)),
		},
		{
			is: "arrows",
			name: "",
			ink,
			arrows: marked.flatMap((m) => sizeArrow(sieving, m)),
		},
	];
}

const markedLines: readonly Layer[] = marked.map(
	(m): Layer => ({
		is: "reference line",
		name: "",
		axis: "y",
		at: m.share,
		label: `${m.share} % finer: ${m.name}`,
		ink: "quiet",
		dash: "dotted",
	}),
);

/**
 * Cumulative particle-size distributions: what passes each sieve, against the logarithm of its opening, with effective size d10 and d60 marked where the lines reach 10 and 60 % (bars: measuring
 * uncertainty, 95 %; arrows where they lie beyond the sieves). Sievings of one char share colour and shape.
 * @example
 * const sheet = properties.readProperties("data/demo-properties/chars.csv");
 * figures.particleSizeCurves(sheet.sievings).x.label // => "Opening of the sieve"
 */
export function particleSizeCurves(
	sievings: readonly properties.SievingOfSample[],
): Figure {
	requireResults(sievings, sievingKind, "figures.particleSizeCurves");
	const samples = [...new Set(sievings.map((s) => s.sample))];
	const words = sievings.map(
		({ sample, name, sizes }) =>
			`${quoted(sample)}, determination ${name}: d10 ${sizeText(sizes.effectiveSize)}, d60 ${sizeText(sizes.sixtyPercentSize)}.`,
	);
	return figure({
		title: "Particle sizes",
		alt: `Cumulative particle-size distribution of ${countOf(samples.length, "char")} in ${countOf(sievings.length, "sieving")}: the part by mass that passes each sieve, against its opening. ${words.join(" ")}`,
		x: { label: "Opening of the sieve", unit: "mm", scale: { is: "log" } },
		y: {
			label: "Passes, by mass",
			unit: "%",
			scale: { is: "linear", zero: true },
		},
		layers: [
			...markedLines,
			...sievings.flatMap((sieving, i) =>
				sievingLayers(
					sieving,
					sievings.slice(0, i).filter((s) => s.sample === sieving.sample)
						.length,
					seriesLook(samples.indexOf(sieving.sample)),
				),
			),
		],
		notes: [
			"Large outlines: d10 (effective size) and d60, with bars of twice their standard uncertainty, mostly that of the sieves' openings and of what lies between two of them, which chars on the same sieves share.",
		],
	});
}
