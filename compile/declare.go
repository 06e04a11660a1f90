package compile

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/compile/sensitometry"
	"notchbook/lang"
	"notchbook/lang/source"
)

// declare assumes the books in order. It leaves the kit: every thing that a
// line names before its colon, with what was understood of it. A thing declared
// again stands as declared last, as everything later wins.

func (s *season) declare() {
	d := declaring{season: s, made: map[*lang.Statement]thing{}, measured: map[*lang.Statement]*lens{}}
	from := len(s.found)
	for _, d.kit = range s.kits {
		for _, b := range d.kit.books {
			for _, st := range b.Statements {
				d.statement(st)
			}
		}
		for _, b := range d.kit.books {
			for _, st := range b.Statements {
				if st.Word == lang.ShutterWord && len(st.Labels) == 1 {
					d.measure(st)
				}
			}
		}
	}
	s.once(from)
}

// declaring fills one kit after the other. A line that several of them know is
// read once, and is one thing in all of them.
type declaring struct {
	*season
	kit      *kit
	made     map[*lang.Statement]thing
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
		d.seasonRule(st)
	case st.Word == lang.Tolerance:
		d.seasonTolerance(st)
	case st.Word == lang.Wedge:
		d.wedge(st)
	case st.Word == lang.TargetWord:
		d.target(st)
	case len(st.Labels) != 1:
	case st.Word == lang.Camera:
		k.cameras = put(d, k.cameras, makeOnce(d, st, d.newCamera))
	case st.Word == lang.Lens:
		k.lenses = put(d, k.lenses, makeOnce(d, st, d.newLens))
	case st.Word == lang.Film:
		k.films = put(d, k.films, makeOnce(d, st, d.newFilm))
	case st.Word == lang.FilterWord:
		k.filters = put(d, k.filters, makeOnce(d, st, d.newFilter))
	case st.Word == lang.Meter && !readsBy(st):
		k.meters = put(d, k.meters, makeOnce(d, st, newMeter))
	}
}

// makeOnce is the thing that a line declares.
func makeOnce[T thing](d *declaring, st *lang.Statement, read func(*lang.Statement) T) T {
	if t, ok := d.made[st]; ok {
		return t.(T)
	}
	t := read(st)
	d.made[st] = t
	return t
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

// each calls take with every term that stands; what it does not take is
// reported as without meaning in such a line.
func (s *season) each(st *lang.Statement, take func(t *lang.Term) bool) {
	for i := range st.Terms {
		t := &st.Terms[i]
		switch t.Kind.(type) {
		case *lang.Comma, *lang.Remark, *lang.Bare:
			continue
		}
		if !t.Struck && !take(t) {
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

func (s *season) newLens(st *lang.Statement) *lens {
	l := &lens{declared: named(st)}
	s.each(st, func(t *lang.Term) bool {
		switch k := t.Kind.(type) {
		case *lang.Millimetres:
			l.focal = float64(k.MM)
		case *lang.FNumbers:
			l.Wide, _ = exposure.ApertureAv(k.From.Mark, k.From.Past)
			l.widest = apertureText(k.From)
			if k.To != nil {
				l.Small, _ = exposure.ApertureAv(k.To.Mark, k.To.Past)
				l.smallest = apertureText(*k.To)
			}
		case *lang.Circle:
			l.circle = float64(k.MM)
		case *lang.Flange:
			l.flange = float64(k.MM)
		case *lang.Clicks:
			l.clicks(k)
		case *lang.Shutter:
			l.shutter(k, t.Span.Text())
		case *lang.Tested:
			l.tested(k)
		case *lang.BellowsScale:
			l.scale = s.scaleFrom(k, t)
		case *lang.With:
			l.with = append(l.with, k.Filter)
		case *lang.Care:
			return l.tests(k)
		case *lang.Loose:
			return true
		default:
			return false
		}
		return true
	})
	return l
}

func (l *lens) clicks(k *lang.Clicks) {
	l.Clicks = 1
	if k.Stops != nil && k.Stops.Stops != nil {
		l.Clicks = float64(*k.Stops.Stops)
	}
}

// The series of marked speeds, as parts of a second: that of ISO 516, and the one
// that older shutters have (common practice, no source).
var (
	newSpeeds = []float64{1, 2, 4, 8, 15, 30, 60, 125, 250, 500, 1000}
	oldSpeeds = []float64{1, 2, 5, 10, 25, 50, 100, 200, 400}
)

// shutter takes the speeds listed, or the series up to the fastest: the standard
// one where that is a speed of it, else the older one and the fastest itself.
func (l *lens) shutter(k *lang.Shutter, text string) {
	if k.Fastest != nil {
		l.Bulb, l.ranged = true, true
		l.speeds = nil
		fastest, slowest := k.Fastest.Den/k.Fastest.Num, secondsOr(k.Slowest, 1)
		series := newSpeeds
		if !slices.Contains(newSpeeds, fastest) {
			series = oldSpeeds
		}
		for _, den := range series {
			if den < fastest && 1/den <= slowest {
				l.speeds = append(l.speeds, lang.Seconds{Num: 1, Den: den})
			}
		}
		l.speeds = append(l.speeds, *k.Fastest)
	} else {
		l.speeds = k.Speeds
		l.Bulb = strings.ContainsAny(text, "TB")
	}
	l.Speeds = nil
	for _, s := range l.speeds {
		if exact, ok := exposure.TimeSeconds(s.Num, s.Den); ok {
			l.Speeds = append(l.Speeds, exact)
		}
	}
}

// measured is a shutter's speeds as they were timed; the median counts, and of
// what was timed twice what was written last.
func (s *declaring) measure(st *lang.Statement) {
	l, ok := find(s.kit.lenses, st.Labels[0].Text)
	if !ok {
		s.report("not-declared", st.Labels[0].Span, quote(st.Labels[0].Text)+" is not declared as a lens").note("declare it: lens " + st.Labels[0].Text + ": …")
		return
	}
	if s.measured[st] == l {
		return // by another kit that knows the line
	}
	s.measured[st] = l
	s.each(st, func(t *lang.Term) bool {
		k, isTime := t.Kind.(*lang.Measured)
		if !isTime {
			_, words := t.Kind.(*lang.Loose)
			return words
		}
		if marked, ok := exposure.TimeSeconds(k.Marked.Num, k.Marked.Den); ok && !t.Doubtful {
			timed := timing{marked: marked, as: timeText(k.Marked), at: t.Span}
			for _, real := range k.Real {
				timed.real = append(timed.real, real.Num/real.Den)
			}
			l.timings = append(l.timings, timed)
			l.Tested = append([]exposure.TestedSpeed{{Marked: marked, Real: sensitometry.Median(timed.real)}}, l.Tested...)
		}
		return true
	})
}

func (l *lens) tested(k *lang.Tested) {
	for _, pair := range k.Pairs {
		marked, ok := exposure.TimeSeconds(pair.From.Num, pair.From.Den)
		if ok && pair.To.Num > 0 && pair.To.Den > 0 {
			l.Tested = append(l.Tested, exposure.TestedSpeed{Marked: marked, Real: pair.To.Num / pair.To.Den})
		}
	}
}

func (s *season) newFilm(st *lang.Statement) *film {
	f := &film{declared: named(st), inLight: map[string]float64{}, inN: map[float64]float64{}, care: map[string]string{}}
	before := wordsBefore(st)
	plain := false // there is an index for all
	for i := range st.Terms {
		t := &st.Terms[i]
		_, ei := t.Kind.(*lang.FilmEI)
		plain = plain || ei && !t.Struck && len(before[t]) == 0 && lightBehind(st, t) == ""
		switch k := t.Kind.(type) {
		case *lang.Bare:
			if n := float64(k.Value); exposure.NearestIndex(n) == n && !wordBehind(st, t) && !ofBox(before[t]) {
				f.unsure = t.Span.Text()
			}
		case *lang.Amount:
			if k.Stops != nil && !t.Struck {
				f.unsure = t.Span.Text()
			}
		case *lang.Loose:
			if slices.ContainsFunc(k.Words, ofIndex) && !t.Struck {
				f.unsure = t.Span.Text()
			}
		}
	}
	s.each(st, func(t *lang.Term) bool {
		switch k := t.Kind.(type) {
		case *lang.ISO:
			f.iso = float64(k.Speed)
		case *lang.FilmEI:
			if t.Doubtful {
				f.doubtful = t.Span.Text()
			}
			if light := lightBehind(st, t); light != "" {
				f.inLight[light] = float64(k.EI)
			} else if words := before[t]; len(words) > 0 && (plain || namesLight(words)) {
				f.inLight[strings.ToLower(strings.Join(words, " "))] = float64(k.EI)
			} else {
				f.ei = float64(k.EI)
			}
		case *lang.MeterEI: // I rate it at EI 50
			f.ei = float64(k.EI)
		case *lang.Class:
			f.classes(k)
		case *lang.TimeFor:
			f.developing(k, t.Span)
		case *lang.Care:
			if !f.tests(k) {
				f.keep(strings.Cut(k.Text, " "))
			}
		case *lang.Shorten:
			f.shorten = s.shortenFrom(k, t)
		case *lang.RuleOf:
			f.addRule(s, k, t)
		case *lang.CurveFile:
			f.sees = s.ownCurve(t, lang.Film)
		case *lang.Loose:
			if strings.EqualFold(k.Words[0], "reciprocity") && !readAmiss(st, t) {
				s.report("reciprocity-unclear", t.Span, "no rule is read behind the word").
					note("it is written reciprocity t^1.31 over 1s, or 2s=3s 4s=7s, or none to 1s")
			}
			return true
		default:
			return false
		}
		return true
	})
	if f.ei == 0 {
		f.ei = f.inN[0] // of the usual development
	}
	return f
}

// ofBox reports whether words end with one before a number that stands on the box.
func ofBox(words []string) bool {
	if len(words) == 0 {
		return false
	}
	switch strings.ToLower(words[len(words)-1]) {
	case "emulsion", "batch", "lot", "box", "price", "no", "no.":
		return true
	}
	return false
}

// ofIndex reports whether a word leads to a film's index, which then could not be read: EI fifty.
func ofIndex(word string) bool {
	switch strings.ToLower(strings.Trim(word, ".,:;")) {
	case "ei", "e.i", "index":
		return true
	}
	return false
}

// lightBehind is the light that an index holds in where it stands right behind it: EI 50 in
// tungsten, rated 50 by tungsten. "" where none does.
func lightBehind(st *lang.Statement, t *lang.Term) string {
	i := 0
	for &st.Terms[i] != t {
		i++
	}
	if i+1 < len(st.Terms) {
		if k, ok := st.Terms[i+1].Kind.(*lang.Loose); ok && len(k.Words) == 1 && leadsToLight[strings.ToLower(k.Words[0])] {
			i++
		}
	}
	if i+1 < len(st.Terms) && endsAt(st, i+1) {
		if k, ok := st.Terms[i+1].Kind.(*lang.Class); ok && k.EI == nil && k.Amount == nil && len(k.Names) == 1 && (k.Names[0] == handbook.Daylight || k.Names[0] == handbook.Tungsten) {
			return k.Names[0]
		}
	}
	return ""
}

// leadsToLight are words between a value and the light that it holds in.
var leadsToLight = setOf("in by under for with")

// wordBehind reports whether a word stands right behind a term: 25 sheets.
func wordBehind(st *lang.Statement, t *lang.Term) bool {
	for i := range st.Terms[:len(st.Terms)-1] {
		if _, word := st.Terms[i+1].Kind.(*lang.Loose); &st.Terms[i] == t {
			return word
		}
	}
	return false
}

// readAmiss reports whether what stands behind a term is a slip that is reported as such.
func readAmiss(st *lang.Statement, t *lang.Term) bool {
	for i := range st.Terms {
		if &st.Terms[i] == t {
			return i+1 < len(st.Terms) && st.Terms[i+1].Unread
		}
	}
	return false
}

// namesLight reports whether words before an index are a light that it holds for.
func namesLight(words []string) bool {
	light := strings.Join(words, " ")
	_, known := handbook.Light(light)
	return known || lightClass(light) != handbook.Daylight
}

func (f *film) classes(k *lang.Class) {
	for _, name := range k.Names {
		switch {
		case k.EI != nil:
			f.inLight[name] = float64(*k.EI)
		case strings.HasPrefix(name, "pan"):
			f.class = handbook.Pan
		case strings.HasPrefix(name, "ortho"):
			f.class = handbook.Ortho
		case name == "blue":
			f.class = handbook.Blue
		}
	}
}

// keep takes what is declared for the darkroom. Times belong to the developer that
// is named before them; those before any, to the first.
func (f *film) keep(word, text string, _ bool) {
	if word == "developer" {
		f.baths = append(f.baths, text)
		if len(f.baths) > 1 {
			return
		}
		for i := range f.times {
			f.times[i].bath = text
		}
	}
	f.care[word] = text
}

func (f *film) developing(k *lang.TimeFor, at source.Span) {
	if k.EI != nil {
		f.inN[float64(k.N)] = float64(*k.EI)
	}
	if k.Time != nil {
		d := developing{n: float64(k.N), seconds: k.Time.Num / k.Time.Den, at: at}
		if n := len(f.baths); n > 0 {
			d.bath = f.baths[n-1]
		}
		if k.At != nil {
			d.celsius, d.stated = exposure.Round(float64(*k.At)), true
		}
		f.times = append(f.times, d)
	}
}

// addRule takes a film's rule. Of several the first counts; the others can be
// compared with it.
func (f *film) addRule(s *season, k *lang.RuleOf, t *lang.Term) {
	rule, how := s.ruleFrom(k, t)
	if f.rule.IsZero() {
		f.rule, f.how = rule, how
	}
	f.rules = append(f.rules, namedRule{k.Name, rule, how})
}

// ruleFrom makes a film's rule of its parts, and says it in words.
func (s *season) ruleFrom(k *lang.RuleOf, t *lang.Term) (exposure.Rule, string) {
	var (
		rule   exposure.Rule
		points []exposure.Point
		over   lang.Law
		err    error
	)
	for _, law := range k.Laws {
		threshold := 0.
		if law.Over != nil {
			threshold = law.Over.Num / law.Over.Den
		}
		switch {
		case law.Power != nil:
			rule, err = exposure.PowerLaw(float64(*law.Power), threshold)
		case law.None:
			rule = exposure.None(secondsOr(law.UpTo, 0))
		case law.From != nil:
			over = law
		case law.Pair != nil:
			points = append(points, exposure.Point{Metered: law.Pair.From.Num / law.Pair.From.Den, Clock: law.Pair.To.Num / law.Pair.To.Den})
		case law.At != nil:
			at := law.At.Num / law.At.Den
			points = append(points, exposure.Point{Metered: at, Clock: at * exposure.StopsFactor(float64(*law.More))})
		}
	}
	if err == nil && len(points) > 0 {
		rule, err = exposure.Table(0, points)
	}
	if err == nil && over.From != nil {
		factor := 0.
		if over.Times != nil {
			factor = float64(*over.Times)
		} else if over.Stops != nil {
			factor = exposure.StopsFactor(float64(*over.Stops))
		}
		rule, err = rule.Over(secondsOr(over.From, 0), factor)
	}
	if err != nil {
		s.report("reciprocity-unclear", t.Span, err.Error())
	}
	return rule, strings.TrimSpace(strings.TrimPrefix(t.Span.Text(), "reciprocity"))
}

func secondsOr(s *lang.Seconds, otherwise float64) float64 {
	if s == nil {
		return otherwise
	}
	return s.Num / s.Den
}

func (s *season) newFilter(st *lang.Statement) *filter {
	f := &filter{declared: named(st)}
	f.number = handbook.NumberOf(f.name)
	before, behind := wordsBefore(st), wordsBehind(st)
	amiss := false
	s.each(st, func(t *lang.Term) bool {
		switch k := t.Kind.(type) {
		case *lang.Stack:
			s.described(f, k, t)
		case *lang.Amount:
			switch words := slices.Concat(before[t], behind[t]); {
			case f.stops != nil && betweenTwo(before[t]):
				s.forAll(f, newCost(k, t), t)
			case len(words) > 0:
				f.declareAmount(words, newCost(k, t))
			default:
				s.forAll(f, spanned(st, k, t), t)
			}
		case *lang.Care:
			return f.tests(k)
		case *lang.Class:
			switch {
			case k.Amount == nil:
			case both(k.Names):
				f.declareAmount(slices.Concat(before[t], k.Names), newCost(k.Amount, t))
			default:
				for _, name := range k.Names {
					f.declareAmount(append(slices.Clone(before[t]), name), newCost(k.Amount, t))
				}
			}
		case *lang.CurveFile:
			f.passes = s.ownCurve(t, lang.FilterWord)
		case *lang.Loose:
			return true
		case *lang.Millimetres:
			return false // of its thread
		default:
			amiss = amiss || strings.ContainsAny(t.Span.Text(), "0123456789")
			return false
		}
		return true
	})
	for i := range st.Terms {
		t := &st.Terms[i]
		if _, bare := t.Kind.(*lang.Bare); t.Unread && !bare {
			amiss = amiss || strings.ContainsAny(t.Span.Text(), "0123456789")
		}
	}
	if amiss && f.stops != nil {
		f.stops.doubtful = true // what could not be read may say otherwise
	}
	if misbound(st) {
		s.report("two-settings", st.Span, "which value of "+f.name+" is for what: they stand before their words, and before the next value's").
			note("what a value holds for stands before it: filter " + f.name + ": daylight x4, tungsten x2")
		f.stops, f.amounts = nil, nil
	}
	s.colourAgainstNumber(f)
	return f
}

// described takes a filter's colour, Wratten number and amounts.
func (s *season) described(f *filter, k *lang.Stack, t *lang.Term) {
	for _, part := range k.Filters {
		if number := handbook.NumberOf(part.Name); number != "" {
			f.number = number
		}
		if !strings.ContainsAny(part.Name, "0123456789") && !strings.HasPrefix(strings.ToLower(part.Name), "pol") {
			f.colour = strings.ToLower(part.Name)
		}
		for i := range part.Amounts {
			s.forAll(f, newCost(&part.Amounts[i], t), t)
		}
	}
}

// spanned is what an amount costs, and with a number right before it something between the two:
// 2-3 stops.
func spanned(st *lang.Statement, k *lang.Amount, t *lang.Term) *cost {
	c := newCost(k, t)
	for i := range st.Terms[:len(st.Terms)-1] {
		if least, ok := st.Terms[i].Kind.(*lang.Bare); ok && &st.Terms[i+1] == t && k.Stops != nil {
			c.low = min(c.low, math.Abs(float64(least.Value)))
		}
	}
	return c
}

// forAll takes what a filter costs whatever is behind and before it. Said twice it is one
// value, x4 (2 stops); of two that differ by more than a rounding it is not known which
// counts, and nobody is blamed between them.
func (s *season) forAll(f *filter, c *cost, t *lang.Term) {
	const rounding = 1. / 6
	if f.stops != nil && math.Abs(f.stops.stops-c.stops) > rounding {
		s.report("two-settings", t.Span, fmt.Sprintf("two values of %s on one line, %s and %s", f.name, exposure.InStops(f.stops.stops), exposure.InStops(c.stops))).
			note("what a value holds for stands before it: filter " + f.name + ": x4, tungsten x2")
		c.low, c.high = min(c.low, f.stops.low), max(c.high, f.stops.high)
	}
	f.stops = c
}

// colourAgainstNumber finds "green 25".
func (s *season) colourAgainstNumber(f *filter) {
	entry, ok := handbook.Filter(f.number)
	if ok && f.colour != "" && f.number != "pol" && !entry.Called(f.colour) {
		s.report("colour-against-number", f.at.Labels[0].Span,
			fmt.Sprintf("%s is said to be %s, but a Wratten %s is %s", f.name, f.colour, entry.Number, entry.Colour))
	}
}

func shortClass(name string) string {
	return strings.TrimSuffix(name, "chromatic")
}

// newCost is an amount as the photographer gave it.
func newCost(a *lang.Amount, t *lang.Term) *cost {
	c := &cost{own: true, at: t.Span, from: place(t.Span), doubtful: t.Doubtful}
	switch {
	case a.Factor != nil:
		c.stops, _ = exposure.FactorStops(float64(*a.Factor))
		c.detail = exposure.FormatFactor(float64(*a.Factor))
	case a.Density != nil:
		c.stops, _ = exposure.DensityStops(float64(*a.Density))
		c.detail = "density " + trim(float64(*a.Density))
	case a.Stops != nil:
		c.stops = float64(*a.Stops)
		if c.stops < 0 {
			c.stops = -c.stops // "G11 (-2)" costs two stops
		}
		c.detail = exposure.InStops(c.stops)
	}
	c.low, c.high = c.stops, c.stops
	return c
}

// newMeter is what a meter shows: "EV at 100", "EV at EI", "EV at EI 6400" of one that
// always stands there, "offset -1/3", and the test that the offset is from.
func newMeter(st *lang.Statement) *meter {
	m := &meter{declared: named(st)}
	text := st.Body.Text()
	words, test, ok := strings.Cut(text, ", test ")
	if ok {
		m.declared.tested = []string{strings.TrimSpace(test)}
	}
	text = strings.Join(strings.Fields(strings.ToLower(words)), " ")
	for i := range st.Terms {
		if k, ok := st.Terms[i].Kind.(*lang.MeterEI); ok && !st.Terms[i].Struck {
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
	}
	return m
}

// readsBy reports whether a line with a meter's name is no declaration but a reading by
// it: meter spot: EV 3.
func readsBy(st *lang.Statement) bool {
	if st.Word != lang.Meter || len(st.Labels) == 0 {
		return false
	}
	low := strings.ToLower(st.Body.Text())
	if strings.Contains(low, "ev at ") || strings.Contains(low, "offset") {
		return false
	}
	return slices.ContainsFunc(st.Terms, func(t lang.Term) bool {
		_, ok := t.Kind.(*lang.Exposure)
		return ok && !t.Struck
	})
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
			s.kit.rule, _ = s.ruleFrom(k, t)
		}
		return ok
	})
}

// seasonTolerance is "1/3 stop" for both sides, or each side with its sign or its word: +1/2
// -1/3, half a stop over.
func (s *declaring) seasonTolerance(st *lang.Statement) {
	type side struct {
		stops float64
		way   int // +1 over, -1 under, 0 both
	}
	var sides []side
	s.each(st, func(t *lang.Term) bool {
		said := t.Span.Text()
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
	for _, one := range sides {
		tol := &s.kit.tolerance
		tol.own = true
		if one.way >= 0 {
			tol.over = one.stops
		}
		if one.way <= 0 {
			tol.under = one.stops
		}
	}
}

// toleranceWords are words beside a tolerance, and the side that they mean.
var toleranceWords = map[string]int{
	"over": 1, "more": 1, "under": -1, "less": -1, "up": 0, "to": 0, "either": 0, "way": 0, "and": 0, "or": 0, "plus": 0, "minus": 0, "of": 0, "a": 0, "+/-": 0, "±": 0,
}
