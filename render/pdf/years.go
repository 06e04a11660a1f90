package pdf

import (
	"fmt"
	"strings"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// years sets the calendar years one below the other, and behind them the places
// that were come back to, with what each picture was made with, the last day first.
func (b *book) years() {
	b.beginBelow(yearsTitle, saying.LostFrom)
	for _, y := range b.season.Years {
		b.subtitle(orWords(y.Year, "Date not whole"))
		first := len(b.lines)
		for _, row := range yearRows(y) {
			if row[1] != "" {
				b.pair(row[0], row[1], b.form.fact)
			}
		}
		b.keepFrom(first)
		b.lines[len(b.lines)-1].keep = false
		b.place()
	}
	for _, p := range b.season.Places {
		b.subtitle(p.Name)
		for _, v := range p.Visits {
			b.visit(v)
		}
		b.place()
	}
	b.place()
}

// yearRows says a year in numbers.
func yearRows(y *record.Year) [][2]string {
	var films, lost []string
	for _, f := range y.Films {
		films = append(films, fmt.Sprint(orWords(f.Film, "film not known"), " ", f.Sheets))
	}
	for _, l := range y.Losses {
		lost = append(lost, fmt.Sprint(l.Cause, " ", record.Sheets(l.Sheets)))
	}
	return [][2]string{
		{"outings", fmt.Sprint(y.Outings)},
		{"sheets", saying.Sheets(&y.Counts)},
		{"developed", fmt.Sprint(y.Developed)},
		{"scanned", fmt.Sprint(y.Scanned)},
		{"film used", strings.Join(films, ", ")},
		{"lost to", strings.Join(lost, ", ")},
	}
}

// visit is a day in a place.
func (b *book) visit(v record.Visit) {
	b.set(measure{right: b.width()}, span{text: v.Day(), style: label})
	b.lines[len(b.lines)-1].keep = true
	for _, s := range v.Sheets {
		scene := s.Title
		if scene == "" && s.Scene != nil {
			scene = s.Scene.Title
		}
		lens := s.Lens
		if lens != "" {
			lens = "lens " + lens
		}
		used := saying.Join(", ", s.Hour, lens, strings.Join(s.Movements, ", "), strings.Join(s.Filters, " + "), s.Given.Aperture, s.Given.Time)
		b.sheetRow("", s, scene, used)
	}
	b.space(grid / 2)
}
