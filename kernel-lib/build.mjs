// Builds the library: TypeScript to CommonJS with .d.ts, and danfojs-node into one file of it. Written beside and then put in place, so that a build which is interrupted leaves the earlier one whole; not built again where nothing has changed.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
	existsSync,
	readdirSync,
	readFileSync,
	renameSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const root = dirname(here);
const dist = join(here, "dist");
const next = join(here, `dist.next.${process.pid}`);
const old = join(here, `dist.old.${process.pid}`);
/** What a distribution was built from, in it. */
const stamp = "built-from.txt";

/** Files that the distribution is made of, below a folder. */
function sourcesIn(folder) {
	return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
		const path = join(folder, entry.name);
		if (entry.isDirectory())
			return /^(dist(\..*)?|node_modules)$/.test(entry.name)
				? []
				: sourcesIn(path);
		return /\.(ts|mjs|js|json)$/.test(entry.name) ? [path] : [];
	});
}

function hashOfSources() {
	const hash = createHash("sha256");
	for (const path of [
		...sourcesIn(here).sort(),
		join(root, "tsconfig.json"),
		join(root, "package-lock.json"),
	])
		hash.update(path.slice(root.length)).update(readFileSync(path));
	return hash.digest("hex");
}

const builtFrom = (folder) =>
	existsSync(join(folder, stamp))
		? readFileSync(join(folder, stamp), "utf8").trim()
		: "";

const isAlive = (pid) => {
	try {
		process.kill(pid, 0);
		return true;
	} catch (error) {
		return error.code === "EPERM";
	}
};

/** What builds that were interrupted left; the earlier distribution, where one was interrupted between its two renames. */
function tidy() {
	for (const name of readdirSync(here)) {
		const [, kind, pid] = /^dist\.(next|old)\.(\d+)$/.exec(name) ?? [];
		if (kind === undefined || isAlive(Number(pid))) continue;
		if (kind === "old" && !existsSync(dist)) renameSync(join(here, name), dist);
		else rmSync(join(here, name), { recursive: true, force: true });
	}
}

function run(words) {
	const done = spawnSync(process.execPath, words, {
		cwd: root,
		stdio: "inherit",
	});
	if (done.status !== 0) {
		rmSync(next, { recursive: true, force: true });
		process.exit(done.status ?? 1);
	}
}

tidy();
const sources = hashOfSources();
if (builtFrom(dist) !== sources) {
	console.log("Building kernel-lib (about ten seconds) ...");
	const tsc = createRequire(import.meta.url).resolve("typescript/bin/tsc");
	run([tsc, "-p", "tsconfig.json", "--outDir", next]);
	run([
		join(here, "bench", "dataframe-backend", "bundle.mjs"),
		join(next, "bench", "dataframe-backend"),
	]);
	writeFileSync(join(next, stamp), `${sources}\n`);
	if (existsSync(dist)) renameSync(dist, old);
	renameSync(next, dist);
	rmSync(old, { recursive: true, force: true });
}
