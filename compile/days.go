package compile

import (
	"fmt"
	"slices"
	"strings"

	"notchbook/lang"
	"notchbook/lang/source"
)

// The part of resolve that finds the sheets of a day that a line names before its
// labels: amend 2026-10-18 6B. Such a label is the sheet as find prints it, of that day
// or of none.

// register is what was logged on each day, by the labels that tell the sheets of a day
// apart in their notebook. Few notes ever ask it for one: what is put into it is filed when
// they do.
type register[T any] struct {
	taken  map[bookDay]map[string]bool // labels as typed
	on     bookDay                     // that was asked for last,
	labels map[string]bool             // and its labels

	put     []entered[T] // and not filed yet
	of      map[dayLabel]T
	several map[dayLabel]bool   // labels of a day that sheets of more than one notebook bear
	typed   map[string][]string // the days that each date as typed, in lower case, stands for
	isos    []string            // the days whose date is known, each once
	known   map[string]bool
}

// bookDay is a day of a notebook, or, where in is nil, of any.
type bookDay struct {
	in  *book
	day string
}

// dayLabel is a label, in lower case, on such a day.
type dayLabel struct {
	bookDay
	label string
}

// entered is a thing that was logged on a day.
type entered[T any] struct {
	on    *outing
	shown string
	what  T
}

func newRegister[T any]() *register[T] {
	return &register[T]{taken: map[bookDay]map[string]bool{}, of: map[dayLabel]T{}, several: map[dayLabel]bool{}, typed: map[string][]string{}, known: map[string]bool{}}
}

// on is the day of an outing however its date is typed, where that is whole, else as typed.
func (o *outing) on() string { return strings.ToLower(o.day()) }

// shown is a label as it stands apart from those that its notebook has on the day already:
// 6B'2 is the second 6B. It is taken from then on.
func (g *register[T]) shown(o *outing, label string) string {
	if on := (bookDay{o.book, o.on()}); g.labels == nil || g.on != on {
		if g.taken[on] == nil {
			g.taken[on] = map[string]bool{}
		}
		g.on, g.labels = on, g.taken[on]
	}
	shown := label
	for n := 2; g.labels[shown]; n++ {
		shown = fmt.Sprintf("%s'%d", label, n)
	}
	g.labels[shown] = true
	return shown
}

func (g *register[T]) has(l dayLabel) bool { _, ok := g.of[l]; return ok }

// file files what was put in, for its notebook and for all.
func (g *register[T]) file() {
	for _, l := range g.put {
		day, label := l.on.on(), strings.ToLower(l.shown)
		own, all := dayLabel{bookDay{l.on.book, day}, label}, dayLabel{bookDay{nil, day}, label}
		if g.has(all) && !g.has(own) {
			g.several[all] = true
		}
		g.of[own], g.of[all] = l.what, l.what
		if typed := strings.ToLower(l.on.typed()); !slices.Contains(g.typed[typed], day) {
			g.typed[typed] = append(slices.Clip(g.typed[typed]), day)
		}
		if iso := l.on.iso; iso != "" && !g.known[iso] {
			g.known[iso] = true
			g.isos = append(g.isos, iso)
		}
	}
	g.put = g.put[:0]
}

// find is the sheet that a label with a day means in a notebook: its own, else that of the
// only notebook which has one. Where the day is not whole, or its figures can be read in
// two ways, and more than one of the days fits, none is meant.
func (g *register[T]) find(b *book, l lang.Label) (v T, ok bool) {
	fit := g.days(b, l.Day)
	if len(fit) != 1 {
		return v, false
	}
	label := strings.ToLower(l.Text)
	if v, ok = g.of[dayLabel{bookDay{b, fit[0]}, label}]; !ok && !g.unclear(b, fit[0], label) {
		v, ok = g.of[dayLabel{bookDay{nil, fit[0]}, label}]
	}
	return v, ok
}

// unclear reports whether sheets of several notebooks bear a label of a day, and none of
// this notebook does.
func (g *register[T]) unclear(b *book, day, label string) bool {
	g.file()
	return g.several[dayLabel{bookDay{nil, day}, label}] && !g.has(dayLabel{bookDay{b, day}, label})
}

// days are the days that one before labels may be: as the notebook's own dates are read,
// or as a day line has it.
func (g *register[T]) days(b *book, at source.Span) (fit []string) {
	g.file()
	text := source.Fold(at.Text()).Text
	iso, length, ambiguous := dateIn(b, text)
	typed := g.typed[strings.ToLower(at.Text())]
	switch {
	case iso != "":
		return []string{iso}
	case len(typed) > 0:
		return typed
	case ambiguous:
		asDay, asMonth, _ := lang.Slashed(text)
		return slices.DeleteFunc([]string{asDay, asMonth}, func(iso string) bool { return !slices.Contains(g.isos, iso) })
	}
	day, figures := lang.DayInFigures(text)
	if figures < len(text) {
		if length > 0 {
			return nil
		}
		if day, length = lang.DayOfYear(text); length == 0 {
			return nil
		}
	}
	said := strings.ToLower(lang.Weekday(text))
	return slices.DeleteFunc(slices.Clone(g.isos), func(iso string) bool {
		return !strings.HasSuffix(iso, "-"+day) || said != "" && !lang.IsOn(iso, said)
	})
}

// bearer is the sheet that a label of a line means at this point.
func (r *resolver) bearer(l lang.Label) *sheet {
	if l.Day.File == nil {
		if len(r.eitherOf(l)) > 1 {
			return nil
		}
		return r.named(l.Text)
	}
	sh, ok := r.register.find(r.book, l)
	if numbered := r.bearers[strings.ToLower(l.Text)]; !ok && numbered != nil && slices.Contains(r.register.days(r.book, l.Day), numbered.outing.iso) {
		return numbered
	}
	return sh
}

// eitherOf are the outings that have a sheet of a label, one of a day and notebook, where
// nothing tells which is meant: more than one notebook has it on the day; and in notes of the
// darkroom that stand in a book of their own nobody knows which was logged last before the line.
func (r *resolver) eitherOf(l lang.Label) []*outing {
	label := strings.ToLower(l.Text)
	switch last := r.byLabel[label]; {
	case l.Day.File != nil:
		if fit := r.register.days(r.book, l.Day); len(fit) == 1 && r.register.unclear(r.book, fit[0], label) {
			return r.bearing(label, fit[0])
		}
	case r.bearers[label] != nil || last == nil:
	case !r.book.darkroom:
		if day := last.outing.on(); last.outing.book != r.book && r.register.unclear(r.book, day, label) {
			return r.bearing(label, day)
		}
	default:
		if r.loggedIn == nil { // no sheet is logged from here on
			r.loggedIn = map[string][]*outing{}
			for _, sh := range r.sheets {
				key := strings.ToLower(sh.shown)
				r.loggedIn[key] = withOuting(r.loggedIn[key], sh.outing)
			}
		}
		return r.loggedIn[label]
	}
	return nil
}

// bearing are the outings of a day that have a sheet of a label, one of a notebook.
func (r *resolver) bearing(label, day string) (all []*outing) {
	for _, sh := range r.sheets {
		if sh.outing.on() == day && strings.EqualFold(sh.shown, label) {
			all = withOuting(all, sh.outing)
		}
	}
	return all
}

// withOuting adds an outing where its day in its notebook is not there yet.
func withOuting(all []*outing, o *outing) []*outing {
	one := func(other *outing) bool { return other.book == o.book && other.on() == o.on() }
	if len(all) > 0 && one(all[len(all)-1]) || slices.ContainsFunc(all, one) {
		return all
	}
	return append(all, o)
}

// spoken keeps which sheet a label with a day means.
func (r *resolver) spoken(l lang.Label, sh *sheet) {
	if l.Day.File != nil {
		r.dated[l] = sh
	}
}

// called is a label as a finding names it, with its day.
func called(l lang.Label) string {
	if l.Day.File == nil {
		return l.Text
	}
	return l.Day.Text() + " " + l.Text
}

// whichDay adds to a finding of which days or notebooks a label may be.
func (r *resolver) whichDay(f *finding, labels ...lang.Label) {
	for _, l := range labels {
		if all := r.eitherOf(l); len(all) > 1 {
			var dates, days, books []string
			for _, o := range all {
				if !slices.Contains(books, o.book.name) {
					books = append(books, o.book.name)
				}
				if !slices.Contains(dates, o.on()) {
					dates, days = append(dates, o.on()), append(days, o.day())
				}
			}
			if len(days) > 1 {
				f.Message = l.Text + " is a sheet of " + counted(len(days), "day", "days")
				f.note("of " + strings.Join(days, " or ") + "; write the day before the label: " + days[0] + " " + l.Text)
				return
			}
			f.Message = called(l) + " is a sheet of " + counted(len(books), "notebook", "notebooks")
			f.note("of " + strings.Join(books, " or ") + "; write the line in the notebook of the one that is meant")
			return
		}
		if l.Day.File == nil {
			continue
		}
		if fit := r.register.days(r.book, l.Day); len(fit) > 1 {
			f.note(l.Day.Text() + " may be " + strings.Join(fit, " or ") + "; write the date in full")
			return
		}
	}
}

// wholeFilm is the last exposure on a sheet's film.
func (r *resolver) wholeFilm(sh *sheet) *sheet {
	for _, later := range r.sheets {
		if later.first == sh {
			sh = later
		}
	}
	return sh
}
