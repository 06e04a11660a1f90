package compile

import (
	"fmt"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// Explained is the reasoning about one sheet, from the lines as typed to what
// can still be decided, in parts in the order in which one reasons.
type Explained struct {
	Sheet *record.Sheet
	Parts []Part
	Again []Explained // further exposures on the same sheet of film
}

// Part is one stage of the reasoning.
type Part struct {
	Head string
	Rows []Row
}

// Row is one statement, with where it comes from: "kit.md:12", "handbook: ...",
// or "" where it follows from the rows above.
type Row struct{ Text, From string }

// Explain gives the reasoning about every sheet that a name means: an id, which is
// still its own when it has got a number; a negative's number; or a label, which several
// days may have used. There is none where no sheet is called so.
func Explain(world World, name string, names ...string) []Explained {
	s := compiled(world, names)
	season, _ := s.gather()
	var all []Explained
	of := func(i int) Explained {
		e := explaining{season: s, sh: s.sheets[i], rs: season.Sheets[i]}
		return Explained{Sheet: e.rs, Parts: e.parts()}
	}
	told := map[*sheet]bool{} // with an exposure before it
	for _, i := range s.called(name) {
		if told[s.sheets[i]] {
			continue
		}
		one, film := of(i), map[*sheet]bool{s.sheets[i]: true}
		for j := i + 1; j < len(s.sheets); j++ {
			if later := s.sheets[j]; later.first != nil && film[later.first] {
				one.Again, film[later], told[later] = append(one.Again, of(j)), true, true
			}
		}
		all = append(all, one)
	}
	return all
}

// called is the sheets of a name, by their places in the season. An id or a
// number means one sheet and goes before a label; capitals count only where
// nothing is spelled just so.
func (s *season) called(name string) []int {
	name = strings.Join(strings.Fields(name), " ")
	number, whole := strings.TrimPrefix(bareNumber(name), "#"), wholeDay(name)
	means := func(same func(a, b string) bool) []int {
		var exact, labelled []int
		for i, sh := range s.sheets {
			switch {
			case same(sh.id, name), same(sh.entered(), whole(sh.outing.book)), same(sh.dayLabel(), whole(sh.outing.book)), same(strings.TrimPrefix(sh.id, "#"), number):
				exact = append(exact, i)
			case same(sh.label, name), same(sh.shown, name):
				labelled = append(labelled, i)
			}
		}
		if len(exact) > 0 {
			return exact
		}
		return labelled
	}
	if all := means(func(a, b string) bool { return a == b }); len(all) == 1 {
		return all
	}
	return means(strings.EqualFold)
}

// wholeDay gives a name with the day that it begins with as YYYY-MM-DD, as a notebook has
// it: whoever asks for a sheet need not write its day as the notes do.
func wholeDay(name string) func(*book) string {
	known := map[*book]string{}
	return func(b *book) string {
		as, ok := known[b]
		if !ok {
			as = name
			if iso, length, _ := dateIn(b, name); iso != "" {
				as = iso + " " + strings.TrimLeft(name[length:], " ,")
			}
			known[b] = as
		}
		return as
	}
}

// bareNumber is a name without the word that says that it is a negative's number.
func bareNumber(name string) string {
	word, number, ok := strings.Cut(name, " ")
	if ok && slices.Contains([]string{"neg", "negative", "no"}, strings.ToLower(strings.TrimSuffix(word, "."))) {
		return number
	}
	return name
}

// explaining is one sheet's reasoning in the making.
type explaining struct {
	*season
	sh    *sheet
	rs    *record.Sheet
	stage []Part
}

func (e *explaining) parts() []Part {
	e.lines()
	e.things()
	e.read()
	e.asked()
	e.gave()
	e.verdict()
	e.sharpness()
	e.otherwise()
	e.unknown()
	e.development()
	e.negative()
	return slices.DeleteFunc(e.stage, func(p Part) bool { return len(p.Rows) == 0 })
}

func (e *explaining) part(head string) { e.stage = append(e.stage, Part{Head: head}) }

func (e *explaining) row(from, format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	last := &e.stage[len(e.stage)-1]
	last.Rows = append(last.Rows, Row{text, from})
}

func (e *explaining) lines() {
	e.part("as typed")
	for _, l := range e.rs.Lines {
		e.row(lineAt(l.Place), "%s", strings.TrimSpace(l.Text))
	}
	for _, c := range e.rs.History {
		text := c.How + ": " + c.Was
		if c.Now != "" {
			text += " became " + c.Now
		}
		e.row(lineAt(c.Place), "%s", text)
	}
}

func lineAt(p record.Place) string { return fmt.Sprintf("%s:%d", p.Path, p.Line) }

// things is what was used, each with the line that declares it.
func (e *explaining) things() {
	e.part("used")
	if f := e.filmOf(e.sh); f != nil && f.at != nil {
		e.row(place(f.at.Span), "film %s, as declared: %s", f.name, strings.TrimSpace(f.at.Body.Text()))
		if e.sh.sole.film && e.sh.film.at.File == nil {
			e.taken("film", f.name)
		}
	} else if e.rs.Film != "" {
		e.row("", "film %s, which is not declared", e.rs.Film)
	}
	if e.rs.EI.Known {
		e.row(e.ratedBy(), "exposed at EI %s", trim(e.rs.EI.Value))
	}
	if l := e.sh.lens; l.known && l.v.at != nil {
		e.row(place(l.v.at.Span), "lens %s, as declared: %s", l.v.name, strings.TrimSpace(l.v.at.Body.Text()))
		if e.sh.sole.lens && l.at.File == nil {
			e.taken("lens", l.v.name)
		}
	} else if l.known {
		e.row("", "lens %s, which is not declared", l.v.name)
	}
	if e.sh.light != "" {
		e.row("", "light: %s", e.sh.light)
	}
}

// taken says of a film or a lens that no line names it.
func (e *explaining) taken(what, name string) {
	e.row("", "no line names a %s, and %s is the only one declared: it was taken", what, name)
}

// ratedBy is where the sheet's exposure index stands.
func (e *explaining) ratedBy() string {
	if e.sh.ei.known {
		return place(e.sh.ei.at)
	}
	if f := e.filmOf(e.sh); f != nil && f.at != nil {
		return place(f.at.Span)
	}
	return ""
}

// read is the reading and how it became the exposure asked of the film before
// anything stood in the way.
func (e *explaining) read() {
	e.part("read")
	rd, rs := e.sh.reading, e.rs.Reading
	if rd == nil || rs == nil {
		return
	}
	e.row(place(rd.at), "%s", rs.Text)
	for _, a := range rs.Areas {
		text := strings.TrimSpace(a.Name + " " + a.Read)
		if a.Brought != "" {
			text += " (" + a.Brought + ")"
		}
		if a.Meant.Known {
			text += ", placed on " + exposure.Roman(a.Meant.Value)
		}
		if a.Fell.Known && e.rs.State != record.NoImage {
			text += ", with the settings given on " + exposure.Roman(a.Fell.Value)
		}
		e.row("", "%s", text)
	}
	if rs.How != "" {
		e.row(place(rd.eiAt), "%s", rs.How)
	}
	if e.sh.sum.hasBase {
		e.row("", "the reading asks for %s at the film's index", exposure.FormatEV(e.sh.sum.base))
	}
}

// asked is the reading less each step.
func (e *explaining) asked() {
	e.part("asked")
	for _, step := range e.rs.Steps {
		text := step.Name + " " + exposure.FormatStops(-step.Stops)
		if step.Detail != "" {
			text += ": " + step.Detail
		}
		e.row(step.From, "%s", text)
	}
	a := e.rs.Asked
	if !a.EV.Known {
		return
	}
	e.row("", "%s", exposure.FormatEV(a.EV.Value))
	if a.Seconds.Known {
		text := fmt.Sprintf("at %s that is %s", a.Aperture, a.Time)
		if a.OnFilm.Known {
			text += fmt.Sprintf(" by the clock, for %s on film (%s)", exposure.FormatTime(a.OnFilm.Value), e.ruleText())
		}
		e.row(e.ruleFrom(a), "%s", text)
	}
}

// ruleText and ruleFrom are the reciprocity rule in words, and its line.
func (e *explaining) ruleText() string {
	if f := e.filmOf(e.sh); f != nil && f.how != "" {
		return "reciprocity " + f.how
	}
	return "reciprocity"
}

func (e *explaining) ruleFrom(s record.Settings) string {
	if f := e.filmOf(e.sh); f != nil && s.OnFilm.Known && !f.rule.IsZero() {
		return place(f.at.Span)
	}
	return ""
}

func (e *explaining) gave() {
	e.part("given")
	g := e.rs.Given
	if text := strings.TrimSpace(g.Time + " " + g.Aperture); text != "" {
		e.row(place(e.sh.settingsSpan()), "%s", text)
	}
	if g.Note != "" {
		e.row("", "%s", g.Note)
	}
	if !g.EV.Known {
		return
	}
	if g.OnFilm.Known {
		e.row("", "by the clock %s", exposure.FormatEV(exposure.Round(e.sh.sum.clock)))
		e.row(e.ruleFrom(g), "%s by the clock is worth %s on film (%s)", exposure.FormatTime(g.Seconds.Value), exposure.FormatTime(g.OnFilm.Value), e.ruleText())
	}
	e.row("", "on film %s", exposure.FormatEV(g.EV.Value))
}

// allowed says why a sheet is right that is further off than the tolerance.
func (e *explaining) allowed(stops float64) string {
	tol := toleranceOf(e.sh)
	past := max(stops-tol.over, -stops-tol.under)
	switch {
	case e.rs.State != record.Right || past < pastTolerance:
		return ""
	case e.rs.AsOne.Known:
		return "the less if the exposures count as one long one, the more if each counts by itself (common practice differs, no source)"
	case e.sh.tests() != "":
		return "a test is exposed otherwise than asked on purpose"
	case e.sh.sum.habit:
		return "so much more is often given to negative film, and no mistake fits it"
	case past <= margin:
		return "the rounding of marks may add a twelfth of a stop"
	}
	return "the published values of what is before the lens reach so far"
}

// verdict is the difference, what fits, and what else was found.
func (e *explaining) verdict() {
	e.part("difference")
	if d := e.rs.Difference; d.Known {
		e.row("", "%s; the tolerance is %s%s", differenceText(e.rs), e.rs.Tolerance, declaredText(toleranceOf(e.sh).own))
		if why := e.allowed(d.Value); why != "" {
			e.row("", "%s", why)
		}
		if e.rs.ByClock.Known {
			e.row("", "by the clock, without reciprocity: %s", spokenDifference(e.rs.ByClock.Value))
		}
	}
	if e.rs.State == record.Off {
		e.part("why")
		for i, c := range e.sh.sum.causes {
			e.row("notchbook explain "+c.Slug, "%s", [...]string{"fits: ", "or: "}[min(i, 1)]+c.Text)
		}
		if len(e.sh.sum.causes) == 0 {
			e.row("", "no single slip explains this")
		}
	}
	e.part("found besides")
	for _, f := range e.found {
		if f.Code == "exposure-off" && e.rs.State == record.Off || f.Code == "unchecked" || !slices.Contains(f.sheets, e.sh) {
			continue
		}
		text := f.Severity.String() + ": " + f.Message
		for _, n := range f.Notes {
			text += "; " + asideText(n, f.Span)
		}
		e.row(place(f.Span), "%s", text)
	}
}

func declaredText(own bool) string {
	if own {
		return ", as declared"
	}
	return ", since none is declared"
}

// differenceText is a sheet's difference, or how far it may be one.
func differenceText(rs *record.Sheet) string {
	if rs.AsOne.Known {
		return exposure.Between(rs.AsOne.Value, rs.Difference.Value)
	}
	return spokenDifference(rs.Difference.Value)
}

func spokenDifference(stops float64) string {
	if text := exposure.OverUnder(stops); text != "none" {
		return text
	}
	return "no difference"
}

// sharpness is what was asked of depth of field.
func (e *explaining) sharpness() {
	e.part("sharpness")
	for _, f := range e.rs.Sharpness {
		e.row("", "%s: %s", f.Name, f.Value)
	}
}

func (e *explaining) otherwise() {
	e.part("right would have been")
	for _, c := range e.rs.Choices {
		e.row("", "%s %s (%s%s)", c.Time, c.Aperture, c.Kind, leftText(c.Left))
	}
}

func (e *explaining) unknown() {
	e.part("not known")
	for _, need := range e.rs.Needs {
		e.row("", "it would take %s", need)
	}
}

// development is what was asked for and done, and for a sheet that is off and
// has not been in the tray what is left to decide. It is no rescue: what the
// film did not get it does not show.
func (e *explaining) development() {
	e.part("development")
	if e.rs.Development != "" {
		e.row(place(e.sh.wanted.at), "asked: %s", e.rs.Development)
	}
	for _, d := range e.rs.Developed {
		e.row(lineAt(d.Place), "done: %s", d.Text)
	}
	if how := e.rs.ShownDeveloped; how != "" {
		e.row("", "done: nobody wrote when, but it %s", how)
	} else if e.rs.State == record.Off && len(e.rs.Developed) == 0 {
		e.row("", "%s", undecided(e.rs.Difference.Value))
	}
}

// undecided is what development still does (common practice, no source).
func undecided(stops float64) string {
	text := "the notes do not say that it was developed: it is " + exposure.OverUnder(stops) + ", and its development can still be chosen; "
	if stops < 0 {
		return text + "longer development raises the high values and does little for the shadows (common practice, no source)"
	}
	return text + "shorter development lowers the high values and does little to the shadows (common practice, no source)"
}
