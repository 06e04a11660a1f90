package lang

import (
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
)

// manner says how the rest of a log word's line is read.
type manner struct {
	word   Word
	field  field // which shapes of terms are alive
	free   bool  // free text: no term of it is ever an exposure
	labels int   // most labels before the colon; -1 any number
	needs  bool  // means nothing without a label
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
)

// words is every log word with its synonyms of the trade.
var words = map[string]manner{
	"use":         {word: Use, free: true},
	"day":         {word: Day, free: true},
	"date":        {word: Day, free: true},
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

	// Kept as typed and shown where they stand.
	"holder":  {word: "holder", free: true, labels: 1},
	"density": {word: "density", free: true, labels: -1},
	"sleeve":  {word: "sleeve", free: true, labels: -1},
	"print":   {word: "print", free: true, labels: -1},
	"result":  {word: "result", free: true, labels: -1},
	"shutter": {word: "shutter", free: true, labels: 1},
	"word":    {word: "word", free: true},
	"call":    {word: "call", free: true},
	"patch":   {word: "patch", free: true, labels: -1},
	"test":    {word: "test", free: true, labels: -1},
	"curve":   {word: "curve", free: true, labels: 1},
	"private": {word: "private", free: true},
}

// sheetLine is how a line is read that begins with a label and a colon.
var sheetLine = manner{word: Sheet, field: onSheet, labels: -1, needs: true}

// Lexicon is what the parser is told of words beyond the notation's own: names
// that were declared, and labels that were loaded or used before. Parse adds
// what a notebook declares, so that one lexicon can be handed from file to
// file in the order of `use:`.
type Lexicon struct {
	Names  map[string]Word // declared names, folded to lower case: what they name
	Labels map[string]bool // labels of sheets and holder sides, folded to lower case

	// Follow, where set, is called with the path of each `use:` line before the
	// terms of the notebook are read, so that what it names can be read first.
	Follow func(path source.Span)
}

// NewLexicon is an empty lexicon.
func NewLexicon() *Lexicon {
	return &Lexicon{Names: map[string]Word{}, Labels: map[string]bool{}}
}

// Add takes over another lexicon's names and labels.
func (x *Lexicon) Add(other *Lexicon) {
	for name, word := range other.Names {
		x.Names[name] = word
	}
	for label := range other.Labels {
		x.Labels[label] = true
	}
}

// Understood reports whether something is computed from the lines of a word;
// those of others are kept and shown as typed.
func Understood(w Word) bool {
	switch w {
	case Use, Day, Scene, LightWord, Camera, Lens, Film, FilterWord, Load, Meter, Sheet, Amend, Develop, Scan, Tolerance, Reciprocity:
		return true
	}
	return false
}
