package compile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// Reckoned is the field calculation for one reading: the sheet as it would be,
// with what it asks for, and the settings that the lens can do.
type Reckoned struct {
	Sheet    *record.Sheet
	Settings []record.Choice // by aperture, widest first; where an aperture or a time was named, those that keep it and what is next to them
	Aperture string          // that was named without a time, "" for none
	Others   []record.Choice // what other apertures give, where the one that was named gives nothing
	Metered  []record.Choice // settings before reciprocity, where that is not known so far
	Lacks    []string        // why what was named is not kept, and what is before reciprocity only
	Assumed  []string        // what was taken so, though the terms do not say it
	Held     bool            // an aperture and a time were named, and are held against what is asked
	Needs    []string        // facts without which nothing can be computed
	Unread   []string        // words that were not understood
	Dark     string          // why no settings are right, where the film sees nothing through the filters
	Doubts   []string        // why the settings are not to be trusted
	Cautions []string
}

// TypedTerms is what the terms that are reckoned are called, as if they were a notebook.
const TypedTerms = "terms"

// Reckon computes the settings for terms written as on a sheet line, with the
// kit of the notebooks named. The terms state the reading and what stands
// before the film; no settings need be given. light is what a light line would
// say, "" for none: film and filters may have values of their own in it.
//
// A rule for long times may stand among the terms, "reciprocity t^1.3 over 1s"; it
// counts before that of the film.
func Reckon(world World, light, terms string, names ...string) (Reckoned, diag.List) {
	terms, rule := ruleWithin(terms)
	text := "sheet 1: " + terms
	if light != "" {
		text = "light: " + light + "\n" + text
	}
	if rule != "" {
		text = "reciprocity: " + rule + "\n" + text
	}
	read := world.Read
	world.Read = func(name string) ([]byte, error) {
		if name == TypedTerms {
			return []byte(text), nil
		}
		return read(name)
	}
	s := compiled(world, append(names[:len(names):len(names)], TypedTerms))
	s.found = slices.DeleteFunc(s.found, func(f finding) bool { return !reckons[f.Code] })
	// The notebooks of the kit may log sheets too.
	i := slices.IndexFunc(s.sheets, func(sh *sheet) bool { return sh.at.File.Name == TypedTerms })
	if i >= 0 && rule != "" {
		s.ruledBy(s.sheets[i], rule)
	}
	season, list := s.gather()
	if i < 0 {
		return Reckoned{Sheet: &record.Sheet{}}, list
	}
	sh := s.sheets[i]
	out := Reckoned{Sheet: season.Sheets[i], Cautions: sunCaution(s.sheets), Unread: unreadOf(sh)}
	for _, f := range s.found {
		switch {
		case !slices.Contains(f.sheets, sh):
		case f.Code == "film-blind", f.Code == "no-light-left":
			out.Dark = f.Message
		case f.Code == "film-nearly-blind":
			out.Doubts = append(out.Doubts, f.Message)
		}
	}
	if !sh.sum.hasAsked {
		out.Needs = sh.sum.owing
		return out, list
	}
	out.Assumed = assumed(sh)
	named := exposure.Exposure{Av: math.NaN(), Seconds: math.NaN()}
	if sh.aperture.known && sh.sum.av != 0 && !ofReading(sh, sh.aperture.at) {
		named.Av = sh.sum.av
	}
	if sh.time.known && !ofReading(sh, sh.time.at) {
		each, ok := exposures(sh.time.v)
		if !ok || len(each) != 1 {
			out.Needs = []string{"one time above 0: several exposures are not reckoned"}
			return out, list
		}
		named.Seconds = each[0]
	}
	s.answer(&out, sh, named)
	return out, list
}

// answer finds the settings that keep what was named, or those at every aperture.
func (s *season) answer(out *Reckoned, sh *sheet, named exposure.Exposure) {
	noAv, noTime := math.IsNaN(named.Av), math.IsNaN(named.Seconds)
	out.Held = !noAv && !noTime
	if noAv && noTime {
		out.Settings, out.Metered = s.everyAperture(sh)
		if len(out.Metered) > 0 {
			out.Lacks = append(out.Lacks, s.beyondRule(sh, "at "+out.Metered[0].Aperture+" and smaller "))
		}
		if len(out.Settings) > 0 && !sh.sum.rule.IsZero() {
			out.Metered = nil
		}
		return
	}
	out.Settings = s.choicesAt(sh, named)
	if !noAv && noTime {
		out.Aperture = markedAperture(sh, named.Av)
	}
	l := lensOf(sh)
	kept := slices.ContainsFunc(out.Settings, func(c record.Choice) bool { return c.Kind == keptAperture })
	switch {
	case !noAv && s.metered(sh, named.Av) != nil:
		out.Metered = []record.Choice{*s.metered(sh, named.Av)}
		out.Lacks = append(out.Lacks, s.beyondRule(sh, "at "+markedAperture(sh, named.Av)+" "))
	case !noAv && kept:
	case !noAv && !l.HasAperture(named.Av):
		out.Lacks = append(out.Lacks, "lens "+sh.lens.v.name+" has no "+markedAperture(sh, named.Av))
	case !noAv:
		out.Lacks = append(out.Lacks, "the shutter has no time that gives it so at "+markedAperture(sh, named.Av))
	case len(out.Settings) > 0:
	case !l.HasSpeed(named.Seconds):
		out.Lacks = append(out.Lacks, "the shutter has no "+exposure.FormatTime(named.Seconds))
	default:
		av := l.NearestAperture(exposure.AvFor(sh.sum.asked, named.Seconds))
		out.Metered = []record.Choice{{
			Time: exposure.FormatTime(named.Seconds), Aperture: markedAperture(sh, av),
			Left: exposure.Difference(sh.sum.asked, exposure.EV(av, named.Seconds)),
		}}
		out.Lacks = append(out.Lacks, s.beyondRule(sh, ""))
	}
	if len(out.Lacks) > 0 && noTime && !kept {
		out.Settings = nil
		out.Others, _ = s.everyAperture(sh)
	}
}

// ofReading reports whether a setting was taken over from the reading, as a sheet's line
// takes the one that it does not say: who reckons has named no such setting.
func ofReading(sh *sheet, at source.Span) bool {
	return sh.reading != nil && slices.ContainsFunc(sh.reading.areas, func(a area) bool { return a.at == at })
}

// reckons are the findings that speak of what is to be exposed; the others
// speak of what was.
var reckons = map[string]bool{
	"not-declared": true, "reciprocity-unclear": true, "impossible-number": true, "bare-number": true, "unknown-term": true, "nearly-a-term": true, "letter-for-figure": true, "film-blind": true,
	"film-nearly-blind": true, "no-light-left": true, "filter-not-declared": true, "colour-against-number": true, "notebook-unreadable": true, "extension-out-of-range": true,
}

// everyAperture is the right settings at each full stop of the lens, or at its ends where
// it has none between them; metered is what is asked before reciprocity where that is not
// known so far.
func (s *season) everyAperture(sh *sheet) (all, metered []record.Choice) {
	wide, small := lensOf(sh).Ends()
	try := func(av float64) {
		at := s.choicesAt(sh, exposure.Exposure{Av: av})
		beyond := s.metered(sh, av)
		if beyond != nil {
			metered = append(metered, *beyond)
		}
		if len(at) == 0 || beyond != nil && at[0].Kind != keptAperture {
			return
		}
		// Past the end of the shutter the nearest is at an aperture that already stands
		// here with its right time.
		if !slices.ContainsFunc(all, func(c record.Choice) bool { return c.Aperture == at[0].Aperture }) {
			all = append(all, at[0])
		}
	}
	for av := math.Ceil(wide - margin); av <= small+margin; av++ {
		try(av)
	}
	if len(all) == 0 && wide != math.Round(wide) {
		smaller := metered
		metered = nil
		try(wide)
		metered = append(metered, smaller...)
	}
	return all, metered
}

// metered is what is asked at an aperture before reciprocity, nil where the rule reaches
// so far.
func (s *season) metered(sh *sheet, av float64) *record.Choice {
	onFilm := exposure.Seconds(sh.sum.asked, av)
	if _, status := sh.sum.rule.Corrected(onFilm); status != exposure.Beyond {
		return nil
	}
	return &record.Choice{Time: exposure.FormatTime(onFilm), Aperture: markedAperture(sh, av)}
}

// beyondRule says why times are told before reciprocity; at is where: "at f/22 ".
func (s *season) beyondRule(sh *sheet, at string) string {
	f, rule := s.filmOf(sh), sh.sum.rule
	whose := "the film's"
	if f != nil {
		whose = f.name + "'s"
	}
	what := "the time on film is longer"
	if at == "" {
		what = "a time on film counts for less"
	}
	const say = ": say it, reciprocity t^1.3 over 1s, or "
	last, table := rule.Last()
	switch {
	case table:
		return fmt.Sprintf("%sthe time lies beyond the last entry of %s reciprocity table, %s = %s", at, whose, exposure.FormatTime(last.Metered), exposure.FormatTime(last.Clock))
	case !rule.IsZero():
		return fmt.Sprintf("%sthe time lies beyond %s, to which %s reciprocity is known", at, exposure.FormatTime(rule.Reach()), whose)
	case f == nil:
		return at + what + " by its reciprocity, which is not known, since no film is named" + say + "name a film of the kit"
	}
	return at + what + " by its reciprocity, which is not known of " + f.name + say + "declare it with the film"
}

// ruledBy gives a sheet the rule for long times that stands among its terms.
func (s *season) ruledBy(sh *sheet, how string) {
	if f := s.filmOf(sh); f != nil && !f.rule.IsZero() && !ruleFor(sh).IsZero() {
		ruled := *f
		ruled.rule, ruled.how = ruleFor(sh), how
		sh.film.v = &ruled
		s.assessAlone(sh)
	}
}

// ruleWithin takes a rule for long times out of terms.
func ruleWithin(terms string) (rest, rule string) {
	at := ruleWord().FindStringIndex(terms)
	if at == nil {
		return terms, ""
	}
	const head = string(lang.Reciprocity) + ": "
	line := head + terms[at[1]:]
	book, _ := lang.Parse(source.New("", []byte(line)), lang.NewLexicon())
	if len(book.Statements) != 1 || len(book.Statements[0].Terms()) == 0 {
		return terms, ""
	}
	first := &book.Statements[0].Terms()[0]
	if _, is := first.Kind.(*lang.RuleOf); !is && !first.Unread {
		return terms, ""
	}
	end := first.Span.End
	return strings.Trim(terms[:at[0]], ", ") + ", " + strings.Trim(line[end:], ", "), line[len(head):end]
}

var ruleWord = pattern.Lazily(`(?i)\breciprocity\b:?[ \t]*`)

// unreadOf is what was not understood of the terms: a zone that stands away from its
// reading was, with the words beside it, and so was the meter that showed it.
func unreadOf(sh *sheet) []string {
	said := map[string]bool{}
	for _, st := range sh.lines {
		for i := range st.Terms() {
			if _, is := st.Terms()[i].Kind.(*lang.Placed); !is || sh.reading == nil || sh.reading.kind == "sunny 16" {
				continue
			}
			for n := max(0, i-1); n < min(i+2, len(st.Terms())); n++ {
				switch st.Terms()[n].Kind.(type) {
				case *lang.Placed, *lang.Loose:
					said[st.Terms()[n].Span.Text()] = true
				}
			}
		}
	}
	return slices.DeleteFunc(slices.Clone(sh.remarks), func(words string) bool {
		m := kitOf(sh).meterAlone(strings.Fields(words))
		return said[words] || m != nil && sh.reading != nil && slices.ContainsFunc(sh.reading.areas, func(a area) bool { return a.by == m })
	})
}

// assumed is what light values were taken to mean, where nothing says it.
func assumed(sh *sheet) []string {
	b := sh.outing.book
	if b.stated || !leftOpen(sh.reading) {
		return nil
	}
	said := "the light values are"
	i := slices.IndexFunc(sh.reading.areas, func(a area) bool { return a.asEV })
	value := exposure.FormatEV(sh.reading.areas[i].ev)
	if len(sh.reading.areas) == 1 {
		said = value + " is"
	}
	const kit = ", or in the kit meter NAME: EV at 100"
	if sh.sum.ei == 0 {
		return []string{said + " taken as at the film's EI; of a meter that shows EV at 100, write " + value + " at EI 100 and the EI of the film" + kit}
	}
	stops, ok := exposure.SpeedShift(sh.sum.ei, 100)
	if stops = exposure.Round(stops); !ok || stops == 0 {
		return nil
	}
	less := "less"
	if stops < 0 {
		less = "more"
	}
	return []string{fmt.Sprintf("%s taken as at EI %s; at ISO 100 it would be %s %s: write %s at EI 100%s", said, trim(sh.sum.ei), exposure.InStops(math.Abs(stops)), less, value, kit)}
}
