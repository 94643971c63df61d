import { askFunctions, askWiring } from "./ask-script";

/** The page's own script: puts interactive figures in the place of the still ones, answers at a margin of the reader's own, opens what is folded when the page is printed or a link leads into it. The page is whole without it. */
export const pageScript = `
(function () {
	"use strict";
${askFunctions}${askWiring}	var dark = window.matchMedia("(prefers-color-scheme: dark)");
	var wide = window.matchMedia("(min-width: 600px)");
	var charts = [];
	// Laid out at one width and made as wide as its place, so that it lies as the still picture does.
	function fit(chart) {
		var width = chart.layout.width;
		var scale = chart.figure.clientWidth / width;
		chart.live.style.width = width + "px";
		chart.live.style.transform = "scale(" + scale + ")";
		chart.room.style.height = chart.layout.height * scale + "px";
	}
	function draw(chart) {
		var f = dark.matches ? chart.data.dark : chart.data.light;
		chart.layout = JSON.parse(JSON.stringify(f.layout));
		return window.Plotly.react(chart.live, f.data, chart.layout, f.config).then(function () { fit(chart); });
	}
	// Ticks are the still picture's until a part of an axis is looked at.
	function ticks(chart) {
		var first = chart.data.light.layout;
		var change = {};
		["xaxis", "yaxis"].forEach(function (name) {
			var now = chart.live.layout[name];
			var mode = String(now.range) === String(first[name].range) ? "array" : "auto";
			if (now.tickmode !== mode && !now.fixedrange) change[name + ".tickmode"] = mode;
		});
		if (Object.keys(change).length > 0) window.Plotly.relayout(chart.live, change);
	}
	// What is read on pointing at a mark names its flask in a line of its own.
	function follow(flasks, point) {
		String(point.hovertext || "").split("<br>").forEach(function (line) {
			if (line.indexOf("flask ") !== 0) return;
			[line.slice(6), line.slice(6).replace(/, .*$/, "")].some(function (name) {
				if (!Object.prototype.hasOwnProperty.call(flasks, name)) return false;
				location.hash = flasks[name];
				return true;
			});
		});
	}
	function begin(figure) {
		var data = JSON.parse(figure.querySelector("script").textContent);
		var room = document.createElement("div");
		room.className = "live";
		room.setAttribute("role", "group");
		room.setAttribute("aria-label", data.alt);
		var live = room.appendChild(document.createElement("div"));
		figure.appendChild(room);
		var notes = figure.querySelector("figcaption");
		if (notes) figure.appendChild(notes);
		var chart = { data: data, figure: figure, room: room, live: live };
		draw(chart).then(function () {
			figure.classList.add("drawn");
			charts.push(chart);
			live.on("plotly_relayout", function () { ticks(chart); });
			live.on("plotly_click", function (event) { follow(data.flasks, event.points[0]); });
			new ResizeObserver(function () { fit(chart); }).observe(figure);
		}, function () { room.remove(); });
	}
	// On a phone the still picture stays: it is laid out for one.
	function beginAll() {
		if (window.Plotly && wide.matches && charts.length === 0) document.querySelectorAll("figure.chart").forEach(begin);
	}
	beginAll();
	wide.addEventListener("change", function () {
		beginAll();
		if (wide.matches) charts.forEach(draw);
	});
	dark.addEventListener("change", function () { charts.forEach(draw); });
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
