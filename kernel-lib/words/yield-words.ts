import { feedstockText } from "../compare";
import {
	expandedNumbers,
	type Quantity,
	quoted,
	significant,
	type Table,
	table,
} from "../quantity";
import type { FiringRoute } from "../uptake";
import { counted } from "./wording";

/** What a firing gave per gram of what its way started from, where that can be relied on. */
interface Kept {
	readonly name: string;
	readonly feedstock: string;
	readonly share: Quantity<"ratio">;
}

const feedstockNameOf = ({ chain }: FiringRoute): string =>
	feedstockText({
		feedstock: chain[0].firing.precursor.trim(),
		dryFeedstock: chain.every((y) => y.firing.precursorMoisture.recorded),
	});

function reliable(routes: readonly FiringRoute[]): Kept[] {
	return routes
		.flatMap((route) => {
			const { yields, yieldFromFeedstock, unbalanced } = route;
			return yieldFromFeedstock.is === "value" && unbalanced.length === 0
				? [
						{
							name: yields.firing.name,
							feedstock: feedstockNameOf(route),
							share: yieldFromFeedstock.quantity.to("%"),
						},
					]
				: [];
		})
		.sort((a, b) => a.share.value - b.share.value);
}

const percentText = ({ name, share }: Kept): string =>
	`${significant(share.value, 3)} % (${quoted(name)})`;

/** The sentence at the head of a sheet of firings without flasks that belong to them: how much char came of the feedstock. */
export function yieldFinding(routes: readonly FiringRoute[]): string {
	const found = reliable(routes);
	const feedstocks = new Set(found.map((f) => f.feedstock));
	const [feedstock] = feedstocks;
	const from = feedstocks.size === 1 ? feedstock : "what each started from";
	const left = routes.length - found.length;
	const aside =
		left === 0
			? ""
			: ` (${left} of ${counted(routes.length, "firing")} without a yield to rely on)`;
	const [lowest] = found;
	const highest = found[found.length - 1];
	const yields =
		found.length === 0
			? "no yield is to be relied on"
			: `dry char from ${from}: ${found.length === 1 ? percentText(lowest) : `${percentText(lowest)} to ${percentText(highest)}`}${aside}`;
	return `No flask belongs to these firings, so nothing is known of uptake; ${yields}.`;
}

/** A row a firing. */
export function yieldAnswerTable(routes: readonly FiringRoute[]): Table {
	return table(
		"",
		["firing", "started from", "by way of", "dry char from that (%)", ""],
		routes.map((route) => [
			route.yields.firing.name,
			feedstockNameOf(route).replaceAll('"', ""),
			route.chain
				.slice(0, -1)
				.map((y) => y.firing.name)
				.join(", "),
			route.yieldFromFeedstock.is === "value"
				? expandedNumbers(route.yieldFromFeedstock.quantity.to("%"))
				: "not known",
			route.unbalanced.length > 0 ? "weighings do not balance" : "",
		]),
	);
}
