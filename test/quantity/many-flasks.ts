import { ancestors } from "../../kernel-lib/quantity/graph";
import {
	input,
	massPerMass,
	meanOf,
	minus,
	named,
	normal,
	per,
	plus,
	type Quantity,
	rectangular,
	type Scope,
	type Source,
	scaled,
	sharedErrors,
	stated,
	times,
	total,
} from "../../kernel-lib/quantity/index";
import { nodeOf } from "../../kernel-lib/quantity/quantity";

const shared = {
	iodine: input("concentration", 0.05, "mol/L", normal(0.0001), {
		symbol: "c_{I2}",
		source: stated("invented"),
	}),
	thiosulfate: input("concentration", 0.1, "mol/L", normal(0.0001), {
		symbol: "c_{thio}",
		source: stated("invented"),
	}),
	burette: input("volume", 0, "mL", rectangular(0.1), {
		symbol: "δ_{burette}",
		source: stated("invented"),
	}),
	pipette: input("volume", 0, "mL", rectangular(0.06), {
		symbol: "δ_{pipette}",
		source: stated("invented"),
	}),
	balance: input("mass", 0, "g", rectangular(0.001), {
		symbol: "δ_{balance}",
		source: stated("invented"),
	}),
	molar: input("molarMass", 253.8, "g/mol", normal(0.01), {
		symbol: "M_{I2}",
		source: stated("invented"),
	}),
};

/** The whole chain of a flask with five doses, a withdrawal, duplicate titrations from burette readings, end points, a blank, moisture and a leachate correction. */
export function uptakeOfFlask(flask: number): Quantity<"uptake"> {
	const cell = (column: string): Source => ({
		is: "cell",
		file: "large.csv",
		hash: "0123456789abcdef",
		sheet: "flasks",
		row: flask + 2,
		column,
	});
	const volume = (
		column: string,
		x: number,
		symbol: string,
	): Quantity<"volume"> =>
		input("volume", x, "mL", rectangular(0.05), {
			symbol,
			meaning: column,
			source: cell(column),
			scope: "reading" as Scope,
			component: "reading",
		});
	const measured = (
		column: string,
		x: number,
		symbol: string,
	): Quantity<"volume"> => plus(volume(column, x, symbol), shared.pipette);
	const titre = (n: number): Quantity<"volume"> =>
		named(
			plus(
				minus(
					volume(`burette end ${n} (mL)`, 12 + n + flask / 1e4, "V_{end}"),
					volume(`burette start ${n} (mL)`, 0.1 * n, "V_{start}"),
				),
				shared.burette,
				input("volume", 0, "mL", normal(0.025), {
					symbol: "δ_{end}",
					meaning: "end point",
					source: stated("half a drop"),
					scope: "reading",
					component: `${flask}/${n}`,
				}),
			),
			"V_{titre}",
			"titre as read",
		);
	const doses = [1, 2, 3, 4, 5].map((n) =>
		measured(`dose ${n} (mL)`, 20, "V_{dose}"),
	);
	const added = named(
		total(doses.map((v) => times(shared.iodine, v))),
		"n_{added}",
		"iodine dosed",
	);
	const madeUp = measured("made up to (mL)", 100, "V");
	const aliquot = measured("aliquot (mL)", 25, "V_{a}");
	const withdrawnVolume = measured("withdrawn 1 (mL)", 10, "V_{w}");
	const withdrawn = named(
		scaled(times(shared.thiosulfate, titre(3)), 0.5),
		"n_{w}",
		"iodine withdrawn",
	);
	const corrected = named(
		minus(meanOf([titre(1), titre(2)]), volume("blank (mL)", 0.1, "V_{b}")),
		"V_{t}",
		"titre less the blank",
	);
	const inAliquot = named(
		scaled(times(shared.thiosulfate, corrected), 0.5),
		"n_{aliquot}",
		"iodine in the aliquot",
	);
	const left = named(
		times(per(inAliquot, aliquot), minus(madeUp, withdrawnVolume)),
		"n_{left}",
		"iodine left",
	);
	const mass = plus(
		input("mass", 1 + flask / 1e5, "g", normal(0.001), {
			symbol: "m",
			meaning: "char mass (g)",
			source: cell("char mass (g)"),
			scope: "reading",
			component: "reading",
		}),
		shared.balance,
	);
	const moisture = input("ratio", 5, "%", normal(0.3), {
		symbol: "w",
		meaning: "moisture",
		source: cell("moisture, wet basis (%)"),
		scope: "reading",
	});
	const dry = named(minus(mass, times(mass, moisture)), "m_{dry}", "dry char");
	const takenUp = named(
		times(minus(added, plus(left, withdrawn)), shared.molar),
		"m_{I2}",
		"iodine taken up",
	);
	return named(massPerMass(takenUp, dry), "q", `uptake of flask ${flask}`);
}

/** Builds so many flasks and says what they hold; run with --expose-gc. */
export function main([count]: string[]): void {
	const collect = (globalThis as { gc?: () => void }).gc ?? (() => {});
	uptakeOfFlask(0).standardUncertainty;
	collect();
	const before = process.memoryUsage();
	const uptakes = Array.from({ length: Number(count) }, (_, i) =>
		uptakeOfFlask(i),
	);
	const sum = uptakes.reduce((total, q) => total + q.standardUncertainty, 0);
	const { ownVariance, shared: columns } = sharedErrors(uptakes);
	collect();
	const after = process.memoryUsage();
	const used = (m: NodeJS.MemoryUsage): number => m.heapUsed + m.external;
	console.log(
		JSON.stringify({
			nodes: ancestors(nodeOf(uptakes[0]) as never).length,
			megabytes: (used(after) - used(before)) / 2 ** 20,
			meanUncertainty: sum / uptakes.length,
			ownVariances: ownVariance.length,
			sharedInputs: columns.length,
		}),
	);
}
