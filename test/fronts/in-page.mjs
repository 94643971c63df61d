/** What tests measure of an open page: these functions run in it, each by itself. */

/** Width of the picture that an image shows, px. */
export function ownWidth(image) {
	return image.naturalWidth;
}

/** Texts of the pictures that are shown, as far as they leave their picture; each picture is laid open for that. */
export function textsOutsidePictures() {
	const images = [...document.querySelectorAll("figure img")].filter((image) =>
		image.currentSrc.startsWith("data:image/svg"),
	);
	return images.flatMap((image) => {
		const host = document.body.appendChild(document.createElement("div"));
		const bytes = Uint8Array.from(atob(image.currentSrc.split(",")[1]), (c) =>
			c.charCodeAt(0),
		);
		host.innerHTML = new TextDecoder().decode(bytes);
		const frame = host.querySelector("svg")?.getBoundingClientRect();
		const outside = [...host.querySelectorAll("svg text")].flatMap((text) => {
			const box = text.getBoundingClientRect();
			const isInside =
				frame !== undefined &&
				box.left >= frame.left - 0.5 &&
				box.right <= frame.right + 0.5 &&
				box.top >= frame.top - 0.5 &&
				box.bottom <= frame.bottom + 0.5;
			return isInside ? [] : [text.textContent ?? ""];
		});
		host.remove();
		return outside;
	});
}

/** Texts beside the screen or cut by what they stand in; what scrolls in a box of its own can be read. */
export function cutTexts() {
	const cut = [];
	const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
	for (let node = walker.nextNode(); node; node = walker.nextNode()) {
		const parent = node.parentElement;
		if (!parent?.checkVisibility() || parent.closest(".skip, script, style"))
			continue;
		const range = document.createRange();
		range.selectNodeContents(node);
		const { left, right, width } = range.getBoundingClientRect();
		if (width === 0) continue;
		let [from, to] = [0, innerWidth];
		for (let box = parent; box; box = box.parentElement) {
			const { overflowX } = getComputedStyle(box);
			if (overflowX === "auto" || overflowX === "scroll") {
				[from, to] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
				break;
			}
			if (overflowX === "visible") continue;
			const around = box.getBoundingClientRect();
			from = Math.max(from, around.left);
			to = Math.min(to, around.right);
		}
		if (left < from - 1 || right > to + 1)
			cut.push(node.textContent?.trim().slice(0, 60) ?? "");
	}
	return cut;
}

/** What is wrong with the texts of the interactive figures: outside their figure, or over one another. */
export function wrongTextsOfLiveFigures() {
	return [...document.querySelectorAll("figure.chart div.live")].flatMap(
		(figure) => {
			const frame = figure.getBoundingClientRect();
			const texts = [...figure.querySelectorAll("svg text")]
				.filter((t) => t.textContent !== "" && t.checkVisibility())
				.map((t) => ({ said: t.textContent, box: t.getBoundingClientRect() }));
			return texts.flatMap(({ said, box: a }, i) => {
				const isOutside =
					a.left < frame.left - 1 ||
					a.right > frame.right + 1 ||
					a.top < frame.top - 1 ||
					a.bottom > frame.bottom + 1;
				// Boxes of letters are taller than the letters.
				const over = texts
					.slice(0, i)
					.filter(
						({ box: b }) =>
							Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 &&
							Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) >
								0.35 * Math.min(a.height, b.height),
					);
				return [
					...(isOutside ? [`${said}: outside`] : []),
					...over.map((o) => `${said}: over ${o.said}`),
				];
			});
		},
	);
}
