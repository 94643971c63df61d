import { askFunctions, askWiring } from "./ask-script";

/** The page's own script: puts interactive figures in the place of the still ones, answers at a margin of the reader's own, opens what is folded when the page is printed or a link leads into it. The page is whole without it. */
export const pageScript = `
(function () {
	"use strict";
${askFunctions}${askWiring}	var dark = window.matchMedia("(prefers-color-scheme: dark)");
	var narrow = window.matchMedia("(max-width: 540px)");
	var charts = [];
	function draw(chart) {
		var f = dark.matches ? chart.data.dark : chart.data.light;
		var layout = JSON.parse(JSON.stringify(f.layout));
		if (narrow.matches) {
			var n = chart.data.narrow;
			layout.title.text = n.title;
			layout.xaxis.title.text = n.xTitle;
			layout.yaxis.title.text = n.yTitle;
			layout.margin.t = n.marginTop;
			layout.height = n.height;
		}
		return window.Plotly.react(chart.live, f.data, layout, f.config);
	}
	function begin(figure) {
		var data = JSON.parse(figure.querySelector("script").textContent);
		var still = figure.querySelector(".still");
		var live = document.createElement("div");
		live.className = "live";
		live.setAttribute("role", "group");
		live.setAttribute("aria-label", data.alt);
		figure.appendChild(live);
		var notes = figure.querySelector("figcaption");
		if (notes) figure.appendChild(notes);
		var chart = { data: data, live: live };
		draw(chart).then(function () { still.hidden = true; if (notes) notes.hidden = false; charts.push(chart); }, function () { live.remove(); });
	}
	if (window.Plotly) document.querySelectorAll("figure.chart").forEach(begin);
	[dark, narrow].forEach(function (screen) { screen.addEventListener("change", function () { charts.forEach(draw); }); });
	window.addEventListener("beforeprint", function () {
		document.querySelectorAll("details.why").forEach(function (d) { d.open = true; });
	});
	function arrive() {
		var id = decodeURIComponent(location.hash.slice(1));
		var target = id && document.getElementById(id);
		if (!target) return;
		for (var box = target.parentElement; box; box = box.parentElement) if (box.tagName === "DETAILS") box.open = true;
		if (target.tabIndex < 0) target.setAttribute("tabindex", "-1");
		target.focus({ preventScroll: true });
		target.scrollIntoView();
	}
	window.addEventListener("hashchange", arrive);
	var code = document.querySelectorAll("details.code");
	var place = document.getElementById("code-switch");
	if (place && code.length > 0) {
		var button = document.createElement("button");
		var open = false;
		button.type = "button";
		button.textContent = "Show all code";
		button.addEventListener("click", function () {
			open = !open;
			code.forEach(function (d) { d.open = open; });
			button.textContent = open ? "Hide all code" : "Show all code";
		});
		place.appendChild(button);
	}
})();
`.trim();
