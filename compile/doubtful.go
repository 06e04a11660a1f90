package compile

import (
	"slices"

	"notchbook/lang"
)

// What a line of the kit marks as doubtful makes no sheet off and none right. For each such value there is a kit without
// it, and a sheet that would be another by that kit is left open.

// doubtful is a value that is marked so, and the kit without it.
type doubtful struct {
	said     string
	kit      *kit
	was, now thing // what a sheet may have that the line declares, and the same without the value; nil where it is no thing
}

// without is a thing as it would be declared without a value that is marked as doubtful.
type without struct {
	said string
	now  thing
}

// makeOnce is the thing that a line declares.
func makeOnce[T thing](d *declaring, st *lang.Statement, read func(*lang.Statement) T) T {
	if t, ok := d.made[st]; ok {
		return t.(T)
	}
	standing := st.Standing(d.names)
	t := read(standing)
	d.made[st] = t
	for i, term := range standing.Terms() {
		if term.Doubtful {
			said := len(d.found)
			less := read(standing.With(slices.Delete(slices.Clone(standing.Terms()), i, i+1)))
			d.found = d.found[:said]
			d.without[t] = append(d.without[t], without{term.Span.Text(), less})
		}
	}
	return t
}

// doubts leaves what the kit at hand has that is marked as doubtful.
func (d *declaring) doubts() {
	k := d.kit
	add := func(said string, was, now thing, change func(*kit)) {
		other := *k
		other.doubts, other.costs, other.indices, other.looked = nil, nil, nil, nil
		change(&other)
		k.doubts = append(k.doubts, doubtful{said, &other, was, now})
	}
	for _, f := range k.films {
		for _, w := range d.without[f] {
			add(w.said, f, w.now, func(other *kit) { other.films = instead(k.films, f, w.now) })
		}
	}
	for _, f := range k.filters {
		for _, w := range d.without[f] {
			add(w.said, f, w.now, func(other *kit) { other.filters = instead(k.filters, f, w.now) })
		}
	}
	for _, l := range k.lenses {
		lacking := func(said string, less lens) {
			less.timesTold()
			add(said, l, &less, func(other *kit) { other.lenses = instead(k.lenses, l, thing(&less)) })
		}
		for _, w := range d.without[l] {
			less := *w.now.(*lens)
			less.timed = slices.Concat(less.timed, l.timedElsewhere())
			lacking(w.said, less)
		}
		for i, t := range l.timed {
			if t.doubt != "" {
				less := *l
				less.timed = slices.Delete(slices.Clone(l.timed), i, i+1)
				lacking(t.doubt, less)
			}
		}
	}
	for i, r := range k.rules {
		if r.doubt != "" {
			add(r.doubt, nil, nil, func(other *kit) { other.rules = slices.Delete(slices.Clone(k.rules), i, i+1) })
		}
	}
	for i, t := range k.tolerances {
		if t.doubt != "" {
			add(t.doubt, nil, nil, func(other *kit) { other.tolerances = slices.Delete(slices.Clone(k.tolerances), i, i+1) })
		}
	}
}

// instead is a kit's things with another in the place of one.
func instead[T interface {
	comparable
	thing
}](all []T, was T, now thing) []T {
	all = slices.Clone(all)
	all[slices.Index(all, was)] = now.(T)
	return all
}

// doubtedInKit takes back what rests on a value that the kit marks as doubtful.
func (s *season) doubtedInKit(sh *sheet) {
	for _, d := range kitOf(sh).doubts {
		if !d.concerns(sh) {
			continue
		}
		s.unlessAlike(sh, "the value that the kit marks as doubtful: "+d.said, func(at *sheet) {
			at.kit = d.kit
			switch now := d.now.(type) {
			case *film:
				at.film.v = now
			case *lens:
				at.lens.v = now
			}
		})
	}
}

// concerns reports whether a sheet has the thing of which a value is doubtful; what is of none may concern all.
func (d *doubtful) concerns(sh *sheet) bool {
	switch was := d.was.(type) {
	case *film:
		return sh.film.v == was
	case *lens:
		return sh.lens.v == was
	case *filter:
		return slices.ContainsFunc(sh.sum.owes, func(u *use) bool { return u.found == was })
	}
	return true
}
