package compile

import (
	"slices"
	"strings"

	"notchbook/lang"
	"notchbook/lang/pattern"
)

// What a line says beside its own matter that another line is for: lens: 150, filter: Y8. It is not
// read there, and what it would have set is open for the sheets below, as a line that was not read
// leaves it.

// leaveOpen takes note that a line would have chosen something and does not say it where it is read.
func (r *resolver) leaveOpen(w lang.Word, line int) {
	if kept := r.now.lost.of(w); kept != nil {
		*kept = line
		r.ahead.filters = r.ahead.filters || w == lang.FilterWord && !r.bare
	}
}

// besides reports what a line of another matter says of the filters, the lens, the film, the reading,
// the light or the bellows. The text of most such lines is free, and tells of the subject.
func (r *resolver) besides(st *lang.Statement) {
	all := st.Terms()
	text, at := st.StandingText(), st.Body
	switch st.Word {
	case lang.Lens, lang.Camera, lang.LightWord, lang.Scene, lang.Day:
		at = st.TextSpan()
	case lang.Meter, lang.Film: // whose terms are not in their text
		text, _, _ = strings.Cut(st.Body.Text(), " --")
	default:
		return
	}
	if !strings.ContainsAny(text, ":0123456789") && !strings.Contains(strings.ToLower(text), "size") {
		return // as most
	}
	told := map[lang.Word]bool{st.Word: true}
	for i := range all { // which was taken
		if k, chosen := all[i].Kind.(*lang.Choose); chosen && st.Word == lang.Meter {
			what, _, _ := strings.Cut(k.Text, " ")
			told[lang.Word(what)] = true
		}
	}
	report := func(w lang.Word, from, to int, how string) {
		if told[w] {
			return
		}
		told[w] = true
		r.leaveOpen(w, placeOf(st.Span).Line)
		at := at.Sub(from, to)
		if w == lang.Drawn {
			how = "it is said at each sheet that it holds for: 3A: " + how + ", 1/8 f16"
		} else {
			how = "for the sheets that follow it has a line of its own, " + string(w) + ": " + how
		}
		r.report("unknown-term", at, quote(at.Text())+" has no meaning in a "+string(st.Word)+" line").note(how)
	}
	told[lang.FilterWord] = st.Word == lang.Meter // that is asked about with the reading
	for _, in := range r.headsIn(st, text) {
		value := strings.Trim(text[in.Body:in.End], " \t,;|")
		report(in.Word, in.Start, in.Start+len(strings.TrimRight(text[in.Start:in.End], " \t,;|.")), value)
	}
	if st.Word == lang.Meter {
		for i := range all {
			t := &all[i]
			if isDraw(t.Kind, true) && !t.Struck {
				report(lang.Drawn, t.Span.Start-at.Start, t.Span.End-at.Start, t.Span.Text())
			}
		}
		return
	}
	from, sure := r.nameChosen(st, text)
	rail := strings.TrimLeft(text[from:], " ,;(")
	if ext := lang.OnRail(strings.TrimRight(rail, " )")); sure && ext != "" { // 210, scale 300
		report(lang.Drawn, len(text)-len(rail), len(text), ext)
		return
	}
	if strings.TrimSpace(text[from:]) == "" || !sure && !r.mayStandBeside(strings.ToLower(text)) {
		return // as nearly all
	}
	terms := lang.Within(outOfBrackets.Replace(text[from:]), r.names)
	focal := 0. // of the lens that is named
	if l, ok := r.book.kit.lens(strings.TrimSpace(text[:from])); sure && ok {
		focal = l.focal
	}
	for i := range terms {
		t := &terms[i]
		said := strings.TrimSpace(t.Span.Text())
		switch k := t.Kind.(type) {
		case *lang.Stack:
			of := ""
			if i+1 < len(terms) {
				of = beforeThing(k, terms[i+1].Kind) // 210, red dot
				if _, bellows := terms[i+1].Kind.(*lang.Bellows); bellows {
					of = k.Filters[0].Name
				}
			}
			if !t.Struck && of == "" && (sure || r.soleCoded(terms, k)) {
				report(lang.FilterWord, from+t.Span.Start, from+t.Span.End, strings.TrimPrefix(said, "with "))
			}
		case *lang.Drop:
			if sure && k.What == "filter" && len(r.now.filters) > 0 {
				report(lang.FilterWord, from+t.Span.Start, from+t.Span.End, "none")
			}
		case *lang.Millimetres:
			if focal > 0 && float64(k.MM) >= focal { // 210 at 297 mm
				report(lang.Drawn, from+t.Span.Start, from+t.Span.End, "ext "+said)
			}
		default:
			thing := st.Word == lang.Scene && i+1 < len(terms) && len(wordsOf(terms[i+1].Kind)) > 0 // at 1:2 slope
			if isDraw(k, st.Word != lang.LightWord && st.Word != lang.Day && !thing) && !t.Struck {
				report(lang.Drawn, from+t.Span.Start, from+t.Span.End, said)
			}
		}
	}
}

// outOfBrackets sets words in brackets beside the others: 210 (with Y8).
var outOfBrackets = strings.NewReplacer("(", ",", ")", ",", "[", ",", "]", ",")

// mayStandBeside reports at a glance whether a text in lower case may have a filter of the kit with a
// figure in its name, an extension, or a magnification.
func (r *resolver) mayStandBeside(low string) bool {
	return slices.ContainsFunc(r.book.kit.called, func(c calling) bool {
		_, is := c.thing.(*filter)
		return is && !c.byColour && strings.Contains(low, c.name)
	}) || mayDraw().MatchString(low)
}

var mayDraw = pattern.Lazily(`[0-9] ?(?:mm|cm|ins?)\b|[0-9] ?: ?[0-9]|ext|bel|balg|auszug|tirage|size|mag|scale|one to one|rail|standard|draw|pulled|out to|inch|groß|größ|gröss|grandeur`)

// isDraw reports whether a term says how far the bellows were out, or by how much the subject was
// magnified where that counts too: 3:1 may be of the lamps.
func isDraw(kind any, magnified bool) bool {
	switch kind.(type) {
	case *lang.Extension, *lang.Bellows:
		return true
	case *lang.Magnification:
		return magnified
	}
	return false
}

// headsIn are the log words with a colon in the text of a line that are followed by what such a line
// says: a title may have the words too, the meter: a study.
func (r *resolver) headsIn(st *lang.Statement, text string) []lang.Inside {
	return slices.DeleteFunc(lang.Heads(text, r.names), func(in lang.Inside) bool {
		value := strings.Trim(text[in.Body:in.End], " \t,;|.")
		first, _, _ := strings.Cut(value, " ")
		first = strings.TrimRight(first, ",;.")
		_, thing := r.names.Names[strings.ToLower(value)]
		if !thing {
			_, thing = r.names.Names[strings.ToLower(first)]
		}
		figure := value != "" && value[0] >= '0' && value[0] <= '9'
		terms := lang.Within(value, r.names)
		has := func(is func(kind any) bool) bool {
			return slices.ContainsFunc(terms, func(t lang.Term) bool { return is(t.Kind) })
		}
		switch in.Word {
		case lang.FilterWord:
			return !thing && value != "" && !strings.EqualFold(first, "none") && !has(func(kind any) bool {
				switch kind.(type) {
				case *lang.Stack, *lang.Drop:
					return true
				}
				return false
			})
		case lang.Lens:
			return !thing && !figure
		case lang.Film:
			return !thing
		case lang.Meter:
			return !figure && !has(func(kind any) bool { _, is := kind.(*lang.Exposure); return is })
		case lang.LightWord:
			before := strings.TrimRight(text[:in.Start], " \t")
			return value == "" || before == "" || in.Start-len(before) < 2 && !strings.ContainsAny(before[len(before)-1:], ",;.|")
		}
		return true
	})
}

// nameChosen is where the name ends that a line begins with which chooses a lens or a camera, and
// whether it is one that is known: behind it no subject is told of.
func (r *resolver) nameChosen(st *lang.Statement, text string) (end int, sure bool) {
	if st.Word != lang.Lens && st.Word != lang.Camera {
		return 0, false
	}
	low, longest := strings.ToLower(text), ""
	for name, is := range r.names.Names {
		rest, begins := strings.CutPrefix(low, name)
		if is == st.Word && begins && len(name) > len(longest) && (rest == "" || strings.ContainsAny(rest[:1], " \t,;|(m")) {
			longest = name
		}
	}
	if rest := low[len(longest):]; longest != "" {
		end = len(low) - len(strings.TrimPrefix(strings.TrimPrefix(rest, " "), "mm"))
	}
	return end, end > 0
}

// soleCoded reports whether a filter is one of the kit's with a figure in its name, the only one that
// a title or the like names, and not named as one that was left off or beside others.
func (r *resolver) soleCoded(terms []lang.Term, k *lang.Stack) bool {
	if len(k.Filters) != 1 || !strings.ContainsAny(k.Filters[0].Name, "0123456789") {
		return false
	}
	if _, ours := find(r.book.kit.filters, k.Filters[0].Name); !ours {
		return false
	}
	for i := range terms {
		switch other := terms[i].Kind.(type) {
		case *lang.Stack:
			if other != k {
				return false
			}
		case *lang.Drop:
			return false
		case *lang.Loose:
			if says(lowered(other.Words), besideTitled) {
				return false
			}
		}
	}
	return true
}

// besideTitled are words of a title that do not say that the filter it names was on (common practice, no
// source).
var besideTitled = lang.SetOf("no not without off never kein keine ohne sans vs vs. versus compare compared comparing against control test tests trial series or and")

// unheadedText is the text of a line up to the first log word with a colon in it.
func (r *resolver) unheadedText(st *lang.Statement) string {
	text := st.StandingText()
	if heads := r.headsIn(st, text); len(heads) > 0 && heads[0].Start > 0 {
		return strings.TrimRight(text[:heads[0].Start], " \t,;|.")
	}
	return text
}
