// Loaded before a program (node --require): counts its calls that change files, and at the one that FAULT names ("kill 7", "ENOSPC 7") ends the process or fails as a full disk does. "count" prints how many there were.
const fs = require("node:fs");

const [what, at] = (process.env.FAULT ?? "count").split(" ");
let calls = 0;
for (const name of [
	"mkdirSync",
	"writeFileSync",
	"openSync",
	"fsyncSync",
	"renameSync",
	"rmSync",
	"rmdirSync",
]) {
	const real = fs[name];
	fs[name] = (...args) => {
		calls += 1;
		if (calls === Number(at)) {
			if (what === "kill") process.kill(process.pid, "SIGKILL");
			throw Object.assign(new Error(`${what}: made up for a test`), {
				code: what,
				syscall: name,
				path: String(args[0]),
			});
		}
		return real(...args);
	};
}
if (what === "count") process.on("exit", () => console.log(calls));
