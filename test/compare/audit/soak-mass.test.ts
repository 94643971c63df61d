import { expect, test } from "vitest";
import { soakMass } from "../../../kernel-lib/compare/audit/soak-mass";
import { known, notKnown } from "../../../kernel-lib/quantity";
import { brief, type Row, sides, texts } from "./sides";

const limited: Row = { of: { soakMass: known({ most: 3, steps: [] }) } };
const unlimited: Row = { of: { soakMass: notKnown("no rinse was recorded") } };
const look = (treated: Row[], untreated: Row[]) =>
	soakMass(sides(treated, untreated));

test("a limit on both sides is within, and widens the interval elsewhere", () => {
	const found = look([limited], [{}, limited]);
	expect(brief(found)).toBe("within, nothing");
	expect(texts(found)).toBe("limited, or none | limited, or none");
});

test("one flask that nothing limits is told of its own side, and caps no word", () => {
	const assumed =
		"that nothing of the soak is weighed with the char, for nothing limits it";
	const treated = look([limited, unlimited], [limited]);
	expect(brief(treated)).toBe("beyond, nothing");
	expect(texts(treated)).toBe(`${assumed} | limited, or none`);
	const control = look([limited], [unlimited, limited]);
	expect(brief(control)).toBe("beyond, nothing");
	expect(texts(control)).toBe(`limited, or none | ${assumed}`);
	expect(texts(look([unlimited], [unlimited]))).toBe(`${assumed} | ${assumed}`);
});
