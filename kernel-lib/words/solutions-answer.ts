import {
	expandedNumbers,
	listed,
	quoted,
	type ResultKind,
	requireResult,
	requireResults,
	type Table,
	table,
} from "../quantity";
import {
	type Preparation,
	preparationKind,
	type SolutionAge,
	type Titrant,
	type Titrants,
	toMeasure,
	totalText,
} from "../solutions";
import type { AnswerInWords } from "./answer-words";
import { attention, capital, counted } from "./wording";

const titrantsKind: ResultKind = {
	parts: ["all", "unresolved"],
	expected: "the solutions that solutions.concentrations(trial) returns",
};

type Solutions = Pick<Titrants, "all" | "unresolved">;

const amounts = ({ portions }: Preparation): string =>
	listed(portions.map(({ what, amount }) => `${toMeasure(amount)} of ${what}`));

function recipesText(recipes: readonly Preparation[]): string[] {
	if (recipes.length === 0) return [];
	const [only] = recipes;
	return recipes.length === 1
		? [`For ${only.solution}, ${totalText(only.total)}, take ${amounts(only)}`]
		: [`${counted(recipes.length, "solution")} to weigh, as the card says`];
}

const daysText = (days: number): string => counted(days, "day");

const withAge = (
	{ all }: Solutions,
	is: SolutionAge["is"],
): readonly Titrant[] => all.filter(({ age }) => age.is === is);

const names = (list: readonly { readonly name: string }[]): string =>
	listed(list.map((t) => quoted(t.name)));

function dueText(due: readonly Titrant[]): string {
	const [only] = due;
	return due.length === 1 && only.age.is === "due"
		? `${names(due)} is due to be standardised again: it was ${daysText(only.age.days)} old when it was last used`
		: `${names(due)} are due to be standardised again`;
}

/** What must be seen to before the solutions of a sheet are used again, the worst first. */
function concernsOf(solutions: Solutions): string[] {
	const wrong = solutions.all.filter((t) => t.contradiction.found !== "");
	const due = withAge(solutions, "due");
	const undated = withAge(solutions, "date not recorded");
	const afterwards = withAge(solutions, "standardised afterwards");
	const unused = withAge(solutions, "use not recorded");
	return [
		wrong.length === 0 ? "" : `the strength of ${names(wrong)} cannot be right`,
		solutions.unresolved.length === 0
			? ""
			: `the strength of ${names(solutions.unresolved)} is not known`,
		due.length === 0 ? "" : dueText(due),
		undated.length === 0
			? ""
			: `the sheet does not say when ${names(undated)} was standardised`,
		afterwards.length === 0
			? ""
			: `${names(afterwards)} was standardised only after its last use`,
		unused.length === 0
			? ""
			: `the sheet does not say when ${names(unused)} was used, so its age is not known`,
	].filter((text) => text !== "");
}

function strengthsText(solutions: Solutions): string[] {
	const { all, unresolved } = solutions;
	if (all.length + unresolved.length === 0) return [];
	const concerns = concernsOf(solutions);
	return concerns.length > 0
		? concerns
		: [
				`none of the ${counted(all.length, "solution")} of the sheet was due to be standardised again when it was last used`,
			];
}

/** The sentence at the head: what to weigh, and which solution must not be used as it stands. */
export function solutionsFinding(
	recipes: readonly Preparation[],
	solutions: Solutions,
): string {
	const text = [...recipesText(recipes), ...strengthsText(solutions)].join(
		"; ",
	);
	if (text === "") return "No solution is asked for, and the sheet holds none.";
	return `${capital(text)}.`;
}

function weighingCard(recipes: readonly Preparation[]): Table[] {
	return recipes.length === 0
		? []
		: [
				table(
					"To weigh and measure",
					["solution", "take", "how much of it"],
					recipes.map((p) => [p.solution, amounts(p), totalText(p.total)]),
				),
			];
}

/** What to do about a solution before it is used again; marked where something must be done. */
function toDo({ age, contradiction }: Titrant): string {
	if (contradiction.found !== "") return attention("strength cannot be right");
	switch (age.is) {
		case "due":
			return attention(`standardise again: ${daysText(age.days)} old`);
		case "date not recorded":
			return attention("standardise again: no date");
		case "standardised afterwards":
			return "standardised after its last use";
		case "use not recorded":
			return "its last use is not recorded";
		case "within its time":
			return `${daysText(age.days)} old when last used`;
		case "of no concern":
			return "";
	}
}

const dayText = ({ standardisedOn }: Titrant): string =>
	standardisedOn.recorded
		? standardisedOn.value.toISOString().slice(0, 10)
		: "";

function strengthCard({ all, unresolved }: Solutions): Table[] {
	return all.length + unresolved.length === 0
		? []
		: [
				table(
					"How strong they are",
					[
						"solution",
						"before use",
						"mol/L (95 % interval)",
						"standardised on",
					],
					[
						...all.map((t) => [
							t.name,
							toDo(t),
							expandedNumbers(t.concentration.to("mol/L")),
							dayText(t),
						]),
						...unresolved.map(({ name }) => [
							name,
							attention("mend the sheet"),
							"not known",
							"",
						]),
					],
				),
			];
}

/**
 * The answer of making up and standardising: a card of what to weigh and measure for how much of each solution, a card of how strong the solutions of a sheet are and which of them must be standardised again. After how many days that is, is common practice.
 * @param titrants as solutions.concentrations gives them
 * @example
 * const litre = quantity.input("volume", 1000, "mL", quantity.exact, {});
 * const strength = quantity.input("concentration", 0.05, "mol/L", quantity.exact, {});
 * const answer = words.solutionsAnswer([solutions.makeUpIodine(strength, litre, 2)], solutions.concentrations(trial));
 * answer.table.length // => 2
 * answer.table[0].rows // => [["0.05 mol/L I2 in potassium iodide", "12.69 g of I2 and 25.38 g of KI", "made up to 1000 mL"]]
 */
export function solutionsAnswer(
	recipes: readonly Preparation[],
	titrants: Titrants,
): Omit<AnswerInWords, "table"> & { readonly table: readonly Table[] } {
	requireResults(recipes, preparationKind, "solutionsAnswer");
	requireResult(titrants, titrantsKind, "solutionsAnswer");
	return {
		finding: solutionsFinding(recipes, titrants),
		table: [...weighingCard(recipes), ...strengthCard(titrants)],
		statements: [
			...titrants.all.flatMap(
				({ contradiction, ageCaution, outlierAdvice }) => [
					contradiction.found,
					contradiction.likelyCause,
					ageCaution,
					outlierAdvice,
				],
			),
			...titrants.unresolved.map(
				({ name, problems }) =>
					`${quoted(name)}: found ${listed(problems.map((p) => p.found))}.`,
			),
		].filter((text) => text !== ""),
	};
}
