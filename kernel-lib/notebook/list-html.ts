import { escapeHtml } from "../quantity";

/** Texts as a list, for pages and notebooks; nothing where there are none. */
export function listHtml(texts: readonly string[]): string {
	return texts.length === 0
		? ""
		: `<ul>${texts.map((t) => `<li>${escapeHtml(t)}</li>`).join("")}</ul>`;
}
