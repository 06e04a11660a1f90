package saying

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// Name is what a sheet is called in a list that goes across outings: its permanent
// number where it has one, since holder sides come again, else its label.
func Name(s *record.Sheet) string { return cmp.Or(s.Number, s.Label) }

// Beside is the label of a sheet that its number names, else "".
func Beside(s *record.Sheet) string {
	if s.Number == "" || s.Number == s.Label {
		return ""
	}
	return s.Label
}

// Subject is what a sheet is of: its own title, else that of its scene.
func Subject(s *record.Sheet) string {
	if s.Title == "" && s.Scene != nil {
		return s.Scene.Title
	}
	return s.Title
}

// Given is the texts that are not empty, in a list of its own.
func Given(texts ...string) []string {
	return slices.DeleteFunc(slices.Clone(texts), func(s string) bool { return s == "" })
}

// Join joins the texts that are not empty.
func Join(sep string, texts ...string) string { return strings.Join(Given(texts...), sep) }

// Count says a number of things: "1 sheet", "3 sheets", "2 entries".
func Count(n int, thing string) string {
	switch {
	case n == 1:
		return "1 " + thing
	case strings.HasSuffix(thing, "y"):
		thing = strings.TrimSuffix(thing, "y") + "ie"
	}
	return strconv.Itoa(n) + " " + thing + "s"
}

// Film says on how many sheets some exposures are, and how many exposures where not each
// exposed sheet has one: "27 sheets", "27 sheets, 28 exposures".
func Film(exposures []*record.Sheet) string {
	c := record.CountOf(exposures)
	return Join(", ", Count(c.Sheets, "sheet"), Exposed(&c))
}

// FilmOf says the same of some among others: "27 sheets of 33, 28 exposures".
func FilmOf(exposures, all []*record.Sheet) string {
	c := record.CountOf(exposures)
	return Join(", ", Count(c.Sheets, "sheet")+" of "+strconv.Itoa(record.Sheets(all)), Exposed(&c))
}

// Exposed says how many exposures there are where that is not one for each exposed sheet.
func Exposed(c *record.Counts) string {
	if !c.Twice() {
		return ""
	}
	return Count(c.Exposures(), "exposure")
}

// Sheets says how many sheets there are, and how they stand: "12: 10 right, 2 off"; where
// some were exposed twice, how their exposures stand: "12, 13 exposures: 10 right, 3 off".
func Sheets(c *record.Counts) string {
	if c.Twice() {
		return strconv.Itoa(c.Sheets) + ", " + Standing(c)
	}
	return Join(": ", strconv.Itoa(c.Sheets), Standing(c))
}

// Standing says how sheets stand, and where some were exposed twice, their exposures.
func Standing(c *record.Counts) string {
	numbers, words := []int{c.Right, c.Off, c.Doubled, c.Unchecked, c.NoImage}, []string{"right", "off", "exposed twice", "unchecked", "no image"}
	if c.Twice() {
		return Join("; ", Join(": ", Count(c.Exposures(), "exposure"), Counted(numbers, words...)), Counted([]int{c.Unexposed}, "unexposed"))
	}
	return Counted(append(numbers, c.Unexposed), append(words, "unexposed")...)
}

// Counted joins the numbers that are not 0, each with its words.
func Counted(numbers []int, words ...string) string {
	var all []string
	for i, n := range numbers {
		if n > 0 {
			all = append(all, strconv.Itoa(n)+" "+words[i])
		}
	}
	return strings.Join(all, ", ")
}

// Findings says how many there are of each severity: "1 error, 3 notes".
func Findings(t *record.Tally) string {
	var all []string
	for i, n := range []int{t.Errors, t.Warnings, t.Notes} {
		if n > 0 {
			all = append(all, Count(n, [...]string{"error", "warning", "note"}[i]))
		}
	}
	return strings.Join(all, ", ")
}

// Zones says where an area was placed and where it fell: "placed on III", "fell on IV".
func Zones(a *record.Area) []string {
	var all []string
	if a.Meant.Known {
		all = append(all, "placed on "+exposure.Roman(a.Meant.Value))
	}
	if a.Fell.Known {
		all = append(all, "fell on "+exposure.Roman(a.Fell.Value))
	}
	return all
}

// Read says what the meter showed of an area, and that at the film's index where it is
// another figure.
func Read(a *record.Area) string {
	if a.Brought == "" {
		return a.Read
	}
	return a.Read + " (" + a.Brought + ")"
}

// EV writes an exposure value, nothing for an unknown one.
func EV(f record.Figure) string {
	if !f.Known {
		return ""
	}
	return exposure.FormatEV(f.Value)
}

// LostFrom says from where on a sheet is counted as lost to its exposure: exposure.AStop.
const LostFrom = "lost to its exposure: what is off by a stop or more and was developed"

// mostTyped is how long a line that numbers many negatives may be to stand at each of its
// sheets as it was typed.
const mostTyped = 60

// Typed is a line as it stands at one of its sheets: as typed, but for a long one that
// numbers many negatives. Of that what concerns the sheet is said, and where the rest is
// stands beside it.
func Typed(l *record.Line, s *record.Sheet) string {
	labels, _, _ := strings.Cut(l.Text, ":")
	words := strings.Fields(labels)
	if l.Word != numbering || len(l.Text) <= mostTyped || len(words) < 3 || s.Number == "" {
		return l.Text
	}
	for i := range s.Lines {
		if o := &s.Lines[i]; o.Word == numbering && *o != *l {
			return words[0] + " … " + s.Label + " …" // which of them counts is not known here
		}
	}
	if s.Number == s.Label {
		return words[0] + " … " + s.Label + " …"
	}
	return words[0] + " … " + s.Label + " → " + s.Number + " …"
}

// numbering is the log word of lines that number negatives.
const numbering = "neg"

// ScanFacts says what is known of a scan file, but for its size: "TIFF", "520 × 417 pixels", "16 bits".
func ScanFacts(s *record.Scan) []string {
	facts := Given(s.Format)
	if s.Width > 0 {
		facts = append(facts, fmt.Sprintf("%d × %d pixels", s.Width, s.Height))
	}
	if s.Depth > 0 {
		facts = append(facts, fmt.Sprintf("%d bits", s.Depth))
	}
	if s.Linear {
		facts = append(facts, "linear")
	}
	return facts
}

// Size is a number of bytes as disks are sold: 1 MB is a million. "" for none.
func Size(n int64) string {
	const kB, MB, GB = 1_000, 1_000_000, 1_000_000_000
	switch {
	case n < 1:
		return ""
	case n < kB:
		return strconv.FormatInt(n, 10) + " bytes"
	case n < MB:
		return short(float64(n)/kB) + " kB"
	case n < GB:
		return short(float64(n)/MB) + " MB"
	}
	return short(float64(n)/GB) + " GB"
}

// short writes one decimal below ten, none above.
func short(x float64) string {
	if x < 9.95 {
		return strconv.FormatFloat(x, 'f', 1, 64)
	}
	return strconv.FormatFloat(x, 'f', 0, 64)
}

// OtherBytes says of a scan that it is not what an earlier record knew; "" of one that
// is, and of one of which it is not known.
func OtherBytes(s *record.Scan) string {
	if s.Was == "" || s.SHA256 == "" {
		return ""
	}
	return "has other bytes than in an earlier record"
}

// FormerSum stands before the digest that a scan had in an earlier record.
const FormerSum = "SHA-256 in an earlier record"

// ScanGroups are the states of scans in the order in which they are listed, what
// needs looking after first.
var ScanGroups = []struct {
	State record.ScanState
	Title string
}{
	{record.Missing, "Missing"},
	{record.Unreadable, "Cannot be read"},
	{record.Outside, "Outside the season's folder"},
	{record.Orphan, "Scans that no sheet claims"},
	{record.Present, "Present"},
}
