package data

import (
	"io"

	"notchbook/compile/record"
)

// Holders writes the sides of all holders as one JSON object: what is in each
// now, whether it may be loaded again, and all that happened to it; folder is as for
// Findings.
func Holders(w io.Writer, s *record.Season, folder string) error {
	all := []holderJSON{}
	for _, h := range s.Holders {
		all = append(all, holderOf(h, folder))
	}
	return indented(w, map[string]any{"format": "notchbook holders", "version": 1, "sides": all})
}

type holderJSON struct {
	Label     string      `json:"label"`
	Of        *string     `json:"of"`
	State     string      `json:"state"`
	Why       string      `json:"why"`
	Film      *string     `json:"film"`
	Sheet     *string     `json:"sheet"`
	May       string      `json:"mayBeLoaded"`
	Reason    string      `json:"reason"`
	Notch     *string     `json:"notch"`
	Events    []eventJSON `json:"events"`
	Conflicts []string    `json:"conflicts"`
}

type eventJSON struct {
	Date  *string `json:"date"`
	What  string  `json:"what"`
	Film  *string `json:"film"`
	Sheet *string `json:"sheet"`
	File  string  `json:"file"`
	Line  int     `json:"line"`
}

func holderOf(h *record.HolderSide, folder string) holderJSON {
	out := holderJSON{
		Label: h.Label, Of: orNull(h.Of), State: string(h.State), Why: h.Why, Film: orNull(h.Film), Sheet: sheetID(h.Sheet),
		May: string(h.May), Reason: h.Reason, Notch: orNull(h.Notch), Events: []eventJSON{}, Conflicts: []string{},
	}
	for _, e := range h.Events {
		out.Events = append(out.Events, eventJSON{orNull(e.Date), e.What, orNull(e.Film), sheetID(e.Sheet), within(folder, e.Place.Path), e.Place.Line})
	}
	for _, f := range h.Conflicts {
		out.Conflicts = append(out.Conflicts, f.Message)
	}
	return out
}

func indented(w io.Writer, v any) error { return encoded(w, v, "   ") }

// orNull is a text, or null where it is unknown.
func orNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

func sheetID(sh *record.Sheet) *string {
	if sh == nil {
		return nil
	}
	return &sh.ID
}
