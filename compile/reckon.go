package compile

import (
	"math"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang/diag"
)

// Reckoned is the field calculation for one reading: the sheet as it would be,
// with what it asks for, and the settings that the lens can do.
type Reckoned struct {
	Sheet    *record.Sheet
	Settings []record.Choice // by aperture, widest first
	Cautions []string
}

// Reckon computes the settings for terms written as on a sheet line, with the
// kit of the notebooks named. The terms state the reading and what stands
// before the film; no settings need be given.
func Reckon(world World, terms string, names ...string) (Reckoned, diag.List) {
	const line = "terms"
	read := world.Read
	world.Read = func(name string) ([]byte, error) {
		if name == line {
			return []byte("sheet 1: " + terms), nil
		}
		return read(name)
	}
	s := compiled(world, append(names[:len(names):len(names)], line))
	if len(s.sheets) == 0 {
		_, list := s.gather()
		return Reckoned{Sheet: &record.Sheet{}}, list
	}
	sh := s.sheets[len(s.sheets)-1]
	for i := range s.found {
		if s.found[i].Code == "unchecked" {
			s.found[i].Severity = diag.Error
		}
	}
	season, list := s.gather()
	out := Reckoned{Sheet: season.Sheets[len(season.Sheets)-1], Cautions: s.sunCaution()}
	if sh.sum.hasAsked {
		out.Settings = s.everyAperture(sh)
	}
	return out, list
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
	seen := map[[2]string]bool{}
	var all []record.Choice
	for av := math.Ceil(wide - margin); av <= small+margin; av++ {
		at := s.choicesAt(sh, exposure.Exposure{Av: av})
		if len(at) == 0 {
			continue
		}
		if key := [2]string{at[0].Time, at[0].Aperture}; !seen[key] {
			seen[key] = true
			all = append(all, at[0])
		}
	}
	return all
}
