// Package saying says of sheets what every output says alike: how a sheet stands,
// and what the sheets of one scene have different.
package saying

import (
	"cmp"
	"math"
	"strconv"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// Verdict says how a sheet stands: "right", "1⅓ stops under".
func Verdict(s *record.Sheet) string {
	switch {
	case s.State == record.NoImage:
		return "no image"
	case s.Standing() == record.Doubled:
		return "exposed twice"
	case s.State == record.Off && s.Difference.Known:
		return exposure.OverUnder(s.Difference.Value)
	case s.State == "":
		return string(record.Unchecked)
	case Tested(s):
		return "a test"
	}
	return string(s.State)
}

// Tested reports a sheet that was exposed otherwise than asked because it tests something: it
// counts as right, and is not said to be.
func Tested(s *record.Sheet) bool {
	const rounding = 1. / 6
	return s.State == record.Right && s.Test != "" && s.Difference.Known && math.Abs(s.Difference.Value) > rounding
}

// Gap says the difference of a sheet, or from where to where it is, where several exposures
// may count as one long one.
func Gap(s *record.Sheet) string {
	if s.AsOne.Known {
		return exposure.Between(s.AsOne.Value, s.Difference.Value)
	}
	return exposure.OverUnder(s.Difference.Value)
}

// GapOf says how the ends of such a difference are counted, "" where it is one figure.
func GapOf(s *record.Sheet) string {
	if s.AsOne.Known {
		return "the exposures counted as one, or each by itself"
	}
	return ""
}

// Number writes a figure with two decimals at most, and none that are needless.
func Number(v float64) string {
	s := strconv.FormatFloat(v, 'f', 2, 64)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// Density writes a density with the two decimals that a densitometer shows, or the third
// of a mean.
func Density(d float64) string {
	s := strconv.FormatFloat(d, 'f', 3, 64)
	return strings.TrimSuffix(s, "0")
}

// Densities are those of a sheet by their places: "base+fog 0.10, sky 1.10".
func Densities(s *record.Sheet) string {
	var all []string
	for _, d := range s.Densities {
		all = append(all, strings.TrimSpace(d.Spot+" "+Density(d.D)))
	}
	return strings.Join(all, ", ")
}

// BesideTitle is the date, the place and the notebook of an outing, where its title has not said them.
func BesideTitle(o *record.Outing) (date, place, notebook string) {
	if o.Title != Join(", ", o.Day(), o.Place) {
		date, place = o.Day(), o.Place
	}
	if o.Title != o.Path {
		notebook = o.Path
	}
	return date, place, notebook
}

// Difference is a fact that is not the same on all sheets.
type Difference struct {
	Name   string
	Values []string // one for each sheet
}

// Compare names the facts in which sheets of a scene are not all alike, and of each
// sheet what it has different from the first of the scene.
func Compare(first *record.Sheet, sheets []*record.Sheet) (rows []Difference, apart []string) {
	said := make([][]string, len(sheets))
	for _, f := range facets {
		norm, alike := f.of(first), true
		row := Difference{f.name, make([]string, 0, len(sheets))}
		for i, s := range sheets {
			v := f.of(s)
			row.Values = append(row.Values, cmp.Or(v, f.none))
			alike = alike && row.Values[i] == row.Values[0]
			if v != norm {
				other := ", not " + cmp.Or(norm, f.none)
				if norm == "" && strings.HasPrefix(f.none, "not ") {
					other = ", on " + first.Label + " " + f.none
				}
				said[i] = append(said[i], f.name+" "+row.Values[i]+other)
			}
		}
		if !alike {
			rows = append(rows, row)
		}
	}
	for i, s := range sheets {
		switch {
		case s == first:
			apart = append(apart, "the first of the scene")
		case len(said[i]) == 0:
			apart = append(apart, "entered like "+first.Label)
		default:
			apart = append(apart, strings.Join(said[i], "; "))
		}
	}
	return rows, apart
}

// facet is one thing in which two entries can differ.
type facet struct {
	name string
	of   func(*record.Sheet) string
	none string // what is said where the entry has nothing
}

var facets = []facet{
	{"film", func(s *record.Sheet) string { return s.Film }, "not known"},
	{"exposure index", func(s *record.Sheet) string { return figure(s.EI) }, "not known"},
	{"lens", func(s *record.Sheet) string { return s.Lens }, "not known"},
	{"filter", func(s *record.Sheet) string { return strings.Join(s.Filters, " + ") }, "none"},
	{"extension", func(s *record.Sheet) string { return s.Extension }, "not stated"},
	{"movements", func(s *record.Sheet) string { return strings.Join(s.Movements, ", ") }, "none"},
	{"reading", func(s *record.Sheet) string {
		if s.Reading == nil {
			return ""
		}
		return s.Reading.Text
	}, "none"},
	{"bracket", bracket, "none"},
	{"time", func(s *record.Sheet) string { return s.Given.Time }, "not known"},
	{"aperture", func(s *record.Sheet) string { return s.Given.Aperture }, "not known"},
	{"development asked", func(s *record.Sheet) string { return s.Development }, "not stated"},
	{"developed", func(s *record.Sheet) string {
		var all []string
		for _, d := range s.Developed {
			all = append(all, strings.TrimPrefix(d.Day()+", "+d.Text, ", "))
		}
		return strings.Join(all, "; ")
	}, "not yet"},
	{"check", Verdict, ""},
}

func figure(f record.Figure) string {
	if !f.Known {
		return ""
	}
	return Number(f.Value)
}

func bracket(s *record.Sheet) string {
	for _, st := range s.Steps {
		if st.Kind == "bracket" {
			return exposure.FormatStops(st.Stops)
		}
	}
	return ""
}
