package main

import (
	"cmp"
	"io"
	"strings"

	"notchbook/compile/record"
)

// scenesCalled are the scenes of a title, else those whose title holds the words.
func scenesCalled(season *record.Season, words string) []*record.Scene {
	words = strings.ToLower(strings.Join(strings.Fields(words), " "))
	var whole, part []*record.Scene
	for _, o := range season.Outings {
		for _, sc := range o.Scenes {
			title := strings.ToLower(strings.Join(strings.Fields(sc.Title), " "))
			switch {
			case title == words:
				whole = append(whole, sc)
			case len(words) > 3 && strings.Contains(title, words):
				part = append(part, sc)
			}
		}
	}
	if whole != nil {
		return whole
	}
	return part
}

// explainScene says what the filters of a scene did beside its control.
func explainScene(out io.Writer, sc *record.Scene) error {
	p := &printer{out: out}
	p.line("%s, %s", cmp.Or(sc.Title, "a scene without a name"), cmp.Or(sc.Outing.Day(), sc.Outing.Path))
	c := sc.Compared
	if c == nil {
		p.wrapped("there is nothing to compare: it takes a sheet without a filter and one with, on the same film")
		return p.err
	}
	p.line("")
	p.hanging("control", strings.Join(ids(c.Controls), ", "))
	for _, f := range c.ByWhatIsSaid() {
		p.line("\n%s, on %s", f.Name, strings.Join(ids(f.Sheets), ", "))
		for _, said := range f.Says {
			p.hanging("", said)
		}
	}
	p.line("")
	for _, row := range [][2]string{{"light", c.Drift}, {"measured", c.How}} {
		if row[1] != "" {
			p.hanging(row[0], row[1])
		}
	}
	if c.Forecast != nil {
		p.hanging("forecast", c.Forecast.Said())
	}
	return p.err
}

func ids(sheets []*record.Sheet) []string {
	var all []string
	for _, s := range sheets {
		all = append(all, s.ID)
	}
	return all
}
