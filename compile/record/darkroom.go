package record

// What lies between the camera and the sleeve: which film is in which holder,
// what waits for which development, what was lost, and which number each
// negative bears.

// HolderSide is one side of a film holder, or any other thing that the notes
// load with film, with everything that the notes say of it in their order.
type HolderSide struct {
	Label     string // "3A", as first written
	Of        string // whose it is, where notebooks with other kits have a side called so: their folder; "" where all holders are of one kit
	Slug      string // unique in the season, safe in file names and anchors
	State     HolderState
	Why       string // how the state is known, in words: "loaded 2026-10-25"
	Film      string // in it now: "slate"; "slate or plate" where the notes disagree; "" unknown or none
	Sheet     *Sheet // the exposed sheet that is in it now, nil where there is none
	May       Answer // may it be loaded again
	Reason    string // why, or what would have to be known: "it holds 3A, exposed and not developed"
	Format    string // "4x5" where a holder line states it
	Notch     string // the code that its negatives show, where a holder line states it
	Events    []SideEvent
	Conflicts []*Finding // what the check had to say of it
}

// Name is the label, with whose it is where that must be said.
func (h *HolderSide) Name() string {
	if h.Of == "" {
		return h.Label
	}
	return h.Label + " (" + h.Of + ")"
}

// HolderState is what is in a holder side, as far as the notes tell.
type HolderState string

// The states of a holder side.
const (
	Empty     HolderState = "empty"     // stated so, or never loaded
	Loaded    HolderState = "loaded"    // with film that was not exposed
	Exposed   HolderState = "exposed"   // with a sheet that waits for development
	Spoiled   HolderState = "spoiled"   // with a sheet that is stated fogged or spoiled
	Doubtful  HolderState = "doubtful"  // the notes contradict one another, or doubt it
	Developed HolderState = "developed" // its last sheet was developed, so it is free
	Unknown   HolderState = "unknown"   // the notes name it and do not say what is in it
)

// Answer is yes, no, or neither where the notes do not tell.
type Answer string

// The answers.
const (
	Yes      Answer = "yes"
	No       Answer = "no"
	NotKnown Answer = "not known"
)

// SideEvent is one thing that happened to a holder side.
type SideEvent struct {
	Date  string // of the day or of the development, as typed or YYYY-MM-DD; "" unknown
	What  string // "loaded", "exposed", "exposed again", "unused", "spoiled", "fogged", "developed", "emptied", "may be developed", ...
	Film  string // that was loaded or exposed
	Sheet *Sheet // that was exposed or developed, nil for a load
	Place Place
}

// ToDevelop is the page "To develop": what was exposed and not developed.
type ToDevelop struct {
	Batches   []*Batch
	Held      []HeldSheet // to be looked at before they go into any batch
	Helps     []string    // what another development could do for those, by film
	Otherwise []Otherwise // developed otherwise than asked
	Cautions  []string    // sentences that stand on the page and on paper
}

// Batch is sheets that may share a tray or tank: one film, one development, one
// developer.
type Batch struct {
	Slug        string // unique in the season, safe in file names and anchors
	Film        string // "" unknown
	Class       string // "pan", "ortho", "blue", "" not declared
	Safelight   string // in words: "total darkness", or what the kit allows
	Development string // "N−1"; "" where none is asked for
	Developer   string // as declared, "" where none is
	Dilution    string // "1+31"
	Time        string // "6 min 15 s", "" where none is known
	Seconds     Figure
	Temperature string // "20 °C", "" where none is declared
	Celsius     Figure
	How         string   // how the time was obtained, with where it is declared
	Others      []string // the times for other temperatures inside the declared range
	Agitation   string   // as declared
	Capacity    string   // as declared
	Fits        int      // sheets that go in at once, 0 where not declared
	Sheets      []BatchSheet
	Cautions    []string // "the time is short: under five minutes development comes out uneven"
}

// BatchSheet is a sheet in the order of the tank or tray.
type BatchSheet struct {
	Sheet *Sheet
	Run   int    // which filling of the tank it is in, from 1; 0 where the capacity is not declared
	Order int    // within the filling, from 1
	Note  string // "+⅓ stop", "exposed again", what should be known before it is wet
}

// HeldSheet is an exposed sheet that should not go into a batch unseen.
type HeldSheet struct {
	Sheet *Sheet
	Why   string // "off by 2 stops under", "written hold"
	Still string // what can still be decided before it is developed
	Batch *Batch // where it would go, nil where not even that is known
}

// Otherwise is a sheet that was developed otherwise than was asked.
type Otherwise struct {
	Sheet       *Sheet
	Asked, Done string // "N−1", "N"
	Date        string
	Place       Place
}

// Loss is sheets that were lost to one cause.
type Loss struct {
	Cause  string // in the trade's words: "light leak", "camera shake", "off exposure"
	Slug   string // "leak", "shake", "off"
	Sheets []*Sheet
}

// Negatives is the numbering of the season's negatives.
type Negatives struct {
	Numbered []*Sheet       // sheets that bear a number: series by their first day, then in the numbers' order
	Series   []NumberSeries // those in use, the one that was used latest first
	Twice    []TwiceNote    // numbers that were given to a second negative
	Unlogged []UnloggedNote // negatives without an entry
	Without  []*Sheet       // developed sheets without a number, where others have one
	Unfiled  []*Sheet       // developed sheets without a sleeve, where others have one
}

// NumberSeries is the end of a series of numbers: those that differ in their last figures only.
type NumberSeries struct {
	Next  string // the next free number
	After string // the number that it follows, the highest
}

// TwiceNote is a number that a line gives to a sheet though another bears it.
type TwiceNote struct {
	Number string
	Sheet  *Sheet // bears it not
	Bearer *Sheet
	Place  Place // of the line
}

// UnloggedNote is a negative's number that no sheet bears: a line names it, or
// it is left out between two that are given.
type UnloggedNote struct {
	Number string
	Why    string // "a sleeve line names it", "left out between 26-043 and 26-045"
	Place  Place  // of the line; none for a gap
}

// Density is a densitometer's reading of a negative.
type Density struct {
	Spot     string    // where it was read: "base+fog", "card", "step 3"; "" not said
	D        float64   // the mean of the readings, 0 to 5
	Readings []float64 // in the order written, at least one
	Place    Place
}

// OnFilm is how much light fell on the film at a place, by its density over base and fog
// and the characteristic curve of the sheet.
type OnFilm struct {
	Spot  string
	Stops float64 // from Zone V where the test metered its light, else from a zero that all sheets of that test share
}

// Patch is a place on the picture that is measured on the scan, or the level that
// was read off it there.
type Patch struct {
	Name         string  // "sky"; "" not said
	Placed       bool    // Across and Down hold
	Across, Down float64 // of the width from the left, of the height from the top, 0 to 1
	Level        Figure  // of a linear scan, as typed; proportional to the light that the film lets through
	Place        Place
}
