package lang

import (
	"maps"
	"slices"
	"strings"

	"notchbook/lang/source"
)

// Word is a log word, the first word of a log line.
type Word string

// The log words.
const (
	Use         Word = "use"
	Day         Word = "day"
	Scene       Word = "scene"
	LightWord   Word = "light"
	Camera      Word = "camera"
	Lens        Word = "lens"
	Film        Word = "film"
	FilterWord  Word = "filter"
	Load        Word = "load"
	Meter       Word = "meter"
	Sheet       Word = "sheet"
	Amend       Word = "amend"
	Develop     Word = "develop"
	Scan        Word = "scan"
	Tolerance   Word = "tolerance"
	Reciprocity Word = "reciprocity"
	HolderWord  Word = "holder"
	Density     Word = "density"
	Sleeve      Word = "sleeve"
	Neg         Word = "neg"
	Print       Word = "print"
	Result      Word = "result"
	ShutterWord Word = "shutter"
	OwnWord     Word = "word"
	Call        Word = "call"
	Patch       Word = "patch"
	Test        Word = "test"
	Curve       Word = "curve"
	Private     Word = "private"
	Wedge       Word = "wedge"
	TargetWord  Word = "target"
)

// FilmSpeed is no log word: it is what an unread line means that has a film's speed and no more.
const FilmSpeed Word = "film speed"

// Drawn is no log word either: an unread line means it that says how far the bellows were out.
const Drawn Word = "extension"

// ofSheets reports whether a word's labels are of sheets that were logged before.
func (w Word) ofSheets() bool {
	switch w {
	case Amend, Develop, Scan, Density, Sleeve, Neg, Print, Result, Patch, Test:
		return true
	}
	return false
}

// manner says how the rest of a log word's line is read.
type manner struct {
	word   Word
	field  field // which shapes of terms are alive
	free   bool  // free text: no term of it is ever an exposure
	needs  bool  // means nothing without a label
	labels int8  // most labels before the colon; -1 any number
}

// field is a set of shapes: a shape is recognised only where it can be meant,
// so that "circle" is a lens's in a lens line and a word elsewhere.
type field uint16

const (
	onSheet field = 1 << iota
	onMeter
	onLens
	onFilm
	onFilter
	onCamera
	onRule // reciprocity
	onLoad
	onDevelop
	onDensity
	onHolder
	onShutter
	onPatch
	onChosen // a filter line without a label, which says what is on and not what a filter is
)

// words is every log word with its synonyms of the trade.
var words = map[string]manner{
	"use":         {word: Use, free: true},
	"day":         {word: Day, free: true},
	"date":        {word: Day, free: true},
	"datum":       {word: Day, free: true},
	"scene":       {word: Scene, free: true},
	"subject":     {word: Scene, free: true},
	"light":       {word: LightWord, free: true},
	"camera":      {word: Camera, field: onCamera, labels: 1},
	"lens":        {word: Lens, field: onLens, labels: 1},
	"film":        {word: Film, field: onFilm, labels: 1},
	"filter":      {word: FilterWord, field: onFilter, labels: 1},
	"filters":     {word: FilterWord, field: onFilter, labels: 1},
	"load":        {word: Load, field: onLoad, labels: -1, needs: true},
	"loaded":      {word: Load, field: onLoad, labels: -1, needs: true},
	"meter":       {word: Meter, field: onMeter, labels: 1},
	"reading":     {word: Meter, field: onMeter},
	"sheet":       {word: Sheet, field: onSheet, labels: -1, needs: true},
	"sheets":      {word: Sheet, field: onSheet, labels: -1, needs: true},
	"amend":       {word: Amend, field: onSheet, labels: -1, needs: true},
	"develop":     {word: Develop, field: onDevelop, labels: -1},
	"developed":   {word: Develop, field: onDevelop, labels: -1},
	"dev":         {word: Develop, field: onDevelop, labels: -1},
	"scan":        {word: Scan, free: true, labels: -1},
	"scans":       {word: Scan, free: true, labels: -1},
	"tolerance":   {word: Tolerance, field: onSheet},
	"reciprocity": {word: Reciprocity, field: onRule},
	"holder":      {word: HolderWord, field: onHolder, labels: -1, needs: true},
	"holders":     {word: HolderWord, field: onHolder, labels: -1, needs: true},
	"density":     {word: Density, field: onDensity, labels: -1, needs: true},
	"densities":   {word: Density, field: onDensity, labels: -1, needs: true},
	"shutter":     {word: ShutterWord, field: onShutter, labels: 1, needs: true},
	"sleeve":      {word: Sleeve, free: true, labels: -1},
	"neg":         {word: Neg, free: true, labels: -1, needs: true},
	"negs":        {word: Neg, free: true, labels: -1, needs: true},
	"print":       {word: Print, free: true, labels: -1},
	"result":      {word: Result, free: true, labels: -1},
	"word":        {word: OwnWord, free: true},
	"call":        {word: Call, free: true},
	"private":     {word: Private, free: true, labels: -1},

	"wedge":   {word: Wedge, field: onDensity},
	"target":  {word: TargetWord, field: onDensity},
	"patch":   {word: Patch, field: onPatch, labels: -1},
	"patches": {word: Patch, field: onPatch, labels: -1},
	"test":    {word: Test, free: true, labels: -1, needs: true},
	"tests":   {word: Test, free: true, labels: -1, needs: true},

	// Kept as typed and shown where they stand.
	"curve": {word: Curve, free: true, labels: 1},
}

// sheetLine is how a line is read that begins with a label and a colon.
var sheetLine = manner{word: Sheet, field: onSheet, labels: -1, needs: true}

// Understood reports whether something is computed from the lines of a word;
// those of others are kept and shown as typed.
func Understood(w Word) bool {
	switch w {
	case Use, Day, Scene, LightWord, Camera, Lens, Film, FilterWord, Load, Meter, Sheet, Amend, Develop, Scan, Tolerance, Reciprocity, OwnWord, Call, HolderWord, Sleeve, Neg, Print, Result, Density,
		ShutterWord, Patch, Test, Wedge, TargetWord, Private:
		return true
	}
	return false
}

// Lexicon is what the parser is told of words beyond the notation's own: names
// that were declared, labels that were loaded or used before, and the writer's
// own words. Parse adds what a notebook declares, so that one lexicon can be
// handed from file to file in the order of `use:`.
type Lexicon struct {
	Names  map[string]Word   // declared names, folded to lower case: what they name
	Labels map[string]bool   // labels of sheets and holder sides, folded to lower case
	Words  map[string]Word   // `word: plate = sheet`, folded to lower case
	Calls  map[string]string // `call: orange = O21`, folded to lower case: the term meant

	// Follow, where set, is called with the path of each `use:` line before the
	// terms of the notebook are read, so that what it names can be read first.
	Follow func(path source.Span)

	// Memory, where set, keeps the lines of every notebook for the next Parse. The
	// lexicon is then taught by Parse alone.
	Memory *Memory

	series map[string]bool // of the labels that are a year and a count: 91 of 91-8; and of numbers alone

	year  string // of the day that the line being read stands under; "" where none is known
	dayed bool   // it stands under one

	taught []lesson // what the maps hold, in the order in which it came
	crew   *crew    // reads lines
	lent   bool     // its entries are being read with: see lend

	listens bool // to others' lessons only: see Ahead
	puzzled bool // it listens, and there was something new
}

// NewLexicon is an empty lexicon.
func NewLexicon() *Lexicon {
	return &Lexicon{crew: &crew{}, Names: map[string]Word{}, Labels: map[string]bool{}, Words: map[string]Word{}, Calls: map[string]string{}, series: map[string]bool{}}
}

// Add takes over another lexicon's names, labels and words.
func (x *Lexicon) Add(other *Lexicon) {
	for name, word := range other.Names {
		learn(x, aName, &x.Names, name, word)
	}
	for label := range other.Labels {
		learn(x, aLabel, &x.Labels, label, true)
	}
	for word, means := range other.Words {
		learn(x, aWord, &x.Words, word, means)
	}
	for call, means := range other.Calls {
		learn(x, aCall, &x.Calls, call, means)
	}
}

// lesson is one entry of one of the maps.
type lesson struct {
	of    subject
	said  string
	means any
}

// subject is the map that a lesson is in.
type subject byte

const (
	aName subject = iota
	aLabel
	aWord
	aCall
	aSeries
)

// learn keeps an entry in one of a lexicon's maps. Most are there: each holder
// comes back day after day.
func learn[V comparable](x *Lexicon, what subject, of *map[string]V, said string, means V) {
	if (*of)[said] == means {
		return
	}
	if x.listens {
		x.puzzled = true
		return
	}
	if x.lent {
		x.ownAgain()
	}
	said = strings.Clone(said) // and not the notebook that it stands in
	(*of)[said] = means
	x.taught = append(x.taught, lesson{what, said, means})
}

// owns reports whether a text in lower case is a declared name or a call.
func (x *Lexicon) owns(text string) bool {
	_, name := x.Names[text]
	_, call := x.Calls[text]
	return name || call
}

// longest is the length of the longest declared name or call that the text, in
// lower case, begins with, or 0. Names hold at most four words.
func (x *Lexicon) longest(text string) int {
	if len(x.Names)+len(x.Calls) == 0 {
		return 0
	}
	best := 0
	for end, words := 0, 0; words < 4 && end < len(text); words++ {
		for end < len(text) && !isSpace(text[end]) && strings.IndexByte(",;()+~?", text[end]) < 0 {
			end++
		}
		if x.owns(text[:end]) {
			best = end
		}
		if !isSpace(at(text, end)) {
			break
		}
		end = skip(text, end)
	}
	return best
}

// Words is every log word once, in the order of the alphabet.
func Words() []Word {
	seen := map[Word]bool{}
	for _, how := range words {
		seen[how.word] = true
	}
	return slices.Sorted(maps.Keys(seen))
}
