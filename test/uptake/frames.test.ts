import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import { uptakeFrame, uptakes } from "../../kernel-lib/uptake";
import { everyUptake } from "../../kernel-lib/uptake/every-uptake";
import { byTreatment } from "../../kernel-lib/uptake/uptakes";
import { charRow, plainSolutions } from "./sheets";

const trial = trialFromRows({
	flasks: [
		charRow("c1"),
		charRow("t1", { treatment: "steam", control: "control", soak: "s" }),
		charRow("c2", { day: "2" }),
		{
			flask: "i",
			contents: "iodine blank",
			"dose (mL)": 40,
			"made up to (mL)": 100,
			"aliquot (mL)": 25,
			"titre (mL)": 9.5,
		},
	],
	solutions: plainSolutions,
	deviations: [
		{ flask: "t1", "what happened": "spilt", handling: "leave out" },
	],
});

describe("flasks that are left out", () => {
	test("have no uptake among those in use, and one among all", () => {
		expect(uptakes(trial).map((u) => u.flask.name)).toEqual(["c1", "c2"]);
		expect(everyUptake(trial).map((u) => u.flask.name)).toEqual([
			"c1",
			"t1",
			"c2",
		]);
	});
	test("say so in the frame", () => {
		const frame = uptakeFrame(trial);
		const column = (name: string) => frame[name].values;
		expect(column("flask")).toEqual(["c1", "t1", "c2"]);
		expect(column("left out")).toEqual(["no", "yes", "no"]);
		expect(column("soak")).toEqual(["", "s", ""]);
	});
});

test("treatments come in the order of the sheet, each with all its flasks", () => {
	const groups = [...byTreatment(everyUptake(trial))];
	expect(groups.map(([t, own]) => [t, own.map((u) => u.flask.name)])).toEqual([
		["control", ["c1", "c2"]],
		["steam", ["t1"]],
	]);
});
