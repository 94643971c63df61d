import { expect, test } from "vitest";
import { executed } from "./executed";

test("a residue that is none is refused, also where a run with one dose would not need it", () => {
	expect(() => executed("compare-treatments", { residueMgPerL: -3 })).toThrow(
		/found a residue of -3 mg\/L; expected a residual concentration above 0/,
	);
}, 120_000);
