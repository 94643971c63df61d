/** The kernelspec: what front ends need to find and start the kernel. Installed, removed, listed and checked without Python. */
import { spawnSync } from "node:child_process";
import {
	accessSync,
	copyFileSync,
	existsSync,
	readdirSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";
import { isNodeInRange, nodeWanted } from "../../node-version";
import { type Problem, problem, throwProblems } from "../../quantity";
import { makeFolder } from "../make-folder";

/** Where to install: for the person, or below a prefix (a virtual environment, /usr/local). */
export type KernelPlace =
	| { readonly is: "user" }
	| { readonly is: "prefix"; readonly folder: string };

export interface InstalledKernel {
	readonly name: string;
	readonly folder: string;
	/** What its kernel.json says, as it was read. */
	readonly argv: readonly string[];
}

const packageFolder = join(__dirname, "..", "..", "..", "..");
const logoFolder = join(packageFolder, "data", "kernelspec");
const logos = ["logo-svg.svg", "logo-64x64.png", "logo-32x32.png"];
const program = join(__dirname, "main.js");

/** Jupyter's data folder of a person, as Jupyter itself finds it. */
function userDataFolder(): string {
	const { JUPYTER_DATA_DIR, APPDATA, XDG_DATA_HOME } = process.env;
	if (JUPYTER_DATA_DIR) return JUPYTER_DATA_DIR;
	if (process.platform === "darwin")
		return join(homedir(), "Library", "Jupyter");
	if (process.platform === "win32")
		return join(APPDATA ?? join(homedir(), "AppData", "Roaming"), "jupyter");
	return join(XDG_DATA_HOME ?? join(homedir(), ".local", "share"), "jupyter");
}

function kernelsFolder(place: KernelPlace): string {
	return place.is === "user"
		? join(userDataFolder(), "kernels")
		: join(place.folder, "share", "jupyter", "kernels");
}

function requireName(name: string): void {
	if (!/^[A-Za-z0-9._-]+$/.test(name))
		throwProblems([
			problem(
				"kernel-name",
				{},
				`the name "${name}"`,
				"letters, digits, dots, dashes and underscores",
				"Choose another --name.",
			),
		]);
}

/**
 * Writes the kernelspec folder, in the place of an earlier one of the name.
 * @returns the folder
 */
export function installKernel(place: KernelPlace, name: string): string {
	requireName(name);
	const folder = join(kernelsFolder(place), name);
	rmSync(folder, { recursive: true, force: true });
	makeFolder(folder);
	const spec = {
		argv: [process.execPath, program, "{connection_file}"],
		display_name: "Charledger",
		language: "typescript",
		interrupt_mode: "signal",
		metadata: { debugger: false },
	};
	writeFileSync(
		join(folder, "kernel.json"),
		`${JSON.stringify(spec, null, 2)}\n`,
	);
	for (const logo of logos)
		copyFileSync(join(logoFolder, logo), join(folder, logo));
	return folder;
}

/** Is this a kernelspec of ours? Others are never touched. */
function isOurs(argv: readonly string[]): boolean {
	return argv.some((word) =>
		/[/\\]notebook[/\\]kernel[/\\]main\.js$/.test(word),
	);
}

function readSpec(folder: string): readonly string[] {
	try {
		const spec = JSON.parse(
			readFileSync(join(folder, "kernel.json"), "utf8"),
		) as { argv?: unknown };
		return Array.isArray(spec.argv) ? spec.argv.map(String) : [];
	} catch {
		return [];
	}
}

/** The kernelspecs of ours in a place. */
export function installedKernels(place: KernelPlace): InstalledKernel[] {
	const parent = kernelsFolder(place);
	if (!existsSync(parent)) return [];
	return readdirSync(parent)
		.map((name) => {
			const folder = join(parent, name);
			return { name, folder, argv: readSpec(folder) };
		})
		.filter((kernel) => isOurs(kernel.argv));
}

/**
 * Removes a kernelspec of ours.
 * @returns the folder that is gone
 * @throws ProblemError when there is none of that name
 */
export function removeKernel(place: KernelPlace, name: string): string {
	requireName(name);
	const kernel = installedKernels(place).find((k) => k.name === name);
	if (kernel === undefined) {
		throwProblems([
			problem(
				"kernel-missing",
				{ file: kernelsFolder(place) },
				`no kernel of ours called "${name}"`,
				"one that `charledger kernel install` wrote",
				"`charledger kernel list` shows what is there.",
			),
		]);
		return "";
	}
	rmSync(kernel.folder, { recursive: true, force: true });
	return kernel.folder;
}

function isThere(path: string): boolean {
	try {
		accessSync(path);
		return true;
	} catch {
		return false;
	}
}

function nodeProblems(kernel: InstalledKernel): Problem[] {
	const [node] = kernel.argv;
	const again = `Run \`charledger kernel install --name ${kernel.name}\` again.`;
	const said = spawnSync(node, ["--version"], { encoding: "utf8" });
	const version = /^v(\d+\.\d+\.\d+)/.exec(said.stdout ?? "")?.[1] ?? "";
	if (version === "")
		return [
			problem(
				"kernel-node-missing",
				{ file: kernel.folder },
				`a Node at ${node} that does not start`,
				"the Node that the kernel was installed with",
				again,
			),
		];
	return isNodeInRange(version)
		? []
		: [
				problem(
					"kernel-node-old",
					{ file: kernel.folder },
					`Node ${version}`,
					nodeWanted,
					`Install a newer Node. ${again}`,
				),
			];
}

function programProblems(kernel: InstalledKernel): Problem[] {
	const path = kernel.argv[1] ?? "";
	if (!isThere(path))
		return [
			problem(
				"kernel-moved",
				{ file: kernel.folder },
				`no program at ${path}`,
				"the folder in which charledger is installed",
				`It was moved or removed: run \`charledger kernel install --name ${kernel.name}\` again.`,
			),
		];
	const loads = spawnSync(
		kernel.argv[0],
		["-e", 'require("zeromq"); require("tslab/package.json");'],
		{ cwd: join(path, ".."), encoding: "utf8" },
	);
	return loads.status === 0
		? []
		: [
				problem(
					"kernel-packages",
					{ file: kernel.folder },
					`packages that do not load (${firstError(loads.stderr ?? "")})`,
					"zeromq and tslab beside charledger",
					"Run `npm install` in the folder of charledger again.",
				),
			];
}

function firstError(text: string): string {
	return (
		text.split("\n").find((line) => /Error/.test(line)) ?? "no message"
	).trim();
}

/** What is wrong with an installed kernel, and how to mend it; empty when it is fit for work. */
export function kernelProblems(kernel: InstalledKernel): Problem[] {
	const node = nodeProblems(kernel);
	return node.length > 0 ? node : programProblems(kernel);
}
