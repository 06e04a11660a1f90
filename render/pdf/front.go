package pdf

import (
	"fmt"
	"strconv"
	"strings"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// section is a line of the contents.
type section struct {
	title string
	aside string // date, count
	mark  *mark
	inner bool // an outing or an index, under the section before
}

// The sections besides the outings; the strings are keys of marks too.
const (
	summaryTitle   = "The season"
	findingsTitle  = "Findings"
	uncheckedTitle = "Unchecked or unread"
	developTitle   = "To develop"
	outingsTitle   = "Outings"
	scenesTitle    = "Side by side"
	holdersTitle   = "Holders"
	negativesTitle = "Negatives"
	lossesTitle    = "Lost sheets"
	yearsTitle     = "Years and places"
	contactsTitle  = "Contact sheet"
	kitTitle       = "Kit"
	testsTitle     = "Tests"
	scansTitle     = "Scans"
	indexesTitle   = "Indexes"
	colophonTitle  = "Colophon"
	looseTitle     = "Other sheets"
)

// titlePage says what this is, at a glance.
func (b *book) titlePage() {
	b.newPage()
	b.y += 4 * grid
	b.set(measure{right: b.width(), h: 3 * grid}, b.faces().spare(span{text: b.season.Title, style: style{face: bold, size: 26}})...)
	if dates := b.dates(); dates != "" {
		b.set(measure{right: b.width(), h: 2 * grid}, span{text: dates, style: style{size: 13, ink: grey}})
	}
	b.set(measure{right: b.width()}, span{text: strings.Join([]string{saying.Count(b.season.Tally.Outings, "outing"),
		saying.Count(b.season.Tally.Sheets, "sheet")}, ", "), style: style{size: bodySize, ink: grey}})
	b.space(2 * grid)
	for _, c := range b.season.Cautions {
		b.set(measure{right: 320}, span{text: c, style: style{face: italic, size: bodySize}})
		b.space(grid)
	}
	b.place()
}

// dates is the span of the season: "2026-11-07 – 2026-12-01".
func (b *book) dates() string {
	first, last := "", b.season.LastDay
	for _, o := range b.season.Outings {
		if o.ISO != "" && (first == "" || o.ISO < first) {
			first = o.ISO
		}
		last = max(last, o.ISO)
	}
	if first == "" || first == last {
		return last
	}
	return first + " – " + last
}

// pair sets a label and a value beside it.
func (b *book) pair(name, value string, at float64) {
	b.set(measure{left: at, first: -at, right: b.width()},
		span{text: name, style: label}, span{text: value, style: plain, tab: at})
}

// tallyRows says the season in numbers, leaving out what is none.
func tallyRows(t *record.Tally) [][2]string {
	lines := saying.Counted([]int{t.LogLines, t.ProseLines, t.UnreadLines}, "of the log", "of prose", "not understood")
	return [][2]string{
		{"outings", strconv.Itoa(t.Outings)},
		{"sheets", saying.Sheets(&t.Counts)},
		{"developed", strconv.Itoa(t.Developed)},
		{"scanned", strconv.Itoa(t.Scanned)},
		{"findings", orNone(saying.Findings(t))},
		{"lines", saying.Join(": ", strconv.Itoa(t.AllLines), lines)},
	}
}

// orNone says none rather than nothing.
func orNone(s string) string {
	if s == "" {
		return "none"
	}
	return s
}

// notebooks lists what was read with its digests, so that the book can be
// matched with the files it was made from.
func (b *book) notebooks() {
	for _, n := range b.season.Files() {
		first := len(b.lines)
		b.set(measure{right: b.width()}, span{text: n.Path, style: style{size: smallSize}},
			span{text: fmt.Sprintf("   %d lines, %d bytes", n.Lines, n.Bytes), style: label})
		b.set(measure{right: b.width()}, span{text: "SHA-256 " + n.SHA256, style: style{face: mono, size: 6.5, ink: grey}})
		b.keepFrom(first)
		b.lines[len(b.lines)-1].keep = false
	}
}

// contents lists the sections below the title, page numbers first, where the eye finds
// them. What has no room there, and has on a page of its own, is not parted.
func (b *book) contents() {
	b.head = "Contents"
	b.space(grid)
	b.set(measure{right: b.width(), h: 2 * grid}, span{text: "Contents", style: style{face: bold, size: 18}})
	b.keepFrom(0)
	sections := b.listSections()
	between, apart := map[int]bool{}, map[int]bool{} // lines of white: of single sections, of those with a list
	for i, s := range sections {
		if !s.inner {
			b.space(grid)
			listed := i == 0 || sections[i-1].inner || i+1 < len(sections) && sections[i+1].inner
			between[len(b.lines)-1], apart[len(b.lines)-1] = !listed, i > 0
		}
		b.contentsLine(s)
	}
	if !b.tighten(between) && !b.tighten(apart) && b.form.top+height(b.lines) <= b.bottom()+slack {
		b.openPage("Contents") // which has room for all of them
	}
	b.place()
}

// tighten takes white out where the lines have room on this page only without it: a few
// of them alone overleaf would be missed. It reports whether they have room.
func (b *book) tighten(white map[int]bool) bool {
	room, spare := b.bottom()-b.y+slack-height(b.lines), 0.0
	for i := range white {
		if white[i] {
			spare += b.lines[i].h
		}
	}
	if room >= 0 || room+spare < 0 {
		return room >= 0
	}
	kept := b.lines[:0]
	for i, l := range b.lines {
		if !white[i] {
			kept = append(kept, l)
		}
	}
	b.lines = kept
	return true
}

// contentsLine leads with the page number: at the far right it would need dots
// to be followed.
func (b *book) contentsLine(s section) {
	room := b.numberRoom(bodySize)
	left := room + 18
	look := strong
	if s.inner {
		look = plain
	}
	title := b.faces().spare(span{text: s.title, style: look, tab: left, to: target{mark: s.mark}})[0]
	b.set(measure{left: left, first: -left, right: b.width()},
		span{page: s.mark, style: style{size: bodySize}}, title,
		span{text: lead(saying.Given(s.aside)), style: aside})
	// The numbers stand flush right in their room.
	for i := b.lines[len(b.lines)-1].from; i >= 0; i-- {
		if p := &b.pieces[i]; p.page != nil {
			p.right = true
			break
		}
	}
}

// listSections says what the book holds, in order; the parts that follow mark
// their pages under the same keys.
func (b *book) listSections() []section {
	s := b.season
	var out []section
	add := func(part, title, aside string) {
		if b.has(part) {
			out = append(out, section{title: title, aside: aside, mark: b.markOf(title)})
		}
	}
	add("summary", summaryTitle, "")
	add("findings", findingsTitle, saying.Count(len(s.Findings), "finding"))
	add("unchecked", uncheckedTitle, "")
	add("develop", developTitle, "")
	out = append(out, b.listOutings()...)
	add("scenes", scenesTitle, saying.Count(len(b.besideScenes()), "scene"))
	add("holders", holdersTitle, saying.Count(len(s.Holders), "side"))
	add("negatives", negativesTitle, "")
	add("losses", lossesTitle, "")
	add("years", yearsTitle, "")
	add("kit", kitTitle, saying.Count(len(s.Kit), "item"))
	add("tests", testsTitle, saying.Count(len(s.Tests), "test"))
	add("contacts", contactsTitle, "")
	add("scans", scansTitle, saying.Count(len(s.Scans), "file"))
	if b.has("indexes") {
		add("indexes", indexesTitle, "")
		for _, x := range s.Indexes {
			out = append(out, section{title: x.Title, mark: b.markOf(x), inner: true})
		}
	}
	return append(out, section{title: colophonTitle, mark: b.markOf(colophonTitle)})
}

// listOutings lists the chapters.
func (b *book) listOutings() (out []section) {
	s := b.season
	if !b.has("outings") {
		return nil
	}
	for i, o := range s.Outings {
		if isPapers(o) {
			continue
		}
		if len(out) == 0 {
			out = append(out, section{title: outingsTitle, mark: b.markOf(s.Outings[i])})
		}
		out = append(out, section{title: o.Title, aside: outingAside(o), mark: b.markOf(o), inner: true})
	}
	if len(b.loose()) > 0 {
		out = append(out, section{title: looseTitle, mark: b.markOf(looseTitle), inner: true})
	}
	for _, o := range s.Outings {
		if isPapers(o) {
			out = append(out, section{title: o.Title, mark: b.markOf(o)})
		}
	}
	return out
}

// besideTitle is the date of an outing, where its title has not said it.
func besideTitle(o *record.Outing) string {
	if strings.Contains(o.Title, o.Day()) || strings.Contains(o.Title, o.Date) {
		return ""
	}
	return o.Day()
}

// outingAside gives date and size of an outing, the date not twice.
func outingAside(o *record.Outing) string {
	return saying.Join(" · ", besideTitle(o), saying.Count(record.Sheets(o.Sheets), "sheet"))
}

// title sets the title of a chapter, with room below.
func (b *book) title(title, below string) {
	first := len(b.lines)
	b.set(measure{right: b.width(), h: 2 * grid}, b.faces().spare(span{text: title, style: style{face: bold, size: 18}})...)
	if below != "" {
		b.set(measure{right: b.width()}, b.faces().spare(span{text: below, style: style{size: bodySize, ink: grey}})...)
	}
	b.space(grid)
	b.keepFrom(first)
}

// subtitle sets a heading within a section; it stays with what follows. It
// returns the number of its line.
func (b *book) subtitle(title string) int {
	b.space(grid)
	first := len(b.lines)
	b.set(measure{right: b.width()}, b.faces().spare(span{text: title, style: style{face: bold, size: 10.5}})...)
	b.keepFrom(first)
	return first
}

// begin opens a section on its own page, with its mark and bookmark.
func (b *book) begin(key any, title, below string, level int) {
	b.openPage(title)
	first := len(b.lines)
	b.title(title, below)
	b.lines[first].mark = b.markOf(key)
	b.lines[first].outline = &outline{title: title, level: level}
}

// shortest is how much of a page a section needs that does not begin a new one.
const shortest = 12 * grid

// beginBelow opens a section: where there is room below the one before, else on its own
// page.
func (b *book) beginBelow(title, below string) {
	b.beginWhere(b.bottom()-shortest, title, title, below, 0)
}

// beginWhere opens a section below the one before where that ends above last, in points
// from the paper's top, else on its own page.
func (b *book) beginWhere(last float64, key any, title, below string, level int) {
	if b.atTop() || b.page < 2 || b.y > last {
		b.begin(key, title, below, level)
		return
	}
	b.space(2 * grid)
	first := len(b.lines)
	b.title(title, below)
	b.lines[first].mark = b.markOf(key)
	b.lines[first].outline = &outline{title: title, level: level}
	b.head = title
}
