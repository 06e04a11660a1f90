package compile

import (
	"cmp"
	"runtime"
	"sync"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/compile/slip"
	"notchbook/lang"
	"notchbook/lang/source"
)

// The model that resolve leaves and the later passes fill. Every value knows
// the stretch of the notes that it comes from.

type outing struct {
	date, iso, place string
	title            string
	book             *book
	at               source.Span // the day line; none for what stands before the first
	entries          []entry
	scenes           []*scene
	sheets           []*sheet
	loads            bool     // at least one load line
	afresh           []*sheet // of earlier days, whose sides count as loaded since though no line says so
	doubted          bool     // its date is in doubt
	adrift           bool     // its line has no date that is understood, and other days of the season have one
	loaded           int      // the stretch of sheets in which the last of them stands

	lookForLight sync.Once
	ofLight      []bool // of its entries, the prose that may tell of the light; nil until asked for
}

// day is what an outing's sheets are identified by: the date, as typed where it
// is not whole, else the notebook.
func (o *outing) day() string { return cmp.Or(o.iso, o.typed()) }

// typed is day with the date as the notes have it.
func (o *outing) typed() string { return cmp.Or(o.date, o.book.name) }

// entry is one thing of an outing where it stood: a *scene, a *sheet, another line's
// *lang.Statement, or prose, an ast.Node.
type entry any

type scene struct {
	st         *lang.Statement // the line that begins it
	title      string
	light      string
	outing     *outing
	sheets     []*sheet
	reading    *reading
	patches    []patch // of every sheet of the scene that has none of that name
	meterLines []*lang.Statement
	test       string // what it tests: "speed", "filter"; "" where it is no test
}

// reading is what the meter said.
type reading struct {
	kind         string // "plain", "spot", "incident", "average", "sunny 16"
	areas        []area
	at           source.Span
	ei           float64 // the meter's index, 0 where not stated
	eiAt         source.Span
	eiBefore     float64 // that of the scene's reading, where ei stands on the sheet's line
	eiMeters     bool    // the index is the one that its meter always stands at
	doubtful     bool
	through      bool     // taken through the filters: nothing is owed for them
	maybeThrough bool     // or it may be
	maybeDrawn   string   // the words by which the extension may be in it
	maybePlaced  string   // the words by which it may be placed: it is taken so, and accuses nobody
	half         bool     // what it leaves open stands on its meter line, or is its zone: nor does it acquit
	former       *reading // the one on a line above, where no sheet stands between them
	open         string   // what its line leaves open: a reading with it accuses nobody
	beside       []string // the words of its line that were not counted
}

// area is one reading: a light value, or the settings that the meter showed.
type area struct {
	name     string
	by       *meter // by which it was read, nil where none is named
	ev       float64
	zone     float64
	placed   bool
	falls    value[float64] // the zone on which it falls by the writer's own sum
	asEV     bool           // written as a light value: what it means depends on the meter
	av       float64
	seconds  float64
	hasAv    bool
	hasTime  bool
	lent     bool // its aperture is the one that was given
	aperture lang.Aperture
	time     lang.Seconds
	at       source.Span
}

// complete reports whether an area is a whole reading.
func (a *area) complete() bool { return a.asEV || a.hasAv && a.hasTime }

// value is a setting with where it was written.
type value[T any] struct {
	v      T
	at     source.Span
	known  bool
	doubt  bool
	copied bool // by same
}

// setting is a value that may be taken over from another sheet, and not written.
type setting[T any] struct {
	value[T]
	carried *sheet
}

// use is a filter on the lens.
type use struct {
	name    string
	amounts []lang.Amount
	at      source.Span
	always  bool // belongs to the lens
	inside  bool // the reading was taken through it
	found   *filter
	cost    *cost // nil where nothing is known
	number  string
}

// sheet is one exposure as logged, and what became of it.
type sheet struct {
	label   string // as typed
	shown   string // the label, told apart from an earlier one of the day in its notebook
	apart   string // its notebook, where another has the label on that day too
	id      string
	outing  *outing
	kit     *kit // that counts instead of its notebook's, nil as nearly always
	scene   *scene
	at      source.Span // the label of its first line
	lines   []*lang.Statement
	stretch int               // of the resolver, when it was logged
	amends  []*lang.Statement // of its lines, those that were put over it
	amended []*sheet          // what it was before each
	index   int               // in the season, from 0

	film       value[*film]
	chosenFilm *film // by a film line, where its side was loaded with another
	lens       value[*lens]
	camera     value[*camera]
	sole       sole // of the film and the lens that it has as no line names one
	ei         value[float64]
	light      string
	ownReading bool      // on its line
	former     lightLine // of the scene before, where no light was said since

	filters     []*use
	reading     *reading
	aperture    setting[lang.Aperture]
	time        setting[lang.Time]
	extension   value[float64] // millimetres
	scale       value[float64] // magnification
	mayScale    source.Span    // where words stand that may be another thing's size: natural size
	focus       value[float64] // millimetres
	bellows     value[lang.Amount]
	spread      float64 // of the focus, in millimetres; 0 where not stated, as the next two
	near, far   float64 // between which all must be sharp, in millimetres
	bracket     value[float64]
	entry       int            // its place among its outing's entries
	lightBy     value[float64] // stops by which the light rose since it was metered; it fell below 0
	extra       float64        // stops given past the settings that are written
	losses      []string       // leak, dust, shake
	wanted      value[float64] // development, in N
	hold        bool
	movements   []string
	states      []string
	number      string
	numberAt    source.Span
	fieldNumber bool // its own line gives its number, which may be before it is developed
	ownNumber   bool // it was logged under its number, before or after it was developed
	filed       filed
	wedge       map[string]float64 // densities of the last wedge above it in its notebook
	test        trialSheet         // that a line of its own gives it to
	lux         value[float64]     // lux seconds, by a sensitometer
	tone        tone               // what is said of all its scans
	title       string
	headed      int // so many remarks from the first on are the title as well
	clock       string
	remarks     []string
	history     []record.Change
	doubts      []source.Span
	wantedSays  string   // words behind the development that is asked for: "pyro 9'"
	plain       *sheet   // as it would be if it copied nothing, where that is open
	commas      *sheet   // as it would be with commas for the colons in its line
	copying     string   // by words that leave it open
	instead     *reading // where it copies another: the one of that sheet or of its own scene that does not count
	stopsBeside []stopsBeside
	mislabelled bool     // words that are not read put another label in the place of its own
	ended       int      // the line of the heading that ended the reading above, where there is none
	above       *reading // the scene's, where the sheet has one of its own
	byHigh      *another // its high value's placement alone, where its own line has that beside the scene's low one
	scenes      *reading // the same, where its own stands behind its whole settings
	aside       string   // figures in prose beside the settings, which may be one
	vague       string   // words that may name a filter which nobody knows
	strange     bool     // and they do
	maybeOn     string   // or the words about a filter that is known, and may have been on or not
	mayCarry    *sheet   // the one before, whose time it would have if what stands for its own were a part of its light value
	maybeBath   string   // its time, where that stands behind the development and may be of it
	racked      string   // words that speak of an extension which no term gives
	unlit       string   // light by hand, or pre-exposure, in the writer's words
	covered     string   // a remark that says that the lens was covered meanwhile
	byClock     bool     // its time is that between two hours
	opened      float64  // and the first of them, in minutes from midnight
	unclear     string   // what a line that was reported leaves open
	loadUnheard string   // the line, not read, that may have loaded another film
	lensSaid    string   // what the line of its lens says behind the name, and is not read
	lightLost   int      // the line, not read, that says what the light was
	unclearOf   string   // the setting that it leaves open, and an amendment can give: "time", "aperture"
	slip        int      // the finding about that, by its place among all, from 1; 0 for none
	unread      bool     // its reading stands on a line that was not read
	developed   []done
	scans       []*scanRef
	sameAs      *sheet
	elsewise    *elsewise              // a copy, where lines chose something since the sheet that it copies
	mayBracket  *sheet                 // where it is a copy of one with a bracket, or light that changed: whose may be its own
	row         *row                   // of its line's cells, once a copy has asked for them
	readingAsks string                 // what its line leaves open of its reading, where another reading of the words makes it right
	filterAsks  map[source.Span]string // the same of a filter, by where that is written
	gaps        bool                   // its row of marks may have left out the column of what it has as a copy
	mixed       string                 // the films that its side was loaded with, where two were
	loadedFilm  string                 // what load put into its side, "" where nothing
	first       *sheet                 // the exposure that was already on this sheet of film
	over        *sheet                 // the one that was made on it next

	sum assessment // assess
}

type done struct {
	st    *lang.Statement
	typed string // the date
	iso   string // the same where it is whole
	n     value[float64]

	maybe bool // one of the line's sheets was, and which is left open
}

// day is the date of a development, as typed where it is not whole.
func (d *done) day() string { return cmp.Or(d.iso, d.typed) }

// assessment is what assess finds out of a sheet. Values in stops and EV.
type assessment struct {
	state   record.State
	needs   []string
	owing   []string // of these, what was asked for lacks
	ei      float64
	base    float64 // at the film's index
	steps   []record.Step
	misfelt *misfelt // a zone that the reading's line has wrong
	asksN   float64  // development that a high placement asks for
	asksFor string   // its area

	leastBase, mostBase float64 // where low placements disagree; else both are base

	asked    float64
	given    float64
	clock    float64 // given, without reciprocity
	diff     float64
	av       float64
	seconds  float64
	onFilm   float64
	nominal  []float64 // each exposure by the marks of the shutter
	causes   []slip.Cause
	stays    []slip.Cause // of all that fit, those that stay for a run of sheets
	habit    bool         // off, but by no more than many give on purpose
	known    bool         // asked, given and diff hold
	hasBase  bool
	hasAsked bool
	hasGave  bool
	least    float64 // EV given, where several exposures count as one long one; else given
	rule     exposure.Rule
	fells    []record.Area
	howBase  string
	owes     []*use // filters with a cost, in order
	bellows  float64
	undecl   *use // an undeclared filter that decides nothing for certain
	blind    *use // a filter that passes nothing the film sees
	long     *use // a filter that passes very little the film sees
}

// scanRef is a scan file that a line names for some sheets.
type scanRef struct {
	path    string
	at      source.Span
	sheets  []*sheet
	pattern bool // made from a pattern, not named
	look    Scan
	bad     string // why the path cannot be one
	away    bool   // outside the season's folder, where the writer lets scans be read
	tone    tone
}

// open is what was before the film in words that cannot be reckoned with.
func (sh *sheet) open() string {
	if sh.vague == "" && !sh.saysDrawn() {
		return sh.racked
	}
	return sh.vague
}

// ask leaves a sheet unchecked, for a fact that would settle what it is.
func (sh *sheet) ask(fact string) {
	sh.sum.state = record.Unchecked
	sh.sum.needs = append(sh.sum.needs, fact)
}

// saysDrawn reports whether a sheet says how far the bellows were out, or what that cost.
func (sh *sheet) saysDrawn() bool {
	return sh.extension.known || sh.scale.known || sh.focus.known || sh.bellows.known
}

func known[T any](v T, at source.Span, doubt bool) value[T] {
	return value[T]{v: v, at: at, known: true, doubt: doubt}
}

func set[T any](v T, at source.Span, doubt bool) setting[T] {
	return setting[T]{value: known(v, at, doubt)}
}

// room is where the sheets of a season stand. It is made for some at a time: a
// season has many, and all are there to its end. Most of what a check leaves
// behind is sheets, and so the next edition has the room again.
type room struct {
	pieces [][]sheet
	at, in int // the piece that the next sheet is taken from, and its place there

	soon   int // sheets that the notebooks may log which are read
	making sync.WaitGroup
}

// sheet is the next one, blank.
func (r *room) sheet() *sheet {
	if r.at == len(r.pieces) {
		r.pieces = append(r.pieces, make([]sheet, 4<<min(len(r.pieces), 4)))
	}
	piece := r.pieces[r.at]
	sh := &piece[r.in]
	if r.in++; r.in == len(piece) {
		r.at, r.in = r.at+1, 0
	}
	return sh
}

// provide makes room for n sheets on all cores: most of what a new sheet costs is that its memory is
// touched for the first time, and whoever logs them goes through the notes alone.
func (r *room) provide(n int) {
	r.making.Wait()
	fresh := r.add(n)
	sideBySide(len(fresh), func(from, to int) {
		for i := from; i < to; i++ {
			fresh[i] = newPiece()
		}
	})
}

// meanwhile makes room for n sheets more on a core of its own, while the notebook that logs them is read.
func (r *room) meanwhile(n int) {
	if r.making.Wait(); runtime.GOMAXPROCS(0) == 1 {
		return
	}
	r.soon += n
	fresh := r.add(r.soon)
	r.making.Go(func() {
		for i := range fresh {
			fresh[i] = newPiece()
		}
	})
}

// inPiece is how many sheets stand in a piece that is made before it is needed.
const inPiece = 64

// add makes place among the pieces for so many that the sheets are n; for few they are made one by one.
func (r *room) add(n int) (fresh [][]sheet) {
	for _, piece := range r.pieces {
		if n -= len(piece); piece == nil {
			n -= inPiece // it is being made
		}
	}
	if n < 16*inPiece {
		return nil
	}
	have := len(r.pieces)
	r.pieces = append(r.pieces, make([][]sheet, (n+inPiece-1)/inPiece)...)
	return r.pieces[have:]
}

// newPiece is blank sheets of which all memory has been touched.
func newPiece() []sheet {
	piece := make([]sheet, inPiece)
	for i := range piece {
		piece[i].index, piece[i].sum.given = 0, 0 // its two pages of memory
	}
	return piece
}

// vacate makes room for the sheets of another season.
func (r *room) vacate() {
	used := min(r.at+1, len(r.pieces))
	clear(r.pieces[used:])
	r.pieces = r.pieces[:used]
	for _, piece := range r.pieces {
		clear(piece)
	}
	r.at, r.in, r.soon = 0, 0, 0
}
