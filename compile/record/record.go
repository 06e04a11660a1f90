// Package record is the finished model of a season: what the notes said, what
// was computed from it, and what was found. Every output (HTML, PDF, data) is
// written from this model alone; nothing in it needs the notation or a rule to
// be understood. It holds plain values in the order in which they are shown.
package record

import (
	"cmp"
	"path"
	"slices"
	"strconv"
	"strings"
)

// Season is everything that one run has read and computed.
type Season struct {
	Title     string      // the first heading, or the folder's name
	Public    bool        // private remarks were left out of all of this
	LastDay   string      // the latest full date of the notes, YYYY-MM-DD, or ""
	Notebooks []*Notebook // in the order read, kit first
	Curves    []*Notebook // the files of curves that the kit names, by path
	Kit       []*Item     // declared cameras, lenses, films, filters, in order
	Outings   []*Outing   // in the order of the notebooks
	Sheets    []*Sheet    // every sheet of every outing, in order
	Findings  []*Finding  // sorted by place
	Scans     []*Scan     // every file a scan line names, then the orphans
	Indexes   []*Index    // by holder side, film, filter, lens, place, date, development, sleeve, number
	Holders   []*HolderSide
	ToDevelop ToDevelop
	Negatives Negatives
	Tests     []*Test        // of the photographer's own, in the order of the notes, shutters last
	Losses    []*Loss        // by cause, the commonest first
	Years     []*Year        // the earliest first, what has no whole date last
	Places    []*PlaceVisits // come back to on another day, by name
	Tally     Tally
	Cautions  []string // sentences that the outputs must carry
	Find      *Finder  // nil where nothing is to be found
}

// Files are all files that were read for the record: with copies of them it can be made
// again.
func (s *Season) Files() []*Notebook { return slices.Concat(s.Notebooks, s.Curves) }

// Notebook is one file that was read.
type Notebook struct {
	Path   string // relative to the season's folder, with slashes
	SHA256 string // of Text, hexadecimal
	Bytes  int
	Lines  int

	// Redacted says that private remarks were left out: Text, its digest and its
	// count of bytes are those of the copy without them.
	Redacted bool
	Text     []byte // as read, or the redacted copy; not to be changed

	// Lines, from 1, that stand in a copy to be handed on: those that speak of something
	// private, those that may belong to a private remark, and log lines below a private
	// heading.
	Left, Doubted, Below []int
	Unlogged             bool // no log line was read in it
}

// CopyName is what a copy of the notebook is called: its path, or PublicName
// where private remarks were left out.
func (n *Notebook) CopyName() string {
	if !n.Redacted {
		return n.Path
	}
	return PublicName(n.Path)
}

// PublicName is the name of a notebook's redacted copy: "public" before the ending.
func PublicName(name string) string {
	ending := path.Ext(name)
	return strings.TrimSuffix(name, ending) + ".public" + ending
}

// Tally counts the season at a glance.
type Tally struct {
	Counts
	Errors, Warnings, Notes                     int
	LogLines, ProseLines, UnreadLines, AllLines int // of the notebooks
}

// Place is a stretch of a notebook: 1-based lines and columns, columns in
// characters, the end exclusive.
type Place struct {
	Path                             string
	Line, Column, EndLine, EndColumn int
}

// String says where it begins: "log.md:12", or the notebook alone.
func (p Place) String() string {
	if p.Line == 0 {
		return p.Path
	}
	return p.Path + ":" + strconv.Itoa(p.Line)
}

// Item is one declaration of the kit.
type Item struct {
	Kind   string // "camera", "lens", "film", "filter"
	Name   string // as the writer calls it
	Slug   string // unique in the season, safe in file names and anchors
	Facts  []Fact // what was understood, in the trade's words
	Place  Place
	Source string // the line as typed

	Tested []string // the tests that its figures are from, as typed: "2026-11-07 T1-T9"
	Tests  []*Test  // those of them that are in these notebooks
}

// Fact is a named value: {"focal length", "210 mm"}.
type Fact struct{ Name, Value string }

// Outing is a day in the field, from one `day:` line to the next. What stands
// before the first day belongs to an outing without a date.
type Outing struct {
	Title    string // "Brickworks, first frost", or the date and place
	Slug     string // unique in the season, safe in file names and anchors
	Date     string // as typed
	ISO      string // YYYY-MM-DD where the date is whole, else ""
	Place    string
	Path     string   // notebook in which it begins
	Cautions []string // sentences that belong beside its sheets: of the sun, and of dense filters
	Entries  []Entry
	Scenes   []*Scene
	Sheets   []*Sheet
}

// Day is the date as lists have it: YYYY-MM-DD, as typed where it is not whole.
func (o *Outing) Day() string { return cmp.Or(o.ISO, o.Date) }

// Entry is one thing of an outing where it stood in the notes; exactly one
// field is set.
type Entry struct {
	Prose  *Block // paragraphs, headings, lists, tables as written
	Scene  *Scene // a scene begins
	Sheet  *Sheet // a sheet is logged (at its first line)
	Line   *Line  // any other log line
	Unread *Line  // text that was not understood, as typed
}

// Line is a source line as typed.
type Line struct {
	Word  string // the log word: "load", "meter", ...; "" where none
	Text  string
	Place Place
}

// Scene is what is photographed, until the next scene.
type Scene struct {
	Title  string
	Slug   string
	Light  string // as typed, "" where not stated
	Outing *Outing
	Sheets []*Sheet
	Line   Line // as typed

	Patches  []Patch   // that hold for every sheet of the scene
	Compared *Compared // its filtered sheets beside the control; nil where there are not both
	Test     string    // what it tests: "speed", "development", "filter", "reciprocity", "shutter", "meter"; "" for a picture
}

// State says how a sheet stands after the check.
type State string

// The states of a sheet.
const (
	Right     State = "right"     // within the tolerance
	Off       State = "off"       // beyond the tolerance
	Unchecked State = "unchecked" // a fact is missing; Needs says which
	NoImage   State = "no-image"  // the film cannot see what the filter passes
	Unexposed State = "unexposed" // stated unused

	Doubled State = "exposed-twice" // of no sheet: see Sheet.Standing
)

// Figure is a number that may be unknown.
type Figure struct {
	Value float64
	Known bool
}

// Known makes a known figure.
func Known(v float64) Figure { return Figure{v, true} }

// Sheet is one sheet of film from reading to scan.
type Sheet struct {
	ID     string // the negative's number, else "2026-11-07 3A"; a second use of the side "2026-11-07 3A'2", and with its notebook where another has that label on the day too
	Slug   string // unique in the season, safe in file names and anchors
	Label  string // as typed: "3A", "#31"; a second use of the side "3A'2"
	Side   string // holder side "3A" where the label is one, else ""
	Number string // permanent negative number, "" where none is written
	Title  string
	Outing *Outing
	Scene  *Scene // nil where no scene was named
	State  State

	Film, Lens, Camera string // the kit's names, "" where unknown
	Format             string // "4x5" where the camera states it
	EI                 Figure // exposure index the sheet was rated at
	Filters            []string
	Extension          string // "ext 260 mm", "1:2"; "" where not written
	ExtensionTyped     string // the same as typed: "ext 14 in."
	Movements          []string
	Sharpness          []Fact // what the aperture holds sharp, where the notes ask
	Hour               string // time of day as typed: "14:30"
	Light              string // as typed, "" where not stated
	LightClass         string // what it counts as: "daylight", "tungsten"; "" for any other
	Flash              bool   // a flash lit it, by the words of its own lines
	Development        string // asked for: "N-1"
	Developed          []Development
	ShownDeveloped     string    // how the notes show that it was developed, where no line says for certain: "is filed"
	Sleeve             string    // where the negative is filed: "binder 2, page 14"
	Densities          []Density // in the order written
	Patches            []Patch   // its own, then those of its scene
	Curve              *Curve    // of its film, developed as it was; nil where no test found it
	OnFilm             []OnFilm  // by Curve: the places that were measured over base and fog, and lie on it
	Test               string    // what it was exposed to test, as Scene.Test
	Prints             []Line    // printing notes
	Results            []Line    // verdicts and faults seen on the negative
	Lost               string    // the cause by which it is lost, "" where it is not
	Before             *Sheet    // the exposure before it on the same piece of film; nil for the first
	Mistaken           bool      // this exposure and another are on one piece of film by mistake
	Twins              []*Sheet  // duplicates: the same scene, film, lens, filters, extension, reading and settings

	Reading    *Reading // nil where there is none
	Steps      []Step   // what stands between the reading and the asked exposure
	Asked      Settings // reading and steps met exactly, at the aperture given
	Given      Settings // what was set
	Difference Figure   // given - asked on film, stops; + is too much exposure
	ByClock    Figure   // the same without reciprocity, where that differs
	AsOne      Figure   // the same where several exposures count as one long one, if only so it is right
	Rule       string   // the rule for long times that changed one of them: "t^1.31 over 1s (kit.md:30)"
	Tolerance  string   // "±⅓ stop"
	Choices    []Choice // right settings for going back, best first; nil when right

	Findings []*Finding
	Needs    []string // facts that would settle an unchecked sheet
	Doubts   []string // what the notes mark as doubtful, as typed
	History  []Change
	Remarks  []string
	Lines    []Line // every line that says something of this sheet, as typed
	Scans    []*Scan
}

// Reading is what the meter said, brought to the film's exposure index.
type Reading struct {
	Text  string // as typed
	Kind  string // "plain", "spot", "incident", "average"
	EV    Figure // base exposure value at the film's EI; unknown where one of several areas must be chosen
	How   string // "EV 11 at EI 64; meter at EI 100, −⅔"
	Areas []Area // for readings of named or placed areas
	Meter string // that it was read by, "" where none is named
}

// Area is one metered area.
type Area struct {
	Name    string  // "doorway", "" where not named
	EV      float64 // at the film's EI
	Read    string  // as the meter showed it: "EV 11", "1/60 f/16"
	Brought string  // the same at the film's EI, "" where the meter showed just that: "EV 10⅓ at EI 64"
	Meant   Figure  // zone it was placed on
	Fell    Figure  // zone it fell on with the exposure given
}

// Step is one thing that asks for more or less exposure than the reading.
type Step struct {
	Kind   string // "filter", "bellows", "bracket", "light", "reciprocity"
	Name   string // "R25", "extension 260 mm on 210 mm"
	Stops  float64
	Detail string // "×8, declared", "2 log2(260/210)"
	From   string // where the figure comes from: "kit.md:12", "handbook: Kodak F-4016"
}

// Settings are shutter and aperture as the photographer would say them, with
// their exact values.
type Settings struct {
	Aperture string // "f/16½", "" where unknown
	Time     string // "1/30", "20 s"; by the clock
	Av       Figure // 2 log2 N
	Seconds  Figure // by the clock
	OnFilm   Figure // seconds after reciprocity, where that differs
	EV       Figure // Av - log2 of the seconds that count on film
	Note     string // "f16.5 read as half a stop past f/16", "aperture carried from 6A"

	ApertureTyped, TimeTyped string // as typed: "between 16 and 22", "30 secs"; "" where nothing was
}

// Choice is a pair of settings that would have been right.
type Choice struct {
	Kind           string // "aperture kept", "split", "time kept"
	Aperture, Time string
	Left           float64 // stops that remain; + is too much exposure
}

// Development is what was done to a sheet.
type Development struct {
	Text  string // as typed
	Date  string // as typed
	ISO   string // YYYY-MM-DD where the date is whole, else ""
	Place Place
	Maybe bool // the line leaves open whether it was this sheet: develop 1A or 2B
}

// Day is the date as lists have it: YYYY-MM-DD, as typed where it is not whole.
func (d Development) Day() string { return cmp.Or(d.ISO, d.Date) }

// Change is something that was written first and withdrawn later.
type Change struct {
	Was, Now string // as typed; Now is "" where nothing replaced it
	How      string // "struck", "withdrawn", "amended"
	Place    Place
}

// Severity of a finding.
type Severity string

// The severities, gravest first.
const (
	Error   Severity = "error"   // not understood, impossible, or off by a stop or more
	Warning Severity = "warning" // off beyond tolerance, or suspicious
	Note    Severity = "note"    // unchecked, and what would settle it
)

// Finding is one thing that the check has to say.
type Finding struct {
	Code     string // rule's slug: "exposure-off"
	Severity Severity
	Title    string // the rule's title
	Message  string
	Day      string // of the sheet whose label the message begins with, where its notebook has that label on other days too
	Notes    []string
	Place    Place
	Excerpt  string // the source line as typed
	Mark     [2]int // the marked stretch of Excerpt, in bytes
	Sheets   []*Sheet
	Causes   []string // slugs of the causes that fit
	Fix      *Fix     // only where it is certain
	Anchor   string   // unique in the season
	Also     []Place  // further lines that the message is of
	Form     string   // what it has in common with those that say one thing
	OfAll    string   // the sentence that says it of all of them
}

// Said is the message for who reads it apart from its day: "2026-11-07 3A got 1 stop under".
func (f *Finding) Said() string { return strings.TrimLeft(f.Day+" "+f.Message, " ") }

// Fix replaces a stretch of a notebook.
type Fix struct {
	Place Place
	Text  string
}

// Scan is a file that a scan line names, or an orphan that none names.
type Scan struct {
	Path   string // relative to the season's folder, with slashes
	State  ScanState
	Why    string // for Unreadable: in words
	Format string // "TIFF"
	Width  int    // pixels, after orientation; 0 where unknown
	Height int
	Depth  int // bits per channel
	Bytes  int64
	SHA256 string // hexadecimal, "" where not computed
	Was    string // SHA-256 in an earlier record, where the file is not there with those bytes; "" else
	Sheets []*Sheet

	// Elsewhere: it lies outside the season's folder, where the writer let scans
	// be read; Path then begins with "../".
	Elsewhere bool

	// Linear says that the notes state so: levels are proportional to the light
	// that the film lets through. Scans of the same Settings, which are "" where
	// nothing is stated, were made with the same settings, so that their levels
	// can be compared; Auto scans were stated to have settings of their own.
	Linear, Auto bool
	Settings     string
}

// ScanState says what is known of a scan file.
type ScanState string

// The states of a scan.
const (
	Present    ScanState = "present"
	Missing    ScanState = "missing"
	Unreadable ScanState = "unreadable" // present, but not an image that can be read
	Orphan     ScanState = "orphan"     // present, but no sheet claims it
	Outside    ScanState = "outside"    // a path that leaves the season's folder
)

// Shown reports whether a picture of the scan can be shown.
func (s *Scan) Shown() bool { return (s.State == Present || s.State == Orphan) && s.Width > 0 }

// Index is one way to look sheets up.
type Index struct {
	Kind  string // "side", "film", "filter", "lens", "place", "date", "development", "sleeve", "number"
	Title string // "By holder side"
	Rows  []IndexRow
}

// IndexRow is one heading of an index.
type IndexRow struct {
	Key    string
	Slug   string // unique within the season
	Sheets []*Sheet
}
