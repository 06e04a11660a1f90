// Package data writes the finished record for other programs: findings as JSON
// and as SARIF.
package data

import (
	"io"
	"path"

	"notchbook/compile/record"
)

// findingsVersion is the version of the findings' form. It changes when a
// reader of the old form could misread the new one.
const findingsVersion = 1

// findings is the form of the JSON output.
type findings struct {
	Format   string    `json:"format"`
	Version  int       `json:"version"`
	Findings []finding `json:"findings"`
	Sheets   []sheet   `json:"sheets"`
}

type finding struct {
	Code         string   `json:"code"`
	Severity     string   `json:"severity"`
	File         string   `json:"file"`
	Line         int      `json:"line"` // lines and columns count from 1, columns in characters
	Column       int      `json:"column"`
	EndLine      int      `json:"endLine"` // the end is exclusive
	EndColumn    int      `json:"endColumn"`
	Also         []int    `json:"also,omitempty"` // further lines that it is of
	Sheets       []string `json:"sheets"`
	IDs          []string `json:"ids"`
	Stops        *float64 `json:"stops"`
	StopsByClock *float64 `json:"stopsByClock"`
	Causes       []string `json:"causes"`
	Message      string   `json:"message"`
	Notes        []string `json:"notes"`
	Fix          *fix     `json:"fix"`
}

// fix replaces the stretch it names by its text.
type fix struct {
	File      string `json:"file"`
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	EndLine   int    `json:"endLine"`
	EndColumn int    `json:"endColumn"`
	Text      string `json:"text"`
}

type sheet struct {
	ID       string   `json:"id"`
	Label    string   `json:"label"`
	State    string   `json:"state"`
	Stops    *float64 `json:"stops"`
	AsOne    *float64 `json:"stopsAsOne,omitempty"` // several exposures counted as one, where the sheet is right only so
	Needs    []string `json:"needs"`
	Doubtful []string `json:"doubtful"`
}

// Findings writes what was found, and how every sheet stands, as JSON. The form
// is described in lang/NOTATION.md. The season's files lie in a folder, with slashes,
// as whoever reads the findings names it; "" is the one that he stands in.
func Findings(w io.Writer, s *record.Season, folder string) error {
	out := findings{Format: "notchbook findings", Version: findingsVersion, Findings: []finding{}, Sheets: []sheet{}}
	for _, f := range s.Findings {
		out.Findings = append(out.Findings, newFinding(f, folder))
	}
	for _, sh := range s.Sheets {
		out.Sheets = append(out.Sheets, sheet{ID: sh.ID, Label: sh.Label, State: string(sh.State), Stops: figure(sh.Difference), AsOne: figure(sh.AsOne), Needs: list(sh.Needs), Doubtful: list(sh.Doubts)})
	}
	return encoded(w, out, " ")
}

func newFinding(f *record.Finding, folder string) finding {
	out := finding{
		Code: f.Code, Severity: string(f.Severity), File: within(folder, f.Place.Path), Line: f.Place.Line, Column: f.Place.Column,
		EndLine: f.Place.EndLine, EndColumn: f.Place.EndColumn, Sheets: []string{}, IDs: []string{}, Causes: list(f.Causes),
		Message: f.Message, Notes: list(f.Notes),
	}
	for _, at := range f.Also {
		out.Also = append(out.Also, at.Line)
	}
	for _, sh := range f.Sheets {
		out.Sheets = append(out.Sheets, sh.Label)
		out.IDs = append(out.IDs, sh.ID)
	}
	if f.Code == "exposure-off" && len(f.Sheets) > 0 {
		out.Stops, out.StopsByClock = figure(f.Sheets[0].Difference), figure(f.Sheets[0].ByClock)
	}
	if f.Fix != nil {
		p := f.Fix.Place
		out.Fix = &fix{within(folder, p.Path), p.Line, p.Column, p.EndLine, p.EndColumn, f.Fix.Text}
	}
	return out
}

// within is the path of a file in a folder, "" where there is no file.
func within(folder, name string) string {
	if name == "" {
		return ""
	}
	return path.Join(folder, name)
}

func figure(f record.Figure) *float64 {
	if !f.Known {
		return nil
	}
	v := f.Value
	return &v
}

// list is never null.
func list(all []string) []string {
	if all == nil {
		return []string{}
	}
	return all
}
