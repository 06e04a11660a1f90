package lang

import (
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"notchbook/lang/diag"
	"notchbook/lang/pattern"
)

// Prose that says in a few words what holds for more than the sheet beside it: Filter Y8 throughout;
// bellows for these: 297; the meter had been at ISO 320 all morning.

// standing is such a line. Most prose tells of subjects, so that every word of it must be one that such
// lines have, and what it says must not stand on the log lines around it.
func (l *doubtful) standing() (diag.Diagnostic, bool) {
	text := strings.TrimRight(bulleted(l.text), " .!")
	heads := headsSheets().MatchString(lower(text))
	text = strings.TrimRight(text, ": ")
	if text == "" || text[0] == '#' || text[0] == '|' || len(strings.Fields(text)) > shortLine || strings.ContainsAny(text, `"?&`) {
		return diag.Diagnostic{}, false
	}
	low := lower(text)
	if d, ok := l.meterSet(text, low); ok {
		return d, true
	}
	if d, ok := l.lensAlone(low); ok {
		return d, true
	}
	stretch, owns, gear := overStretch().MatchString(low), ownsUp().MatchString(low), gearBefore().MatchString(low)
	if !stretch && !owns && !gear && !heads {
		return diag.Diagnostic{}, false // as nearly all
	}
	s := l.bench.scan(text, 0, onSheet, l.names)
	value, meter := -1, false
	for i, t := range s.tokens {
		word := s.wordAt(i)
		switch t.Type {
		case tFilter, tExt, tMeterEI, tISO, tEI:
			if value >= 0 || t.Type == tFilter && !s.isFilterForSure(i) && (!stretch && !heads || s.names.Names[lower(t.Value)] != FilterWord) {
				return diag.Diagnostic{}, false
			}
			value = i
		case tNumber, tLength:
			if s.speaks("bellows", "extension", "ext", "rail", "draw") && value < 0 {
				value = i
			} else if !gear || word == "" {
				return diag.Diagnostic{}, false
			}
		case tCue:
			meter = meter || strings.HasPrefix(word, "meter")
		case tChoose:
			if what, _, _ := strings.Cut(t.Value, " "); stretch && value < 0 && s.names.Names[lower(strings.TrimPrefix(t.Value, what+" "))] == Word(lower(what)) {
				value = i // Lens 300 for all of these
			}
		case tWord, tBellows, tTo, tAt, tNth:
			if !gear && !ofStanding[word] && !strings.HasPrefix(word, "filter") && word != "to" && word != "at" {
				return diag.Diagnostic{}, false
			}
		case tComma:
		default:
			return diag.Diagnostic{}, false
		}
	}
	if value < 0 {
		return diag.Diagnostic{}, false
	}
	d := diag.Diagnostic{Code: "missing-colon", Severity: diag.Error, Span: l.at(0, len(l.text))}
	switch s.kind(value) {
	case tFilter:
		l.meant, d.Message = FilterWord, "this line says what filter is on and is not read"
		d.Notes = []diag.Aside{{Text: "above the sheets that it holds for, it is written filter: Y8"}}
	case tMeterEI, tISO, tEI:
		if !meter {
			return diag.Diagnostic{}, false
		}
		d = l.indexOfMeter()
	default:
		if gear && s.kind(value) != tChoose {
			return diag.Diagnostic{}, false
		}
		if s.kind(value) == tChoose {
			what, name, _ := strings.Cut(s.tokens[value].Value, " ")
			l.meant, d.Message = Word(lower(what)), "this line says which "+lower(what)+" is in use and is not read"
			d.Notes = []diag.Aside{{Text: "above the sheets that it holds for, it is written " + lower(what) + ": " + name}}
			break
		}
		l.meant, d.Message = Drawn, "this line says how far the bellows were out and is not read"
		d.Notes = []diag.Aside{{Text: "it is said at each sheet that it holds for: 3A: ext 290mm, 1/8 f16"}}
	}
	l.hangs = true
	if l.saidAround(s, value) {
		return diag.Diagnostic{}, false
	}
	l.above = !heads && !onlyBelow().MatchString(low)
	return d, true
}

// lensAlone is a line that names a lens of the kit and says nothing else.
func (l *doubtful) lensAlone(low string) (diag.Diagnostic, bool) {
	name := l.names.LensAlone(low)
	if name == "" {
		return diag.Diagnostic{}, false
	}
	l.hangs, l.meant = true, Lens
	if s := l.bench.scan("lens "+name, 0, onSheet, l.names); len(s.tokens) != 1 || l.saidAround(s, 0) {
		l.meant = ""
		return diag.Diagnostic{}, false
	}
	return diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: l.at(0, len(l.text)), Message: "this line says which lens is in use and is not read",
		Notes: []diag.Aside{{Text: "above the sheets that it holds for, it is written lens: " + name}},
	}, true
}

// LensAlone is the lens of the kit that a text in lower case names with no words but those by which one is put on, "" for
// none: 300er; Objektiv 300; now the 300 mm. A number by itself may be anything.
func (x *Lexicon) LensAlone(low string) string {
	name, others := "", 0
	for word := range strings.FieldsFuncSeq(low, func(c rune) bool { return c == ' ' || c == ',' }) {
		word = strings.Trim(word, ".:!()")
		lens := x.lensIn(word)
		switch {
		case lens != "" && name == "":
			name = lens
			if lens != word {
				others++
			}
		case word == "mm" && name != "" || kindOfLens[word] || toLens[word] || behindLens[word]:
			others++
		default:
			return ""
		}
	}
	if others == 0 {
		return ""
	}
	return name
}

// lensIn is the lens of the kit that a word in lower case names by its length, "" for none: 300, 300mm, the 300er.
func (x *Lexicon) lensIn(word string) string {
	end := digits(word, 0)
	switch strings.TrimLeft(word[end:], "-") {
	case "", "mm", "er":
		if x.Names[word[:end]] == Lens {
			return word[:end]
		}
	}
	return ""
}

// meterSet says at what index the meter stood, with no words for how long: phone was set to ISO 400; I always
// set the meter to 64, which is as likely the index of the film.
func (l *doubtful) meterSet(text, low string) (diag.Diagnostic, bool) {
	m := setMeter().FindStringSubmatch(low)
	if m == nil {
		return diag.Diagnostic{}, false // as nearly all
	}
	if m[2] == "" {
		m = m[2:]
	}
	for word := range strings.FieldsFuncSeq(low, func(c rune) bool { return c == ' ' || c == ',' }) {
		if !ofStanding[word] && !ofMeterSet[word] && word != "at" && word != "to" && word != m[1] && word != m[1]+m[2] && word != m[2] {
			return diag.Diagnostic{}, false
		}
	}
	l.hangs = true
	s := l.bench.scan("EI "+m[2], 0, onSheet, l.names)
	if l.meant = Meter; len(s.tokens) != 1 || l.saidAround(s, 0) {
		l.meant = ""
		return diag.Diagnostic{}, false
	}
	d := l.indexOfMeter()
	if strings.Contains(low, "always") {
		l.meant = FilmSpeed
	}
	l.above = !onlyBelow().MatchString(low)
	return d, true
}

// indexOfMeter is the finding of a line that says where the meter stood.
func (l *doubtful) indexOfMeter() diag.Diagnostic {
	l.meant = Meter
	return diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: l.at(0, len(l.text)), Message: "this line says at what index the meter stood and is not read",
		Notes: []diag.Aside{{Text: "it is said with the reading: meter: EV 12 at EI 320"}},
	}
}

// isFilterForSure reports whether the ith token is a filter by a name with a figure or by the word, and
// not by a colour alone, which may be of anything.
func (s *scanner) isFilterForSure(i int) bool {
	word := s.wordAt(i)
	return strings.ContainsAny(word, "0123456789") || s.names.Names[word] == FilterWord && !colours[word] || strings.Contains(word, "filter")
}

// saidAround reports whether the log lines of the scene say what the ith token says: a line filter above,
// or each of its sheets; an index of the films or of the readings.
func (l *doubtful) saidAround(s *scanner, i int) bool {
	value := lower(s.tokens[i].Value)
	says := func(st *Statement) bool {
		said := map[string]bool{}
		l.keep(said, st)
		if said[s.says(i)] {
			return true
		}
		body := scanFolded(st.Body.Text(), onSheet, l.names)
		return s.kind(i) != tFilter && slices.ContainsFunc(body.tokens, func(t lexer.Token) bool {
			return isIndex[t.Type] == isIndex[s.kind(i)] && lower(t.Value) == value
		})
	}
	const far = 200 // log lines that are looked at
	from, _ := slices.BinarySearchFunc(l.read, l.start, func(st *Statement, at int) int { return st.Span.Start - at })
	begins := func(st *Statement) bool { return st.Word == Scene || st.Word == Day }
	sheets, all := 0, true
	each := func(st *Statement) {
		if st.Word == Sheet {
			sheets++
			all = all && says(st)
		}
	}
	for n := from - 1; n >= max(0, from-far) && !begins(l.read[n]); n-- {
		if l.read[n].Word == FilterWord && len(l.read[n].Labels) == 0 && s.kind(i) == tFilter {
			return says(l.read[n])
		}
		each(l.read[n])
	}
	for n := from; n < min(len(l.read), from+far) && !begins(l.read[n]); n++ {
		each(l.read[n])
	}
	for n := from - 1; s.kind(i) == tChoose && n >= max(0, from-far); n-- { // which holds longer than a scene
		if l.read[n].Word == l.meant && len(l.read[n].Labels) == 0 {
			all = all && sheets > 0 || says(l.read[n])
			sheets = max(sheets, 1)
			break
		}
	}
	if l.meant == Meter {
		indexed := func(st *Statement) bool { return (st.Word == Film || st.Word == Load || st.Word == Meter) && says(st) }
		return slices.ContainsFunc(l.read[:min(len(l.read), far)], indexed) || // the films, as most declare them
			slices.ContainsFunc(l.read[max(0, from-far):min(len(l.read), from+far)], indexed)
	}
	return sheets > 0 && all
}

var isIndex = map[lexer.TokenType]bool{tMeterEI: true, tISO: true, tEI: true}

// The words are those of notes read for this (common practice, no source).
var (
	overStretch = pattern.Lazily(`\b(?:throughout|(?:the )?rest of (?:the|this) (?:day|morning|afternoon|evening|scene|set|lot)|for the next(?: (?:one|ones|few|two|three|sheets?|shots?))?$|for (?:all|these|those|the rest|both|this (?:scene|set|lot)|the (?:whole )?(?:day|morning|afternoon|evening|scene|set|lot))|from (?:here|now|this one|there)(?: on)?|all (?:through|day|morning|afternoon|evening|the (?:time|way|day|morning|afternoon))|the whole (?:day|morning|afternoon|evening|scene|set|time|lot)|on all|all of (?:these|them)|everything|all (?:these|with|at))\b`)
	ownsUp      = pattern.Lazily(`^(?:(?:i )?(?:forgot|forgotten|did not|didn't|omitted) to (?:say|note|mention|write|add|put down)|not (?:noted|written|said|mentioned)|nb|n\.b\.|ps|p\.s\.|note)\b`)
	setMeter    = pattern.Lazily(`\b(?:meter|phone|app)\b[^0-9]* (?:at |on |to |for )?(ei|iso|asa) ?([0-9]{1,5})\b|\bmeter\b()[^0-9]* (?:at|on|to) ([0-9]{2,4})$`)
	ofMeterSet  = SetOf("meter phone app light spot hand always i we set oh no oops damn sorry but by mistake wrong wrongly again kept keep left at to still only just found noticed")
	headsSheets = pattern.Lazily(`^(?:all |these |now )*(?:with|through|using) (?:the |my |a )?[\pL0-9]+(?: filter)?(?: on)? ?:$`)
	gearBefore  = pattern.Lazily(`^(?:obj(?:ektiv|ective)?|optik|kamera|cam|objectif|lens)[.:]? ?[0-9]`)
	onlyBelow   = pattern.Lazily(`\b(?:(?:for )?the rest|rest of|next|from (?:here|now|this|there))\b`)
	ofStanding  = SetOf("on off using use used with without the my a filter filters in is was were had been has have stood set stayed stays still out drawn racked pulled bellows extension ext rail draw " +
		"throughout for rest next few two three all through these those this scene set lot both of here now there from one day morning afternoon evening whole time way them everything sheets exposures frames shots ones " +
		"forgot forgotten did not didn't omitted to say note mention write add put down noted written said mentioned nb n.b ps p.s i that it and taken shot made done exposed mm cm")
)
