package text

import (
	"cmp"
	"fmt"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang/ruler"
	"notchbook/render/saying"
)

// The lists that are only views of the sheets.

func (p *page) findings(s *record.Season) {
	for _, t := range saying.Fold(s.Findings) {
		p.gap()
		if len(t.Of) > 1 {
			p.told(t)
			continue
		}
		f := t.Of[0]
		p.text(saying.Join(": ", f.Place.String(), string(f.Severity), f.Said()+" ["+f.Code+"]"), "  ")
		if f.Excerpt != "" {
			p.within("    ", "    ", func() { p.text(strings.TrimSpace(ruler.Untab(f.Excerpt, 0)), "  ") })
		}
		for _, n := range f.Notes {
			p.within("  = ", "    ", func() { p.text(n, "") })
		}
		if all := ids(f.Sheets); len(all) > 1 {
			p.within("  = ", "    ", func() { p.text("sheets: "+strings.Join(all, ", "), "") })
		}
	}
}

// told is what many findings say, once, and below it the line of each with its sheets.
func (p *page) told(t saying.Told) {
	first := t.Of[0]
	p.text(saying.Join(": ", string(first.Severity), t.Message+" ["+first.Code+"], "+t.Times()), "  ")
	for _, n := range t.Notes() {
		p.within("  = ", "    ", func() { p.text(n, "") })
	}
	for _, f := range t.Of {
		said := saying.Join(": ", f.Place.String(), strings.TrimSpace(ruler.Untab(f.Excerpt, 0)))
		if f.Fix != nil {
			said += "; write: " + f.Fix.Text
		}
		if all := ids(f.Sheets); len(all) > 0 {
			said += " (" + strings.Join(all, ", ") + ")"
		}
		p.within("    ", "      ", func() { p.text(said, "") })
	}
}

// unchecked is what could not be checked with the fact that would settle it, and
// what was not understood.
func (p *page) unchecked(s *record.Season) {
	for _, sh := range s.Sheets {
		if sh.State == record.Unchecked {
			p.item(named(sh), "it would take "+strings.Join(sh.Needs, "; and "))
		}
	}
	for _, o := range s.Outings {
		for _, e := range o.Entries {
			if e.Unread != nil {
				p.item("not understood: "+e.Unread.Place.String(), strings.TrimSpace(ruler.Untab(e.Unread.Text, 0)))
			}
		}
	}
}

// item is a line of a list with what is said of it below.
func (p *page) item(what string, said ...string) {
	p.within("- ", "  ", func() { p.text(what, "  ") })
	for _, s := range saying.Given(said...) {
		p.within("    ", "    ", func() { p.text(s, "") })
	}
}

// named is a sheet by its id, with what it shows.
func named(s *record.Sheet) string {
	text := s.ID
	if s.Number == s.ID && s.Outing != nil {
		text = saying.Join(", ", s.ID, strings.TrimSpace(s.Outing.Day()+" "+s.Label))
	}
	return saying.Join(", ", text, saying.Subject(s))
}

// toDevelop is the list to take into the darkroom.
func (p *page) toDevelop(s *record.Season) {
	d := &s.ToDevelop
	for _, c := range d.Cautions {
		p.within("- ", "  ", func() { p.text(c, "") })
	}
	if len(d.Held) > 0 {
		p.heading("Hold back", ofPart)
		for _, h := range d.Held {
			p.item("[ ] "+named(h.Sheet)+": "+h.Why, h.Still)
		}
		for _, text := range d.Helps {
			p.within("- ", "  ", func() { p.text(text, "") })
		}
	}
	for _, b := range d.Batches {
		p.batch(b)
	}
	if len(d.Otherwise) > 0 {
		p.heading("Developed otherwise than asked", ofPart)
		for _, o := range d.Otherwise {
			p.item(named(o.Sheet), fmt.Sprintf("asked %s, developed %s, %s (%s)", cmp.Or(o.Asked, "nothing"), cmp.Or(o.Done, "nothing"), o.Date, o.Place.String()))
		}
	}
}

func (p *page) batch(b *record.Batch) {
	p.heading(cmp.Or(b.Film, "film not known")+", "+cmp.Or(b.Development, "development not stated"), ofPart)
	p.row("light", b.Safelight)
	p.row("time", saying.Join(" at ", cmp.Or(b.Time, "not known"), b.Temperature), b.How)
	p.row("or", strings.Join(b.Others, "; "))
	p.row("developer", saying.Join(" ", b.Developer, b.Dilution))
	p.row("agitation", b.Agitation)
	p.row("capacity", b.Capacity)
	p.row("mind", b.Cautions...)
	p.gap()
	run := 0
	for _, s := range b.Sheets {
		if s.Run != run && len(b.Sheets) > b.Fits {
			run = s.Run
			p.line(fmt.Sprint("filling ", run))
		}
		p.within("[ ] ", "    ", func() { p.text(saying.Join("; ", fmt.Sprint(s.Order, ". ", named(s.Sheet)), s.Note), "") })
	}
}

func (p *page) holders(s *record.Season) {
	for _, h := range s.Holders {
		p.heading(saying.Join("  ", h.Name(), string(h.State), h.Film), ofSheet)
		p.row("may be loaded", behind(string(h.May), h.Reason))
		p.row("holder", saying.Join(", ", h.Format, notch(h.Notch)))
		for _, e := range h.Events {
			what := e.What + " " + e.Film
			if e.Sheet != nil {
				what = e.What + " " + e.Sheet.ID
			}
			p.row(cmp.Or(e.Date, "no date"), behind(strings.TrimSpace(what), e.Place.String()))
		}
		for _, f := range h.Conflicts {
			p.row(string(f.Severity), behind(f.Message, f.Place.String()))
		}
	}
}

func notch(code string) string {
	if code == "" {
		return ""
	}
	return "notch " + code
}

func (p *page) negatives(s *record.Season) {
	n := &s.Negatives
	for _, s := range n.Series {
		p.text("Next free number: "+s.Next+", as "+s.After+" is the last.", "")
	}
	for _, u := range n.Twice {
		p.text("Given twice: "+u.Number+", to "+named(u.Sheet)+", though it is "+named(u.Bearer)+".", "")
	}
	p.gap()
	for _, sh := range n.Numbered {
		p.item(named(sh), cmp.Or(sh.Sleeve, "not filed"))
	}
	for _, group := range []struct {
		title  string
		sheets []*record.Sheet
	}{{"Developed, without a number", n.Without}, {"Developed, without a sleeve", n.Unfiled}} {
		if len(group.sheets) > 0 {
			p.heading(group.title, ofPart)
			for _, sh := range group.sheets {
				p.item(named(sh))
			}
		}
	}
	if len(n.Unlogged) > 0 {
		p.heading("Negatives without an entry", ofPart)
		for _, u := range n.Unlogged {
			p.item(u.Number+": "+u.Why, u.Place.String())
		}
	}
}

func (p *page) losses(s *record.Season) {
	if len(s.Losses) > 0 {
		p.text(saying.LostFrom, "")
	}
	for _, l := range s.Losses {
		p.heading(fmt.Sprintf("%s: %s", l.Cause, saying.Count(record.Sheets(l.Sheets), "sheet")), ofPart)
		for _, sh := range l.Sheets {
			off := ""
			if sh.State == record.Off && sh.Difference.Known {
				off = exposure.OverUnder(sh.Difference.Value)
			}
			p.item(saying.Join(", ", named(sh), off))
		}
	}
}

// yearsAndPlaces are the years, and what was used each time that one came back.
func (p *page) yearsAndPlaces(s *record.Season) {
	p.years(s)
	p.places(s)
}

func (p *page) years(s *record.Season) {
	if len(s.Years) > 0 {
		p.text(saying.LostFrom, "")
	}
	for _, y := range s.Years {
		p.heading(cmp.Or(y.Year, "Date not whole"), ofPart)
		p.row("outings", fmt.Sprint(y.Outings))
		p.row("sheets", saying.Sheets(&y.Counts))
		p.row("developed", fmt.Sprint(y.Developed))
		p.row("scanned", fmt.Sprint(y.Scanned))
		var films, lost []string
		for _, f := range y.Films {
			films = append(films, fmt.Sprint(cmp.Or(f.Film, "film not known"), " ", f.Sheets))
		}
		for _, l := range y.Losses {
			lost = append(lost, fmt.Sprint(l.Cause, " ", record.Sheets(l.Sheets)))
		}
		p.row("film used", strings.Join(films, ", "))
		p.row("lost to", strings.Join(lost, ", "))
	}
}

// places is what was used each time that one came back, the last time first.
func (p *page) places(s *record.Season) {
	for _, pl := range s.Places {
		p.heading(pl.Name, ofPart)
		for _, v := range pl.Visits {
			p.line(cleaned(v.Day()))
			for _, sh := range v.Sheets {
				p.row("  "+cleaned(sh.Label), saying.Join("; ", saying.Subject(sh), sh.Hour, lensOf(sh), strings.Join(sh.Movements, ", "),
					strings.Join(sh.Filters, " + "), strings.TrimSpace(sh.Given.Aperture+" "+sh.Given.Time), saying.Verdict(sh)))
			}
		}
	}
}

func lensOf(s *record.Sheet) string {
	if s.Lens == "" {
		return ""
	}
	return "lens " + s.Lens
}

func (p *page) kit(s *record.Season) {
	kind := ""
	for _, k := range s.Kit {
		if k.Kind != kind {
			kind = k.Kind
			p.heading(strings.ToUpper(kind[:1])+kind[1:], ofPart)
		}
		p.gap()
		p.text(k.Name, "  ")
		for _, f := range k.Facts {
			p.within("  ", "  ", func() { p.row(f.Name, f.Value) })
		}
		p.within("  ", "  ", func() { p.row("typed", behind(k.Source, k.Place.String())) })
	}
}

func (p *page) scans(s *record.Season) {
	for _, group := range saying.ScanGroups {
		headed := false
		for _, scan := range s.Scans {
			if scan.State != group.State {
				continue
			}
			if !headed {
				p.heading(group.Title, ofPart)
				headed = true
			}
			p.gap()
			p.text(scan.Path, "  ")
			p.within("  ", "  ", func() {
				p.row("sheets", strings.Join(ids(scan.Sheets), ", "))
				p.row("file", strings.Join(scanFacts(scan), ", "))
				p.digest("SHA-256", scan.SHA256)
				p.digest(saying.FormerSum, scan.Was)
			})
		}
	}
}

// scanState says what is wrong with a file, or what is known of it.
func scanState(s *record.Scan) string {
	switch s.State {
	case record.Present, record.Orphan:
		return strings.Join(scanFacts(s), ", ")
	case record.Outside:
		return "outside the season's folder"
	}
	return saying.Join(", ", saying.Join(": ", string(s.State), s.Why), saying.OtherBytes(s))
}

func scanFacts(s *record.Scan) []string {
	facts := saying.ScanFacts(s)
	if s.Bytes > 0 {
		facts = append(facts, fmt.Sprintf("%d bytes", s.Bytes))
	}
	return append(facts, saying.Given(s.Why, saying.OtherBytes(s))...)
}

// notebooks is what was read, with digests, so that the text can be matched with
// the files it was made from.
func (p *page) notebooks(s *record.Season) {
	for _, n := range s.Files() {
		p.gap()
		p.text(behind(n.CopyName(), fmt.Sprintf("%s, %d bytes", saying.Count(n.Lines, "line"), n.Bytes)), "  ")
		p.within("  ", "  ", func() { p.digest("SHA-256", n.SHA256) })
	}
}
