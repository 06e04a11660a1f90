package compile

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang"
)

// What a figure of a test changes for the sheets that are already logged: each is
// assessed again with the figure in the kit, by the pass that assesses all sheets.

// twin is a sheet without a figure, and with it.
type twin struct{ sheet, without, with *sheet }

// moves is what lies between the twins, in the order logged.
func (g *gatherer) moves(twins []twin) []record.Moved {
	var all []record.Moved
	for _, t := range twins {
		g.assessAlone(t.without)
		g.assessAlone(t.with)
		before, after := &t.without.sum, &t.with.sum
		m := record.Moved{Sheet: g.sheet[t.sheet]}
		switch {
		case before.known && after.known:
			m.By, m.Stands = exposure.Round(after.diff-before.diff), record.Known(after.diff)
		case before.hasGave && after.hasGave:
			m.By = exposure.Difference(before.given, after.given)
		}
		if math.Abs(m.By) < leastMove {
			continue
		}
		stands := m.Sheet.State
		m.Was, m.Now = stands, stands
		if was, now := calledOff(before), calledOff(after); was != now {
			m.Was, m.Now = map[bool]record.State{true: record.Off, false: record.Right}[was], map[bool]record.State{true: record.Off, false: record.Right}[now]
		}
		all = append(all, m)
	}
	return all
}

// leastMove is what no one sets, in stops.
const leastMove = 1. / 60

// calledOff reports a sheet that is off and not by what many give on purpose.
func calledOff(sum *assessment) bool { return sum.state == record.Off && !sum.habit }

// byShutter is the sheets that a timed speed was used for, as marked and as timed.
func (g *gatherer) byShutter(l *lens, timed timing) []record.Moved {
	marked := *l
	marked.timed = slices.DeleteFunc(slices.Clone(l.timed), timed.is)
	marked.timesTold()
	var twins []twin
	for _, sh := range g.season.sheets {
		if sh.lens.v == l && slices.Contains(sh.sum.nominal, timed.marked) {
			without, with := *sh, *sh
			without.lens.v = &marked
			twins = append(twins, twin{sh, &without, &with})
		}
	}
	return g.moves(twins)
}

// byIndex is the sheets that were rated at what the kit says of a film, beside
// another index. A meter stood where it stood: at the index that was declared.
func (m *measuring) byIndex(ei float64) []record.Moved {
	f := m.filmOf(m.series.sheets[0])
	if f == nil {
		return nil
	}
	rated := *f
	rated.ei = ei
	return m.instead(func(sh, with *sheet) bool {
		if sh.film.v != f || !sh.film.known || sh.sum.ei == 0 {
			return false
		}
		with.film.v = &rated
		if rd := sh.reading; rd != nil && rd.ei == 0 && rd.kind != "sunny 16" && sh.shownAt() == 0 {
			stood := *rd
			stood.ei = sh.sum.ei
			with.reading = &stood
		}
		return m.rated(with) != sh.sum.ei
	})
}

// byFilter is the sheets of the film through a filter in such light, where nothing
// else was written of its cost.
func (m *measuring) byFilter(name string, light string, stops float64) []record.Moved {
	film := m.filmOf(m.series.sheets[0])
	cost := lang.Number(stops)
	return m.instead(func(sh, with *sheet) bool {
		if sh.film.v != film || kindOfLight(sh.light) != kindOfLight(light) {
			return false
		}
		with.filters = slices.Clone(sh.filters)
		changed := false
		for i, u := range sh.filters {
			f, entry, ok := kitOf(sh).filter(u.name)
			if len(u.amounts) > 0 || !(f != nil && strings.EqualFold(f.name, name) || f == nil && ok && strings.EqualFold(cmp.Or(u.name, entry.Number), name)) {
				continue
			}
			tested := *u
			tested.amounts = []lang.Amount{{Stops: &cost}}
			with.filters[i], changed = &tested, true
		}
		return changed
	})
}

// byRule is the sheets of the film, by another rule of reciprocity.
func (m *measuring) byRule(rule exposure.Rule) []record.Moved {
	f := m.filmOf(m.series.sheets[0])
	if f == nil {
		return nil
	}
	ruled := *f
	ruled.rule = rule
	return m.instead(func(sh, with *sheet) bool {
		with.film.v = &ruled
		return sh.film.known && sh.film.v == f
	})
}

// instead is what moves where a sheet is changed, of all that are no tests: those
// were exposed otherwise than asked on purpose.
func (m *measuring) instead(change func(sh, with *sheet) bool) []record.Moved {
	var twins []twin
	for _, sh := range m.season.sheets {
		without, with := *sh, *sh
		if sh.tests() == "" && change(sh, &with) {
			twins = append(twins, twin{sh, &without, &with})
		}
	}
	return m.moves(twins)
}

// effects says what moves, by how much, and what is then off or right;
// needed: what the film asked for moves, and not what it got.
func effects(all []record.Moved, needed bool) []string {
	var said, amounts []string
	byAmount := map[string][]*record.Sheet{}
	for _, m := range all {
		stops := exposure.InStops(math.Abs(m.By))
		if stops == exposure.InStops(0) {
			continue
		}
		amount := stops + map[bool]string{true: " more", false: " less"}[(m.By > 0) != needed]
		if byAmount[amount] == nil {
			amounts = append(amounts, amount)
		}
		byAmount[amount] = append(byAmount[amount], m.Sheet)
	}
	slices.SortStableFunc(amounts, func(a, b string) int { return cmp.Compare(len(byAmount[b]), len(byAmount[a])) })
	verb := map[bool]string{true: "needed ", false: "got "}[needed]
	for _, amount := range amounts {
		said = append(said, verb+amount+": "+record.ByDays(byAmount[amount]))
	}
	said = append(said, turned(all, record.Off), turned(all, record.Right))
	return slices.DeleteFunc(said, func(line string) bool { return line == "" })
}

// turned is the sheets that are in a state with the figure and not without it, each
// with how far it is off.
func turned(all []record.Moved, now record.State) string {
	var text strings.Builder
	day := ""
	for _, m := range all {
		if m.Was == m.Now || m.Now != now {
			continue
		}
		stands := m.Stands.Value
		if now == record.Right {
			stands -= m.By
		}
		said := record.ByDays([]*record.Sheet{m.Sheet})
		if d, label, ok := strings.Cut(said, " "); ok && d == day {
			said = label
		} else {
			day = d
		}
		if text.Len() > 0 {
			text.WriteString(", ")
		}
		text.WriteString(said + " " + exposure.OverUnder(stands))
	}
	switch {
	case text.Len() == 0:
		return ""
	case now == record.Off:
		return "off with it and not without: " + text.String()
	}
	return "right with it, and without: " + text.String()
}
