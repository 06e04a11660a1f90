"use strict";
// Finds sheets as the program does: spellings are looked up and sets joined. What
// the notation means was settled when the record was made, and is in the index;
// the rules are those of the program's own reader of queries, step by step.

(() => {
  const index = globalThis.notchbookIndex;
  const lines = (text) => (text === "" ? [] : text.split("\n"));
  const findable = (text) => lines(text).map((line) => {
    const [name, spelled, runs] = line.split("\t");
    return { name, spelled: spelled === "" ? [] : spelled.split("|"), runs };
  });
  const terms = findable(index.terms), dates = findable(index.dates), words = findable(index.words);
  const spelled = new Map(), all = [];
  for (const term of terms) {
    for (const text of term.spelled) {
      spelled.set(text, [...(spelled.get(text) ?? []), term]);
      all.push([text, term]);
    }
  }
  for (const word of words) all.push([word.name, word]);

  // Folding, letter by letter.
  const fraction = (plain) => /^[0-9].*\//.test(plain) && plain.length >= 3;
  function fold(text) {
    let out = "", last = "";
    for (const c of text) {
      const plain = Object.hasOwn(index.plain, c) ? index.plain[c] : undefined;
      if (plain === undefined) out += c;
      else out += (last >= "0" && last <= "9" && fraction(plain) ? "+" : "") + plain;
      last = c;
    }
    let small = "";
    for (const c of out.normalize("NFKD")) {
      if (/^\p{M}$/u.test(c) || c === "'") continue;
      const low = c.toLowerCase();
      small += low === "ς" ? "σ" : low;
    }
    return small;
  }

  const items = /"[^"]*"?|[^\u0000-\u0020\u0085\u00a0\u1680\u2000-\u200f\u2028-\u202f\u205f\u2060\u3000\ufeff,;"]+/g;
  const parts = (text) => text.split(/[^\p{L}\p{N}]+/u).filter((part) => part !== "");
  const split = (text) => (fold(text).match(items) ?? []).flatMap((text) =>
    text[0] === '"' ? parts(text).map((text) => ({ text, quoted: true })) : [{ text, quoted: false }]);

  // Sets of sheets.
  const none = () => new Uint8Array(index.sheets);
  const every = () => none().fill(1);
  function add(set, runs) {
    let at = 0;
    for (const run of runs === "" ? [] : runs.split(" ")) {
      const [gap, count] = run.split(".");
      at += parseInt(gap, 36);
      const end = at + (count === undefined ? 1 : parseInt(count, 36));
      set.fill(1, at, end);
      at = end;
    }
  }
  const and = (a, b) => { for (let i = 0; i < a.length; i++) a[i] &= b[i]; };
  const or = (a, b) => { for (let i = 0; i < a.length; i++) a[i] |= b[i]; };
  const turn = (a) => { for (let i = 0; i < a.length; i++) a[i] ^= 1; };

  const longest = 8;
  const figure = /[0-9]/;
  const begun = (text) => (figure.test(text) ? text : text + "…");
  const day = String.raw`\d{4}(?:-\d\d(?:-\d\d)?)?`;
  const date = new RegExp(`^${day}$`), ranged = new RegExp(`^(${day})?\\.\\.\\.?(${day})?$`);

  // The last figures of a negative's number and what comes before them.
  function numbered(text) {
    const m = /^(.*[^0-9])([0-9]{1,9})$/.exec(text);
    return m && { prefix: m[1], n: Number(m[2]) };
  }

  class Reader {
    constructor(text) {
      this.items = split(text);
      this.read = [];
      this.lost = [];
    }
    is(...any) {
      const next = this.items[0];
      return next !== undefined && !next.quoted && any.includes(next.text);
    }
    answer() {
      const fits = every();
      while (this.items.length > 0) and(fits, this.alternatives());
      const sheets = [];
      fits.forEach((fit, i) => { if (fit) sheets.push(i); });
      return { sheets, read: this.read, lost: this.lost };
    }
    alternatives() {
      let [fits, read] = this.condition();
      while (this.is("or")) {
        this.items.shift();
        const [other, more] = this.condition();
        if (more === "") continue;
        if (read === "") [fits, read] = [other, more];
        else {
          or(fits, other);
          read += " or " + more;
        }
      }
      if (read !== "") this.read.push(read);
      return fits;
    }
    condition() {
      let turned = false;
      while (this.is("and", "not", "no") && this.phrase() === 0) {
        if (!this.is("and")) turned = !turned;
        this.items.shift();
      }
      if (this.items.length === 0 || this.is("or")) return [every(), ""];
      let [fits, read] = this.one();
      if (turned) {
        turn(fits);
        read = "not " + read;
      }
      return [fits, read];
    }
    joined(n) {
      const next = this.items.slice(0, n);
      return next.some((item) => item.quoted) ? "" : next.map((item) => item.text).join(" ");
    }
    phrase() {
      for (let n = Math.min(longest, this.items.length); n > 0; n--) if (spelled.has(this.joined(n))) return n;
      return 0;
    }
    run() {
      const next = this.items;
      if (date.test(next[0].text) || this.range(next[0].text)) return null;
      let [first, last, n] = [next[0].text, "", 1];
      const cut = first.indexOf("..");
      if (cut >= 0) [first, last] = [first.slice(0, cut), first.slice(cut + 2)];
      else if (next.length > 2 && next[1].text === "to") [last, n] = [next[2].text, 3];
      if (next.slice(0, n).some((item) => item.quoted)) return null;
      last = last.replace(/^\./, "");
      const from = numbered(first), to = numbered(last);
      if (!from || !to || from.prefix !== to.prefix || from.n > to.n) return null;
      const fits = none();
      for (const term of terms) {
        if (!term.name.startsWith("negative ")) continue;
        const at = numbered(fold(term.name.slice("negative ".length)));
        if (at && at.prefix === from.prefix && from.n <= at.n && at.n <= to.n) add(fits, term.runs);
      }
      return [fits, `${first} to ${last}`, n];
    }
    one() {
      const run = this.run();
      if (run && run[2] > 1) {
        this.items.splice(0, run[2]);
        return run.slice(0, 2);
      }
      const fits = none(), n = this.phrase();
      if (n > 0) {
        const found = spelled.get(this.joined(n));
        for (const term of found) add(fits, term.runs);
        this.items.splice(0, n);
        return [fits, found.map((term) => term.name).join(" or ")];
      }
      const { text, quoted } = this.items.shift();
      if (run) return run.slice(0, 2);
      if (quoted) return this.exactly(text);
      const range = date.test(text) ? [text, text] : this.range(text);
      if (range) return [this.between(...range), text];
      const known = this.begin(fits, text), short = text.replace(/\.$/, "");
      if (short !== text && short !== "" && this.begin(fits, short) || known) return [fits, begun(text)];
      return this.pieces(text);
    }
    exactly(text) {
      const fits = none(), found = words.filter((word) => word.name === text);
      for (const word of found) add(fits, word.runs);
      if (found.length === 0) this.lost.push(text);
      return [fits, `"${text}"`];
    }
    range(text) {
      const [, from = "", to = ""] = ranged.exec(text) ?? [];
      return from === "" && to === "" ? null : [from, to];
    }
    between(from, to) {
      const fits = none();
      for (const d of dates) if (d.name >= from && (to === "" || d.name.slice(0, to.length) <= to)) add(fits, d.runs);
      return fits;
    }
    begin(fits, beginning) {
      let known = false;
      const whole = figure.test(beginning);
      for (const [text, of] of all) {
        if (text === beginning || !whole && text.startsWith(beginning)) {
          add(fits, of.runs);
          if (of.runs !== "") known = true;
        }
      }
      return known;
    }
    pieces(text) {
      const pieces = parts(text);
      if (pieces.length < 2) {
        this.lost.push(text);
        return [none(), text];
      }
      const fits = every();
      for (const piece of pieces) {
        const one = none();
        if (!this.begin(one, piece)) this.lost.push(piece);
        and(fits, one);
      }
      return [fits, pieces.map(begun).join(" ")];
    }
  }

  const find = (text) => new Reader(text).answer();
  globalThis.notchbookFind = (text) => find(text).sheets;

  // The page.
  const rows = {};
  for (const column of ["label", "url", "what", "how", "state", "check"]) rows[column] = index[column].split("\n");
  const id = (name) => document.getElementById("find." + name);
  const query = id("query"), said = id("said"), list = id("list"), more = id("more"), body = list.tBodies[0];
  const atOnce = 100;
  let found = [], shown = 0;

  function make(name, text, style) {
    const e = document.createElement(name);
    e.textContent = text;
    if (style) e.className = style;
    return e;
  }
  function row(i) {
    const tr = document.createElement("tr"), head = make("th", ""), what = make("td", ""), check = make("td", "");
    head.scope = "row";
    const link = make("a", rows.label[i]);
    link.href = rows.url[i];
    head.append(rows.url[i] === "" ? rows.label[i] : link);
    if (rows.what[i] !== "") what.append(rows.what[i], document.createElement("br"));
    what.append(make("span", rows.how[i], "quiet"));
    check.append(make("span", rows.check[i], "v " + rows.state[i]));
    tr.append(head, what, check);
    return tr;
  }
  function show() {
    const next = found.slice(shown, shown + atOnce);
    body.append(...next.map(row));
    shown += next.length;
    more.hidden = shown >= found.length;
    more.textContent = `Show ${Math.min(atOnce, found.length - shown)} more of ${found.length - shown}`;
  }
  function ask() {
    const { sheets, read, lost } = find(query.value);
    found = sheets;
    shown = 0;
    body.replaceChildren();
    list.hidden = found.length === 0;
    const all = index.sheets - Object.keys(index.film).length;
    const film = (rows) => new Set(rows.map((i) => index.film[i] ?? i)).size;
    const exposed = found.filter((i) => !index.unused.includes(i));
    let text = `${film(found)} ${film(found) === 1 ? "sheet" : "sheets"} of ${all}`;
    if (film(exposed) !== exposed.length) text += `, ${exposed.length} exposures`;
    if (read.length > 0) text += ": " + read.join(", ");
    if (lost.length > 0) text += ". Nothing in these notes is called " + lost.join(", ") + ".";
    said.textContent = text.replace(/(\d[mh]) (?=\d+[ms]\b)/g, "$1\u00a0"); // no line ends within a time
    show();
  }
  const asked = () => (location.hash.startsWith("#q=") ? location.hash.slice(3) : "");
  function fromAddress() {
    try {
      query.value = decodeURIComponent(asked());
    } catch {
      query.value = asked();
    }
    ask();
  }
  query.addEventListener("input", () => {
    history.replaceState(null, "", query.value === "" ? "#q=" : "#q=" + encodeURIComponent(query.value.toWellFormed()));
    ask();
  });
  addEventListener("hashchange", () => { if (location.hash.startsWith("#q=")) fromAddress(); });
  more.addEventListener("click", () => {
    const first = body.rows.length;
    show();
    body.rows[first]?.querySelector("a")?.focus();
  });
  id("ask").hidden = false;
  fromAddress();
  if (asked() === "") query.focus();
})();
