package pdf

import (
	"fmt"
	"strings"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// kit lists what was declared, as it was understood.
func (b *book) kit() {
	b.beginBelow(kitTitle, "as declared and understood")
	for _, c := range b.season.Cautions { // filters and developers are declared here
		b.caution(c)
	}
	if len(b.season.Kit) == 0 {
		b.set(measure{right: b.width()}, span{text: "Nothing is declared.", style: plain})
	}
	b.place()
	right, step := b.halves()
	kind := ""
	for _, k := range b.season.Kit {
		if k.Kind != kind {
			kind = k.Kind
			b.subtitle(strings.ToUpper(kind[:min(1, len(kind))]) + kind[min(1, len(kind)):])
		}
		b.kitItem(k, right)
	}
	b.placeColumns(step)
}

// kitFact is where the facts of a thing of the kit begin.
const kitFact = 76.0

// kitItem sets the facts as understood above the line as typed, to be compared.
func (b *book) kitItem(k *record.Item, right float64) {
	first := len(b.lines)
	b.set(measure{right: right}, span{text: k.Name, style: strong})
	for _, f := range k.Facts {
		b.set(measure{left: kitFact, first: -kitFact + listIndent, right: right},
			span{text: f.Name, style: label}, span{text: f.Value, style: plain, tab: kitFact})
	}
	if k.Source != "" {
		b.sourceLine(k.Place.String(), k.Source, listIndent, right, grey)
	}
	for _, t := range k.Tests {
		if b.has("tests") {
			b.set(measure{left: listIndent, right: right}, span{text: "from the test " + t.Name, style: aside, to: target{mark: b.markOf(t)}})
		}
	}
	b.keepFrom(first)
	b.lines[len(b.lines)-1].keep = false
	b.space(grid)
}

// scans lists the files by state, with the pages of their sheets.
func (b *book) scans() {
	b.beginBelow(scansTitle, "")
	for _, group := range saying.ScanGroups {
		head := false
		for _, s := range b.season.Scans {
			if s.State != group.State {
				continue
			}
			if !head {
				head = true
				b.subtitle(group.Title)
			}
			b.scan(s)
			b.place()
		}
	}
	b.place()
}

// scan sets a file, linked where there is one to open.
func (b *book) scan(s *record.Scan) {
	first := len(b.lines)
	name := span{text: s.Path, style: plain}
	if s.State != record.Missing && s.State != record.Outside {
		name.to.uri = b.uri(s.Path)
	}
	spans := []span{name, {text: lead(append(saying.ScanFacts(s), saying.Given(saying.Size(s.Bytes), s.Why)...)), style: aside}}
	if other := saying.OtherBytes(s); other != "" {
		spans = append(spans, span{text: "   " + other, style: warning})
	}
	if len(s.Sheets) > 0 {
		spans = append(spans, span{text: "   ", style: label})
		spans = append(spans, b.sheetRefs(s.Sheets)...)
	}
	b.set(measure{left: listIndent, first: -listIndent, right: b.width()}, spans...)
	inner := measure{left: listIndent, right: b.width()}
	for _, sum := range []struct{ name, digest string }{{"SHA-256", s.SHA256}, {saying.FormerSum, s.Was}} {
		if sum.digest != "" {
			b.set(inner, span{text: sum.name + " " + sum.digest, style: style{face: mono, size: 6.5, ink: grey}})
		}
	}
	b.keepFrom(first)
	b.lines[len(b.lines)-1].keep = false
}

// colophon says how the book was made and what it could not show. It is not parted.
func (b *book) colophon() {
	b.beginBelow(colophonTitle, "")
	lines := []string{
		"Written by " + orWords(b.options.Generator, "notchbook") + " from " +
			saying.Count(len(b.season.Notebooks), "notebook") + ", for " + b.form.name + " paper printed on both sides.",
		"Set in Go Regular, Bold, Italic and Mono by Bigelow & Holmes; single characters that these lack in " +
			"DejaVu Sans Condensed.",
		b.lackedWords(),
		"Pictures are small copies and lead to the scans themselves, as long as this file stays where it was " +
			"written, beside them. The notebooks are the original.",
		b.attachedWords(),
	}
	for _, l := range lines {
		b.set(measure{right: min(b.width(), 340)}, span{text: l, style: plain})
		b.space(grid)
	}
	b.notebooks()
	if h := height(b.lines); b.y+h > b.bottom()+slack && h <= b.bottom()-b.form.top && !b.atTop() {
		b.openPage(colophonTitle)
	}
	b.place()
}

// orWords is s, or what stands for it.
func orWords(s, other string) string {
	if s == "" {
		return other
	}
	return s
}

// lackedNamed is how many characters that no face has are named: of more, the others
// are counted.
const lackedNamed = 100

// lackedWords names the characters for which marks stand.
func (b *book) lackedWords() string {
	all := b.faces().lacked
	if len(all) == 0 {
		return "Every character of the notes is shown as it was typed."
	}
	var names []string
	for i, c := range all {
		if i == lackedNamed {
			names = append(names, fmt.Sprint(len(all)-i, " others"))
			break
		}
		name := fmt.Sprintf("U+%04X", c.r)
		if c.n > 1 {
			name += fmt.Sprint(" ", c.n, " times")
		}
		names = append(names, name)
	}
	return "A " + lackedMark + " stands where the typefaces lack what was typed, and headings leave out what is no letter or figure: " + strings.Join(names, ", ") + ". The pages and the plain text beside this book have them as typed."
}
