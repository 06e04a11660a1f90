package compile

import (
	"fmt"
	"math"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// The last part of what explain says of a sheet: the negative as it came out.

// negative is its number and sleeve, its duplicates, its densities beside the
// zones that they stand for, and what was made of it.
func (e *explaining) negative() {
	e.part("the negative")
	if e.rs.Number != "" {
		e.row(place(e.sh.numberAt), "number %s", e.rs.Number)
	}
	if e.rs.Sleeve != "" {
		e.row("", "filed in %s", e.rs.Sleeve)
	}
	for _, twin := range e.rs.Twins {
		e.row("", "duplicate: %s, %s", twin.ID, developedAs(twin))
	}
	for _, text := range densities(e.rs) {
		e.row("", "%s", text)
	}
	switch {
	case e.rs.Lost != "":
		e.row("", "lost: %s", e.rs.Lost)
	case e.sh.filed.keeper && len(e.sh.losses) > 0:
		e.row("", "kept, and so not counted as lost")
	}
}

// developedAs is the development that a sheet was given, else what is wanted.
func developedAs(sh *record.Sheet) string {
	switch n := len(sh.Developed); {
	case n > 0:
		return "developed " + sh.Developed[n-1].Text
	case sh.ShownDeveloped != "":
		return "developed, when is not said"
	case sh.Development != "":
		return "not developed, " + sh.Development + " asked for"
	}
	return "not developed"
}

// densities is every density, over base and fog where that was read, beside the
// zone on which the spot of that name fell.
func densities(sh *record.Sheet) []string {
	fog, known := 0., false
	for _, d := range sh.Densities {
		if isFog(d.Spot) {
			fog, known = d.D, true
		}
	}
	var all []string
	for _, d := range sh.Densities {
		text := strings.TrimSpace(d.Spot+" density ") + " " + trim(d.D)
		if known && !isFog(d.Spot) {
			over := d.D - fog
			text += fmt.Sprintf(", %.2f over base and fog", over) + besideZone(sh, d.Spot, over)
		}
		all = append(all, text)
	}
	return all
}

func isFog(spot string) bool {
	low := strings.ToLower(spot)
	return strings.Contains(low, "fog") || strings.Contains(low, "base")
}

// usual is the density over base and fog that a zone usually has at N on a
// negative for an enlarger with diffuse light. Common practice, no source.
var usual = map[float64][2]float64{1: {0.08, 0.12}, 5: {0.65, 0.75}, 8: {1.25, 1.35}}

// besideZone is the zone of the spot, and what is usual there.
func besideZone(sh *record.Sheet, spot string, over float64) string {
	if sh.Reading == nil {
		return ""
	}
	for _, a := range sh.Reading.Areas {
		if !strings.EqualFold(a.Name, spot) || !a.Fell.Known {
			continue
		}
		text := "; it fell on " + exposure.Roman(a.Fell.Value)
		zone := math.Round(a.Fell.Value)
		sp, ok := usual[zone]
		if !ok || math.Abs(a.Fell.Value-zone) > 0.25 {
			return text
		}
		return text + fmt.Sprintf(", where N usually gives %.2f to %.2f (common practice, no source): %s", sp[0], sp[1], against(over, sp))
	}
	return ""
}

func against(over float64, usual [2]float64) string {
	switch {
	case over > usual[1]+0.02:
		return "denser, as after more development than N"
	case over < usual[0]-0.02:
		return "thinner, as after less development than N"
	}
	return "as N gives"
}
