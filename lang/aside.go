package lang

import (
	"slices"
	"strings"
)

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
	var stand []string // what is set, as typed
	copied := false    // what is set is that of another sheet, which a figure may change
	for from := 0; from < len(s.terms); {
		to := from
		for to < len(s.terms) && !isComma(s.terms[to]) {
			to++
		}
		stretch := s.terms[from:to]
		if aperture && time && inProse(stretch, stand, copied) {
			for i := range stretch {
				stretch[i].aside()
			}
		}
		for i := range stretch {
			switch k := stretch[i].Kind.(type) {
			case *Cue, *Withdraw, *Nth, *Arrow:
				return
			case *Same:
				aperture, time, copied = true, true, true
			case *Exposure:
				if k.EV != nil || k.Zone != nil {
					return
				}
				stand = slices.AppendSeq(stand, strings.FieldsSeq(lower(stretch[i].Span.Text())))
				av, tv := k.Gives()
				aperture, time = aperture || av, time || tv
			case *Clock:
				time = true
			}
		}
		from = to + 1
	}
}

// inProse reports whether the terms between two commas are words with figures among them,
// and none of the words speaks of settings or takes something back. An aperture or a speed of
// the shutter that is not one of those that stand on the line is in prose only where a word says
// that it was not given.
func inProse(stretch []Term, stand []string, copied bool) bool {
	const sentence = 3 // words; a number behind fewer may be a light value: wall 12
	said, figures, least := 0, 0, 1
	setting, notGiven := false, false
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
			for word := range strings.FieldsSeq(lower(stretch[i].Span.Text())) {
				setting = setting || isSetting(word) && !slices.Contains(stand, word)
			}
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
			notGiven = notGiven || unreal[low]
			if letterRun(low, 0) == len(low) && (least == sentence || len(low) > 2 && !smallWords[low]) {
				said++
			}
		}
	}
	return said >= least && figures > 0 && (!setting && !copied || notGiven)
}

// isSetting reports whether a word in lower case is an aperture by its sign, or a part of a
// second that shutters are marked with and no part of a picture or of a mile is: 1/8 and shorter.
func isSetting(word string) bool {
	word = strings.Trim(word, ".,:;!?()")
	if rest, ok := strings.CutPrefix(word, "f"); ok {
		return isDigit(at(strings.TrimPrefix(rest, "/"), 0))
	}
	part, ok := strings.CutPrefix(word, "1/")
	return ok && number("0"+part[:digits(part, 0)]) >= 8
}

// unreal are words that say of a setting that it was not given (common practice, no source).
var unreal = SetOf("would could should might may wanted want wish wished next better best beyond viewed viewing focused focussed focusing focussing focus before than too tried planned hoped ideal ideally perfect needed need usual usually normally diffraction until never")

// aside makes words of a term, known as such.
func (t *Term) aside() {
	switch t.Kind.(type) {
	case *Bare, *Exposure:
		t.Kind, t.Aside, t.Second = &Loose{Words: strings.Fields(t.Span.Text())}, true, 0
	}
}

// speaksOfSettings are words that speak of settings or readings, or change what was said (common
// practice, no source).
var speaksOfSettings = SetOf(`exposed exposure exp shot set sets setting settings shutter aperture stop stops stopped speed time gave give given giving actual actually really real
	instead rather then now change changed corrected correct correction or no not sorry oops meant mean make made meter metered meters spot reading reads read incident ev lv zone zones
	again second another after extra plus minus more less open opened closed close until became becomes reciprocity bulb both also twice doubled total altogether each every
	covered covering capped blocked masked shielded paused pause interrupted interruption shut waited waiting wait torch lamp lantern flash strobe cloud clouds
	shadow shadows highlight highlights factor filter filters bellows extension ext focal lens film iso asa ei din index rated placed falls fell fall bracket bracketed`)

// smallWords are too small to make prose of a stretch.
var smallWords = SetOf("the and with for about but off its this that was had has")
