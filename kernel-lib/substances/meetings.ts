import type { DangerKind } from "./dangers";

/** What may meet: a kind of substance, or what is done with it. */
export type Meets = DangerKind | "char" | "heat with char" | "drying oven";

/** Two sides that must not meet, and why not. From memory of general chemistry; safety data sheets come first. */
export interface Meeting {
	readonly one: readonly Meets[];
	readonly other: readonly Meets[];
	/** Substances of one sheet may meet on its bench; some matter only where they are brought together in one row. */
	readonly where: "one bench" | "one row";
	readonly says: string;
}

const acids = ["strong acid", "mild acid"] as const;

/** The gravest first. */
export const meetings: readonly Meeting[] = [
	{
		one: ["cyanide"],
		other: acids,
		where: "one bench",
		says: "cyanide and acid. They give off hydrogen cyanide, which kills within minutes.",
	},
	{
		one: ["azide"],
		other: acids,
		where: "one bench",
		says: "azide and acid. They give off hydrogen azide, which poisons and explodes.",
	},
	{
		one: ["sulfide"],
		other: acids,
		where: "one bench",
		says: "sulfide and acid. They give off hydrogen sulfide, which kills, and dulls the nose first.",
	},
	{
		one: ["perchlorate"],
		other: ["char", "heat with char", "drying oven"],
		where: "one row",
		says: "perchloric acid or a perchlorate and char. They may explode, wet or dry.",
	},
	{
		one: ["oxidiser", "nitrate", "iodate"],
		other: ["char", "heat with char", "drying oven"],
		where: "one row",
		says: "drying, grinding or heating char that holds an oxidiser (nitrate, chlorate, permanganate, peroxide). Together they are a gunpowder, which burns at once or explodes: keep it wet and rinse the oxidiser out first.",
	},
	{
		one: ["iodine"],
		other: ["ammonia"],
		where: "one bench",
		says: "iodine and ammonia. They form a solid that explodes when it is dry and touched. Do not dose a char that may hold ammonia or an ammonium salt: rinse it out and drive off the ammonia first.",
	},
	{
		one: ["bleach"],
		other: acids,
		where: "one bench",
		says: "bleach and acid. They give off chlorine, which kills. Keep them in different rooms; rinse the one out before the other comes.",
	},
	{
		one: ["bleach"],
		other: ["ammonia"],
		where: "one bench",
		says: "bleach and ammonia. They give off chloramines, which burn the lungs.",
	},
	{
		one: ["oxidiser"],
		other: ["solvent"],
		where: "one row",
		says: "an oxidiser and a solvent. They may catch fire or explode, at once or when they are dry; peroxide and acetone form an explosive.",
	},
	{
		one: ["oxidiser"],
		other: ["strong acid"],
		where: "one row",
		says: "a strong oxidiser (chlorate, permanganate, peroxide) and strong acid. They may give off chlorine or chlorine dioxide, spit or explode.",
	},
	{
		one: ["bleach"],
		other: ["solvent"],
		where: "one row",
		says: "bleach and a solvent. They make chloroform and other poisons, and heat up.",
	},
	{
		one: ["solvent"],
		other: ["drying oven"],
		where: "one row",
		says: "char with a solvent in a drying oven. Its vapour fills the oven and explodes.",
	},
	{
		one: ["fluoride"],
		other: acids,
		where: "one bench",
		says: "a fluoride and acid. They make hydrofluoric acid, which goes through the skin to the bone and kills.",
	},
	{
		one: ["sulfite"],
		other: acids,
		where: "one bench",
		says: "sulfite and acid. They give off sulfur dioxide, which chokes; only in a fume hood.",
	},
	{
		one: ["zinc chloride"],
		other: ["heat with char"],
		where: "one row",
		says: "zinc chloride heated outside a working fume hood. Its fume destroys the lungs, hours later.",
	},
	{
		one: ["alkali metal"],
		other: ["heat with char"],
		where: "one row",
		says: "water on alkali and char while they are hot. At red heat potassium, sodium and carbon monoxide are given off, which catch fire in air and in water: cool it closed, under nitrogen or its own gas, and wet it only when it is cold. Hydroxides eat steel and glass there.",
	},
];

/** What one substance, or one step, brings along. */
export type Part = readonly Meets[];

const between = (meeting: Meeting, a: Part, b: Part): boolean =>
	meeting.one.some((side) => a.includes(side)) &&
	meeting.other.some((side) => b.includes(side));

/** What must not be done among parts that come together: no part meets itself. */
export function meetingsAmong(parts: readonly Part[]): readonly Meeting[] {
	return meetings.filter((meeting) =>
		parts.some((a, i) =>
			parts.some((b, j) => i !== j && between(meeting, a, b)),
		),
	);
}

/** Why a step must not be advised for what is there; "" where nothing on the list forbids it. */
export function whyNot(step: Meets, there: readonly Part[]): string {
	return (
		meetings.find((m) =>
			there.some(
				(part) => between(m, part, [step]) || between(m, [step], part),
			),
		)?.says ?? ""
	);
}
