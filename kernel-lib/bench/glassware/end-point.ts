import { type Evidence, normal, type Source, stated } from "../../quantity";

/** Half a drop of an ordinary burette, mL. */
export const halfDrop = 0.025;

/** The error of stopping at the drop that turned the colour, mL: zero on the average of many, half a drop as standard uncertainty. */
export const endPointError: Evidence = normal(halfDrop);

export const endPointSource: Source = stated(
	`half a drop, ${halfDrop} mL, as standard uncertainty; common practice, no source`,
);
