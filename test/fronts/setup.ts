import { makeEnvironment } from "./environment.mjs";

/** The environment is made once, before all tests of real front ends. */
export function setup(): void {
	makeEnvironment();
}
