// The page of the card. It asks the checker that lies in it, the same that runs
// on the desk, and shows what it says; it reckons nothing itself.
"use strict";
(() => {
	const $ = id => document.getElementById(id);
	const kit = JSON.parse($("kit").textContent);
	const noteName = "notes.md";
	const keep = {
		get: key => { try { return localStorage.getItem("notchbook " + key); } catch { return null; } },
		set: (key, value) => { try { localStorage.setItem("notchbook " + key, value); } catch { /* the device keeps nothing */ } },
	};
	let ready = false;

	// The light of the page.
	const lamps = ["day", "night", "red"];
	const lamp = name => {
		document.documentElement.dataset.lamp = name;
		$("lamp").textContent = { day: "Day", night: "Night", red: "Red lamp" }[name];
		keep.set("lamp", name);
	};
	lamp(keep.get("lamp") ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "night" : "day"));
	$("lamp").onclick = () => lamp(lamps[(lamps.indexOf(document.documentElement.dataset.lamp) + 1) % lamps.length]);

	// The three sides of the card.
	const sides = [...document.querySelectorAll("nav button")];
	const turn = side => {
		for (const b of sides) {
			b.setAttribute("aria-pressed", b.dataset.side === side);
			$(b.dataset.side).hidden = b.dataset.side !== side;
		}
		keep.set("side", side);
	};
	for (const b of sides) b.onclick = () => turn(b.dataset.side);
	if (sides.some(b => b.dataset.side === keep.get("side"))) turn(keep.get("side"));

	// Settings for a reading, once for each filter.
	const fields = ["reading", "lens", "film", "light", "aperture", "ext"].map($).filter(Boolean);
	const v = id => $(id)?.value.trim() ?? "";
	const terms = () => {
		const all = [/^(metered|incident|average|sunny)/i.test(v("reading")) ? v("reading") : "metered " + v("reading")];
		if (v("lens")) all.push("lens " + v("lens"));
		if (v("film")) all.push("film " + v("film"));
		if (v("ext")) all.push(/^(ext|bellows)/i.test(v("ext")) ? v("ext") : "ext " + v("ext"));
		return all.join(", ");
	};
	const cell = (row, tag, text, name) => {
		const c = row.appendChild(document.createElement(tag));
		c.textContent = text;
		if (name) c.className = name;
		return c;
	};
	const spread = () => {
		for (const f of fields) keep.set(f.id, f.value);
		$("chosen").hidden = true;
		if (!ready) return;
		const asked = $("reading").value.trim() !== "";
		$("answers").hidden = !asked;
		$("waiting").hidden = asked;
		$("waiting").textContent = "Type what the meter says: settings for each of your filters appear here.";
		if (!asked) return;
		const all = JSON.parse(notchbook.settings(JSON.stringify(kit.texts), JSON.stringify(kit.names), JSON.stringify({ Terms: terms(), Light: v("light"), Aperture: v("aperture") })));
		const body = $("answers").tBodies[0];
		body.replaceChildren(...all.map(row));
		$("cautions").replaceChildren(...[...new Set(all.flatMap(s => s.Cautions ?? []))].map(text => {
			const p = document.createElement("p");
			p.className = "caution";
			p.textContent = text;
			return p;
		}));
		const said = [...(all[0]?.Assumed ?? [])], unread = all[0]?.Unread ?? [];
		if (unread.length) said.unshift("Not understood, and counts for nothing: " + unread.join(", "));
		if (said.length) {
			$("waiting").hidden = false;
			$("waiting").textContent = said.join(". ");
		}
	};
	// No line ends within a time or between a figure and its unit.
	const whole = text => text.replace(/(\d[mh]) (?=\d+[ms]\b)|[\d½⅓⅔¼¾⅙⅚] (?=(?:s|mm|stops?)\b)|\b(?:EV|EI|ISO) (?=\d)/g, found => found.slice(0, -1) + "\u00a0");
	const stops = n => {
		const whole = Math.trunc(Math.round(n * 12) / 12), part = Math.round((n - whole) * 12);
		const name = { 0: "", 2: "⅙", 3: "¼", 4: "⅓", 6: "½", 8: "⅔", 9: "¾", 10: "⅚" }[part];
		return name === undefined ? n.toFixed(1) : (whole || !name ? whole : "") + name;
	};
	const left = n => Math.abs(n) < 0.09 ? "" : `leaves ${stops(Math.abs(n))} ${n > 0 ? "over" : "under"}`;
	const row = s => {
		const tr = document.createElement("tr");
		cell(tr, "th", s.Filter || "none").scope = "row";
		cell(tr, "td", s.Stops ? stops(s.Stops) : "", "fig");
		const give = cell(tr, "td", "", "fig");
		if (s.Why) {
			give.className = "quiet";
			give.textContent = whole(s.Why);
			return tr;
		}
		s.Settings.forEach((c, i) => {
			const d = give.appendChild(document.createElement("div"));
			d.className = i ? "quiet" : "best";
			d.textContent = whole(`${c.Time}  ${c.Aperture}`);
			const rest = left(c.Left);
			if (!rest) return;
			const l = i ? d : give.appendChild(document.createElement("div"));
			l.className = "quiet";
			l.append(i ? ", " + rest : rest);
		});
		for (const text of s.Doubts ?? []) {
			const d = give.appendChild(document.createElement("div"));
			d.className = "quiet";
			d.textContent = whole(text);
		}
		tr.tabIndex = 0;
		tr.onclick = () => choose(tr, s.Line);
		tr.onkeydown = e => { if (e.key === "Enter" || e.key === " ") { e.preventDefault(); choose(tr, s.Line); } };
		return tr;
	};
	let line = "";
	// A light other than daylight is logged above the sheet, and daylight where the
	// note has named another.
	const lit = () => {
		const light = v("light");
		const named = light && (light !== $("light").options[0].value || /^\W*light\W*:/im.test($("notes").value));
		return named ? "light: " + light + "\n" : "";
	};
	const written = () => lit() + ($("label").value.trim() || "…") + ": " + line;
	const choose = (tr, text) => {
		for (const other of tr.parentElement.rows) other.removeAttribute("aria-selected");
		tr.setAttribute("aria-selected", "true");
		line = text;
		$("line").textContent = written();
		$("chosen").hidden = false;
		$("chosen").scrollIntoView({ block: "nearest" });
	};
	$("label").oninput = () => { $("line").textContent = written(); };
	for (const f of fields) {
		f.value = keep.get(f.id) ?? f.value;
		if (f.tagName === "SELECT" && f.selectedIndex < 0) f.selectedIndex = 0;
		f.addEventListener("input", spread);
	}
	$("ask").onsubmit = e => e.preventDefault();
	const copy = async text => {
		try { await navigator.clipboard.writeText(text); } catch {
			const t = document.body.appendChild(document.createElement("textarea"));
			t.value = text;
			t.select();
			document.execCommand("copy");
			t.remove();
		}
	};
	$("copyline").onclick = () => copy(written());
	$("take").onclick = () => {
		if (!$("label").value.trim()) {
			$("label").focus();
			return;
		}
		const n = $("notes");
		n.value = n.value.replace(/\n*$/, n.value.trim() ? "\n" : "") + written() + "\n";
		$("label").value = "";
		changed();
		turn("note");
	};

	// The note and what there is to say of it.
	const check = () => {
		keep.set("note", $("notes").value);
		if (!ready) return;
		const texts = { ...kit.texts, [noteName]: $("notes").value };
		const said = $("notes").value.trim() === "" ? "" : notchbook.check(JSON.stringify(texts), JSON.stringify([...kit.names, noteName]));
		window.notchbookSaid = said;
		const out = said ? JSON.parse(said) : { findings: [], sheets: [] };
		const found = out.findings.filter(f => f.file === noteName);
		$("found").replaceChildren(...found.map(item));
		const by = {};
		for (const s of out.sheets) by[s.state] = (by[s.state] ?? 0) + 1;
		const parts = Object.entries(by).map(([state, n]) => `${n} ${state === "no-image" ? "without an image" : state}`);
		const n = out.sheets.length;
		$("tally").textContent = n ? `${n} sheet${n === 1 ? "" : "s"}: ${parts.join(", ")}` : "";
		const grave = found.filter(f => f.severity !== "note").length;
		$("count").textContent = grave ? `(${grave})` : "";
	};
	const item = f => {
		const li = document.createElement("li");
		const mark = li.appendChild(document.createElement("span"));
		mark.className = f.severity === "error" ? "grave" : "mild";
		mark.textContent = f.severity;
		const go = li.appendChild(document.createElement("button"));
		go.type = "button";
		go.textContent = whole(`line ${f.line}: ${f.message}`);
		go.onclick = () => {
			const before = $("notes").value.split("\n").slice(0, f.line - 1).join("\n").length + (f.line > 1 ? 1 : 0);
			$("notes").focus();
			$("notes").setSelectionRange(before, before + ($("notes").value.split("\n")[f.line - 1] ?? "").length);
		};
		const ul = li.appendChild(document.createElement("ul"));
		for (const note of f.notes ?? []) ul.appendChild(document.createElement("li")).textContent = whole(note);
		return li;
	};
	let later = 0;
	const changed = () => { clearTimeout(later); later = setTimeout(check, 120); };
	$("notes").value = keep.get("note") ?? "";
	$("notes").oninput = changed;
	$("copy").onclick = () => copy($("notes").value);
	$("save").onclick = () => {
		const a = document.createElement("a");
		a.href = URL.createObjectURL(new Blob([$("notes").value], { type: "text/markdown" }));
		a.download = noteName;
		a.click();
		setTimeout(() => URL.revokeObjectURL(a.href), 10_000);
	};
	$("open").onchange = async e => {
		const file = e.target.files[0];
		if (!file) return;
		const text = await file.text(), n = $("notes");
		n.value = n.value.trim() ? n.value.replace(/\n*$/, "\n\n") + text : text; // what was written is never replaced
		e.target.value = "";
		check();
	};

	// The checker, unpacked: compiled while it is unpacked, and so the sooner at work.
	window.notchbookReady = () => {
		ready = true;
		spread();
		check();
		document.documentElement.dataset.ready = Math.round(performance.now());
	};
	// Ascii85, with v for < : five signs are four bytes, z is four noughts, and a shorter end is filled with the last sign.
	const bytes = packed => {
		const text = packed.replaceAll("z", "!!!!!"), out = new Uint8Array(4 * Math.ceil(text.length / 5));
		for (let from = 0, to = 0; from < text.length; from += 5) {
			let value = 0;
			for (let i = from; i < from + 5; i++) {
				const sign = i < text.length ? text.charCodeAt(i) : 117;
				value = value * 85 + (sign === 118 ? 60 : sign) - 33;
			}
			for (let shift = 24; shift >= 0; shift -= 8) out[to++] = value >>> shift;
		}
		return out.subarray(0, Math.floor(text.length * 4 / 5));
	};
	const unpack = async () => {
		const stream = new Blob([bytes($("checker").textContent)]).stream().pipeThrough(new DecompressionStream("gzip"));
		const go = new Go();
		const { instance } = await WebAssembly.instantiateStreaming(new Response(stream, { headers: { "Content-Type": "application/wasm" } }), go.importObject);
		await go.run(instance);
	};
	unpack().catch(err => { $("waiting").textContent = "This browser cannot run the checker: " + err.message + ". The tables can be read."; });
})();
