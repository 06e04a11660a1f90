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
// apart. Few notes ever ask it for one: what is put into it is filed when they do.
type register[T any] struct {
	taken  map[string]map[string]bool // labels by day
	day    string                     // that was asked for last,
	labels map[string]bool            // and its labels

	put   []entered[T]   // and not filed yet
	of    map[dayLabel]T // both in lower case
	isos  []string       // the days whose date is known, each once
	known map[string]bool
}

// dayLabel is a label on a day.
type dayLabel struct{ day, label string }

// entered is a thing that was logged on a day.
type entered[T any] struct {
	on    *outing
	shown string
	what  T
}

func newRegister[T any]() *register[T] {
	return &register[T]{taken: map[string]map[string]bool{}, of: map[dayLabel]T{}, known: map[string]bool{}}
}

// on is the labels that a day has already.
func (g *register[T]) on(o *outing) map[string]bool {
	if day := o.day(); g.labels == nil || g.day != day {
		if g.taken[day] == nil {
			g.taken[day] = map[string]bool{}
		}
		g.day, g.labels = day, g.taken[day]
	}
	return g.labels
}

// shown is a label as it stands apart from those that the day has already: 6B'2 is the
// second 6B. It is taken from then on.
func (g *register[T]) shown(o *outing, label string) string {
	shown, labels := label, g.on(o)
	for n := 2; labels[shown]; n++ {
		shown = fmt.Sprintf("%s'%d", label, n)
	}
	labels[shown] = true
	return shown
}

// file files what was put in by its day as typed, and by its date where no other has that.
func (g *register[T]) file() {
	for _, l := range g.put {
		day, shown := strings.ToLower(l.on.day()), strings.ToLower(l.shown)
		g.of[dayLabel{day, shown}] = l.what
		iso := l.on.iso
		if iso == "" {
			continue
		}
		if key := (dayLabel{iso, shown}); iso != day {
			if _, ok := g.of[key]; !ok {
				g.of[key] = l.what
			}
		}
		if !g.known[iso] {
			g.known[iso] = true
			g.isos = append(g.isos, iso)
		}
	}
	g.put = g.put[:0]
}

// find is the sheet that a label with a day means. Where the day is not whole, or its
// figures can be read in two ways, and more than one of the days fits, none is meant.
func (g *register[T]) find(b *book, l lang.Label) (v T, ok bool) {
	g.file()
	label := strings.ToLower(l.Text)
	if v, ok = g.of[dayLabel{strings.ToLower(l.Day.Text()), label}]; ok {
		return v, true
	}
	if fit := g.days(b, l.Day); len(fit) == 1 {
		v, ok = g.of[dayLabel{fit[0], label}]
	}
	return v, ok
}

// days are the dates that a day before labels may be.
func (g *register[T]) days(b *book, at source.Span) []string {
	g.file()
	text := source.Fold(at.Text()).Text
	iso, length, ambiguous := dateIn(b, text)
	switch {
	case iso != "":
		return []string{iso}
	case ambiguous:
		asDay, asMonth, _ := lang.Slashed(text)
		return slices.DeleteFunc([]string{asDay, asMonth}, func(iso string) bool { return !slices.Contains(g.isos, iso) })
	case length > 0:
		return nil
	}
	day, length := lang.DayOfYear(text)
	if length == 0 {
		return nil
	}
	said := strings.ToLower(lang.Weekday(text))
	return slices.DeleteFunc(slices.Clone(g.isos), func(iso string) bool {
		return !strings.HasSuffix(iso, "-"+day) || said != "" && !lang.IsOn(iso, said)
	})
}

// bearer is the sheet that a label of a line means at this point.
func (r *resolver) bearer(l lang.Label) *sheet {
	if l.Day.File == nil {
		if len(r.daysOf(l)) > 1 {
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

// daysOf are the days that have a sheet of a label in notes of the darkroom that stand in
// a book of their own: there nothing tells which was logged last before the line.
func (r *resolver) daysOf(l lang.Label) (days []string) {
	label := strings.ToLower(l.Text)
	if !r.book.darkroom || l.Day.File != nil || r.bearers[label] != nil {
		return nil
	}
	if r.loggedOn == nil { // no sheet is logged from here on
		r.loggedOn = map[string][]string{}
		for _, sh := range r.sheets {
			key := strings.ToLower(sh.shown)
			if all := r.loggedOn[key]; !slices.Contains(all[max(0, len(all)-1):], sh.outing.day()) && !slices.Contains(all, sh.outing.day()) {
				r.loggedOn[key] = append(all, sh.outing.day())
			}
		}
	}
	return r.loggedOn[label]
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

// whichDay adds to a finding what days one that is not whole may be.
func (r *resolver) whichDay(f *finding, labels ...lang.Label) {
	for _, l := range labels {
		if days := r.daysOf(l); len(days) > 1 {
			f.Message = l.Text + " is a sheet of " + counted(len(days), "day", "days")
			f.note("of " + strings.Join(days, " or ") + "; write the day before the label: " + days[0] + " " + l.Text)
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

// peek is what shown would give.
func (g *register[T]) peek(o *outing, label string) string {
	shown := g.shown(o, label)
	delete(g.on(o), shown)
	return shown
}
