import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { describe, expect, test } from "vitest";
import { progress } from "../../kernel-lib/notebook/progress";

describe("outside a notebook", () => {
	test("the work is done and nothing is shown", async () => {
		const half = progress("counting", (tell) => {
			tell(0.5);
			return 7;
		});
		expect(half).toBe(7);
		expect(await progress("waiting", async () => 8)).toBe(8);
	});
	test("what the work throws comes through", () => {
		expect(() =>
			progress("counting", () => {
				throw new Error("no more");
			}),
		).toThrow("no more");
	});
});

describe("in the kernel", () => {
	const { startKernel } = createRequire(import.meta.url)(
		"../../kernel-lib/dist/notebook/run/client.js",
	) as typeof import("../../kernel-lib/notebook/run/client");

	test("a cell that computes without a pause shows its bar while it computes, in one place, and ends in one line", async () => {
		const kernel = await startKernel(tmpdir());
		const seen: { type: string; text: string; id: string; at: number }[] = [];
		try {
			const reply = await kernel.execute(
				{
					id: "",
					source: `import { notebook } from "charledger";
notebook.progress("counting <b>", (tell) => {
	for (let i = 1; i <= 10; i++) {
		const until = Date.now() + 120;
		while (Date.now() < until);
		tell(i / 10);
	}
});
try { notebook.progress("failing", (tell) => { tell(0.25); throw new Error("no more"); }); } catch {}
process.stdout.write(String(Date.now()));`,
				},
				{ stopOnError: true, timeoutSeconds: 60 },
				(type, content) => {
					const { data, transient, text } = content as {
						data?: Record<string, string>;
						transient?: { display_id: string };
						text?: string;
					};
					seen.push({
						type,
						text: data?.["text/plain"] ?? text ?? "",
						id: transient?.display_id ?? "",
						at: Date.now(),
					});
					if (data !== undefined)
						expect(data["text/html"]).not.toContain("<b>");
				},
			);
			expect(reply.is, JSON.stringify(seen).slice(0, 3000)).toBe("ok");
		} finally {
			await kernel.stop();
		}
		const endOfWork = Number(seen.find((s) => s.type === "stream")?.text);
		const bars = seen.filter((s) => s.text.startsWith("counting"));
		expect(bars[0].type).toBe("display_data");
		expect(bars[0].text).toContain("0 %");
		expect(new Set(bars.map((b) => b.id)).size).toBe(1);
		expect(bars.slice(1).every((b) => b.type === "update_display_data")).toBe(
			true,
		);
		expect(bars.some((b) => /\[#{10}\.{10}\] 50 %$/.test(b.text))).toBe(true);
		expect(bars.at(-1)?.text).toBe("counting <b>: done");
		expect(bars[0].at).toBeLessThan(endOfWork - 500);
		expect(seen.filter((s) => s.text.startsWith("failing")).at(-1)?.text).toBe(
			"failing: stopped at 25 %",
		);
	}, 60_000);
});
