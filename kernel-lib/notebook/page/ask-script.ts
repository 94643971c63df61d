/**
 * The functions by which a page answers at a margin of the reader's own: the rule of the comparison (`compare/word.ts` and `compare/word-at.ts`) once more, because a page that opens offline carries no library. Tests hold
 * them against the comparison itself.
 */
export const askFunctions = `
	function marginIn(text) {
		var plain = text.trim().replace(",", ".");
		var margin = /^([0-9]+[.]?[0-9]*|[.][0-9]+)$/.test(plain) ? Number(plain) : 0;
		return margin > 0 && margin < Infinity ? margin : 0;
	}
	function wordFor(j, margin, claim) {
		if (j.within.low >= -margin && j.within.high <= margin) return "no difference that matters";
		if (j.interval.low > (claim === "difference" ? 0 : margin)) return "higher";
		return j.interval.high < 0 ? "lower" : "cannot tell";
	}
	function wordAt(ground, margin) {
		var open = { word: "cannot tell", because: ground.because };
		if (ground.judged.length === 0) return open;
		var words = ground.judged.map(function (j) { return wordFor(j, margin, ground.claim); });
		var word = words[0];
		if (word === "cannot tell") return open;
		var forbidden = ground.forbidden.filter(function (f) { return f.word === word && (f.upTo === "every margin" || margin <= f.upTo); });
		if (forbidden.length > 0) return { word: "cannot tell", because: forbidden[0].because };
		if (ground.provable !== "any" && ground.provable !== word) return { word: "cannot tell", because: "only a bound is known, and it does not decide" };
		if (words.some(function (w) { return w !== word; })) return { word: "cannot tell", because: "\\"" + word + "\\" does not hold both without the flasks that gave only a bound and with them at their limit" };
		return { word: word, because: "" };
	}
	function answersAt(asked, text) {
		if (text.trim() === "") return [];
		var margin = marginIn(text);
		if (margin === 0) return ["Write a number above 0 in mg/g, such as 15 or 2.5."];
		return asked.map(function (a) {
			var found = wordAt(a.ground, margin);
			return a.treatment + ": " + a.said[found.word] + (found.because === "" ? "" : " (" + found.because + ")");
		});
	}
`;

/** Wires the question up; without scripts it stays hidden. */
export const askWiring = `
	document.querySelectorAll(".ask").forEach(function (ask) {
		var asked = JSON.parse(ask.getAttribute("data-asked"));
		var input = ask.querySelector("input");
		var answers = ask.querySelector("ul");
		input.addEventListener("input", function () {
			answers.textContent = "";
			answersAt(asked, input.value).forEach(function (text) {
				var item = document.createElement("li");
				item.textContent = text;
				answers.appendChild(item);
			});
		});
		ask.hidden = false;
	});
`;
