import { expect, test } from "vitest";
import { kelvinsOf } from "../../kernel-lib/temperature/index";

test("degrees of every treatment, in the order of the treatments", () => {
	expect(kelvinsOf(["warm", "cold"], { cold: 5, other: 90, warm: 35 })).toEqual(
		[308.15, 278.15],
	);
});

test("treatments without a temperature are all named, and what to do", () => {
	const asked = () =>
		kelvinsOf(["fired once", "fired twice", "toString", "25 °C"], {
			"25 °C": 25,
			"fired once": Number.NaN,
		});
	expect(asked).toThrow(/3 problems/);
	expect(asked).toThrow(
		/found the treatment "fired twice", which has no temperature in `celsius`; .*like "fired twice": 25\./,
	);
	expect(asked).not.toThrow(/column|row|NaN/);
});

test("a name that is a temperature needs no entry; an entry goes before the name", () => {
	expect(
		kelvinsOf(["15 °C", "-5 °C", "2,5°C", "288 K", "25 °C", "7 C"], {
			"25 °C": 26,
		}),
	).toEqual([288.15, 268.15, 275.65, 288, 299.15, 280.15]);
	for (const name of ["hot 15 °C", "15", "15 °F", "K", "-300 °C"])
		expect(() => kelvinsOf([name], {})).toThrow(/has no temperature/);
});

test("temperatures may come as a text, as from the command line", () => {
	expect(
		kelvinsOf(
			["cellar", "room: south", "5 °C"],
			"cellar: 12; room: south: 21,5;",
		),
	).toEqual([285.15, 294.65, 278.15]);
	expect(kelvinsOf(["5 °C"], "")).toEqual([278.15]);
	expect(() => kelvinsOf(["cellar"], "cellar 12; room: warm; : 3")).toThrow(
		/4 problems.*"cellar 12".*"room: warm".*": 3".*the treatment "cellar"/s,
	);
});
