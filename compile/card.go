package compile

import (
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/compile/record"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// Card makes the kit's card of the notebooks named, and says what is wrong with
// what they declare.
func Card(world World, names ...string) (*record.Card, diag.List) {
	c := Check(world, names...)
	s := c.season
	card := &record.Card{Title: c.Record().Title}
	for _, f := range s.latest().filters {
		card.Filters = append(card.Filters, s.cardFilter(f))
	}
	card.Stacks = stacks(card.Filters)
	for _, l := range s.latest().lenses {
		card.Lenses = append(card.Lenses, s.cardLens(l))
	}
	for _, f := range s.latest().films {
		card.Films = append(card.Films, s.cardFilm(f))
	}
	for zone := 0.0; zone <= 10; zone++ {
		card.Zones = append(card.Zones, record.CardZone{Zone: exposure.Roman(zone), Stops: exposure.FormatStops(zone - 5)})
	}
	card.Lights = lights()
	card.Chosen = s.latest().lights()
	return card, kitOnly(c)
}

// kitOnly is the findings in notebooks that log no sheet.
func kitOnly(c *Checked) diag.List {
	logged := map[*source.File]bool{}
	for _, sh := range c.season.sheets {
		logged[sh.at.File] = true
	}
	var list diag.List
	for _, d := range c.list {
		if !logged[d.Span.File] {
			list = append(list, d)
		}
	}
	return list
}

func (s *season) cardFilter(f *filter) record.CardFilter {
	out := record.CardFilter{Name: f.name}
	c := f.stops
	if c == nil {
		_, entry, _ := s.latest().filter(f.name)
		c = published(entry, handbook.Daylight, "")
	}
	if c != nil {
		out.Stops, out.Detail, out.Own, out.Source = record.Known(c.stops), c.detail, c.own, c.from
	}
	for _, a := range f.amounts {
		out.Per = append(out.Per, fact(a.as, exposure.InStops(a.stops)))
	}
	return out
}

// stacks are the sums of every two filters.
func stacks(filters []record.CardFilter) []record.CardStack {
	var all []record.CardStack
	for i, a := range filters {
		for _, b := range filters[i+1:] {
			if a.Stops.Known && b.Stops.Known && a.Stops.Value > 0 && b.Stops.Value > 0 {
				all = append(all, record.CardStack{First: a.Name, Second: b.Name, Stops: exposure.Round(a.Stops.Value + b.Stops.Value)})
			}
		}
	}
	return all
}

// farthest is the magnification to which the extensions of a lens go where no
// camera bounds them: life size.
const farthest = 1.0

func (s *season) cardLens(l *lens) record.CardLens {
	out := record.CardLens{Name: l.name, Widest: l.Wide, Least: l.Small}
	for _, f := range []record.Fact{fact("apertures", apertures(l)), fact("shutter", speedsText(l.speeds)), fact("tested", testedText(l)), fact("always on", filterNames(l.with))} {
		if f.Value != "" {
			out.Facts = append(out.Facts, f)
		}
	}
	if l.focal == 0 || l.single() {
		return out
	}
	most := 0.0
	for _, c := range s.latest().cameras {
		most = max(most, c.to)
	}
	if most == 0 {
		most = l.focal * (1 + farthest)
	}
	if l.flange != 0 {
		return out // its extension is read from the flange, and not told here
	}
	// A stop of bellows is 2 log2 of the extension over the focal length, so each
	// third of a stop is a sixth of a doubling.
	for third := 1; third <= 12; third++ {
		ext := l.focal * math.Exp2(float64(third)/6)
		if ext > most {
			break
		}
		m := ext/l.focal - 1
		out.Rows = append(out.Rows, record.CardRow{What: trim(math.Round(ext)) + " mm", Costs: exposure.FormatAmount(float64(third) / 3), More: scaleText(m)})
	}
	return out
}

// single reports a lens of one opening, such as a pinhole or a zone plate: nothing is
// focused by its extension.
func (l *lens) single() bool { return l.Wide != 0 && l.Small == l.Wide }

// scaleText is a magnification as people write it.
func scaleText(m float64) string {
	if m >= 1 {
		return trim(math.Round(m*10)/10) + ":1"
	}
	return "1:" + trim(math.Round(10/m)/10)
}

// metered are the times for which a card tells what to give, up to an hour.
var metered = []float64{1, 2, 4, 8, 15, 30, 60, 120, 240, 480, 900, 1800, 3600}

// meteredFor are the times for which a card tells what to give by a rule: those that its
// table declares, and between them those of the scale that are not next to one; up to
// where the rule ends, and one beyond to say so.
func meteredFor(rule exposure.Rule) []float64 {
	const third = 1.26
	all := rule.Declared()
	for _, t := range metered {
		if !slices.ContainsFunc(rule.Declared(), func(own float64) bool { return t < own*third && own < t*third }) {
			all = append(all, t)
		}
		if t > rule.Reach() {
			break
		}
	}
	slices.Sort(all)
	return all
}

func (s *season) cardFilm(f *film) record.CardFilm {
	out := record.CardFilm{Name: f.name, Rule: f.how}
	for _, x := range []record.Fact{fact("index", eiText(f)), fact("box speed", iso(f.iso)), fact("sees", f.class), fact("development", timesText(f))} {
		if x.Value != "" {
			out.Facts = append(out.Facts, x)
		}
	}
	rule := f.rule
	if rule.IsZero() {
		rule = then(s.latest().rules, nil)
	}
	if rule.IsZero() {
		return out
	}
	for _, t := range meteredFor(rule) {
		row := record.CardRow{What: exposure.FormatTime(t)}
		clock, status := rule.Corrected(t)
		if status != exposure.Beyond {
			row.Costs, row.More = exposure.FormatTime(clock), exposure.FormatFactor(clock/t)
		} else {
			row.Costs = "beyond the rule"
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

// lights are the kinds of light by the rule of sixteen.
func lights() (all []record.CardLight) {
	for _, words := range []string{"sand or snow in sun", "full sun", "hazy sun", "cloudy bright", "overcast", "open shade"} {
		l, ok := handbook.Light(words)
		if !ok {
			continue
		}
		row := record.CardLight{Name: l.Name, Aperture: exposure.FormatAperture(8 - l.Steps()), EV100: exposure.FormatEV(l.EV100), Source: l.Source}
		all = append(all, row)
	}
	return all
}

// lights are those in which films or filters of the kit have values of their own,
// daylight first; none where daylight is all.
func (k *kit) lights() []string {
	all := []string{handbook.Daylight}
	add := func(light string) {
		if light != "" && !slices.Contains(all, light) {
			all = append(all, light)
		}
	}
	for _, f := range k.films {
		for _, light := range sortedKeys(f.inLight) {
			add(light)
		}
	}
	for _, f := range k.filters {
		for i := range f.amounts {
			a := &f.amounts[i]
			add(a.light)
			add(k.ownLight(a))
		}
	}
	if len(all) == 1 {
		return nil
	}
	return all
}

// ownLight is the light that a value of a filter holds in as the writer calls it, on
// whatever film of the kit.
func (k *kit) ownLight(a *amount) string {
	own := a.words
	for _, film := range k.films {
		own, _ = cutWords(own, strings.ToLower(film.name))
	}
	return own
}

// Spread is what one filter asks for at a reading: the settings, best first, and
// the line that logs the best.
type Spread struct {
	Filter   string // "" for none
	Stops    float64
	Settings []record.Choice
	Line     string   // "metered EV 12, R25, 1/8 f16", to be put behind a label
	Why      string   // why there are none, where there are none
	Doubts   []string // why they are not to be trusted
	Cautions []string
	Assumed  []string // what was taken so, though the reading does not say it
	Unread   []string // words that were not understood
}

// Reading is what a card is asked about.
type Reading struct {
	Terms    string // as on a sheet line
	Light    string // as on a light line; "" for none
	Aperture string // to keep to as nearly as the lens can; "" for any
}

// ReckonEach computes the settings for a reading, once without a filter and once with
// each filter of the kit.
func ReckonEach(world World, rd Reading, names ...string) []Spread {
	all := []Spread{reckonWith(world, rd, "", names)}
	for _, f := range Check(world, names...).season.latest().filters {
		all = append(all, reckonWith(world, rd, f.name, names))
	}
	return all
}

func reckonWith(world World, rd Reading, filter string, names []string) Spread {
	line := joinTerms(rd.Terms, filter)
	r, _ := Reckon(world, rd.Light, joinTerms(line, rd.Aperture), names...)
	out := Spread{Filter: filter, Settings: r.Settings, Doubts: r.Doubts, Cautions: r.Cautions, Assumed: r.Assumed, Unread: r.Unread}
	for _, step := range r.Sheet.Steps {
		if step.Kind == "filter" {
			out.Stops += step.Stops
		}
	}
	switch {
	case r.Dark != "":
		out.Why, out.Settings = r.Dark, nil
	case len(r.Needs) > 0:
		out.Why = "it would take " + few(r.Needs)
	case len(r.Settings) == 0:
		out.Why = r.whyNone()
	default:
		best := r.Settings[0]
		out.Line = joinTerms(line, strings.ReplaceAll(best.Time, " ", "")+" "+best.Aperture)
	}
	return out
}

// whyNone is why no settings are right as they were asked for, with what is known instead.
func (r *Reckoned) whyNone() string {
	var all []string
	for _, c := range r.Metered {
		all = append(all, c.Time+" "+c.Aperture+" before reciprocity")
	}
	all = append(all, r.Lacks...)
	if n := len(r.Others); n > 0 {
		c := r.Others[n-1]
		all = append(all, "another aperture: "+c.Time+" "+c.Aperture)
	}
	if len(all) == 0 {
		return "nothing that the lens can do"
	}
	return strings.Join(all, "; ")
}

func joinTerms(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(p string) bool { return strings.TrimSpace(p) == "" }), ", ")
}
