import type { LabelWish } from "./free-labels";
import type { Box } from "./placed-text";

/** What a layer puts into the picture: its marks, the labels it would like, and the boxes that labels should keep off. */
export interface Drawn {
	readonly svg: string;
	readonly wishes: readonly LabelWish[];
	readonly boxes: readonly Box[];
}
