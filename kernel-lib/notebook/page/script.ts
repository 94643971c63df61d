/** The page's own script: puts interactive figures in the place of the still ones, opens what is folded when the page is printed. The page is whole without it. */
export const pageScript = `
(function () {
	"use strict";
	var dark = window.matchMedia("(prefers-color-scheme: dark)");
	var charts = [];
	function draw(chart) {
		var f = dark.matches ? chart.data.dark : chart.data.light;
		return window.Plotly.react(chart.live, f.data, f.layout, f.config);
	}
	function begin(figure) {
		var data = JSON.parse(figure.querySelector("script").textContent);
		var still = figure.querySelector(".still");
		var live = document.createElement("div");
		live.className = "live";
		live.setAttribute("role", "group");
		live.setAttribute("aria-label", data.alt);
		figure.appendChild(live);
		var chart = { data: data, live: live };
		draw(chart).then(function () { still.hidden = true; charts.push(chart); }, function () { live.remove(); });
	}
	if (window.Plotly) document.querySelectorAll("figure.chart").forEach(begin);
	dark.addEventListener("change", function () { charts.forEach(draw); });
	window.addEventListener("beforeprint", function () {
		document.querySelectorAll("details.why").forEach(function (d) { d.open = true; });
	});
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
