import { expect, test } from "vitest";
import { executed } from "./executed";

test("a residue that is none is refused, also where a run with one dose would not need it", () => {
	expect(() => executed("compare-treatments", { residueMgPerL: -3 })).toThrow(
		/found a residue of -3 mg\/L; expected a residual concentration above 0/,
	);
}, 120_000);

test("the margin of the demo is none for another sheet: the page says that none was set, unless one is", () => {
	const sheet = "../data/demo-run/small-trial.csv";
	const unset = executed("compare-treatments", { sheet });
	const [answer] = unset.page.split('id="not-concluded"');
	expect(answer).toContain("Margin not set");
	expect(answer).toContain("The words at three margins");
	expect(unset.results.get("verdict")).toMatchObject({
		margin: { is: "not set" },
	});
	expect(unset.page).toContain("What each decision of ours moves");
	expect(unset.results.get("verdict")).toMatchObject({
		decisions: [
			{ name: "losses", idle: "no blank shows a loss" },
			{ name: "liquid displaced by char", taken: "0.5 mL/g", idle: "" },
			{ name: "end point error", usual: "0.025 mL (half a drop)" },
			{ name: "slopes 1/n" },
			{ name: "scatter" },
			{ idle: "no margin was set" },
		],
	});
	const set = executed("compare-treatments", { sheet, marginMgPerG: 25 });
	expect(set.results.get("verdict")).toMatchObject({
		margin: { is: "uptake", value: 25 },
	});
	const [told] = set.page.split('id="not-concluded"');
	expect(told).not.toContain("Margin not set");
	expect(told).not.toContain("The words at three margins");
	const share = executed("compare-treatments", {
		sheet,
		marginPercent: 10,
		claim: "at least the margin more",
	});
	expect(share.results.get("verdict")).toMatchObject({
		claim: "at least the margin more",
		margin: { is: "percent of the control", value: 10, unit: "%" },
	});
}, 240_000);
