package text

import (
	"strconv"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/render/saying"
)

// sheet sets an entry: how it was typed, then the way from the reading to the
// difference, what was done with the film, and what was found.
func (p *page) sheet(s *record.Sheet) {
	p.heading(saying.Join("  ", s.Label, s.Title, saying.Verdict(s)), ofSheet)
	for _, l := range s.Lines {
		l.Text = saying.Typed(&l, s)
		p.typed(l, outingPath(s))
	}
	for _, c := range s.History {
		p.row(c.How, saying.Join(" became ", c.Was, c.Now)+" ("+c.Place.String()+")")
	}
	if s.ID != s.Label {
		p.row("sheet", s.ID)
	}
	p.used(s)
	p.way(s)
	p.afterwards(s)
	p.found(s)
	for _, scan := range s.Scans {
		p.row("scan", saying.Join(", ", scan.Path, scanState(scan)))
		p.digest("SHA-256", scan.SHA256)
		p.digest(saying.FormerSum, scan.Was)
	}
}

func outingPath(s *record.Sheet) string {
	if s.Outing == nil {
		return ""
	}
	return s.Outing.Path
}

// used is what was in the camera and on it.
func (p *page) used(s *record.Sheet) {
	film := s.Film
	if s.EI.Known {
		film = saying.Join(", ", film, "EI "+number(s.EI.Value))
	}
	p.row("time of day", s.Hour)
	p.row("film", film)
	p.row("camera", saying.Join(", ", s.Camera, s.Format))
	p.row("lens", s.Lens)
	p.row("filter", strings.Join(s.Filters, " + "))
	p.row("extension", s.Extension)
	p.row("movements", strings.Join(s.Movements, ", "))
	for _, f := range s.Sharpness {
		p.row("sharpness", f.Name+": "+f.Value)
	}
}

// way is the arithmetic.
func (p *page) way(s *record.Sheet) {
	if r := s.Reading; r != nil {
		p.row("read", behind(r.Text, r.Kind, r.How))
		for _, a := range r.Areas {
			p.row("", area(&a))
		}
	}
	for _, st := range s.Steps {
		p.row("step", behind(exposure.FormatStops(st.Stops)+"  "+stepName(&st), st.Detail, st.From))
	}
	p.row("asked", settings(&s.Asked))
	p.row("given", settings(&s.Given))
	if s.Difference.Known {
		clock := ""
		if s.ByClock.Known {
			clock = "by the clock " + exposure.OverUnder(s.ByClock.Value)
		}
		p.row("difference", behind(saying.Gap(s), saying.GapOf(s), clock, tolerance(s)))
	}
	p.row("by the rule", s.Rule)
	for i, c := range s.Choices {
		left := ""
		if amount := exposure.FormatStops(c.Left); amount != "0" {
			left = amount + " left"
		}
		p.row([]string{"going back", ""}[min(i, 1)], behind(saying.Join(", ", c.Aperture, c.Time), c.Kind, left))
	}
}

func tolerance(s *record.Sheet) string {
	if s.Tolerance == "" {
		return ""
	}
	return "tolerance " + s.Tolerance
}

// behind puts in brackets what is said about a value.
func behind(value string, more ...string) string {
	if more = saying.Given(more...); len(more) == 0 {
		return value
	}
	return value + " (" + strings.Join(more, "; ") + ")"
}

func area(a *record.Area) string {
	return strings.Join(append([]string{strings.TrimSpace(a.Name + " " + saying.Read(a))}, saying.Zones(a)...), ", ")
}

// stepName says what a step is without saying it twice.
func stepName(s *record.Step) string {
	if strings.HasPrefix(s.Name, s.Kind) {
		return s.Name
	}
	return saying.Join(" ", s.Kind, s.Name)
}

// settings is aperture and time with what they are worth; "" where neither is
// known.
func settings(s *record.Settings) string {
	pair := saying.Join(", ", s.Aperture, s.Time)
	if pair == "" {
		return ""
	}
	var more []string
	if s.EV.Known {
		more = append(more, exposure.FormatEV(s.EV.Value))
	}
	if s.OnFilm.Known {
		more = append(more, "counts as "+exposure.FormatTime(s.OnFilm.Value)+" on film")
	}
	return behind(pair, append(more, s.Note)...)
}

// afterwards is what was done with the film.
func (p *page) afterwards(s *record.Sheet) {
	p.row("to develop", s.Development)
	for _, d := range s.Developed {
		doubt := ""
		if d.Maybe {
			doubt = "this sheet or another"
		}
		p.row("developed", behind(saying.Join(", ", d.Day(), d.Text), doubt))
	}
	if s.Number != s.ID {
		p.row("negative", s.Number)
	}
	p.row("sleeve", s.Sleeve)
	for _, d := range s.Densities {
		p.row("density", density(&d))
	}
	p.row("tests", s.Test)
	p.row("lost to", s.Lost)
	p.row("duplicate", strings.Join(ids(s.Twins), ", "))
}

// density is the mean of the readings, and the readings where there are several.
func density(d *record.Density) string {
	var all []string
	for _, r := range d.Readings {
		all = append(all, saying.Density(r))
	}
	text := strings.TrimSpace(d.Spot + " " + saying.Density(d.D))
	if len(all) < 2 {
		return text
	}
	return behind(text, "mean of "+strings.Join(all, ", "))
}

// found is what the check had to say of a sheet.
func (p *page) found(s *record.Sheet) {
	for _, f := range s.Findings {
		p.row(string(f.Severity), append([]string{f.Message}, f.Notes...)...)
	}
	for _, need := range s.Needs {
		p.row("would take", need)
	}
	p.row("remark", s.Remarks...)
}

// digest stands on a line of its own, which it nearly fills.
func (p *page) digest(name, sum string) {
	if sum != "" {
		p.line(name)
		p.line("  " + sum)
	}
}

func ids(sheets []*record.Sheet) []string {
	var all []string
	for _, s := range sheets {
		all = append(all, s.ID)
	}
	return all
}

func lineNumber(p record.Place) string { return "line " + strconv.Itoa(p.Line) }

// number writes a figure without needless decimals.
func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
