package query

import (
	"strings"

	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/source"
)

// What is only in the text of the record is read by the notation's own reader.

// notes reads stretches of notes, each text once.
type notes struct {
	names *lang.Lexicon
	read  map[string][]lang.Term
}

// learn makes what the kit declares known to the reader.
func (x *indexer) learn() {
	x.names, x.read, x.wordsOf = lang.NewLexicon(), map[string][]lang.Term{}, map[string][]string{}
	for _, item := range x.season.Kit {
		x.names.Names[strings.ToLower(item.Name)] = lang.Word(item.Kind)
	}
}

// of is the terms of a line with a log word, those left out that were withdrawn.
func (n *notes) of(word lang.Word, text string) []lang.Term {
	line := string(word) + " 1A: " + text
	if word == lang.Meter {
		line = string(word) + ": " + text
	}
	if known, ok := n.read[line]; ok {
		return known
	}
	tree, _ := lang.Parse(source.New("", []byte(line)), n.names)
	var kept []lang.Term
	for _, st := range tree.Statements {
		for _, t := range st.Terms() {
			if !t.Struck {
				kept = append(kept, t)
			}
		}
	}
	n.read[line] = kept
	return kept
}

// called adds the writer's own words for filters and settings: call: orange =
// O21 makes orange a spelling of what O21 spells.
func (x *indexer) called() {
	spelled := map[string]*record.Findable{}
	for _, f := range x.terms {
		for _, s := range f.Spelled {
			spelled[s] = f
		}
	}
	for _, o := range x.season.Outings {
		for _, e := range o.Entries {
			if e.Line == nil || lang.Word(e.Line.Word) != lang.Call {
				continue
			}
			own := lang.NewLexicon()
			lang.Parse(source.New("", []byte(e.Line.Text)), own)
			for said, means := range own.Calls {
				if f := spelled[clean(means)]; f != nil {
					f.Spelled = append(f.Spelled, clean(said))
				}
			}
		}
	}
}
