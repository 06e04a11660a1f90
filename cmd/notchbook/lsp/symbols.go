package lsp

import (
	"strings"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/render/saying"
)

// What an editor shows of a notebook's order: outings with their scenes and
// sheets, folds, and the kinds of its words.

// part is an outing, a scene or a sheet of the outline: it reaches to the next
// of its kind or above.
type part struct {
	kind       int
	name, more string
	start, end int
	selection  *lang.Statement
}

// parts are the notebook's outings, scenes and sheets in order, each with where
// it ends.
func (v view) parts() []part {
	tree := v.check().Notebook(v.name)
	if tree == nil {
		return nil
	}
	var all []part
	for _, st := range tree.Statements {
		switch {
		case st.Word == lang.Day:
			all = append(all, part{outingSymbol, st.Text, "", st.Span.Start, 0, st})
		case st.Word == lang.Scene:
			all = append(all, part{sceneSymbol, st.Text, "", st.Span.Start, 0, st})
		case st.Word == lang.Sheet && len(st.Labels) > 0:
			all = append(all, part{sheetSymbol, labelText(st), st.Body.Text(), st.Span.Start, st.Span.End, st})
		}
	}
	for i := range all {
		all[i].name = orDash(all[i].name)
		if all[i].end == 0 {
			all[i].end = v.endOf(all, i)
		}
	}
	return all
}

func labelText(st *lang.Statement) string {
	first, last := st.Labels[0].Span, st.Labels[len(st.Labels)-1].Span
	return first.Cover(last).Text()
}

func orDash(name string) string {
	if strings.TrimSpace(name) == "" {
		return "–"
	}
	return strings.TrimSpace(name)
}

// endOf is the end of the last line before the next part of the same rank or
// above.
func (v view) endOf(all []part, i int) int {
	end := len(v.doc.src)
	for _, next := range all[i+1:] {
		if next.kind <= all[i].kind {
			end = next.start
			break
		}
	}
	return all[i].start + len(strings.TrimRight(v.doc.src[all[i].start:end], " \t\r\n-*#>"))
}

func (s *server) symbols(v view, _ documentParams) ([]symbol, error) {
	all := v.parts()
	tree, _ := v.nest(all, 0)
	return tree, nil
}

// nest turns the parts that stand before any of a rank or above into a tree,
// and says how many it took.
func (v view) nest(all []part, above int) ([]symbol, int) {
	tree := []symbol{}
	i := 0
	for i < len(all) && all[i].kind > above {
		p := all[i]
		sym := symbol{
			Name: p.name, Detail: p.more, Kind: p.kind, Range: v.doc.span(p.start, max(p.end, p.selection.Span.End)),
			SelectionRange: v.doc.span(p.selection.Span.Start, p.selection.Span.End),
		}
		took := 0
		if p.kind != sheetSymbol {
			sym.Children, took = v.nest(all[i+1:], p.kind)
		}
		tree = append(tree, sym)
		i += 1 + took
	}
	return tree, i
}

func (s *server) folds(v view, _ documentParams) ([]foldingRange, error) {
	folds := []foldingRange{}
	for _, p := range v.parts() {
		first, last := v.doc.position(p.start).Line, v.doc.position(p.end).Line
		if p.kind != sheetSymbol && last > first {
			folds = append(folds, foldingRange{first, last, "region"})
		}
	}
	return folds, nil
}

// The kinds of words, all of the protocol's own list so that every editor has a
// colour for them.
var (
	tokenTypes     = []string{"keyword", "variable", "type", "number", "parameter", "comment", "string", "operator"}
	tokenModifiers = []string{"declaration", "deprecated"}
)

const (
	keywordToken = iota
	variableToken
	typeToken
	numberToken
	parameterToken
	commentToken
	stringToken
	operatorToken
)

const (
	declarationToken = 1 << iota
	deprecatedToken
)

func (s *server) tokens(v view, _ documentParams) (semanticTokens, error) {
	w := tokenWriter{doc: v.doc.text, data: []uint32{}}
	tree := v.check().Notebook(v.name)
	if tree == nil {
		return semanticTokens{w.data}, nil
	}
	for _, st := range tree.Statements {
		if st.Said.End > st.Said.Start {
			w.add(st.Said.Start, st.Said.End, keywordToken, 0)
		}
		for _, l := range st.Labels {
			w.add(l.Span.Start, l.Span.End, labelToken(st.Word), declarationToken)
		}
		if len(st.Terms()) == 0 && st.Text != "" {
			at := st.TextSpan()
			w.add(at.Start, at.End, stringToken, 0)
		}
		for i := range st.Terms() {
			t := &st.Terms()[i]
			modifiers := uint32(0)
			if t.Struck {
				modifiers = deprecatedToken
			}
			if kind, ok := termToken(t.Kind); ok {
				w.add(t.Span.Start, t.Span.End, kind, modifiers)
			}
		}
	}
	return semanticTokens{w.data}, nil
}

func labelToken(w lang.Word) uint32 {
	switch w {
	case lang.Camera, lang.Lens, lang.Film, lang.FilterWord, lang.Meter:
		return typeToken
	}
	return variableToken
}

// termToken is the kind of a term; words that are no term have none.
func termToken(kind any) (uint32, bool) {
	switch kind.(type) {
	case *lang.Exposure, *lang.Number, *lang.Bracket, *lang.FilmEI, *lang.MeterEI, *lang.ISO, *lang.Amount, *lang.N, *lang.Extension, *lang.Magnification, *lang.Focus, *lang.Bellows, *lang.Placed, *lang.Movement, *lang.Millimetres, *lang.FNumbers:
		return numberToken, true
	case *lang.Stack, *lang.With, *lang.Choose, *lang.Drop:
		return parameterToken, true
	case *lang.Remark, *lang.Loose:
		return commentToken, true
	case *lang.Cue, *lang.Same, *lang.State, *lang.Hold, *lang.Withdraw:
		return keywordToken, true
	case *lang.Arrow, *lang.Sum:
		return operatorToken, true
	}
	return 0, false
}

// tokenWriter writes tokens as the protocol has them: each relative to the one
// before, none over another and none over the end of a line.
type tokenWriter struct {
	doc        *text
	data       []uint32
	end        int
	line, from int
}

func (w *tokenWriter) add(start, end int, kind, modifiers uint32) {
	if start < w.end || end <= start || end > len(w.doc.src) {
		return
	}
	p := w.doc.position(start)
	if w.doc.position(end).Line != p.Line {
		return
	}
	delta := p.Character
	if p.Line == w.line {
		delta -= w.from
	}
	w.data = append(w.data, uint32(p.Line-w.line), uint32(delta), uint32(w.doc.units(w.doc.src[start:end])), kind, modifiers)
	w.line, w.from, w.end = p.Line, p.Character, end
}

// hints are the differences in stops at the ends of the sheets' lines.
func (s *server) hints(v view, p rangeParams) ([]inlayHint, error) {
	hints := []inlayHint{}
	for _, sh := range v.check().Record().Sheets {
		if len(sh.Lines) == 0 || !sh.Difference.Known || sh.Lines[0].Place.Path != v.name {
			continue
		}
		at := v.check().LineEnd(sh)
		pos := v.doc.position(at)
		if pos.Line < p.Range.Start.Line || pos.Line > p.Range.End.Line {
			continue
		}
		label := exposure.FormatStops(sh.Difference.Value)
		if n := len(hints); n > 0 && hints[n-1].Position == pos { // several sheets of one line
			hints[n-1].Label += ", " + label
			continue
		}
		hints = append(hints, inlayHint{pos, label, true, saying.Gap(sh)})
	}
	return hints, nil
}
