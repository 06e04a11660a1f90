package lang

import "strings"

// Prose with figures in it, beside a sheet's settings: "1/60 f8, f22 would have been
// better", "…, box 12", "…, sunset 16:02". Such words ask for nothing. But nobody can be
// sure that no setting was meant, so the figure accuses no sheet either.

// asides makes words of the settings and numbers that stand in prose, behind a line's
// whole settings. A line with a reading of its own, or on which something is taken back,
// is left as it is.
func asides(s *Statement) {
	if s.Word != Sheet {
		return
	}
	var aperture, time bool
	for from := 0; from < len(s.Terms); {
		to := from
		for to < len(s.Terms) && !isComma(s.Terms[to]) {
			to++
		}
		stretch := s.Terms[from:to]
		if aperture && time && inProse(stretch) {
			for i := range stretch {
				stretch[i].aside()
			}
		}
		for i := range stretch {
			switch k := stretch[i].Kind.(type) {
			case *Cue, *Withdraw, *Nth, *Same, *Arrow:
				return
			case *Exposure:
				if k.EV != nil || k.Zone != nil {
					return
				}
				for _, part := range k.Parts {
					aperture, time = aperture || part.Aperture != nil, time || part.Time != nil
				}
			case *Clock:
				time = true
			}
		}
		from = to + 1
	}
}

// inProse reports whether the terms between two commas are words with figures among them,
// and none of the words speaks of settings or takes something back.
func inProse(stretch []Term) bool {
	const sentence = 3 // words; a number behind fewer may be a light value: wall 12
	said, figures, least := 0, 0, 1
	for i := range stretch {
		var words []string
		switch k := stretch[i].Kind.(type) {
		case *Loose:
			words = k.Words
		case *Bare:
			figures++
			least = sentence
		case *Exposure:
			if k.EV != nil || k.Zone != nil {
				return false
			}
			figures++
			words = k.Name
		case *Remark, *Millimetres:
		default:
			return false
		}
		if stretch[i].Struck || stretch[i].Doubtful || stretch[i].Sic {
			return false
		}
		for _, w := range words {
			low := strings.Trim(lower(w), ".,:;!?")
			if speaksOfSettings[low] || nearest(low, termList) != "" && !ordinary()[low] {
				return false
			}
			if letterRun(low, 0) == len(low) && (least == sentence || len(low) > 2 && !smallWords[low]) {
				said++
			}
		}
	}
	return said >= least && figures > 0
}

// aside makes words of a term, known as such.
func (t *Term) aside() {
	switch t.Kind.(type) {
	case *Bare, *Exposure:
		t.Kind, t.Aside, t.Second = &Loose{Words: strings.Fields(t.Span.Text())}, true, 0
	}
}

// speaksOfSettings are words that speak of settings or readings, or change what was said (common
// practice, no source).
var speaksOfSettings = setOf(`exposed exposure exp shot set sets setting settings shutter aperture stop stops stopped speed time gave give given giving actual actually really real
	instead rather then now change changed corrected correct correction or no not sorry oops meant mean make made meter metered meters spot reading reads read incident ev lv zone zones
	again second another after extra plus minus more less open opened closed close until became becomes reciprocity bulb both also twice doubled total altogether each every
	covered covering capped blocked masked shielded paused pause interrupted interruption shut waited waiting wait torch lamp lantern flash strobe cloud clouds
	shadow shadows highlight highlights factor filter filters bellows extension ext focal lens film iso asa ei din index rated placed falls fell fall bracket bracketed`)

// smallWords are too small to make prose of a stretch.
var smallWords = setOf("the and with for about but off its this that was had has")
