// Keeps the open page up to date: when an edition changes it, its body is
// exchanged, what was unfolded stays unfolded, and the line that was at the top
// of the window stays there.
"use strict";
(() => {
	const here = () => decodeURIComponent(location.pathname.split("/record/").pop()) || "index.html";

	// The topmost thing in view that has a name of its own, and where it stands.
	const anchor = () => {
		for (const e of document.querySelectorAll("main [id]")) {
			const top = e.getBoundingClientRect().top;
			if (top >= 0) return { id: e.id, top };
		}
		return null;
	};

	const exchange = async () => {
		const answer = await fetch(location.href, { cache: "no-store" });
		if (!answer.ok) { // the page is no more: its outing was renamed or taken out
			location.href = "index.html";
			return;
		}
		const fresh = new DOMParser().parseFromString(await answer.text(), "text/html");
		const open = [...document.querySelectorAll("details")].map(d => d.open);
		const kept = anchor(), scrolled = scrollY;
		document.title = fresh.title;
		document.body.replaceWith(document.adoptNode(fresh.body));
		document.querySelectorAll("details").forEach((d, i) => { d.open = open[i] ?? d.open; });
		const again = kept && document.getElementById(kept.id);
		scrollTo({ top: again ? scrollY + again.getBoundingClientRect().top - kept.top : scrolled, behavior: "instant" });
		document.dispatchEvent(new Event("edition"));
	};

	const editions = new EventSource("../desk/editions");
	editions.addEventListener("edition", e => {
		if (JSON.parse(e.data).includes(here())) exchange();
	});
	// After a pause, such as a machine that slept, an edition may have been missed.
	let lost = false;
	editions.onerror = () => { lost = true; };
	editions.onopen = () => { if (lost) { lost = false; exchange(); } };
})();
