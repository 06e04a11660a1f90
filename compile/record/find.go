package record

// Finder is what finding sheets needs: every term that the notes give a sheet,
// with the ways to write it, and every word near it. What reads a query has only
// to look spellings up and to join sets; it needs nothing of the notation.
type Finder struct {
	Terms  []Findable        // of the notation and of the trade, by name
	Dates  []Findable        // whole dates, YYYY-MM-DD, in order
	Words  []Findable        // of titles, scenes, places, remarks and the prose around them, in order
	Sheets int               // how many there are
	Plain  map[string]string // characters beyond a typewriter, and how a query's are folded
}

// Findable is a term, a date or a word, with the sheets that it is true of.
type Findable struct {
	Name    string   // as it is said: "filter Y8", "2026-10-04", "kiln"
	Spelled []string // ways to write a term, in small letters on a typewriter; nil: the name alone
	Sheets  []Run    // in order, none touching the next
}

// Run is Count sheets of Season.Sheets from First on.
type Run struct{ First, Count int }
