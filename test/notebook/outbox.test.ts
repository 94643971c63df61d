import { expect, test } from "vitest";
import {
	type Outlet,
	openOutbox,
} from "../../kernel-lib/notebook/kernel/outbox";

/** A socket that refuses a second send while one is leaving, as those of zeromq do; `slow` messages need time. */
function socket(slow: ReadonlySet<string>): Outlet & { taken: string[] } {
	const taken: string[] = [];
	let busy = false;
	return {
		taken,
		send([frame]) {
			if (busy) throw new Error("busy");
			const text = frame.toString();
			taken.push(text);
			if (!slow.has(text)) return Promise.resolve();
			busy = true;
			return new Promise((resolve) =>
				setTimeout(() => {
					busy = false;
					resolve();
				}, 5),
			);
		},
	};
}
const bytes = (text: string): Uint8Array[] => [Buffer.from(text)];

test("a free socket gets its messages at once, before the cell pauses", () => {
	const out = socket(new Set());
	const box = openOutbox();
	for (const text of ["a", "b", "c"]) box.send(out, bytes(text));
	expect(out.taken).toEqual(["a", "b", "c"]);
});

test("messages that meet a busy socket wait, in order, and all leave", async () => {
	const out = socket(new Set(["b", "d"]));
	const box = openOutbox();
	const texts = ["a", "b", "c", "d", "e", "f"];
	for (const text of texts) box.send(out, bytes(text));
	expect(out.taken).toEqual(["a", "b"]);
	await box.settled();
	expect(out.taken).toEqual(texts);
});

test("a socket that is gone holds nobody up", async () => {
	const out: Outlet = { send: () => Promise.reject(new Error("closed")) };
	const box = openOutbox();
	box.send(out, bytes("a"));
	box.send(out, bytes("b"));
	await box.settled();
});
