/** `npm run lab`: JupyterLab at the root of the project, with the folder of the templates shown and the Charledger kernel. */
import { spawn } from "node:child_process";
import { join } from "node:path";
import { makeEnvironment, root } from "./environment.mjs";

const environment = makeEnvironment();
spawn(
	environment.binary("jupyter"),
	[
		"lab",
		`--ServerApp.root_dir=${root}`,
		"--LabApp.default_url=/lab/tree/notebooks",
		...process.argv.slice(2),
	],
	{ cwd: join(root), stdio: "inherit" },
).on("exit", (code) => {
	process.exitCode = code ?? 1;
});
