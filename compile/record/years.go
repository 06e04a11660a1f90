package record

import (
	"cmp"
	"slices"
)

// What a season of many notebooks says over the years: each calendar year beside
// the others, and the places that were come back to.

// Counts are how many sheets there are, how their exposures stand, and what became of the
// film. A sheet is a piece of film; exposed twice it is one sheet with two exposures, each
// of which has exactly one state.
type Counts struct {
	Outings, Sheets                int
	Right, Off, Unchecked, NoImage int // exposures
	Doubled                        int // exposures that would be right, were they not on a sheet exposed twice by mistake
	Unexposed                      int // sheets that never were
	Developed, Scanned             int // sheets: surely developed; with a scan that is there
}

// Exposures is how often film was exposed.
func (c *Counts) Exposures() int { return c.Right + c.Off + c.Unchecked + c.NoImage + c.Doubled }

// Twice reports whether there are more exposures than exposed sheets, so that the two are
// to be told apart.
func (c *Counts) Twice() bool { return c.Exposures()+c.Unexposed != c.Sheets }

// Count adds exposures by how they stand, and the sheets that they are on, each named by
// its first exposure.
func Count[S comparable](c *Counts, all []S, state func(S) State, first func(S) S) {
	several := map[S]bool{} // the first exposures of sheets with more, and whether any was made
	for _, sh := range all {
		if one := first(sh); one != sh {
			several[one] = false
		}
	}
	sheets, exposed := len(several), 0
	for _, sh := range all {
		_, more := several[first(sh)]
		if !more {
			sheets++
		}
		switch state(sh) {
		case Right:
			c.Right++
		case Off:
			c.Off++
		case NoImage:
			c.NoImage++
		case Doubled:
			c.Doubled++
		case Unexposed:
			continue
		default:
			c.Unchecked++
		}
		if more {
			several[first(sh)] = true
		} else {
			exposed++
		}
	}
	for _, made := range several {
		if made {
			exposed++
		}
	}
	c.Sheets, c.Unexposed = sheets, sheets-exposed
}

// CountOf counts sheets.
func CountOf(all []*Sheet) (c Counts) {
	developed, scanned := map[*Sheet]bool{}, map[*Sheet]bool{}
	Count(&c, all, (*Sheet).Standing, (*Sheet).First)
	for _, sh := range all {
		if sh.WasDeveloped() {
			developed[sh.First()] = true
		}
		if slices.ContainsFunc(sh.Scans, func(s *Scan) bool { return s.State == Present }) {
			scanned[sh.First()] = true
		}
	}
	c.Developed, c.Scanned = len(developed), len(scanned)
	return c
}

// Standing is how a sheet counts: as its state says, but that no exposure is right that
// shares its film with another by mistake.
func (s *Sheet) Standing() State {
	if s.State == Right && s.Mistaken {
		return Doubled
	}
	return s.State
}

// WasDeveloped reports whether a sheet was developed for certain, though perhaps nobody
// wrote when.
func (s *Sheet) WasDeveloped() bool {
	return s.ShownDeveloped != "" || slices.ContainsFunc(s.Developed, func(d Development) bool { return !d.Maybe })
}

// First is the first exposure on the same piece of film, as a rule the sheet itself.
func (s *Sheet) First() *Sheet {
	for s.Before != nil {
		s = s.Before
	}
	return s
}

// Sheets is how many pieces of film some exposures are on.
func Sheets(exposures []*Sheet) int {
	if !slices.ContainsFunc(exposures, func(s *Sheet) bool { return s.Before != nil }) {
		return len(exposures)
	}
	film := map[*Sheet]bool{}
	for _, s := range exposures {
		film[s.First()] = true
	}
	return len(film)
}

// Lost is how many sheets were lost, to whatever it was.
func Lost(losses []*Loss) int {
	var all []*Sheet
	for _, l := range losses {
		all = append(all, l.Sheets...)
	}
	return Sheets(all)
}

// Year is what the notes say of one calendar year.
type Year struct {
	Year string // of the day on which a sheet was exposed, "2026"; "" where the day's date is not whole
	Counts
	Films  []FilmUse // by name, unknown film first
	Losses []*Loss   // by cause, the commonest first
}

// FilmUse is how many sheets of a film were exposed or spoiled. A sheet that was
// exposed twice is one; a sheet that was stated unused is none.
type FilmUse struct {
	Film   string // the kit's name, "" where unknown
	Sheets int
}

// PlaceVisits is a place in which sheets were logged on more than one day.
type PlaceVisits struct {
	Name   string  // as written on the last of the days
	Visits []Visit // the last first; those whose date is not whole at the end
}

// Visit is a day in a place; with what each picture was made stands at its sheet.
type Visit struct {
	Date   string // as typed
	ISO    string // YYYY-MM-DD where the date is whole, else ""
	Sheets []*Sheet
}

// Day is the date as lists have it: YYYY-MM-DD, as typed where it is not whole, or that there
// is none.
func (v Visit) Day() string { return cmp.Or(v.ISO, v.Date, "no date") }
