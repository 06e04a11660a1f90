package spectral

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// What is measured is read from a table of two columns whose head says what they are:
// the wavelength in nanometres, and one of the quantities below. Nothing is found out
// from the figures: a head that leaves open what is meant is no head, and a figure that
// cannot be what the head says is a fault, not a hint that something else was meant.

// Quantity is what the second column of a curve holds.
type Quantity uint8

// The quantities. Density and Transmittance are a filter's, the others a film's.
const (
	Density       Quantity = iota + 1 // 0 and up
	Transmittance                     // 0 to 1
	Percent                           // transmittance, 0 to 100
	Sensitivity                       // relative, per energy, 0 and up
	Logarithm                         // of the sensitivity, to base 10
)

// heads are the ways to write each head, folded: see folded.
var heads = map[string]Quantity{
	"density": Density, "optical density": Density, "d": Density,
	"transmittance": Transmittance, "transmission": Transmittance, "t": Transmittance,
	"transmittance %": Percent, "transmission %": Percent, "transmittance percent": Percent, "transmission percent": Percent, "percent transmittance": Percent, "percent transmission": Percent, "% transmittance": Percent, "% t": Percent, "%t": Percent,
	"sensitivity": Sensitivity, "relative sensitivity": Sensitivity, "spectral sensitivity": Sensitivity,
	"log sensitivity": Logarithm, "log10 sensitivity": Logarithm, "log relative sensitivity": Logarithm, "log spectral sensitivity": Logarithm,
}

// wavelengths are the ways to write the first head.
var wavelengths = map[string]bool{"nm": true, "wavelength nm": true, "nanometres": true, "nanometers": true, "lambda nm": true, "λ nm": true}

func (q Quantity) String() string {
	return [...]string{"", "density", "transmittance", "transmittance in per cent", "sensitivity", "log sensitivity"}[q]
}

// OfFilm tells whether it is a film that has such a curve, and not a filter.
func (q Quantity) OfFilm() bool { return q >= Sensitivity }

// value is a figure as the light that passes, or as sensitivity.
func (q Quantity) value(v float64) float64 {
	switch q {
	case Density, Logarithm:
		if q == Density {
			v = -v
		}
		return math.Pow(10, v)
	case Percent:
		return v / 100
	}
	return v
}

// fault says what a figure cannot be, "" where it can.
func (q Quantity) fault(v float64) string {
	switch {
	case q == Density && (v < 0 || v > 10):
		return "a density lies between 0 and 10"
	case q == Transmittance && (v < 0 || v > 1):
		return "a transmittance lies between 0 and 1; per cents have the head: transmittance %"
	case q == Percent && (v < 0 || v > 100):
		return "per cents lie between 0 and 100"
	case q == Sensitivity && v < 0:
		return "a sensitivity is not below 0; of logarithms the head is: log sensitivity"
	case q == Logarithm && (v < -20 || v > 20):
		return "a logarithm of a sensitivity lies between −20 and 20"
	}
	return ""
}

// Measured is a curve as it was read.
type Measured struct {
	Quantity Quantity
	Readings int
	From, To float64 // the wavelengths spanned, in nanometres
	Curve    Curve   // transmittance or sensitivity
}

// most is how many readings a table may hold, and mostBytes its size: a curve at every
// tenth of a nanometre is far smaller.
const (
	most      = 20_000
	mostBytes = 1 << 20
)

// Fault is what is wrong with a table, in words, and the line, from 1; 0 for the whole.
type Fault struct {
	Line int
	Text string
}

func (f *Fault) Error() string {
	if f.Line == 0 {
		return f.Text
	}
	return fmt.Sprintf("line %d: %s", f.Line, f.Text)
}

// Read reads a measured curve. The columns are parted by commas, semicolons or tabs, as
// the head has them; between semicolons and tabs a decimal comma is a decimal comma.
// Lines that begin with # are remarks. Every error is a *Fault.
func Read(text []byte) (*Measured, error) {
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	switch {
	case len(text) > mostBytes:
		return nil, &Fault{0, "it is larger than a curve can be (1 MB)"}
	case !utf8.Valid(text) || bytes.IndexByte(text, 0) >= 0:
		return nil, &Fault{0, "it is no text in UTF-8"}
	}
	text = bytes.ReplaceAll(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n")), []byte("\r"), []byte("\n"))
	comma, err := parting(text)
	if err != nil {
		return nil, err
	}
	r := csv.NewReader(bytes.NewReader(text))
	r.Comma, r.Comment, r.FieldsPerRecord, r.TrimLeadingSpace = comma, '#', -1, comma != '\t'
	return readCurve(r, comma != ',')
}

// parting is the sign that parts the columns, by the first line that is no remark.
func parting(text []byte) (rune, error) {
	n := 0
	for line := range bytes.Lines(text) {
		n++
		line = bytes.TrimSpace(line)
		if len(line) == 0 || line[0] == '#' {
			continue
		}
		var signs []rune
		for _, sign := range ",;\t" {
			if bytes.ContainsRune(line, sign) {
				signs = append(signs, sign)
			}
		}
		if len(signs) != 1 {
			return 0, &Fault{n, "the head names two columns, parted by a comma, a semicolon or a tab: nm,density"}
		}
		return signs[0], nil
	}
	return 0, &Fault{0, "there is nothing in it"}
}

func readCurve(r *csv.Reader, decimalComma bool) (*Measured, error) {
	m := &Measured{From: math.Inf(1), To: math.Inf(-1)}
	var readings []Reading
	seen := map[float64]bool{}
	for {
		row, err := r.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, unparsed(err)
		}
		line, _ := r.FieldPos(0)
		if len(row) != 2 {
			return nil, &Fault{line, fmt.Sprintf("it has %d columns, and a curve has two", len(row))}
		}
		if m.Quantity == 0 {
			if m.Quantity, err = head(row, line); err != nil {
				return nil, err
			}
			continue
		}
		reading, err := m.reading(row, line, decimalComma)
		if err != nil {
			return nil, err
		}
		switch {
		case seen[reading.NM]:
			return nil, &Fault{line, trimmed(reading.NM) + " nm stands there twice"}
		case len(readings) == most:
			return nil, &Fault{line, fmt.Sprintf("it has more than %d readings", most)}
		}
		seen[reading.NM] = true
		readings = append(readings, reading)
		m.From, m.To = min(m.From, reading.NM), max(m.To, reading.NM)
	}
	m.Readings = len(readings)
	return m, m.span(readings)
}

func unparsed(err error) error {
	var bad *csv.ParseError
	if errors.As(err, &bad) {
		return &Fault{bad.Line, "its quotation marks do not pair"}
	}
	return &Fault{0, err.Error()}
}

// head is what the second column holds, where both heads say what they are.
func head(row []string, line int) (Quantity, error) {
	if !wavelengths[folded(row[0])] {
		return 0, &Fault{line, fmt.Sprintf("the head of the first column is %q, and not nm", row[0])}
	}
	q := heads[folded(row[1])]
	if q == 0 {
		return 0, &Fault{line, fmt.Sprintf("the head of the second column is %q, and none of density, transmittance, transmittance %%, sensitivity, log sensitivity", row[1])}
	}
	return q, nil
}

// folded writes a head in small letters, with single blanks for all that only parts its
// words: "Wavelength (nm)" is "wavelength nm".
func folded(head string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(head), func(r rune) bool { return strings.ContainsRune(" _()[]\u00a0/-", r) }), " ")
}

func (m *Measured) reading(row []string, line int, decimalComma bool) (r Reading, err error) {
	nm, err := figure(row[0], decimalComma)
	if err != nil {
		return r, &Fault{line, fmt.Sprintf("%q is no number", row[0])}
	}
	if nm < 200 || nm > 2000 {
		return r, &Fault{line, row[0] + " is no wavelength in nanometres between 200 and 2000"}
	}
	v, err := figure(row[1], decimalComma)
	if err != nil {
		return r, &Fault{line, fmt.Sprintf("%q is no number", row[1])}
	}
	if bad := m.Quantity.fault(v); bad != "" {
		return r, &Fault{line, fmt.Sprintf("%s at %s nm: %s", strings.TrimSpace(row[1]), trimmed(nm), bad)}
	}
	return Reading{nm, v}, nil
}

// figure reads a number as it is written in tables; 0x10, 1_000 and inf are none.
func figure(text string, decimalComma bool) (float64, error) {
	text = strings.ReplaceAll(strings.TrimSpace(text), "−", "-")
	if decimalComma && strings.Count(text, ",") == 1 && !strings.Contains(text, ".") {
		text = strings.Replace(text, ",", ".", 1)
	}
	if text == "" || strings.ContainsFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789.+-eE", r) }) {
		return 0, strconv.ErrSyntax
	}
	return strconv.ParseFloat(text, 64)
}

// span makes the curve, and says where the readings do not reach. What a film has no
// reading for at the red end it does not see, as in the published tables.
func (m *Measured) span(readings []Reading) error {
	switch {
	case m.Quantity == 0 || len(readings) == 0:
		return &Fault{0, "there are no readings in it"}
	case m.From > From, m.To < To && !m.Quantity.OfFilm():
		return &Fault{0, fmt.Sprintf("it reaches from %s to %s nm, and what lies between %d and %d is needed", trimmed(m.From), trimmed(m.To), From, To)}
	}
	if from, to, ok := gap(readings); ok {
		return &Fault{0, fmt.Sprintf("nothing was measured between %s and %s nm, and so far no line is drawn", trimmed(from), trimmed(to))}
	}
	m.Curve, _ = Between(readings)
	top := math.Inf(-1)
	for i, v := range m.Curve {
		switch {
		case float64(Nanometres(i)) > m.To:
			m.Curve[i] = 0
			continue
		case m.Quantity == Logarithm:
			m.Curve[i] = v // made relative below, before it could grow too great
		default:
			m.Curve[i] = m.Quantity.value(v)
		}
		top = max(top, m.Curve[i])
	}
	if m.Quantity == Logarithm {
		for i := range m.Curve {
			if float64(Nanometres(i)) <= m.To {
				m.Curve[i] = math.Pow(10, m.Curve[i]-top)
			}
		}
	}
	if m.Quantity.OfFilm() && !(m.Curve.sum() > 0) {
		return &Fault{0, "by it the film sees nothing"}
	}
	return nil
}

// widest is how far apart two neighbours may lie, in nanometres.
const widest = 50

// gap finds neighbours within what is computed that lie too far apart.
func gap(readings []Reading) (from, to float64, ok bool) {
	sorted := slices.Clone(readings)
	slices.SortFunc(sorted, func(a, b Reading) int { return cmp.Compare(a.NM, b.NM) })
	for i := range sorted[1:] {
		from, to = sorted[i].NM, sorted[i+1].NM
		if to-from > widest && to > From && from < To {
			return from, to, true
		}
	}
	return 0, 0, false
}

func trimmed(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
