import { testCoverage, testTruth } from "./dose-coverage";

testTruth();
testCoverage("A", "B", "C");
