package data

import (
	"io"
	"math"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// Forecast writes what filters will do as one JSON object, described in
// lang/NOTATION.md. All is in stops, to a third.
func Forecast(w io.Writer, f *record.Forecast) error {
	casts, from := []castJSON{}, []sourceJSON{}
	for _, c := range f.Casts {
		casts = append(casts, castOf(f, c))
	}
	for _, s := range f.From {
		from = append(from, sourceJSON{s.Name, s.Value})
	}
	for _, s := range f.Subjects {
		from = append(from, sourceJSON{s.Key, s.From})
	}
	return indented(w, map[string]any{
		"format": "notchbook forecast", "version": 1, "film": f.Film, "light": f.Light, "filters": casts, "from": from, "held": f.Held,
	})
}

type castJSON struct {
	Name     string     `json:"name"`
	Stops    *float64   `json:"stops"`
	Declared *float64   `json:"declared"`
	Dark     bool       `json:"noLight"`
	Missing  *string    `json:"missing"`
	Moves    []moveJSON `json:"moves"`
	Notes    []string   `json:"notes"`
}

type moveJSON struct {
	Subject string  `json:"subject"`
	Stops   float64 `json:"stops"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
}

type sourceJSON struct {
	Of   string `json:"of"`
	From string `json:"from"`
}

func castOf(f *record.Forecast, c *record.Cast) castJSON {
	out := castJSON{Name: c.Name, Dark: c.Dark, Missing: orNull(c.Missing), Moves: []moveJSON{}, Notes: append([]string{}, c.Notes...)}
	out.Stops, out.Declared = rounded(c.Stops, third), rounded(c.Declared, hundredths)
	for i, m := range c.Moves {
		out.Moves = append(out.Moves, moveJSON{f.Subjects[i].Key, third(m.Stops), third(m.Low), third(m.High)})
	}
	return out
}

// third is stops to a third, with two decimals.
func third(stops float64) float64 { return hundredths(exposure.Third(stops)) }

func hundredths(v float64) float64 {
	if v = math.Round(v*100) / 100; v == 0 {
		return 0 // and not −0
	}
	return v
}
