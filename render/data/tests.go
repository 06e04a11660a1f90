package data

import (
	"io"
	"math"

	"notchbook/compile/record"
)

// Tests writes the photographer's own tests and what they say as one JSON object,
// described in lang/NOTATION.md; folder is as for Findings.
func Tests(w io.Writer, s *record.Season, folder string) error {
	return indented(w, map[string]any{"format": "notchbook tests", "version": 1, "tests": testsOf(s, folder)})
}

func testsOf(s *record.Season, folder string) []testJSON {
	all := []testJSON{}
	for _, t := range s.Tests {
		all = append(all, testOf(t, folder))
	}
	return all
}

type testJSON struct {
	Kind    string       `json:"kind"`
	Name    string       `json:"name"`
	Title   string       `json:"title"`
	Film    *string      `json:"film"`
	File    string       `json:"file"`
	Line    int          `json:"line"`
	Sheets  []string     `json:"sheets"`
	Results []resultJSON `json:"results"`
	Odd     []oddJSON    `json:"odd"`
	Plots   []plotJSON   `json:"plots"`
	Needs   []string     `json:"needs"`
	Notes   []string     `json:"notes"`
}

type resultJSON struct {
	Of       string      `json:"of"`
	How      string      `json:"how"`
	Text     string      `json:"text"`
	Value    *float64    `json:"value"`
	Unit     string      `json:"unit"`
	Error    *float64    `json:"standardError"`
	WithOdd  *string     `json:"withOddSheets"`
	Declared *string     `json:"declared"`
	Offer    *string     `json:"offer"`
	From     []string    `json:"from"`
	Why      *string     `json:"whyNotKnown"`
	Moves    []movedJSON `json:"moves"`
}

type movedJSON struct {
	Sheet  string   `json:"sheet"`
	By     float64  `json:"byStops"`
	Stands *float64 `json:"standsStops"`
	Was    string   `json:"was"`
	Now    string   `json:"now"`
}

type oddJSON struct {
	Sheet string   `json:"sheet"`
	Or    []string `json:"or"`
	Off   string   `json:"off"`
	Known []string `json:"known"`
}

type plotJSON struct {
	Title string     `json:"title"`
	Kind  string     `json:"kind"`
	X     string     `json:"x"`
	Y     string     `json:"y"`
	Lines []lineOfXY `json:"lines"`
}

type lineOfXY struct {
	Name   string       `json:"name"`
	Joined bool         `json:"joined"`
	Points [][2]float64 `json:"points"`
}

func testOf(t *record.Test, folder string) testJSON {
	out := testJSON{
		Kind: t.Kind, Name: t.Name, Title: t.Title, Film: orNull(t.Film), File: within(folder, t.Place.Path), Line: t.Place.Line, Sheets: idsOf(t.Sheets),
		Results: []resultJSON{}, Odd: []oddJSON{}, Plots: []plotJSON{}, Needs: list(t.Needs), Notes: list(t.Notes),
	}
	for _, r := range t.Results {
		moves := []movedJSON{}
		for _, m := range r.Moves {
			moves = append(moves, movedJSON{m.Sheet.ID, thousandths(m.By), rounded(m.Stands, thousandths), string(m.Was), string(m.Now)})
		}
		out.Results = append(out.Results, resultJSON{
			Of: r.Of, How: r.How, Text: r.Text, Value: rounded(r.Value, thousandths), Unit: r.Unit, Error: rounded(r.Error, thousandths), WithOdd: orNull(r.WithOdd),
			Declared: orNull(r.Declared), Offer: orNull(r.Offer), From: idsOf(r.From), Why: orNull(r.Why), Moves: moves,
		})
	}
	for _, o := range t.Odd {
		out.Odd = append(out.Odd, oddJSON{o.Sheet.ID, idsOf(o.Or), o.Off, list(o.Known)})
	}
	for _, p := range t.Plots {
		plot := plotJSON{p.Title, string(p.Kind), p.X, p.Y, []lineOfXY{}}
		for _, l := range p.Lines {
			line := lineOfXY{l.Name, l.Joined, [][2]float64{}}
			for _, at := range l.Points {
				line.Points = append(line.Points, [2]float64{thousandths(at[0]), thousandths(at[1])})
			}
			plot.Lines = append(plot.Lines, line)
		}
		out.Plots = append(out.Plots, plot)
	}
	return out
}

// thousandths keeps what a densitometer can tell, and the same figure on every
// machine.
func thousandths(x float64) float64 { return math.Round(x*1000) / 1000 }
