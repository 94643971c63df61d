import {
	copyFileSync,
	mkdtempSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { readTrial } from "../../kernel-lib/bench/index";
import { attach as attachTrial } from "../../kernel-lib/notebook/attach";
import type { Notebook } from "../../kernel-lib/notebook/ipynb";
import { displayOfRunningKernel } from "../../kernel-lib/notebook/kernel/tslab";
import { pageHtml } from "../../kernel-lib/notebook/page/index";

vi.mock("../../kernel-lib/notebook/kernel/tslab", () => ({
	displayOfRunningKernel: vi.fn(),
	versionOfRunningTslab: () => "none",
	compilerOfCells: () => createRequire(import.meta.url)("typescript"),
}));

let folder = "";
let sheet = "";
beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), "charledger-photographs-"));
	sheet = join(folder, "trial.csv");
	copyFileSync(
		join(import.meta.dirname, "../../data/kernelspec/logo-64x64.png"),
		join(folder, "jar.png"),
	);
	const vast = readFileSync(join(folder, "jar.png"));
	vast.writeUInt32BE(7072, 16);
	vast.writeUInt32BE(7071, 20);
	writeFileSync(join(folder, "vast.png"), vast);
	vast.writeUInt32BE(7071, 16);
	writeFileSync(join(folder, "large.png"), vast);
	writeFileSync(join(folder, "notes.jpg"), "no picture");
	writeFileSync(
		join(folder, "huge.jpg"),
		Buffer.concat([Buffer.from([0xff, 0xd8, 0xff]), Buffer.alloc(800_000)]),
	);
	writeFileSync(
		join(folder, "trial.solutions.csv"),
		"solution,substance,concentration (N)\niodine,iodine,0.1\nthiosulfate,sodium thiosulfate,0.1\n",
	);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Two flasks; what stands in the column "photograph" of each. */
function attach(first: string, second = "", shows = ""): Notebook {
	writeFileSync(
		sheet,
		`flask,treatment,char mass (g),dose (mL),made up to (mL),aliquot (mL),titre (mL),photograph,photograph shows\n1,control,1.02,40,100,25,5.35,${first},${shows}\n2,steam,1.01,40,100,25,4.10,${second},\n`,
	);
	const outputs: Notebook["cells"] = [];
	vi.mocked(displayOfRunningKernel).mockReturnValue(({ data }) => {
		outputs.push({
			cell_type: "code",
			id: `c${outputs.length}`,
			metadata: {},
			source: "attach",
			execution_count: 1,
			outputs: [
				{ output_type: "display_data", data: { ...data }, metadata: {} },
			],
		});
	});
	attachTrial({ ...readTrial(sheet), sources: [], folder });
	return { nbformat: 4, nbformat_minor: 5, metadata: {}, cells: outputs };
}

describe("photographs named in the sheet", () => {
	test("stand on the page, with a caption from the sheet that is text", () => {
		const page = pageHtml(
			attach("jar.png", "jar.png; jar.png", "<b>film</b> on the wall"),
			{ plotly: "" } as never,
		);
		expect(page.match(/<figure class="photograph">/g)).toHaveLength(3);
		expect(page).toContain(
			"<figcaption>Flask 1, &quot;control&quot;: &lt;b&gt;film&lt;/b&gt; on the wall</figcaption>",
		);
		expect(page).toContain(
			"<figcaption>Flask 2, &quot;steam&quot;</figcaption>",
		);
		expect(page).toContain('<img src="data:image/png;base64,iVBOR');
	});

	test("a sheet that names none adds nothing", () => {
		expect(attach("").cells).toEqual([]);
	});

	test("every photograph that cannot be shown is named, with the place and the remedy, and none is shown", () => {
		const failing = (): Notebook =>
			attach("gone.jpg; ../secret.png", "notes.jpg; huge.jpg; jar.png");
		expect(failing).toThrow(/gone\.jpg.*copy the photograph there/s);
		expect(failing).toThrow(/trial\.csv.*row 2/s);
		expect(failing).toThrow(/secret\.png.*beside the sheet/s);
		expect(failing).toThrow(/notes\.jpg.*no JPEG/s);
		expect(failing).toThrow(/huge\.jpg.*0\.8 MB/s);
	});
});

test("a small file that unpacks to more than 50 million pixels is refused, one just below is not", () => {
	expect(() => attach("vast.png")).toThrow(
		/"vast\.png" with 50 million pixels; expected a photograph of at most 50 million pixels/,
	);
	expect(() => attach("large.png")).not.toThrow();
});
