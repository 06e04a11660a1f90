package lang

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/yuin/goldmark/ast"

	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// Parse reads a notebook. There is always a tree: what could not be read stands
// in it as typed and is reported. The lexicon is extended by what the notebook
// declares and logs.
func Parse(file *source.File, names *Lexicon) (*Notebook, diag.List) {
	r := &reading{file: file, src: string(file.Text), names: names, base: file.Mark()}
	r.lines = tile(file, r.src)
	book := &Notebook{File: file, Lines: r.lines}
	if why := notText(file.Text); why != "" {
		return r.refuse(book, why)
	}
	if len(file.Text) == 0 {
		book.Prose = ast.NewDocument()
		return book, nil
	}
	r.lines[0].Body = max(r.lines[0].Body, r.base)
	book.Prose = r.markdown()
	r.follow()
	var list diag.List
	for _, node := range r.found {
		node.Statement = r.statement(node)
		book.Statements = append(book.Statements, node.Statement)
		list = append(list, lint(node.Statement)...)
	}
	return book, append(list, r.unread(book)...)
}

// follow hands on the paths of the `use:` lines.
func (r *reading) follow() {
	for _, node := range r.found {
		if node.head.how.word != Use || r.names.Follow == nil {
			continue
		}
		r.names.Follow(r.statement(node).TextSpan())
	}
}

// refuse shows a file that is not text as what it is: nothing of it is read.
func (r *reading) refuse(book *Notebook, why string) (*Notebook, diag.List) {
	for i := range book.Lines {
		book.Lines[i].Kind = Unread
	}
	book.Prose = ast.NewDocument()
	return book, diag.List{{
		Code: "not-text", Severity: diag.Error, Span: source.Span{File: r.file},
		Message: why, Notes: []diag.Aside{{Text: "save it as plain text in UTF-8 and compile again"}},
	}}
}

// notText says why a file cannot be a notebook, or nothing.
func notText(text []byte) string {
	head := text[:min(len(text), 8<<10)]
	switch {
	case bytes.HasPrefix(head, []byte{0xFF, 0xFE}), bytes.HasPrefix(head, []byte{0xFE, 0xFF}):
		return "this file is UTF-16, not UTF-8"
	case bytes.Count(head, []byte{0}) > len(head)/64:
		return "this file is not text"
	}
	return ""
}

// statement reads a log line's terms.
func (r *reading) statement(node *LogLine) *Statement {
	line, h := r.lines[node.line], node.head
	start := line.Body
	s := &Statement{
		Span: r.span(start+h.from, line.BodyEnd),
		Word: h.how.word,
		Said: r.span(start+h.word, start+h.said),
		Body: r.span(min(start+h.body, line.BodyEnd), line.BodyEnd),
	}
	for _, l := range h.labels {
		s.Labels = append(s.Labels, labels(h.how, l, r.span(start+l.start, start+l.end))...)
	}
	if h.how.free || chooses(s) {
		s.freeText()
		return s
	}
	s.Terms = terms(r.file, s.Body.Start, s.Body.End, h.how, r.names)
	return s
}

// chooses reports whether a line names the thing to use, which is the name and
// nothing else.
func chooses(s *Statement) bool {
	return len(s.Labels) == 0 && (s.Word == Camera || s.Word == Lens || s.Word == Film) || s.Word == Load
}

// labels makes the labels of a word: one name as typed, or sheets written out.
func labels(how manner, l labelAt, span source.Span) []Label {
	if how.labels == 1 {
		return []Label{{l.text, span}}
	}
	var all []Label
	for _, text := range expand(l.text) {
		all = append(all, Label{text, span})
	}
	return all
}

// freeText keeps the body as one text, a remark behind a dash apart.
func (s *Statement) freeText() {
	text := s.Body.Text()
	folded := source.Fold([]byte(text))
	end := len(text)
	for i := 1; i+2 < len(folded.Text); i++ {
		if strings.HasPrefix(folded.Text[i:], "--") && isSpace(folded.Text[i-1]) && isSpace(folded.Text[i+2]) {
			end = folded.At(i)
			break
		}
	}
	if rest := s.Body.Sub(end, len(text)); end < len(text) {
		s.Terms = append(s.Terms, Term{Kind: &Remark{Text: unwrap(rest.Text())}, Span: rest})
	}
	s.Text = strings.TrimSpace(text[:end])
}

func (r *reading) span(start, end int) source.Span {
	return source.Span{File: r.file, Start: start, End: max(start, end)}
}

// lint says what is wrong with a log line whatever it means.
func lint(s *Statement) diag.List {
	var list diag.List
	for i := range s.Terms {
		bare, ok := s.Terms[i].Kind.(*Bare)
		if !ok || s.Terms[i].Struck {
			continue
		}
		list = append(list, diag.Diagnostic{
			Code: "bare-number", Severity: diag.Error, Span: s.Terms[i].Span,
			Message: fmt.Sprintf("%s has no unit", s.Terms[i].Span.Text()),
			Notes:   []diag.Aside{{Text: fmt.Sprintf("an aperture is written f%s, a time %ss", trimFloat(float64(bare.Value)), trimFloat(float64(bare.Value)))}},
		})
	}
	return append(list, unclosed(s)...)
}

// unclosed reports a ~~ without its twin.
func unclosed(s *Statement) diag.List {
	body := s.Body.Text()
	if s.Text != "" || strings.Count(body, "~~")%2 == 0 {
		return nil
	}
	at := strings.LastIndex(body, "~~")
	return diag.List{{
		Code: "unclosed-strike", Severity: diag.Warning, Span: s.Body.Sub(at, at+2),
		Message: "~~ opens here and does not close on this line", Notes: []diag.Aside{{Text: "all that follows is read as struck"}},
	}}
}
