package lang

import (
	"notchbook/lang/diag"
	"slices"
)

// Numbers that nothing can be: an aperture of 0, a time of 1/0, an index of
// minus 100, an extension longer than a street. They are reported where they
// stand and read no further, so that no pass behind has to ask.

// bounds are the least and the most that a number can be, ends included, in the
// unit of its term. They are as wide as anything that was ever built or given,
// and by no means a check of what is likely.
type bounds struct {
	least, most float64
	what        string
}

var (
	fNumbers     = bounds{0.3, 5000, "an f-number"}
	exposureTime = bounds{1e-7, 1e8, "an exposure time"} // seconds; three years
	lightValues  = bounds{-40, 40, "a light value"}
	zones        = bounds{-10, 20, "a zone"}
	speeds       = bounds{1e-3, 1e7, "a film speed"}
	factors      = bounds{1, 1e12, "a factor"} // of exposure: less than 1 would be light that a filter adds
	inStops      = bounds{-40, 40, "a number of stops"}
	densities    = bounds{0, 15, "a density"}
	ofFilm       = bounds{0, 5, "a density of film"}
	onPicture    = bounds{0, 1, "a place on the picture, in fractions of its width and height"}
	luxSeconds   = bounds{1e-9, 1e6, "an exposure in lux seconds"}
	levels       = bounds{0, 1e9, "a level"}
	lengthsMM    = bounds{1e-4, 1e8, "a length"} // millimetres; a hundred kilometres
	scales       = bounds{1e-6, 1e4, "a magnification"}
	powers       = bounds{0.5, 5, "an exponent of reciprocity"}
	percents     = bounds{1e-3, 99.9, "a percentage"}
	celsius      = bounds{-50, 120, "a temperature"}
	counts       = bounds{1, 999, "a number of exposures"}
)

func (b bounds) hold(x float64) bool { return x >= b.least && x <= b.most } // and NaN holds nowhere

// impossible reports the terms of a line that hold such a number and takes them
// out of what is read.
func impossible(s *Statement) diag.List {
	var list diag.List
	if s.Word == Meter && len(s.Labels) > 0 {
		return nil // "EV at 100" says what a meter shows
	}
	for i := range s.terms {
		t := &s.terms[i]
		what := fault(t.Kind)
		if what == "" || t.Unread {
			continue
		}
		text := t.Span.Text()
		list = append(list, diag.Diagnostic{Code: "impossible-number", Severity: diag.Error, Span: t.Span, Message: `"` + text + `" cannot be ` + what})
		t.Kind, t.Unread = &Remark{Text: text}, true
	}
	return list
}

// fault is what a term's number cannot be, or nothing.
func fault(kind any) string {
	switch k := kind.(type) {
	case *Exposure:
		return k.fault()
	case *Sum:
		if k.Exposure != nil {
			return k.Exposure.fault()
		}
		return k.Amount.fault()
	case *FNumbers:
		if k.To != nil && !k.To.possible() || !k.From.possible() || slices.ContainsFunc(k.More, func(a Aperture) bool { return !a.possible() }) {
			return fNumbers.what
		}
	case *Stack:
		return filtersFault(k.Filters)
	case *With:
		return filtersFault([]Filter{k.Filter})
	case *Amount:
		return k.fault()
	case *Bellows:
		return k.Amount.fault()
	case *Clicks:
		return k.Stops.fault()
	case *Class:
		if k.EI != nil && !speeds.hold(float64(*k.EI)) {
			return speeds.what
		}
		return k.Amount.fault()
	case *BellowsScale:
		for _, r := range k.Rows {
			if !lengthsMM.hold(float64(r.MM)) {
				return lengthsMM.what
			}
			if what := (&Amount{Stops: r.Stops, Factor: r.Factor}).fault(); what != "" {
				return what
			}
		}
	case *Densitometer:
		for _, d := range k.D {
			if !ofFilm.hold(float64(d)) {
				return ofFilm.what
			}
		}
		if k.Zone != nil && !zones.hold(float64(*k.Zone)) {
			return zones.what
		}
	case *Spot:
		return k.fault()
	case *Shutter, *Measured, *Tested, *RuleOf, *TimeFor, *Shorten:
		return declaredFault(kind)
	}
	return plainFault(kind)
}

// plainFault is that of the terms of one number.
func plainFault(kind any) string {
	x, b := plainNumber(kind)
	if b.what == "" || b.hold(float64(x)) {
		return ""
	}
	return b.what
}

func plainNumber(kind any) (Number, bounds) {
	switch k := kind.(type) {
	case *Placed:
		return k.Zone, zones
	case *Falls:
		return k.Zone, zones
	case *FilmEI:
		return k.EI, speeds
	case *MeterEI:
		return k.EI, speeds
	case *ISO:
		return k.Speed, speeds
	case *N:
		return k.Stops, inStops
	case *Bracket:
		return k.Stops, inStops
	case *Extension:
		return k.MM, lengthsMM
	case *ExtensionRange:
		return min(k.From, k.To, max(k.From, k.To)), lengthsMM
	case *Magnification:
		return k.M, scales
	case *Focus:
		return k.MM, lengthsMM
	case *FocusSpread:
		return k.MM, lengthsMM
	case *Near:
		return k.MM, lengthsMM
	case *Far:
		return k.MM, lengthsMM
	case *Confusion:
		return k.MM, lengthsMM
	case *Millimetres:
		return k.MM, lengthsMM
	case *Circle:
		return k.MM, lengthsMM
	case *Flange:
		return k.MM, lengthsMM
	case *Temperature:
		return k.C, celsius
	case *LuxSeconds:
		return k.H, luxSeconds
	}
	return 0, bounds{}
}

// declaredFault is that of the tables of a kit.
func declaredFault(kind any) string {
	var times []*Seconds
	switch k := kind.(type) {
	case *Shutter:
		times = append(times, k.Slowest, k.Fastest)
		for i := range k.Speeds {
			times = append(times, &k.Speeds[i])
		}
	case *Measured:
		times = append(times, &k.Marked)
		for i := range k.Real {
			times = append(times, &k.Real[i])
		}
	case *Tested:
		for i := range k.Pairs {
			times = append(times, &k.Pairs[i].From, &k.Pairs[i].To)
		}
	case *TimeFor:
		if !inStops.hold(float64(k.N)) {
			return inStops.what
		}
		if k.EI != nil && !speeds.hold(float64(*k.EI)) {
			return speeds.what
		}
		times = append(times, k.Time)
	case *Shorten:
		for i := range k.Rows {
			if !percents.hold(float64(k.Rows[i].Percent)) {
				return percents.what
			}
			times = append(times, &k.Rows[i].From)
		}
	case *RuleOf:
		for i := range k.Laws {
			if what := k.Laws[i].fault(); what != "" {
				return what
			}
		}
	}
	return timesFault(times)
}

func timesFault(times []*Seconds) string {
	for _, s := range times {
		if s != nil && !s.possible() {
			return exposureTime.what
		}
	}
	return ""
}

func (l *Law) fault() string {
	times := []*Seconds{l.UpTo, l.At, l.From, l.Over}
	if l.Pair != nil {
		times = append(times, &l.Pair.From, &l.Pair.To)
	}
	switch {
	case l.Power != nil && !powers.hold(float64(*l.Power)):
		return powers.what
	case l.More != nil && !inStops.hold(float64(*l.More)) || l.Stops != nil && !inStops.hold(float64(*l.Stops)):
		return inStops.what
	case l.Times != nil && !factors.hold(float64(*l.Times)):
		return factors.what
	}
	return timesFault(times)
}

func (k *Exposure) fault() string {
	if k.EV != nil && !lightValues.hold(float64(*k.EV)) {
		return lightValues.what
	}
	if k.Zone != nil && !zones.hold(float64(*k.Zone)) {
		return zones.what
	}
	for i := range k.Parts {
		switch part := &k.Parts[i]; {
		case part.Aperture != nil && !part.Aperture.possible():
			return fNumbers.what
		case part.Time != nil && !part.Time.possible():
			return exposureTime.what
		case part.Time != nil && !part.Time.countable():
			return counts.what
		}
	}
	return ""
}

func (k *Spot) fault() string {
	switch {
	case k.Across != nil && !(onPicture.hold(float64(*k.Across)) && onPicture.hold(float64(*k.Down))):
		return onPicture.what
	case k.Level != nil && !levels.hold(float64(*k.Level)):
		return levels.what
	}
	return ""
}

func (a *Aperture) possible() bool {
	return a.Widest || fNumbers.hold(a.Mark) && (a.Upper == 0 || fNumbers.hold(a.Upper)) && inStops.hold(a.Past)
}

func (s *Seconds) possible() bool { return s.Den > 0 && exposureTime.hold(s.Num/s.Den) }

func (t *Time) possible() bool {
	for i := range t.Parts {
		if !t.Parts[i].possible() {
			return false
		}
	}
	return true
}

func (t *Time) countable() bool {
	for _, n := range []*Number{t.Count, t.Again} {
		if n != nil && !counts.hold(float64(*n)) {
			return false
		}
	}
	return true
}

func (a *Amount) fault() string {
	switch {
	case a == nil:
	case a.Factor != nil && !factors.hold(float64(*a.Factor)):
		return factors.what
	case a.Stops != nil && !inStops.hold(float64(*a.Stops)):
		return inStops.what
	case a.Density != nil && !densities.hold(float64(*a.Density)):
		return densities.what
	}
	return ""
}

func filtersFault(all []Filter) string {
	for i := range all {
		for j := range all[i].Amounts {
			if what := all[i].Amounts[j].fault(); what != "" {
				return what
			}
		}
	}
	return ""
}
