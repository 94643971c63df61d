import { type Checked, didYouMean, listed, problem } from "../quantity";
import { countedFormula, molarMass } from "../substances";
import type { Flask, Probe, Solution, Trial } from "./trial";

/** The substance that a flask was dosed with first; "" for a flask without a dose. */
export function dosedWith(
	flask: Flask,
	solutions: readonly Solution[],
): string {
	const dose = flask.events.find((e) => e.is === "dose");
	if (dose === undefined || dose.is !== "dose") return "";
	return solutions.find((s) => s.name === dose.solution)?.substance ?? "";
}

/** What is known of a probe: by its name as a formula, else by its name on the list of substances. */
function probeNamed(name: string): Probe {
	const counted = countedFormula(name);
	return counted.is === "known"
		? {
				name,
				formula: counted.formula,
				molarMass: { is: "value", value: molarMass(counted.formula) },
			}
		: { name, formula: "", molarMass: counted };
}

/**
 * One trial is about one probe. Where the sheet has flasks with several, the person says which; the flasks with the others are set aside, and the trial says so.
 *
 * @param asked the name of the probe; "" for the only one
 */
export function oneProbe(
	file: string,
	flasks: readonly Flask[],
	solutions: readonly Solution[],
	asked: string,
): Checked<Pick<Trial, "probe" | "flasks"> & { readonly remark: string }> {
	const of = (flask: Flask): string => dosedWith(flask, solutions);
	const probes = [
		...new Set(
			flasks
				.filter((f) => f.contents === "char")
				.map(of)
				.filter((name) => name !== ""),
		),
	];
	const same = (a: string, b: string): boolean =>
		a.toLowerCase() === b.trim().toLowerCase();
	const chosen = asked === "" ? probes : probes.filter((p) => same(p, asked));
	if (asked !== "" && chosen.length === 0)
		return {
			ok: false,
			problems: [
				problem(
					"probe-not-dosed",
					{ file },
					`the probe "${asked}"`,
					"one that flasks with char were dosed with",
					didYouMean(asked, probes),
				),
			],
		};
	if (chosen.length > 1)
		return {
			ok: false,
			problems: [
				problem(
					"several-probes",
					{ file, sheet: "flasks" },
					`flasks with char that were dosed with ${listed(probes.map((p) => `"${p}"`))}`,
					"one probe for a trial, because uptakes of different probes cannot be compared",
					`Say which one is meant: readTrial(path, { probe: "${probes[0]}" }), or set the parameter probe of the notebook.`,
				),
			],
		};
	const name = chosen[0] ?? "";
	const probe = probeNamed(name);
	const kept = flasks.filter((f) => of(f) === "" || of(f) === name);
	const aside = flasks.length - kept.length;
	return {
		ok: true,
		value: {
			probe,
			flasks: probes.length > 1 ? kept : flasks,
			remark:
				probes.length > 1
					? `This trial is about ${name}: ${aside} flask${aside === 1 ? "" : "s"} dosed with ${probes.filter((p) => p !== name).join(", ")} ${aside === 1 ? "is" : "are"} set aside.`
					: "",
		},
	};
}
