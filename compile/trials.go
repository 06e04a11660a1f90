package compile

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/compile/sensitometry"
	"notchbook/lang"
	"notchbook/lang/source"
)

// The photographer's own tests, a part of gather. It finds which sheets make a
// test, what each got of light and came to in density, lays that before
// sensitometry and says in words what comes back. It changes nothing of any sheet.

// trialSeries is the sheets of one test on one film.
type trialSeries struct {
	kind   string
	what   string // "grey card"
	film   string
	light  string
	scene  *scene
	at     source.Span
	outing *outing
	sheets []*sheet

	developed string // how these were, where others of the test were otherwise
}

// tests writes every test of the season.
func (g *gatherer) tests() {
	series := g.seriesOfTests()
	for _, t := range series {
		m := newMeasuring(g, t)
		m.all = series
		switch t.kind {
		case "speed":
			m.speed()
		case "development":
			m.development()
		case "filter":
			m.filters()
		case "reciprocity":
			m.reciprocity()
		case "meter":
			m.meters()
		}
		if t.kind != "shutter" { // what a shutter gives stands in its shutter lines
			g.out.Tests = append(g.out.Tests, m.out)
		}
	}
	for _, l := range all(g.season, func(k *kit) []*lens { return k.lenses }) {
		if len(l.timings) > 0 {
			g.out.Tests = append(g.out.Tests, g.shutterTest(l))
		}
	}
	g.linkTests()
}

// linkTests leads from the things of the kit back to the tests that they name.
func (g *gatherer) linkTests() {
	for _, it := range g.out.Kit {
		for _, name := range it.Tested {
			for _, t := range g.out.Tests {
				if sameWords(t.Name, name) && !slices.Contains(it.Tests, t) {
					it.Tests = append(it.Tests, t)
				}
			}
		}
	}
}

func sameWords(a, b string) bool {
	plain := strings.NewReplacer("–", "-", "—", "-", ",", " ")
	return strings.EqualFold(strings.Join(strings.Fields(plain.Replace(a)), " "), strings.Join(strings.Fields(plain.Replace(b)), " "))
}

// seriesOfTests is the sheets of each test: those that a test line names, and of
// every scene that is a test those that none names; each film by itself.
func (g *gatherer) seriesOfTests() []*trialSeries {
	var all []*trialSeries
	byKey := map[string]*trialSeries{}
	put := func(sh *sheet, kind, what string, at source.Span, key string) {
		film := filmName(sh)
		if kind == "meter" {
			film = ""
		}
		key += "|" + strings.ToLower(film)
		if kind == "filter" {
			key += "|" + kindOfLight(sh.light)
		}
		t := byKey[key]
		if t == nil {
			t = &trialSeries{kind: kind, what: what, film: film, light: sh.light, scene: sh.scene, at: at, outing: sh.outing}
			byKey[key] = t
			all = append(all, t)
		}
		t.sheets = append(t.sheets, sh)
	}
	for _, o := range g.season.outings {
		for _, sc := range o.scenes {
			if sc.test == "meter" {
				all = append(all, &trialSeries{kind: sc.test, what: behindComma(sc.title), light: sc.light, scene: sc, at: sc.st.Span, outing: o})
			}
		}
	}
	for _, sh := range g.season.sheets {
		switch {
		case sh.isUnused() || lost(sh):
		case sh.test.kind != "":
			put(sh, sh.test.kind, behindComma(sh.test.line.Text), sh.test.line.Span, fmt.Sprint("line ", sh.test.line.Span.File.Name, sh.test.line.Span.Start))
		case sh.tests() != "" && sh.tests() != "meter":
			put(sh, sh.scene.test, behindComma(sh.scene.title), sh.scene.st.Span, fmt.Sprintf("scene %p", sh.scene))
		}
	}
	slices.SortStableFunc(all, func(a, b *trialSeries) int { return cmp.Compare(g.placeInBooks(a), g.placeInBooks(b)) })
	return byDevelopment(all)
}

// placeInBooks orders tests as the notes have them.
func (g *gatherer) placeInBooks(t *trialSeries) int {
	for i, b := range g.books {
		if b.File == t.at.File {
			return i<<32 + t.at.Start
		}
	}
	return t.at.Start
}

func behindComma(text string) string {
	_, rest, _ := strings.Cut(text, ",")
	return strings.TrimSpace(rest)
}

// measuring is one test in the making.
type measuring struct {
	*gatherer
	series *trialSeries
	all    []*trialSeries // of the season
	out    *record.Test

	clocked map[*sheet]*assessment // see byClock

	fog     map[*sheet]float64 // of sheets of which it was read
	fogSd   map[*sheet]float64
	meanFog float64
	hasFog  bool

	fogAlike  bool // one base and fog for all
	meanFogSd float64

	sd     float64 // of one reading of the densitometer
	stated bool    // sd is from repeated readings
	based  bool    // every sheet has a reading
	lux    bool    // exposures are in lux seconds
	spots  map[*sheet][]density
}

func newMeasuring(g *gatherer, t *trialSeries) *measuring {
	m := &measuring{gatherer: g, series: t, clocked: map[*sheet]*assessment{}, spots: map[*sheet][]density{}}
	name := testName(t)
	title := strings.ToUpper(testTitles[t.kind][:1]) + testTitles[t.kind][1:]
	if t.film != "" {
		title += ", " + t.film
	}
	if t.what != "" {
		title += ": " + t.what
	}
	if t.developed != "" {
		title += ", developed " + t.developed
	}
	m.out = &record.Test{
		Kind: t.kind, Name: name, Title: title, Slug: g.slugs.unique("test "+name+" "+t.kind, "test"), Film: t.film, Light: t.light, Place: placeOf(t.at),
	}
	for _, sh := range t.sheets {
		m.out.Sheets = append(m.out.Sheets, g.sheet[sh])
		m.spots[sh] = m.densitiesOf(sh)
	}
	m.withoutChanged()
	m.readings()
	return m
}

// withoutChanged leaves out the sheets whose light changed nobody knows by how much, but where all are such.
func (m *measuring) withoutChanged() {
	sure := slices.DeleteFunc(slices.Clone(m.series.sheets), func(sh *sheet) bool { return sh.lightWent() != "" })
	if len(sure) == 0 || len(sure) == len(m.series.sheets) {
		return
	}
	for _, sh := range m.series.sheets {
		if said := sh.lightWent(); said != "" {
			m.need("by how much the light changed on " + sh.shown + ", " + quote(said) + ", which the results are without: it is written light fell 1 stop")
		}
	}
	m.series.sheets = sure
}

// byDevelopment parts tests whose sheets were developed in different ways: no curve is of two developments. Sheets of which no
// development is said are with the others where these have one.
func byDevelopment(all []*trialSeries) []*trialSeries {
	var parted []*trialSeries
	for _, t := range all {
		if t.kind == "development" || t.kind == "meter" {
			parted = append(parted, t)
			continue
		}
		var of []*trialSeries
		var ways []processed
		var unsaid []*sheet
		for _, sh := range t.sheets {
			as := lastDeveloped(sh)
			if !as.said() {
				unsaid = append(unsaid, sh)
				continue
			}
			i := slices.IndexFunc(ways, func(other processed) bool { return !as.differs(&other) })
			if i < 0 {
				i = len(of)
				part := *t
				part.sheets, part.developed = nil, as.String()
				of, ways = append(of, &part), append(ways, as)
			}
			of[i].sheets = append(of[i].sheets, sh)
		}
		if len(of) < 2 {
			parted = append(parted, t)
			continue
		}
		if parted = append(parted, of...); len(unsaid) > 0 {
			rest := *t
			rest.sheets, rest.developed = unsaid, "in a way that is not said"
			parted = append(parted, &rest)
		}
	}
	return parted
}

// processed is how a sheet was last developed, as far as that makes another curve; nothing of it may be said.
type processed struct {
	n                value[float64]
	seconds, celsius float64
}

func lastDeveloped(sh *sheet) (as processed) {
	for _, d := range slices.Backward(sh.developed) {
		if !d.maybe {
			as.n = d.n
			break
		}
	}
	as.seconds, _ = developedFor(sh)
	as.celsius = degreesOf(sh)
	return as
}

// said reports whether anything is.
func (as *processed) said() bool { return as.n.known || as.seconds != 0 || as.celsius != 0 }

// differs reports whether what is said of two developments is not the same.
func (as *processed) differs(other *processed) bool {
	unlike := func(a, b float64) bool { return a != 0 && b != 0 && a != b }
	return as.n.known && other.n.known && as.n.v != other.n.v || unlike(as.seconds, other.seconds) || unlike(as.celsius, other.celsius)
}

func (as *processed) String() string {
	var all []string
	if as.n.known {
		all = append(all, nText(as.n.v))
	}
	if as.seconds != 0 {
		all = append(all, exposure.FormatTime(as.seconds))
	}
	if as.celsius != 0 {
		all = append(all, trim(as.celsius)+" °C")
	}
	return strings.Join(all, ", ")
}

// kit is what the notebook of the test knows.
func (m *measuring) kit() *kit { return m.series.outing.book.kit }

var testTitles = map[string]string{
	"speed": "film speed", "development": "development", "filter": "filters", "reciprocity": "reciprocity", "shutter": "shutter", "meter": "meters",
}

// testName is the day and the sheets: 2026-11-07 T1-T9.
func testName(t *trialSeries) string {
	var labels []string
	for _, sh := range t.sheets {
		labels = append(labels, sh.shown)
	}
	text := strings.Join(labels, " ")
	if n := len(labels); n > 2 && slices.Equal(lang.Expand(labels[0]+"-"+labels[n-1]), labels) {
		text = labels[0] + "-" + labels[n-1]
	}
	if len(labels) == 0 {
		text = t.what
	}
	return strings.TrimSpace(cmp.Or(t.outing.iso, t.outing.date) + " " + text)
}

// densitiesOf is what was read on a sheet, by the densitometer or off a linear
// scan that shows the wedge too.
func (m *measuring) densitiesOf(sh *sheet) []density {
	all := slices.Clone(sh.filed.densities)
	var level, step []float64
	for _, p := range sh.filed.patches {
		if d, ok := m.wedge(sh)[strings.ToLower(p.name)]; ok && p.level.known && p.level.v > 0 {
			level, step = append(level, -math.Log10(p.level.v)), append(step, d)
		}
	}
	if len(level) < 3 {
		return all
	}
	scale, err := sensitometry.NewCurve(level, step)
	if err != nil {
		return all
	}
	for _, p := range sh.filed.patches {
		if _, isStep := m.wedge(sh)[strings.ToLower(p.name)]; isStep || !p.level.known || p.level.v <= 0 {
			continue
		}
		if d, ok := scale.Density(-math.Log10(p.level.v)); ok {
			all = append(all, density{spot: p.name, readings: []float64{d}, at: p.at})
		} else {
			m.need(fmt.Sprintf("%s of %s lies outside the wedge on its scan", quote(p.name), sh.shown))
		}
	}
	return all
}

// readings finds the error of the densitometer and whether every sheet has a
// reading of the light.
func (m *measuring) readings() {
	var patches [][]float64
	m.based, m.lux = true, len(m.series.sheets) > 0
	for _, sh := range m.series.sheets {
		for i := range m.spots[sh] {
			patches = append(patches, m.spots[sh][i].readings)
		}
		m.based = m.based && sh.sum.hasBase
		m.lux = m.lux && sh.lux.known
	}
	if m.sd, m.stated = sensitometry.ReadingError(patches); !m.stated {
		m.sd = 0.02
	}
	m.fogs(m.series.sheets)
}

// fogs finds the base and fog of sheets. What was developed together has one, the
// mean of all readings of it, unless the sheets differ by more than the readings'
// own error makes: then each has its own.
func (m *measuring) fogs(sheets []*sheet) {
	var all, means, counts []float64
	m.fog, m.fogSd = map[*sheet]float64{}, map[*sheet]float64{}
	for _, sh := range sheets {
		var own []float64
		for i := range m.spots[sh] {
			if d := &m.spots[sh][i]; isFog(d.spot) {
				own = append(own, d.readings...)
			}
		}
		if n := float64(len(own)); n > 0 {
			m.fog[sh], m.fogSd[sh] = sensitometry.Mean(own), m.sd/math.Sqrt(n)
			all, means, counts = append(all, own...), append(means, m.fog[sh]), append(counts, n)
		}
	}
	if m.hasFog = len(all) > 0; !m.hasFog {
		return
	}
	m.meanFog = sensitometry.Mean(all)
	m.fogAlike = sensitometry.Alike(means, counts, m.sd)
	m.meanFogSd = m.sd / math.Sqrt(float64(len(all)))
}

// film is the curve of sheets that were developed together; the points then stand
// over the base and fog that the curve stands over.
func (m *measuring) film(points []point, sheets int) (*sensitometry.Film, error) {
	fog := 0.
	switch {
	case m.fogAlike:
		fog = m.meanFogSd
	case !m.hasFog:
		fog = math.NaN()
	}
	film, err := sensitometry.NewFilm(readingsOf(points), sheets, fog)
	if err != nil {
		return nil, err
	}
	for i := range points {
		points[i].D -= film.Fog.Off
	}
	switch of := film.Fog; {
	case of.Differ:
		m.note("the densities four stops and more below the speed point are not those of the base and fog that was read; it stands as it was read")
	case of.Sd != fog && of.Steps > 0:
		m.note("the base and fog is known to ±%.3f by its own readings, and to ±%.3f with the %s four stops and more below the speed point, where no exposure is left", fog, of.Sd, countOf(of.Steps, "density"))
	}
	return film, nil
}

// errorNote says where the errors come from.
func (m *measuring) errorNote() {
	if m.stated {
		m.note("errors are one standard error, from the densitometer's own: %.3f a reading, by the patches that were read more than once", m.sd)
		m.fogNote()
		return
	}
	defer m.fogNote()
	m.note("errors are one standard error, with 0.02 for a reading of the densitometer (common practice, no source): patches that are read several times tell it")
}

// fogNote says what the densities stand over.
func (m *measuring) fogNote() {
	switch {
	case m.fogAlike:
		m.note("the base and fog of sheets that were developed together is one: the mean of all readings of it, and its error is in the figures")
	case m.hasFog:
		m.note("the base and fog differs between the sheets by more than its readings' error: each sheet stands over its own")
	}
}

func (m *measuring) note(format string, args ...any) {
	m.out.Notes = append(m.out.Notes, fmt.Sprintf(format, args...))
}

func (m *measuring) need(what string) {
	if !slices.Contains(m.out.Needs, what) {
		m.out.Needs = append(m.out.Needs, what)
	}
}

// exposed is how the exposure of a sheet is counted.
type exposed struct {
	byClock  bool // without reciprocity
	filtered bool // the filters' costs are what is sought
}

// light is the log10 exposure of a sheet's main patch: of stops from Zone V at the
// film's index where the light was read, of lux seconds by a sensitometer, else of
// stops by the settings alone.
func (m *measuring) light(sh *sheet, spot string, how exposed) (logH float64, ok bool) {
	if m.lux {
		return math.Log10(sh.lux.v), true
	}
	a := &sh.sum
	if how.byClock {
		a = m.byClock(sh)
	}
	if !a.hasGave {
		return 0, false
	}
	given := a.given
	stops := -given - a.bellows
	if !how.filtered {
		for _, u := range a.owes {
			if u.cost != nil && !u.inside {
				stops -= u.cost.stops
			}
		}
	}
	if m.based {
		stops += m.areaEV(sh, spot)
	}
	if sh.lightBy.known {
		stops += sh.lightBy.v
	}
	return stops * sensitometry.Stop, true
}

// byClock is what a sheet got by the clock alone: whatever is known or not of the
// film's reciprocity.
func (m *measuring) byClock(sh *sheet) *assessment {
	if m.clocked[sh] == nil {
		with, f := *sh, film{}
		if known := m.filmOf(sh); known != nil {
			f = *known
		}
		f.rule = exposure.None(0)
		with.film.v, with.film.known = &f, true
		m.assessAlone(&with)
		m.clocked[sh] = &with.sum
	}
	return m.clocked[sh]
}

// areaEV is the light of the patch: of the area of its name, of the only area that
// was metered, else of the reading as a whole.
func (m *measuring) areaEV(sh *sheet, spot string) float64 {
	for _, f := range sh.sum.fells {
		if strings.EqualFold(f.Name, spot) {
			return f.EV
		}
	}
	if len(sh.sum.fells) == 1 {
		return sh.sum.fells[0].EV
	}
	return sh.sum.base
}

// point is one density with where it is from.
type point struct {
	sensitometry.Reading
	sheet *sheet
	spot  string
}

// points are the densities of sheets over base and fog, with their exposures.
func (m *measuring) points(sheets []*sheet, how exposed) []point {
	var all []point
	steps := false
	for i, sh := range sheets {
		fog, fogSd := m.fog[sh], m.fogSd[sh]
		if m.fogAlike || fogSd == 0 {
			fog, fogSd = m.meanFog, 0 // its error is common to all, and the curve's
		}
		for k := range m.spots[sh] {
			d := &m.spots[sh][k]
			if isFog(d.spot) {
				continue
			}
			x, ok := m.light(sh, d.spot, how)
			if !ok {
				m.need("for " + sh.shown + ": " + cmp.Or(strings.Join(sh.sum.needs, "; "), "what it got"))
				continue
			}
			if isStep(d.spot) {
				behind, known := m.wedge(sh)[strings.ToLower(d.spot)]
				if steps = steps || !known; !known {
					continue
				}
				x -= behind
			}
			n := math.Sqrt(float64(len(d.readings)))
			all = append(all, point{sensitometry.Reading{Sheet: i, LogH: x, D: sensitometry.Mean(d.readings) - fog, Sd: math.Hypot(m.sd/n, fogSd)}, sh, d.spot})
		}
	}
	if steps {
		m.need("the densities of the wedge's steps: wedge: step 1 0.05, step 2 0.20, …")
	}
	if !m.hasFog && len(all) > 0 {
		m.need("the base and fog: density " + m.series.sheets[0].shown + ": base+fog 0.07")
	}
	return all
}

// measured is the sheets that a density was read on beside the base and fog: of the
// others, which are named, a test knows nothing.
func (m *measuring) measured() (all []*sheet) {
	var bare []string
	for _, sh := range m.series.sheets {
		if slices.ContainsFunc(m.spots[sh], func(d density) bool { return !isFog(d.spot) }) {
			all = append(all, sh)
		} else {
			bare = append(bare, sh.shown)
		}
	}
	if len(all) > 0 && len(bare) > 0 {
		m.need("the density of " + strings.Join(bare, " ") + ", which the results are without")
	}
	return all
}

func isStep(spot string) bool { return strings.HasPrefix(strings.ToLower(spot), "step ") }

func readingsOf(all []point) []sensitometry.Reading {
	var out []sensitometry.Reading
	for i := range all {
		out = append(out, all[i].Reading)
	}
	return out
}

// odd names the sheets that do not belong, with what else is known of them.
func (m *measuring) odd(sheets []*sheet, all []sensitometry.Odd) {
	for _, o := range all {
		rs := m.sheet[sheets[o.Sheet]]
		odd := record.OddSheet{Sheet: rs}
		way := "more"
		if o.Off < 0 {
			way = "less"
		}
		if o.InD {
			odd.Off = fmt.Sprintf("its density is %.2f %s than the others make it", math.Abs(o.Off), map[string]string{"more": "higher", "less": "lower"}[way])
		} else {
			odd.Off = fmt.Sprintf("it got %s %s than the others make it", exposure.InStops(math.Abs(o.Off)), way)
		}
		if len(o.Or) > 0 {
			var others []string
			for _, i := range o.Or {
				odd.Or = append(odd.Or, m.sheet[sheets[i]])
				others = append(others, sheets[i].shown)
			}
			odd.Off += "; or it does, and " + strings.Join(others, " or ") + " does not: the densities do not tell which, and " + map[bool]string{true: "the results stand between them", false: "the results are without all of them"}[o.Held]
		}
		for _, rs := range append([]*record.Sheet{rs}, odd.Or...) {
			odd.Known = append(odd.Known, knownOf(rs)...)
		}
		m.out.Odd = append(m.out.Odd, odd)
	}
	if len(all) > 0 {
		m.note("each sheet in turn is let off by as much as it likes, and that by which the fit gains most is the one that does not belong, where so much would come by chance in one series of a hundred (mean shift outlier model: Cook and Weisberg 1982); the others are weighed by Huber's function (1964)")
	}
}

// knownOf is what else is known of a sheet that does not belong.
func knownOf(rs *record.Sheet) (all []string) {
	for _, f := range rs.Findings {
		if f.Code != "unchecked" {
			all = append(all, f.Message)
		}
	}
	all = append(all, rs.Remarks...)
	if rs.Lost != "" {
		all = append(all, "lost: "+rs.Lost)
	}
	for _, c := range rs.History {
		all = append(all, c.How+": "+strings.TrimSpace(c.Was+" "+c.Now))
	}
	return all
}

// withinStops is a standard error as it is spoken.
func withinStops(sd float64) string {
	switch {
	case sd == 0 || math.IsNaN(sd):
		return ""
	case sd < 1./24:
		return ", ±0.03 stop or less"
	}
	return fmt.Sprintf(", ±%.2f stop", sd)
}

// curvePlot is a characteristic curve with the points that it is from.
func (m *measuring) curvePlot(title string, curves []namedCurve, points []point, odd []sensitometry.Odd) *record.TestPlot {
	p := &record.TestPlot{Title: title, Kind: record.Characteristic, X: "log₁₀ of the exposure, 0 is Zone V", Y: "density over base and fog"}
	switch {
	case m.lux:
		p.X = "log₁₀ of the exposure in lux seconds"
	case !m.based:
		p.X = "log₁₀ of the exposure, by the settings alone"
	}
	for _, c := range curves {
		line := record.PlotLine{Name: c.name, Joined: true}
		x, d := c.curve.Points(60)
		for i := range x {
			line.Points = append(line.Points, [2]float64{x[i], d[i]})
		}
		p.Lines = append(p.Lines, line)
	}
	dots := record.PlotLine{}
	marked, out := map[int]bool{}, sensitometry.OutOf(odd)
	for _, pt := range points {
		dots.Points = append(dots.Points, [2]float64{pt.LogH, pt.D})
		if slices.Contains(out, pt.Sheet) && !marked[pt.Sheet] {
			marked[pt.Sheet] = true
			p.Marks = append(p.Marks, record.PlotMark{At: [2]float64{pt.LogH, pt.D}, Text: pt.sheet.shown, Odd: true})
		}
	}
	p.Lines = append(p.Lines, dots)
	return p
}

type namedCurve struct {
	name  string
	curve *sensitometry.Curve
}

// from is the record's sheets of a test but for those that do not belong.
func (m *measuring) from(sheets []*sheet, odd []sensitometry.Odd) []*record.Sheet {
	var all []*record.Sheet
	for i, sh := range sheets {
		if !slices.Contains(sensitometry.OutOf(odd), i) {
			all = append(all, m.sheet[sh])
		}
	}
	return all
}

// shortTimes is what a test of reciprocity has its curve from.
const shortTimes = "four exposures that differ at times of no reciprocity failure, for the film's curve: say, 1/2 s at f5.6, f8, f11 and f16"

// failed says why a curve could not be made.
func (m *measuring) failed(err error) {
	switch {
	case err == sensitometry.ErrTooFew && m.series.kind == "reciprocity":
		m.need(shortTimes)
		return
	case err == sensitometry.ErrTooFew:
		m.need("more densities: a curve takes at least four, on different exposures")
		return
	}
	m.need(err.Error())
}

// supersedes reports a test of the same kind that a line of the kit names: its
// figure makes room for the new one.
func (m *measuring) supersedes(care string) bool {
	name, isTest := strings.CutPrefix(care, "test ")
	return isTest && slices.ContainsFunc(m.all, func(t *trialSeries) bool {
		return t.kind == m.series.kind && sameWords(testName(t), name)
	})
}

// kitTest is what a line that is offered says of its test.
func (m *measuring) kitTest() string { return "test " + m.out.Name }

// filmLine is the film's line of the kit as it could be: as it stands, but for the
// terms that a figure replaces.
func (m *measuring) filmLine(figure string, replaces func(kind any) bool) string {
	var parts []string
	if f := m.filmOf(m.series.sheets[0]); f != nil && f.at != nil {
		for i := range f.at.Terms() {
			t := &f.at.Terms()[i]
			if care, ok := t.Kind.(*lang.Care); ok && m.supersedes(care.Text) {
				continue
			}
			switch t.Kind.(type) {
			case *lang.Comma, *lang.Remark, *lang.Loose, *lang.Bare:
				continue
			}
			if !t.Struck && !t.Unread && !replaces(t.Kind) {
				parts = append(parts, t.Span.Text())
			}
		}
	}
	return "film " + m.series.film + ": " + strings.Join(append(parts, figure, m.kitTest()), ", ")
}
