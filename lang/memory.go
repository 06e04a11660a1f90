package lang

import (
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
	taught []lesson // the lexicon's, when the terms were read
	log    map[string]*keptLine
	prose  map[string]string // lines in which nothing looks like a log line
}

// keptLine is a log line read by itself, in a file of its own that is no longer
// than the line: a statement that is kept keeps no old text of the notebook.
type keptLine struct {
	text   string
	folded source.Folded
	head   head
	st     *Statement
	list   diag.List

	knew, knows int // lessons of the lexicon before and behind the head
}

// recall is what is remembered of a notebook: nothing where nobody remembers.
func (m *Memory) recall(name string) *edition {
	if m == nil || m.books[name] == nil {
		return &edition{}
	}
	return m.books[name]
}

// remember begins the edition that is kept from now on, now that the lexicon is
// complete, and reports whether it is that of the edition before: with another one
// the terms are others.
func (r *reading) remember() (same bool) {
	memory, taught := r.names.Memory, r.names.taught
	if memory == nil {
		return false
	}
	if same = len(taught) == len(r.before.taught) && r.knowsAsBefore(len(taught)); !same {
		r.before = &edition{}
	}
	r.now = &edition{taught: taught[:len(taught):len(taught)], log: make(map[string]*keptLine, len(r.found)), prose: map[string]string{}}
	if memory.books == nil {
		memory.books = map[string]*edition{}
	}
	memory.books[r.file.Name] = r.now
	return same
}

// knowsAsBefore reports whether the first n lessons of the lexicon are those of the
// edition before.
func (r *reading) knowsAsBefore(n int) bool {
	for r.agreed < n && r.agreed < len(r.before.taught) && r.names.taught[r.agreed] == r.before.taught[r.agreed] {
		r.agreed++
	}
	return r.agreed >= n
}

// same reports whether two heads of one text are the same.
func (h *head) same(o *head) bool {
	return h.how == o.how && h.year == o.year && h.from == o.from && h.word == o.word && h.said == o.said && h.body == o.body && len(h.labels) == len(o.labels)
}

// readAlone reads a log line in a file of its own.
func (r *reading) readAlone(l *logLine, b *bench) *keptLine {
	own := source.New(r.file.Name, []byte(r.src[l.at:l.end]))
	k := &keptLine{text: own.Whole(), folded: source.Fold(own.Whole()), head: l.head}
	k.head.labels = make([]labelAt, len(l.head.labels))
	for i, l := range l.head.labels {
		k.head.labels[i] = l
		k.head.labels[i].text = strings.Clone(l.text)
	}
	alone := logLine{file: own, end: len(k.text), folded: k.folded, head: k.head}
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
	st.Labels, st.terms = slices.Clone(st.Labels), slices.Clone(st.terms)
	for i := range st.Labels {
		st.Labels[i].Span, st.Labels[i].Day = move(st.Labels[i].Span), move(st.Labels[i].Day)
	}
	for i := range st.terms {
		st.terms[i].Span = move(st.terms[i].Span)
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
