package html

import (
	"cmp"
	"fmt"
	"strings"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// The page of the years beside one another, and of the places that were come back
// to, the last day first: what was used here last time.

// yearItem is a year or a place; one of Facts and Days is set.
type yearItem struct {
	Title, ID string
	Facts     []record.Fact
	Days      []visitDay
}

// visitDay is a day in a place.
type visitDay struct {
	Date string
	Rows []sheetRow
}

func (w *site) yearPages() []*page {
	var items []yearItem
	for _, y := range w.season.Years {
		items = append(items, yearItem{Title: cmp.Or(y.Year, "Date not whole"), ID: "year-" + cmp.Or(y.Year, "none"), Facts: yearFacts(y)})
	}
	for i, p := range w.season.Places {
		it := yearItem{Title: p.Name, ID: fmt.Sprint("place-", i+1)}
		for _, v := range p.Visits {
			day := visitDay{Date: v.Day()}
			for _, s := range v.Sheets {
				day.Rows = append(day.Rows, w.row(s))
			}
			it.Days = append(it.Days, day)
		}
		items = append(items, it)
	}
	weight := func(it yearItem) int {
		n := 900
		for _, d := range it.Days {
			n += 300 + rowWeight*len(d.Rows)
		}
		return n
	}
	return list("years", "Years and places", "years", cut(items, weight), func(_ int, items []yearItem) any { return items })
}

// yearFacts says a year in numbers.
func yearFacts(y *record.Year) []record.Fact {
	var films, lost []string
	for _, f := range y.Films {
		films = append(films, fmt.Sprint(cmp.Or(f.Film, "film not known"), " ", f.Sheets))
	}
	for _, l := range y.Losses {
		lost = append(lost, fmt.Sprint(l.Cause, " ", record.Sheets(l.Sheets)))
	}
	facts := []record.Fact{
		{Name: "Outings", Value: fmt.Sprint(y.Outings)}, {Name: "Sheets", Value: saying.Sheets(&y.Counts)},
		{Name: "Developed", Value: fmt.Sprint(y.Developed)}, {Name: "Scanned", Value: fmt.Sprint(y.Scanned)},
	}
	for _, f := range []record.Fact{{Name: "Film used", Value: strings.Join(films, ", ")}, {Name: "Lost to", Value: strings.Join(lost, ", ")}} {
		if f.Value != "" {
			facts = append(facts, f)
		}
	}
	return facts
}

// Used is what a picture was made with, for who stands there again.
func (r sheetRow) Used() string {
	return saying.Join(" · ", r.Hour, lensWords(r.Lens), strings.Join(r.Movements, ", "), r.filters(), r.settings())
}

func lensWords(name string) string {
	if name == "" {
		return ""
	}
	return "lens " + name
}
