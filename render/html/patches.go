package html

import (
	"bytes"
	"cmp"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"slices"
	"strconv"
	"strings"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// The patches of a scene's sheets: densities as read, levels of linear scans, and
// what of them can be compared. A level is proportional to the light that the film
// lets through, so that two scans made with the same settings give a difference of
// density, the common logarithm of their ratio. Stops of exposure come from the film's
// characteristic curve, where the record knows it.

// patchTable is the patches, a column a sheet.
type patchTable struct {
	Rows     []saying.Difference
	Settings []string // how each sheet's scan was made; nil where no level was read off one
	Stops    string   // how differences of density are stops of exposure, or why not
}

// patchOf is what is known of one patch on one sheet.
type patchOf struct {
	density  record.Figure
	level    record.Figure
	measured bool // the level was measured on the picture, as a share of white
	scan     *record.Scan
	stops    record.Figure // of light on the film, by curve
	curve    *record.Curve
}

func (w *site) patches(sheets []*record.Sheet) patchTable {
	var t patchTable
	known, levels := false, false
	for _, name := range patchNames(sheets) {
		row := saying.Difference{Name: cmp.Or(name, "without a name")}
		only := w.densities(sheets, name)
		if only {
			row.Name += ", density"
		}
		var first *patchOf
		for _, s := range sheets {
			p := w.patchOf(s, name)
			row.Values = append(row.Values, p.words(first, only))
			levels = levels || p.level.Known
			if p.known() {
				known = true
				if first == nil {
					first = &p
				}
			}
		}
		t.Rows = append(t.Rows, row)
	}
	if !known {
		return t
	}
	t.Stops = byCurve(sheets)
	if !levels { // densities are the same by whatever scan
		return t
	}
	first := firstScan(sheets)
	for _, s := range sheets {
		t.Settings = append(t.Settings, settingsOf(measuredScan(s), first))
	}
	return t
}

// byCurve says by which curves densities are stops, or what it takes.
func byCurve(sheets []*record.Sheet) string {
	var known, read []string
	without := false
	for _, s := range sheets {
		switch {
		case s.Curve == nil:
			without = true
			continue
		case !slices.Contains(known, s.Curve.Said()):
			known = append(known, s.Curve.Said())
		}
		if s.OnFilm != nil && !slices.Contains(read, s.Curve.Said()) {
			read = append(read, s.Curve.Said())
		}
	}
	switch {
	case read != nil && without:
		return "Stops are of exposure, by the characteristic curve of " + strings.Join(read, "; and of ") + ". Of sheets without stops no characteristic curve is known."
	case read != nil:
		return "Stops are of exposure, by the characteristic curve of " + strings.Join(read, "; and of ") + "."
	case known != nil:
		return "They would be stops of exposure by the characteristic curve of " + strings.Join(known, "; and of ") + ", which takes the base and fog of each sheet."
	}
	return "They are stops of exposure only by way of the film’s characteristic curve, and none is known here: a density of 0.30 is one stop of light on the negative, and at a gradient of 0.55 it is 1.8 stops before the camera."
}

// densities reports whether no level was read of a patch, so that the word need stand
// but once.
func (w *site) densities(sheets []*record.Sheet, name string) bool {
	return !slices.ContainsFunc(sheets, func(s *record.Sheet) bool { return w.patchOf(s, name).level.Known })
}

// patchNames are the names of the patches of any of the sheets, in the order in
// which they are met.
func patchNames(sheets []*record.Sheet) []string {
	var names []string
	add := func(name string) {
		if !slices.ContainsFunc(names, func(n string) bool { return strings.EqualFold(n, name) }) {
			names = append(names, name)
		}
	}
	for _, s := range sheets {
		for _, p := range s.Patches {
			add(p.Name)
		}
		for _, d := range s.Densities {
			add(d.Spot)
		}
	}
	return names
}

func (w *site) patchOf(s *record.Sheet, name string) patchOf {
	out := patchOf{scan: measuredScan(s), curve: s.Curve}
	for _, o := range s.OnFilm {
		if strings.EqualFold(o.Spot, name) {
			out.stops = record.Known(o.Stops)
		}
	}
	for _, d := range s.Densities {
		if strings.EqualFold(d.Spot, name) {
			out.density = record.Known(d.D)
		}
	}
	for _, p := range s.Patches {
		if !strings.EqualFold(p.Name, name) {
			continue
		}
		out.level = p.Level
		if !p.Level.Known && p.Placed && out.scan != nil {
			v, ok := w.levels[out.scan.Path][spot{p.Across, p.Down}]
			out.level, out.measured = record.Figure{Value: v, Known: ok}, ok
		}
	}
	return out
}

func (p patchOf) known() bool { return p.density.Known || p.level.Known }

// words say what was measured, and how far it is from the first of the row; only says
// that nothing but densities was.
func (p patchOf) words(first *patchOf, only bool) string {
	var all []string
	if p.density.Known {
		text := figures(p.density.Value, 2)
		if !only {
			text = "density " + text
		}
		all = append(all, text)
		if first != nil && first.density.Known {
			all = append(all, denser(p.density.Value-first.density.Value))
		}
	}
	if p.level.Known {
		switch {
		case p.measured:
			all = append(all, "about "+figures(100*p.level.Value, 0)+" % of white")
		default:
			all = append(all, "level "+saying.Number(p.level.Value))
		}
		if first != nil && first.level.Known && first.measured == p.measured && !p.density.Known && likeMade(p.scan, first.scan) && p.level.Value > 0 && first.level.Value > 0 {
			all = append(all, denser(math.Log10(first.level.Value/p.level.Value)))
		}
	}
	if first != nil && p.stops.Known && first.stops.Known && p.curve.Test == first.curve.Test {
		all = append(all, moreLight(p.stops.Value-first.stops.Value))
	}
	if all == nil {
		return "not measured"
	}
	return strings.Join(all, ", ")
}

// denser says a difference of density.
func denser(d float64) string {
	switch text := figures(math.Abs(d), 2); {
	case text == "0.00":
		return "as dense"
	case d < 0:
		return text + " thinner"
	default:
		return text + " denser"
	}
}

// moreLight says a difference of exposure, to a tenth of a stop, as densities are worth.
func moreLight(stops float64) string {
	tenths, unit, way := math.Round(math.Abs(stops)*10)/10, " stops", " more light"
	if tenths <= 1 {
		unit = " stop"
	}
	if stops < 0 {
		way = " less light"
	}
	if tenths == 0 {
		return "the same light"
	}
	return saying.Number(tenths) + unit + way
}

func figures(v float64, decimals int) string { return strconv.FormatFloat(v, 'f', decimals, 64) }

// measuredScan is the scan on which a sheet's patches lie: the first linear one,
// else the first that can be shown.
func measuredScan(s *record.Sheet) *record.Scan {
	var shown *record.Scan
	for _, x := range s.Scans {
		if x.Linear {
			return x
		}
		if shown == nil && x.Shown() {
			shown = x
		}
	}
	return shown
}

func firstScan(sheets []*record.Sheet) *record.Scan {
	for _, s := range sheets {
		if x := measuredScan(s); x != nil {
			return x
		}
	}
	return nil
}

// likeMade reports whether levels of two scans may be set against each other.
func likeMade(a, b *record.Scan) bool {
	switch {
	case a == nil || b == nil || !a.Linear || !b.Linear:
		return false
	case a == b:
		return true
	}
	return !a.Auto && !b.Auto && a.Settings != "" && a.Settings == b.Settings
}

// settingsOf says how a scan was made and whether that is as the first was.
func settingsOf(x, first *record.Scan) string {
	switch {
	case x == nil:
		return "no scan"
	case x.Auto:
		return "settings of its own: not comparable"
	case !x.Linear:
		return "not stated to be linear: not comparable"
	case x == first:
		return "linear"
	case x.Settings == "" || first.Settings == "":
		return "linear; whether its settings were the same is not stated"
	case !likeMade(x, first):
		return "linear, other settings: not comparable"
	}
	return "linear, same settings"
}

// spot is a place on a picture, in shares of its width and height.
type spot struct{ across, down float64 }

// spots are the places that are to be measured, by the scan's path.
func spots(s *record.Season) map[string][]spot {
	out := map[string][]spot{}
	for _, sh := range s.Sheets {
		x := measuredScan(sh)
		for _, p := range sh.Patches {
			if at := (spot{p.Across, p.Down}); x != nil && p.Placed && !p.Level.Known && !slices.Contains(out[x.Path], at) {
				out[x.Path] = append(out[x.Path], at)
			}
		}
	}
	return out
}

// measureSpots reads the spots off a picture: of each the mean of a square a
// fiftieth of the longer edge wide, as a share of white.
func measureSpots(picture []byte, at []spot) (map[spot]float64, error) {
	img, err := jpeg.Decode(bytes.NewReader(picture))
	if err != nil {
		return nil, err
	}
	b := img.Bounds()
	half := max(max(b.Dx(), b.Dy())/100, 1)
	out := map[spot]float64{}
	for _, s := range at {
		x, y := b.Min.X+int(s.across*float64(b.Dx())), b.Min.Y+int(s.down*float64(b.Dy()))
		square := image.Rect(x-half, y-half, x+half+1, y+half+1).Intersect(b)
		if square.Empty() {
			continue
		}
		sum := 0
		for y := square.Min.Y; y < square.Max.Y; y++ {
			for x := square.Min.X; x < square.Max.X; x++ {
				sum += int(color.Gray16Model.Convert(img.At(x, y)).(color.Gray16).Y)
			}
		}
		out[s] = float64(sum) / 0xffff / float64(square.Dx()*square.Dy())
	}
	return out, nil
}
