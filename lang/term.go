package lang

import (
	"strconv"
	"strings"
)

// The terms of a log line. The tags are the grammar: one token a term, known by
// its shape (see lexer.go), so that what is left to say is how terms combine.

// Comma separates terms and bounds the name of a reading.
type Comma struct {
	Mark string `parser:"@Comma"`
}

// Exposure is an aperture, a time, both, or a light value: a reading or a
// setting, which of the two the line's other terms decide.
type Exposure struct {
	Name  []string  // of the place that was metered: the words before it
	EV    *Number   `parser:"At? ( @EV"`
	Parts []Setting `parser:"| @@ ( At? @@ )? )"`
	Zone  *Number   `parser:"@Zone?"`
}

// Gives reports whether an aperture and a time are among the settings.
func (e *Exposure) Gives() (aperture, time bool) {
	for _, part := range e.Parts {
		aperture, time = aperture || part.Aperture != nil, time || part.Time != nil
	}
	return aperture, time
}

// Setting is one of the two things that are set.
type Setting struct {
	Aperture *Aperture `parser:"  @Aperture"`
	Time     *Time     `parser:"| @@"`
}

// Aperture is a marked f-number: f/16½ is Mark 16, Past 0.5; f22/32 is Mark 22,
// Upper 32, halfway between the two; "wide open" is Widest and no mark.
type Aperture struct {
	Mark, Past, Upper float64
	Widest            bool
}

// Time is a marked exposure time, or several on one sheet.
type Time struct {
	Bulb  bool      `parser:"@Bulb?"`
	Count *Number   `parser:"@Count?"` // 4 x 1s
	Parts []Seconds `parser:"@Time ( Plus @Time )*"`
	Again *Number   `parser:"@Again?"` // 1s x 4
}

// Seconds is a time as a fraction, so that 1/15 can be told from 0.067.
type Seconds struct{ Num, Den float64 }

// Cue says what the exposures after it are: "metered", "metered through" (the
// filter, which is in the reading), "metered with" (which may be), "incident",
// "average", "gave".
type Cue struct {
	Word string `parser:"@Cue"`
}

// Arrow stands between what was metered and what was given.
type Arrow struct {
	Mark string `parser:"@Arrow"`
}

// Placed is a zone that no reading stands before.
type Placed struct {
	Zone Number `parser:"@Zone"`
}

// FilmEI is the exposure index that the film is rated at: EI 64.
type FilmEI struct {
	EI Number `parser:"@EI"`
}

// MeterEI is the exposure index that the meter stood at: at EI 100.
type MeterEI struct {
	EI Number `parser:"@MeterEI"`
}

// ISO is a film's box speed.
type ISO struct {
	Speed Number `parser:"@ISO"`
}

// OldSpeed is a film's speed in a scale that has no one conversion, as written: 23° Sch.
type OldSpeed struct {
	Text string `parser:"@OldSpeed"`
}

// Stack is the filters on the lens; with Add, beside those already on.
type Stack struct {
	Add     bool     `parser:"@Plus?"`
	Filters []Filter `parser:"@@ ( Plus @@ )*"`
}

// Filter is one filter with the amounts written after it, if any.
type Filter struct {
	Name    string   `parser:"@Filter"`
	Amounts []Amount `parser:"( @@+ | Open @@ ( Comma @@ )* Close )?"`
}

// Amount is what a filter costs, in the writer's way of saying it.
type Amount struct {
	Factor  *Number `parser:"  @Factor"`
	Stops   *Number `parser:"| @Stops"`
	Density *Number `parser:"| @Density"`
}

// Drop says that something is off again: no filter, no pol, no rise.
type Drop struct {
	What string `parser:"@Drop"`
}

// Class is a value that holds for some film class or light: tungsten x5.
type Class struct {
	Names  []string `parser:"@Class+"`
	Amount *Amount  `parser:"( @@"`
	EI     *Number  `parser:"| @EI )?"`
}

// N is the development that is wanted: N-1 is -1.
type N struct {
	Stops Number `parser:"@N"`
}

// Hold keeps a sheet back from development.
type Hold struct {
	Word string `parser:"@Hold"`
}

// Extension is the bellows' draw in millimetres.
type Extension struct {
	MM Number `parser:"@Ext"`
}

// ExtensionRange is what a camera's bellows can do, in millimetres.
type ExtensionRange struct {
	From Number `parser:"@ExtFrom"`
	To   Number `parser:"@ExtTo"`
}

// Magnification is image size over subject size: 1:2 is 0.5.
type Magnification struct {
	M Number `parser:"@Scale"`
}

// Focus is the distance from the lens to the subject in millimetres.
type Focus struct {
	MM Number `parser:"@Focus"`
}

// FocusSpread is how far the standard moved between the nearest and the farthest
// point that must be sharp, in millimetres.
type FocusSpread struct {
	MM Number `parser:"@Spread"`
}

// Near and Far are the distances between which all must be sharp, in
// millimetres from the lens.
type Near struct {
	MM Number `parser:"@Near"`
}

// Far is the far end of what Near begins.
type Far struct {
	MM Number `parser:"@Far"`
}

// Confusion is the diameter of the circle of confusion in millimetres.
type Confusion struct {
	MM Number `parser:"@Confusion"`
}

// BellowsScale is what a scale on the camera's bed says that a lens's extensions
// cost: bellows 250mm +1/2, 300mm +1.
type BellowsScale struct {
	Rows []ScaleRow `parser:"Bellows @@ ( Comma? @@ )*"`
}

// ScaleRow is one mark of such a scale.
type ScaleRow struct {
	MM     Number  `parser:"@Length"`
	Stops  *Number `parser:"( @Stops"`
	Factor *Number `parser:"| @Factor )"`
}

// Shorten is by how much a film's table shortens development at long times:
// shorten 10 % at 1s, 20 % at 10s.
type Shorten struct {
	Rows []ShortenRow `parser:"Shorten @@ ( Comma? @@ )*"`
}

// ShortenRow is one row of that table.
type ShortenRow struct {
	Percent Number  `parser:"@Percent At?"`
	From    Seconds `parser:"@Time"`
}

// Bellows is an amount for the extension that was written with the sheet.
type Bellows struct {
	Amount Amount `parser:"Bellows @@"`
}

// Movement is a movement of the camera, as typed: "rise 12".
type Movement struct {
	Text string `parser:"@Movement"`
}

// Bracket is an intended difference in stops.
type Bracket struct {
	Stops Number `parser:"@Bracket"`
}

// Nth says that what follows, up to the comma, is for one of the line's sheets only, or some: second +1.
type Nth struct {
	Sheets Places `parser:"@Nth"`
}

// Places are those of sheets on their line: 1 is the first, -1 the last.
type Places struct {
	Of     []int
	Either bool // it is one of them
}

// Capture implements participle's Capture.
func (p *Places) Capture(values []string) error {
	p.Either = strings.Contains(values[0], "/")
	for place := range strings.FieldsFuncSeq(values[0], func(c rune) bool { return c == ',' || c == '/' }) {
		n, err := strconv.Atoi(place)
		if err != nil {
			return err
		}
		p.Of = append(p.Of, n)
	}
	return nil
}

func (p Places) text() string {
	var all []string
	for _, n := range p.Of {
		all = append(all, strconv.Itoa(n))
	}
	if p.Either {
		return strings.Join(all, " or ")
	}
	return strings.Join(all, " ")
}

// Falls is the zone on which, by the writer's own sum, something falls.
type Falls struct {
	Zone Number `parser:"@Falls"`
}

// Same copies another sheet: the one named, or the last one.
type Same struct {
	Label string `parser:"@Same"`
}

// Choose takes another lens, film, light, camera or title for this sheet.
type Choose struct {
	Text string `parser:"@Choose"` // "lens 300"
}

// State is a state of the sheet: unused, spoiled, fogged, double, again.
type State struct {
	Word string `parser:"@State"`
}

// Filed is where the negative lies: binder 6 p 1.
type Filed struct {
	Place string `parser:"@Filed"`
}

// Scanned is the file of the negative's scan: → scans/gate-3a.tif.
type Scanned struct {
	Path string `parser:"@Scanned"`
}

// Negative is a permanent negative number.
type Negative struct {
	Number string `parser:"@Negative"`
}

// Clock is a time of day, 22:10, or the hours at which the shutter was opened and closed,
// 22:10-23:25, of which one may stand alone: "22:10-", "-23:25". Behind a question mark it
// is not sure that hours are meant, or which.
type Clock struct {
	Time string `parser:"@Clock"`
}

// Date is a whole date, YYYY-MM-DD, or a date as typed (9 Nov), which is not
// made whole here.
type Date struct {
	ISO  string `parser:"  @Date"`
	Text string `parser:"| @Day"`
}

// Dilution is a developer's: 1+31.
type Dilution struct {
	Parts string `parser:"@Dilution"`
}

// Batch is the run of development that a sheet went through.
type Batch struct {
	Name string `parser:"@Batch"`
}

// Densitometer is a density that was read, and where: base+fog 0.07; several
// readings of one patch follow one another: card 0.72 0.73.
type Densitometer struct {
	Place []string // the words before it
	D     []Number `parser:"@D+"`
	Zone  *Number  `parser:"@Zone?"` // that it is to stand for: 1.30 on VIII
}

// Spot is a patch of a picture: where it lies, as fractions of the width from
// the left and of the height from the top, or the level that a linear scan has
// there; sky 0.30,0.12.
type Spot struct {
	Name   []string `parser:"@Patch?"`
	Across *Number  `parser:"( @Across"`
	Down   *Number  `parser:"  @Down )?"`
	Level  *Number  `parser:"@Level?"`
}

// LuxSeconds is an exposure by a sensitometer.
type LuxSeconds struct {
	H Number `parser:"@Lux"`
}

// Trial says that a scene, or a run of sheets, is a test of the photographer's
// own, and what of: speed, development, filter, reciprocity, shutter, meter.
type Trial struct{ Of string }

// Notch is the code cut into a holder, which shows on the negative.
type Notch struct {
	Code string `parser:"@Notch"`
}

// Loss is what spoiled a sheet: leak, dust, scratch, shake, slide, misfire.
type Loss struct {
	Word string `parser:"@Word"`
}

// Temperature in degrees Celsius.
type Temperature struct {
	C Number `parser:"@Degrees"`
}

// Sum is the writer's own sum: = EV 12.
type Sum struct {
	Exposure *Exposure `parser:"Equals ( @@"`
	Amount   *Amount   `parser:"| @@ )"`
}

// Remark is kept word for word.
type Remark struct {
	Text string `parser:"@Remark"`
}

// Withdraw takes back the term before it ("no", "no wait") or, with After, the
// one that follows ("not").
type Withdraw struct {
	After bool `parser:"( @Not | No )"`
}

// Sunny16 is the rule of thumb as a reading.
type Sunny16 struct {
	Word string `parser:"@Sunny"`
}

// Bare is a number that nothing explains.
type Bare struct {
	Value Number `parser:"@Number"`
}

// Loose is words that are no term; they are kept as a remark.
type Loose struct {
	Words []string `parser:"@Word+"`
}

// Declarations.

// FNumbers is the apertures of a lens: From to To, where it has a range; From and the
// marks behind it, where they are written one by one; else the widest alone.
type FNumbers struct {
	From Aperture   `parser:"@Aperture"`
	To   *Aperture  `parser:"( ( Dash | To ) @Aperture"`
	More []Aperture `parser:"| ( Comma? @Aperture )+ )?"`
}

// Millimetres is a focal length or another length, in millimetres.
type Millimetres struct {
	MM Number `parser:"@Length"`
}

// Circle is the diameter of a lens's image circle in millimetres.
type Circle struct {
	MM Number `parser:"@Circle"`
}

// Flange is the flange distance of a telephoto lens in millimetres.
type Flange struct {
	MM Number `parser:"@Flange"`
}

// Clicks is the step of a lens's aperture scale in stops; 0 is none.
type Clicks struct {
	Stops *Amount `parser:"Clicks ( @@"`
	None  bool    `parser:"| @None )"`
}

// Shutter is the speeds that a shutter has: all of them, or those of the usual
// series from the slowest (one second, if none is said) to the fastest.
type Shutter struct {
	Slowest *Seconds  `parser:"Shutter ( ( @Time )?"`
	Fastest *Seconds  `parser:"          ( To | Dash ) @Time"`
	Speeds  []Seconds `parser:"| ( Bulb | Comma? @Time )+ )"`
}

// Measured is how long a shutter was really open: 1/60 measured 17.1 17.4 ms, 1/8 130 ms.
type Measured struct {
	Marked Seconds   `parser:"@Time ( Measured | Equals )?"`
	Real   []Seconds `parser:"( Comma? @Milli )+"` // in seconds, in the order written
}

// Tested is speeds as measured: marked = real.
type Tested struct {
	Pairs []TimePair `parser:"Tested @@ ( Comma? @@ )*"`
}

// TimePair is two times with a sign between.
type TimePair struct {
	From Seconds `parser:"@Time ( Equals | Arrow )"`
	To   Seconds `parser:"@Time"`
}

// With is a filter that is always on a lens.
type With struct {
	Filter Filter `parser:"With @@"`
}

// RuleOf is a film's rule for long times; a film may have several, by name.
type RuleOf struct {
	Name string `parser:"Reciprocity? ( @RuleName )?"`
	Laws []Law  `parser:"@@ ( Comma? @@ )*"`
}

// Law is a part of such a rule: a power law, none (up to a time), a row of a
// table (a time and what it becomes, or the stops to add), or from a time on a
// factor or stops.
type Law struct {
	Power *Number   `parser:"(   @Power"`
	None  bool      `parser:"  | @None ( To"`
	UpTo  *Seconds  `parser:"             @Time )?"`
	Pair  *TimePair `parser:"  | @@"`
	At    *Seconds  `parser:"  | @Time"`
	More  *Number   `parser:"           @Stops"`
	From  *Seconds  `parser:"  | Over @Time"`
	Times *Number   `parser:"    ( @Factor"`
	Stops *Number   `parser:"    | @Stops ) )"`
	Over  *Seconds  `parser:"( Over @Time )?"`
}

// TimeFor is a developing time, and the temperature that it is for, in degrees
// Celsius: N-1 5:00 at 20C.
type TimeFor struct {
	N    Number   `parser:"@N"`
	EI   *Number  `parser:"( @EI"`
	Time *Seconds `parser:"| @Time"`
	At   *Number  `parser:"| At? @Degrees )*"`
}

// Care is how a film is developed, as typed: "developer ash 1+31", "agitation 5 s
// every 30 s", "capacity 6 sheets", "safelight red"; and the test that figures of
// the kit are from: "test 2026-11-07 T1-T9".
type Care struct {
	Text string `parser:"@Care"`
}

// CurveFile is a file with what was measured at each wavelength, and the word that names it:
// "curve gg1.csv" of a filter, "sensitivity slate.csv" of a film.
type CurveFile struct {
	Text string `parser:"@Curve"`
}

// Format is a size of film or of a camera's back: 4x5, 9x12cm.
type Format struct {
	Text string `parser:"@Format"`
}

// Back is a reducing back.
type Back struct {
	Format string `parser:"Back @Format"`
}

// Name is a declared name in a line that chooses it.
type Name struct {
	Text string `parser:"@Name"`
}

// Number is a number that may carry a fraction: 1+1/2, -2/3, 0.72.
type Number float64

// Capture implements participle's Capture.
func (n *Number) Capture(values []string) error {
	*n = Number(number(values[0]))
	return nil
}

// number reads what the lexer has found to be a number: an optional sign, a
// decimal, and a fraction after another plus sign.
func number(s string) float64 {
	sign := 1.0
	switch {
	case strings.HasPrefix(s, "-"):
		sign, s = -1, s[1:]
	case strings.HasPrefix(s, "+"):
		s = s[1:]
	}
	total := 0.0
	for part := range strings.SplitSeq(s, "+") {
		over, under, split := strings.Cut(part, "/")
		v, _ := strconv.ParseFloat(over, 64)
		if split {
			d, _ := strconv.ParseFloat(under, 64)
			v /= d
		}
		total += v
	}
	return sign * total
}

// Capture implements participle's Capture.
func (a *Aperture) Capture(values []string) error {
	if values[0] == wideOpen {
		a.Widest = true
		return nil
	}
	mark, upper, _ := strings.Cut(values[0], "/")
	if upper != "" && !strings.Contains(mark, "+") {
		a.Mark, a.Upper = number(mark), number(upper)
		return nil
	}
	mark, past, _ := strings.Cut(values[0], "+")
	if whole, tenths, twice := cutTwice(mark); twice {
		a.Mark, a.Past = number(whole), number("0."+tenths)
		return nil
	}
	a.Mark = number(mark)
	if past != "" {
		a.Past = number(past)
	}
	return nil
}

// cutTwice splits 5.6.6, six tenths past f/5.6.
func cutTwice(s string) (mark, tenths string, ok bool) {
	first := strings.IndexByte(s, '.')
	last := strings.LastIndexByte(s, '.')
	if first == last {
		return s, "", false
	}
	return s[:last], s[last+1:], true
}

// Capture implements participle's Capture.
func (s *Seconds) Capture(values []string) error {
	num, den, split := strings.Cut(values[0], "/")
	s.Num, s.Den = number(num), 1
	if split {
		s.Den = number(den)
	}
	return nil
}
