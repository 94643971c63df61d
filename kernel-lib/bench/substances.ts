/** Other ways of writing the substances that the titrations know. */
const names: Readonly<Record<string, readonly string[]>> = {
	iodine: [
		"i2",
		"iodine solution",
		"iodine in potassium iodide",
		"iodine in ki",
		"iodine/ki",
		"triiodide",
		"lugol",
		"lugol's solution",
	],
	"sodium thiosulfate": [
		"thiosulfate",
		"thiosulphate",
		"sodium thiosulphate",
		"na2s2o3",
	],
	"sodium thiosulfate pentahydrate": [
		"sodium thiosulphate pentahydrate",
		"na2s2o3·5h2o",
		"na2s2o3*5h2o",
		"na2s2o3.5h2o",
		"na2s2o3 5h2o",
	],
	"sodium thiosulfate anhydrous": [
		"anhydrous sodium thiosulfate",
		"sodium thiosulfate, anhydrous",
		"anhydrous sodium thiosulphate",
	],
	"potassium iodate": ["iodate", "kio3"],
	"potassium dichromate": ["dichromate", "k2cr2o7"],
};

const meant = new Map<string, string>(
	Object.entries(names).flatMap(([name, others]) =>
		[name, ...others].map((o): [string, string] => [o, name]),
	),
);

const preparation = /tincture|povidone|pvp/i;

/** The usual name of a substance; as written where it is not known. A medical preparation of iodine is iodine once its concentration was measured. */
export function substanceOf(written: string): string {
	if (isPreparation(written)) return "iodine";
	return meant.get(written.toLowerCase()) ?? written;
}

/** Tincture or povidone iodine, whose percentage is not a concentration of iodine in iodide. */
export function isPreparation(written: string): boolean {
	return preparation.test(written) && /iod|tincture/i.test(written);
}

export type Role = "iodine" | "thiosulfate" | "other";

export function roleOf(substance: string): Role {
	return substance === "iodine"
		? "iodine"
		: substance.startsWith("sodium thiosulfate")
			? "thiosulfate"
			: "other";
}

/** A solution that is there to standardise thiosulfate against. */
export function isTitrimetricStandard(substance: string): boolean {
	return (
		substance === "potassium iodate" || substance === "potassium dichromate"
	);
}
