package compile

import (
	"math"
	"slices"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// Reckoned is the field calculation for one reading: the sheet as it would be,
// with what it asks for, and the settings that the lens can do.
type Reckoned struct {
	Sheet    *record.Sheet
	Settings []record.Choice // by aperture, widest first; where an aperture or a time was named, those that keep it
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
func Reckon(world World, light, terms string, names ...string) (Reckoned, diag.List) {
	text := "sheet 1: " + terms
	if light != "" {
		text = "light: " + light + "\n" + text
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
	season, list := s.gather()
	// The notebooks of the kit may log sheets too.
	i := slices.IndexFunc(s.sheets, func(sh *sheet) bool { return sh.at.File.Name == TypedTerms })
	if i < 0 {
		return Reckoned{Sheet: &record.Sheet{}}, list
	}
	sh := s.sheets[i]
	out := Reckoned{Sheet: season.Sheets[i], Cautions: sunCaution(s.sheets), Unread: sh.remarks}
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
	out.Settings = s.everyAperture(sh)
	named := exposure.Exposure{Av: math.NaN(), Seconds: math.NaN()}
	if sh.aperture.known && sh.sum.av != 0 && !ofReading(sh, sh.aperture.at) {
		named.Av = sh.sum.av
	}
	if sh.time.known && !ofReading(sh, sh.time.at) {
		each, ok := exposures(sh.time.v)
		if !ok || len(each) != 1 {
			out.Needs, out.Settings = []string{"one time above 0: several exposures are not reckoned"}, nil
			return out, list
		}
		named.Seconds = each[0]
	}
	if !math.IsNaN(named.Av) || !math.IsNaN(named.Seconds) {
		out.Settings = s.choicesAt(sh, named)
		out.Held = !math.IsNaN(named.Av) && !math.IsNaN(named.Seconds)
	}
	return out, list
}

// ofReading reports whether a setting was taken over from the reading, as a sheet's line
// takes the one that it does not say: who reckons has named no such setting.
func ofReading(sh *sheet, at source.Span) bool {
	return sh.reading != nil && slices.ContainsFunc(sh.reading.areas, func(a area) bool { return a.at == at })
}

// reckons are the findings that speak of what is to be exposed; the others
// speak of what was.
var reckons = map[string]bool{
	"not-declared": true, "bare-number": true, "unknown-term": true, "nearly-a-term": true, "letter-for-figure": true, "film-blind": true,
	"film-nearly-blind": true, "no-light-left": true, "filter-not-declared": true, "colour-against-number": true, "notebook-unreadable": true, "extension-out-of-range": true,
}

// everyAperture is the right settings at each full stop of the lens.
func (s *season) everyAperture(sh *sheet) []record.Choice {
	var l exposure.Lens
	if sh.lens.known {
		l = sh.lens.v.Lens
	}
	wide, small := l.Wide, l.Small
	if wide == 0 {
		wide = 5 // f/5.6, where the lens is not known
	}
	if small == 0 {
		small = 12 // f/64
	}
	var all []record.Choice
	for av := math.Ceil(wide - margin); av <= small+margin; av++ {
		at := s.choicesAt(sh, exposure.Exposure{Av: av})
		if len(at) == 0 {
			continue
		}
		// Past the end of the film's table or of the shutter, the nearest is at an
		// aperture that already stands here with its right time.
		if !slices.ContainsFunc(all, func(c record.Choice) bool { return c.Aperture == at[0].Aperture }) {
			all = append(all, at[0])
		}
	}
	return all
}
