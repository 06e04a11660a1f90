package record

import (
	"slices"
	"strings"
)

// Compared is what the filters of a scene did beside its control sheets, and what was
// forecast.
type Compared struct {
	Controls []*Sheet // without a filter, on the film of those that are compared
	Drift    string   // by how much the light went from control to control, "" where one is all there is
	How      string   // how densities became stops, or what it takes where nothing was measured
	Sheets   []*Filtered
	Forecast *Forecast // a cast for each of Sheets; nil where it is not known what the film sees
}

// Title says whether it tells what was measured, or only what is forecast.
func (c *Compared) Title() string {
	for _, f := range c.Sheets {
		if f.Spots != nil || f.Measured.Known {
			return "What the filters did"
		}
	}
	return "What the filters do"
}

// Filtered is one sheet with a filter.
type Filtered struct {
	Sheet    *Sheet
	Name     string // of the filters: "R25 + pol"
	Declared Figure // what they cost by the notes or, where those are silent, as published; stops
	By       string // "declared" or "published"
	Forecast Figure // the same as forecast
	Measured Figure // the same by a grey card on both sheets
	Spots    []SpotMove
	Says     []string // all of it as sentences: "sky went down 0.9 stop, forecast 1"
}

// Alike is what is said of filtered sheets, once for those of which the same is said.
type Alike struct {
	Name   string // of the filters
	Sheets []*Sheet
	Says   []string
}

// ByWhatIsSaid are the filtered sheets in their order, those with the same filters of
// which the same is said together.
func (c *Compared) ByWhatIsSaid() []*Alike {
	var all []*Alike
	for _, f := range c.Sheets {
		i := slices.IndexFunc(all, func(a *Alike) bool { return a.Name == f.Name && slices.Equal(a.Says, f.Says) })
		if i < 0 {
			i, all = len(all), append(all, &Alike{Name: f.Name, Says: f.Says})
		}
		all[i].Sheets = append(all[i].Sheets, f.Sheet)
	}
	return all
}

// Labels names the sheets: "1B 2A".
func (a *Alike) Labels() string {
	var all []string
	for _, s := range a.Sheets {
		all = append(all, s.Label)
	}
	return strings.Join(all, " ")
}

// SpotMove is how far a place of the picture went against grey, in stops; + is lighter
// in the print.
type SpotMove struct {
	Spot     string // as the notes call it: "sky"
	Measured Figure
	Forecast Figure
	Subject  string // the subject that was forecast for it; "" where no curve stands for it
}
