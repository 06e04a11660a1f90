package compile

import (
	"fmt"
	"path"
	"slices"
	"strings"
	"unicode"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// reader reads one line's terms into a sheet. What the exposures of a line are
// depends on the words before them: a light value or a placed reading is what
// was metered, settings are what was given, unless "metered" stands before.
type reader struct {
	*resolver
	sheet      *sheet
	st         *lang.Statement
	metering   bool // a meter line: all exposures are readings
	amending   bool
	ownReading bool    // the line has a reading of its own
	indexed    float64 // the index that the line says the meter stood at, before its reading
	indexedAt  source.Span
	open       opening
	inReading  bool // behind "metered", "incident", "average"
	gave       bool
	gotAv      source.Span
	gotTime    source.Span
	gotN       source.Span
	hadOn      []*use         // the filters before those of the last term
	led        *lang.Exposure // the reading that a zone stood before, and the zone
	leads      float64
	zoned      string // a zone before the line's readings that none of them followed at once
	zonedOn    float64
	by         *meter // the meter that the line's readings are by, nil where none is named
	dropNext   bool   // the words before say that the filters of the next term are off: took off the yellow
	nth, of    int    // which of the line's sheets this is, from 1, and how many there are
}

func (t *reader) read() {
	all := t.standing()
	for _, term := range all {
		if same, ok := term.Kind.(*lang.Same); ok && !afterStop(term.Span) {
			t.same(same, term)
		}
	}
	for i, term := range all {
		t.term(all, i, term)
	}
	if t.sheet.wanted.known {
		t.developmentSaid(all)
	}
}

// afterStop reports whether a stretch begins a sentence of prose: "f22. Same
// boulder" copies nothing.
func afterStop(at source.Span) bool {
	before := strings.TrimRight(string(at.File.Text[max(0, at.Start-4):at.Start]), " \t")
	return strings.HasSuffix(before, ".") && at.Text() != "" && at.Text()[0] == 'S'
}

// standing is the terms that are neither struck nor withdrawn; those that are
// go into the history.
func (t *reader) standing() []*lang.Term {
	kept := make([]*lang.Term, 0, len(t.st.Terms))
	for i := 0; i < len(t.st.Terms); i++ {
		term := &t.st.Terms[i]
		withdraw, isWithdraw := term.Kind.(*lang.Withdraw)
		nth, isNth := term.Kind.(*lang.Nth)
		switch {
		case isNth:
			if !t.meant(nth) {
				i++ // said of another sheet of the line
			}
		case term.Unread:
			t.sheet.unclear = "what " + term.Span.Text() + " is"
			t.sheet.remarks = append(t.sheet.remarks, term.Span.Text())
		case term.Struck:
			t.struck(term.Span.Text(), "", "struck", term.Span)
		case isWithdraw && withdraw.After:
			if i+1 < len(t.st.Terms) {
				i++
				t.struck(t.st.Terms[i].Span.Text(), "", "withdrawn", t.st.Terms[i].Span)
			}
		case isWithdraw && noReading(t.st.Terms[i:]):
			i++
			t.sheet.remarks = append(t.sheet.remarks, term.Span.Cover(t.st.Terms[i].Span).Text())
		case isWithdraw:
			kept = t.takeBack(kept, next(t.st.Terms, i))
		default:
			kept = append(kept, term)
		}
	}
	return kept
}

// noReading reports whether "no meter" or "not metered" begins here: it takes
// nothing back.
func noReading(terms []lang.Term) bool {
	said := strings.ToLower(terms[0].Span.Text())
	if said != "no" && said != "not" || len(terms) < 2 {
		return false
	}
	if _, cue := terms[1].Kind.(*lang.Cue); !cue {
		return false
	}
	if len(terms) > 2 {
		_, reads := terms[2].Kind.(*lang.Exposure)
		return !reads
	}
	return true
}

// meant reports whether "second" or "last" means this sheet of the line.
func (t *reader) meant(n *lang.Nth) bool {
	return int(n.Sheet) == t.nth || n.Sheet == -1 && t.nth == t.of
}

func next(all []lang.Term, i int) *lang.Term {
	for i++; i < len(all); i++ {
		if _, comma := all[i].Kind.(*lang.Comma); !comma {
			return &all[i]
		}
	}
	return nil
}

// takeBack withdraws what stands before "no": of a pair of settings the one
// that is written anew, else the term.
func (t *reader) takeBack(kept []*lang.Term, instead *lang.Term) []*lang.Term {
	for n := len(kept) - 1; n >= 0; n-- {
		if _, comma := kept[n].Kind.(*lang.Comma); comma {
			continue
		}
		now := ""
		if instead != nil {
			now = instead.Span.Text()
			if pair, part := halve(kept[n], instead); pair != nil {
				t.struck(part, now, "withdrawn", kept[n].Span)
				kept[n] = pair
				return kept
			}
		}
		t.struck(kept[n].Span.Text(), now, "withdrawn", kept[n].Span)
		return append(kept[:n:n], kept[n+1:]...)
	}
	return kept
}

// halve leaves of a pair of settings the part that the new term does not
// replace.
func halve(pair, instead *lang.Term) (rest *lang.Term, part string) {
	was, ok := pair.Kind.(*lang.Exposure)
	now, fine := instead.Kind.(*lang.Exposure)
	if !ok || !fine || len(was.Parts) != 2 || len(now.Parts) != 1 {
		return nil, ""
	}
	half := *was
	half.Parts = nil
	for i := range was.Parts {
		if (was.Parts[i].Aperture != nil) == (now.Parts[0].Aperture != nil) {
			part = settingText(&was.Parts[i])
		} else {
			half.Parts = append(half.Parts, was.Parts[i])
		}
	}
	term := *pair
	term.Kind = &half
	return &term, part
}

func settingText(s *lang.Setting) string {
	if s.Aperture != nil {
		return apertureText(*s.Aperture)
	}
	return givenTime(*s.Time)
}

func (t *reader) struck(was, now, how string, at source.Span) {
	if t.amending && how == "withdrawn" {
		return // the amendment says both
	}
	t.sheet.history = append(t.sheet.history, record.Change{Was: was, Now: now, How: how, Place: placeOf(at)})
}

func (t *reader) term(all []*lang.Term, i int, term *lang.Term) {
	sh := t.sheet
	if term.Doubtful {
		sh.doubts = append(sh.doubts, term.Span)
	}
	if term.Unread && sh.unclear == "" {
		sh.unclear = "what " + term.Span.Text() + " is"
	}
	switch k := term.Kind.(type) {
	case *lang.Cue:
		t.cue(k, all, i)
	case *lang.Exposure:
		t.exposure(k, term, all, i)
	case *lang.Sunny16:
		var also string
		if t.ownReading && len(sh.reading.areas) > 0 {
			also = "whether " + sh.reading.at.Text() + " or sunny 16 was followed"
		}
		t.ownReading = true
		sh.reading = &reading{kind: "sunny 16", at: term.Span, doubtful: term.Doubtful, open: also}
	case *lang.MeterEI:
		if !t.filmAt(float64(k.EI), term, all, i) {
			t.meterEI(float64(k.EI), term)
		}
	case *lang.ISO:
		if !t.metering && !t.ofReading(all, i, true) {
			t.stray(term)
			return
		}
		t.meterEI(float64(k.Speed), term)
	case *lang.FilmEI:
		if t.metering || t.ofReading(all, i, false) {
			t.meterEI(float64(k.EI), term)
			return
		}
		sh.ei = known(float64(k.EI), term.Span, term.Doubtful)
	case *lang.Stack:
		if t.dropNext {
			t.dropNext = false
			for _, f := range k.Filters {
				t.drop(sh, f.Name)
			}
			return
		}
		if t.inProse(k, term, all, i) {
			return
		}
		if t.besideFilter(all, i) && !k.Add {
			both := *k
			both.Add = true
			t.filterTerm(sh, &lang.Term{Kind: &both, Span: term.Span})
			return
		}
		t.filterTerm(sh, term)
	case *lang.Drop:
		if thingBehind(all, i) && k.What != "filter" && len(sh.filters) > 0 {
			sh.vague = term.Span.Text() + " …" // no yellow leaves left
			return
		}
		t.filterTerm(sh, term)
	case *lang.Extension:
		sh.drawn()
		sh.extension = known(float64(k.MM), term.Span, term.Doubtful)
	case *lang.Magnification:
		sh.drawn()
		sh.scale = known(float64(k.M), term.Span, term.Doubtful)
		text, loose := strings.ToLower(term.Span.Text()), looseText(before(all, i))
		if strings.Contains(text, "life") && besideWords(all, i) || text[0] >= '0' && text[0] <= '9' && loose != "" && !ofScale[strings.ToLower(lastWord(loose))] {
			sh.doubts = append(sh.doubts, term.Span) // of the statue, or a slope of 1:4
		}
	case *lang.Focus:
		sh.drawn()
		sh.focus = known(float64(k.MM), term.Span, term.Doubtful)
	case *lang.FocusSpread:
		sh.spread = float64(k.MM)
	case *lang.Near:
		sh.near = float64(k.MM)
	case *lang.Far:
		sh.far = float64(k.MM)
	case *lang.Bellows:
		sh.bellows = known(k.Amount, term.Span, term.Doubtful)
	case *lang.Movement:
		sh.movements = append(sh.movements[:len(sh.movements):len(sh.movements)], k.Text)
	case *lang.Bracket:
		sh.bracket = known(float64(k.Stops), term.Span, term.Doubtful)
	case *lang.N:
		t.wants(k, term, looseText(before(all, i)))
	case *lang.Hold:
		sh.hold = true
	case *lang.State:
		if !term.Doubtful { // "unused?" is no state
			sh.states = append(sh.states, k.Word)
		}
	case *lang.Amount:
		if !t.lightChanged(k, term, all, i) {
			t.more(k, term)
		}
	case *lang.Placed:
		if led := t.ledTo(all, i); led != nil {
			t.led, t.leads = led, float64(k.Zone)
			return
		}
		words := looseText(before(all, i))
		if t.st.Word == lang.Sheet {
			words = strings.TrimSpace(words + " " + looseText(after(all, i))) // zone III shadow
		}
		t.place(float64(k.Zone), term, words)
	case *lang.Falls:
		sh.remarks = append(sh.remarks, term.Span.Text())
		if rd := sh.reading; rd != nil && len(rd.areas) > 0 && (t.metering || t.ownReading) && !term.Doubtful {
			rd.areas[len(rd.areas)-1].falls = known(float64(k.Zone), term.Span, false)
		}
	case *lang.Loss:
		sh.losses = append(sh.losses, k.Word)
	case *lang.Filed:
		sh.filed.sleeve, sh.filed.sleeveAt = k.Place, term.Span
	case *lang.Scanned:
		t.scanned(k.Path, term.Span)
	case *lang.Negative:
		if !t.metering {
			t.resolver.number(sh, k.Number, term.Span, t.st.Word == lang.Amend)
			sh.fieldNumber = sh.fieldNumber || t.st.Word == lang.Sheet
		}
	case *lang.Densitometer:
		t.densityOf(sh, k, term)
	case *lang.LuxSeconds:
		sh.lux = known(float64(k.H), term.Span, term.Doubtful)
	case *lang.Spot:
		t.patchOf(sh, k, term)
	case *lang.Clock:
		t.hours(k, term, all, i)
	case *lang.Sum:
		sh.sums = append(sh.sums, k)
	case *lang.Remark:
		sh.remarks = append(sh.remarks, k.Text)
		if coversLens(strings.ToLower(k.Text)) {
			sh.covered = k.Text
		}
	case *lang.Loose:
		t.loose(k, term, all, i)
	case *lang.Choose:
		t.choose(k, term)
	case *lang.Bare:
		sh.unclear = "what " + term.Span.Text() + " is"
	case *lang.Comma, *lang.Same, *lang.Arrow:
	default:
		t.stray(term)
	}
}

// ofReading reports whether an index is that of the reading before it: right behind it, or
// for a speed that is not said to be the film's (apart) anywhere before what was given.
func (t *reader) ofReading(all []*lang.Term, i int, apart bool) bool {
	if k, ok := before(all, i).(*lang.Exposure); ok && (k.EV != nil || k.Zone != nil) {
		return true
	}
	_, behind := before(all, i).(*lang.Exposure)
	return t.ownReading && t.inReading && !t.gave && (apart || behind && t.readingDone() && t.gotAv.File == nil && t.gotTime.File == nil)
}

// besideFilter reports whether nothing but commas stands between a filter and
// the one named before it: then both are on the lens.
func (t *reader) besideFilter(all []*lang.Term, i int) bool {
	for i--; i >= 0; i-- {
		switch all[i].Kind.(type) {
		case *lang.Comma:
		case *lang.Stack:
			return !t.amending
		default:
			return false
		}
	}
	return false
}

// wants is the development that is asked for. A second on the line is a slip that only
// the writer can settle, unless the line says that it is what was asked for before.
func (t *reader) wants(k *lang.N, term *lang.Term, said string) {
	if words := strings.Fields(strings.ToLower(said)); len(words) > 0 && (words[len(words)-1] == "was" || words[len(words)-1] == "were") {
		t.struck(term.Span.Text(), "", "withdrawn", term.Span)
		return
	}
	n := known(float64(k.Stops), term.Span, term.Doubtful)
	if t.gotN.File != nil && n.v != t.sheet.wanted.v {
		t.another("developments", t.gotN, term)
		return
	}
	t.gotN, t.sheet.wanted = term.Span, n
}

// place takes a zone that stands away from its reading, as in "metered 1/60 f16,
// shadow on III", or places the reading of the scene anew for this sheet, "shadow on IV".
// Of several readings it is not known which is meant.
func (t *reader) place(zone float64, term *lang.Term, words string) {
	sh := t.sheet
	sh.remarks = append(sh.remarks, term.Span.Text())
	if !t.ownReading {
		t.zoned, t.zonedOn = term.Span.Text(), zone
	}
	if sh.reading == nil || sh.reading.kind == "sunny 16" {
		return
	}
	at, ok := sh.reading.meant(words)
	if ok && !t.ownReading && !t.metering && len(sh.reading.areas) == 1 && !sh.reading.areas[0].placed && sh.reading.areas[0].name == "" &&
		slices.ContainsFunc(strings.Fields(words), func(w string) bool { return !connective[w] && !placing[w] }) {
		own := *sh.reading // of the scene: it names no place, and whether these words mean it is not said
		own.open = "whether the reading was placed: " + words + " " + term.Span.Text()
		sh.reading = &own
		return
	}
	if !ok || sh.reading.kind == "average" {
		sh.unclear = "which reading stands " + term.Span.Text()
		return
	}
	own := *sh.reading // the scene's is left as it is
	own.areas = slices.Clone(own.areas)
	own.areas[at].placed, own.areas[at].zone = true, zone
	if own.kind == "plain" {
		own.kind = "spot"
	}
	sh.reading = &own
}

// ledTo is the reading that a zone stands before: zone III EV 10, zone III at 1/15 f8; nil
// where none follows at once, or that has a zone of its own.
func (t *reader) ledTo(all []*lang.Term, i int) *lang.Exposure {
	for i++; i < len(all); i++ {
		switch k := all[i].Kind.(type) {
		case *lang.Loose:
			if slices.ContainsFunc(k.Words, func(w string) bool { return !connective[w] }) {
				return nil
			}
		case *lang.Exposure:
			if k.Zone == nil && (k.EV != nil || t.metering) {
				return k
			}
			return nil
		default:
			return nil
		}
	}
	return nil
}

// meant is the area that a zone away from its reading is said of: the one that the words
// before it name, else the only one, else the only one that is placed.
func (rd *reading) meant(words string) (at int, ok bool) {
	placed := -1
	for i := range rd.areas {
		a := &rd.areas[i]
		if _, named := cutWords(strings.ToLower(words), strings.ToLower(a.name)); named {
			return i, true
		}
		if a.placed {
			if placed >= 0 {
				return 0, false
			}
			placed = i
		}
	}
	switch {
	case len(rd.areas) == 1:
		return 0, true
	case slices.ContainsFunc(strings.Fields(words), func(w string) bool { return !connective[w] && !placing[w] }):
		return 0, false // an area that was not metered
	}
	return placed, placed >= 0
}

// placing are words that lead to a zone and name no area.
var placing = map[string]bool{"placed": true, "place": true, "put": true, "now": true, "instead": true, "moved": true, "it": true, "them": true, "this": true, "rather": true, "again": true}

// stray is a term that means nothing on this line; it is kept and said. What a
// figure on a sheet's line was meant for may be all that explains the sheet.
func (t *reader) stray(term *lang.Term) {
	text := term.Span.Text()
	t.sheet.remarks = append(t.sheet.remarks, text)
	f := t.report("unknown-term", term.Span, fmt.Sprintf("%s has no meaning in a %s line", quote(text), t.st.Word), t.real()...)
	switch k := term.Kind.(type) {
	case *lang.Millimetres:
		f.note("the bellows are written ext " + strings.TrimSpace(text))
		t.sheet.unclear = "what " + text + " is"
	case *lang.Amount:
		if k.Factor != nil {
			f.note("several exposures are a whole number, 4 x 1s; a time that was lengthened is written 10s -> 45s")
		}
		switch {
		case k.Stops != nil && t.metering:
			f.note("a reading is placed with its zone: EV 10 on III")
		case k.Stops != nil:
			f.note("more or less on purpose is written bracket " + strings.TrimSpace(exposure.FormatStops(float64(*k.Stops))))
		}
		t.sheet.unclear = "what " + text + " is"
	case *lang.ISO:
		t.sheet.unclear = "whose index " + text + " is: the film's EI " + trim(float64(k.Speed)) + ", or the meter's at EI " + trim(float64(k.Speed))
		f.note("the film's index is written EI " + trim(float64(k.Speed)) + ", the meter's at EI " + trim(float64(k.Speed)))
	}
}

// real is the sheet for a finding, where the line is a sheet's.
func (t *reader) real() []*sheet {
	if t.sheet.label == "" {
		return nil
	}
	return []*sheet{t.sheet}
}

// more is "second +1": one sheet of the line got so much more on purpose, past
// the settings that are written for all.
func (t *reader) more(k *lang.Amount, term *lang.Term) {
	if k.Stops == nil || t.of < 2 {
		t.stray(term)
		return
	}
	t.sheet.bracket = known(float64(*k.Stops), term.Span, term.Doubtful)
	t.sheet.extra = float64(*k.Stops)
}

// loose words are a remark; "as metered" and "gave that" take the reading.
func (t *reader) loose(k *lang.Loose, term *lang.Term, all []*lang.Term, i int) {
	words := strings.ToLower(strings.Join(k.Words, " "))
	if term.Aside {
		t.sheet.aside = term.Span.Text()
		t.sheet.remarks = append(t.sheet.remarks, term.Span.Text())
		return
	}
	if t.ofFilters(k.Words, term, all, i) {
		return
	}
	if m, ok := find(t.book.kit.meters, strings.Join(k.Words, " ")); ok && t.ownReading && len(t.sheet.reading.areas) > 0 {
		rd := t.sheet.reading
		rd.areas[len(rd.areas)-1].by = m // EV 3, dslr
		rd.atMeters(term.Span)
	}
	if t.gave && (words == "that" || words == "it") {
		t.asMetered(term)
		return
	}
	if cue, ok := after(all, i).(*lang.Cue); ok && words == "as" && cue.Word == "metered" {
		t.asMetered(term)
		return
	}
	if term.Sic && strings.ContainsAny(words, "0123456789") && t.sheet.unclear == "" {
		t.sheet.unclear = "what " + quote(words) + " stands for, copied as it was written" // and no setting of another sheet is put there
	}
	if t.thing(k, term) {
		return
	}
	if namesScan(k.Words) && !t.metering {
		t.scanned(k.Words[1], term.Span)
		return
	}
	if rd := t.sheet.reading; rd != nil && t.ownReading && rd.open == "" {
		switch {
		case rd.kind == "sunny 16" && shadedSun().MatchString(words):
			rd.open = "what sunny 16 comes to in " + quote(words)
		case t.metering && (shifted().MatchString(words) || len(k.Words) == 1 && strings.Trim(k.Words[0], "IVX") == ""):
			rd.open = "whether the reading stands where it is, or " + quote(strings.Join(k.Words, " "))
		}
	}
	if unmeasured(words) {
		t.sheet.unlit = words
	}
	if term != t.open.told && t.open.coveredFor == "" && coversLens(words) && !timeFollows(all, i) {
		t.open.coveredFor = words
	}
	if manyTimes[strings.TrimPrefix(words, "exposed ")] {
		t.sheet.unclear = "how much light it got by " + quote(words)
	}
	if several[lastWord(words)] || len(k.Words) > 1 && several[strings.ToLower(k.Words[0])] || strings.Contains(words, "exposures") {
		t.sheet.vague = term.Span.Text()
	}
	if racked(k.Words) {
		t.sheet.racked = term.Span.Text()
	}
	if connective[words] {
		return
	}
	if words == "lost" || words == "sheet lost" || words == "negative lost" {
		t.sheet.losses = append(t.sheet.losses, "gone")
	}
	if unexposed[words] && (t.gotAv.File == nil || t.gotTime.File == nil) {
		t.sheet.states = append(t.sheet.states, "unused")
	}
	t.sheet.remarks = append(t.sheet.remarks, undashed(term.Span.Text()))
}

// What is said beside a reading of stops from it, and beside sunny 16 of less sun, changes what
// was followed (common practice, no source).
var (
	shadedSun = lang.Lazily(`\b(?:shade|shaded|shadow|overcast|cloud\w*|haz[ey]|hazy|mist|backlit|dusk|snow|beach)\b`)
	shifted   = lang.Lazily(`\b(?:one|two|three|four|half|a|\d) (?:stops?|zones?)? ?(?:down|below|under|less|lower|up|above|over|more|higher)\b|` +
		`\b(?:down|up|opened|closed|minus|plus|less|compensated)(?: by)? (?:a|one|two|three|four|half)\b`)
)

// several are words that make more of a time, or say that it was given more than once.
var several = setOf("twice thrice doubled tripled quadrupled halved")

// manyTimes are words that say so and nothing else.
var manyTimes = map[string]bool{"twice": true, "thrice": true, "doubled": true, "tripled": true, "halved": true, "two exposures": true, "three exposures": true, "three times": true, "four times": true}

// besideWords reports whether a term stands beside words, a comma between them or not.
func besideWords(all []*lang.Term, i int) bool {
	is := func(n int) (words, comma bool) {
		if n < 0 || n >= len(all) {
			return false, false
		}
		_, words = all[n].Kind.(*lang.Loose)
		_, comma = all[n].Kind.(*lang.Comma)
		return words, comma
	}
	for _, step := range [...]int{-1, 1} {
		words, comma := is(i + step)
		if comma {
			words, _ = is(i + 2*step)
		}
		if words {
			return true
		}
	}
	return false
}

// ofScale are words before a ratio that is the picture's.
var ofScale = setOf("at about close-up closeup up macro ratio repro reproduction copy copied now then to and")

// lastWord is the last of a text's words.
func lastWord(words string) string {
	return words[strings.LastIndexByte(words, ' ')+1:]
}

// undashed is a remark without the dash before it; a minus right before a figure is its own.
func undashed(text string) string {
	trimmed := strings.TrimLeft(text, "-–—− ")
	if sign := text[:len(text)-len(trimmed)]; trimmed != "" && trimmed[0] >= '0' && trimmed[0] <= '9' && sign != "" && !strings.HasSuffix(sign, " ") {
		return sign[strings.LastIndex(sign, " ")+1:] + trimmed
	}
	return trimmed
}

// scanned gives the sheet the file of its scan.
func (t *reader) scanned(name string, at source.Span) {
	ref := t.scanRef(name, at)
	ref.sheets = append(ref.sheets, t.sheet)
	t.sheet.scans = append(t.sheet.scans, ref)
}

// namesScan reports whether words are no more than the word for a scan and the file of a
// picture: scan: scans/3a.tif.
func namesScan(words []string) bool {
	if len(words) != 2 || !strings.EqualFold(words[0], "scan") && !strings.EqualFold(words[0], "scans") {
		return false
	}
	switch strings.ToLower(path.Ext(words[1])) {
	case ".tif", ".tiff", ".png", ".jpg", ".jpeg":
		return len(words[1]) > len(path.Ext(words[1]))
	}
	return false
}

// timeFollows reports whether a time stands right behind a term.
func timeFollows(all []*lang.Term, i int) bool {
	k, ok := after(all, i).(*lang.Exposure)
	return ok && len(k.Name) == 0 && len(k.Parts) == 1 && k.Parts[0].Time != nil
}

// connective are words between terms that say nothing by themselves.
var connective = map[string]bool{
	"but": true, "and": true, "with": true, "so": true, "then": true, "at": true, "for": true, "on": true, "the": true, "a": true, "-": true, ".": true,
}

// unexposed are words that say that no light came to the film.
var unexposed = map[string]bool{
	"not exposed": true, "unexposed": true, "never exposed": true, "not used": true, "blank": true, "void": true, "no exposure": true,
}

// racked reports words that speak of the bellows and do not say that nothing
// was done about them: "double extension", "bellows out a hand's width".
func racked(words []string) bool {
	speaks := false
	for _, word := range words {
		switch word = strings.ToLower(word); word {
		case "bellows", "extension", "extended", "racked":
			speaks = true
		case "forgot", "forgotten", "forget", "no", "not", "without", "never", "none", "missed", "ignored", "normal", "infinity", "checked",
			"tube", "hole", "pinhole", "leak", "leaking", "creased", "sagged", "sagging":
			return false
		}
	}
	return speaks && len(words) > 1
}

func setOf(words string) map[string]bool {
	all := map[string]bool{}
	for word := range strings.FieldsSeq(words) {
		all[word] = true
	}
	return all
}

// unmeasured reports light that no reading of the scene speaks of.
func unmeasured(words string) bool {
	for word := range strings.FieldsSeq(words) {
		switch word {
		case "flash", "strobe", "flashed", "pre-exposed", "preflashed", "pre-flashed", "preflash", "pre-flash":
			return true
		}
	}
	return false
}

// thing takes a declared film, lens or camera that stands by its name alone.
func (t *reader) thing(k *lang.Loose, term *lang.Term) bool {
	name := strings.Join(k.Words, " ")
	if f, ok := find(t.book.kit.films, name); ok {
		t.choose(&lang.Choose{Text: "film " + f.name}, term)
		return true
	}
	if l, ok := find(t.book.kit.lenses, name); ok {
		t.choose(&lang.Choose{Text: "lens " + l.name}, term)
		return true
	}
	return false
}

func after(all []*lang.Term, i int) any {
	if i+1 < len(all) {
		return all[i+1].Kind
	}
	return nil
}

// asMetered gives what the meter showed.
func (t *reader) asMetered(term *lang.Term) {
	if a := wholeReading(t.sheet.reading); a != nil {
		t.sheet.aperture = set(a.aperture, term.Span, false)
		t.sheet.time = set(lang.Time{Parts: []lang.Seconds{a.time}}, term.Span, false)
	}
}

// cue opens a reading or ends it.
func (t *reader) cue(k *lang.Cue, all []*lang.Term, i int) {
	switch k.Word {
	case "gave", "corrected":
		t.gave, t.inReading = true, false
		return
	case "metered":
		if loose, ok := before(all, i).(*lang.Loose); ok && strings.EqualFold(strings.Join(loose.Words, " "), "as") {
			return
		}
	}
	t.inReading = true
	if k.Word == "average" && t.ownReading {
		t.sheet.reading.kind = k.Word // behind the readings, as it is also said
		return
	}
	if !readsOn(all, i) {
		return // "metered at EI 100": the reading stays, its index is another
	}
	t.newReading(all[i].Span)
	switch k.Word {
	case "incident", "average":
		t.sheet.reading.kind = k.Word
	case "metered through":
		t.sheet.reading.through = true
	case "metered with":
		t.sheet.reading.maybeThrough = true
	}
}

func before(all []*lang.Term, i int) any {
	if i > 0 {
		return all[i-1].Kind
	}
	return nil
}

// readsOn reports whether an exposure follows a cue.
func readsOn(all []*lang.Term, i int) bool {
	for _, term := range all[i+1:] {
		switch k := term.Kind.(type) {
		case *lang.Exposure:
			return !lasting(k)
		case *lang.Cue:
			return false
		}
	}
	return false
}

// lasting reports whether a time alone stands behind words: reading steady for 5 min.
func lasting(k *lang.Exposure) bool {
	return k.EV == nil && len(k.Parts) == 1 && k.Parts[0].Time != nil && slices.ContainsFunc(k.Name, func(w string) bool { return strings.EqualFold(w, "for") || strings.EqualFold(w, "after") })
}

// newReading begins a reading of the line's own, once.
func (t *reader) newReading(at source.Span) {
	if t.ownReading {
		return
	}
	t.ownReading = true
	t.sheet.reading = &reading{kind: "plain", at: at, ei: t.indexed, eiAt: t.indexedAt}
}

// meterEI is the index that the meter stood at. A reading that other sheets
// share is copied first.
func (t *reader) meterEI(ei float64, term *lang.Term) {
	if t.sheet.reading == nil {
		t.sheet.reading = &reading{kind: "plain"}
	}
	own := *t.sheet.reading
	own.ei, own.eiAt, own.eiMeters = ei, term.Span, false
	t.sheet.reading = &own
	if !t.ownReading {
		t.indexed, t.indexedAt = ei, term.Span
	}
}

// filmAt takes the index behind a film's name for the film's: slate at EI 200.
func (t *reader) filmAt(ei float64, term *lang.Term, all []*lang.Term, i int) bool {
	ofFilm := false
	switch k := before(all, i).(type) {
	case *lang.Choose:
		ofFilm = strings.HasPrefix(k.Text, "film ")
	case *lang.Loose:
		_, ofFilm = find(t.book.kit.films, k.Words[len(k.Words)-1])
	}
	if ofFilm && !t.metering {
		t.sheet.ei = known(ei, term.Span, term.Doubtful)
	}
	return ofFilm && !t.metering
}

// exposure is a reading or a setting.
func (t *reader) exposure(k *lang.Exposure, term *lang.Term, all []*lang.Term, i int) {
	isReading := t.metering || k.Zone != nil || k.EV != nil && !t.gave
	if t.inReading && !t.gave && !isReading {
		isReading = !t.readingDone()
	}
	switch {
	case isReading && t.secondTime(k):
		t.sheet.remarks = append(t.sheet.remarks, term.Span.Text()) // the writer's own sum: metered 1s, 25s, gave 70s
	case isReading:
		t.metered(k, term)
	case t.beforeArrow(all, i):
		t.keepAperture(k, term, all, i)
		t.sheet.remarks = append(t.sheet.remarks, term.Span.Text()+" metered")
	default:
		if t.besides(k, term, all, i) {
			return
		}
		if t.has(k) && inDeveloper(k, all, i) {
			t.sheet.remarks = append(t.sheet.remarks, term.Span.Text())
			return
		}
		if len(k.Name) > 0 && !t.ofFilters(k.Name, term, all, i) {
			t.sheet.remarks = append(t.sheet.remarks, strings.Join(k.Name, " "))
			if words := strings.ToLower(strings.Join(k.Name, " ")); manyTimes[words] || slices.Contains(strings.Fields(words), "exposures") {
				t.sheet.unclear = "how much light it got by " + quote(words) // two exposures of 10s
			}
		}
		if loose, ok := before(all, i).(*lang.Loose); ok && len(loose.Words) > 1 && t.has(k) {
			t.sheet.remarks = append(t.sheet.remarks, term.Span.Text()) // someone walked through at about 20 secs
			if term.Doubtful {
				t.sheet.doubts = t.sheet.doubts[:len(t.sheet.doubts)-1]
			}
			return
		}
		t.settings(k, term)
		t.open.named = t.open.named || slices.ContainsFunc(k.Name, func(w string) bool { return !connective[strings.ToLower(w)] })
	}
}

// inDeveloper reports whether a second time is how long a sheet is developed: in a
// developer by its name, ash-11 9 min, or behind the development asked for, N-1 9 min.
func inDeveloper(k *lang.Exposure, all []*lang.Term, i int) bool {
	if len(k.Parts) != 1 || k.Parts[0].Time == nil || !strings.ContainsAny(strings.Join(k.Name, ""), "0123456789") && developmentBefore(all, i) < 0 {
		return false
	}
	const shortest = 150 // seconds
	total := 0.
	for _, part := range k.Parts[0].Time.Parts {
		total += part.Num / part.Den
	}
	return total >= shortest
}

// developmentBefore is where the development that is asked for stands before a term,
// with nothing but words between, -1 where it does not.
func developmentBefore(all []*lang.Term, i int) int {
	for i--; i >= 0; i-- {
		switch all[i].Kind.(type) {
		case *lang.N:
			return i
		case *lang.Comma, *lang.Loose, *lang.Remark:
		default:
			return -1
		}
	}
	return -1
}

// developmentSaid keeps what a line says of how a sheet is to be developed, beyond the
// amount: it goes on the list for the darkroom as it was typed.
func (t *reader) developmentSaid(all []*lang.Term) {
	for i, term := range all {
		at := developmentBefore(all, i)
		if at < 0 {
			continue
		}
		switch k := term.Kind.(type) {
		case *lang.Exposure:
			if !inDeveloper(k, all, i) {
				continue
			}
		case *lang.Loose:
			if !strings.ContainsAny(term.Span.Text(), "0123456789") {
				continue
			}
		default:
			continue
		}
		t.sheet.wantedSays = strings.TrimLeft(source.Span{File: term.Span.File, Start: all[at].Span.End, End: term.Span.End}.Text(), ", ")
	}
}

// secondTime reports whether a reading that has a time and no aperture is
// followed by another time: that is no part of it.
func (t *reader) secondTime(k *lang.Exposure) bool {
	rd := t.sheet.reading
	if t.metering || rd == nil || !t.ownReading || len(rd.areas) == 0 || len(k.Parts) != 1 || k.Parts[0].Time == nil {
		return false
	}
	last := rd.areas[len(rd.areas)-1]
	return !last.asEV && last.hasTime && !last.hasAv
}

// readingDone reports whether the reading that was begun needs no more.
func (t *reader) readingDone() bool {
	rd := t.sheet.reading
	if rd == nil || len(rd.areas) == 0 || rd.kind == "average" && !t.gave && t.metering {
		return false
	}
	return rd.areas[len(rd.areas)-1].complete()
}

// beforeArrow reports whether an arrow, or "corrected", follows: what stands before it is the
// time that the reading asked for, what stands behind it was given.
func (t *reader) beforeArrow(all []*lang.Term, i int) bool {
	n := behindCommas(all, i)
	if n == len(all) {
		return false
	}
	switch k := all[n].Kind.(type) {
	case *lang.Arrow:
		return !leadsAway(all, n)
	case *lang.Cue:
		then := givenThen(all, i)
		return k.Word == "corrected" && then != nil && slices.ContainsFunc(then.Parts, func(p lang.Setting) bool { return p.Time != nil })
	}
	return false
}

// leadsAway reports whether an arrow leads to no setting, but to where the negative went, or
// what became of it: → binder 3 p 2, → N-1, → notes/gate.md.
func leadsAway(all []*lang.Term, i int) bool {
	switch k := after(all, i).(type) {
	case *lang.Filed, *lang.Scanned, *lang.N, *lang.Hold, *lang.Negative, *lang.State, *lang.Densitometer:
		return true
	case *lang.Loose:
		return slices.ContainsFunc(k.Words, func(word string) bool { return isPath(word) || kept[strings.ToLower(word)] })
	}
	return false
}

// kept are words for where a negative goes, or for what is said of it elsewhere (common
// practice, no source).
var kept = setOf("see file filed archive archived scan scanned scans binder box page drawer tray sleeve lab print printed notes")

// isPath reports whether a word is a file's: folders, or an ending of letters.
func isPath(word string) bool {
	ending := strings.TrimPrefix(path.Ext(word), ".")
	stem := strings.TrimSuffix(word, path.Ext(word))
	letters := func(s string) bool {
		return strings.ContainsFunc(s, unicode.IsLetter)
	}
	folder, name, within := strings.Cut(word, "/")
	return len(ending) >= 2 && stem != "" && letters(ending) || within && letters(folder) && letters(name)
}

// behindCommas is where the term stands that follows the ith, commas aside.
func behindCommas(all []*lang.Term, i int) int {
	for i++; i < len(all); i++ {
		if _, comma := all[i].Kind.(*lang.Comma); !comma {
			break
		}
	}
	return i
}

// givenThen is what stands behind the arrow, or "corrected", that follows the ith term.
func givenThen(all []*lang.Term, i int) *lang.Exposure {
	for i = behindCommas(all, i); i < len(all); i = behindCommas(all, i) {
		switch k := all[i].Kind.(type) {
		case *lang.Exposure:
			return k
		case *lang.Arrow, *lang.Cue:
		default:
			return nil
		}
	}
	return nil
}

// keepAperture keeps the aperture of "f22 8s -> 15s", which is given for both.
func (t *reader) keepAperture(k *lang.Exposure, term *lang.Term, all []*lang.Term, i int) {
	if then := givenThen(all, i); then != nil && len(then.Parts) != 1 {
		return
	}
	for n := range k.Parts {
		if a := k.Parts[n].Aperture; a != nil && t.gotAv.File == nil {
			t.gotAv = term.Span
			t.sheet.aperture = set(*a, term.Setting(n), term.Doubtful)
		}
	}
}

// metered adds an area to the line's reading.
func (t *reader) metered(k *lang.Exposure, term *lang.Term) {
	t.newReading(term.Span)
	rd := t.sheet.reading
	rd.at = rd.at.Cover(term.Span)
	rd.doubtful = rd.doubtful || term.Doubtful
	if rd.kind == "sunny 16" {
		rd.open = "whether " + term.Span.Text() + " or sunny 16 was followed"
	}
	name, by := t.byMeter(k.Name)
	a := area{name: name, by: by, at: term.Span}
	if n := len(rd.areas); n > 0 && !rd.areas[n-1].complete() && k.EV == nil {
		a = rd.areas[n-1] // the other half of a pair, behind a comma
		rd.areas = rd.areas[:n-1]
		a.at = a.at.Cover(term.Span)
	}
	if k.EV != nil {
		a.asEV, a.ev = true, float64(*k.EV)
	}
	for i := range k.Parts {
		t.part(&a, &k.Parts[i])
		if time := k.Parts[i].Time; time != nil && (time.Count != nil || time.Again != nil) {
			rd.open = "what " + term.Span.Text() + " is" // a meter shows one time
		}
	}
	if k.Zone != nil {
		a.placed, a.zone = true, float64(*k.Zone)
		rd.kind = "spot"
	} else if t.led == k {
		a.placed, a.zone = true, t.leads
	}
	if t.zoned != "" && !(a.placed && a.zone == t.zonedOn) {
		rd.open = "which reading stands " + t.zoned
	}
	t.zoned = ""
	if a.name != "" && strings.Trim(a.name, "IVX") == "" {
		rd.open = "whether " + a.name + " is the zone of " + term.Span.Text() // III EV 10
	}
	rd.areas = append(rd.areas, a)
	rd.atMeters(term.Span)
	if rd.kind == "plain" && (a.placed || len(rd.areas) > 1) {
		rd.kind = "spot"
	}
}

// atMeters takes the index of the meter that all areas are by, where it has one of its
// own and the line says no other.
func (rd *reading) atMeters(at source.Span) {
	by := rd.areas[0].by
	alike := !slices.ContainsFunc(rd.areas, func(a area) bool { return a.by != by })
	switch {
	case alike && by != nil && by.ei != 0 && rd.ei == 0:
		rd.ei, rd.eiAt, rd.eiMeters = by.ei, at, true
	case !alike && rd.eiMeters:
		rd.ei, rd.eiMeters = 0, false
	}
}

// byMeter is a reading's name without the meter that it begins with, and that meter: dslr
// EV 3, shadow by the dslr EV 3.
func (t *reader) byMeter(words []string) (name string, by *meter) {
	for i, word := range words {
		m, ok := find(t.book.kit.meters, word)
		if !ok {
			continue
		}
		from := i
		for from > 0 && byWords[strings.ToLower(words[from-1])] {
			from--
		}
		return strings.Join(append(slices.Clone(words[:from]), words[i+1:]...), " "), m
	}
	return strings.Join(words, " "), t.by
}

// byWords stand before the meter that a reading is by.
var byWords = setOf("by with from on via using the my")

// part takes one half of a metered pair of settings.
func (t *reader) part(a *area, s *lang.Setting) {
	if s.Aperture != nil {
		a.aperture = *s.Aperture
		a.av, a.hasAv = apertureAv(*s.Aperture)
	} else if len(s.Time.Parts) > 0 {
		a.time = s.Time.Parts[0]
		a.seconds, a.hasTime = exposure.TimeSeconds(a.time.Num, a.time.Den)
	}
	if a.hasAv && a.hasTime {
		a.ev = exposure.EV(a.av, a.seconds)
	}
}

// settings takes what was given. A second aperture or time on one line is a
// slip that only the writer can settle, and the first stands.
func (t *reader) settings(k *lang.Exposure, term *lang.Term) {
	for i := range k.Parts {
		part := &k.Parts[i]
		if part.Aperture != nil {
			if t.gotAv.File != nil {
				t.another("apertures", t.gotAv, term)
				continue
			}
			t.gotAv = term.Span
			t.sheet.aperture = set(*part.Aperture, term.Setting(i), term.Doubtful)
			continue
		}
		if t.gotTime.File != nil {
			t.another("times", t.gotTime, term)
			continue
		}
		t.gotTime = term.Span
		t.sheet.time = set(*part.Time, term.Setting(i), term.Doubtful)
	}
}

// has reports whether the line has all settings already that an exposure names.
func (t *reader) has(k *lang.Exposure) bool {
	for i := range k.Parts {
		if k.Parts[i].Aperture != nil && t.gotAv.File == nil || k.Parts[i].Time != nil && t.gotTime.File == nil && len(t.open.stretches) == 0 {
			return false
		}
	}
	return len(k.Parts) > 0
}

// another reports a second setting. "f16 ½ ... 1/30" is half a stop past f/16
// written with a blank.
func (t *reader) another(what string, first source.Span, second *lang.Term) {
	if t.sheet.unclear != "" || t.open.coveredFor != "" {
		return // one slip, one finding
	}
	t.sheet.leaveOpen(strings.TrimSuffix(what, "s"), "which of the two "+what+" stands")
	f := t.report("two-settings", second.Span, "two "+what+" on one line", t.real()...)
	t.sheet.slip = len(t.found)
	mark, part, blank := cutLast(first.Text())
	switch {
	case blank && what == "times" && isPart(part) && strings.HasPrefix(strings.ToLower(mark), "f"):
		// "f16 ½ ... 1/30" is half a stop past f/16 written with a blank.
		f.note(fmt.Sprintf("%s with a blank is an aperture and a time; %s%s is an aperture between two stops", first.Text(), mark, partSign(part)), first)
		if !second.Doubtful { // 1/2 or was it 1/4?
			f.Fix = &diag.Fix{Span: first, Text: mark + partSign(part)}
		}
		return
	case what == "times" && isPart(second.Span.Text()):
		f.note("between two stops an aperture is written without a blank: f16" + partSign(second.Span.Text()))
	}
	f.note("the first stands until one of the two is struck out: ~~"+second.Span.Text()+"~~", first)
}

// cutLast cuts a text at its last blank.
func cutLast(text string) (before, after string, ok bool) {
	i := strings.LastIndexByte(strings.TrimSpace(text), ' ')
	if i < 0 {
		return text, "", false
	}
	return strings.TrimSpace(text[:i]), strings.TrimSpace(text[i:]), true
}

// parts are the fractions of a stop, as they are typed.
var parts = map[string]string{"1/2": "½", "1/3": "⅓", "2/3": "⅔", "1/4": "¼", "3/4": "¾"}

func isPart(text string) bool { return parts[text] != "" || strings.Trim(text, "½⅓⅔¼¾") == "" }

func partSign(text string) string {
	if sign := parts[text]; sign != "" {
		return sign
	}
	return text
}

// same copies another sheet: what it saw and how it was set, not what happened
// to it.
func (t *reader) same(k *lang.Same, term *lang.Term) {
	from := t.last()
	if k.Label != "" {
		from = t.named(k.Label)
	}
	if from == nil {
		t.report("no-such-sheet", term.Span, "there is no sheet before this one to copy", t.real()...)
		if k.Label != "" {
			t.sheet.unclear = "the sheet that it copies"
		}
		return
	}
	sh := t.sheet
	sh.sameAs = from
	sh.scene = from.scene
	sh.reading, sh.light, sh.former = from.reading, from.light, from.former
	sh.lens, sh.camera = from.lens, from.camera
	if sh.loadedFilm == "" {
		sh.film = from.film
	}
	sh.ei, sh.extension, sh.scale, sh.focus, sh.bellows = from.ei, from.extension, from.scale, from.focus, from.bellows
	sh.wanted, sh.movements = from.wanted, from.movements
	sh.vague, sh.strange, sh.racked = from.vague, from.strange, from.racked
	sh.aperture, sh.time = from.aperture, from.time
	sh.aperture.copied, sh.time.copied = true, true
	sh.filters = nil
	for _, u := range from.filters {
		if !u.always {
			sh.filters = append(sh.filters, u)
		}
	}
}

// last is the sheet logged before on the same outing.
func (t *reader) last() *sheet {
	if n := len(t.sheets); n > 0 && t.sheets[n-1].outing == t.sheet.outing {
		return t.sheets[n-1]
	}
	return nil
}

// choose takes another lens, film, camera or light for this sheet only.
func (t *reader) choose(k *lang.Choose, term *lang.Term) {
	what, name, _ := strings.Cut(k.Text, " ")
	ok := true
	sh := t.sheet
	switch what {
	case "lens":
		if sh.lens.v, ok = find(t.book.kit.lenses, name); !ok && len(t.book.kit.lenses) == 0 {
			sh.lens.v, ok = t.unknownLens(name), true
		}
		sh.lens.known, sh.lens.at = ok, term.Span
	case "film":
		if sh.film.v, ok = find(t.book.kit.films, name); !ok && len(t.book.kit.films) == 0 {
			sh.film.v, ok = t.unknownFilm(name), true
		}
		sh.film.known, sh.film.at = ok, term.Span
		if t.st.Span.Cover(sh.ei.at) != t.st.Span {
			sh.ei = value[float64]{} // was said with the film that it is not
		}
		if ok && sh.loadedFilm != "" && !strings.EqualFold(sh.loadedFilm, sh.film.v.name) {
			t.report("film-in-holder", term.Span, fmt.Sprintf("%s is logged with %s, but %s was loaded", sh.label, name, sh.loadedFilm), t.real()...).
				note("the sheet is checked as "+name, term.Span).
				note("loaded here", t.loadOf(sh))
		}
	case "camera":
		sh.camera.v, ok = find(t.book.kit.cameras, name)
		sh.camera.known, sh.camera.at = ok, term.Span
	case "light":
		if changeIn(k.Text) != 0 {
			sh.remarks = append(sh.remarks, term.Span.Text()) // light going: the one that was metered
			return
		}
		sh.light, sh.former = name, lightLine{}
	case "scene":
		sh.title = name
	}
	if !ok {
		t.undeclared(what, name, term.Span)
	}
}

// filterTerm puts filters on or takes them off. A filter named alone replaces
// all; with a plus it comes on top.
func (t *reader) filterTerm(sh *sheet, term *lang.Term) {
	switch k := term.Kind.(type) {
	case *lang.Drop:
		t.drop(sh, k.What)
	case *lang.Stack:
		t.hadOn = sh.filters
		sh.vague, sh.strange = "", false
		var on []*use
		if k.Add {
			on = append(on, sh.filters...)
		}
		for _, f := range k.Filters {
			on = append(on, &use{name: f.Name, amounts: f.Amounts, at: term.Span})
		}
		sh.filters = on
	}
}

// drawn drops what was known of the bellows: each way to say it replaces the
// others.
func (sh *sheet) drawn() {
	sh.extension, sh.scale, sh.focus, sh.bellows = value[float64]{}, value[float64]{}, value[float64]{}, value[lang.Amount]{}
}

func (t *reader) drop(sh *sheet, what string) {
	switch what {
	case "filter":
		sh.filters, sh.vague, sh.strange = nil, "", false
	case "ext", "bellows":
		sh.drawn()
		sh.racked = ""
	case "rise", "fall", "shift", "tilt", "swing":
		var kept []string
		for _, m := range sh.movements {
			if !strings.Contains(strings.ToLower(m), what) {
				kept = append(kept, m)
			}
		}
		sh.movements = kept
	default:
		var kept []*use
		for _, u := range sh.filters {
			if !t.oneFilter(u.name, what) {
				kept = append(kept, u)
			}
		}
		sh.filters = kept
	}
}

// oneFilter reports whether a filter that is on may be called so: by its name, its
// number or its colour.
func (t *reader) oneFilter(on, called string) bool {
	f, entry, ok := t.book.kit.filter(on)
	other, _, _ := t.book.kit.filter(called)
	switch {
	case strings.EqualFold(on, called), f != nil && f == other:
		return true
	case handbook.NumberOf(on) != "" && handbook.NumberOf(on) == handbook.NumberOf(called):
		return true
	case f != nil && f.colour != "" && f.colour == strings.ToLower(called):
		return true
	}
	return ok && entry.Number != "" && !strings.ContainsAny(called, "0123456789") && entry.Called(called)
}

// said is a sheet's settings and reading in a few words, for its history.
func (r *resolver) said(sh *sheet) string {
	var all []string
	for _, u := range sh.filters {
		all = append(all, u.name)
	}
	if sh.time.known {
		all = append(all, givenTime(sh.time.v))
	}
	if sh.aperture.known {
		all = append(all, apertureText(sh.aperture.v))
	}
	if sh.extension.known {
		all = append(all, "ext "+trim(exposure.Round(sh.extension.v))+" mm")
	}
	if sh.wanted.known {
		all = append(all, nText(sh.wanted.v))
	}
	if sh.reading != nil && sh.reading.ei != 0 {
		all = append(all, "metered at EI "+trim(sh.reading.ei))
	}
	return strings.Join(all, " ")
}

// loadOf is where the film was loaded that a sheet has from its side.
func (t *reader) loadOf(sh *sheet) source.Span {
	if held := t.holders[strings.ToLower(sh.label)]; held != nil && held.load != nil {
		return held.load.Span
	}
	return source.Span{}
}
