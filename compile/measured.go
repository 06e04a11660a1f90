package compile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"notchbook/compile/record"
	"notchbook/compile/sensitometry"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// What is measured on a dry negative or its scan: densities, patches, and which
// sheets were exposed for a test. The lines are read in resolve.

// density is the readings of one patch by a densitometer.
type density struct {
	spot     string
	readings []float64
	at       source.Span
}

// d is the density that counts: the mean of the readings, to a tenth of what a
// densitometer shows.
func (d *density) d() float64 { return math.Round(sensitometry.Mean(d.readings)*1000) / 1000 }

// patch is a place on the picture, or the level that a linear scan has there.
type patch struct {
	name         string
	placed       bool
	across, down float64
	level        value[float64]
	at           source.Span
}

func (r *resolver) density(st *lang.Statement) {
	r.dry(st, func(sh *sheet, _ int) { r.measures(sh, st) })
}

// patch is a line of patches: of the sheets that it names, else of the scene.
func (r *resolver) patch(st *lang.Statement) {
	if len(st.Labels) > 0 {
		r.dry(st, func(sh *sheet, _ int) { r.measures(sh, st) })
		return
	}
	if r.scene == nil {
		r.report("unknown-term", st.Said, "a patch line without a label speaks of a scene, and none stands above it").
			note("for one sheet write: patch 1A: sky 0.30,0.12")
		return
	}
	t := reader{resolver: r, sheet: &sheet{}, st: st}
	t.measured()
	r.scene.patches = append(r.scene.patches, t.sheet.filed.patches...)
}

// measures takes the terms of a density or patch line into a sheet.
func (r *resolver) measures(sh *sheet, st *lang.Statement) {
	t := reader{resolver: r, sheet: sh, st: st}
	t.measured()
}

func (t *reader) measured() {
	for i := range t.st.Terms() {
		term := &t.st.Terms()[i]
		if term.Struck || term.Unread {
			continue
		}
		switch k := term.Kind.(type) {
		case *lang.Densitometer:
			if k.Zone != nil {
				t.report("unknown-term", term.Span, fmt.Sprintf("a zone has no meaning in a %s line", t.st.Word), t.real()...)
			}
			if t.st.Word == lang.Density && !term.Doubtful {
				t.densityOf(t.sheet, k, term)
			}
		case *lang.Spot:
			if t.st.Word == lang.Patch && !term.Doubtful {
				t.patchOf(t.sheet, k, term)
			}
		case *lang.Comma, *lang.Remark, *lang.Loose, *lang.Bare:
		default:
			t.report("unknown-term", term.Span, fmt.Sprintf("%s has no meaning in a %s line", quote(term.Span.Text()), t.st.Word), t.real()...)
		}
	}
}

// densityOf takes the readings of one patch. A patch that is measured again
// counts as it was measured last.
func (t *reader) densityOf(sh *sheet, k *lang.Densitometer, term *lang.Term) {
	d := density{spot: strings.Join(k.Place, " "), at: term.Span}
	for _, v := range k.D {
		d.readings = append(d.readings, float64(v))
	}
	all := &sh.filed.densities
	for i := range *all {
		if was := &(*all)[i]; strings.EqualFold(was.spot, d.spot) {
			t.again(patchName("density", d.spot), term.Span, was.at).note("several readings of one patch follow one another: card 0.72 0.73")
			*all = slices.Delete(slices.Clone(*all), i, i+1)
			break
		}
	}
	*all = append((*all)[:len(*all):len(*all)], d)
}

// patchOf takes a place, or a level, of the picture.
func (t *reader) patchOf(sh *sheet, k *lang.Spot, term *lang.Term) {
	p := patch{name: strings.Join(k.Name, " "), at: term.Span}
	if k.Across != nil {
		p.placed, p.across, p.down = true, float64(*k.Across), float64(*k.Down)
	}
	if k.Level != nil {
		p.level = known(float64(*k.Level), term.Span, false)
	}
	all := &sh.filed.patches
	for i := range *all {
		if was := &(*all)[i]; strings.EqualFold(was.name, p.name) {
			t.again(patchName("patch", p.name), term.Span, was.at)
			*all = slices.Delete(slices.Clone(*all), i, i+1)
			break
		}
	}
	*all = append((*all)[:len(*all):len(*all)], p)
}

// again reports a patch that was written before.
func (t *reader) again(what string, at, was source.Span) *finding {
	return t.report("patch-twice", at, what+" was written before; this one counts", t.real()...).note("written first here", was)
}

// patchName names a density or a place in the writer's words.
func patchName(kind, name string) string {
	if name == "" {
		return "a " + kind + " without a name"
	}
	return "the " + kind + " of " + quote(name)
}

// test gives sheets that were logged to a test of their own.
func (r *resolver) test(st *lang.Statement) {
	kind := trialOf(st)
	if kind == "" {
		said, _, _ := strings.Cut(st.Text, ",")
		r.report("test-unclear", st.Span, quote(strings.TrimSpace(said))+" is no kind of test").
			note("a test line names one first: " + kindsOfTest())
		return
	}
	r.dry(st, func(sh *sheet, _ int) { sh.test = trialSheet{kind, st} })
}

// trialSheet is the test that a line gives a sheet to.
type trialSheet struct {
	kind string
	line *lang.Statement
}

// trial reads from a scene's title what the scene tests, and reports a word that
// is nearly a kind of test.
func (r *resolver) trial(sc *scene, st *lang.Statement) {
	if sc.test = trialOf(st); sc.test != "" {
		return
	}
	said, _, _ := strings.Cut(st.Text, ",")
	word, kind, one := strings.Cut(strings.ToLower(said), " ")
	if word != "test" || !one || len(kind) < 4 {
		return
	}
	for _, of := range lang.Trials {
		if n := lang.Slips(kind, of); n > 0 && n <= 1+len(of)/8 {
			r.report("test-unclear", st.TextSpan(), quote(kind)+" is no kind of test, and nearly "+of).note("the scene is taken for a picture; the kinds are " + kindsOfTest())
			return
		}
	}
}

// testTitle is a title in which the word test stands by itself.
var testTitle = pattern.Lazily(`(?i)\btests?\b`)

// testsUntold is scenes that speak of a test, with densities of their sheets, and do not say of
// what in a way that is read: nothing would come of what was measured.
func (s *season) testsUntold() {
	measured := map[*scene][]*sheet{}
	for _, sh := range s.sheets {
		if sc := sh.scene; sc != nil && sh.tests() == "" && len(sh.filed.densities) > 0 && testTitle().MatchString(sc.title) {
			measured[sc] = append(measured[sc], sh)
		}
	}
	if len(measured) == 0 {
		return
	}
	told := map[source.Span]bool{}
	for i := range s.found {
		if s.found[i].Code == "test-unclear" {
			told[s.found[i].Span] = true
		}
	}
	for _, o := range s.outings {
		for _, sc := range o.scenes {
			if at, sheets := sc.st.TextSpan(), measured[sc]; sheets != nil && !told[at] {
				f := s.report("test-unclear", at, "it is not clear what is tested, and the densities of these sheets are put to no use", sheets...)
				f.Severity = diag.Note
				f.note("a test's scene names first what it is of, and a comma before more: scene: test filter, grey card; the kinds are " + kindsOfTest())
			}
		}
	}
}

// trialOf is what a line says that is tested, "" where it says nothing of a test.
func trialOf(st *lang.Statement) string {
	for i := range st.Terms() {
		if k, ok := st.Terms()[i].Kind.(*lang.Trial); ok {
			return k.Of
		}
	}
	return ""
}

func kindsOfTest() string {
	last := len(lang.Trials) - 1
	return strings.Join(lang.Trials[:last], ", ") + " and " + lang.Trials[last]
}

// tests is what a sheet was exposed to test: by a line of its own, else as its
// scene.
func (sh *sheet) tests() string {
	if sh.test.kind != "" {
		return sh.test.kind
	}
	if sh.scene != nil {
		return sh.scene.test
	}
	return ""
}

// measuredOn writes what was measured on a sheet: its own patches, then those of
// its scene.
func (g *gatherer) measuredOn(sh *sheet, rs *record.Sheet) {
	for i := range sh.filed.densities {
		d := &sh.filed.densities[i]
		rs.Densities = append(rs.Densities, record.Density{Spot: d.spot, D: d.d(), Readings: d.readings, Place: placeOf(d.at)})
	}
	rs.Patches = patchesOf(sh.filed.patches)
	if sh.scene != nil {
		for _, p := range patchesOf(sh.scene.patches) {
			if !slices.ContainsFunc(rs.Patches, func(own record.Patch) bool { return strings.EqualFold(own.Name, p.Name) }) {
				rs.Patches = append(rs.Patches, p)
			}
		}
	}
	rs.Test = sh.tests()
}

func patchesOf(all []patch) []record.Patch {
	var out []record.Patch
	for _, p := range all {
		out = append(out, record.Patch{
			Name: p.name, Placed: p.placed, Across: p.across, Down: p.down,
			Level: record.Figure{Value: p.level.v, Known: p.level.known}, Place: placeOf(p.at),
		})
	}
	return out
}
