package pdf

import (
	"strconv"
	"strings"

	"notchbook/compile/record"
	"notchbook/render/draw"
	"notchbook/render/saying"
)

// calendarScale makes the calendar somewhat larger than the drawings of the
// entries: it has the page's width.
const calendarScale = 1.05

// summary is the season at a glance: figures, the days of the outings, and what
// was used and lost.
func (b *book) summary() {
	b.begin(summaryTitle, summaryTitle, b.dates(), 0)
	for _, row := range tallyRows(&b.season.Tally) {
		b.pair(row[0], row[1], 96)
	}
	if d := draw.Calendar(b.season); d != nil {
		b.subtitle(d.Title)
		b.setFigure(d, calendarScale, 0, b.width(), nil)
	}
	b.outingTable()
	b.filmTable()
	b.yearTable()
	b.lossTable()
	b.placeTable()
	b.place()
}

// number writes a count in a table, where none is a dash that the eye passes over.
func number(n int) cell {
	if n == 0 {
		return figures(none)
	}
	return figures(strconv.Itoa(n))
}

// pageCell is the page of what has a mark, where the book has it.
func (b *book) pageCell(key any) cell {
	if !b.has("outings") || key == nil {
		return figures("")
	}
	return cell{spans: []span{{page: b.markOf(key), style: plain}}, align: "right"}
}

// titled sets a table below its title.
func (b *book) titled(title string, rows []tableRow, names ...string) {
	if len(rows) > 0 {
		b.subtitle(title)
		b.tableOf(rows, names...)
	}
}

// outingTable counts how the sheets of each outing stand.
func (b *book) outingTable() {
	var rows []tableRow
	for _, o := range b.season.Outings {
		if isPapers(o) {
			continue
		}
		n := record.CountOf(o.Sheets)
		title := cell{spans: b.faces().spare(span{text: o.Title, style: plain})}
		if b.has("outings") {
			title.spans[0].to.mark = b.markOf(o)
		}
		title.spans[0].text = saying.Join("  ", besideTitle(o), title.spans[0].text)
		rows = append(rows, tableRow{cells: []cell{title, number(n.Sheets),
			number(n.Right), number(n.Off), number(n.Doubled), number(n.NoImage), number(n.Unchecked), number(n.Unexposed), b.pageCell(o)}})
	}
	b.titled(outingsTitle, rows, "outing", "sheets", "right", "off", "exposed twice", "no image", "unchecked", "unexposed", "page")
}

// mostYears is how many years have a column of their own; of more the sums stand.
const mostYears = 6

// filmTable counts the sheets of each film, and where there are few years by year.
func (b *book) filmTable() {
	years := b.season.Years
	if len(years) > mostYears {
		years = nil
	}
	var films []string
	used := map[string][]int{} // by film: all, then by year
	for i, y := range b.season.Years {
		for _, f := range y.Films {
			if used[f.Film] == nil {
				used[f.Film] = make([]int, len(years)+1)
				films = append(films, f.Film)
			}
			used[f.Film][0] += f.Sheets
			if i < len(years) {
				used[f.Film][i+1] += f.Sheets
			}
		}
	}
	names := []string{"film", "sheets"}
	if len(years) > 1 {
		for _, y := range years {
			names = append(names, orWords(y.Year, "undated"))
		}
	}
	var rows []tableRow
	for _, film := range films {
		r := tableRow{cells: []cell{words(orWords(film, "not known"))}}
		for _, n := range used[film][:len(names)-1] {
			r.cells = append(r.cells, number(n))
		}
		rows = append(rows, r)
	}
	b.titled("Film used", rows, names...)
}

// yearTable lays the years beside one another, where there is more than one.
func (b *book) yearTable() {
	if len(b.season.Years) < 2 {
		return
	}
	var rows []tableRow
	for _, y := range b.season.Years {
		rows = append(rows, tableRow{cells: []cell{words(orWords(y.Year, "undated")), number(y.Outings), number(y.Sheets), number(y.Right),
			number(y.Off), number(y.Doubled), number(y.NoImage), number(y.Unchecked), number(y.Unexposed), number(y.Developed), number(y.Scanned), number(record.Lost(y.Losses))}})
	}
	b.titled("Years", rows, "year", "outings", "sheets", "right", "off", "exposed twice", "no image", "unchecked", "unexposed", "developed", "scanned", "lost")
}

// lossTable counts what the sheets were lost to.
func (b *book) lossTable() {
	var rows []tableRow
	for _, l := range b.season.Losses {
		rows = append(rows, tableRow{cells: []cell{words(l.Cause), number(record.Sheets(l.Sheets))}})
	}
	b.titled("Lost to", rows, "cause", "sheets")
}

// placeTable lists the days in places that were come back to, with the pages.
func (b *book) placeTable() {
	var rows []tableRow
	for _, p := range b.season.Places {
		name := p.Name
		for _, v := range p.Visits {
			var key any
			with := ""
			if len(v.Sheets) > 0 {
				key, with = v.Sheets[0], usedOn(v.Sheets)
			}
			rows = append(rows, tableRow{cells: []cell{words(name), words(v.Day()), number(record.Sheets(v.Sheets)), words(with), b.pageCell(key)}})
			name = ""
		}
	}
	b.titled("Places come back to", rows, "place", "date", "sheets", "with", "page")
}

// usedOn says which lenses and filters a day's sheets were made with.
func usedOn(sheets []*record.Sheet) string {
	var used []string
	seen := map[string]bool{}
	for _, s := range sheets {
		for _, thing := range append(saying.Given(s.Lens), s.Filters...) {
			if !seen[thing] {
				seen[thing] = true
				used = append(used, thing)
			}
		}
	}
	return strings.Join(used, ", ")
}
