package compile

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// What a line declares of a film: its index, what it sees, its developing times, and its rule
// for long times.

func (s *season) newFilm(st *lang.Statement) *film {
	f := &film{declared: named(st), inLight: map[string]float64{}, inN: map[float64]float64{}, care: map[string]string{}}
	before := wordsBefore(st)
	plain := false // there is an index for all
	box := boxOf(st)
	f.box = box
	for i := range st.Terms() {
		t := &st.Terms()[i]
		_, ei := t.Kind.(*lang.FilmEI)
		plain = plain || ei && len(before[t]) == 0 && lightBehind(st, t) == ""
		switch k := t.Kind.(type) {
		case *lang.Bare:
			n, behind := float64(k.Value), looseAt(st, i+1)
			alone := len(behind) == 0 && !ofBox(before[t]) && (exposure.NearestIndex(n) == n || box.mayMean(n))
			if said := strings.Join(append(append(slices.Clip(before[t]), trim(n)), behind...), " "); alone || ownSpeed().MatchString(strings.ToLower(said)) {
				f.unsure = t.Span.Text()
			}
		case *lang.Amount:
			if k.Stops != nil {
				f.unsure = t.Span.Text()
			}
		case *lang.OldSpeed:
			f.unsure = t.Span.Text()
		case *lang.Loose:
			if slices.ContainsFunc(k.Words, ofIndex) || box.doubtedBy(st, i, t.Span.Text()) {
				f.unsure = t.Span.Text()
			}
		case *lang.Remark:
			if box.doubtedBy(st, i, k.Text) {
				f.unsure = k.Text
			}
			if light, ei := indexRemarked(k.Text); light != "" {
				f.inLight[light] = ei
			}
		}
	}
	s.each(st, func(t *lang.Term) bool {
		switch k := t.Kind.(type) {
		case *lang.ISO:
			s.oneSpeed(f, "box speeds", &f.iso, float64(k.Speed), t)
		case *lang.FilmEI:
			if t.Doubtful {
				f.doubtful = t.Span.Text()
			}
			if box.inDegrees(t, float64(k.EI)) {
				f.unsure = t.Span.Text()
				return true
			}
			if light := lightBehind(st, t); light != "" {
				f.inLight[light] = float64(k.EI)
			} else if words := before[t]; len(words) > 0 && (plain || namesLight(words)) {
				f.inLight[lightNamed(words)] = float64(k.EI)
			} else {
				s.oneSpeed(f, "indices", &f.ei, float64(k.EI), t)
			}
		case *lang.MeterEI: // I rate it at EI 50
			if box.inDegrees(t, float64(k.EI)) {
				f.unsure = t.Span.Text()
				return true
			}
			s.oneSpeed(f, "indices", &f.ei, float64(k.EI), t)
		case *lang.OldSpeed:
			s.oldSpeed(t, k)
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
			if !f.rule.IsZero() && rowLike().MatchString(t.Span.Text()) {
				s.report("reciprocity-unclear", t.Span, quote(t.Span.Text())+" is no row of the table that is understood").
					note("a row is written 4s=7s")
				f.rule = exposure.Rule{} // a table with rows left out is none
			}
			return true
		default:
			return false
		}
		return true
	})
	if what, _ := supplied(st, s.names); what != "" {
		f.unsure = what
	}
	if f.ei == 0 {
		f.ei = f.inN[0] // of the usual development
	}
	return f
}

// oneSpeed sets a speed of a film that its line gives, unless it gave another before: of two neither
// is taken.
func (s *season) oneSpeed(f *film, what string, speed *float64, said float64, t *lang.Term) {
	if *speed == 0 || *speed == said {
		*speed = said
		return
	}
	s.report("two-settings", t.Span, fmt.Sprintf("two %s of %s on one line, %s and %s", what, f.name, trim(*speed), trim(said))).
		note("what an index holds for stands before it: film " + f.name + ": EI " + trim(*speed) + ", tungsten EI " + trim(said))
	*speed, f.unsure = 0, t.Span.Text()
}

// boxSpeed is the speed that stands on a film's box.
type boxSpeed struct {
	iso     float64
	degrees bool // in degrees, 27 DIN: a number that says not what it is may be in these too
	both    bool // 400/27°
}

func boxOf(st *lang.Statement) (box boxSpeed) {
	all := st.Terms()
	for i := range all {
		if k, ok := all[i].Kind.(*lang.ISO); ok {
			said := strings.ToLower(all[i].Span.Text())
			box = boxSpeed{float64(k.Speed), saysDegrees(said), strings.Contains(strings.Replace(said, "/10", "", 1), "/")}
		}
	}
	return box
}

func saysDegrees(said string) bool {
	return strings.Contains(said, "din") || strings.Contains(said, "°")
}

// mayMean reports whether a number may be a speed in degrees, since the box has it so. 39° is ISO 6400
// (ISO 5800:1987), and no film is faster. Where the box has both, a mark of the arithmetic ones is that.
func (b boxSpeed) mayMean(n float64) bool {
	const most = 39
	return b.degrees && n <= most && n == math.Trunc(n) && !(b.both && exposure.NearestIndex(n) == n)
}

// inDegrees reports whether an index that says not what it is may be in degrees, as the box is: 27 DIN,
// rated 24. EI 25 is arithmetic; there is no EI 24 (ISO 5800:1987).
func (b boxSpeed) inDegrees(t *lang.Term, n float64) bool {
	said := strings.ToLower(t.Span.Text())
	return b.mayMean(n) && !saysDegrees(said) && !(exposure.NearestIndex(n) == n && arithmetic().MatchString(said))
}

var arithmetic = pattern.Lazily(`\b(?:e\.?i\b|iso|asa|exposure index)`)

// doubtedBy reports whether words that are the ith term of a film's line may say another speed than the box:
// a number by itself in brackets right behind it, 400 ASA (200), or one that they say the film is used at.
func (b boxSpeed) doubtedBy(st *lang.Statement, i int, said string) bool {
	said = strings.ToLower(said)
	if ownSpeed().MatchString(said) {
		return true
	}
	if i == 0 {
		return false
	}
	_, behind := st.Terms()[i-1].Kind.(*lang.ISO)
	m := numberAlone().FindStringSubmatch(said)
	if !behind || m == nil {
		return false
	}
	n := parseFloat(m[1])
	same := n == b.iso || math.Abs(1+10*math.Log10(b.iso)-n) < 0.5 // S° = 1 + 10 lg S (ISO 6:1993)
	return !same && (exposure.NearestIndex(n) == n || b.mayMean(n))
}

// What is written of a speed beside that of the box (common practice, no source).
var (
	numberAlone = pattern.Lazily(`^\[?([0-9]{1,4})\]?$`)
	ownSpeed    = pattern.Lazily(`\b(?:rated?|rating|used?|shoot|shot|exposed?|treated|speed|effective|actual|really|belichtet|nutze|effektiv|praxis)(?: it| them| is| was| this)?(?: at| as| to| with| auf| mit| wie| à)?:? [0-9]{1,4}(?:$|[,.;:)\]]| (?:in|for|by|since|now|and|but|mostly)\b)|` +
		`\b[0-9]{1,4} (?:is what|in practice|in use|for me|works|worked|effective|really|in der praxis|en pratique)\b`)
)

// bears reports whether a speed is one that is said of the film, or none is.
func (f *film) bears(speed float64) bool {
	if f == nil || speed == f.iso || speed == f.ei || f.iso == 0 && f.ei == 0 && len(f.inLight)+len(f.inN) == 0 {
		return true
	}
	is := func(ei float64) bool { return ei == speed }
	return slices.ContainsFunc(slices.Collect(maps.Values(f.inLight)), is) || slices.ContainsFunc(slices.Collect(maps.Values(f.inN)), is)
}

// rowLike is a time among words, as in a row that is not read: 4s is 7s.
var rowLike = pattern.Lazily(`^[0-9.]+ ?(?:s|sec|secs|m|min)\b`)

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
	all := st.Terms()
	i := 0
	for &all[i] != t {
		i++
	}
	if i+1 < len(all) {
		if k, ok := all[i+1].Kind.(*lang.Loose); ok && len(k.Words) == 1 && lang.LeadsToLight[strings.ToLower(k.Words[0])] {
			i++
		}
	}
	if i+1 < len(all) && endsAt(st, i+1) {
		if k, ok := all[i+1].Kind.(*lang.Class); ok && k.EI == nil && k.Amount == nil && len(k.Names) == 1 && (k.Names[0] == handbook.Daylight || k.Names[0] == handbook.Tungsten) {
			return k.Names[0]
		}
	}
	return ""
}

// looseAt are the words that are the ith term, if it is some: the sheets of 25 sheets.
func looseAt(st *lang.Statement, i int) []string {
	if i < len(st.Terms()) {
		if k, ok := st.Terms()[i].Kind.(*lang.Loose); ok {
			return k.Words
		}
	}
	return nil
}

// readAmiss reports whether what stands behind a term is a slip that is reported as such.
func readAmiss(st *lang.Statement, t *lang.Term) bool {
	all := st.Terms()
	for i := range all {
		if &all[i] == t {
			return i+1 < len(all) && all[i+1].Unread
		}
	}
	return false
}

// lightNamed is a light as words before an index name it: in lamp light.
func lightNamed(words []string) string {
	for len(words) > 1 && (lang.LeadsToLight[strings.ToLower(words[0])] || strings.EqualFold(words[0], "the")) {
		words = words[1:]
	}
	return strings.ToLower(strings.Join(words, " "))
}

// indexRemarked is the light and the index in it that a remark behind a film's index is, and nothing more:
// EI 25 (10 in tungsten).
func indexRemarked(text string) (light string, ei float64) {
	for _, m := range [...][]string{indexThenLight().FindStringSubmatch(strings.ToLower(text)), lightThenIndex().FindStringSubmatch(strings.ToLower(text))} {
		if m == nil {
			continue
		}
		figure, words := m[1], m[2]
		if figure == "" || figure[0] < '0' || figure[0] > '9' {
			figure, words = words, figure
		}
		if light = lightNamed(strings.Fields(words)); byLamps().MatchString(light) {
			light = handbook.Tungsten // artificial light
		}
		if ei = parseFloat(figure); exposure.NearestIndex(ei) == ei && namesLight(strings.Fields(light)) {
			return light, ei
		}
	}
	return "", 0
}

var (
	indexThenLight = pattern.Lazily(`^(?:ei |iso |asa |at )?([0-9]{1,5}) ((?:in|by|under|for|with) [a-z ]+)\.?$`)
	lightThenIndex = pattern.Lazily(`^([a-z ]+?):? (?:ei |iso |asa |at )?([0-9]{1,5})\.?$`)
)

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
