/** Where the scatter of a comparison comes from, and what to repeat next. */
export { scatterOfTrial } from "./components";
export {
	type PairScatter,
	type Repetition,
	scatterOfPairs,
} from "./repetition";
export { scatterTable } from "./table";
