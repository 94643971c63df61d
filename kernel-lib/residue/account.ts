import type { Flask } from "../bench";
import {
	exact,
	input,
	minus,
	named,
	normal,
	per,
	type Quantity,
	stated,
	times,
	total,
} from "../quantity";
import type { Titrants } from "../solutions";
import { charMassOf } from "./char-mass";
import { displacement } from "./detection";
import type { ReagentBlank } from "./reagent-blank";
import { iodineTitrated } from "./titration";

/** What went into a flask and out of it before the final aliquot: the running account of its columns from left to right. */
export interface FlaskAccount {
	/** Iodine dosed in all, as I2. */
	readonly added: Quantity<"amount">;
	/** Iodine that went out with withdrawals, as I2. */
	readonly withdrawn: Quantity<"amount">;
	/** Liquid in the flask when the final aliquot was taken. */
	readonly liquid: Quantity<"volume">;
}

const noIodine: Quantity<"amount"> = input("amount", 0, "mmol", exact, {
	symbol: "0",
	source: stated("nothing withdrawn"),
});

const waterDensity: Quantity<"density"> = input(
	"density",
	0.998,
	"g/mL",
	normal(0.001),
	{
		symbol: "ρ_{water}",
		meaning: "density of water at room temperature",
		source: stated("0.998 g/mL at 20 °C; water tables, from memory"),
	},
);

/** Water that wet char brings into the flask; an empty list where moisture is not known or the flask holds no char. */
function waterOfChar(flask: Flask): Quantity<"volume">[] {
	if (flask.contents !== "char" || !flask.charMass.recorded) return [];
	const { water } = charMassOf(flask);
	return water.known
		? [
				named(
					per(water.mass, waterDensity),
					"V_{moisture}",
					`water in the char of flask ${flask.name}`,
				),
			]
		: [];
}

function displaced(flask: Flask): Quantity<"volume">[] {
	return flask.contents === "char" && flask.charMass.recorded
		? [times(displacement, charMassOf(flask).mass)]
		: [];
}

/**
 * Runs through the events of a flask. Doses and liquids add to the liquid; making up sets it (less what the char displaces, when the char was in); a withdrawal takes
 * liquid and, by its own titration, iodine away. One dose is the simplest case, not another rule.
 */
export function accountOf(
	flask: Flask,
	titrants: Titrants,
	blank: ReagentBlank,
): FlaskAccount {
	let liquids: Quantity<"volume">[] = waterOfChar(flask);
	const added: Quantity<"amount">[] = [];
	const withdrawn: Quantity<"amount">[] = [];
	for (const event of flask.events) {
		if (event.is === "dose") {
			liquids.push(event.volume);
			added.push(times(titrants.concentration(event.solution), event.volume));
		} else if (event.is === "liquid added") {
			liquids.push(event.volume);
		} else if (event.is === "made up") {
			const away = event.charIn ? displaced(flask) : [];
			liquids = [away.length > 0 ? minus(event.volume, away[0]) : event.volume];
		} else {
			const inAliquot = iodineTitrated([event.titration], titrants, blank);
			withdrawn.push(times(per(event.volume, event.aliquot), inAliquot));
			liquids = [minus(total(liquids), event.volume)];
		}
	}
	return {
		added: named(
			total(added),
			"n_{added}",
			`iodine (I2) added to flask ${flask.name}`,
		),
		withdrawn:
			withdrawn.length > 0
				? named(
						total(withdrawn),
						"n_{withdrawn}",
						`iodine (I2) withdrawn from flask ${flask.name}`,
					)
				: noIodine,
		liquid: named(
			total(liquids),
			"V_{liquid}",
			`liquid in flask ${flask.name} when the aliquot was taken`,
		),
	};
}
