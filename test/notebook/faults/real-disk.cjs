// Mounts a small disk of its own (inside `unshare --user --map-root-user --mount`, which nobody else sees), lets a set of results be written there, and says as JSON what came of it: node real-disk.cjs FOLDER full|read-only
const { spawnSync } = require("node:child_process");
const fs = require("node:fs");
const { join } = require("node:path");

const [folder, fault] = process.argv.slice(2);
const run = (command, args) => spawnSync(command, args, { encoding: "utf8" });
const mounted = run("mount", [
	"-t",
	"tmpfs",
	"-o",
	"size=256k",
	"disk",
	folder,
]);
if (mounted.status !== 0) {
	console.log(JSON.stringify({ mounted: false, because: mounted.stderr }));
	process.exit(0);
}
const write = (text) =>
	run(process.execPath, [join(__dirname, "write-set.cjs"), folder, text]);
const names = ["job.html", "job.ipynb", "ledger.csv", "results.json"];
const held = () =>
	names.map((name) => fs.readFileSync(join(folder, name), "utf8"));

const first = write("old");
if (fault === "read-only") run("mount", ["-o", "remount,ro", folder]);
// Four files of this on 256 kB: the disk is full before the third.
const second = write("new".repeat(30_000));
const cli =
	fault === "read-only"
		? run(process.execPath, [
				join(__dirname, "../../../kernel-lib/dist/cli.js"),
				"run",
				join(__dirname, "../../../notebooks/compare-treatments.ipynb"),
				"--out",
				folder,
			])
		: undefined;
const after = held();
if (fault === "read-only") run("mount", ["-o", "remount,rw", folder]);
const third = write("third");
console.log(
	JSON.stringify({
		mounted: true,
		first: first.status,
		second: { status: second.status, stderr: second.stderr },
		cli: cli && { status: cli.status, stderr: cli.stderr },
		after,
		third: third.status,
		afterNext: held(),
		left: fs.readdirSync(folder).filter((name) => name.startsWith(".")),
	}),
);
