import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { sampleFigures } from "../figures/samples";
import { galleryPage } from "./gallery";

// Also the way to make the page: it lands in results/gallery.html.
test("the gallery shows every figure", () => {
	const figures = sampleFigures();
	const page = galleryPage(figures);
	for (const name of figures.keys())
		expect(page).toContain(`<section id="${name}">`);
	expect(page.match(/<img width=/g)).toHaveLength(figures.size * 9);
	mkdirSync("results", { recursive: true });
	writeFileSync(join("results", "gallery.html"), page);
});
