import { expect, test } from "vitest";
import { chartOf } from "../../kernel-lib/notebook/page/chart";
import { hostile, isotherm } from "../figures/fixtures";

const nowhere = (): string => "";

test("the notes of a figure wait beside its still picture for the interactive form, as text", () => {
	const { html } = chartOf({ ...isotherm, notes: [hostile, "k = 2"] }, nowhere);
	const caption = /<figcaption class="live">(.*?)<\/figcaption>/.exec(
		html,
	)?.[1];
	expect(caption).toContain("k = 2");
	expect(caption).toContain("&lt;img");
	expect(caption).not.toContain("<img");
	expect(chartOf({ ...isotherm, notes: [] }, nowhere).html).not.toContain(
		"figcaption",
	);
});

test("the flasks of a figure lead to their workings, those alone that the page knows", () => {
	const known = (flask: string): string => (flask === "3" ? "#flask-3" : "");
	const { html, data } = chartOf(
		{
			...isotherm,
			layers: [
				{
					is: "points",
					name: "",
					ink: "blue",
					shape: "circle",
					points: [
						{ x: 1, y: 1, hover: "sample A\nflask 3, steam\nuptake 5 mg/g" },
						{ x: 2, y: 2, hover: `flask ${hostile}` },
						{ x: 3, y: 3, hover: "standard 3" },
					],
				},
			],
		},
		known,
	);
	expect(data.flasks).toEqual({ "3": "#flask-3" });
	expect(html.match(/<a href="[^"]*">[^<]*/g)).toEqual([
		'<a href="#flask-3">flask 3',
	]);
});
