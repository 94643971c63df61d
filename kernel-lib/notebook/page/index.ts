import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { PageAssets } from "./page";

export { type PageAssets, pageHtml } from "./page";

/** The parts of a page that come from installed packages. */
export function installedAssets(): PageAssets {
	const path = createRequire(__filename).resolve("plotly.js-basic-dist-min");
	return { plotly: readFileSync(path, "utf8") };
}
