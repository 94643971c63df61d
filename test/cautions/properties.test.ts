import { expect, test } from "vitest";
import {
	cautionsFor,
	notConcludedFromProperties,
} from "../../kernel-lib/cautions";
import * as properties from "../../kernel-lib/properties/index";
import { exact, input } from "../../kernel-lib/quantity/index";

const moisture = (
	name: string,
	after: number,
): Record<string, string | number> => ({
	determination: name,
	sample: "shell char",
	property: "moisture",
	"dish (g)": 20.0001,
	"dish and sample (g)": 30.0001,
	"dish after (g)": after,
});
const split = {
	determination: "f",
	sample: "shell char",
	property: "float-sink",
	liquid: "zinc chloride",
	"liquid density (g/mL)": 1.4,
	"floated (g)": 2,
	"sunk (g)": 8,
};

test("cautions go by what was done: no furnace for a moisture, and float liquids by name", () => {
	const dry = cautionsFor(
		properties.propertiesFromRows([moisture("a", 29.2001)]),
	).join("\n");
	expect(dry).toMatch(/Char dust/);
	expect(dry).not.toMatch(/crucible|brines/);
	const floated = cautionsFor(properties.propertiesFromRows([split])).join(
		"\n",
	);
	expect(floated).toMatch(/Dense brines/);
	expect(floated).toMatch(/Zinc chloride is corrosive/);
	const ashed = cautionsFor(
		properties.propertiesFromRows([
			{ ...moisture("a", 20.4001), property: "total ash", dried: "yes" },
		]),
	);
	expect(ashed.join("\n")).toMatch(/crucible from the furnace/);
	expect(ashed.at(-1)).toMatch(/local codes/);
});

test("disagreeing and single determinations are named; no property shows a fitness", () => {
	const limit = input("ratio", 0.5, "%", exact, {});
	const sheet = properties.propertiesFromRows(
		[moisture("a", 29.2001), moisture("b", 29.3001), split],
		{ moisture: limit },
	);
	const texts = notConcludedFromProperties(properties.charProperties(sheet));
	expect(texts[0]).toMatch(/disagree: moisture of "shell char"\./);
	expect(texts[1]).toMatch(
		/Determined once.*floated share at 1.4 g\/mL of "shell char"/,
	);
	expect(texts.join("\n")).toMatch(/drinking water/);
	expect(texts.at(-1)).toBe(
		"No property in this table shows that a char is fit for any use.",
	);
});
