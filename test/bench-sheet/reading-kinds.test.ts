import { expect, test } from "vitest";
import { columnGuide, signalOf } from "../../kernel-lib/bench/index";
import {
	readingKeys,
	readingKinds,
} from "../../kernel-lib/bench/reading-columns";

const heads = columnGuide().rows.map(([sheet, head]) => `${sheet}: ${head}`);

test.each(readingKeys)(
	"one entry makes the column of the flasks and of the standards: %s",
	(key) => {
		const name = key.replace("#", "1").replace("ph", "pH");
		for (const sheet of ["flasks", "calibration"])
			expect(
				heads.filter((h) => h.startsWith(`${sheet}: ${name}`)),
			).toHaveLength(1);
	},
);

test("each kind knows what it becomes before it meets a line", () => {
	expect(readingKeys.map((k) => signalOf(readingKinds[k].kind))).toEqual([
		"absorbance",
		"absorbance",
		"absorbance",
		"conductivity",
		"pH",
		"by itself",
	]);
});
