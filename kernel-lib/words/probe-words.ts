/** A probe with what its grams count. */
export function probeCounted(probe: string): string {
	return probe === "iodine" ? "iodine (I2)" : probe;
}

/** The blank that tells losses. */
export function probeBlank(probe: string): string {
	return probe === "iodine" ? "iodine blank" : "blank without char";
}
