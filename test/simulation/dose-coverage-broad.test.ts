import { testCoverage } from "./dose-coverage";

testCoverage("D", "E");
