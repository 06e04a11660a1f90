package compile

import (
	"cmp"
	"slices"
	"strings"

	"notchbook/lang"
	"notchbook/lang/source"
)

// The part of resolve that keeps, for every side of a holder, what the notes say
// happened to it, in their order. What follows from it is said in holders.go.

// side is one side of a holder, or another thing that is loaded with film.
type side struct {
	label         string // as first written
	of            string // the drawer that it is from, "" where there is one
	format, notch string
	events        []*sideEvent
	stands        standing // holders
}

// sideEvent is one thing that happened to a side.
type sideEvent struct {
	kind  sideKind
	maybe bool   // doubted by the writer
	twice bool   // exposed, and reported, though a sheet was exposed in it before
	word  string // of stated: "empty", "loaded"
	film  string // of loaded
	sheet *sheet // of exposed and developed
	date  string
	at    source.Span
	st    *lang.Statement
	open  *open // the line leaves open which of some sides it means
}

type sideKind uint8

const (
	sideLoaded sideKind = iota
	sideExposed
	sideDeveloped
	sideStated
)

// open is a line that means one of some sides: 1A or 2B.
type open struct {
	sides []*side // that may still be meant
	what  string  // the labels, as they are said
}

func (r *resolver) sideOf(label string) *side { return r.sideIn(r.drawer, label) }

func (r *resolver) sideIn(d *drawer, label string) *side {
	key := strings.ToLower(label)
	s := d.sides[key]
	if s == nil {
		s = &side{label: label, of: d.of}
		d.sides[key] = s
		r.season.sides = append(r.season.sides, s)
	}
	return s
}

// happens adds an event of the line st to the side of each label. Where the line
// leaves open which is meant, each only may have had it.
func (r *resolver) happens(st *lang.Statement, labels []lang.Label, e sideEvent) {
	e.st = st
	if st.Either && len(labels) > 1 {
		e.open = r.opened(labels)
	}
	each := make([]sideEvent, len(labels))
	for i, l := range labels {
		each[i] = e
		each[i].at = l.Span
		s := r.sideOf(l.Text)
		s.events = append(s.events, &each[i])
	}
}

func (r *resolver) opened(labels []lang.Label) *open {
	o := &open{what: orLabels(labels)}
	for _, l := range labels {
		o.sides = append(o.sides, r.sideOf(l.Text))
	}
	return o
}

// orLabels is "1A or 2B".
func orLabels(labels []lang.Label) string {
	var all []string
	for _, l := range labels {
		all = append(all, l.Text)
	}
	return strings.Join(all, " or ")
}

// today is the date of the outing in which a line stands.
func (r *resolver) today() string {
	if r.outing == nil {
		return ""
	}
	return cmp.Or(r.outing.iso, r.outing.date)
}

// wasExposed notes a sheet at the side that it was exposed in.
func (r *resolver) wasExposed(sh *sheet, st *lang.Statement, labels []lang.Label) {
	r.happens(st, labels, sideEvent{kind: sideExposed, sheet: sh, date: r.today(), twice: sh.first != nil && !sh.onPurpose()})
}

// wasDeveloped notes a development at the sides of its sheets.
func (r *resolver) wasDeveloped(st *lang.Statement, d done, of map[lang.Label]*sheet) {
	var labels []lang.Label
	for _, l := range r.meant(st) {
		if of[l] != nil {
			labels = append(labels, l)
		}
	}
	if d.maybe {
		o := r.opened(labels)
		for _, l := range labels {
			r.develops(l, d, of[l], o)
		}
		return
	}
	for _, l := range labels {
		r.develops(l, d, of[l], nil)
	}
}

func (r *resolver) develops(l lang.Label, d done, sh *sheet, o *open) {
	s := r.sideIn(sh.outing.book.drawer, sh.label)
	s.events = append(s.events, &sideEvent{kind: sideDeveloped, sheet: sh, date: d.day(), at: l.Span, st: d.st, open: o})
}

// holder is what a holder line states: its size, its notches, and what is in it.
// A holder's number means both of its sides.
func (r *resolver) holder(st *lang.Statement) {
	for _, l := range st.Labels {
		for _, label := range r.bothSides(l) {
			r.states(st, label)
		}
	}
}

func (r *resolver) bothSides(l lang.Label) []lang.Label {
	if !isNumber(l.Text) || r.drawer.sides[strings.ToLower(l.Text)] != nil {
		return []lang.Label{l}
	}
	return r.sidesOfHolder(l)
}

func isNumber(label string) bool {
	return strings.Trim(strings.TrimPrefix(label, "#"), "0123456789") == ""
}

// sidesOfHolder are the two sides of a holder that is called by its number, in the letters of the
// season's first sheet that was in one: 3a.
func (r *resolver) sidesOfHolder(l lang.Label) []lang.Label {
	if r.letters == "" {
		r.letters = "AB"
		if label := r.firstSide(); label != "" && label[len(label)-1] >= 'a' {
			r.letters = "ab"
		}
	}
	number := strings.TrimPrefix(l.Text, "#")
	return []lang.Label{{Text: number + r.letters[:1], Span: l.Span}, {Text: number + r.letters[1:], Span: l.Span}}
}

// firstSide is the label of the season's first sheet line that is a holder's side, "" for none.
func (s *season) firstSide() string {
	for _, b := range s.books {
		for _, st := range b.Statements {
			if st.Word == lang.Sheet && len(st.Labels) > 0 && isSide(st.Labels[0].Text) {
				return st.Labels[0].Text
			}
		}
	}
	return ""
}

// sidesOf is what a load line fills: load 1-3 are the sides of three holders where
// sheets are logged as 1A and none as 1.
func (r *resolver) sidesOf(labels []lang.Label) []lang.Label {
	if !slices.ContainsFunc(labels, func(l lang.Label) bool { return isNumber(l.Text) }) {
		return labels
	}
	if r.logged == nil {
		r.logged = r.sheetLabels()
	}
	var all []lang.Label
	for _, l := range labels {
		sides := r.sidesOfHolder(l)
		holder := isNumber(l.Text) && !r.logged[strings.ToLower(l.Text)] &&
			slices.ContainsFunc(sides, func(side lang.Label) bool { return r.logged[strings.ToLower(side.Text)] })
		if !holder {
			sides = []lang.Label{l}
		}
		all = append(all, sides...)
	}
	return all
}

// sheetLabels are the labels of all sheet lines of the season, in lower case.
func (s *season) sheetLabels() map[string]bool {
	all := map[string]bool{}
	for _, b := range s.books {
		for _, st := range b.Statements {
			if st.Word != lang.Sheet {
				continue
			}
			for _, l := range st.Labels {
				all[strings.ToLower(l.Text)] = true
			}
		}
	}
	return all
}

// states takes the terms of a holder line for one side.
func (r *resolver) states(st *lang.Statement, l lang.Label) {
	s := r.sideOf(l.Text)
	for i := range st.Terms() {
		t := &st.Terms()[i]
		if t.Struck || t.Unread {
			continue
		}
		switch k := t.Kind.(type) {
		case *lang.Format:
			s.format = k.Text
		case *lang.Notch:
			s.notch = k.Code
		case *lang.State:
			s.events = append(s.events, &sideEvent{kind: sideStated, word: k.Word, date: r.today(), at: t.Span, st: st, maybe: t.Doubtful})
			r.stated(strings.ToLower(l.Text), k.Word, t.Doubtful)
		}
	}
}

// stated is what a holder line changes for the sheets that follow.
func (r *resolver) stated(key, word string, doubt bool) {
	if doubt {
		return
	}
	switch word {
	case "empty":
		delete(r.holders, key)
	case "loaded", "unknown":
		if held := r.holders[key]; held != nil && held.exposed != nil {
			delete(r.holders, key)
		}
	}
}

// emptied reports the words of a load line that put nothing into a side.
func emptied(name string) bool {
	switch strings.ToLower(name) {
	case "empty", "nothing", "none", "unloaded":
		return true
	}
	return false
}

// isPhysical reports whether a side is one that can be loaded again: a holder's,
// or what was ever loaded. Sheets that are only numbered are none.
func (s *side) isPhysical() bool {
	for _, e := range s.events {
		if e.kind == sideLoaded || e.kind == sideStated {
			return true
		}
	}
	return isSide(s.label) || s.format != "" || s.notch != ""
}
