// Keeps the open page up to date: when an edition changes it, its body is
// exchanged, what was unfolded stays unfolded, and the line that was at the top
// of the window stays there. A page with a script of its own is loaded again, so
// that the script sees the page as it is now; what was typed or set stays.
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

	const own = [...document.querySelectorAll('script[src]:not([src$="/follow.js"])')].map(s => s.getAttribute("src"));
	const kept = "notchbook.desk";
	const again = () => {
		const set = [...document.querySelectorAll("input[id], select[id]")].map(e => [e.id, e.value]);
		sessionStorage.setItem(kept, JSON.stringify({ page: location.pathname, set, top: scrollY }));
		location.reload();
	};
	const resume = () => {
		const text = sessionStorage.getItem(kept);
		sessionStorage.removeItem(kept);
		const state = text && JSON.parse(text);
		if (!state || state.page !== location.pathname) return;
		for (const [id, value] of state.set) {
			const e = document.getElementById(id);
			if (e && e.value !== value) {
				e.value = value;
				e.dispatchEvent(new Event("input", { bubbles: true }));
			}
		}
		scrollTo({ top: state.top, behavior: "instant" });
	};
	if (own.length > 0) resume();

	const exchange = async () => {
		if (own.length > 0) return again();
		const answer = await fetch(location.href, { cache: "no-store" });
		if (!answer.ok) { // the page is no more: its outing was renamed or taken out
			location.href = "index.html";
			return;
		}
		const fresh = new DOMParser().parseFromString(await answer.text(), "text/html");
		const open = [...document.querySelectorAll("details")].map(d => d.open);
		const first = anchor(), scrolled = scrollY;
		document.title = fresh.title;
		document.body.replaceWith(document.adoptNode(fresh.body));
		document.querySelectorAll("details").forEach((d, i) => { d.open = open[i] ?? d.open; });
		const there = first && document.getElementById(first.id);
		scrollTo({ top: there ? scrollY + there.getBoundingClientRect().top - first.top : scrolled, behavior: "instant" });
		document.dispatchEvent(new Event("edition"));
	};

	const editions = new EventSource("../desk/editions");
	editions.addEventListener("edition", e => {
		const changed = JSON.parse(e.data);
		if ([here(), ...own].some(name => changed.includes(name))) exchange();
	});
	// After a pause, such as a machine that slept, an edition may have been missed.
	let lost = false;
	editions.onerror = () => { lost = true; };
	editions.onopen = () => { if (lost) { lost = false; exchange(); } };
})();
