package compile

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"unicode"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/compile/record"
	"notchbook/lang"
)

// What stands between the reading and the film: filters, bellows, and what was
// intended.

// lightClass is the light by which filters and films are chosen: the writer's words
// where they name one of the table's. It is empty for lamps of another kind than
// tungsten, of which no table speaks, and for those of a street, of which nobody knows.
func lightClass(light string) string { return classOf(holdingLight(light)) }

// classOf is the same of words of which all hold.
func classOf(light string) string {
	words := strings.FieldsFunc(strings.ToLower(light), func(r rune) bool { return !unicode.IsLetter(r) })
	tungsten, lamp, street := false, false, false
	for i, word := range words {
		next := ""
		if i+1 < len(words) {
			next = words[i+1]
		}
		shines := strings.HasPrefix(next, "lamp") || strings.HasPrefix(next, "light")
		switch {
		case otherLamps[word], word == "arc" && shines:
			return ""
		case strings.HasPrefix(word, "streetl"), strings.HasPrefix(word, "lamppost"), word == "street" && shines, word == "lamp" && strings.HasPrefix(next, "post"):
			street = true
		case strings.Contains(word, "tungsten"), strings.Contains(word, "halogen"), word == "incandescent", word == "bulb" && strings.HasPrefix(next, "light"):
			tungsten = true
		case strings.Contains(word, "lamp"):
			lamp = true
		}
	}
	switch {
	case street && !tungsten:
		return ""
	case tungsten || lamp:
		return handbook.Tungsten
	}
	return handbook.Daylight
}

// otherLamps are the words for light that is neither the sun's nor a tungsten lamp's, or of which they do not say
// what lamp it was
// (common practice, no source).
var otherLamps = lang.SetOf("artificial kunstlicht sodium mercury led leds fluorescent fluorescents neon xenon hmi halide discharge cfl hps candle candles candlelight firelight torch torches flashlight headlights headlamps")

// kindOfLight is the same for lights that count as one: their class, else their words.
func kindOfLight(light string) string {
	if class := lightClass(light); class != "" {
		return class
	}
	return strings.ToLower(light)
}

// inLightOf is the words behind a fact that the light leaves open.
func inLightOf(sh *sheet) string {
	if lightClass(sh.light) == "" {
		return " in " + sh.light
	}
	return ""
}

// filters adds up what is on the lens.
func (r *reckoning) filters() {
	class := ""
	if f := r.filmOf(r.sh); f != nil {
		class = f.class
	}
	if len(r.sh.filters) == 0 {
		return
	}
	r.steps = make([]record.Step, 0, len(r.sh.filters))
	on := make([]use, len(r.sh.filters))
	r.owes = make([]*use, len(on))
	for i, u := range r.sh.filters {
		on[i] = *u
		r.owes[i] = &on[i]
		r.filter(&on[i], class)
	}
}

func (r *reckoning) filter(u *use, class string) {
	f, entry, ok := kitOf(r.sh).filter(u.name)
	u.found, u.number = f, entry.Number
	if blind, long := entry.BlindOn(class); ok && entry.Number != "" && blind {
		r.blind = u
	} else if long {
		r.long = u
	}
	if isGraduated(u.name) {
		u.cost = &cost{detail: graduated, own: true}
	} else {
		u.cost = r.costOf(u, f, entry, class)
	}
	if f != nil && u.cost != nil && u.cost == f.stops && f.redBefore(class) && r.blind != u {
		r.need("whether " + class + " film sees anything through " + u.name + ", which is red: a value for it is written filter " + u.name + ": " + class + " x8")
		return
	}
	if u.cost == nil {
		k := kitOf(r.sh)
		r.need(cmp.Or(k.whichOf(u.name, k.ofColour(strings.ToLower(u.name))), "what the filter "+u.name+" costs"+inLightOf(r.sh)))
		return
	}
	if rd := r.sh.reading; rd != nil && rd.through && !u.always {
		u.inside = true
		r.step("filter", u.name, &cost{detail: "in the reading", from: place(rd.at)})
		return
	}
	if !u.cost.own && u.cost.low != u.cost.high {
		r.undecl = u
	}
	r.low += u.cost.low
	r.high += u.cost.high
	r.step("filter", u.name, u.cost)
}

// redBefore reports whether a filter is said to be red, and film of a class sees no red
// (common practice, no source): a value for all film does not hold for it.
func (f *filter) redBefore(class string) bool {
	return (class == "ortho" || class == "blue") && slices.Contains(strings.Fields(f.colour), "red")
}

// costOf is what a filter costs: as written with the sheet, as declared for the
// film or the light, as declared, as published.
func (r *reckoning) costOf(u *use, f *filter, entry handbook.FilterEntry, class string) *cost {
	if len(u.amounts) > 0 {
		c := newCost(&u.amounts[0], &lang.Term{Span: u.at})
		for i := range u.amounts[1:] {
			other := newCost(&u.amounts[i+1], &lang.Term{Span: u.at})
			c.low, c.high = min(c.low, other.stops), max(c.high, other.stops)
		}
		return c
	}
	if f != nil {
		if c := f.costOn(r.filmOf(r.sh), r.sh.light); c != nil {
			return c
		}
		if f.stops != nil && (lightClass(r.sh.light) != "" || f.alike(r.filmOf(r.sh))) {
			return f.stops
		}
		if f.stops != nil {
			return nil
		}
	}
	if v, detail, ok := neutralStops(u.name); ok {
		return &cost{stops: v, low: v, high: v, detail: detail, from: "the filter's own density or factor", own: true}
	}
	return published(entry, lightClass(r.sh.light), class)
}

// published is the handbook's value with the span of all that was printed.
func published(entry handbook.FilterEntry, light, class string) *cost {
	p, ok := entry.Default(light, class)
	if !ok || light == "" { // printed for daylight and tungsten alone
		return nil
	}
	c := &cost{stops: p.Stops, low: p.Stops, high: p.Stops, from: "handbook: " + p.Source}
	if p.Factor != 0 {
		c.detail = exposure.FormatFactor(p.Factor) + ", not declared"
	} else {
		c.detail = exposure.InStops(p.Stops) + ", not declared"
	}
	if lo, hi, ok := entry.Span(light, class); ok {
		c.low, c.high = min(lo, c.stops), max(hi, c.stops)
	}
	return c
}

// graduated is why a filter counts nothing, whatever is declared of it.
const graduated = "a graduated filter costs nothing"

func (r *reckoning) step(kind, name string, c *cost) {
	r.steps = append(r.steps, record.Step{Kind: kind, Name: name, Stops: exposure.Round(c.stops), Detail: c.detail, From: c.from})
}

// extension is what the bellows cost. No extension written is far away, in
// silence.
func (r *reckoning) extension() {
	sh := r.sh
	focal, flange := 0., 0.
	if sh.lens.known {
		focal, flange = sh.lens.v.focal, sh.lens.v.flange
	}
	var c cost
	var name string
	ok := true
	switch {
	case sh.bellows.known:
		c = *newCost(&sh.bellows.v, &lang.Term{Span: sh.bellows.at})
		name = "bellows"
	case sh.scale.known:
		c.stops, ok = exposure.BellowsByMagnification(sh.scale.v)
		name = "magnification " + trim(exposure.Round(sh.scale.v))
		c.detail = "2 log₂(1 + m)"
	case !sh.extension.known && !sh.focus.known:
		return
	case focal == 0 && !(sh.extension.known && sh.lens.known && len(sh.lens.v.scale) > 0):
		if sh.lens.known && sh.lens.v.at == nil {
			r.need("the focal length of the lens, with its unit: lens " + sh.lens.v.name + ": … mm")
		} else {
			r.need("the lens, for its focal length")
		}
		return
	case sh.extension.known && len(sh.lens.v.scale) > 0:
		c.stops, ok = sh.lens.v.scale.at(sh.extension.v)
		name = "extension " + trim(math.Round(sh.extension.v)) + " mm"
		c.detail, c.from = "by the scale of the "+sh.lens.v.name, place(sh.lens.v.at.Span)
		if !ok && focal != 0 {
			c.stops, ok = exposure.BellowsByExtension(sh.extension.v, focal)
			c.detail = "2 log₂(" + trim(math.Round(sh.extension.v)) + "/" + trim(focal) + "), beyond the scale"
		}
	case sh.extension.known && flange != 0:
		c.stops, ok = exposure.BellowsByFlange(sh.extension.v, flange, focal)
		name = "extension " + trim(math.Round(sh.extension.v)) + " mm"
		c.detail = "telephoto, " + trim(flange) + " mm at infinity"
	case sh.extension.known:
		c.stops, ok = exposure.BellowsByExtension(sh.extension.v, focal)
		name = "extension " + trim(math.Round(sh.extension.v)) + " mm"
		c.detail = "2 log₂(" + trim(math.Round(sh.extension.v)) + "/" + trim(focal) + ")"
	default:
		c.stops, ok = exposure.BellowsByFocusDistance(sh.focus.v, focal)
		name = "focus at " + trim(math.Round(sh.focus.v/10)/100) + " m"
		c.detail = "m = f/(u − f)"
	}
	if !ok {
		r.need("an extension or distance that the lens can have")
		return
	}
	r.bellows = exposure.Round(c.stops)
	r.low += r.bellows
	r.high += r.bellows
	r.step("bellows", name, &c)
}

// intended is what was asked for on purpose.
func (r *reckoning) intended() {
	if !r.sh.bracket.known {
		return
	}
	b := r.sh.bracket.v
	r.low += b
	r.high += b
	r.step("bracket", "bracket "+exposure.FormatStops(b), &cost{stops: b, detail: "on purpose", from: place(r.sh.bracket.at)})
}

// intent is the bracket, which moves the areas too.
func (r *reckoning) intent() float64 {
	if r.sh.bracket.known {
		return r.sh.bracket.v
	}
	return 0
}
