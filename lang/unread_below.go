package lang

import (
	"fmt"
	"strings"

	"notchbook/lang/diag"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// Lines that were to choose for the sheets below, in words that no log line has: loaded: slate in
// 1A-4B, scene - the gate, spot meter reads EV at 100.

// below is such a line.
func (l *doubtful) below() (diag.Diagnostic, bool) {
	from := len(l.text) - len(bulleted(l.text))
	before := lead(l.text, from+opening(l.text[from:]))
	for _, look := range [...]func(int, bool) (diag.Diagnostic, bool){l.loading, l.sceneBegins, l.testBegins, l.lightAlone, l.meterShows} {
		if d, ok := look(before.end, before.begins); ok {
			return d, true
		}
	}
	return diag.Diagnostic{}, false
}

var (
	loadWords   = SetOf("load loads loaded loading reload reloaded holder holders")
	besideFilm  = SetOf("with w w/ of in into to from the all both film sides side holder holders now new fresh load loaded reloaded my a an at bag changing tent dark darkroom car van boot hut barn noon lunch two three four five six")
	aroundFilm  = SetOf("with w w/ of in into to from the film holder holders side sides now both all") // say nothing that load does not
	sceneWords  = SetOf("scene scenes subject subjects")
	likeScene   = SetOf("scenes subjects seen next")
	goesOnProse = SetOf("of to like in was is are were has had and or for at after by on as it we i he she they that this which with from again over now still already then just very too so quite rather getting going less more all same unchanged lit") // common practice, no source
)

// holding are words behind a side for what is in it, and besideHeld those around the film's name (common
// practice, no source).
var (
	holding    = SetOf("has had holds held contains got")
	besideHeld = SetOf("in it by mistake error accident instead only now actually still the a film sheet not")
)

// loading is a line with a film of the kit and the sides that it went into, or a word for loading,
// and nothing more; or with that word, sides and one name that is of no film.
func (l *doubtful) loading(from int, _ bool) (diag.Diagnostic, bool) {
	text := strings.TrimRight(l.text, ". \t")
	low := l.low[:len(text)]
	if from < len(low) && strings.HasPrefix(low[from:], "all ") {
		from = skip(low, from+len("all "))
	}
	if from >= len(low) {
		return diag.Diagnostic{}, false
	}
	word := loadWords[low[from:letterRun(low, from)]]
	var labels, film [2]int
	films, others, sides, joined, holds, with := 0, 0, 0, false, false, strings.Contains(text[from:], ": ")
	for i := from; i < len(low) && others < 2; {
		if strings.IndexByte(" \t,:;=", low[i]) >= 0 {
			i++
			continue
		}
		end := i
		for end < len(low) && strings.IndexByte(" \t,:;=", low[end]) < 0 {
			end++
		}
		one := low[i:end]
		name := l.names.longest(low[i:])
		switch first, last, ranged := cutDash(one); {
		case name > 0 && l.names.Names[low[i:i+name]] == Film && (film[1] == 0 || sides > 0):
			film, end = [2]int{i, i + name}, i+name
			films++
		case looksLabel(one, l.names) && (sided(one) || l.names.Labels[one] || ranged && sided(first) && sided(last)):
			if labels[1] == 0 {
				labels[0] = i
			}
			labels[1], joined = end, joined || ranged || sides > 0
			sides++
		case joins(one) && labels[1] > 0:
		case word && len(one) <= 2 && digits(one, 0) == len(one) && strings.Contains(low, "reload"): // holder 2 reloaded
		case sides == 1 && holding[one]: // 1B has moth in it, by mistake
			holds = true
		case holds && besideHeld[one]:
		case besideFilm[one] || word && i == from:
			with = with || strings.HasPrefix(one, "w")
		default:
			others++
		}
		i = end
	}
	switch {
	case films > 1 && (sides < 2 || others > 0):
		return diag.Diagnostic{}, false
	case films > 1:
	case film[1] > 0 && others == 0 && (joined || holds || word && (sides > 0 || low[from] != 'h')):
	case film[1] == 0 && word && low[from] != 'h' && sides > 0 && others == 1 && with:
	case film[1] == 0 && others == 0 && word && strings.Contains(low, "reload"): // reloaded in the bag
	default:
		return diag.Diagnostic{}, false
	}
	l.meant = Load
	d := diag.Diagnostic{
		Code: "unknown-label", Severity: diag.Error, Span: l.at(from, len(text)),
		Message: "this tells what was loaded and is not read",
		Notes:   []diag.Aside{{Text: "behind load stand the holder sides, and the film behind a colon: load 1A-4B: slate"}},
	}
	if films > 1 {
		d.Notes = []diag.Aside{{Text: "each film stands on a line of its own: load 1A-4B: slate"}}
	}
	if list, ok := splitLabels(text[labels[0]:labels[1]], 0, Load, l.names); word && ok && films == 1 && !list.either {
		d.Fix = &diag.Fix{Span: d.Span, Text: "load " + l.at(labels[0], labels[1]).Text() + ": " + l.at(film[0], film[1]).Text()}
		first, second := labels, film
		if film[0] < labels[0] {
			first, second = film, labels
		}
		var more []string // that it says besides: at noon, in the car
		for _, piece := range [][2]int{{letterRun(low, from), first[0]}, {first[1], second[0]}, {second[1], len(text)}} {
			said := strings.Fields(l.at(min(piece[0], piece[1]), piece[1]).Text())
			for n := len(said); n > 0; n = len(said) {
				if last := lower(strings.Trim(said[n-1], ",:;=")); last != "" && !aroundFilm[last] {
					break
				}
				said = said[:n-1]
			}
			more = append(more, said...)
		}
		if len(more) > 0 {
			d.Fix.Text += " -- " + strings.Join(more, " ")
		}
	}
	return d, true
}

// sceneBegins is a short line that is no sentence and begins as a scene's nearly does, and what is set or
// read there stands below it.
func (l *doubtful) sceneBegins(from int, next bool) (diag.Diagnostic, bool) {
	const most = 6 // words
	said := letterRun(l.low, from)
	word := l.low[from:said]
	if !sceneWords[word] && (next || !likeScene[word]) {
		return diag.Diagnostic{}, false
	}
	title := strings.TrimLeft(l.text[said:], " \t")
	sign := at(title, 0)
	title = strings.TrimLeft(title, ":-= \t")
	words := strings.Fields(title)
	if len(words) == 0 || len(words) > most || strings.IndexByte(".!?;,", title[len(title)-1]) >= 0 || at(l.text, said) == '\'' {
		return diag.Diagnostic{}, false
	}
	signed := sign == ':' || sign == '-' || sign == '='
	if !signed && (!sceneWords[word] || word[len(word)-1] == 's' || goesOnProse[lower(words[0])]) || sign == '-' && likeScene[word] {
		return diag.Diagnostic{}, false
	}
	l.hangs = true
	if !l.readBelow() {
		return diag.Diagnostic{}, false
	}
	l.meant = Scene
	d := diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: l.at(from, said),
		Message: fmt.Sprintf("a colon is missing behind %q", l.at(from, said).Text()),
	}
	if likeScene[word] {
		d.Code, d.Message = "unknown-word", fmt.Sprintf("%q is no word of the notation", l.at(from, said).Text())
	} else if first := words[0]; signed || articles(lower(first)+" ", 0) > 0 || first != lower(first) || isDigit(first[0]) { // else it may tell of the scene
		d.Fix = &diag.Fix{Span: l.at(from, len(l.text)-len(title)), Text: l.at(from, said).Text() + ": "}
	}
	d.Notes = []diag.Aside{{Text: "a scene begins with its word and a colon: scene: " + title}}
	return d, true
}

// testBegins is a short line by itself that is the title of a test, and what is exposed for it stands
// below. As long as the line is not read, the sheets are not known to be of a test.
func (l *doubtful) testBegins(from int, _ bool) (diag.Diagnostic, bool) {
	const most = 8 // words
	title := strings.Trim(l.text[from:], "*_. \t")
	if len(strings.Fields(title)) > most || !TestTitle(title) {
		return diag.Diagnostic{}, false
	}
	if !l.alone() || !l.readBelow() {
		return diag.Diagnostic{}, false
	}
	l.meant = Scene
	return diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: l.at(from, len(strings.TrimRight(l.text, " \t"))), Message: "this is the title of a test and is not read",
		Notes: []diag.Aside{{Text: "a test is a scene, and begins with its word and a colon: scene: " + title}},
	}, true
}

// readBelow reports whether the next line that is not blank is a log line by which a scene's sheets
// are exposed.
func (l *doubtful) readBelow() bool {
	for n := l.line + 1; n < len(l.lines); n++ {
		below := l.lines[n]
		if below.Kind == Blank {
			continue
		}
		h, ok := readHead(source.Fold(l.src[below.Body:below.BodyEnd]).Text, l.names)
		if !ok || below.Kind != Log {
			return false
		}
		switch h.how.word {
		case Meter, LightWord, FilterWord, Lens, Film, Load, Sheet:
			return true
		}
		return false
	}
	return false
}

// lightAlone is the word light and a kind of light that films and filters are told for.
func (l *doubtful) lightAlone(from int, _ bool) (diag.Diagnostic, bool) {
	kind, ok := strings.CutPrefix(strings.TrimRight(l.low[from:], ". \t"), "light ")
	switch kind = strings.TrimLeft(kind, "-= "); {
	case !ok, kind != "tungsten" && kind != "daylight" && kind != "open shade":
		return diag.Diagnostic{}, false
	}
	l.meant = LightWord
	end := from + len("light")
	stop := len(l.text) - len(strings.TrimLeft(l.text[end:], "-= "))
	return diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: l.at(from, end), Message: fmt.Sprintf("a colon is missing behind %q", l.at(from, end).Text()),
		Fix: &diag.Fix{Span: l.at(from, stop), Text: l.at(from, end).Text() + ": "},
	}, true
}

// meterShows is what a meter is said to show, in a sentence of a few words: spot meter reads EV at 100.
func (l *doubtful) meterShows(from int, _ bool) (diag.Diagnostic, bool) {
	said := showsEV().FindStringSubmatch(l.low[from:])
	if said == nil {
		return diag.Diagnostic{}, false
	}
	name := said[1]
	if name == "" || name == "my " || name == "the " {
		name = "spot "
	}
	return diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: l.at(from, len(l.text)), Message: "this tells what a meter shows and is not read",
		Notes: []diag.Aside{{Text: fmt.Sprintf("write meter %s: EV at %s", strings.TrimSpace(name), said[2])}},
	}, true
}

var showsEV = pattern.Lazily(`^(?:my |the )?([a-z0-9]+ )?meter (?:reads|shows|gives|is set to|set to|set at|in) ev (?:at|for) (?:iso |ei )?(ei|[0-9]+)\.?$`)
