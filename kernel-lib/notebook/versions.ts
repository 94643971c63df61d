import { readFileSync } from "node:fs";
import { join } from "node:path";
import { versionOfRunningTslab } from "./kernel/tslab";

/** What a cell was run with. */
export interface Versions {
	readonly library: string;
	readonly node: string;
	/** "none" where no kernel ran it. */
	readonly tslab: string;
}

let library = "";

/** The version of this library, from its package.json. */
export function libraryVersion(): string {
	if (library === "") {
		// This file is kernel-lib/dist/notebook/versions.js, or its source one folder higher.
		const candidates = [
			join(__dirname, "..", "..", "..", "package.json"),
			join(__dirname, "..", "..", "package.json"),
		];
		library = candidates.map(versionIn).find((v) => v !== "") ?? "not known";
	}
	return library;
}

function versionIn(path: string): string {
	try {
		const { name, version } = JSON.parse(readFileSync(path, "utf8")) as {
			name?: string;
			version?: string;
		};
		return name === "charledger" ? (version ?? "") : "";
	} catch {
		return "";
	}
}

/** The versions in this process. */
export function versionsHere(): Versions {
	return {
		library: libraryVersion(),
		node: process.versions.node,
		tslab: versionOfRunningTslab(),
	};
}
