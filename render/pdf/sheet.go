package pdf

import (
	"strconv"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/render/draw"
	"notchbook/render/saying"
)

// The entry of a sheet
//
// Two columns on one grid. At the left, what one looks for when leafing: the
// label, the title, the picture. At the right the verdict in words, large, and
// below it what leads there, in the order of the calculation. The columns are
// set apart and then joined line by line, so an entry is a run of lines like
// any other text, and keeping lines together keeps the picture with its words.

const (
	amountRight = 30.0 // beyond b.form.value: where a step's name begins
	heroSize    = 14.0
)

var (
	plain   = style{size: bodySize}
	strong  = style{face: bold, size: bodySize}
	label   = style{size: smallSize, ink: grey}
	aside   = style{size: smallSize, ink: grey}
	typed   = style{face: mono, size: smallSize}
	warning = style{face: bold, size: smallSize, ink: red}
)

// entry sets a sheet and places it.
func (b *book) entry(s *record.Sheet) {
	left, right := b.scratch(0), b.scratch(1)
	b.sheetNames(left, s)
	b.verdict(right, s)
	b.arithmetic(right, s)
	b.facts(left, right, s)
	b.afterwards(right, s)
	b.says(right, s)
	b.airBefore()
	first := len(b.lines)
	together := max(len(left.lines), 4)
	b.beside(left, right)
	b.partColumns(first)
	b.lines[first].rule, b.lines[first].ink = true, faint
	b.lines[first].mark = b.markOf(s)
	b.keepEntry(first, together)
	b.space(grid)
	b.carry, b.carryTo = s.Label+", continued", first
	b.place()
	b.carry = ""
}

// airBefore parts an entry from lines of the log above it, and leaves it bound
// to them: they may be its reading or its heading.
func (b *book) airBefore() {
	if n := len(b.lines); n > 0 && !b.lines[n-1].gap {
		b.space(grid)
		b.lines[n-1].keep, b.lines[n].keep = true, true
	}
}

// scratch gives an empty galley to set a column in.
func (b *book) scratch(i int) *galley {
	g := &b.columns[i]
	g.faces, g.room = b.galley.faces, b.room
	g.reset()
	g.white = 0
	return g
}

// partColumns remembers where the right column of an entry begins on each line.
func (b *book) partColumns(first int) {
	for i := first; i < len(b.lines); i++ {
		l := &b.lines[i]
		at := l.from
		for at < l.to && b.pieces[at].x < b.form.fact-slack {
			at++
		}
		l.apart = at + 1
	}
}

// wholeEntry is how long an entry may be to stay on one page; what is longer may
// go on overleaf after its picture.
func (b *book) wholeEntry() float64 { return 0.75 * (b.bottom() - b.form.top) }

// leastOverleaf is how many lines of an entry go on overleaf, if any do: one or two would
// be missed there, and leave a page for themselves.
const leastOverleaf = 6

// keepEntry keeps a short entry whole, where that leaves no large part of a page empty, and of
// any other what stands beside the left column, and its end.
func (b *book) keepEntry(first, together int) {
	if height(b.lines[first:]) > b.wholeEntry() {
		last := len(b.lines) - 1
		for i := first; i < last; i++ {
			if i < first+together || i > last-leastOverleaf {
				b.lines[i].keep = true
			}
		}
		return
	}
	last := len(b.lines) - 1
	for i := first + together; i <= last-leastOverleaf; i++ {
		b.lines[i].loose = !b.lines[i].keep
	}
	b.keepFrom(first)
	b.lines[last].keep = false
}

// sheetNames sets the left column.
func (b *book) sheetNames(g *galley, s *record.Sheet) {
	m := measure{right: b.form.edge + 4}
	big := m
	big.h = 2 * grid
	g.set(big, span{text: s.Label, style: style{face: bold, size: heroSize}})
	if s.Title != "" {
		g.set(m, span{text: s.Title, style: style{face: italic, size: bodySize}})
	}
	if more := saying.Join(" · ", otherThan(s.ID, s.Label), s.Camera, format(s)); more != "" {
		g.set(m, span{text: more, style: label})
	}
	b.sheetPicture(g, s)
	for _, scan := range s.Scans {
		b.scanName(g, scan, m)
	}
	g.keepFrom(0)
}

// format is the size of the film, where the camera's name does not say it.
func format(s *record.Sheet) string {
	if strings.Contains(s.Camera, s.Format) {
		return ""
	}
	return s.Format
}

// scanName is the path of a scan, linked to the file where there is one.
func (b *book) scanName(g *galley, scan *record.Scan, m measure) {
	name := span{text: scan.Path, style: label}
	if scan.State == record.Present || scan.State == record.Orphan {
		name.to.uri = b.uri(scan.Path)
		if other := saying.OtherBytes(scan); other != "" {
			g.set(m, name, span{text: " " + other, style: warning})
			return
		}
		g.set(m, name)
		return
	}
	look := warning
	if scan.State == record.Missing || scan.State == record.Unreadable {
		look = label // said once, in the findings
	}
	g.set(m, name, span{text: " " + saying.Join(", ", scanWord(scan.State), saying.OtherBytes(scan)), style: look})
}

// scanWord says what is wrong with a scan.
func scanWord(state record.ScanState) string {
	if state == record.Outside {
		return "outside the season's folder"
	}
	return string(state)
}

// verdict sets the difference in words.
func (b *book) verdict(g *galley, s *record.Sheet) {
	look := style{face: bold, size: heroSize}
	switch s.Standing() {
	case record.Off, record.NoImage, record.Doubled:
		look.ink = red
	case record.Unchecked, record.Unexposed:
		look.face, look.ink = regular, grey
	}
	spans := []span{{text: saying.Verdict(s), style: look}}
	if s.Tolerance != "" && s.Difference.Known {
		spans = append(spans, span{text: "   tolerance " + s.Tolerance, style: label})
	}
	g.set(measure{left: b.form.fact, right: b.width(), h: 2 * grid}, spans...)
}

// fact sets a row of the right column; an empty value sets none.
func (b *book) fact(g *galley, name, value string) {
	if value != "" {
		b.factSpans(g, name, span{text: value, style: plain})
	}
}

// factSpans sets a label and, at the tab stop, its values.
func (b *book) factSpans(g *galley, name string, values ...span) {
	values[0].tab = b.form.value
	row := append([]span{{text: name, style: label}}, values...)
	g.set(measure{left: b.form.value, first: b.form.fact - b.form.value, right: b.width()}, row...)
}

// beneath is the narrowest left column that has room for facts, and besideName where
// their values begin in it.
const (
	beneath    = 112.0
	besideName = 44.0
)

// facts sets what was in the camera and what became of the sheet: below the picture, where
// the left column has room for it, else at the right.
func (b *book) facts(left, right *galley, s *record.Sheet) {
	set := func(name, value string) {
		if value != "" {
			left.set(measure{left: besideName, first: -besideName, right: b.form.edge + 4},
				span{text: name, style: label}, span{text: value, style: style{size: smallSize}, tab: besideName})
		}
	}
	if b.form.edge < beneath {
		set = func(name, value string) { b.fact(right, name, value) }
	}
	film := s.Film
	if s.EI.Known {
		film = saying.Join(", ", film, "EI "+saying.Number(s.EI.Value))
	}
	set("film", film)
	set("lens", s.Lens)
	set("filter", strings.Join(s.Filters, " + "))
	set("extension", s.Extension)
	set("movements", strings.Join(s.Movements, ", "))
	for _, f := range s.Sharpness {
		b.fact(right, "sharpness", f.Name+": "+f.Value)
	}
	b.fact(right, "to develop", s.Development)
	for _, d := range s.Developed {
		b.factSpans(right, "developed", span{text: d.Text, style: plain}, span{text: lead(saying.Given(d.Day(), maybe(d))), style: aside})
	}
	set("number", otherThan(s.Number, s.ID))
	set("sleeve", s.Sleeve)
	set("lost to", s.Lost)
}

// arithmetic sets the way from the reading to the difference: as a ladder and a
// strip of zones with notes beside their rows, and as text what has no room there.
func (b *book) arithmetic(g *galley, s *record.Sheet) {
	told := b.ladder(g, s)
	seen := b.zones(g, s)
	if r := s.Reading; r != nil {
		if !told(draw.Read, 0) {
			b.factSpans(g, "reading", span{text: r.Text, style: plain}, span{text: lead(saying.Given(readingHow(r))), style: aside})
		}
		for i := range r.Areas {
			if !seen(draw.Spot, i) {
				b.area(g, &r.Areas[i])
			}
		}
	}
	name := "steps"
	for i := range s.Steps {
		if !told(draw.Stride, i) {
			b.step(g, &s.Steps[i], name)
			name = ""
		}
	}
	if !told(draw.Asked, 0) {
		b.settings(g, "asked", &s.Asked)
	}
	if !told(draw.Given, 0) {
		b.settings(g, "given", &s.Given)
	}
	if s.Difference.Known && !told(draw.Difference, 0) {
		b.factSpans(g, "difference", span{text: saying.Gap(s), style: plain},
			span{text: lead(saying.Given(byClock(s), saying.GapOf(s))), style: aside})
	}
	b.choices(g, s.Choices)
}

// rowTold says whether a row of a drawing stands there with all that is to be
// said of it.
type rowTold func(kind draw.RowKind, at int) bool

// ladder draws the way from the reading to the difference.
func (b *book) ladder(g *galley, s *record.Sheet) rowTold {
	return b.annotated(g, draw.Ladder(s), func(r draw.Row) string {
		switch r.Kind {
		case draw.Read:
			return saying.Join("; ", otherThan(s.Reading.Text, saying.EV(s.Reading.EV)), readingHow(s.Reading))
		case draw.Stride:
			return stepFrom(&s.Steps[r.At])
		case draw.Asked:
			return b.settingsNote(&s.Asked)
		case draw.Given:
			return b.settingsNote(&s.Given)
		case draw.Difference:
			return saying.Join("; ", byClock(s), saying.GapOf(s))
		}
		return ""
	})
}

// settingsNote is what is to be said beside settings on the ladder. Where it has no
// notes beside it, what it shows already is not said again as text.
func (b *book) settingsNote(s *record.Settings) string {
	more := settingsMore(s)
	if len(more) == 1 && s.EV.Known && b.form.fact+draw.LadderWidth*figureScale+noteGap+6*smallSize > b.width() {
		return ""
	}
	return strings.Join(more, "; ")
}

// zones draws where the areas fell.
func (b *book) zones(g *galley, s *record.Sheet) rowTold {
	return b.annotated(g, draw.Zones(s), func(r draw.Row) string {
		if r.Kind == draw.Spot {
			return saying.Read(&s.Reading.Areas[r.At])
		}
		return ""
	})
}

// annotated sets a drawing in the right column with notes beside its rows.
func (b *book) annotated(g *galley, d *draw.Drawing, note func(draw.Row) string) rowTold {
	if d == nil {
		return func(draw.RowKind, int) bool { return false }
	}
	notes := b.notes[:0]
	for _, r := range d.Rows {
		notes = append(notes, note(r))
	}
	b.notes = notes
	told := g.setFigure(d, figureScale, b.form.fact, b.width(), notes)
	return func(kind draw.RowKind, at int) bool {
		for i, t := range told {
			if r := d.Rows[i]; r.Kind == kind && r.At == at {
				return t
			}
		}
		return false
	}
}

// byClock gives the difference that the shutter alone would show.
func byClock(s *record.Sheet) string {
	if !s.ByClock.Known {
		return ""
	}
	return "by the clock " + exposure.OverUnder(s.ByClock.Value)
}

// area says of a metered area what the strip of zones else shows.
func (b *book) area(g *galley, a *record.Area) {
	words := append([]string{saying.Read(a)}, saying.Zones(a)...)
	b.fact(g, " ", saying.Join("  ", a.Name, strings.Join(words, ", ")))
}

// readingHow says how the reading was brought to the film's index, where its text
// does not.
func readingHow(r *record.Reading) string {
	how := r.How
	if strings.Contains(r.Text, how) {
		how = ""
	}
	return saying.Join("; ", otherThan(r.Kind, "plain"), how)
}

// step sets one thing between reading and asked exposure, its amount first.
func (b *book) step(g *galley, s *record.Step, name string) {
	values := []span{
		{text: name, style: label},
		{text: exposure.FormatStops(s.Stops), style: plain, tab: b.form.value},
		{text: stepName(s), style: plain, tab: b.form.value + amountRight},
		{text: lead(saying.Given(stepFrom(s))), style: aside},
	}
	left := b.form.value + amountRight
	g.set(measure{left: left, first: b.form.fact - left, right: b.width()}, values...)
}

// stepFrom says how a step was found and where its figure comes from.
func stepFrom(s *record.Step) string { return saying.Join(" · ", s.Detail, s.From) }

// stepName says what the step is without saying it twice.
func stepName(s *record.Step) string {
	if strings.HasPrefix(s.Name, s.Kind) {
		return s.Name
	}
	return saying.Join(" ", s.Kind, s.Name)
}

// settings sets aperture and time; where both are unknown, nothing.
func (b *book) settings(g *galley, name string, s *record.Settings) {
	pair := saying.Join(", ", s.Time, s.Aperture)
	if pair == "" {
		return
	}
	b.factSpans(g, name, span{text: pair, style: strong}, span{text: lead(settingsMore(s)), style: aside})
}

// settingsMore says of settings what their marks do not.
func settingsMore(s *record.Settings) []string {
	var more []string
	if s.EV.Known {
		more = append(more, exposure.FormatEV(s.EV.Value))
	}
	if s.OnFilm.Known {
		more = append(more, "counts as "+exposure.FormatTime(s.OnFilm.Value)+" on film")
	}
	return append(more, saying.Given(s.Note)...)
}

// lead joins what follows a value, with room before it.
func lead(words []string) string {
	if len(words) == 0 {
		return ""
	}
	return "   " + strings.Join(words, "; ")
}

// choices sets the settings that would have been right, the best first.
func (b *book) choices(g *galley, all []record.Choice) {
	var row []span
	for i, c := range all {
		more := saying.Given(c.Kind)
		if amount := exposure.FormatStops(c.Left); amount != "0" {
			more = append(more, amount+" left")
		}
		pair := saying.Join(", ", c.Time, c.Aperture)
		if i > 0 {
			pair = "   " + pair
		}
		row = append(row, span{text: pair, style: plain}, span{text: " " + strings.Join(more, ", "), style: aside})
	}
	if len(row) > 0 {
		b.factSpans(g, "going back", row...)
	}
}

// afterwards sets what the negative shows and what was made of it.
func (b *book) afterwards(g *galley, s *record.Sheet) {
	b.fact(g, "density", saying.Densities(s))
	for _, r := range s.Results {
		b.fact(g, "result", r.Text)
	}
	for _, p := range s.Prints {
		b.fact(g, "print", p.Text)
	}
	b.twins(g, s)
}

// mostTwins is how many duplicates an entry names; the rest stands side by side.
const mostTwins = 8

// twins names the duplicates with their pages.
func (b *book) twins(g *galley, s *record.Sheet) {
	var refs []span
	for i, t := range s.Twins[:min(len(s.Twins), mostTwins)] {
		if i > 0 {
			refs = append(refs, span{text: "   ", style: label})
		}
		refs = append(refs, b.sheetRef(t, t.Label)...)
	}
	if more := len(s.Twins) - mostTwins; more > 0 {
		refs = append(refs, span{text: "   and " + saying.Count(more, "more sheet") + " of the scene", style: label})
	}
	if len(refs) > 0 {
		b.factSpans(g, "duplicates", refs...)
	}
}

// maybe says that a line leaves open whether it was this sheet.
func maybe(d record.Development) string {
	if d.Maybe {
		return "or another sheet"
	}
	return ""
}

// says sets what was found and what was written, the writer's lines last.
func (b *book) says(g *galley, s *record.Sheet) {
	for _, f := range s.Findings {
		b.factSpans(g, "finding", span{text: string(f.Severity) + "  ", style: severityStyle(f.Severity)},
			span{text: f.Message, style: plain, to: target{mark: b.markOf(f)}})
		for _, note := range f.Notes {
			g.set(measure{left: b.form.value, right: b.width()}, span{text: note, style: aside})
		}
	}
	for _, need := range s.Needs {
		b.fact(g, "would settle", need)
	}
	for _, r := range s.Remarks {
		b.factSpans(g, "remark", span{text: r, style: style{face: italic, size: bodySize}})
	}
	for _, c := range s.History {
		b.change(g, c)
	}
	for i := range s.Lines {
		l := s.Lines[i]
		l.Text = saying.Typed(&l, s)
		b.typedLine(g, &l, b.form.fact, black)
	}
}

// change shows what was written first struck out, as on paper.
func (b *book) change(g *galley, c record.Change) {
	was := plain
	was.struck = true
	values := []span{{text: c.Was, style: was}}
	if c.Now != "" {
		values = append(values, span{text: " → " + c.Now, style: plain})
	}
	values = append(values, span{text: lead(saying.Given(c.How, b.lineOf(c.Place))), style: aside})
	b.factSpans(g, "history", values...)
}

// severityStyle keeps the red for what needs doing.
func severityStyle(s record.Severity) style {
	if s == record.Note {
		return style{face: bold, size: smallSize, ink: grey}
	}
	return warning
}

// lineOf says where a line stands, within a chapter without its notebook: "line 12".
func (b *book) lineOf(p record.Place) string {
	if p.Line > 0 && p.Path == b.path {
		return "line " + strconv.Itoa(p.Line)
	}
	return p.String()
}

// typedLine sets a line as typed behind its number, and where it is not of the
// chapter's notebook behind the notebook's name too.
func (b *book) typedLine(g *galley, l *record.Line, left float64, i ink) {
	const numbers = 24.0
	if l.Place.Line == 0 || l.Place.Path != b.path {
		g.sourceLine(l.Place.String(), l.Text, left, b.width(), i)
		return
	}
	g.set(measure{left: left + numbers, first: -numbers, right: b.width()},
		span{text: strconv.Itoa(l.Place.Line), style: style{size: smallSize, ink: grey}},
		span{text: l.Text, style: style{face: mono, size: smallSize, ink: i}, tab: left + numbers})
}
