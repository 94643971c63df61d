/** What the system says of files, in sentences. */

interface SystemError {
	readonly code: string;
	readonly path?: string;
	readonly syscall?: string;
}

/** What was found, and how to mend it. */
const sentences: Readonly<Record<string, readonly [string, string]>> = {
	EACCES: [
		"this place may not be written or read by you",
		"Choose another folder with --out or --into, or change its rights.",
	],
	EPERM: [
		"the system does not allow this here",
		"Choose another folder with --out or --into, or change its rights.",
	],
	EROFS: [
		"this disk can be read only",
		"Choose a folder on another disk with --out or --into.",
	],
	ENOSPC: [
		"the disk is full",
		"Make room and run again; what was there before is whole.",
	],
	EDQUOT: [
		"your share of the disk is used up",
		"Make room and run again; what was there before is whole.",
	],
	EISDIR: [
		"a folder stands where a file is expected",
		"Name the file in it, or move the folder away.",
	],
	ENOTDIR: [
		"a file stands where a folder is expected",
		"Choose another folder, or move that file away.",
	],
	EEXIST: [
		"something of this name stands there already",
		"Choose another name or folder, or move it away.",
	],
	ENOENT: [
		"there is no such file or folder",
		"Look at the spelling and at the folder that you are in.",
	],
	"no folder here": [
		"no folder can be made here",
		"Choose another one with --out or --into.",
	],
	ENAMETOOLONG: [
		"this name is too long for the disk",
		"Choose a shorter name or folder.",
	],
	EMFILE: ["too many files are open", "Close other programs and try again."],
	EBUSY: [
		"another program holds this file",
		"Close it there (a spreadsheet, a browser) and try again.",
	],
	ELOOP: ["links lead in a circle here", "Name the file or folder itself."],
};

function isSystemError(error: unknown): error is SystemError {
	return (
		typeof error === "object" &&
		error !== null &&
		typeof (error as Partial<SystemError>).code === "string" &&
		typeof (error as Partial<SystemError>).syscall === "string"
	);
}

/** A sentence for an error of the system about a file; "" for any other error. */
export function systemErrorText(error: unknown): string {
	if (!isSystemError(error)) return "";
	const { code, path, syscall } = error;
	const [found, advice] = sentences[
		code === "ENOENT" && syscall === "mkdir" ? "no folder here" : code
	] ?? [
		`the system answered ${code}`,
		"Try another folder with --out or --into.",
	];
	return `${path ?? "A file"}: ${found}. ${advice}`;
}
