import { describe, expect, test } from "vitest";
import { tableText } from "../../kernel-lib/quantity";
import { charRow, type Row, steps } from "./sheets";

const after = (titre: number, change: Row) =>
	steps([
		charRow("c"),
		charRow("t", {
			treatment: "treated",
			control: "control",
			"titre (mL)": titre,
			...change,
		}),
	]);

const advisesDosing =
	/Add at least|or dose about|dose it with more|A leachate would/;

describe.each(["ammonia", "NH4OH", "ammonium carbonate", "Salmiakgeist"])(
	"char soaked in %s",
	(soakedIn) => {
		const soak = { "soaked in": soakedIn };

		test.each([
			["ran dry", 0],
			["took nothing up", 10.02],
		])("that %s is not dosed again", (_, titre) => {
			const { uptakes } = after(titre, soak);
			expect(uptakes[1].ammonia).toBe("named");
			expect(uptakes[1].nextDose).toMatch(
				/^The char may hold ammonia: do not dose; rinse out and drive off the ammonia first/,
			);
			expect(tableText(uptakes.table)).not.toMatch(advisesDosing);
		});

		test("whose leachate ran dry is not dosed with more", () => {
			const { uptakes } = steps([
				charRow("c"),
				charRow("t", { treatment: "treated", control: "control", ...soak }),
				charRow("l", {
					contents: "leachate",
					treatment: "treated",
					"titre (mL)": 0,
					"leachate (mL)": 50,
					"leachate taken (mL)": 25,
				}),
			]);
			const { demand } = uptakes[1];
			expect(demand.is === "suspected" && demand.because).toContain(
				"do not dose",
			);
			expect(demand.is === "suspected" && demand.because).not.toMatch(
				advisesDosing,
			);
		});
	},
);

test("the name of the treatment tells it too", () => {
	const { uptakes } = after(0, { treatment: "ammonia water" });
	expect(uptakes[1].nextDose).toContain("do not dose");
});

test("of a soak that is not on the list the advice stands with a condition", () => {
	const { uptakes } = after(0, { "soaked in": "kitchen magic" });
	expect(uptakes[1].nextDose).toMatch(
		/Add at least .* Do so only if the char surely holds no ammonia/,
	);
});

test("of a soak without ammonia it stands as it is", () => {
	const { uptakes } = after(0, { "soaked in": "K2CO3" });
	expect(uptakes[1].nextDose).toMatch(/Add at least/);
	expect(uptakes[1].nextDose).not.toContain("ammonia");
});
