import { describe, expect, it } from "vitest";
import {
	decode,
	encode,
	header,
	type Message,
} from "../../kernel-lib/notebook/kernel/wire";

const message: Message = {
	identities: [Buffer.from("front end")],
	header: header("execute_request", "session"),
	parent: {},
	metadata: {},
	content: { code: "1 + 1 // é" },
};

const framesOf = (key: string): Buffer[] =>
	encode(key, message).map((frame) => Buffer.from(frame as string));

describe("messages on the wire", () => {
	it("come back as they were sent", () => {
		expect(decode("secret", framesOf("secret"))).toEqual(message);
	});

	it("are refused with a wrong signature", () => {
		const frames = framesOf("secret");
		frames[frames.length - 1] = Buffer.from('{"code":"process.exit()"}');
		expect(() => decode("secret", frames)).toThrow("wrong signature");
		expect(() => decode("another", framesOf("secret"))).toThrow(
			"wrong signature",
		);
	});

	it("are refused when they are none", () => {
		expect(() => decode("secret", [Buffer.from("noise")])).toThrow(
			"Not a message",
		);
	});
});
