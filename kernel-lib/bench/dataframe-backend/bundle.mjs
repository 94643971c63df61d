/**
 * Puts danfojs-node, with the two stand-ins beside this file, into one file of the distribution. As published it asks for a tarball from outside the registry and for a
 * native binary, and the overrides that mend this here do not travel with a package: whoever installs charledger would meet them. The licences travel with the file.
 * node bundle.mjs FOLDER writes it there.
 */
import {
	existsSync,
	mkdirSync,
	readdirSync,
	readFileSync,
	writeFileSync,
} from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { build } from "rolldown";

const folder = process.argv[2];
if (folder === undefined) throw new Error("Name the folder to write into.");
mkdirSync(folder, { recursive: true });

const { output } = await build({
	input: createRequire(import.meta.url).resolve("danfojs-node"),
	platform: "node",
	// Drawing is done by our own figures; danfo's needs a browser anyway.
	external: ["plotly.js-dist-min"],
	output: {
		file: join(folder, "danfojs-node.js"),
		format: "cjs",
		minify: true,
	},
});

/** Folder of the package that a module belongs to. */
function packageOf(module) {
	for (let at = dirname(module); at !== dirname(at); at = dirname(at)) {
		const path = join(at, "package.json");
		if (existsSync(path) && JSON.parse(readFileSync(path, "utf8")).name)
			return at;
	}
	return undefined;
}

function licenceOf(folder) {
	const { name, version, license } = JSON.parse(
		readFileSync(join(folder, "package.json"), "utf8"),
	);
	const file = readdirSync(folder).find((f) => /^licen[cs]e/i.test(f));
	const text =
		file === undefined ? "" : readFileSync(join(folder, file), "utf8").trim();
	return `${name} ${version}: ${license ?? "see its text"}\n\n${text}\n`;
}

const modules = output.flatMap((chunk) =>
	chunk.type === "chunk" ? Object.keys(chunk.modules) : [],
);
const packages = new Set(
	modules
		.filter((m) => !m.startsWith("\0") && existsSync(m))
		.map(packageOf)
		.filter((p) => p !== undefined),
);
const licences = [...packages].map(licenceOf).sort();
writeFileSync(
	join(folder, "danfojs-node.licences.txt"),
	`Packages in danfojs-node.js and their licences.\n\n${licences.join("\n----\n\n")}`,
);
console.log(
	`danfojs-node with ${licences.length - 1} packages that it needs: one file`,
);
