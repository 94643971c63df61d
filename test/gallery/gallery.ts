import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import {
	type FigureDescription,
	figureSvg,
	plotlyFigure,
} from "../../kernel-lib/figures/index";

const widths = [375, 700, 1200] as const;
/** Grey is the light picture as a black-and-white printer sees it. */
const looks = ["light", "dark", "grey"] as const;

function picture(
	figure: FigureDescription,
	width: number,
	theme: "light" | "dark",
): string {
	const svg = figureSvg(figure, { width, theme });
	return `<img width="${width}" alt="" src="data:image/svg+xml;base64,${Buffer.from(svg).toString("base64")}">`;
}

function escaped(text: string): string {
	return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;");
}

/** Every figure on one page: three widths, light, dark and grey, its alt text, and the interactive form; for looking at by eye. */
export function galleryPage(
	figures: ReadonlyMap<string, FigureDescription>,
): string {
	const plotly = readFileSync(
		createRequire(import.meta.url).resolve("plotly.js-basic-dist-min"),
		"utf8",
	);
	const sections = [...figures].map(([name, figure]) => {
		const rows = looks.map(
			(look) =>
				`<div class="${look}">${widths.map((w) => picture(figure, w, look === "dark" ? "dark" : "light")).join("\n")}</div>`,
		);
		return `<section id="${name}"><h2>${name}</h2>${rows.join("")}<p>${escaped(figure.alt)}</p><div class="interactive" data-name="${name}"></div></section>`;
	});
	const data = JSON.stringify(
		Object.fromEntries(
			[...figures].map(([name, figure]) => [name, plotlyFigure(figure)]),
		),
	).replaceAll("<", "\\u003c");
	return `<!doctype html><html lang="en"><meta charset="utf-8"><title>All figures (invented data)</title>
<style>body{font-family:sans-serif;margin:16px}img{margin:4px;vertical-align:top;outline:1px solid #8884}.dark{background:#14181b}.grey{filter:grayscale(1)}p{max-width:80em}.interactive{width:1000px}</style>
<h1>All figures (invented data)</h1>
<script>${plotly}</script>
${sections.join("\n")}
<script>const figures=${data};
for(const place of document.querySelectorAll(".interactive")){const f=figures[place.dataset.name];Plotly.newPlot(place,f.data,f.layout,f.config)}</script>
</html>`;
}
