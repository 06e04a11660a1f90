package data

import (
	"io"

	"notchbook/compile/record"
)

// ToDevelop writes what waits for development as one JSON object; folder is as for
// Findings.
func ToDevelop(w io.Writer, s *record.Season, folder string) error {
	batches, held, otherwise := []batchJSON{}, []heldJSON{}, []otherwiseJSON{}
	for _, b := range s.ToDevelop.Batches {
		batches = append(batches, batchOf(b))
	}
	for _, h := range s.ToDevelop.Held {
		held = append(held, heldJSON{h.Sheet.ID, h.Why, figure(h.Sheet.Difference), h.Still})
	}
	for _, o := range s.ToDevelop.Otherwise {
		otherwise = append(otherwise, otherwiseJSON{o.Sheet.ID, o.Asked, o.Done, orNull(o.Date), within(folder, o.Place.Path), o.Place.Line})
	}
	return indented(w, map[string]any{
		"format": "notchbook to develop", "version": 1, "batches": batches, "held": held, "otherwise": otherwise,
		"helps": append([]string{}, s.ToDevelop.Helps...), "cautions": append([]string{}, s.ToDevelop.Cautions...),
	})
}

type batchJSON struct {
	Film        *string     `json:"film"`
	Development *string     `json:"development"`
	Safelight   string      `json:"safelight"`
	Developer   *string     `json:"developer"`
	Dilution    *string     `json:"dilution"`
	Seconds     *float64    `json:"seconds"`
	Celsius     *float64    `json:"celsius"`
	How         string      `json:"how"`
	Agitation   *string     `json:"agitation"`
	Capacity    *string     `json:"capacity"`
	Sheets      []tankSheet `json:"sheets"`
}

type tankSheet struct {
	ID    string   `json:"id"`
	Run   int      `json:"run"`
	Order int      `json:"order"`
	Stops *float64 `json:"stops"`
	AsOne *float64 `json:"stopsAsOne,omitempty"` // several exposures counted as one, where the sheet is right only so
	Note  *string  `json:"note"`
}

type heldJSON struct {
	ID    string   `json:"id"`
	Why   string   `json:"why"`
	Stops *float64 `json:"stops"`
	Still string   `json:"still"`
}

type otherwiseJSON struct {
	ID    string  `json:"id"`
	Asked string  `json:"asked"`
	Done  string  `json:"done"`
	Date  *string `json:"date"`
	File  string  `json:"file"`
	Line  int     `json:"line"`
}

func batchOf(b *record.Batch) batchJSON {
	out := batchJSON{
		Film: orNull(b.Film), Development: orNull(b.Development), Safelight: b.Safelight, Developer: orNull(b.Developer), Dilution: orNull(b.Dilution),
		Seconds: figure(b.Seconds), Celsius: figure(b.Celsius), How: b.How, Agitation: orNull(b.Agitation), Capacity: orNull(b.Capacity), Sheets: []tankSheet{},
	}
	for _, sh := range b.Sheets {
		out.Sheets = append(out.Sheets, tankSheet{sh.Sheet.ID, sh.Run, sh.Order, figure(sh.Sheet.Difference), figure(sh.Sheet.AsOne), orNull(sh.Note)})
	}
	return out
}
