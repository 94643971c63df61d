import { testCoverage } from "./isotherm-coverage";

testCoverage("E");
