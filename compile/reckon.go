package compile

import (
	"math"
	"slices"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang/diag"
)

// Reckoned is the field calculation for one reading: the sheet as it would be,
// with what it asks for, and the settings that the lens can do.
type Reckoned struct {
	Sheet    *record.Sheet
	Settings []record.Choice // by aperture, widest first; one where an aperture was named
	Needs    []string        // facts without which nothing can be computed
	Unread   []string        // words that were not understood
	Dark     string          // why no settings are right, where the film sees nothing through the filters
	Doubts   []string        // why the settings are not to be trusted
	Cautions []string
}

// Reckon computes the settings for terms written as on a sheet line, with the
// kit of the notebooks named. The terms state the reading and what stands
// before the film; no settings need be given. light is what a light line would
// say, "" for none: film and filters may have values of their own in it.
func Reckon(world World, light, terms string, names ...string) (Reckoned, diag.List) {
	const line = "terms"
	text := "sheet 1: " + terms
	if light != "" {
		text = "light: " + light + "\n" + text
	}
	read := world.Read
	world.Read = func(name string) ([]byte, error) {
		if name == line {
			return []byte(text), nil
		}
		return read(name)
	}
	s := compiled(world, append(names[:len(names):len(names)], line))
	s.found = slices.DeleteFunc(s.found, func(f finding) bool { return !reckons[f.Code] })
	season, list := s.gather()
	// The notebooks of the kit may log sheets too.
	i := slices.IndexFunc(s.sheets, func(sh *sheet) bool { return sh.at.File.Name == line })
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
	if sh.aperture.known && sh.sum.av != 0 {
		out.Settings = s.choicesAt(sh, exposure.Exposure{Av: sh.sum.av})
	}
	return out, list
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
