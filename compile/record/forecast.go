package record

// Forecast is what filters do on a film in a light, as computed from curves.
type Forecast struct {
	Film, Light string    // "panchromatic film", "daylight"
	Subjects    []Subject // what is before the camera, in the order shown
	Casts       []*Cast   // filters and stacks; the control, without any, is not among them
	From        []Fact    // which data each part is from
	Held        string    // how well the method did against what is published
}

// Of is what the forecast is of.
func (f *Forecast) Of() string {
	return f.Film + " in " + f.Light + ", against grey and to a third of a stop"
}

// Said is what the forecast is of and how well it does, as a sentence.
func (f *Forecast) Said() string { return f.Of() + "; " + f.Held }

// Subject is a thing whose tone a filter moves against grey.
type Subject struct {
	Name string
	Key  string // one word, for data
	From string // the curves that stand for it
}

// Cast is what one filter, or a stack of them, does.
type Cast struct {
	Name    string // as the notes call it: "R25 + pol"
	Stops   Figure // what it costs; unknown where Missing says why
	Dark    bool   // it leaves no light that the film sees
	Missing string // the curve that is lacking, in words; "" where none is
	Moves   []Move // by subject; nil where nothing is forecast

	Declared Figure // what the notes say that it costs, in stops
	Source   string // where they say so: "kit.md:12"
	Notes    []string
}

// Move is how far a subject goes on film once the filter's factor is given, in stops
// against a grey card, which stays: + is lighter in the print. Low and High are the
// least and the most of the curves that stand for the subject.
type Move struct{ Stops, Low, High float64 }
