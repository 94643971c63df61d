import { describe } from "vitest";
import { files } from "../../data/demo-isotherm/make.mjs";
import { testMadeByScript } from "./made-by-script";

describe("the demo sheets of isotherms and iodine numbers", () => {
	testMadeByScript("demo-isotherm", files());
});
