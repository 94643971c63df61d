import { expect, test } from "vitest";
import { studentFromNormal } from "../../kernel-lib/quantity/student-deviates";
import { normalCdf, studentTQuantile } from "../../kernel-lib/stats/index";

test.each([1, 2, 3, 5, 30])(
	"deviates of Student's t with %d degrees of freedom have the quantiles of their normal deviates",
	(df) => {
		const z = Float64Array.from({ length: 241 }, (_, i) => (i - 120) / 20.013);
		const x = z.slice();
		studentFromNormal(x, df);
		z.forEach((deviate, j) => {
			const exact = -studentTQuantile(normalCdf(-Math.abs(deviate)), df);
			expect(Math.abs(Math.abs(x[j]) - exact)).toBeLessThanOrEqual(
				1e-6 * exact + 1e-9,
			);
			expect(Math.sign(x[j])).toBe(Math.sign(deviate));
		});
	},
);
