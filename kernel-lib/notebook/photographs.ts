import { existsSync, readFileSync } from "node:fs";
import { basename, isAbsolute, join } from "node:path";
import type { Flask } from "../bench";
import {
	contentHash,
	type Problem,
	problem,
	quoted,
	throwProblems,
} from "../quantity";
import type { Bundle } from "./display";
import { pixelsOf } from "./pixels";

/** Marks an output as a photograph of the bench; the picture itself stands beside it under its own type. */
export const photographMimeType = "application/vnd.charledger.photograph+json";

export interface AttachedPhotograph {
	readonly formatVersion: 1;
	/** Name without folders. */
	readonly file: string;
	readonly hash: string;
	readonly caption: string;
	readonly mediaType: "image/jpeg" | "image/png";
}

/** A page must stay small enough for mail: 6 MB, base64 makes four bytes of three, and figures need their part. */
const largest = { one: 700_000, all: 3_000_000 } as const;
/** A small file may unpack to a picture that takes all memory of whoever opens the page. */
const mostPixels = 50_000_000;

function mediaTypeOf(
	content: Buffer,
): AttachedPhotograph["mediaType"] | undefined {
	if (content.subarray(0, 3).equals(Buffer.from([0xff, 0xd8, 0xff])))
		return "image/jpeg";
	if (content.subarray(0, 4).equals(Buffer.from([0x89, 0x50, 0x4e, 0x47])))
		return "image/png";
	return undefined;
}

type Found =
	| {
			readonly ok: true;
			readonly bytes: number;
			readonly bundle: Bundle;
	  }
	| { readonly ok: false; readonly problem: Problem };

function captionOf(flask: Flask): string {
	const what = `Flask ${flask.name}${flask.treatment === "" ? "" : `, ${quoted(flask.treatment)}`}`;
	return flask.photographShows === ""
		? what
		: `${what}: ${flask.photographShows}`;
}

function photograph(flask: Flask, file: string, folder: string): Found {
	const wrong = (found: string, expected: string, mend: string): Found => ({
		ok: false,
		problem: problem(
			"photograph",
			{ ...flask.place, column: "photograph" },
			found,
			expected,
			mend,
		),
	});
	if (isAbsolute(file) || file.split(/[\\/]/).includes(".."))
		return wrong(
			`the path "${file}"`,
			"a file beside the sheet or in a folder below it",
			"Put the photograph beside the sheet and write its name alone.",
		);
	const path = join(folder, file);
	if (!existsSync(path))
		return wrong(
			`the name "${file}", and no such file beside the sheet`,
			"a photograph (JPEG or PNG) in the folder of the sheet",
			"Look at the spelling, and copy the photograph there.",
		);
	const content = readFileSync(path);
	const mediaType = mediaTypeOf(content);
	if (mediaType === undefined)
		return wrong(
			`"${file}", which is no JPEG and no PNG`,
			"a photograph in JPEG or PNG",
			"Save it as JPEG with the viewer of your machine.",
		);
	if (content.length > largest.one)
		return wrong(
			`"${file}" with ${megabytes(content.length)} MB`,
			`a photograph of at most ${megabytes(largest.one)} MB, so that the page can be sent by mail`,
			"Save it smaller: 1200 pixels on its longer side are plenty.",
		);
	const pixels = pixelsOf(content, mediaType);
	if (pixels === 0 || pixels > mostPixels)
		return wrong(
			pixels === 0
				? `"${file}", which does not say how large it is`
				: `"${file}" with ${Math.round(pixels / 1e6)} million pixels`,
			`a photograph of at most ${mostPixels / 1e6} million pixels`,
			"Save it anew and smaller with the viewer of your machine: 1200 pixels on its longer side are plenty.",
		);
	const known: AttachedPhotograph = {
		formatVersion: 1,
		file: basename(file),
		hash: contentHash(content),
		caption: captionOf(flask),
		mediaType,
	};
	return {
		ok: true,
		bytes: content.length,
		bundle: {
			[photographMimeType]: known,
			[mediaType]: content.toString("base64"),
			"text/plain": `Photograph: ${known.caption} (${known.file})`,
		},
	};
}

function megabytes(bytes: number): string {
	return (bytes / 1e6).toFixed(1);
}

/**
 * The photographs that a sheet names, as outputs with their captions; they lie beside the sheet or below. None for a sheet that names none.
 * @throws ProblemError for names without a file, files that are no photograph, and too many megabytes; all problems at once
 */
export function photographBundles({
	file = "",
	folder = "",
	flasks = [],
}: {
	readonly file?: string;
	readonly folder?: string;
	readonly flasks?: readonly Flask[];
}): Bundle[] {
	const found = flasks.flatMap((flask) =>
		flask.photographs.map((name) => photograph(flask, name, folder)),
	);
	const problems = found.flatMap((f) => (f.ok ? [] : [f.problem]));
	const taken = found.flatMap((f) => (f.ok ? [f] : []));
	const bytes = taken.reduce((sum, f) => sum + f.bytes, 0);
	if (bytes > largest.all)
		problems.push(
			problem(
				"photographs",
				{ file, column: "photograph" },
				`${taken.length} photographs of ${megabytes(bytes)} MB together`,
				`at most ${megabytes(largest.all)} MB, so that the page can be sent by mail`,
				"Save them smaller, or name fewer.",
			),
		);
	throwProblems(problems);
	return taken.map((f) => f.bundle);
}
