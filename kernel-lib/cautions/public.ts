/** The usual cautions for what a sheet names, and what its results may not be used to claim. */

export { notConcludedFromActivation } from "./for-activation";
export { notConcludedFromProperties } from "./for-properties";
export { cautionsFor, notConcluded } from "./for-run";
export { neverConcludedOf } from "./limits";
