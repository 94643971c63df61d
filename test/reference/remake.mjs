// Makes the computed values of data/reference again with Python and R, in an environment of its own, and compares them with the files.
import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { environmentWith, root } from "../fronts/environment.mjs";

const scripts = join(root, "data", "reference", "remake");
const environment = environmentWith(
	".venv-remake",
	join(scripts, "requirements.txt"),
	11,
);
const done = spawnSync(
	environment.binary("python"),
	["-B", join(scripts, "run.py"), ...process.argv.slice(2)],
	{ stdio: "inherit" },
);
process.exitCode = done.status ?? 1;
