package compile

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// gather assumes that all is said. It writes the finished model, in which
// nothing of the notation is left, and hands over the list sorted by place.

type gatherer struct {
	*season
	out     *record.Season
	slugs   slugs
	sheet   map[*sheet]*record.Sheet
	scanOf  map[*scanRef]*record.Scan
	sleeves map[string]string // how each was spelled first
	curves  []foundCurve      // by the tests, in their order
}

func (s *season) gather() (*record.Season, diag.List) {
	g := &gatherer{season: s, out: &record.Season{Public: s.world.Public}, slugs: slugs{}, sheet: map[*sheet]*record.Sheet{}, scanOf: map[*scanRef]*record.Scan{}, sleeves: map[string]string{}}
	s.holders()
	s.ordered()
	g.notebooks()
	g.kit()
	g.sheets()
	g.scans()
	g.outings()
	g.findings()
	g.sidesOf()
	g.toDevelop()
	g.numbering()
	g.twins()
	g.lossesOf()
	g.tests()
	g.byCurve()
	g.compare()
	g.indexes()
	g.tally()
	g.years()
	g.places()
	g.out.Cautions = s.cautions()
	var list diag.List
	for _, f := range s.found {
		list = append(list, f.Diagnostic)
	}
	return g.out, list
}

func (g *gatherer) notebooks() {
	dayed := 0
	for _, b := range g.books {
		g.out.Notebooks = append(g.out.Notebooks, &record.Notebook{
			Path: b.name, SHA256: b.sha256, Bytes: len(b.File.Text), Lines: len(b.Lines), Redacted: b.public.Private, Text: b.File.Text,
			Left: b.public.Left, Doubted: b.public.Doubted, Below: b.public.Below, Unlogged: len(b.Statements) == 0,
		})
		if firstDay(b) != "" {
			dayed++
		}
	}
	for _, name := range sortedKeys(g.curveFiles) {
		text := g.curveFiles[name]
		if g.world.Public && bytes.Contains(bytes.ToLower(text), []byte("private:")) {
			continue // remarks of a file that is no notebook are not taken out of it
		}
		sum := sha256.Sum256(text)
		g.out.Curves = append(g.out.Curves, &record.Notebook{
			Path: name, SHA256: hex.EncodeToString(sum[:]), Bytes: len(text), Lines: bytes.Count(text, []byte("\n")), Text: text,
		})
	}
	g.out.Title = g.world.Title
	titles := map[string]bool{} // of which one alone is that of all
	for _, o := range g.season.outings {
		g.out.LastDay = max(g.out.LastDay, o.iso)
		if o.title != "" {
			titles[o.title] = true
		}
	}
	if title := sortedKeys(titles); dayed <= 1 && len(title) == 1 {
		g.out.Title = title[0]
	}
}

// placeOf is a span in lines and columns.
func placeOf(at source.Span) record.Place {
	if at.File == nil {
		return record.Place{}
	}
	from, to := at.File.Position(at.Start), at.File.Position(at.End)
	return record.Place{Path: at.File.Name, Line: from.Line, Column: from.Column, EndLine: to.Line, EndColumn: to.Column}
}

func lineOf(st *lang.Statement) record.Line {
	return record.Line{Word: string(st.Word), Text: st.Span.File.Line(st.Span.Start).Text(), Place: placeOf(st.Span)}
}

func (g *gatherer) kit() {
	for _, c := range all(g.season, func(k *kit) []*camera { return k.cameras }) {
		g.item("camera", &c.declared, fact("format", c.format), fact("back", c.back), fact("extension", span(c.from, c.to, " mm")))
	}
	for _, l := range all(g.season, func(k *kit) []*lens { return k.lenses }) {
		g.item("lens", &l.declared, fact("focal length", mm(l.focal)), fact("apertures", apertures(l)), fact("shutter", speedsText(l.speeds)),
			fact("tested", testedText(l)), fact("image circle", mm(l.circle)), fact("always on", filterNames(l.with)))
	}
	for _, f := range all(g.season, func(k *kit) []*film { return k.films }) {
		g.item("film", &f.declared, fact("box speed", iso(f.iso)), fact("exposure index", eiText(f)), fact("sees", f.class), fact("sensitivity", f.sees.text()),
			fact("reciprocity", f.how), fact("development", timesText(f)),
			fact("developer", strings.Join(f.baths, "; ")), fact("agitation", f.care["agitation"]), fact("capacity", f.care["capacity"]), fact("safelight", f.care["safelight"]))
	}
	for _, f := range all(g.season, func(k *kit) []*filter { return k.filters }) {
		g.item("filter", &f.declared, fact("kind", f.kind()), fact("colour", f.colour), fact("Wratten number", numberText(f.number)), fact("costs", costText(f)), fact("curve", f.passes.text()))
	}
	for _, m := range all(g.season, func(k *kit) []*meter { return k.meters }) {
		g.item("meter", &m.declared, fact("shows", m.shows()), fact("offset", offsetText(m.offset)))
	}
}

// shows is what a meter's light values mean.
func (m *meter) shows() string {
	switch {
	case m.at100:
		return "EV at ISO 100"
	case m.ei != 0:
		return "EV at EI " + trim(m.ei)
	case m.stated:
		return "EV at the index set"
	}
	return ""
}

func offsetText(stops float64) string {
	if stops == 0 {
		return ""
	}
	return exposure.FormatStops(stops)
}

func fact(name, value string) record.Fact { return record.Fact{Name: name, Value: value} }

func (g *gatherer) item(kind string, d *declared, facts ...record.Fact) {
	st := d.at
	facts = append(facts, fact("tested", strings.Join(d.tested, "; ")))
	name := st.Labels[0].Text
	facts = slices.DeleteFunc(facts, func(f record.Fact) bool { return f.Value == "" })
	g.out.Kit = append(g.out.Kit, &record.Item{
		Kind: kind, Name: name, Slug: g.slugs.unique(kind+" "+name, kind), Facts: facts,
		Place: placeOf(st.Span), Source: st.Span.Text(), Tested: d.tested,
	})
}

func mm(v float64) string {
	if v == 0 {
		return ""
	}
	return trim(exposure.Round(v)) + " mm"
}

func span(from, to float64, unit string) string {
	switch {
	case to == 0:
		return ""
	case from == 0:
		return "to " + trim(exposure.Round(to)) + unit
	}
	return trim(exposure.Round(from)) + "–" + trim(exposure.Round(to)) + unit
}

func apertures(l *lens) string {
	var marks []string
	for _, m := range l.marks {
		marks = append(marks, apertureText(m))
	}
	switch {
	case len(marks) == 0:
		return ""
	case len(l.Marks) > 0:
		return strings.Join(marks, ", ")
	case l.Small == 0:
		return "from " + marks[0]
	}
	return marks[0] + " to " + marks[len(marks)-1]
}

func testedText(l *lens) string {
	var all []string
	for _, t := range l.Tested {
		all = append(all, exposure.FormatTime(t.Marked)+" is "+exposure.FormatTime(t.Real))
	}
	return strings.Join(all, ", ")
}

func filterNames(all []lang.Filter) string {
	var names []string
	for _, f := range all {
		names = append(names, f.Name)
	}
	return strings.Join(names, " + ")
}

func iso(v float64) string {
	if v == 0 {
		return ""
	}
	return "ISO " + trim(v)
}

func eiText(f *film) string {
	var all []string
	if f.ei != 0 {
		all = append(all, "EI "+trim(f.ei))
	}
	for _, light := range sortedKeys(f.inLight) {
		all = append(all, light+" EI "+trim(f.inLight[light]))
	}
	for _, n := range sortedKeys(f.inN) {
		all = append(all, nText(n)+" EI "+trim(f.inN[n]))
	}
	return strings.Join(all, ", ")
}

func sortedKeys[K cmp.Ordered, V any](m map[K]V) []K {
	var keys []K
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

func timesText(f *film) string {
	var all []string
	for _, d := range f.times {
		text := nText(d.n) + " " + exposure.FormatTime(d.seconds)
		if d.stated {
			text += " at " + trim(d.celsius) + " °C"
		}
		if len(f.baths) > 1 {
			text += " in " + d.bath
		}
		all = append(all, text)
	}
	return strings.Join(all, ", ")
}

// kind is what a filter is that its name does not tell: P, which is declared as a polarizer.
func (f *filter) kind() string {
	if f.number == "pol" && handbook.NumberOf(f.name) != "pol" {
		return "polarizer"
	}
	return ""
}

func numberText(number string) string {
	if number == "pol" {
		return ""
	}
	return number
}

func costText(f *filter) string {
	var all []string
	if f.stops != nil {
		all = append(all, f.stops.said())
	}
	for _, a := range f.amounts {
		all = append(all, a.as+" "+a.said())
	}
	return strings.Join(all, ", ")
}

// said is a cost in stops and, where it was declared otherwise, as declared.
func (c *cost) said() string {
	if text := exposure.InStops(c.stops); c.detail == text {
		return text
	}
	return exposure.InStops(c.stops) + " (" + c.detail + ")"
}

func (g *gatherer) scans() {
	refs := slices.Clone(g.season.scans)
	slices.SortStableFunc(refs, func(a, b *scanRef) int { return cmp.Compare(order(a), order(b)) })
	for _, ref := range refs {
		scan := &record.Scan{
			Path: ref.path, State: ref.look.State, Why: ref.look.Why, Format: ref.look.Format, Width: ref.look.Width,
			Height: ref.look.Height, Depth: ref.look.Depth, Bytes: ref.look.Bytes, SHA256: ref.look.SHA256, Elsewhere: ref.away,
			Linear: ref.tone.linear, Auto: ref.tone.auto, Settings: ref.tone.settings,
		}
		g.scanOf[ref] = scan
		g.out.Scans = append(g.out.Scans, scan)
		for _, sh := range ref.sheets {
			rs := g.sheet[sh]
			scan.Sheets = append(scan.Sheets, rs)
			rs.Scans = append(rs.Scans, scan)
		}
	}
}

// order puts scans into the order of their first sheets, orphans last.
func order(ref *scanRef) int {
	if len(ref.sheets) == 0 {
		return 1 << 40
	}
	return ref.sheets[0].index
}

// outings come in the order of the notebooks; what has neither day nor sheet,
// such as the kit and the words around it, comes last.
func (g *gatherer) outings() {
	var papers []*outing
	for _, o := range g.season.outings {
		switch {
		case len(o.entries) == 0:
		case o.isPapers():
			papers = append(papers, o)
		default:
			g.outing(o)
			g.out.Tally.Outings++
		}
	}
	for _, o := range papers {
		g.outing(o)
	}
}

// isPapers reports what has neither day nor sheet.
func (o *outing) isPapers() bool { return o.at.File == nil && len(o.sheets) == 0 }

func (g *gatherer) outing(o *outing) {
	out := &record.Outing{Title: title(o), Date: o.date, ISO: o.iso, Place: o.place, Path: o.book.name, Cautions: sunCaution(o.sheets)}
	out.Slug = g.slugs.unique(cmp.Or(o.iso, o.date, strings.TrimSuffix(o.book.name, path.Ext(o.book.name))), "outing")
	g.out.Outings = append(g.out.Outings, out)
	scenes := map[*scene]*record.Scene{}
	for _, sc := range o.scenes {
		rs := &record.Scene{Title: sc.title, Slug: g.slugs.unique(out.Slug+" "+sc.title, "scene"), Light: evenly(sc.light), Outing: out, Line: lineOf(sc.st), Patches: patchesOf(sc.patches), Test: sc.test}
		scenes[sc] = rs
		out.Scenes = append(out.Scenes, rs)
	}
	for _, sh := range o.sheets {
		rs := g.sheet[sh]
		rs.Outing = out
		out.Sheets = append(out.Sheets, rs)
		if sc := scenes[sh.scene]; sc != nil {
			rs.Scene = sc
			sc.Sheets = append(sc.Sheets, rs)
		}
	}
	g.entries(o, out, scenes)
}

func title(o *outing) string {
	switch {
	case o.title != "":
		return o.title
	case o.place != "" && o.date != "":
		return o.day() + ", " + o.place
	case o.date != "":
		return o.day()
	}
	return path.Base(o.book.name)
}

func (g *gatherer) entries(o *outing, out *record.Outing, scenes map[*scene]*record.Scene) {
	p := proseOf(o.book)
	for _, e := range o.entries {
		switch e := e.(type) {
		case ast.Node:
			if unread := g.unread(o.book, p, e); len(unread) > 0 {
				out.Entries = append(out.Entries, unread...)
				continue
			}
			if b, ok := p.block(e); ok {
				out.Entries = append(out.Entries, record.Entry{Prose: &b})
			}
		case *scene:
			out.Entries = append(out.Entries, record.Entry{Scene: scenes[e]})
		case *sheet:
			out.Entries = append(out.Entries, record.Entry{Sheet: g.sheet[e]})
		case *lang.Statement:
			line := lineOf(e)
			out.Entries = append(out.Entries, record.Entry{Line: &line})
		}
	}
}

// unread shows a block that holds a line which was not understood as typed,
// line by line.
func (g *gatherer) unread(b *book, p prose, n ast.Node) []record.Entry {
	first, last, ok := extent(n)
	if !ok {
		return nil
	}
	base := b.File.Mark()
	first, last = first+base, last+base
	var all []record.Entry
	bad := false
	from, _ := slices.BinarySearchFunc(b.Lines, first, func(l lang.Line, at int) int { return cmp.Compare(l.Close-1, at) })
	for i := from; i < len(b.Lines) && b.Lines[i].Start < last; i++ {
		l := b.Lines[i]
		line := &record.Line{Text: string(b.File.Text[l.Start:l.BodyEnd]), Place: placeOf(source.Span{File: b.File, Start: l.Body, End: l.BodyEnd})}
		if l.Kind == lang.Unread {
			bad = true
			all = append(all, record.Entry{Unread: line})
		} else if l.Kind != lang.Blank {
			text := []record.Inline{{Kind: record.Words, Text: strings.TrimSpace(line.Text)}}
			all = append(all, record.Entry{Prose: &record.Block{Kind: record.Paragraph, Text: text}})
		}
	}
	if !bad {
		return nil
	}
	return all
}

func (g *gatherer) findings() {
	for i := range g.found {
		f := &g.found[i]
		rule := diag.Lookup(f.Code)
		rf := &record.Finding{
			Code: f.Code, Severity: record.Severity(f.Severity.String()), Title: rule.Title, Message: f.Message, Day: f.Day,
			Place: placeOf(f.Span), Causes: f.causes, Anchor: fmt.Sprintf("finding-%d", i+1),
		}
		rf.Form, rf.OfAll = f.Form()
		for _, at := range f.Also {
			rf.Also = append(rf.Also, placeOf(at))
		}
		for _, n := range f.Notes {
			rf.Notes = append(rf.Notes, asideText(n, f.Span))
		}
		if f.Fix != nil {
			rf.Fix = &record.Fix{Place: placeOf(f.Fix.Span), Text: f.Fix.Text}
			rf.Notes = append(rf.Notes, "write: "+f.Fix.Text)
		}
		if f.Span.File != nil && len(f.Span.File.Text) > 0 {
			line := f.Span.File.Line(f.Span.Start)
			rf.Excerpt = line.Text()
			end := min(f.Span.End, line.End)
			rf.Mark = [2]int{min(f.Span.Start, line.End) - line.Start, max(end, min(f.Span.Start, line.End)) - line.Start}
		}
		for _, sh := range f.sheets {
			if rs := g.sheet[sh]; rs != nil && !slices.Contains(rf.Sheets, rs) {
				rf.Sheets = append(rf.Sheets, rs)
				switch f.Code {
				case "unchecked", "scan-missing", "scan-unreadable": // the sheet's own needs and scans say it
				default:
					rs.Findings = append(rs.Findings, rf)
				}
			}
		}
		g.out.Findings = append(g.out.Findings, rf)
	}
}

func asideText(n diag.Aside, at source.Span) string {
	if n.Span.File == nil {
		return n.Text
	}
	p := n.Span.File.Position(n.Span.Start)
	switch {
	case n.Span.File != at.File:
		return fmt.Sprintf("%s (%s:%d)", n.Text, n.Span.File.Name, p.Line)
	case p.Line != at.File.Position(at.Start).Line:
		return fmt.Sprintf("%s (line %d)", n.Text, p.Line)
	}
	return n.Text
}

func (g *gatherer) tally() {
	t := &g.out.Tally
	outings := t.Outings
	t.Counts = record.CountOf(g.out.Sheets)
	t.Outings = outings
	for _, f := range g.out.Findings {
		switch f.Severity {
		case record.Error:
			t.Errors++
		case record.Warning:
			t.Warnings++
		default:
			t.Notes++
		}
	}
	for _, b := range g.books {
		for _, l := range b.Lines {
			t.AllLines++
			switch l.Kind {
			case lang.Log:
				t.LogLines++
			case lang.Prose:
				t.ProseLines++
			case lang.Unread:
				t.UnreadLines++
			}
		}
	}
}

// cautions are the sentences that the trade puts beside what can hurt.
func (s *season) cautions() (all []string) {
	if len(s.sheets) > 0 {
		all = append(all,
			"Developing: follow the safety data sheet of each chemical, ventilate, wear gloves and eye protection, and dispose of used solutions as local rules say.")
	}
	return append(all, sunCaution(s.sheets)...)
}

// sunCaution is wanted where the sun is in the picture or a dense filter on
// the lens.
func sunCaution(sheets []*sheet) []string {
	for _, sh := range sheets {
		light := strings.ToLower(sh.light)
		sun := strings.Contains(light, "sun in frame") || strings.Contains(light, "sun in the frame") || strings.Contains(light, "into the sun")
		for _, u := range sh.sum.owes {
			sun = sun || u.cost != nil && strings.HasPrefix(u.cost.detail, "density") || isNeutral(u.name)
		}
		if sun {
			return []string{"Sun: never look at the sun through a lens, a filter or a spot meter. Photographic neutral density filters are not solar filters."}
		}
	}
	return nil
}

func isNeutral(name string) bool {
	_, _, ok := neutralStops(name)
	return ok
}
