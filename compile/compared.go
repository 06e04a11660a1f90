package compile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/compile/spectral"
)

// What the filters of a scene did: each place that was measured on a filtered sheet and
// on the control, in stops, beside the forecast.
//
// A place's density over base and fog says how much light fell on it, by the film's
// characteristic curve where a test of the season found it, and else by what N usually
// gives. That, the light value that was given and the bellows together say how much light
// it sent through the filter. Of two sheets the difference is what the filter took from that place; what it
// took from a grey card, or is said to take, is its cost, and the rest is the move. Light
// that drifted between two controls is taken off along a straight line from sheet to
// sheet.

// toned is how much light each measured place of a sheet sent, in stops, by its name in
// small letters.
type toned struct {
	tones map[string]float64
	order []string
}

func tonesOf(sh *sheet, rs *record.Sheet, by scale) toned {
	t := toned{tones: map[string]float64{}}
	for _, o := range overFogOf(rs) {
		if stops, ok := by(o.d); ok {
			t.tones[strings.ToLower(o.spot)] = stops + sh.sum.given + sh.sum.bellows
			t.order = append(t.order, o.spot)
		}
	}
	return t
}

// compare fills in what the filters of every scene did.
func (g *gatherer) compare() {
	for _, o := range g.season.outings {
		for _, sc := range o.scenes {
			if out := g.compared(sc); out != nil {
				g.sheet[sc.sheets[0]].Scene.Compared = out
			}
		}
	}
}

// compared compares the filtered sheets of a scene with the controls on their film; nil
// where there are not both.
func (g *gatherer) compared(sc *scene) *record.Compared {
	if sc.test != "" {
		return nil
	}
	var controls, filtered []*sheet
	for _, sh := range sc.sheets {
		if g.sheet[sh] != nil && g.sheet[sh].Scene != nil && sh.sum.hasGave && sh.sum.state != record.Unexposed && sh.film.known {
			if len(sh.sum.owes) == 0 {
				controls = append(controls, sh)
			} else {
				filtered = append(filtered, sh)
			}
		}
	}
	if len(controls) == 0 {
		return nil
	}
	film := controls[0].film.v
	onOther := func(sh *sheet) bool { return sh.film.v != film }
	controls, filtered = slices.DeleteFunc(controls, onOther), slices.DeleteFunc(filtered, onOther)
	if len(filtered) == 0 {
		return nil
	}
	c := comparing{gatherer: g, out: &record.Compared{}}
	for _, sh := range controls {
		c.out.Controls = append(c.out.Controls, g.sheet[sh])
		c.control(sh)
	}
	c.out.Drift = c.drift()
	light := kindOfLight(sc.light)
	set, ok := film.setting(light)
	if ok {
		c.out.Forecast = newForecast(&set, film)
	}
	for _, sh := range filtered {
		c.filtered(sh, &set)
	}
	if c.out.How == "" {
		c.out.How = "nothing was measured on a control and a filtered sheet alike: density lines with base+fog for both would tell what the filters did"
	}
	return c.out
}

// comparing is a scene's comparison in the making.
type comparing struct {
	*gatherer
	out      *record.Compared
	controls []measuredSheet
}

// measuredSheet is a sheet and its tones by its film's curve, and by what N usually gives;
// of both none where they do not hold for it.
type measuredSheet struct {
	*sheet
	curve   *foundCurve
	byCurve toned
	usual   toned
}

func (c *comparing) measured(sh *sheet) measuredSheet {
	m := measuredSheet{sheet: sh, curve: c.curveIn(sh.scene, sh)}
	if m.curve != nil {
		m.byCurve = tonesOf(sh, c.sheet[sh], m.curve.scale)
	}
	if unlikeN(sh) == "" {
		m.usual = tonesOf(sh, c.sheet[sh], zoneOf)
	}
	return m
}

// by are the tones of a sheet by the curves of a test; nil means what N usually gives.
func (m *measuredSheet) by(test *record.Test) toned {
	switch {
	case test == nil:
		return m.usual
	case m.curve != nil && m.curve.record.Test == test:
		return m.byCurve
	}
	return toned{}
}

// test is the test by whose curves a sheet can be set against a control.
func (c *comparing) test(m *measuredSheet) *record.Test {
	if m.curve == nil || len(m.byCurve.tones) == 0 {
		return nil
	}
	test := m.curve.record.Test
	if !slices.ContainsFunc(c.controls, func(of measuredSheet) bool { return len(of.by(test).tones) > 0 }) {
		return nil
	}
	return test
}

// control takes what is known of a control sheet.
func (c *comparing) control(sh *sheet) {
	if m := c.measured(sh); len(m.byCurve.tones) > 0 || len(m.usual.tones) > 0 {
		c.controls = append(c.controls, m)
	}
}

// unlikeN says why a sheet's densities cannot be read as those of N.
func unlikeN(sh *sheet) string {
	for _, d := range sh.developed {
		if d.n.known && d.n.v != 0 {
			return sh.label + " was developed " + nText(d.n.v) + ", and without a characteristic curve of it densities are read as after N"
		}
	}
	return ""
}

// drift says how the light went from the first control to the last.
func (c *comparing) drift() string {
	if len(c.controls) < 2 {
		return ""
	}
	first, last := c.controls[0], c.controls[len(c.controls)-1]
	test := c.test(&first)
	if len(last.by(test).tones) == 0 {
		test = nil
	}
	sum, n := 0., 0.
	for spot, v := range first.by(test).tones {
		if w, ok := last.by(test).tones[spot]; ok {
			sum, n = sum+w-v, n+1
		}
	}
	if n == 0 {
		return ""
	}
	by := math.Round(sum/n*10) / 10
	if by == 0 {
		return fmt.Sprintf("from %s to %s the light stayed", first.label, last.label)
	}
	return fmt.Sprintf("from %s to %s the light went %s %s, which is taken off", first.label, last.label, way(by), tenths(by))
}

// controlTone is the light of a place on the controls at the time of a sheet: between two
// controls along a straight line, else as on the nearest.
func (c *comparing) controlTone(spot string, sh *sheet, test *record.Test) (v float64, ok bool) {
	var before, after *measuredSheet
	for i := range c.controls {
		m := &c.controls[i]
		if _, has := m.by(test).tones[spot]; !has {
			continue
		}
		if m.index < sh.index {
			before = m
		} else if after == nil {
			after = m
		}
	}
	tone := func(m *measuredSheet) float64 { return m.by(test).tones[spot] }
	switch {
	case before == nil && after == nil:
		return 0, false
	case before == nil:
		return tone(after), true
	case after == nil:
		return tone(before), true
	}
	part := float64(sh.index-before.index) / float64(after.index-before.index)
	return tone(before) + part*(tone(after)-tone(before)), true
}

// filtered compares one sheet.
func (c *comparing) filtered(sh *sheet, set *spectral.Setting) {
	out := &record.Filtered{Sheet: c.sheet[sh], Name: stackName(sh.sum.owes)}
	c.out.Sheets = append(c.out.Sheets, out)
	cost, all := 0., true
	out.By = "declared"
	for _, u := range sh.sum.owes {
		if all = all && u.cost != nil; all {
			cost += u.cost.stops
			if !u.cost.own {
				out.By = "published"
			}
		}
	}
	if all {
		out.Declared = record.Known(exposure.Round(cost))
	}
	var cast *record.Cast
	if f := c.out.Forecast; f != nil {
		cast = c.addCast(f, set, sh.sum.owes)
		out.Forecast = cast.Stops
	}
	why := c.spots(sh, out, cast)
	out.Says = append(out.Says, costSaid(out))
	if cast != nil && cast.Missing != "" {
		out.Says = append(out.Says, "no forecast: "+cast.Missing)
	}
	for _, m := range out.Spots {
		out.Says = append(out.Says, moveSaid(m, cast != nil && cast.Missing == ""))
	}
	if why != "" {
		out.Says = append(out.Says, why)
	}
}

// costSaid is what a filter costs, by all who know.
func costSaid(f *record.Filtered) string {
	var by []string
	if f.Declared.Known {
		by = append(by, exposure.InStops(f.Declared.Value)+" as "+f.By)
	}
	if f.Measured.Known {
		by = append(by, tenths(f.Measured.Value)+" by the card")
	}
	if f.Forecast.Known {
		by = append(by, exposure.InStops(exposure.Third(f.Forecast.Value))+" as forecast")
	}
	if by == nil {
		return "what it costs is not known"
	}
	return "costs " + strings.Join(by, ", ")
}

// moveSaid is how far a place went, and how far it was forecast to go, where the film
// and the filter have a forecast at all.
func moveSaid(m record.SpotMove, forecast bool) string {
	text, up := m.Spot+" stayed where it was", 0.
	switch v := math.Round(m.Measured.Value*10) / 10; {
	case !m.Measured.Known:
		text = m.Spot + " was measured, and what the filter costs is not known"
	case v != 0:
		up = v
		text = m.Spot + " went " + way(v) + " " + tenths(v)
	}
	switch v := exposure.Third(m.Forecast.Value); {
	case !forecast:
	case !m.Forecast.Known:
		text += "; no curve stands for it"
	case v*up > 0 || v == 0:
		text += ", forecast " + exposure.FormatAmount(v)
	default:
		text += ", forecast " + way(v) + " " + exposure.FormatAmount(v)
	}
	if m.Subject != "" && !strings.Contains(m.Subject, strings.ToLower(m.Spot)) {
		text += " (" + m.Subject + ")"
	}
	return text
}

func way(stops float64) string {
	if stops > 0 {
		return "up"
	}
	return "down"
}

// tenths is an amount to a tenth of a stop, as densities are worth.
func tenths(stops float64) string {
	v := math.Round(math.Abs(stops)*10) / 10
	if v > 1 {
		return trim(v) + " stops"
	}
	return trim(v) + " stop"
}

// spots compares the places that were measured on the sheet and on a control. What the
// filter costs is taken from a grey card where one was measured on both.
//
// why says what stands in the way.
func (c *comparing) spots(sh *sheet, out *record.Filtered, cast *record.Cast) (why string) {
	m := c.measured(sh)
	test := c.test(&m)
	t := m.by(test)
	if why := unlikeN(sh); why != "" && test == nil && overFogOf(out.Sheet) != nil {
		return why
	}
	less := map[string]float64{} // what the filter took from each place
	for _, spot := range t.order {
		key := strings.ToLower(spot)
		before, ok := c.controlTone(key, sh, test)
		if !ok {
			continue
		}
		less[key] = before - t.tones[key]
		if isCard(key) && !out.Measured.Known {
			out.Measured = record.Known(exposure.Round(less[key]))
		}
	}
	cost := out.Declared
	if out.Measured.Known {
		cost = out.Measured
	}
	for _, spot := range t.order {
		took, ok := less[strings.ToLower(spot)]
		if !ok || isCard(strings.ToLower(spot)) {
			continue
		}
		move := record.SpotMove{Spot: spot}
		if cost.Known {
			move.Measured = record.Known(exposure.Round(cost.Value - took))
		}
		if i, ok := subjectOf(spot, sh.light); ok && cast != nil && cast.Moves != nil {
			move.Forecast, move.Subject = record.Known(cast.Moves[i].Stops), spectral.List()[i].Name
		}
		out.Spots = append(out.Spots, move)
	}
	if out.Spots != nil || out.Measured.Known {
		c.how(&m, test)
	}
	return ""
}

// how says once each how densities became stops.
func (c *comparing) how(m *measuredSheet, test *record.Test) {
	said := ""
	if test != nil {
		said = "densities over base and fog are brought to stops by the characteristic curve of " + m.curve.record.Said()
	} else {
		p, _ := c.processOf(m.sheet)
		said = noCurve(filmName(m.sheet), p)
	}
	if !strings.Contains(c.out.How, said) {
		c.out.How = strings.TrimPrefix(c.out.How+"; "+said, "; ")
	}
}

func isCard(spot string) bool {
	return strings.Contains(spot, "card") && !strings.Contains(spot, "white")
}

// subjectOf is the subject that a place's name speaks of, by the whole of it or its last
// word. A sky under cloud is cloud.
func subjectOf(spot, light string) (spectral.Subject, bool) {
	low := strings.ToLower(spot)
	s, ok := spectral.Named(low)
	if words := strings.Fields(low); !ok && len(words) > 1 {
		s, ok = spectral.Named(words[len(words)-1])
	}
	if under := strings.ToLower(light); ok && (s == spectral.Sky || s == spectral.Water) && (strings.Contains(under, "overcast") || strings.Contains(under, "cloud")) {
		s = spectral.Cloud
	}
	return s, ok
}
