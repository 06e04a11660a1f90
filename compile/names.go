package compile

import (
	"strings"

	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/source"
)

// Naming is one place where the notes name a thing of the kit or a sheet.
type Naming struct {
	Span     source.Span
	Of       any  // equal for all names of one thing, comparable, else opaque
	Kind     Kind // of the thing
	Declares bool // the line that declares the thing, or logs the sheet first
	Exact    bool // written as the thing is called, and not by a number or a colour

	// Range is the sides of the range that stands here, 1A-3B, of which the sheet
	// is the one at Index; nil where its label stands alone.
	Range []string
	Index int
}

// Renamed is what stands here when the thing is called otherwise. A range is
// taken apart around the sheet: 1A-3B becomes "1A-2A 7C 3A-3B".
func (n Naming) Renamed(name string) string {
	if n.Range == nil {
		return name
	}
	var parts []string
	for _, p := range []string{run(n.Range[:n.Index]), name, run(n.Range[n.Index+1:])} {
		if p != "" {
			parts = append(parts, p)
		}
	}
	return strings.Join(parts, " ")
}

func run(labels []string) string {
	switch len(labels) {
	case 0:
		return ""
	case 1:
		return labels[0]
	}
	return labels[0] + "-" + labels[len(labels)-1]
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

// Scans is the files, by their paths in the season's folder, that are scans of
// the sheet of a name.
func (c *Checked) Scans(of Naming) []string {
	sh, ok := of.Of.(*sheet)
	if !ok {
		return nil
	}
	var all []string
	for _, scan := range c.Record().Sheets[sh.index].Scans {
		if scan.State == record.Present {
			all = append(all, scan.Path)
		}
	}
	return all
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
	all := st.Terms()
	switch {
	case len(st.Labels) == 0 && (st.Word == lang.Camera || st.Word == lang.Lens || st.Word == lang.Film), st.Word == lang.Load:
		n.chosen(st.Word, st.TextSpan())
	}
	if readsBy(st) {
		n.meter(st.Labels[0].Text, st.Labels[0].Span)
	}
	for i := range all {
		switch k := all[i].Kind.(type) {
		case *lang.Exposure:
			for _, word := range k.Name {
				if start := strings.Index(all[i].Span.Text(), word); start >= 0 {
					n.meter(word, all[i].Span.Sub(start, start+len(word)))
				}
			}
		case *lang.Stack:
			n.filters(k.Filters, all[i].Span)
		case *lang.With:
			n.filters([]lang.Filter{k.Filter}, all[i].Span)
		case *lang.Choose:
			n.choose(all[i].Span)
		}
	}
}

// meter is a meter that a reading is by.
func (n *naming) meter(name string, at source.Span) {
	if m, ok := find(n.kit.meters, name); ok {
		n.add(AMeter, m, m.name, at, false)
	}
}

// chosen is the name with which the text of a line begins.
func (n *naming) chosen(word lang.Word, text source.Span) {
	name, _, _ := strings.Cut(lang.Unstruck(text.Text()), ",")
	name = strings.TrimRight(name, ". ?")
	end := len(name)
	name = strings.TrimLeft(name, " ")
	at := text.Sub(end-len(name), end)
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

// sheets are the labels of the lines that speak of a sheet, that of the line which
// loaded its film, and what `same as` names.
func (n *naming) sheets() {
	loads := n.loads()
	for _, sh := range n.season.sheets {
		first := true
		for _, st := range sh.lines {
			first = !n.labelled(sh, sh.label, st, first) && first
		}
		if l, ok := loads[sh]; ok {
			n.labelled(sh, l.label, l.st, false)
		}
		n.copied(sh)
	}
}

// labelled adds the labels of a line that mean a sheet, and says whether there
// are any.
func (n *naming) labelled(sh *sheet, label string, st *lang.Statement, declares bool) (any bool) {
	for i, l := range st.Labels {
		if l.Day.File != nil && n.dated[l] != sh || l.Day.File == nil && !strings.EqualFold(l.Text, label) {
			continue
		}
		at := Naming{Span: l.Span, Of: sh, Kind: ASheet, Declares: declares && !any}
		at.Exact = strings.EqualFold(l.Span.Text(), l.Text)
		if !at.Exact {
			from, to := i, i+1
			for from > 0 && st.Labels[from-1].Span == l.Span {
				from--
			}
			for to < len(st.Labels) && st.Labels[to].Span == l.Span {
				to++
			}
			for _, one := range st.Labels[from:to] {
				at.Range = append(at.Range, one.Text)
			}
			at.Index = i - from
		}
		n.all = append(n.all, at)
		any = true
	}
	return any
}

// loadedAt is where a side was loaded, by the label of that side.
type loadedAt struct {
	label string
	st    *lang.Statement
}

// loads is for each sheet the line that put its film into its side.
func (n *naming) loads() map[*sheet]loadedAt {
	loads := map[*sheet]loadedAt{}
	for _, side := range n.season.sides {
		var last *lang.Statement
		for _, e := range side.events {
			switch {
			case e.open != nil:
				last = nil
			case e.kind == sideLoaded:
				last = e.st
			case e.kind == sideExposed:
				if last != nil && e.sheet != nil {
					loads[e.sheet], last = loadedAt{side.label, last}, nil
				}
			}
		}
	}
	return loads
}

func (n *naming) copied(sh *sheet) {
	if sh.sameAs == nil {
		return
	}
	for _, st := range sh.lines {
		for i := range st.Terms() {
			k, ok := st.Terms()[i].Kind.(*lang.Same)
			if !ok || k.Label == "" {
				continue
			}
			text := st.Terms()[i].Span.Text()
			if start := strings.LastIndex(strings.ToLower(text), strings.ToLower(k.Label)); start >= 0 {
				n.add(ASheet, sh.sameAs, sh.sameAs.label, st.Terms()[i].Span.Sub(start, start+len(k.Label)), false)
			}
		}
	}
}
