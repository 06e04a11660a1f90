package lang

import (
	"maps"
	"slices"
	"strings"

	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// Memory keeps from one Parse to the next what was made of each line, so that
// who reads a notebook again after every key pays for the lines that changed. A
// line is known by its bytes, and only as long as the lexicon is the same: what
// is remembered never differs from what would be read. It holds the lines of the
// last edition and nothing of those before. The zero value remembers nothing yet.
type Memory struct{ books map[string]*edition }

// edition is what is kept of a notebook as it was read last.
type edition struct {
	names *Lexicon // as it was when the terms were read
	log   map[string]*keptLine
	prose map[string]string // lines in which nothing looks like a log line
}

// keptLine is a log line read by itself, in a file of its own that is no longer
// than the line: a statement that is kept keeps no old text of the notebook.
type keptLine struct {
	text string
	head head
	st   *Statement
	list diag.List
}

// recall is what is remembered of a notebook, where the lexicon is still the
// same, and the edition in which it is to be kept from now on.
func (m *Memory) recall(name string, names *Lexicon) (before, now *edition) {
	now = &edition{log: map[string]*keptLine{}, prose: map[string]string{}}
	before = m.books[name]
	if before != nil && before.names.same(names) {
		now.names = before.names
	} else {
		now.names, before = names.snapshot(), &edition{}
	}
	if m.books == nil {
		m.books = map[string]*edition{}
	}
	m.books[name] = now
	return before, now
}

// same reports whether two lexicons know the same.
func (x *Lexicon) same(y *Lexicon) bool {
	return maps.Equal(x.Names, y.Names) && maps.Equal(x.Labels, y.Labels) && maps.Equal(x.Words, y.Words) && maps.Equal(x.Calls, y.Calls)
}

func (x *Lexicon) snapshot() *Lexicon {
	return &Lexicon{Names: maps.Clone(x.Names), Labels: maps.Clone(x.Labels), Words: maps.Clone(x.Words), Calls: maps.Clone(x.Calls)}
}

// line is a log line as kept, or nil.
func (e *edition) line(text string, h *head) *keptLine {
	k := e.log[text]
	if k == nil || k.head.how != h.how || k.head.from != h.from || k.head.word != h.word || k.head.said != h.said || k.head.body != h.body || len(k.head.labels) != len(h.labels) {
		return nil
	}
	return k
}

// readAlone reads a log line in a file of its own.
func (r *reading) readAlone(l *logLine, text string, b *bench) *keptLine {
	own := source.New(r.file.Name, []byte(text))
	k := &keptLine{text: own.Whole(), head: l.head}
	k.head.labels = make([]labelAt, len(l.head.labels))
	for i, l := range l.head.labels {
		k.head.labels[i] = labelAt{strings.Clone(l.text), l.start, l.end}
	}
	alone := logLine{file: own, end: len(text), folded: source.Fold(own.Whole()), head: k.head}
	k.st = alone.statement(r.names, b)
	k.list = lint(k.st, r.names)
	return k
}

// at is the line as it stands at an offset of a file.
func (k *keptLine) at(file *source.File, offset int) (*Statement, diag.List) {
	move := func(s source.Span) source.Span {
		if s.File == nil {
			return s
		}
		return source.Span{File: file, Start: s.Start + offset, End: s.End + offset}
	}
	st := *k.st
	st.Span, st.Said, st.Body = move(st.Span), move(st.Said), move(st.Body)
	st.Labels, st.Terms = slices.Clone(st.Labels), slices.Clone(st.Terms)
	for i := range st.Labels {
		st.Labels[i].Span = move(st.Labels[i].Span)
	}
	for i := range st.Terms {
		st.Terms[i].Span = move(st.Terms[i].Span)
	}
	var list diag.List
	for _, d := range k.list {
		d.Span = move(d.Span)
		d.Notes = slices.Clone(d.Notes)
		for i := range d.Notes {
			d.Notes[i].Span = move(d.Notes[i].Span)
		}
		if d.Fix != nil {
			d.Fix = &diag.Fix{Span: move(d.Fix.Span), Text: d.Fix.Text}
		}
		list = append(list, d)
	}
	return &st, list
}
