/** What to say where a cell calls a public name of an earlier version. */
import { successors } from "./successors";

/** One call takes the place of the old one; anything else is told as a sentence. */
const call = /^[\w.]+(?:\((?:[^()]|\([^()]*\))*\))?(?:\.\w+)*$/;

/** "bench.readRun is now bench.readTrial(path)."; "" for a name that was never public, or still is. */
export function successorText(
	name: string,
	known: Readonly<Record<string, string>> = successors,
): string {
	if (!Object.hasOwn(known, name)) return "";
	const next = known[name];
	return call.test(next)
		? `${name} is now ${next}.`
		: `${name} is gone: ${next.replace(/\.$/, "")}.`;
}

/** How the compiler says that a namespace of the library lacks a name; the namespace stands as the path of its door. */
const messages = [
	/^Property '(?<name>\w+)' does not exist on type 'typeof import\("(?:.*[\\/])?(?<room>\w+)[\\/](?:index|public)"\)'/,
	/^Namespace '"?(?:.*[\\/])?(?<room>\w+)[\\/](?:index|public)"?' has no exported member '(?<name>\w+)'/,
];

/** Namespaces of earlier versions, and those that took their place. */
const goneRooms: Readonly<Record<string, string>> = {
	curves: "isotherms, dose, temperature and mixtures",
};

/** How the compiler says that the library lacks a namespace: in an import, or after the library's name. */
const roomMessages = [
	/^Module '"charledger"' has no exported member '(?<room>\w+)'/,
	/^Property '(?<room>\w+)' does not exist on type 'typeof import\("(?:.*[\\/])?(?:kernel-lib|dist|charledger)[\\/]index"\)'/,
];

/** "curves is gone: ..." for a namespace of an earlier version; "" for any other message. */
function goneRoomInMessage(message: string): string {
	for (const pattern of roomMessages) {
		const room = pattern.exec(message)?.groups?.room ?? "";
		if (Object.hasOwn(goneRooms, room))
			return `${room} is gone: what it held is now in ${goneRooms[room]}.`;
	}
	return "";
}

/** The successor of the name that a message of the compiler misses; "" where it is about something else. */
export function successorInMessage(
	message: string,
	known: Readonly<Record<string, string>> = successors,
): string {
	const room = goneRoomInMessage(message);
	if (room !== "") return room;
	for (const pattern of messages) {
		const found = pattern.exec(message)?.groups;
		if (found !== undefined)
			return successorText(`${found.room}.${found.name}`, known);
	}
	return "";
}

/** The successor of the name at a place in a cell, "bench.readRun" or "charledger.bench.readRun"; "" for none. */
export function successorAt(
	source: string,
	position: number,
	known: Readonly<Record<string, string>> = successors,
): string {
	for (const match of source.matchAll(/\b(?:charledger\.)?(\w+\.\w+)\b/g)) {
		const end = match.index + match[0].length;
		if (position >= match.index && position <= end)
			return successorText(match[1], known);
	}
	return "";
}
