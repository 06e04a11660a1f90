package record

// What a season of many notebooks says over the years: each calendar year beside
// the others, and the places that were come back to.

// Counts are how many sheets there are and how they stand. Each sheet has exactly
// one state.
type Counts struct {
	Outings, Sheets                           int
	Right, Off, Unchecked, NoImage, Unexposed int
	Developed, Scanned                        int // surely developed; with a scan that is there
}

// Count adds a sheet of a state.
func (c *Counts) Count(state State) {
	c.Sheets++
	switch state {
	case Right:
		c.Right++
	case Off:
		c.Off++
	case NoImage:
		c.NoImage++
	case Unexposed:
		c.Unexposed++
	default:
		c.Unchecked++
	}
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
