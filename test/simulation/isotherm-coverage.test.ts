import { testCoverage } from "./isotherm-coverage";

testCoverage("A", "B", "C", "D");
