package compile

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"

	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// resolve assumes the kit. It walks each book from top to bottom with what
// holds at that point (the scope), and leaves outings, scenes and sheets in
// which every fact that the notes give stands at its sheet: chosen, copied by
// same, carried from the sheet before, or amended later. It judges nothing.

// scope is what holds until changed.
type scope struct {
	camera    *camera
	lens      *lens
	lensSaid  string // what its line says behind its name, and is not read
	lensDoubt bool   // its line marks it as doubtful
	film      *film
	filmDoubt bool
	rated     value[float64] // exposure index said with the film
	filters   []*use
	light     string
	former    lightLine // of the scene before, while this one has none
	meter     *meter    // that readings are by which name none
	reading   *reading
	meterTold string          // what is asked of the meter of the readings below, of which prose names another
	meterAt   string          // the index of a meter line that has no more, for the readings below
	ended     int             // the line of the heading that ended a reading, while there is no other
	scan      *lang.Statement // pattern
	wedge     map[string]float64
	wanted    value[float64] // development, unless a sheet says otherwise
	lost      unheard
	since     unheard // where the lines stand that last chose, by their offsets
	sole      sole
}

// sole is what is in use since the kit has no other, and no line has named one.
type sole struct{ film, lens bool }

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
// read: what it left open is unknown, and not what held before it. Of the lines that were
// read it is where the last stands.
type unheard struct{ meter, filter, lens, film, speed, load, scene, light, drawn, test int }

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
	case lang.Load:
		return &l.load
	case lang.Scene:
		return &l.scene
	case lang.LightWord:
		return &l.light
	case lang.Drawn:
		return &l.drawn
	}
	return nil
}

type resolver struct {
	*season
	book        *book
	outing      *outing
	scene       *scene
	defaults    scope // chosen before the first day
	now         scope
	lit         lightLine // the last that was said of the light on this day
	ahead       ahead
	unused      *reading // of a meter line below which no sheet stands yet
	bare        bool     // the scene has begun and has no sheet yet
	dayed       bool
	yearless    bool               // a day without a year was reported
	passed      int                // line of the notebook, up to which unread ones were seen
	filterLines []*lang.Statement  // of the day, that were read
	missed      int                // the last of these that may have logged a sheet, since one was; 0 for none
	last        lang.Word          // of the log line above
	asked       map[int]string     // what is asked of what a line of the notebook leaves open, where its words say
	surely      filterFor          // the sheets of which what such a line says of the filter is certain
	ownWords    []ownWord          // words that a line of the notebook says what they stand for, which was not read
	heading     string             // the last heading of the first level
	headed      int                // its place among the entries of the outing it stands in
	drawer      *drawer            // of the notebook
	holders     map[string]*holder // of the drawer
	bearers     map[string]*sheet  // of negative numbers
	filled      map[string]bool    // labels of the notebook that are holders'
	letters     string             // of a holder's two sides, as the season has them; "" until asked for
	reused      []reuse
	amends      map[amended][]*lang.Statement
	register    *register[*sheet]
	loggedIn    map[string][]*outing // those of each label, for notes of the darkroom; nil until asked for
	byLabel     map[string]*sheet
	byPath      map[string]*scanRef
	logged      map[string]bool  // labels of sheets, here and further on; nil until asked for
	lenses      map[string]*lens // named and declared nowhere
	films       map[string]*film

	patternOf map[*outing]*lang.Statement
	tones     map[*lang.Statement]tone // what scan lines say of how their files were made

	spelled map[string]*sheet // by plate, the first logged under a year and a count
	undated *undated          // a date above the next sheet that no day line says
	between int               // the line of the last such date behind which what was chosen is open
	stretch int               // of sheets; another begins where such a date stands above one

	line sheet // that a meter line fills as if it were one

	wantedBefore *value[float64] // the development that was wanted before the scene said another; nil where it did not
	titled       titled          // the last such heading of the notebook
}

func (s *season) resolve() {
	r := &resolver{
		season: s, bearers: map[string]*sheet{}, register: newRegister[*sheet](),
		byLabel: map[string]*sheet{}, byPath: map[string]*scanRef{},
		lenses: map[string]*lens{}, films: map[string]*film{}, patternOf: map[*outing]*lang.Statement{}, tones: map[*lang.Statement]tone{},
	}
	s.dated = map[lang.Label]*sheet{}
	logged := s.countLogged()
	s.sheets, r.register.put = make([]*sheet, 0, logged), make([]entered[*sheet], 0, logged)
	s.room.provide(logged)
	s.drawers()
	none := newDrawer() // of notebooks that speak of no holder
	for _, b := range s.books {
		if b.drawer == nil {
			b.drawer = none
		}
		r.notebook(b)
	}
	s.takeLate()
	r.stillReused()
	r.tellApart()
	r.wholeNegatives()
	r.patterns()
	r.shareTones()
	for i, sh := range s.sheets {
		sh.index = i
	}
}

// countLogged is about how many sheets the notebooks log.
func (s *season) countLogged() (n int) {
	for _, b := range s.books {
		for _, st := range b.Statements {
			if st.Word == lang.Sheet {
				n += len(st.Labels)
			}
		}
	}
	return n
}

func (r *resolver) notebook(b *book) {
	r.drawer, r.holders = b.drawer, b.drawer.holders
	r.book, r.outing, r.scene, r.dayed, r.heading, r.passed, r.missed, r.undated, r.between = b, nil, nil, false, "", 0, 0, nil, 0
	r.ownWords, r.asked, r.surely, r.last, r.filterLines = nil, nil, filterFor{}, "", nil
	r.defaults, r.now, r.titled = r.only(), r.only(), titled{}
	r.amends, r.filled = r.amendments(b), filled(b)
	r.walk(b.Prose)
	r.pass(math.MaxInt)
	r.patternOfNone()
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
		sc.lens, sc.sole.lens = r.book.kit.lenses[0], true
	}
	if len(r.book.kit.films) == 1 {
		sc.film, sc.sole.film = r.book.kit.films[0], true
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
		r.titledTest(h)
		if h.Level == 1 {
			r.heading, r.headed = evenly(plainText(h, r.book)), len(r.ground().entries)
		}
	}
	r.ground().entries = append(r.ground().entries, n)
	r.beginsDay(n)
}

// titledTest leaves the sheets open below a heading that is the title of a test, up to the next of its level: which of them
// were exposed otherwise than asked on purpose a scene says.
func (r *resolver) titledTest(h *ast.Heading) {
	title := strings.TrimSpace(plainText(h, r.book))
	switch {
	case h.Lines().Len() > 0 && lang.TestTitle(title):
		r.titled = titled{source.Span{File: r.book.File, Start: h.Lines().At(0).Start, End: h.Lines().At(0).Stop}, title, h.Level, false}
		r.now.lost.test = r.lineOf(h)
	case h.Level <= r.titled.level:
		r.titled, r.now.lost.test = titled{}, 0
	}
}

// titled is a heading that names a test.
type titled struct {
	at    source.Span
	title string
	level int
	told  bool
}

// underTitle reports the heading over a sheet that names a test, once.
func (r *resolver) underTitle() {
	if t := &r.titled; t.at.File == r.book.File && r.now.lost.test > 0 && !t.told {
		t.told = true
		r.report("test-unclear", t.at, "a heading names a test, and no scene does").note("a test's sheets stand below a scene: scene: " + t.title)
	}
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
		r.leaveOpen(meant, r.passed+1)
		if r.book.Lines[r.passed].Above {
			r.saidAbove(meant, r.passed+1)
		}
		if r.book.Lines[r.passed].Kind == lang.Unread && (meant == lang.Sheet || meant == "") {
			r.missed = r.passed + 1
		}
		switch meant {
		case "":
			r.saidBelow()
			r.meterStood()
			r.proseAhead()
		case lang.Meter:
			r.meterStood()
		case lang.Amend:
			r.corrected(r.passed)
		case lang.Call:
			r.explained(source.Span{File: r.book.File, Start: r.book.Lines[r.passed].Body, End: r.book.Lines[r.passed].BodyEnd})
		case lang.Load:
			r.reloaded()
		case lang.LightWord:
			r.now.light, r.now.former, r.ahead.light = r.defaults.light, lightLine{}, !r.bare
		case lang.Scene, lang.Day:
			r.passedBy(meant)
		}
		if meant == lang.Sheet && r.passed > 0 && r.book.Lines[r.passed-1].Kind == lang.Log {
			r.brokenOff(r.passed + 1)
		}
	}
}

// reloaded leaves open what is in the holder sides that a line loads which was not read: those with
// its numbers, or all where it has none.
func (r *resolver) reloaded() {
	l := &r.book.Lines[r.passed]
	at := source.Span{File: r.book.File, Start: l.Body, End: l.BodyEnd}
	runs := holderNumbers().FindAllStringSubmatch(strings.ToLower(source.Fold(at.Text()).Text), -1)
	for key := range r.holders {
		n, _ := strconv.Atoi(strings.TrimRight(key, "ab"))
		if n == 0 || len(runs) == 0 || slices.ContainsFunc(runs, func(run []string) bool {
			from, _ := strconv.Atoi(run[1])
			to, _ := strconv.Atoi(cmp.Or(run[2], run[1]))
			return from <= n && n <= to
		}) {
			r.holders[key] = &holder{unheard: at}
		}
	}
}

var holderNumbers = pattern.Lazily(`\b([0-9]+)[ab]{0,2}\b(?:\s*(?:-+|to|through)\s*([0-9]+)[ab]?\b)?`)

// passedBy ends what a scene or a day ends whose line was not read: the reading above may be of
// another, and so may the filters and the light.
func (r *resolver) passedBy(meant lang.Word) {
	line := r.passed + 1
	r.now.lost.scene, r.now.lost.meter = line, line
	if !slices.Equal(r.now.filters, r.defaults.filters) && !r.ahead.filters {
		r.now.lost.filter = line
	}
	if r.now.light != r.defaults.light && !r.ahead.light {
		r.now.light, r.now.former = r.defaults.light, r.lit
	}
	switch meant {
	case lang.Day:
		r.stretch++
	case lang.Scene:
		r.now.lost.test = 0
		if l := &r.book.Lines[r.passed]; lang.TestTitle(string(r.book.File.Text[l.Body:l.BodyEnd])) {
			r.now.lost.test = line
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

// saidAbove leaves open what a line of prose may say of the sheets above it: of those of its scene, or of
// its day where it speaks of the meter.
func (r *resolver) saidAbove(meant lang.Word, line int) {
	for i := len(r.sheets) - 1; i >= 0 && r.sheets[i].outing == r.outing && (meant == lang.Meter || r.sheets[i].scene == r.scene); i-- {
		sh := r.sheets[i]
		if sh.unclear != "" {
			continue
		}
		own := meant == lang.Film && sh.loadedFilm != "" || slices.ContainsFunc(sh.lines[0].Terms(), func(t lang.Term) bool {
			switch t.Kind.(type) {
			case *lang.Stack, *lang.Drop:
				return meant == lang.FilterWord
			case *lang.MeterEI:
				return meant == lang.Meter
			case *lang.Choose:
				return meant == lang.Lens || meant == lang.Film
			}
			return false
		})
		if what := map[lang.Word]string{lang.FilterWord: "filter", lang.Meter: "reading", lang.Drawn: "extension", lang.Lens: "lens", lang.Film: "film"}[meant]; !own && !(meant == lang.Drawn && sh.saysDrawn()) {
			sh.leaveOpen("", fmt.Sprintf("the %s on line %d", what, line)+notRead)
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
	if st.Word == lang.Meter || st.Word == lang.FilterWord || st.Word == lang.LightWord && keepsLight(st.StandingText()) {
		return
	}
	if r.now.lost.of(st.Word) != nil && !declaration(st) {
		r.chosen(st.Word, st)
	}
}

// chosen takes note that a line was read that chooses what a word is for.
func (r *resolver) chosen(w lang.Word, by *lang.Statement) {
	*r.now.lost.of(w), *r.now.since.of(w) = 0, by.Span.Start
	r.now.sole.named(w)
}

// named takes note that a line names what is in use.
func (s *sole) named(w lang.Word) {
	s.film, s.lens = s.film && w != lang.Film, s.lens && w != lang.Lens
}

func (r *resolver) statement(st *lang.Statement) {
	r.pass(st.Span.Start)
	r.heard(st)
	r.last = st.Word
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
		r.ground().entries = append(r.ground().entries, st)
	}
	if !declaration(st) {
		r.besides(st)
		r.remarked(st)
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

// newScene clears the reading; filter and light end with the scene before, but for
// those that were chosen for the new one ahead of its line.
func (r *resolver) newScene(st *lang.Statement) {
	sc := &scene{st: st, title: evenly(st.Text), outing: r.ground()}
	r.trial(sc, st)
	r.now.reading, r.now.ended, r.now.lost.meter, r.now.lost.scene, r.now.lost.drawn, r.now.lost.test = nil, 0, 0, 0, 0, 0
	if !r.ahead.filters {
		r.now.filters, r.now.lost.filter = r.defaults.filters, r.defaults.lost.filter
	}
	if !r.ahead.light {
		r.now.light, r.now.former, r.now.lost.light = r.defaults.light, lightLine{}, r.defaults.lost.light
		if r.now.light == "" {
			r.now.former = r.lit
		}
	}
	r.ahead, r.bare, r.unused = ahead{}, true, nil
	r.wantsAsBefore()
	if title := st.TextSpan(); strings.Contains(title.Text(), ",") {
		r.wantsHere(r.developmentIn(title))
	}
	sc.light = r.now.light
	r.scene = sc
	r.outing.scenes = append(r.outing.scenes, sc)
	r.outing.entries = append(r.outing.entries, sc)
}

func (r *resolver) light(st *lang.Statement) {
	if !keepsLight(st.StandingText()) {
		r.lightIs(st.Text, st)
	} else if r.now.light == "" && r.now.lost.light == 0 && r.lit.words != "" {
		r.lightIs(r.lit.words, st)
	}
}

func (r *resolver) lightIs(words string, by *lang.Statement) {
	r.now.light, r.now.former = words, lightLine{}
	r.chosen(lang.LightWord, by)
	r.lit, r.ahead.light = lightLine{words, by.Span, r.scene == nil}, !r.bare
	if r.scene != nil && r.bare {
		r.scene.light = words
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

// isUnused reports a sheet that is stated unused.
func (sh *sheet) isUnused() bool { return has(sh.states, "unused") }
