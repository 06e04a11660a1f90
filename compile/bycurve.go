package compile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/compile/sensitometry"
	"notchbook/lang"
)

// Densities as stops of exposure, by the characteristic curves that the season's own
// tests found. A curve stands for sheets of its film that were developed as those of the
// test were, and for no others.

// process is what is known of how a sheet was developed.
type process struct {
	n, seconds, celsius value[float64]
	bath                string // the developer and its dilution as typed on the line
}

// processOf is the last development of a sheet; where its line gives no time, the kit's
// time for its N is taken.
func (s *season) processOf(sh *sheet) (p process, ok bool) {
	for _, d := range slices.Backward(sh.developed) {
		if d.maybe {
			continue
		}
		p.n = d.n
		for i := range d.st.Terms() {
			t := &d.st.Terms()[i]
			if t.Struck || t.Doubtful || t.Unread {
				continue
			}
			switch k := t.Kind.(type) {
			case *lang.Temperature:
				p.celsius = known(float64(k.C), t.Span, false)
			case *lang.Dilution, *lang.Loose:
				p.bath = strings.TrimSpace(p.bath + " " + strings.ToLower(t.Span.Text()))
			}
		}
		if v, written := timeIn(d.st); written {
			p.seconds.v, p.seconds.known = v, true
		} else if f := s.filmOf(sh); f != nil && p.n.known {
			i := slices.IndexFunc(f.times, func(of developing) bool { return of.n == p.n.v })
			if i >= 0 && len(f.baths) < 2 {
				p.seconds.v, p.seconds.known = f.times[i].seconds, true
			}
		}
		return p, p.n.known || p.seconds.known
	}
	return p, false
}

// like reports whether two sheets were developed alike, as far as both say: of the time,
// or else of N, both must say the same.
func (p process) like(q process) bool {
	differ := func(a, b value[float64]) bool { return a.known && b.known && math.Abs(a.v-b.v) > 1e-9 }
	switch {
	case differ(p.seconds, q.seconds) || differ(p.celsius, q.celsius) || p.bath != "" && q.bath != "" && p.bath != q.bath:
		return false
	case p.seconds.known && q.seconds.known:
		return true
	}
	return p.n.known && q.n.known && p.n.v == q.n.v
}

func (p process) text() string {
	switch {
	case p.seconds.known:
		return "after " + exposure.FormatTime(p.seconds.v)
	case p.n.known:
		return "after " + nText(p.n.v)
	}
	return "so developed"
}

// foundCurve is a characteristic curve that a test found.
type foundCurve struct {
	film    string // in small letters
	process process
	curve   *sensitometry.Curve
	record  *record.Curve
}

// keep holds the curve of sheets that were all developed alike.
func (m *measuring) keep(sheets []*sheet, curve *sensitometry.Curve) {
	p, ok := m.processOf(sheets[0])
	for _, sh := range sheets {
		q, same := m.processOf(sh)
		ok = ok && same && p.like(q)
	}
	if !ok || curve == nil {
		return
	}
	m.curves = append(m.curves, foundCurve{
		film: strings.ToLower(m.series.film), process: p, curve: curve,
		record: &record.Curve{Of: m.series.film + " " + p.text(), Test: m.out},
	})
}

// curvesOf are the curves that hold for a sheet, the latest test first.
func (g *gatherer) curvesOf(sh *sheet) []*foundCurve {
	p, ok := g.processOf(sh)
	if !ok {
		return nil
	}
	var all []*foundCurve
	for i := range slices.Backward(g.curves) {
		if c := &g.curves[i]; c.film == strings.ToLower(filmName(sh)) && c.process.like(p) {
			all = append(all, c)
		}
	}
	return all
}

// overFog is a place of a negative and its density over base and fog.
type overFog struct {
	spot string
	d    float64
}

// overFogOf are the densities over base and fog that a sheet's readings give, those of
// the densitometer first, then those of the levels of a linear scan: a density is the
// logarithm of how much less light comes through than through the clear film.
func overFogOf(rs *record.Sheet) (all []overFog) {
	add := func(spot string, d float64) {
		if spot != "" && !isFog(spot) && !slices.ContainsFunc(all, func(o overFog) bool { return strings.EqualFold(o.spot, spot) }) {
			all = append(all, overFog{spot, d})
		}
	}
	if i := slices.IndexFunc(rs.Densities, func(d record.Density) bool { return isFog(d.Spot) }); i >= 0 {
		for _, d := range rs.Densities {
			add(d.Spot, d.D-rs.Densities[i].D)
		}
	}
	lit := func(p record.Patch) bool { return p.Level.Known && p.Level.Value > 0 }
	if i := slices.IndexFunc(rs.Patches, func(p record.Patch) bool { return isFog(p.Name) && lit(p) }); i >= 0 && linear(rs) {
		for _, p := range rs.Patches {
			if lit(p) {
				add(p.Name, math.Log10(rs.Patches[i].Level.Value/p.Level.Value))
			}
		}
	}
	return all
}

func linear(rs *record.Sheet) bool {
	return slices.ContainsFunc(rs.Scans, func(s *record.Scan) bool { return s.Linear })
}

// scale brings a density over base and fog to a zone, or to stops from another zero that
// all its sheets share; ok is false where it does not reach.
type scale func(over float64) (stops float64, ok bool)

func (c *foundCurve) scale(over float64) (stops float64, ok bool) {
	logH, _, ok := c.curve.Exposure(over)
	return 5 + logH/sensitometry.Stop, ok
}

// byCurve says of every measured sheet how much light fell on each place, in stops, where
// a curve is known for it. Sheets of one scene are read by the curves of one test, so
// that they can be set against each other.
func (g *gatherer) byCurve() {
	for _, o := range g.season.outings {
		for _, sc := range o.scenes {
			if sc.test != "" {
				continue
			}
			for _, sh := range sc.sheets {
				if rs := g.sheet[sh]; rs != nil {
					if c := g.curveIn(sc, sh); c != nil {
						rs.Curve = c.record
						rs.OnFilm = onFilm(c, rs)
					}
				}
			}
		}
	}
}

func onFilm(c *foundCurve, rs *record.Sheet) (all []record.OnFilm) {
	for _, o := range overFogOf(rs) {
		if stops, ok := c.scale(o.d); ok {
			all = append(all, record.OnFilm{Spot: o.spot, Stops: exposure.Round(stops - 5)})
		}
	}
	return all
}

// curveIn is the curve of a sheet by the test that serves most of its scene's measured
// sheets; of several the latest.
func (g *gatherer) curveIn(sc *scene, sh *sheet) *foundCurve {
	curves := g.curvesOf(sh)
	if len(curves) < 2 {
		return first(curves)
	}
	serves := func(t *record.Test) (n int) {
		for _, other := range sc.sheets {
			if g.sheet[other] != nil && overFogOf(g.sheet[other]) != nil &&
				slices.ContainsFunc(g.curvesOf(other), func(c *foundCurve) bool { return c.record.Test == t }) {
				n++
			}
		}
		return n
	}
	return slices.MaxFunc(curves, func(a, b *foundCurve) int { return serves(a.record.Test) - serves(b.record.Test) })
}

func first(curves []*foundCurve) *foundCurve {
	if len(curves) == 0 {
		return nil
	}
	return curves[0]
}

const howZones = "what N usually gives: 0.10 at I, 0.70 at V, 1.30 at VIII (common practice, no source)"

// noCurve says that densities had to be brought to stops without a curve.
func noCurve(film string, p process) string {
	return fmt.Sprintf("no characteristic curve known of %s %s: densities over base and fog are brought to stops by %s", film, p.text(), howZones)
}
