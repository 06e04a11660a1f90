package data

import (
	"io"

	"notchbook/compile/record"
)

// Years writes the calendar years and the places come back to as one JSON object,
// described in lang/NOTATION.md. A sheet of a place is written as SheetsJSON does.
func Years(w io.Writer, s *record.Season) error {
	years, places := []yearJSON{}, []placeJSON{}
	for _, y := range s.Years {
		years = append(years, yearOf(y))
	}
	for _, p := range s.Places {
		place := placeJSON{Name: p.Name}
		for _, v := range p.Visits {
			visit := visitJSON{Date: orNull(v.ISO), Typed: v.Date}
			for _, sh := range v.Sheets {
				visit.Sheets = append(visit.Sheets, facts{sh})
			}
			place.Visits = append(place.Visits, visit)
		}
		places = append(places, place)
	}
	return indented(w, map[string]any{"format": "notchbook years", "version": 1, "years": years, "places": places})
}

type yearJSON struct {
	Year      *string        `json:"year"`
	Outings   int            `json:"outings"`
	Sheets    int            `json:"sheets"`
	Exposures int            `json:"exposures"`
	Right     int            `json:"right"`
	Off       int            `json:"off"`
	Unchecked int            `json:"unchecked"`
	NoImage   int            `json:"noImage"`
	Doubled   int            `json:"exposedTwice,omitempty"` // that would be right, were they not on a sheet exposed twice by mistake
	Unexposed int            `json:"unexposed"`
	Developed int            `json:"developed"`
	Scanned   int            `json:"scanned"`
	Films     []filmUseJSON  `json:"filmUsed"`
	Losses    []yearLossJSON `json:"lost"`
}

type filmUseJSON struct {
	Film   *string `json:"film"`
	Sheets int     `json:"sheets"`
}

type yearLossJSON struct {
	Cause  string   `json:"cause"`
	Sheets []string `json:"sheets"`
}

type placeJSON struct {
	Name   string      `json:"name"`
	Visits []visitJSON `json:"visits"`
}

type visitJSON struct {
	Date   *string `json:"date"`
	Typed  string  `json:"dateAsTyped"`
	Sheets []facts `json:"sheets"`
}

func yearOf(y *record.Year) yearJSON {
	out := yearJSON{
		Year: orNull(y.Year), Outings: y.Outings, Sheets: y.Sheets, Exposures: y.Exposures(), Right: y.Right, Off: y.Off, Unchecked: y.Unchecked, NoImage: y.NoImage, Doubled: y.Doubled,
		Unexposed: y.Unexposed, Developed: y.Developed, Scanned: y.Scanned, Films: []filmUseJSON{}, Losses: []yearLossJSON{},
	}
	for _, u := range y.Films {
		out.Films = append(out.Films, filmUseJSON{orNull(u.Film), u.Sheets})
	}
	for _, l := range y.Losses {
		loss := yearLossJSON{Cause: l.Cause}
		for _, sh := range l.Sheets {
			loss.Sheets = append(loss.Sheets, sh.ID)
		}
		out.Losses = append(out.Losses, loss)
	}
	return out
}
