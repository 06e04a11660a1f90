package compile

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// declare assumes the books in order. It leaves the kit: every thing that a
// line names before its colon, with what was understood of it. A thing declared
// again stands as declared last, as everything later wins.

func (s *season) declare() {
	d := declaring{season: s, made: map[*lang.Statement]thing{}, without: map[thing][]without{}, measured: map[*lang.Statement]*lens{}}
	from := len(s.found)
	for _, d.kit = range s.kits {
		for _, d.book = range d.kit.books {
			for _, st := range d.book.Statements {
				d.statement(st)
			}
		}
		for _, d.book = range d.kit.books {
			for _, st := range d.book.Statements {
				if st.Word == lang.ShutterWord && len(st.Labels) == 1 {
					d.measure(st)
				}
			}
		}
		d.kit.learn()
		for _, l := range d.kit.lenses {
			l.timesTold()
		}
		d.doubts()
	}
	s.once(from)
}

// declaring fills one kit after the other. A line that several of them know is
// read once, and is one thing in all of them.
type declaring struct {
	*season
	kit      *kit
	book     *book // of the kit, that is gone through
	made     map[*lang.Statement]thing
	without  map[thing][]without
	measured map[*lang.Statement]*lens
}

// once leaves one of findings that say the same of one place.
func (s *season) once(from int) {
	type saying struct {
		code, message string
		at            source.Span
	}
	said := map[saying]bool{}
	kept := s.found[:from]
	for _, f := range s.found[from:] {
		key := saying{f.Code, f.Message, f.Span}
		if !said[key] {
			said[key] = true
			kept = append(kept, f)
		}
	}
	s.found = kept
}

func (d *declaring) statement(st *lang.Statement) {
	k := d.kit
	switch {
	case st.Word == lang.Reciprocity:
		d.seasonRule(st.Standing(d.names))
	case st.Word == lang.Tolerance:
		d.seasonTolerance(st.Standing(d.names))
	case st.Word == lang.Wedge:
		d.wedge(st.Standing(d.names))
	case st.Word == lang.TargetWord:
		d.target(st.Standing(d.names))
	case len(st.Labels) != 1:
	case st.Word == lang.Camera:
		k.cameras = put(d, k.cameras, makeOnce(d, st, d.newCamera))
	case st.Word == lang.Lens:
		k.lenses = put(d, k.lenses, makeOnce(d, st, d.newLens))
	case st.Word == lang.Film:
		k.films = put(d, k.films, makeOnce(d, st, d.newFilm))
	case st.Word == lang.FilterWord:
		k.filters = put(d, k.filters, makeOnce(d, st, d.newFilter))
	case st.Word == lang.Meter && !readsBy(st) && d.setAnew(st):
	case st.Word == lang.Meter && !readsBy(st):
		k.meters = put(d, k.meters, makeOnce(d, st, d.newMeter))
	}
}

// setAnew reports whether a line says of a meter that is declared no more than the index that it was set to.
// From when to when nobody knows, so that its readings are open.
func (d *declaring) setAnew(st *lang.Statement) bool {
	all := st.Standing(d.names).Terms()
	was, ok := find(d.kit.meters, st.Labels[0].Text)
	if !ok || strings.Contains(strings.ToLower(st.StandingBody()), "ev at") {
		return false
	}
	for i := range all {
		switch all[i].Kind.(type) {
		case *lang.MeterEI, *lang.FilmEI, *lang.ISO:
			m := *was
			m.unsure = strings.TrimSpace(st.Body.Text())
			d.kit.meters[slices.Index(d.kit.meters, was)] = &m
			d.report("unknown-term", all[i].Span, quote(all[i].Span.Text())+" says no more of "+m.name+", which is declared").
				note("what it was set to stands behind its reading: meter " + m.name + ": EV 10 at EI 200")
			return true
		}
	}
	return false
}

// thing is anything the kit holds.
type thing interface {
	called(string) bool
	statement() *lang.Statement
}

func (d *declared) statement() *lang.Statement { return d.at }

// put adds a thing, or puts it where its namesake stood and says so.
func put[T thing](s *declaring, all []T, t T) []T {
	name := t.statement().Labels[0]
	for i := range all {
		if all[i].called(name.Text) {
			if first := all[i].statement().Labels[0].Span; !s.kit.own || first.File == name.Span.File {
				f := s.report("declared-twice", name.Span, quote(name.Text)+" was declared before; this line counts")
				f.note("declared first here", first)
				if first.File != name.Span.File {
					f.note("the sheets of a notebook that declares it itself are checked by its own line")
				}
			}
			return slices.Replace(all, i, i+1, t)
		}
	}
	return append(all, t)
}

func named(st *lang.Statement) declared { return declared{name: st.Labels[0].Text, at: st} }

// each calls take with every term of a line as it stands; what it does not take is
// reported as without meaning in such a line.
func (s *season) each(st *lang.Statement, take func(t *lang.Term) bool) {
	for i := range st.Terms() {
		t := &st.Terms()[i]
		switch t.Kind.(type) {
		case *lang.Comma, *lang.Remark, *lang.Bare:
			continue
		}
		if !take(t) {
			s.report("unknown-term", t.Span, fmt.Sprintf("%s has no meaning in a %s line", quote(t.Span.Text()), st.Word))
		}
	}
}

func (s *season) newCamera(st *lang.Statement) *camera {
	c := &camera{declared: named(st)}
	s.each(st, func(t *lang.Term) bool {
		switch k := t.Kind.(type) {
		case *lang.Format:
			c.format = k.Text
		case *lang.Back:
			c.back = k.Format
		case *lang.ExtensionRange:
			c.from, c.to = float64(k.From), float64(k.To)
		case *lang.Extension:
			c.to = float64(k.MM)
		case *lang.Confusion:
			c.confusion = float64(k.MM)
		case *lang.Loose:
			return true // a camera's own words
		default:
			return false
		}
		return true
	})
	return c
}

// newMeter is what a meter shows: "EV at 100", "EV at EI", "EV at EI 6400" of one that
// always stands there, "offset -1/3", and the test that the offset is from.
func (s *season) newMeter(st *lang.Statement) *meter {
	m := &meter{declared: named(st)}
	sure := st.With(slices.DeleteFunc(slices.Clone(st.Terms()), func(t lang.Term) bool { return t.Doubtful }))
	text := sure.StandingBody()
	words, test, ok := strings.Cut(text, ", test ")
	if ok {
		m.declared.tested = []string{strings.TrimSpace(test)}
	}
	text = strings.Join(strings.Fields(strings.ToLower(words)), " ")
	for i := range sure.Terms() {
		if k, ok := sure.Terms()[i].Kind.(*lang.MeterEI); ok {
			m.ei = float64(k.EI)
		}
	}
	if m.ei == 100 && strings.Contains(text, "ev at iso 100") {
		m.ei = 0 // as light values are printed, whatever the meter is set to
	}
	m.at100 = m.ei == 0 && (strings.Contains(text, "ev at 100") || strings.Contains(text, "ev at iso 100"))
	m.stated = m.at100 || m.ei != 0 || strings.Contains(text, "ev at ei")
	if _, rest, ok := strings.Cut(text, "offset"); ok {
		m.offset = offset(rest)
		for i := range st.Terms() {
			if _, amount := st.Terms()[i].Kind.(*lang.Amount); amount && st.Terms()[i].Doubtful {
				m.unsure = "offset " + st.Terms()[i].Span.Text()
			}
		}
	} else if at := offBy(st); at.File != nil {
		m.unsure = at.Text()
		s.report("unknown-term", at, quote(m.unsure)+" has no meaning in a meter line").
			note("what is added to its readings is written in stops, offset -2/3: a meter that reads 2/3 stop high takes as much off")
	}
	return m
}

// offBy is what a meter's line says that it is off by, other than as an offset: an amount of stops, or
// words such as reads 1/3 low; no span where nothing is said.
func offBy(st *lang.Statement) source.Span {
	all := st.Terms()
	for i := range all {
		if k, ok := all[i].Kind.(*lang.Amount); ok && k.Stops != nil && !all[i].Struck {
			return all[i].Span
		}
	}
	if saysAmiss(st) {
		return all[0].Span.Cover(all[len(all)-1].Span)
	}
	return source.Span{}
}

// saysAmiss reports whether a line tells by what part of a stop a meter is off: reads 1/3 low.
func saysAmiss(st *lang.Statement) bool {
	return partAmiss().MatchString(source.Fold(strings.ToLower(st.StandingBody())).Text)
}

var partAmiss = pattern.Lazily(`\b[12]/[234]\s+(?:too\s+)?(?:(?:high|low)\b|(?:over|under)\s*(?:$|[,;(]))|\b(?:high|low|over|under|off)\s+by\s+[12]/[234]\b`)

// readsBy reports whether a line with a meter's name is no declaration but a reading by
// it: meter spot: EV 3.
func readsBy(st *lang.Statement) bool {
	all := st.Terms()
	if st.Word != lang.Meter || len(st.Labels) == 0 {
		return false
	}
	low := strings.ToLower(st.StandingBody())
	if strings.Contains(low, "ev at ") || strings.Contains(low, "offset") || strings.Contains(low, ", test ") || saysAmiss(st) {
		return false
	}
	for i := range all {
		switch k := all[i].Kind.(type) {
		case *lang.Exposure:
			if !all[i].Struck {
				return true
			}
		case *lang.Amount: // lamp -1, of a place by its name; reads -1 is of the meter
			if i > 0 && k.Stops != nil {
				if _, place := all[i-1].Kind.(*lang.Loose); place {
					return true
				}
			}
		}
	}
	return false
}

// offset reads the stops behind the word.
func offset(text string) float64 {
	text = strings.NewReplacer("½", "1/2", "⅓", "1/3", "⅔", "2/3", "−", "-", "–", "-").Replace(strings.TrimSpace(text))
	word, _, _ := strings.Cut(text, " ")
	sign := 1.
	if rest, ok := strings.CutPrefix(word, "-"); ok {
		sign, word = -1, rest
	}
	over, under, split := strings.Cut(strings.TrimPrefix(word, "+"), "/")
	v := parseFloat(over)
	if split && parseFloat(under) != 0 {
		v /= parseFloat(under)
	}
	return sign * v
}

func (s *declaring) seasonRule(st *lang.Statement) {
	s.each(st, func(t *lang.Term) bool {
		k, ok := t.Kind.(*lang.RuleOf)
		if ok {
			rule, _ := s.ruleFrom(k, t)
			s.kit.rules = append(s.kit.rules, holds[exposure.Rule]{rule, s.since(st), doubtSaid(t)})
		}
		return ok
	})
}

// doubtSaid is a term that is marked as doubtful, "" for any other.
func doubtSaid(t *lang.Term) string {
	if !t.Doubtful {
		return ""
	}
	return t.Span.Text()
}

// seasonTolerance is "1/3 stop" for both sides, or each side with its sign or its word: +1/2
// -1/3, half a stop over.
func (s *declaring) seasonTolerance(st *lang.Statement) {
	type side struct {
		stops float64
		way   int // +1 over, -1 under, 0 both
	}
	var sides []side
	doubt := ""
	s.each(st, func(t *lang.Term) bool {
		said := t.Span.Text()
		doubt = cmp.Or(doubt, doubtSaid(t))
		switch k := t.Kind.(type) {
		case *lang.Amount:
			if k.Stops == nil {
				return false
			}
			one := side{stops: math.Abs(float64(*k.Stops))}
			if strings.HasPrefix(said, "+") {
				one.way = 1
			} else if *k.Stops < 0 {
				one.way = -1
			}
			sides = append(sides, one)
		case *lang.Exposure: // ½, which elsewhere is a time
			if len(k.Parts) != 1 || k.Parts[0].Time == nil || strings.ContainsFunc(said, unicode.IsLetter) {
				return false
			}
			sides = append(sides, side{stops: k.Parts[0].Time.Parts[0].Num / k.Parts[0].Time.Parts[0].Den})
		case *lang.Loose:
			for _, w := range k.Words {
				way, ok := toleranceWords[strings.ToLower(w)]
				if !ok {
					return false
				}
				if way != 0 && len(sides) > 0 {
					sides[len(sides)-1].way = way
				}
			}
		default:
			return slices.Contains([]string{"+", "/", "±", "-", "+/-"}, strings.TrimSpace(said))
		}
		return true
	})
	tol := usualTolerance
	if n := len(s.kit.tolerances); n > 0 {
		tol = s.kit.tolerances[n-1].v // of which one side may be told anew
	}
	for _, one := range sides {
		tol.own = true
		if one.way >= 0 {
			tol.over = one.stops
		}
		if one.way <= 0 {
			tol.under = one.stops
		}
	}
	if len(sides) > 0 {
		s.kit.tolerances = append(s.kit.tolerances, holds[tolerance]{tol, s.since(st), doubt})
	}
}

// toleranceWords are words beside a tolerance, and the side that they mean.
var toleranceWords = map[string]int{
	"over": 1, "more": 1, "under": -1, "less": -1, "up": 0, "to": 0, "either": 0, "way": 0, "and": 0, "or": 0, "plus": 0, "minus": 0, "of": 0, "a": 0, "+/-": 0, "±": 0,
}
