// Prints every check against the outside world in one table, writes it as a page and exits non-zero when one fails.
// It reads the same list that the tests run.
import { mkdirSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { runnerImport } from "vite";

const here = (name) => fileURLToPath(new URL(name, import.meta.url));
const load = async (name) => (await runnerImport(here(name))).module;
const { checkGroups, closingLines } = await load("./all-checks.ts");
const { agreeingDigits, passes } = await load("./check.ts");

const escaped = (text) =>
	String(text)
		.replaceAll("&", "&amp;")
		.replaceAll("<", "&lt;")
		.replaceAll(">", "&gt;");
const shown = (x) => String(Number(x.toPrecision(10)));

let failed = 0;
let count = 0;
const rows = [];
for (const group of checkGroups) {
	console.log(`\n${group.title}`);
	rows.push(
		`<tr><th colspan="7" scope="rowgroup">${escaped(group.title)}</th></tr>`,
	);
	for (const check of group.checks) {
		let got = Number.NaN;
		try {
			got = check.got();
		} catch (error) {
			console.error(`  ${check.what}: ${error.message}`);
		}
		const pass = passes(check, got);
		count += 1;
		if (!pass) failed += 1;
		const digits = agreeingDigits(got, check.expected);
		const line = [
			pass ? "pass" : "FAIL",
			check.what,
			`expected ${shown(check.expected)} ${check.unit}`.trim(),
			`got ${Number.isFinite(got) ? shown(got) : "no number"}`,
			`${digits.toFixed(1)} digits`,
			check.provenance,
			check.source,
		];
		console.log(`  ${line.join(" | ")}`);
		rows.push(
			`<tr class="${pass ? "pass" : "fail"}"><td>${escaped(check.what)}</td><td>${escaped(check.source)}</td><td>${escaped(check.provenance)}</td><td>${escaped(`${shown(check.expected)} ${check.unit}`)}</td><td>${Number.isFinite(got) ? shown(got) : "no number"}</td><td>${digits.toFixed(1)}</td><td>${pass ? "pass" : "FAIL"}</td></tr>`,
		);
	}
}
const closing = [
	...closingLines(),
	`${count - failed} of ${count} checks against the outside world pass.`,
];
console.log(`\n${closing.join("\n")}`);
mkdirSync("results", { recursive: true });
writeFileSync(
	"results/reference.html",
	`<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Charledger: checks against the outside world</title>
<style>:root{color-scheme:light dark}body{font:16px/1.5 system-ui,sans-serif;margin:2rem auto;max-width:80rem;padding:0 1rem}table{border-collapse:collapse;width:100%}td,th{border-bottom:1px solid #8888;padding:.3rem .5rem;text-align:left;vertical-align:top}.fail{font-weight:bold;outline:2px solid}</style>
<h1>What the numbers rest on</h1><p>Every check of the library against the world outside: a published value, a value from memory (said so), or one computed with a named general library. The tests run the same list.</p>
<table><thead><tr><th>what</th><th>source</th><th>provenance</th><th>expected</th><th>got</th><th>agreeing digits</th><th>result</th></tr></thead><tbody>${rows.join("\n")}</tbody></table><p>${closing.map(escaped).join("<br>")}</p></html>\n`,
);
console.log("Written as a page: results/reference.html");
process.exitCode = failed === 0 ? 0 : 1;
