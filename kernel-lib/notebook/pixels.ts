/** How many pixels a picture has, read from its first bytes: a small file may unpack to very many. */

/** Marks of a JPEG that begin a frame, whose size follows; C4, C8 and CC begin other things. */
const beginsFrame = (mark: number): boolean =>
	mark >= 0xc0 && mark <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(mark);

function pixelsOfJpeg(content: Buffer): number {
	let at = 2;
	while (at + 9 <= content.length && content[at] === 0xff) {
		const mark = content[at + 1];
		if (beginsFrame(mark))
			return content.readUInt16BE(at + 5) * content.readUInt16BE(at + 7);
		// Filling bytes, and marks without a length.
		if (mark === 0xff) at += 1;
		else if (mark === 0x01 || (mark >= 0xd0 && mark <= 0xd9)) at += 2;
		else at += 2 + content.readUInt16BE(at + 2);
	}
	return 0;
}

/** Width times height; 0 where the picture does not say. */
export function pixelsOf(
	content: Buffer,
	mediaType: "image/jpeg" | "image/png",
): number {
	if (mediaType === "image/jpeg") return pixelsOfJpeg(content);
	return content.length >= 24
		? content.readUInt32BE(16) * content.readUInt32BE(20)
		: 0;
}
