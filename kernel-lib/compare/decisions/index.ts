export { unusualDecisions, withDecisions } from "./decisions";
export type { Asked } from "./rules";
export { sensitivityTable } from "./sensitivity";
