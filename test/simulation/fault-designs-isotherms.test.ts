import { testFaultDesigns } from "./fault-designs";

testFaultDesigns("isotherms");
