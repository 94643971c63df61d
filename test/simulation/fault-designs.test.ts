import { testFaultDesigns } from "./fault-designs";

testFaultDesigns("one dose");
