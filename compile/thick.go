package compile

import (
	"math"
	"strings"

	"notchbook/compile/record"
	"notchbook/compile/slip"
	"notchbook/lang/source"
)

// What measured densities say of a sheet's exposure. They speak only where the
// base and fog was read, a patch bears the name of a metered area, and the sheet was
// developed as usual: a density then stands for a zone.

// zoneOf is the zone that a density over base and fog stands for at N, between the
// three that are usual. Common practice, no source.
func zoneOf(over float64) (zone float64, ok bool) {
	at := func(zone float64) float64 { return (usual[zone][0] + usual[zone][1]) / 2 }
	switch {
	case over < at(1)-0.02 || over > at(8)+0.3:
		return 0, false
	case over < at(5):
		return 1 + 4*(over-at(1))/(at(5)-at(1)), true
	}
	return 5 + 3*(over-at(5))/(at(8)-at(5)), true
}

// byDensity is the stops by which the film got more than was asked for, as the
// densities tell it; ok is false where they do not.
func (sh *sheet) byDensity() (stops float64, ok bool) {
	fog, known := sh.fogRead()
	if !known || !sh.developedAsUsual() {
		return 0, false
	}
	sum, n := 0., 0.
	for i := range sh.filed.densities {
		d := &sh.filed.densities[i]
		for _, f := range sh.sum.fells {
			if !strings.EqualFold(f.Name, d.spot) || f.Name == "" || !f.Fell.Known {
				continue
			}
			if zone, told := zoneOf(d.d() - fog); told {
				sum, n = sum+zone-(f.Fell.Value-sh.sum.diff), n+1
			}
		}
	}
	return sum / math.Max(n, 1), n > 0
}

func (sh *sheet) fogRead() (d float64, ok bool) {
	for i := range sh.filed.densities {
		if isFog(sh.filed.densities[i].spot) {
			return sh.filed.densities[i].d(), true
		}
	}
	return 0, false
}

// developedAsUsual reports whether nothing but N is said of a sheet's development.
func (sh *sheet) developedAsUsual() bool {
	if sh.wanted.known && sh.wanted.v != 0 {
		return false
	}
	for _, d := range sh.developed {
		if d.n.known && d.n.v != 0 {
			return false
		}
	}
	return true
}

// lookByDensity is clear where no patch of an area that should show rises over the
// base and fog, and black where one that should be dark on the print is as dense as
// film gets.
func (sh *sheet) lookByDensity() (look slip.Look, at source.Span) {
	fog, known := sh.fogRead()
	if !known || sh.sum.state != record.Right {
		return "", at
	}
	clear, black, n := true, true, 0
	for i := range sh.filed.densities {
		d := &sh.filed.densities[i]
		for _, f := range sh.sum.fells {
			if f.Name == "" || !f.Fell.Known || !strings.EqualFold(f.Name, d.spot) {
				continue
			}
			over := d.d() - fog
			clear = clear && f.Fell.Value >= 3 && over <= 0.03
			black = black && f.Fell.Value <= 6 && over >= 2.2
			at = d.at
			n++
		}
	}
	switch {
	case n == 0:
	case clear:
		return slip.Clear, at
	case black:
		return slip.Black, at
	}
	return "", at
}
