package compile

import (
	"cmp"
	"slices"
	"strings"

	"notchbook/compile/record"
	"notchbook/lang/source"
)

// holders assumes that resolve has kept what happened to every side, and that
// check has looked at the scans. It walks each side's events in the order of the
// notes and leaves how the side stands at their end: what is in it, how that is
// known, and whether it may be loaded again. It reports nothing: what contradicts
// was said where it stands. What it cannot know it leaves doubtful.

// standing is how a side stands behind some of its events.
type standing struct {
	state record.HolderState
	film  string
	sheet *sheet
	why   string
	open  *open // the line that leaves it doubtful
	were  *sideEvent
}

func (s *season) holders() {
	s.sides = slices.DeleteFunc(s.sides, func(d *side) bool { return !d.isPhysical() })
	slices.SortStableFunc(s.sides, func(a, b *side) int { return naturally(a.label, b.label) })
	for _, d := range s.sides {
		d.stands = standing{state: record.Unknown, why: "no line says what is in it"}
		for _, e := range d.events {
			d.stands.after(e)
		}
	}
	for _, d := range s.sides {
		s.settle(d)
	}
	for _, d := range s.sides {
		d.stands.seenDeveloped()
	}
}

// after is how a side stands behind one more event.
func (n *standing) after(e *sideEvent) {
	if e.open != nil {
		n.leftOpen(e)
		return
	}
	switch e.kind {
	case sideLoaded:
		n.load(e)
	case sideExposed:
		n.expose(e)
	case sideDeveloped:
		n.develop(e)
	case sideStated:
		n.say(e)
	}
}

func (n *standing) become(state record.HolderState, e *sideEvent, why string) {
	n.state, n.why, n.open, n.were = state, why, nil, e
	if state != record.Exposed && state != record.Spoiled && state != record.Doubtful {
		n.sheet = nil
	}
}

// leftOpen is a line that means this side or another.
func (n *standing) leftOpen(e *sideEvent) {
	if e.kind == sideDeveloped && n.sheet != e.sheet {
		return // a sheet that is no longer in it
	}
	film := n.film
	if e.kind == sideLoaded && film != e.film {
		film = eitherFilm(film, e.film)
	}
	n.become(record.Doubtful, e, e.open.what+" was "+e.what()+", and which is left open")
	n.film, n.open = film, e.open
	if e.kind == sideExposed {
		n.sheet = e.sheet
	}
}

// eitherFilm is a film where two are named.
func eitherFilm(a, b string) string {
	switch {
	case a == "" || strings.EqualFold(a, b):
		return b
	case b == "":
		return a
	}
	return a + " or " + b
}

func (n *standing) load(e *sideEvent) {
	if n.state == record.Loaded && n.were.kind != sideExposed { // what was stated unused is known, and was taken out
		n.become(record.Doubtful, e, "loaded twice and not exposed between")
		n.film = eitherFilm(n.film, e.film)
		return
	}
	n.become(record.Loaded, e, "loaded"+onDay(e.date))
	n.film = e.film
}

func (n *standing) expose(e *sideEvent) {
	sh := e.sheet
	if strings.Contains(n.film, " or ") {
		sh.mixed = n.film
	}
	switch {
	case sh.isUnused() && n.state == record.Exposed:
		n.become(record.Doubtful, e, sh.shown+" is stated unused, and was exposed before")
		return
	case sh.isUnused():
		n.become(record.Loaded, e, "not used"+onDay(e.date))
		n.film = cmp.Or(n.film, filmName(sh))
		return
	case sh.outing.adrift && !sh.wasDeveloped():
		if n.state == record.Exposed || n.state == record.Spoiled {
			return // it is in use anyhow
		}
		n.become(record.Doubtful, e, "exposed on a day without a date, "+strings.TrimRight(sh.outing.at.Text(), ". ")+", and when that was is not known")
	case maybeUnused(sh):
		n.become(record.Doubtful, e, "whether "+sh.shown+" was exposed is in doubt")
	case n.state == record.Empty:
		n.become(record.Doubtful, e, "exposed, though it was "+n.why)
	case n.state == record.Developed && sh.outing.loads:
		n.become(record.Doubtful, e, "exposed, and not loaded since its last sheet was developed")
	case e.twice:
		n.become(record.Doubtful, e, "exposed twice and not loaded between")
	case has(sh.states, "spoiled") || has(sh.states, "fogged"):
		n.become(record.Spoiled, e, "stated "+spoiledHow(sh)+onDay(e.date))
	default:
		n.become(record.Exposed, e, "exposed"+onDay(e.date))
	}
	n.sheet = sh
	n.film = eitherFilm(sh.loadedFilm, filmName(sh))
}

func (n *standing) develop(e *sideEvent) {
	unused := n.state == record.Loaded && n.were != nil && n.were.sheet == e.sheet
	if !unused && (n.sheet == nil || n.sheet != e.sheet && n.sheet.first != e.sheet) {
		return // it was taken out before
	}
	n.become(record.Developed, e, "its sheet was developed"+onDay(e.date))
	n.film = ""
}

// say is what a holder line states.
func (n *standing) say(e *sideEvent) {
	sheet := n.sheet
	switch {
	case e.maybe:
		n.become(record.Doubtful, e, "stated, and doubted: "+e.word+"?")
	case e.word == "empty":
		n.become(record.Empty, e, "stated empty"+onDay(e.date))
		n.film = ""
	case e.word == "loaded":
		n.become(record.Loaded, e, "stated loaded"+onDay(e.date))
	case e.word == "exposed":
		n.become(record.Exposed, e, "stated exposed"+onDay(e.date))
	case e.word == "fogged" || e.word == "spoiled":
		n.become(record.Spoiled, e, "stated "+e.word+onDay(e.date))
	default:
		n.become(record.Unknown, e, "stated unknown"+onDay(e.date))
		n.film, sheet = "", nil
	}
	if n.state == record.Exposed || n.state == record.Spoiled || n.state == record.Doubtful {
		n.sheet = sheet
	}
}

// what an event did, as said behind "was".
func (e *sideEvent) what() string {
	switch e.kind {
	case sideLoaded:
		return "loaded"
	case sideExposed:
		return "exposed"
	case sideDeveloped:
		return "developed"
	}
	return e.word
}

func onDay(date string) string {
	if date == "" {
		return ""
	}
	return " " + date
}

func filmName(sh *sheet) string {
	if sh.film.known {
		return sh.film.v.name
	}
	return sh.loadedFilm
}

// maybeUnused reports a sheet whose line doubts that it was exposed.
func maybeUnused(sh *sheet) bool {
	return slices.ContainsFunc(sh.doubts, func(at source.Span) bool {
		return strings.HasPrefix(strings.ToLower(at.Text()), "un") // unused? unexposed?
	})
}

func spoiledHow(sh *sheet) string {
	if has(sh.states, "fogged") {
		return "fogged"
	}
	return "spoiled"
}

// settle closes a line that meant one of some sides, where all sides but one are
// known by a later event not to be meant.
func (s *season) settle(d *side) {
	o := d.stands.open
	if o == nil {
		return
	}
	left := slices.DeleteFunc(slices.Clone(o.sides), func(other *side) bool { return other.notMeant(o) })
	if len(left) == 1 && left[0] == d {
		d.stands = standing{state: record.Unknown}
		for _, e := range d.events {
			if e.open == o {
				e.open = nil
			}
			d.stands.after(e)
		}
		d.stands.why += ", as it was none of the others"
	}
}

// notMeant reports whether a holder line behind an open line says that it did
// not mean this side.
func (d *side) notMeant(o *open) bool {
	at := slices.IndexFunc(d.events, func(e *sideEvent) bool { return e.open == o })
	if at < 0 {
		return false
	}
	was := map[sideKind][]string{sideLoaded: {"empty"}, sideExposed: {"loaded"}, sideDeveloped: {"exposed"}}[d.events[at].kind]
	for _, e := range d.events[at+1:] {
		if e.kind == sideLoaded {
			return false
		}
		if e.kind == sideStated && !e.maybe && slices.Contains(was, e.word) {
			return true
		}
	}
	return false
}

// seenDeveloped frees a side whose sheet must have been developed, since it was
// scanned, measured or filed.
func (n *standing) seenDeveloped() {
	if n.state != record.Exposed || n.sheet == nil {
		return
	}
	if how := n.sheet.shownDeveloped(); how != "" {
		n.state, n.why, n.sheet, n.film = record.Developed, "its sheet "+how, nil, ""
	}
}

// shownDeveloped is how the notes show that a sheet was developed, though no
// develop line says so; "" where they do not. What is said of one exposure on a
// sheet of film is said of all.
func (sh *sheet) shownDeveloped() string {
	for sh.over != nil {
		sh = sh.over
	}
	for ; sh != nil; sh = sh.first {
		if how := sh.shownDry(); how != "" {
			return how
		}
	}
	return ""
}

// hasNumber is the weakest of what says that a negative is dry.
const hasNumber = "has its number"

// shownDry is what the notes say of the negative that an exposure became.
func (sh *sheet) shownDry() string {
	for _, ref := range sh.scans {
		if ref.look.State == record.Present {
			return "is scanned"
		}
	}
	switch {
	case len(sh.filed.densities) > 0:
		return "was measured"
	case sh.filed.sleeve != "":
		return "is filed"
	case len(sh.filed.prints) > 0:
		return "is printed"
	case sh.number != "" && !sh.ownNumber && !sh.fieldNumber:
		return hasNumber
	}
	return ""
}

// wasDeveloped reports whether a sheet is developed for certain.
func (sh *sheet) wasDeveloped() bool { return sh.isDeveloped() || sh.shownDeveloped() != "" }

// mayLoad is whether a side may be loaded, and why.
func (d *side) mayLoad() (record.Answer, string) {
	n := &d.stands
	switch n.state {
	case record.Empty, record.Developed:
		return record.Yes, n.why
	case record.Loaded:
		return record.No, strings.TrimSpace("it holds unexposed "+cmp.Or(n.film, "film")) + ", " + n.why
	case record.Exposed, record.Spoiled:
		what := "a sheet"
		if n.sheet != nil {
			what = n.sheet.id
		}
		return record.No, what + " is in it, " + n.why + " and not developed"
	}
	return record.NotKnown, n.why + "; a line would settle it" + inThe(d.of) + ": holder " + d.label + ": empty, loaded or exposed"
}

// inThe is where such a line would have to stand.
func inThe(of string) string {
	if of == "" {
		return ""
	}
	return " in " + of
}

// contradictions are the rules by which the check has said that the notes of a
// side do not agree.
var contradictions = []string{"loaded-twice", "exposed-twice", "never-loaded", "film-in-holder", "side-unknown"}

// sidesOf writes the sides into the record.
func (g *gatherer) sidesOf() {
	said := g.contradicted()
	for _, d := range g.season.sides {
		n := &d.stands
		may, why := d.mayLoad()
		out := &record.HolderSide{
			Label: d.label, Of: d.of, Slug: g.slugs.unique("holder "+d.label, "holder"), State: n.state, Why: n.why, Film: n.film,
			Sheet: g.sheet[n.sheet], May: may, Reason: why, Format: d.format, Notch: d.notch,
		}
		for _, e := range d.events {
			out.Events = append(out.Events, g.sideEvent(e))
		}
		out.Conflicts = conflicts(out, said)
		g.out.Holders = append(g.out.Holders, out)
	}
}

func (g *gatherer) sideEvent(e *sideEvent) record.SideEvent {
	out := record.SideEvent{Date: e.date, What: e.said(), Film: e.film, Sheet: g.sheet[e.sheet], Place: placeOf(e.at)}
	if e.kind == sideExposed {
		out.Film = filmName(e.sheet)
	}
	return out
}

// said is what happened, as the record says it.
func (e *sideEvent) said() string {
	what := e.what()
	if e.kind == sideExposed {
		switch sh := e.sheet; {
		case sh.isUnused():
			what = "unused"
		case has(sh.states, "fogged") || has(sh.states, "spoiled"):
			what = spoiledHow(sh)
		case sh.first != nil:
			what = "exposed again"
		}
	}
	switch {
	case e.open != nil:
		return "may be " + what
	case e.maybe:
		return what + "?"
	}
	return what
}

// contradicted is the findings of contradictions by the line that they stand in.
func (g *gatherer) contradicted() map[lineKey][]*record.Finding {
	all := map[lineKey][]*record.Finding{}
	for _, f := range g.out.Findings {
		if slices.Contains(contradictions, f.Code) {
			key := lineKey{f.Place.Path, f.Place.Line}
			all[key] = append(all[key], f)
		}
	}
	return all
}

type lineKey struct {
	path string
	line int
}

// conflicts is what of it is about one side.
func conflicts(out *record.HolderSide, said map[lineKey][]*record.Finding) []*record.Finding {
	var all []*record.Finding
	for _, e := range out.Events {
		for _, f := range said[lineKey{e.Place.Path, e.Place.Line}] {
			ours := f.Code == "side-unknown" || strings.HasPrefix(f.Message, out.Label+" ") || e.Sheet != nil && slices.Contains(f.Sheets, e.Sheet)
			if ours && !slices.Contains(all, f) {
				all = append(all, f)
			}
		}
	}
	return all
}
