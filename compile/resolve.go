package compile

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/source"
)

// resolve assumes the kit. It walks each book from top to bottom with what
// holds at that point (the scope), and leaves outings, scenes and sheets in
// which every fact that the notes give stands at its sheet: chosen, copied by
// same, carried from the sheet before, or amended later. It judges nothing.

// scope is what holds until changed.
type scope struct {
	camera  *camera
	lens    *lens
	film    *film
	rated   value[float64] // exposure index said with the film
	filters []*use
	light   string
	former  lightLine // of the scene before, while this one has none
	reading *reading
	ended   int             // the line of the heading that ended a reading, while there is no other
	scan    *lang.Statement // pattern
	wedge   map[string]float64
	wanted  value[float64] // development, unless a sheet says otherwise
	lost    unheard
}

// lightLine is the condition of the light, and the line that says so.
type lightLine struct {
	words string
	at    source.Span
	ofDay bool // said before the first scene of its day, and so perhaps of all
}

// ahead is what was chosen since the last sheet with no scene begun in between:
// said before a scene's line it is meant for that scene, there being no sheet that it
// could have been for.
type ahead struct{ filters, light bool }

// unheard is, by log word, the line that would have chosen something and was not
// read: what it left open is unknown, and not what held before it.
type unheard struct{ meter, filter, lens, film, speed int }

// of is where a word's line number is kept, nil for words that choose nothing
// the arithmetic rests on.
func (l *unheard) of(w lang.Word) *int {
	switch w {
	case lang.Meter:
		return &l.meter
	case lang.FilterWord:
		return &l.filter
	case lang.Lens:
		return &l.lens
	case lang.Film:
		return &l.film
	case lang.FilmSpeed:
		return &l.speed
	}
	return nil
}

type resolver struct {
	*season
	book     *book
	outing   *outing
	scene    *scene
	defaults scope // chosen before the first day
	now      scope
	lit      lightLine // the last that was said of the light on this day
	ahead    ahead
	unused   *reading // of a meter line below which no sheet stands yet
	bare     bool     // the scene has begun and has no sheet yet
	dayed    bool
	yearless bool               // a day without a year was reported
	passed   int                // line of the notebook, up to which unread ones were seen
	heading  string             // the last heading of the first level
	headed   int                // its place among the entries of the outing it stands in
	drawer   *drawer            // of the notebook
	holders  map[string]*holder // of the drawer
	bearers  map[string]*sheet  // of negative numbers
	filled   map[string]bool    // labels of the notebook that are holders'
	reused   []reuse
	amends   map[amended][]*lang.Statement
	register *register[*sheet]
	loggedIn map[string][]*outing // those of each label, for notes of the darkroom; nil until asked for
	byLabel  map[string]*sheet
	byPath   map[string]*scanRef
	logged   map[string]bool  // labels of sheets, here and further on; nil until asked for
	lenses   map[string]*lens // named and declared nowhere
	films    map[string]*film

	patternOf map[*outing]*lang.Statement
	tones     map[*lang.Statement]tone // what scan lines say of how their files were made

	undated *undated // a date above the next sheet that no day line says
	stretch int      // of sheets; another begins where such a date stands above one

	line sheet // that a meter line fills as if it were one
}

// holder is the state of a holder side as far as the notes tell.
type holder struct {
	film    string
	rated   value[float64] // exposure index said of this film in this side
	load    *lang.Statement
	exposed *sheet
}

func (s *season) resolve() {
	r := &resolver{
		season: s, bearers: map[string]*sheet{}, register: newRegister[*sheet](),
		byLabel: map[string]*sheet{}, byPath: map[string]*scanRef{},
		lenses: map[string]*lens{}, films: map[string]*film{}, patternOf: map[*outing]*lang.Statement{}, tones: map[*lang.Statement]tone{},
	}
	s.dated = map[lang.Label]*sheet{}
	s.drawers()
	none := newDrawer() // of notebooks that speak of no holder
	for _, b := range s.books {
		if b.drawer == nil {
			b.drawer = none
		}
		r.notebook(b)
	}
	r.stillReused()
	r.tellApart()
	r.patterns()
	r.shareTones()
	for i, sh := range s.sheets {
		sh.index = i
	}
}

func (r *resolver) notebook(b *book) {
	r.drawer, r.holders = b.drawer, b.drawer.holders
	r.book, r.outing, r.scene, r.dayed, r.heading, r.passed, r.undated = b, nil, nil, false, "", 0, nil
	r.defaults, r.now = r.only(), r.only()
	r.amends, r.filled = r.amendments(b), filled(b)
	r.walk(b.Prose)
	r.pass(math.MaxInt)
	if o := r.outing; !r.dayed && o != nil && r.heading != "" {
		o.title = r.heading
		o.entries = slices.Delete(o.entries, r.headed, r.headed+1)
	}
}

// only is the scope at the top of a notebook: the only camera, lens or film of
// the kit is the one in use.
func (r *resolver) only() scope {
	sc := scope{wanted: r.book.kit.wanted}
	if len(r.book.kit.cameras) == 1 {
		sc.camera = r.book.kit.cameras[0]
	}
	if len(r.book.kit.lenses) == 1 {
		sc.lens = r.book.kit.lenses[0]
	}
	if len(r.book.kit.films) == 1 {
		sc.film = r.book.kit.films[0]
	}
	return sc
}

// walk goes through goldmark's tree in the order of the text. A list or quote
// that holds log lines is opened; other prose stays whole.
func (r *resolver) walk(parent ast.Node) {
	for n := parent.FirstChild(); n != nil; n = n.NextSibling() {
		switch line, isLog := n.(*lang.LogLine); {
		case isLog:
			r.statement(line.Statement)
		case holdsLogLines(n):
			r.walk(n)
		default:
			r.prose(n)
		}
	}
}

func holdsLogLines(n ast.Node) bool {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if c.Kind() == lang.KindLogLine || c.Type() == ast.TypeBlock && holdsLogLines(c) {
			return true
		}
	}
	return false
}

// prose keeps a piece of prose where it stands. A heading ends the reading, as
// a scene does.
func (r *resolver) prose(n ast.Node) {
	if h, ok := n.(*ast.Heading); ok {
		if r.now.reading != nil {
			r.now.reading, r.now.ended = nil, r.lineOf(h)
		}
		if h.Level == 1 {
			r.heading, r.headed = evenly(plainText(h, r.book)), len(r.ground().entries)
		}
	}
	r.ground().entries = append(r.ground().entries, entry{prose: n})
	r.beginsDay(n)
}

// lineOf is the number of the line on which a heading stands.
func (r *resolver) lineOf(h *ast.Heading) int {
	if h.Lines().Len() == 0 {
		return 0
	}
	return placeOf(source.Span{File: r.book.File, Start: h.Lines().At(0).Start, End: h.Lines().At(0).Stop}).Line
}

// ground is the outing in which things stand: before the first day, one
// without a date.
func (r *resolver) ground() *outing {
	if r.outing == nil {
		r.outing = &outing{book: r.book}
		r.outings = append(r.outings, r.outing)
	}
	return r.outing
}

// pass looks for lines before an offset that were not read and takes note of
// what they leave open.
func (r *resolver) pass(to int) {
	for ; r.passed < len(r.book.Lines) && r.book.Lines[r.passed].Start < to; r.passed++ {
		meant := r.book.Lines[r.passed].Meant
		if kept := r.now.lost.of(meant); kept != nil {
			*kept = r.passed + 1
			r.ahead.filters = r.ahead.filters || meant == lang.FilterWord && !r.bare
		}
		if meant == lang.Amend {
			r.corrected(r.passed)
		}
		if meant == lang.Sheet && r.passed > 0 && r.book.Lines[r.passed-1].Kind == lang.Log {
			r.brokenOff(r.passed + 1)
		}
	}
}

// corrected leaves the sheets unclear that a line of prose puts right: the one whose label it
// has, else the last. Where it says that another label was meant, it is both.
func (r *resolver) corrected(line int) {
	l := &r.book.Lines[line]
	text := string(r.book.File.Text[l.Body:l.BodyEnd])
	var all []*sheet
	for _, label := range lang.LabelsIn(text, func(label string) bool { return r.named(label) != nil }) {
		all = append(all, r.named(label))
	}
	if label, _ := lang.Corrects(text, r.names); len(r.sheets) > 0 && (label != "" || len(all) == 0) {
		last := r.sheets[len(r.sheets)-1]
		last.mislabelled = last.mislabelled || label != ""
		all = append(all, last)
	}
	for _, sh := range all {
		if sh.unclear == "" {
			sh.unclear = fmt.Sprintf("the correction on line %d", line+1) + notRead
		}
	}
}

// brokenOff makes the sheets of the last line unclear: what it says goes on in
// the line below it, which is not read.
func (r *resolver) brokenOff(line int) {
	for i := len(r.sheets) - 1; i >= 0 && r.sheets[i].lines[0] == r.sheets[len(r.sheets)-1].lines[0]; i-- {
		if sh := r.sheets[i]; sh.unclear == "" {
			sh.unclear = fmt.Sprintf("the words on line %d", line) + notRead
		}
	}
}

// heard is a statement that chooses anew. A meter and a filter line may also keep what was.
func (r *resolver) heard(st *lang.Statement) {
	if st.Word == lang.Meter || st.Word == lang.FilterWord {
		return
	}
	if kept := r.now.lost.of(st.Word); kept != nil && !declaration(st) {
		*kept = 0
	}
}

func (r *resolver) statement(st *lang.Statement) {
	r.pass(st.Span.Start)
	r.heard(st)
	switch st.Word {
	case lang.Day:
		r.day(st)
	case lang.Scene:
		r.newScene(st)
	case lang.Sheet:
		r.sheetsOfNoDay()
		r.sheetLine(st)
		return
	default:
		if act, ok := actions[st.Word]; ok && !declaration(st) {
			act(r, st)
		}
		r.ground().entries = append(r.ground().entries, entry{line: st})
	}
}

// actions are the words that change what holds, or speak of sheets logged.
var actions = map[lang.Word]func(*resolver, *lang.Statement){
	lang.LightWord: (*resolver).light, lang.Camera: (*resolver).chooseCamera, lang.Lens: (*resolver).chooseLens,
	lang.Film: (*resolver).chooseFilm, lang.FilterWord: (*resolver).chooseFilters, lang.Meter: (*resolver).meter,
	lang.HolderWord: (*resolver).holder, lang.Sleeve: (*resolver).sleeve,
	lang.Print: (*resolver).print, lang.Result: (*resolver).result, lang.Density: (*resolver).density, lang.Patch: (*resolver).patch, lang.Test: (*resolver).test,
	lang.Neg: (*resolver).negatives, lang.Wedge: (*resolver).wedgeBehind,
	lang.Load: (*resolver).load, lang.Develop: (*resolver).develop, lang.Scan: (*resolver).scan, lang.Amend: (*resolver).amend,
}

// declares reports whether a label makes the line a declaration.
func declares(w lang.Word) bool {
	switch w {
	case lang.Camera, lang.Lens, lang.Film, lang.FilterWord, lang.Meter:
		return true
	}
	return false
}

// declaration reports whether a line declares a thing.
func declaration(st *lang.Statement) bool {
	return len(st.Labels) > 0 && declares(st.Word) && !readsBy(st)
}

// day starts an outing; what was chosen before the first day returns.
func (r *resolver) day(st *lang.Statement) {
	_, length, ambiguous, lent := dayLine(r.book, st)
	date, iso, where := dayOf(r.book, st)
	if lent != nil && !lent.said {
		lent.said = true
		r.report("year-from-heading", source.Span{File: r.book.File, Start: lent.from, End: lent.to}, "the days below that have no year are taken to be of "+lent.year)
	}
	if ambiguous {
		r.ambiguous(date, st.TextSpan().Sub(0, length)).
			note("write it with the month's name, or year first: 2026-11-07 is the seventh of November; until then the day has no place among the others")
	}
	r.noSuchDay(st, date, iso, length, ambiguous)
	o := &outing{date: evenly(date), iso: iso, place: evenly(where), book: r.book, at: st.TextSpan()}
	o.adrift = length == 0 && r.datesDays()
	r.introduction(o)
	if !r.dayed {
		r.defaults = r.now
		r.defaults.reading, r.defaults.ended = nil, 0
	}
	pattern, wedge := r.now.scan, r.now.wedge
	r.dayed, r.outing, r.scene, r.now = true, o, nil, r.defaults
	r.ahead, r.bare, r.lit, r.undated = ahead{}, false, lightLine{}, nil
	r.now.scan, r.now.wedge = pattern, wedge
	r.outings = append(r.outings, o)
	o.entries = append(o.entries, entry{line: st})
}

// ambiguous reports a date of which nobody can say which figure is the month.
func (r *resolver) ambiguous(date string, at source.Span) *finding {
	return r.report("date-ambiguous", at, "which of the two figures of "+date+" is the month is not clear")
}

// dayOf is the date of a day line, as typed, with the year of a heading behind it, and as
// YYYY-MM-DD, and its place. What stands in brackets between the two is said of the day: 20
// May 1991 [Whit Monday], mill.
func dayOf(b *book, st *lang.Statement) (date, iso, place string) {
	iso, length, _, lent := dayLine(b, st)
	if length > 0 {
		length += len(besideDate().FindString(st.Text[length:]))
	}
	date, place = st.Text[:length], st.Text[length:]
	if lent != nil {
		date += " " + lent.year
	}
	if length == 0 {
		date, place, _ = strings.Cut(st.Text, ",")
	}
	return strings.TrimSpace(strings.TrimRight(date, " \t,;:")), iso, strings.TrimRight(strings.TrimLeft(place, " ,.;:"), " ,")
}

var besideDate = lang.Lazily(`^\s*(?:\([^()]*\)|\[[^\[\]]*\])(?:\s*[,;:])`)

// laterDate is the first date that stands further on in a text, as typed, "" where none does.
func laterDate(b *book, text string) string {
	for i := 1; i < len(text); i++ {
		if !strings.ContainsRune(" \t,;(", rune(text[i-1])) {
			continue
		}
		if iso, length, ambiguous := dateIn(b, text[i:]); iso != "" || ambiguous {
			return text[i : i+length]
		}
	}
	return ""
}

// noSuchDay reports a date that is none, and one that was not understood though it
// has a year.
func (r *resolver) noSuchDay(st *lang.Statement, date, iso string, length int, ambiguous bool) {
	at := st.TextSpan().Sub(0, min(len(date), len(st.Text)))
	_, yearless := lang.DayOfYear(st.Text)
	later := ""
	if length == 0 {
		later = laterDate(r.book, st.Text)
	}
	switch {
	case ambiguous:
	case length > 0 && iso == "":
		r.report("impossible-date", at, "there is no such day as "+date)
	case iso != "" && iso < firstPhotograph:
		r.report("impossible-date", at, "nobody photographed in the year "+iso[:4])
	case iso != "" && lang.Weekday(date) != "" && !lang.IsOn(iso, strings.ToLower(lang.Weekday(date))):
		r.report("weekday-disagrees", at, iso+" is a "+lang.WeekdayOf(iso)+", and "+lang.Weekday(date)+" is written").note("the date counts")
	case length == 0 && dateLike().MatchString(strings.ToLower(date)):
		r.report("date-not-read", at, quote(date)+" is not understood as a date").
			note("write " + cmp.Or(laterFirst(later), "the year first, 2026-11-07, or the month by its name") + "; as it stands the day has no place among the others")
	case length == 0 && yearless > 0 && (r.datesDays() || !r.yearless):
		r.yearless = true
		r.report("day-without-date", at, quote(date)+" has no year, and so no place among the others").
			note("write the year behind it, or above its days in a heading that is a year and no more: # 1983")
	case length == 0 && yearless == 0 && r.datesDays():
		r.report("day-without-date", st.TextSpan(), "this day has no date, and so no place among the others").
			note("write " + cmp.Or(laterFirst(later), "it behind the word, as far as it is known: day: 2026-11-07, place") + "; as it stands the day counts behind those of its notebook that stand above it, or behind all")
	}
}

// laterFirst is how to write a date that stands further on in its line.
func laterFirst(later string) string {
	if later == "" {
		return ""
	}
	return "the date first: day: " + later + ", …"
}

// datesDays reports whether any day of the season has a whole date.
func (s *season) datesDays() bool {
	if s.dates == 0 {
		s.dates = 1
		for _, b := range s.books {
			for _, st := range b.Statements {
				if st.Word != lang.Day {
					continue
				}
				if iso, _, _, _ := dayLine(b, st); iso != "" {
					s.dates = 2
					return true
				}
			}
		}
	}
	return s.dates == 2
}

// firstPhotograph is the year of the oldest camera photograph that is kept.
const firstPhotograph = "1826"

// introduction gives an outing what stands above its day: the heading of the
// first level as its title, and the prose from there on. Above the first day of
// a notebook that is everything, as long as no sheet is among it.
func (r *resolver) introduction(o *outing) {
	before := r.outing
	title := r.heading
	r.heading = ""
	if before == nil {
		return
	}
	from := 0
	if r.dayed {
		from = r.headed
	}
	if r.dayed && title == "" || !onlyWords(before.entries[from:]) {
		return
	}
	for _, e := range before.entries[from:] {
		if h, ok := e.prose.(*ast.Heading); ok && h.Level == 1 && o.title == "" && evenly(plainText(h, r.book)) == title {
			o.title = title
			continue
		}
		o.entries = append(o.entries, e)
	}
	before.entries = before.entries[:from]
}

// onlyWords reports whether entries are prose and lines, no scene and no sheet.
func onlyWords(entries []entry) bool {
	for _, e := range entries {
		if e.scene != nil || e.sheet != nil {
			return false
		}
	}
	return true
}

// newScene clears the reading; filter and light end with the scene before, but for
// those that were chosen for the new one ahead of its line.
func (r *resolver) newScene(st *lang.Statement) {
	sc := &scene{st: st, title: evenly(st.Text), outing: r.ground()}
	r.trial(sc, st)
	r.now.reading, r.now.ended, r.now.lost.meter = nil, 0, 0
	if !r.ahead.filters {
		r.now.filters, r.now.lost.filter = r.defaults.filters, 0
	}
	if !r.ahead.light {
		r.now.light, r.now.former = r.defaults.light, lightLine{}
		if r.now.light == "" {
			r.now.former = r.lit
		}
	}
	r.ahead, r.bare, r.unused = ahead{}, true, nil
	sc.light = r.now.light
	r.scene = sc
	r.outing.scenes = append(r.outing.scenes, sc)
	r.outing.entries = append(r.outing.entries, entry{scene: sc})
}

func (r *resolver) light(st *lang.Statement) { r.lightIs(st.Text, st.Span) }

func (r *resolver) lightIs(words string, at source.Span) {
	r.now.light, r.now.former = words, lightLine{}
	r.lit, r.ahead.light = lightLine{words, at, r.scene == nil}, !r.bare
	if r.scene != nil && r.bare {
		r.scene.light = words
	}
}

// choice looks up what a line without a label chooses. Where the notes declare
// no such thing at all, as a plain phone note does not, the name as typed is
// taken for what it is: a thing of which nothing is known.
func choice[T interface{ called(string) bool }](r *resolver, st *lang.Statement, all []T, what string, unknown func(name string) T) (T, bool) {
	name := strings.TrimRight(lastSaid(st.Text), ",. ")
	t, ok := find(all, name)
	if !ok {
		if first, _, more := strings.Cut(name, ","); more {
			t, ok = find(all, first)
		}
	}
	for _, said := range spellings(name, what) {
		if !ok {
			t, ok = find(all, said)
		}
	}
	switch {
	case ok || name == "":
	case len(all) == 0:
		return unknown(name), true
	default:
		r.undeclared(what, name, st.TextSpan())
	}
	return t, ok
}

// spellings are other ways to say a name: the 90, 90mm, 90 mm lens, the slate film.
func spellings(name, what string) []string {
	low := strings.ToLower(name)
	for _, article := range [...]string{"the ", "my ", "to the "} {
		low = strings.TrimPrefix(low, article)
	}
	low = strings.TrimSpace(strings.TrimSuffix(low, what))
	if what != "lens" {
		return []string{low}
	}
	first, _, _ := strings.Cut(low, " f") // 90 f8
	return []string{low, strings.TrimSpace(strings.TrimSuffix(low, "mm")), strings.TrimSpace(strings.TrimSuffix(first, "mm")), low + "mm", low + " mm"}
}

// lastSaid is what stands of a name that was taken back: "300 no wait 210".
func lastSaid(text string) string {
	low := strings.ToLower(text)
	for _, no := range []string{" no wait, ", " no wait ", " no, ", " no "} {
		if i := strings.LastIndex(low, no); i >= 0 {
			return strings.TrimSpace(text[i+len(no):])
		}
	}
	return strings.TrimSpace(text)
}

// unknownLens and unknownFilm are things that only have a name.
func (r *resolver) unknownLens(name string) *lens {
	key := strings.ToLower(name)
	if r.lenses[key] == nil {
		r.lenses[key] = &lens{declared: declared{name: name}}
	}
	return r.lenses[key]
}

func (r *resolver) unknownFilm(name string) *film {
	key := strings.ToLower(name)
	if r.films[key] == nil {
		r.films[key] = &film{declared: declared{name: name}}
	}
	return r.films[key]
}

func unknownCamera(name string) *camera { return &camera{declared: declared{name: name}} }

func (r *resolver) undeclared(what, name string, at source.Span) {
	f := r.report("not-declared", at, quote(name)+" is not declared as a "+what)
	if near := r.book.kit.nearest(what, name); near != "" {
		f.note(quote(near) + " is declared")
		return
	}
	f.note("declare it: " + what + " " + name + ": …")
}

func (r *resolver) chooseCamera(st *lang.Statement) {
	if c, ok := choice(r, st, r.book.kit.cameras, "camera", unknownCamera); ok {
		r.now.camera = c
	}
}

func (r *resolver) chooseLens(st *lang.Statement) {
	if l, ok := choice(r, st, r.book.kit.lenses, "lens", r.unknownLens); ok {
		r.now.lens = l
	} else {
		r.now.lens = nil
	}
}

func (r *resolver) chooseFilm(st *lang.Statement) {
	unknown := func(name string) *film { return r.filmOf(name, st) }
	if f, ok := choice(r, st, r.book.kit.films, "film", unknown); ok {
		r.now.film, r.now.rated = f, ratedIn(st)
	} else {
		r.now.film, r.now.rated = nil, value[float64]{}
	}
}

// ratedIn is the exposure index that a line puts behind the film it names.
func ratedIn(st *lang.Statement) (ei value[float64]) {
	for i := range st.Terms {
		t := &st.Terms[i]
		if k, ok := t.Kind.(*lang.FilmEI); ok && !t.Struck {
			ei = value[float64]{v: float64(k.EI), known: true, at: t.Span, doubt: t.Doubtful}
		}
	}
	if _, behind, more := strings.Cut(st.Text, ","); more && !ei.known && mayRate(behind) {
		ei = value[float64]{at: st.TextSpan(), doubt: true}
	}
	return ei
}

// mayRate reports whether words behind a film's name may be its index and are not read as one:
// stone, at 50; stone, EI fifty; stone, one stop over.
func mayRate(behind string) bool {
	words := strings.FieldsFunc(strings.ToLower(behind), func(c rune) bool { return c == ' ' || c == '\t' || c == ',' || c == ';' })
	for i, word := range words {
		n, err := strconv.ParseFloat(word, 64)
		last := i+1 == len(words)
		switch {
		case ofIndex(word), word == "speed", word == "stop", word == "stops":
			return true
		case err == nil && n > 0 && exposure.NearestIndex(n) == n && last && !ofBox(words[:i]):
			return true
		}
	}
	return false
}

// filmOf is a film that is declared nowhere, with what the line that names it says of
// it.
func (r *resolver) filmOf(name string, st *lang.Statement) *film {
	f := r.unknownFilm(name)
	if f.at == nil && len(st.Terms) > 0 {
		line := *st
		line.Labels, line.Terms = []lang.Label{{Text: name, Span: st.TextSpan()}}, slices.DeleteFunc(slices.Clone(st.Terms), func(t lang.Term) bool {
			_, rated := t.Kind.(*lang.FilmEI) // is of the sheets that follow
			return rated
		})
		*f = *r.newFilm(&line)
	}
	return f
}

// meter holds for its scene, until the next.
func (r *resolver) meter(st *lang.Statement) {
	if r.scene != nil {
		r.scene.meterLines = append(r.scene.meterLines, st)
	}
	line := &r.line
	*line = sheet{}
	t := reader{resolver: r, sheet: line, st: st, metering: true}
	if len(st.Labels) > 0 {
		t.by, _ = find(r.book.kit.meters, st.Labels[0].Text)
	}
	t.read()
	if line.reading == nil && t.zoned != "" {
		line.unclear = cmp.Or(line.unclear, "whether the reading above stands "+t.zoned)
	}
	r.chosenWith(line)
	r.filterMetered(line, st)
	if line.light != "" {
		r.lightIs(line.light, st.Span)
	}
	if line.reading == nil {
		r.withoutReading(line, st)
	}
	if line.reading != nil {
		line.reading.open = cmp.Or(line.unclear, line.reading.open)
		line.reading.half = line.reading.open != ""
		if former := r.now.reading; former != nil && r.unused == former {
			line.reading.former = former
		}
		r.unused = line.reading
		r.now.reading, r.now.ended, r.now.lost.meter = line.reading, 0, 0
		if r.scene != nil {
			r.scene.reading = line.reading
		}
	}
}

// withoutReading is a meter line that gives none: the reading before it is kept where the
// line says so or speaks of something else, and else open.
func (r *resolver) withoutReading(line *sheet, st *lang.Statement) {
	if keepsReading(st.Body.Text()) || line.lens.at.File != nil || line.film.at.File != nil || line.light != "" || len(line.filters) > 0 {
		return
	}
	r.now.lost.meter = placeOf(st.Span).Line
	if len(st.Labels) > 0 && line.unclear != "" {
		return // what stands there was reported
	}
	at := st.Body
	if strings.TrimSpace(at.Text()) == "" {
		at = st.Span
	}
	r.report("no-reading", at, "no reading is understood on this line, and none from before holds below it")
}

// keepsReading reports whether a meter line without a reading says that the one before it still
// holds: same, as before, no change; not: not the same, read again before 1A.
func keepsReading(text string) bool {
	words := strings.FieldsFunc(strings.ToLower(text), func(c rune) bool { return !unicode.IsLetter(c) })
	if len(words) == 2 && noChange[words[0]] && filterChange[words[1]] {
		return true
	}
	return !says(words, readingGone) && (says(words, readingKept) || says(words, readingAgain) && only(words, readingAgain, readingFrom))
}

// The words are those of meter lines that keep the reading before them, and those that take it
// away whatever else is said (common practice, no source).
var (
	readingKept  = lang.SetOf("same still unchanged ditto steady constant")
	readingAgain = lang.SetOf("before above continued again")
	readingFrom  = lang.SetOf("as reading like it is was the from use used using light one all")
	readingGone  = lang.SetOf("not no never nothing longer changed changes changing different forgot forgotten didn didnt don wasn isn doesn hardly nearly almost lost broke broken dead off out")
)

// chosenWith takes a lens or a film that a meter line names: it holds for what follows,
// as one of a line of its own does.
func (r *resolver) chosenWith(line *sheet) {
	if line.lens.at.File != nil {
		r.now.lens, r.now.lost.lens = nil, 0
		if line.lens.known {
			r.now.lens = line.lens.v
		}
	}
	if line.film.at.File != nil {
		r.now.film, r.now.rated, r.now.lost.film = nil, value[float64]{}, 0
		if line.film.known {
			r.now.film = line.film.v
		}
	}
}

// filterMetered reports a filter that a meter line names: whether it is in the reading or
// on for the sheets that follow is not said, and none of them is blamed.
func (r *resolver) filterMetered(line *sheet, st *lang.Statement) {
	if line.reading == nil || line.reading.through {
		return
	}
	for i := range st.Terms {
		said := ""
		switch k := st.Terms[i].Kind.(type) {
		case *lang.Loose:
			said = r.book.kit.filterIn(k.Words, true)
		case *lang.Exposure:
			said = r.book.kit.filterIn(k.Name, false)
		}
		if said != "" {
			line.reading.maybeThrough = true
			r.report("unknown-term", st.Terms[i].Span, quote(said)+" has no meaning in a meter line").
				note("for the sheets that follow it has a line of its own, filter: " + said + "; where it is in the reading, write metered through " + said + " with the sheet")
			return
		}
	}
}

// filterIn is the declared filter that words name, or the word filter. A colour names one
// only where it stands by itself: before a reading it is a place's.
func (k *kit) filterIn(words []string, byColour bool) (said string) {
	for _, word := range words {
		if _, ok := find(k.filters, word); ok || byColour && len(words) == 1 && k.coloured(word) != nil {
			return word
		}
		if strings.EqualFold(word, "filter") {
			said = word
		}
	}
	return said
}

// load puts film into holder sides; each is then a new sheet.
func (r *resolver) load(st *lang.Statement) {
	name, _, _ := strings.Cut(st.Text, ",")
	name = strings.TrimRight(name, ". ")
	if len(r.book.kit.films) == 0 && !emptied(name) {
		r.filmOf(name, st)
	}
	labels := r.sidesOf(st.Labels)
	if emptied(name) {
		for _, l := range labels {
			delete(r.holders, strings.ToLower(l.Text))
		}
		r.happens(st, labels, sideEvent{kind: sideStated, word: "empty", date: r.today()})
		return
	}
	if f, ok := find(r.book.kit.films, name); ok {
		name = f.name
	} else if name != "" && len(r.book.kit.films) > 0 {
		r.undeclared("film", name, st.TextSpan())
	}
	fresh, rated := make([]holder, len(labels)), ratedIn(st)
	for i, l := range labels {
		fresh[i] = holder{film: name, rated: rated, load: st}
		r.loaded(st, l, &fresh[i])
	}
	r.happens(st, labels, sideEvent{kind: sideLoaded, film: name, date: r.today()})
	r.sideUnknown(st, "loaded")
	r.ground().loads, r.ground().loaded = true, r.stretch
}

func (r *resolver) loaded(st *lang.Statement, l lang.Label, fresh *holder) {
	key := strings.ToLower(l.Text)
	if old := r.holders[key]; old != nil && old.exposed == nil && !st.Either && !old.load.Either {
		r.report("loaded-twice", l.Span, l.Text+" is loaded again and was never exposed").note("loaded here", old.load.Span)
	}
	r.holders[key] = fresh
}

// sideUnknown says that a line leaves open which side it means.
func (r *resolver) sideUnknown(st *lang.Statement, what string, sheets ...*sheet) {
	if st.Either && len(st.Labels) > 1 {
		r.report("side-unknown", st.Labels[0].Span.Cover(st.Labels[len(st.Labels)-1].Span), "which of "+orLabels(st.Labels)+" was "+what+" is left open", sheets...).
			note("a holder line for one of them settles it: holder " + st.Labels[0].Text + ": empty, loaded or exposed")
	}
}

// named finds the sheet that a label means at this point: the last one that was
// logged under it, in this outing if there is one, else in this notebook, else
// in one before. Since books are read one after the other, that is the last.
func (r *resolver) named(label string) *sheet { return r.byLabel[strings.ToLower(label)] }

// eachNamed calls do with every sheet that a line's labels name. Of a run of
// holder sides (1A-5B) those that were never exposed are passed over.
func (r *resolver) eachNamed(st *lang.Statement, do func(*sheet, lang.Label)) {
	var missing []lang.Label
	for _, l := range r.meant(st) {
		if sh := r.bearer(l); sh != nil {
			sh.lines = append(sh.lines, st)
			r.spoken(l, sh)
			do(sh, l)
		} else if !ranged(l) || len(r.eitherOf(l)) > 1 {
			missing = append(missing, l)
		}
	}
	if len(missing) > 0 {
		var at source.Span
		var names []string
		for _, l := range missing {
			at = at.Cover(l.Day).Cover(l.Span)
			names = append(names, called(l))
		}
		r.whichDay(r.report("no-such-sheet", at, "no sheet "+strings.Join(names, ", ")+" was logged before this line"), missing...)
	}
}

func (r *resolver) develop(st *lang.Statement) {
	d := done{st: st}
	for i := range st.Terms {
		switch k := st.Terms[i].Kind.(type) {
		case *lang.Date:
			d.date = cmp.Or(k.ISO, k.Text)
			if _, _, ambiguous := dateIn(r.book, d.date); ambiguous {
				r.ambiguous(d.date, st.Terms[i].Span).note("write it with the month's name, or year first: 2026-11-07 is the seventh of November")
			}
		case *lang.N:
			d.n = known(float64(k.Stops), st.Terms[i].Span, st.Terms[i].Doubtful)
		case *lang.Amount: // N, -1
			if k.Stops != nil && !st.Terms[i].Struck {
				d.n.doubt = true
				r.report("unknown-term", st.Terms[i].Span, quote(st.Terms[i].Span.Text())+" has no meaning in a develop line").
					note("the development is written N-1 or N+1, a temperature 20C")
			}
		}
	}
	if len(st.Labels) == 0 {
		// Wanted from here on: in the kit for all, above the first day for this
		// notebook, below it for the day.
		r.now.wanted = d.n
		if firstDay(r.book) == "" {
			for _, k := range r.kits {
				if slices.Contains(k.books, r.book) {
					k.wanted = d.n
				}
			}
		}
		return
	}
	d.maybe = st.Either && len(st.Labels) > 1
	of := map[lang.Label]*sheet{}
	var meant []*sheet // in the order of the line
	r.eachNamed(st, func(sh *sheet, l lang.Label) {
		if sh.isUnused() && ranged(l) {
			return // a run of sides is developed without those that were not used
		}
		if l.Day.File != nil {
			sh = r.wholeFilm(sh)
		}
		of[l], meant = sh, append(meant, sh)
		for ; sh != nil; sh = sh.first { // one sheet of film, exposed twice
			sh.developed = append(sh.developed, d)
		}
	})
	r.wasDeveloped(st, d, of)
	r.sideUnknown(st, "developed", meant...)
}

// meant is the labels of a line that speaks of sheets. What reads as a run of
// numbers (26-101) is one negative where that is a number that was given, and
// where no sheet of the run was ever logged; from one number that was given to
// another (26-101 to 26-106) is a run of negatives.
func (r *resolver) meant(st *lang.Statement) []lang.Label {
	var all []lang.Label
	for i := 0; i < len(st.Labels); {
		next := i + 1
		for next < len(st.Labels) && st.Labels[next].Span == st.Labels[i].Span {
			next++
		}
		run := st.Labels[i:next]
		whole := lang.Label{Text: run[0].Span.Text(), Span: run[0].Span, Day: run[0].Day}
		known := slices.ContainsFunc(run, func(l lang.Label) bool { return r.bearer(l) != nil || len(r.eitherOf(l)) > 1 })
		given := r.bearers[strings.ToLower(whole.Text)] != nil
		if between := r.numbersBetween(whole); !given && between != nil {
			run = between
		} else if ranged(run[0]) && (given || !known || r.endless(run)) {
			run = []lang.Label{whole}
		}
		all = append(all, run...)
		i = next
	}
	return all
}

// ranged reports whether a label is one of a range that is written: 1A-5B.
func ranged(l lang.Label) bool { return l.Span.End-l.Span.Start != len(l.Text) }

// isUnused reports a sheet that is stated unused.
func (sh *sheet) isUnused() bool { return has(sh.states, "unused") }
