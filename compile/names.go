package compile

import (
	"strings"

	"notchbook/lang"
	"notchbook/lang/source"
)

// Naming is one place where the notes name a thing of the kit or a sheet.
type Naming struct {
	Span     source.Span
	Of       any  // equal for all names of one thing, comparable, else opaque
	Kind     Kind // of the thing
	Declares bool // the line that declares the thing, or logs the sheet first
	Range    bool // the sheet is only one of a range that stands here: 1A-3B
	Exact    bool // written as the thing is called, and not by a number or a colour
}

// Kind is what a Naming names.
type Kind string

// The kinds of things that have names.
const (
	ACamera Kind = "camera"
	ALens   Kind = "lens"
	AFilm   Kind = "film"
	AFilter Kind = "filter"
	AMeter  Kind = "meter"
	ASheet  Kind = "sheet"
)

// Names is every name of a declared thing or a sheet in the notebooks, in the
// order of the notebooks. What is declared nowhere has none.
func (c *Checked) Names() []Naming {
	n := naming{season: c.season}
	n.declarations()
	for _, b := range c.season.books {
		n.kit = b.kit
		for _, st := range b.Statements {
			n.statement(st)
		}
	}
	n.sheets()
	return n.all
}

type naming struct {
	*season
	kit *kit // of the notebook at hand
	all []Naming
}

func (n *naming) add(kind Kind, of any, called string, at source.Span, declares bool) {
	n.all = append(n.all, Naming{Span: at, Of: of, Kind: kind, Declares: declares, Exact: strings.EqualFold(at.Text(), called)})
}

func (n *naming) declarations() {
	for _, c := range all(n.season, func(k *kit) []*camera { return k.cameras }) {
		n.add(ACamera, c, c.name, c.at.Labels[0].Span, true)
	}
	for _, l := range all(n.season, func(k *kit) []*lens { return k.lenses }) {
		n.add(ALens, l, l.name, l.at.Labels[0].Span, true)
	}
	for _, f := range all(n.season, func(k *kit) []*film { return k.films }) {
		n.add(AFilm, f, f.name, f.at.Labels[0].Span, true)
	}
	for _, f := range all(n.season, func(k *kit) []*filter { return k.filters }) {
		n.add(AFilter, f, f.name, f.at.Labels[0].Span, true)
	}
	for _, m := range all(n.season, func(k *kit) []*meter { return k.meters }) {
		n.add(AMeter, m, m.name, m.at.Labels[0].Span, true)
	}
}

// statement finds the names in one line: in its text where it chooses a thing,
// else in its terms.
func (n *naming) statement(st *lang.Statement) {
	switch {
	case len(st.Labels) == 0 && (st.Word == lang.Camera || st.Word == lang.Lens || st.Word == lang.Film), st.Word == lang.Load:
		n.chosen(st.Word, st.TextSpan())
	}
	for i := range st.Terms {
		switch k := st.Terms[i].Kind.(type) {
		case *lang.Stack:
			n.filters(k.Filters, st.Terms[i].Span)
		case *lang.With:
			n.filters([]lang.Filter{k.Filter}, st.Terms[i].Span)
		case *lang.Choose:
			n.choose(st.Terms[i].Span)
		}
	}
}

// chosen is the name with which the text of a line begins.
func (n *naming) chosen(word lang.Word, text source.Span) {
	whole := text.Text()
	name, _, _ := strings.Cut(whole, ",")
	name = strings.TrimRight(name, ". ")
	at := text.Sub(0, len(name))
	switch word {
	case lang.Camera:
		if c, ok := find(n.kit.cameras, name); ok {
			n.add(ACamera, c, c.name, at, false)
		}
	case lang.Lens:
		if l, ok := find(n.kit.lenses, name); ok {
			n.add(ALens, l, l.name, at, false)
		}
	default:
		if f, ok := find(n.kit.films, name); ok {
			n.add(AFilm, f, f.name, at, false)
		}
	}
}

// choose is a term such as "lens 300".
func (n *naming) choose(at source.Span) {
	text := at.Text()
	word, name, _ := strings.Cut(text, " ")
	start := len(text) - len(strings.TrimLeft(name, " \t"))
	switch w := lang.Word(strings.ToLower(word)); w {
	case lang.Camera, lang.Lens, lang.Film:
		n.chosen(w, at.Sub(start, len(text)))
	}
}

// filters are the filters of a stack, each where it stands between the pluses.
func (n *naming) filters(all []lang.Filter, at source.Span) {
	from := 0
	text := at.Text()
	for _, f := range all {
		found, _, _ := n.kit.filter(f.Name)
		start := strings.Index(strings.ToLower(text[from:]), strings.ToLower(f.Name))
		if start < 0 {
			continue // in other typography than it was read in
		}
		start += from
		from = start + len(f.Name)
		if found != nil {
			n.add(AFilter, found, found.name, at.Sub(start, from), false)
		}
	}
}

// sheets are the labels of the lines that speak of a sheet, and what `same as`
// names.
func (n *naming) sheets() {
	for _, sh := range n.season.sheets {
		first := true
		for _, st := range sh.lines {
			for _, l := range st.Labels {
				if !strings.EqualFold(l.Text, sh.label) {
					continue
				}
				alone := strings.EqualFold(l.Span.Text(), l.Text)
				n.all = append(n.all, Naming{Span: l.Span, Of: sh, Kind: ASheet, Declares: first, Range: !alone, Exact: alone})
				first = false
			}
		}
		n.copied(sh)
	}
}

func (n *naming) copied(sh *sheet) {
	if sh.sameAs == nil {
		return
	}
	for _, st := range sh.lines {
		for i := range st.Terms {
			k, ok := st.Terms[i].Kind.(*lang.Same)
			if !ok || k.Label == "" {
				continue
			}
			text := st.Terms[i].Span.Text()
			if start := strings.LastIndex(strings.ToLower(text), strings.ToLower(k.Label)); start >= 0 {
				n.add(ASheet, sh.sameAs, sh.sameAs.label, st.Terms[i].Span.Sub(start, start+len(k.Label)), false)
			}
		}
	}
}
