package lang

import (
	"fmt"
	"strings"

	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// The writer's own words: `word: plate = sheet` makes a log word, `call: orange
// = O21` another way to write a term.

// ownPair is one of the definitions of such a line.
type ownPair struct {
	said, means string
	at          source.Span // of the whole pair
	bad         bool        // no sign between, or nothing on one side
}

// ownPairs splits the text of a word or call line.
func ownPairs(text source.Span) []ownPair {
	var all []ownPair
	whole := text.Text()
	for from := 0; from <= len(whole); {
		to := from + len(whole[from:])
		if comma := strings.IndexByte(whole[from:], ','); comma >= 0 {
			to = from + comma
		}
		part := strings.TrimSpace(whole[from:to])
		start := from + strings.Index(whole[from:to], part)
		if part != "" {
			said, means, ok := strings.Cut(part, "=")
			said, means = strings.Join(strings.Fields(lower(said)), " "), strings.TrimSpace(means)
			all = append(all, ownPair{said, means, text.Sub(start, start+len(part)), !ok || said == "" || means == ""})
		}
		from = to + 1
	}
	return all
}

// learnOwn takes a line's words into the lexicon.
func (r *reading) learnOwn(word Word, text source.Span) {
	for _, p := range ownPairs(text) {
		switch {
		case p.bad:
		case word == Call:
			learn(r.names, aCall, &r.names.Calls, p.said, p.means)
		case words[lower(p.means)].word != "" && words[p.said].word == "" && letterRun(p.said, 0) == len(p.said):
			learn(r.names, aWord, &r.names.Words, p.said, Word(lower(p.means)))
		}
	}
}

// ownWrong says which definitions cannot be used.
func ownWrong(s *Statement, names *Lexicon) diag.List {
	var list diag.List
	for _, p := range ownPairs(s.TextSpan()) {
		d := diag.Diagnostic{Code: "own-word-unclear", Severity: diag.Error, Span: p.at}
		switch {
		case p.bad:
			d.Message = fmt.Sprintf("%q says nothing", p.at.Text())
			d.Notes = []diag.Aside{{Text: "a word of your own is written: " + map[Word]string{OwnWord: "word: plate = sheet", Call: "call: orange = O21"}[s.Word]}}
		case s.Word == Call && !oneTerm(p.means, names):
			d.Message = fmt.Sprintf("%q is not one term", p.means)
			d.Notes = []diag.Aside{{Text: "a call stands for one term: a filter, a setting, a lens"}}
		case s.Word == OwnWord && names.Words[p.said] == "":
			d.Message = fmt.Sprintf("%q cannot stand for %q", p.said, p.means)
			d.Notes = []diag.Aside{{Text: "a word of your own is one word, and stands for one log word of the notation"}}
			if oneTerm(p.means, names) {
				d.Notes = append(d.Notes, diag.Aside{Text: fmt.Sprintf("another way to write a term is a call: call: %s = %s", p.said, p.means)})
			} else if meant := nearest(lower(p.means), nil); meant != "" {
				d.Notes = append(d.Notes, diag.Aside{Text: fmt.Sprintf("%q is near", meant)})
			}
		default:
			continue
		}
		list = append(list, d)
	}
	return list
}

// oneTerm reports whether a text is one term of a sheet's line.
func oneTerm(text string, names *Lexicon) bool {
	file := source.New("", []byte(text))
	folded := source.Fold(text)
	all := readTerms(file, 0, &folded, 0, sheetLine, names, newBench())
	if len(all) != 1 {
		return false
	}
	_, words := all[0].Kind.(*Loose)
	return !words
}
