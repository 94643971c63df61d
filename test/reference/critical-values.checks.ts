import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { simultaneousCriticalValue } from "../../kernel-lib/stats";
import type { Check } from "./check";

const text = readFileSync(
	fileURLToPath(
		new URL("../../data/reference/dunnett-critical.csv", import.meta.url),
	),
	"utf8",
);

/** Many treatments against one control, equal groups: correlation one half throughout. */
function equalGroups(k: number): number[][] {
	return Array.from({ length: k }, (_, i) =>
		Array.from({ length: k }, (_, j) => (i === j ? 1 : 0.5)),
	);
}

export const criticalValueChecks: Check[] = text
	.trim()
	.split("\n")
	.slice(1)
	.map((row) => row.split(","))
	.filter(([, , alpha]) => alpha === "0.05")
	.map(([k, df, alpha, sided, d, provenance]) => ({
		what: `critical value for ${k} treatments against a control, ${df} degrees of freedom, ${sided}-sided 5 %`,
		source: `Dunnett's critical values (tables of 1955 and 1964); ${provenance}`,
		provenance: "computed with a general library" as const,
		expected: Number(d),
		got: () =>
			simultaneousCriticalValue(
				equalGroups(Number(k)),
				df.startsWith("Inf") || df === "inf"
					? Number.POSITIVE_INFINITY
					: Number(df),
				Number(alpha),
				sided === "two" ? "two-sided" : "greater",
			),
		tolerance: 1e-6,
		unit: "",
	}));
