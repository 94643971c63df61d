/** The key under which a firing is looked up: case and the width of spaces do not count. */
export function firingKey(name: string): string {
	return name.trim().toLowerCase().replace(/\s+/g, " ");
}
