/** The versions of Node that the program runs on. This file imports nothing, so that it can be read before anything that an old Node cannot load. */

/** The range as package.json states it under "engines". */
export const nodeRange = "^20.19 || >=22.12";

/** Is a version, such as "22.11.0", within the range? Outside it CommonJS cannot load the ES modules that the library leans on. */
export function isNodeInRange(version: string): boolean {
	const [major = 0, minor = 0] = version.split(".").map(Number);
	return (
		(major === 20 && minor >= 19) || (major === 22 && minor >= 12) || major > 22
	);
}

/** Which versions there are to choose from, in words. */
export const nodeWanted =
	"Node 20.19 or a later 20, or Node 22.12 or anything newer";
