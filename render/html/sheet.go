package html

import (
	"cmp"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/render/saying"
)

// sheet is a sheet's entry on the page of its outing.
type sheet struct {
	*record.Sheet
	Level int // of its heading

	site *site
}

// Facts are what was in the camera, in the order one says it; what is not known
// is left out, because Needs says what matters of it.
func (s sheet) Facts() []record.Fact {
	var out []record.Fact
	add := func(name string, values ...string) {
		if v := saying.Join(", ", values...); v != "" {
			out = append(out, record.Fact{Name: name, Value: v})
		}
	}
	film := s.Film
	if s.EI.Known {
		film = saying.Join(" at ", film, "EI "+saying.Number(s.EI.Value))
	}
	add("Film", film)
	add("Camera", s.Camera, s.Format)
	add("Lens", s.Lens)
	add("Filters", strings.Join(s.Filters, " + "))
	add("Extension", s.Extension)
	add("Movements", s.Movements...)
	for _, f := range s.Sharpness {
		add("Sharpness", f.Name+": "+f.Value)
	}
	add("Holder side", s.sideApart())
	if s.Development != "" {
		add("Develop", s.Development+" asked")
	}
	for _, d := range s.Developed {
		add("Developed", d.Text, d.Day())
	}
	switch {
	case s.ShownDeveloped != "":
		add("Developed", "when is not said, but it "+s.ShownDeveloped)
	case len(s.Developed) == 0 && s.State != record.Unexposed:
		add("Developed", "not yet")
	}
	if s.Number != s.Label {
		add("Number", s.Number)
	}
	add("Sleeve", s.Sleeve)
	add("Density", saying.Densities(s.Sheet))
	for _, p := range s.Sheet.Patches {
		add("Patch", saying.Join(" ", p.Name, patchWords(p)))
	}
	add("Test of", s.Test)
	add("Lost to", s.Lost)
	return out
}

// patchWords say where a patch lies and what level was read there.
func patchWords(p record.Patch) string {
	var at, level string
	if p.Placed {
		at = "at " + saying.Number(p.Across) + ", " + saying.Number(p.Down)
	}
	if p.Level.Known {
		level = "level " + saying.Number(p.Level.Value)
	}
	return saying.Join(", ", at, level)
}

// Twins are the sheet's duplicates.
func (s sheet) Twins() ledger { return s.site.rows(s.Sheet.Twins) }

// sideApart is the holder side where the label does not already say it.
func (s sheet) sideApart() string {
	if s.Side == s.Label {
		return ""
	}
	return s.Side
}

// sumRow is a line of the sheet's sum, from the reading down to the difference.
type sumRow struct {
	Name   string
	Text   string
	Small  string // where it comes from, how it was found
	Figure string
	Total  bool // the result, under the rule
}

// Sum is the check as one would do it on paper: the reading, what stands in front
// of the film, what that asks for, what was given, and what is between.
func (s sheet) Sum() []sumRow {
	var rows []sumRow
	if r := s.Reading; r != nil {
		rows = append(rows, sumRow{Name: readName(r.Kind), Text: r.Text, Small: r.How, Figure: saying.EV(r.EV)})
	}
	for _, st := range s.Steps {
		rows = append(rows, sumRow{
			Name: title(st.Kind), Text: st.Name, Small: dotted(st.Detail, st.From), Figure: stepWords(st.Stops),
		})
	}
	rows = appendSettings(rows, "Asked", s.Asked)
	rows = appendSettings(rows, "Given", s.Given)
	if s.ByClock.Known {
		rows = append(rows, sumRow{Name: "By the clock", Small: "before reciprocity", Figure: exposure.OverUnder(s.ByClock.Value)})
	}
	if s.Difference.Known {
		rows = append(rows, sumRow{Name: "Difference", Small: dotted(tolerance(s.Tolerance), saying.GapOf(s.Sheet)), Figure: saying.Gap(s.Sheet), Total: true})
	}
	return rows
}

func tolerance(t string) string {
	if t == "" {
		return ""
	}
	return "tolerance " + t
}

func readName(kind string) string {
	switch kind {
	case "", "plain":
		return "Read"
	}
	return "Read, " + kind
}

func stepWords(stops float64) string {
	amount := exposure.FormatAmount(stops)
	switch {
	case amount == "0":
		return "nothing"
	case stops < 0:
		return exposure.InStops(stops) + " less"
	}
	return exposure.InStops(stops) + " more"
}

// appendSettings adds a row for settings of which anything is known.
func appendSettings(rows []sumRow, name string, x record.Settings) []sumRow {
	row := sumRow{Name: name, Text: saying.Join(", ", x.Time, x.Aperture), Small: settingsNote(x)}
	if x.EV.Known {
		row.Figure = exposure.FormatEV(x.EV.Value)
	}
	if row.Text == "" && row.Small == "" && row.Figure == "" {
		return rows
	}
	return append(rows, row)
}

// settingsNote says what the marks alone do not: the time that counts on film and
// how the writer's words were read. The exact values behind the marks stand
// only where they differ from what the mark says.
func settingsNote(x record.Settings) string {
	var notes []string
	if x.OnFilm.Known {
		notes = append(notes, exposure.FormatTime(x.OnFilm.Value)+" on film")
	}
	if x.Aperture == "" && x.Av.Known {
		notes = append(notes, exposure.FormatAperture(x.Av.Value))
	}
	if x.Time == "" && x.Seconds.Known {
		notes = append(notes, exposure.FormatTime(x.Seconds.Value))
	}
	return dotted(append(notes, x.Note)...)
}

// areaRow is a metered area: where it was placed and where it fell.
type areaRow struct{ Name, Read, Brought, Meant, Fell string }

// Areas are the metered areas, if the reading has any.
func (s sheet) Areas() []areaRow {
	if s.Reading == nil {
		return nil
	}
	var rows []areaRow
	for _, a := range s.Reading.Areas {
		rows = append(rows, areaRow{cmp.Or(a.Name, "not named"), a.Read, a.Brought, zone(a.Meant), zone(a.Fell)})
	}
	return rows
}

func zone(f record.Figure) string {
	if !f.Known {
		return "–"
	}
	return exposure.Roman(f.Value)
}

// choiceRow is a pair of settings that would have been right.
type choiceRow struct{ Settings, Kind, Left string }

// Right is what to set when going back.
func (s sheet) Right() []choiceRow {
	var rows []choiceRow
	for _, c := range s.Choices {
		left := "exact"
		if exposure.FormatAmount(c.Left) != "0" {
			left = "leaves " + exposure.OverUnder(c.Left)
		}
		rows = append(rows, choiceRow{saying.Join(", ", c.Time, c.Aperture), c.Kind, left})
	}
	return rows
}

// Found are the sheet's findings, each with the way to its whole text.
func (s sheet) Found() []finding { return s.site.found(s.Findings) }

// Pictures are the sheet's scans.
func (s sheet) Pictures() []scan {
	var out []scan
	for _, sc := range s.Scans {
		out = append(out, s.site.scan(sc))
	}
	return out
}

// Thumb is the first scan that can be shown.
func (s sheet) Thumb() *scan {
	for _, sc := range s.Scans {
		if x := s.site.scan(sc); x.Thumb.Name != "" {
			return &x
		}
	}
	return nil
}

// Alt describes the picture for those who do not see it.
func (s sheet) Alt() string {
	return saying.Join(", ", "Scan of sheet "+s.Label, saying.Subject(s.Sheet))
}
