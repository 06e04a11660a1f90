package compile

import (
	"cmp"
	"slices"
	"strings"

	"notchbook/compile/record"
)

// years assumes the finished sheets with what they were lost to. It sets the
// calendar years beside one another and the days of one place.

func (g *gatherer) years() {
	by := map[string]*record.Year{}
	for _, o := range g.season.outings {
		if len(o.entries) > 0 && !o.isPapers() {
			g.year(by, o.iso).Outings++
		}
	}
	exposures := map[*record.Year][]*record.Sheet{}
	for _, sh := range g.season.sheets {
		rs := g.sheet[sh]
		y := g.year(by, rs.Outing.ISO)
		exposures[y] = append(exposures[y], rs)
		if sh.tookFilm() {
			y.Films = used(y.Films, rs.Film)
		}
	}
	for _, l := range g.out.Losses {
		for _, rs := range l.Sheets {
			y := g.year(by, rs.Outing.ISO)
			y.Losses = addLoss(y.Losses, l, rs)
		}
	}
	for _, y := range g.out.Years {
		outings := y.Outings
		y.Counts = record.CountOf(exposures[y])
		y.Outings = outings
		slices.SortFunc(y.Films, func(a, b record.FilmUse) int { return plainly(a.Film, b.Film) })
		slices.SortStableFunc(y.Losses, func(a, b *record.Loss) int { return cmp.Compare(len(b.Sheets), len(a.Sheets)) })
	}
	slices.SortFunc(g.out.Years, func(a, b *record.Year) int { return cmp.Compare(cmp.Or(a.Year, "~"), cmp.Or(b.Year, "~")) })
}

// year is the year of a day, a new one for the first of it.
func (g *gatherer) year(by map[string]*record.Year, iso string) *record.Year {
	year, _, _ := strings.Cut(iso, "-")
	if by[year] == nil {
		by[year] = &record.Year{Year: year}
		g.out.Years = append(g.out.Years, by[year])
	}
	return by[year]
}

// tookFilm reports a sheet whose film is gone: it was exposed or spoiled, and not
// on the film of a sheet that is counted already.
func (sh *sheet) tookFilm() bool {
	return !sh.isUnused() && (sh.first == nil || sh.first.isUnused())
}

func used(all []record.FilmUse, film string) []record.FilmUse {
	i := slices.IndexFunc(all, func(u record.FilmUse) bool { return u.Film == film })
	if i < 0 {
		return append(all, record.FilmUse{Film: film, Sheets: 1})
	}
	all[i].Sheets++
	return all
}

func addLoss(all []*record.Loss, to *record.Loss, sh *record.Sheet) []*record.Loss {
	if n := len(all); n == 0 || all[n-1].Slug != to.Slug {
		all = append(all, &record.Loss{Cause: to.Cause, Slug: to.Slug})
	}
	last := all[len(all)-1]
	last.Sheets = append(last.Sheets, sh)
	return all
}

// places keeps the places with sheets of two whole dates or more: two dates that
// are not whole may be one day.
func (g *gatherer) places() {
	by := map[string]*record.PlaceVisits{}
	for _, o := range g.out.Outings {
		key := strings.ToLower(strings.Join(strings.Fields(o.Place), " "))
		if key == "" || len(o.Sheets) == 0 {
			continue
		}
		if by[key] == nil {
			by[key] = &record.PlaceVisits{}
		}
		by[key].Name = o.Place
		by[key].Visits = visited(by[key].Visits, o)
	}
	for _, key := range sortedKeys(by) {
		p := by[key]
		slices.SortStableFunc(p.Visits, lastFirst)
		if len(p.Visits) > 1 && p.Visits[1].ISO != "" {
			g.out.Places = append(g.out.Places, p)
		}
	}
}

// lastFirst puts the last visit first and those of unknown date at the end.
func lastFirst(a, b record.Visit) int { return cmp.Compare(b.ISO, a.ISO) }

func visited(all []record.Visit, o *record.Outing) []record.Visit {
	i := slices.IndexFunc(all, func(v record.Visit) bool { return v.ISO == o.ISO && (v.ISO != "" || v.Date == o.Date) })
	if i < 0 {
		return append(all, record.Visit{Date: o.Date, ISO: o.ISO, Sheets: slices.Clone(o.Sheets)})
	}
	all[i].Sheets = append(all[i].Sheets, o.Sheets...)
	return all
}
