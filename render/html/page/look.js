"use strict";

// Two things that paper cannot do: one picture at a time, turned with the arrow
// keys, and a wipe between two scans of a scene. Without this script the pages
// are a strip of pictures and pictures side by side.

function wall(figures) {
	const hint = document.querySelector(".keys-hint");
	if (hint) hint.hidden = false;
	let at = 0;
	const show = (i) => {
		at = Math.max(0, Math.min(figures.length - 1, i));
		figures.forEach((f, j) => { f.hidden = j !== at; });
		figures[at].querySelector("img").loading = "eager";
	};
	const wanted = () => figures.findIndex((f) => "#" + f.id === decodeURIComponent(location.hash));
	const turn = (by) => {
		show(at + by);
		history.replaceState(null, "", "#" + figures[at].id);
	};
	document.addEventListener("keydown", (e) => {
		if (e.altKey || e.ctrlKey || e.metaKey || e.shiftKey) return;
		if (e.key === "ArrowRight") turn(1);
		else if (e.key === "ArrowLeft") turn(-1);
		else if (e.key === "Escape") {
			const entry = figures[at].querySelector("figcaption a");
			if (entry) entry.click();
			return;
		} else return;
		e.preventDefault();
	});
	addEventListener("hashchange", () => show(wanted()));
	show(wanted());
	scrollTo(0, 0);
}

function wipe(section, frames) {
	const part = (name) => document.getElementById("wipe." + name);
	const [left, right, edge] = ["left", "right", "at"].map(part);
	const under = new Image(), over = new Image();
	part("pair").append(under, over);
	for (const list of [left, right]) {
		frames.forEach((f, i) => list.append(new Option(f.dataset.label, String(i))));
	}
	right.value = "1";
	const draw = () => {
		const a = frames[left.value], b = frames[right.value];
		over.src = a.dataset.picture;
		under.src = b.dataset.picture;
		over.alt = "Sheet " + a.dataset.label + ", left of the edge";
		under.alt = "Sheet " + b.dataset.label + ", right of the edge";
		over.style.clipPath = "inset(0 " + (100 - edge.value) + "% 0 0)";
	};
	for (const control of [left, right, edge]) control.addEventListener("input", draw);
	section.hidden = false;
	draw();
}

const figures = [...document.querySelectorAll("figure.view")];
if (figures.length > 0) wall(figures);
const section = document.getElementById("wipe");
if (section) wipe(section, [...document.querySelectorAll("[data-picture]")]);
