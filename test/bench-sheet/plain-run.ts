import type { Trial } from "../../kernel-lib/bench/index";

/** A run as plain data: quantities become value in base unit, uncertainty and kind. Leaves out what tells one file from another. */
export function plainRun(trial: Trial): unknown {
	const {
		file: _file,
		hash: _hash,
		files: _files,
		folder: _folder,
		sources: _sources,
		...rest
	} = trial;
	return plain(rest);
}

/** Numbers to eleven digits, so that passing through another unit does not count. */
export function plain(value: unknown, digits = 11): unknown {
	if (value === null) return null;
	if (typeof value === "number") return Number(value.toPrecision(digits));
	if (value instanceof Date) return value.toISOString();
	if (Array.isArray(value)) return value.map((v) => plain(v, digits));
	if (typeof value !== "object") return value;
	if ("standardUncertainty" in value && "base" in value) {
		const q = value as unknown as {
			kind: string;
			base: number;
			baseUncertainty: number;
		};
		return [
			q.kind,
			Number(q.base.toPrecision(digits)),
			// A difference of two equal readings leaves the rounding of the last bit: 1e-21 L is no uncertainty of a burette.
			q.baseUncertainty < 1e-16 ? 0 : Number(q.baseUncertainty.toPrecision(9)),
		];
	}
	return Object.fromEntries(
		Object.entries(value)
			.filter(([key]) => key !== "file")
			.map(([key, v]) => [key, plain(v, digits)]),
	);
}
