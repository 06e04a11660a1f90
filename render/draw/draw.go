// Package draw makes the drawings of the record: the ladder from a reading to a
// setting, the strip of zones, and charts. A drawing is a list of a few kinds of
// marks in points, inked by role and not by colour, so that every output sets it
// in its own inks; whatever a role says is also said by a shape, a dash or a
// word, for a grey print and for eyes that do not part the colours.
package draw

import "math"

// Drawing is a picture made of marks, the first at the bottom.
type Drawing struct {
	Width, Height float64 // points; x runs to the right, y down
	Title         string  // what it is
	Text          string  // what it says, in whole sentences, for those who cannot see it
	Marks         []Mark
	Rows          []Row // what stands in rows RowHigh one below the other, from the top
}

// Row is what a row of a drawing is about, for an output that writes more beside
// it.
type Row struct {
	Kind RowKind
	At   int  // of a Stride: which of the sheet's steps; of a Spot: which area
	Cut  bool // its words were shortened
}

// RowKind is what a row of the ladder or the strip shows.
type RowKind uint8

// The kinds of rows.
const (
	Read       RowKind = iota // the reading
	Stride                    // a step from one to the next
	Clock                     // what reciprocity takes, beside the way
	Asked                     // what was asked for
	Given                     // what was given
	Difference                // between the two
	Tones                     // the strip itself, and its numbers
	Spot                      // an area
	Further                   // more of the row above
)

// Mark is a Line, an Area, a Dot or Words.
type Mark interface{ mark() }

// Point is a place on a drawing, in points, or a pair of figures of a chart.
type Point struct{ X, Y float64 }

// Snap rounds a distance to a millionth of a point. Machines differ in a number's
// last digit, since some multiply and add in one step; what is rounded or compared
// next must not hang on it.
func Snap(v float64) float64 { return math.Round(v*1e6) / 1e6 }

// Line is drawn through its points.
type Line struct {
	Points []Point
	Ink    Ink
	Width  float64 // points
	Dash   Dash
}

// Area is a closed shape.
type Area struct {
	Points []Point
	Fill   Ink // None: only the edge
	Edge   Ink // None: no edge
	Width  float64
}

// Dot is a small sign about its place.
type Dot struct {
	At   Point
	Form Form
	Size float64 // across, points
	Ink  Ink
	Open bool // an outline over the paper
}

// Words are a line of text.
type Words struct {
	At     Point // on the baseline
	Text   string
	Size   float64 // points
	Bold   bool
	Anchor Anchor
	Ink    Ink
}

func (Line) mark()  {}
func (Area) mark()  {}
func (Dot) mark()   {}
func (Words) mark() {}

// Ink is what a mark is for; the output chooses the colour.
type Ink uint8

// The inks. Zone0 to Zone0+10 are the tones of the zones on paper, which are the
// same by day and by night: see Grey.
const (
	None   Ink = iota
	Strong     // what is said
	Quiet      // what accompanies: labels, units
	Firm       // rules that carry meaning: axes, connecting lines
	Hair       // rules that only guide the eye: grids
	Fill       // a pale ground
	Paper      // the ground itself, to keep lines out of words
	Over       // more light than was asked for
	Under      // less
	Zone0
)

// zoneCount is how many zones there are, 0 to X.
const zoneCount = 11

// zoneGreys are the tones of the zones as sRGB grey levels, black to paper white,
// even to the eye (CIE L* 6 to 98 in equal steps).
var zoneGreys = [zoneCount]float64{.076, .149, .227, .310, .396, .486, .579, .675, .773, .874, .977}

// Grey is the tone of a zone's ink from 0, black, to 1, white. Other inks have
// none of their own.
func (i Ink) Grey() (level float64, ok bool) {
	if i < Zone0 || i >= Zone0+zoneCount {
		return 0, false
	}
	return zoneGreys[i-Zone0], true
}

// Dash tells lines apart without colour.
type Dash uint8

// The dashes.
const (
	Solid Dash = iota
	Dashed
	Dotted
	DashDot
)

// Pattern is the dash in points, marks and gaps in turn, for a line of the
// width; nil for a solid one.
func (d Dash) Pattern(width float64) []float64 {
	w := max(width, 0.5)
	switch d {
	case Dashed:
		return []float64{5 * w, 3 * w}
	case Dotted:
		return []float64{w, 2 * w}
	case DashDot:
		return []float64{6 * w, 2 * w, w, 2 * w}
	}
	return nil
}

// Anchor is which part of the words stands at their place.
type Anchor uint8

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Form is the shape of a dot.
type Form uint8

// The forms.
const (
	Circle Form = iota
	Square
	Diamond
	Up // triangles, by where they point
	Down
	Left
	Right
	Cross
)

// Outline is a dot's edge about its place, nil for a Circle, and for a Cross its
// two strokes, end to end: four points.
func (d Dot) Outline() []Point {
	r, x, y := d.Size/2, d.At.X, d.At.Y
	switch d.Form {
	case Square:
		return box(x-.88*r, y-.88*r, x+.88*r, y+.88*r)
	case Diamond:
		return []Point{{x, y - 1.2*r}, {x + 1.2*r, y}, {x, y + 1.2*r}, {x - 1.2*r, y}}
	case Up:
		return []Point{{x, y - 1.1*r}, {x + 1.1*r, y + .9*r}, {x - 1.1*r, y + .9*r}}
	case Down:
		return []Point{{x, y + 1.1*r}, {x - 1.1*r, y - .9*r}, {x + 1.1*r, y - .9*r}}
	case Left:
		return []Point{{x - 1.1*r, y}, {x + .9*r, y - 1.1*r}, {x + .9*r, y + 1.1*r}}
	case Right:
		return []Point{{x + 1.1*r, y}, {x - .9*r, y + 1.1*r}, {x - .9*r, y - 1.1*r}}
	case Cross:
		return []Point{{x - r, y - r}, {x + r, y + r}, {x - r, y + r}, {x + r, y - r}}
	}
	return nil
}

// box is a rectangle's corners.
func box(left, top, right, bottom float64) []Point {
	return []Point{{left, top}, {right, top}, {right, bottom}, {left, bottom}}
}

func (d *Drawing) add(m ...Mark) { d.Marks = append(d.Marks, m...) }

// rule draws a straight line.
func (d *Drawing) rule(x1, y1, x2, y2, width float64, ink Ink, dash Dash) {
	d.add(Line{Points: []Point{{x1, y1}, {x2, y2}}, Ink: ink, Width: width, Dash: dash})
}
