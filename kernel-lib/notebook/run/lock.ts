/** One run at a time writes into a folder. */
import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { hostname } from "node:os";
import { join } from "node:path";
import { problem, throwProblems } from "../../quantity";

const lockFile = ".charledger-lock";

/** Who holds a folder. */
interface Holder {
	readonly process: number;
	readonly host: string;
	readonly since: string;
}

function holderOf(path: string): Holder | "nobody" {
	try {
		return JSON.parse(readFileSync(path, "utf8")) as Holder;
	} catch {
		// Gone meanwhile, or cut short by the end of its process.
		return "nobody";
	}
}

/** Whether a holder may still be at work: a process of another machine cannot be asked. */
function isAtWork({ process: id, host }: Holder): boolean {
	if (host !== hostname()) return true;
	try {
		process.kill(id, 0);
		return true;
	} catch (error) {
		return (error as { readonly code?: string }).code === "EPERM";
	}
}

function refuse(folder: string, path: string, holder: Holder): void {
	throwProblems([
		problem(
			"folder-in-use",
			{ file: folder },
			`another run that writes into this folder (process ${holder.process} on ${holder.host}, since ${holder.since})`,
			"one run at a time",
			`Wait until it is done, or write elsewhere with --out. If nothing runs there any more, remove ${path}.`,
		),
	]);
}

/** A folder that is held. */
export interface Lock {
	/** Whether it is still ours: asked just before files are put in place. */
	isOurs(): boolean;
	release(): void;
}

/**
 * Takes a folder for this process; one that a dead process held is taken over.
 * @throws ProblemError where another run holds it
 */
export function lock(folder: string): Lock {
	const path = join(folder, lockFile);
	const own: Holder = {
		process: process.pid,
		host: hostname(),
		since: new Date().toISOString(),
	};
	const text = JSON.stringify(own);
	const isOurs = (): boolean =>
		existsSync(path) && readFileSync(path, "utf8") === text;
	for (let tries = 0; tries < 3; tries++) {
		try {
			writeFileSync(path, text, { flag: "wx" });
			return {
				isOurs,
				release() {
					if (isOurs()) rmSync(path, { force: true });
				},
			};
		} catch (error) {
			if ((error as { readonly code?: string }).code !== "EEXIST") throw error;
		}
		const holder = holderOf(path);
		if (holder !== "nobody" && isAtWork(holder)) refuse(folder, path, holder);
		rmSync(path, { force: true });
	}
	throw new Error(`The folder ${folder} could not be taken for this run.`);
}
