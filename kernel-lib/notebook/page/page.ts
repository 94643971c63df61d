import { escapeHtml } from "../../quantity";
import type { Notebook } from "../ipynb";
import { titleOf } from "../ipynb";
export function pageHtml(notebook: Notebook): string {
	return `<!doctype html><title>${escapeHtml(titleOf(notebook))}</title>`;
}
