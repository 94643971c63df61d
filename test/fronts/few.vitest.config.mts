import whole from "./vitest.config.mts";

/** What CI runs: every front end, the slow ones with a few of the templates. */
process.env.FRONTS = "few";

export default whole;
