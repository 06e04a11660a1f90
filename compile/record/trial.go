package record

import "strings"

// Test is sheets that were exposed for a test of the photographer's own, and what
// they say.
type Test struct {
	Kind    string // "speed", "development", "filter", "reciprocity", "shutter", "meter"
	Name    string // by which the kit may name it: "2026-11-07 T1-T9"; of a shutter the lens
	Title   string // "Speed of slate: grey card"
	Slug    string // unique in the season
	Film    string // "" where the test is of none
	Light   string // as typed
	Place   Place  // of the line that makes it a test
	Sheets  []*Sheet
	Results []TestResult
	Plots   []TestPlot
	Odd     []OddSheet
	Needs   []string // what the test lacks to say more
	Notes   []string // how the figures were found, and how far they hold
}

// Labels names sheets of the test: by their labels alone where its name says their day.
func (t *Test) Labels(sheets []*Sheet) string {
	named := t.Kind != "shutter"
	for _, sh := range t.Sheets {
		named = named && sh.Outing == t.Sheets[0].Outing
	}
	if !named {
		return ByDays(sheets)
	}
	var all []string
	for _, sh := range sheets {
		all = append(all, sh.Label)
	}
	return strings.Join(all, " ")
}

// ByDays is sheets by their labels behind the day of their outing.
func ByDays(sheets []*Sheet) string {
	var said strings.Builder
	var last *Outing
	for i, sh := range sheets {
		if o := sh.Outing; i == 0 || o != last {
			if last = o; i > 0 {
				said.WriteString("; ")
			}
			said.WriteString(strings.TrimSpace(o.Day()) + " ")
		} else {
			said.WriteString(" ")
		}
		said.WriteString(sh.Label)
	}
	return strings.TrimSpace(said.String())
}

// TestResult is one figure that a test gives.
type TestResult struct {
	Of       string // "exposure index", "R25", "N−1", "1/60"
	How      string // the criterion or the method: "density 0.10 over base and fog at Zone I"
	Text     string // the figure with its unit and its error: "EI 64, ±⅙ stop"
	Value    Figure // in the Unit
	Unit     string // "EI", "stops", "s", "ms", "EV", "" for a ratio
	Error    Figure // standard error, in stops, or in the Unit where ErrorIn says so
	ErrorIn  string
	WithOdd  string   // the figure with the sheets that do not belong, as Text; "" where there is none
	Declared string   // what the kit says: "×8 (3 stops), kit.md:12"; "" where nothing
	Offer    string   // the line for the kit, never written unasked
	From     []*Sheet // the sheets that it comes from
	Why      string   // where it is not known: why
	Moves    []Moved  // sheets of the season that the figure moves, in the order logged
	Effects  []string // the same in words
}

// Moved is a sheet that is looked at without a figure of a test, and with it.
type Moved struct {
	Sheet    *Sheet
	By       float64 // stops by which it got more with the figure than without
	Stands   Figure  // how far it is off with it, + is too much; unknown where the notes do not tell
	Was, Now State   // without the figure, and with it
}

// OddSheet is a sheet that does not belong to the others of its test.
type OddSheet struct {
	Sheet *Sheet
	Or    []*Sheet // sheets that may as well be the one: no one can tell which
	Off   string   // by how much: "1⅓ stops more than the others"
	Known []string // what else is known of it: findings, remarks, losses
}

// TestPlot is figures of a test to be drawn.
type TestPlot struct {
	Title string
	Kind  PlotKind
	X, Y  string // what the axes measure, with the unit
	Lines []PlotLine
	Marks []PlotMark
}

// PlotKind says how a plot is drawn.
type PlotKind string

// The kinds of plots.
const (
	Characteristic PlotKind = "characteristic curve" // log10 exposure and density, both in one unit
	Steps          PlotKind = "steps"                // figures by sheet
	Residuals      PlotKind = "residuals"            // what is left, in stops, about zero
	Against        PlotKind = "against"              // one figure against another
)

// PlotLine is points that belong together.
type PlotLine struct {
	Name   string
	Points [][2]float64
	Joined bool // a curve; else measured points
}

// PlotMark is a point with words.
type PlotMark struct {
	At   [2]float64
	Text string
	Odd  bool
}

// Curve is a characteristic curve that a test of the photographer's own found.
type Curve struct {
	Of   string // the film and how it was developed: "slate after 9 min"
	Test *Test
}

// Said is the curve and the test that it is from.
func (c *Curve) Said() string { return c.Of + ", by the test " + c.Test.Name }
