package query

import (
	"cmp"
	"slices"
	"strings"

	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/pattern"
)

// Index finds out what every sheet of a finished season can be found by.
func Index(s *record.Season) *record.Finder {
	x := &indexer{season: s, terms: map[string]*record.Findable{}, dates: map[string]*record.Findable{}, words: map[string]*record.Findable{}, figures: map[string]bool{}, several: map[*record.Sheet]bool{}}
	x.learn()
	x.always()
	for _, sh := range s.Sheets {
		if strings.Trim(sh.Label, "0123456789") == "" {
			x.figures[sh.Label] = true
		}
	}
	for _, sh := range s.Sheets {
		if sh.Before != nil {
			x.several[sh.First()] = true
		}
	}
	near := x.nearby()
	for i, sh := range s.Sheets {
		x.at = i
		x.sheet(sh)
		for _, text := range near[sh] {
			x.said(text)
		}
	}
	x.codes()
	x.called()
	plain := map[string]string{}
	for r, text := range Plain() {
		plain[string(r)] = text
	}
	return &record.Finder{Plain: plain, Terms: sorted(x.terms), Dates: sorted(x.dates), Words: sorted(x.words), Sheets: len(s.Sheets)}
}

// indexer is an index in the making.
type indexer struct {
	season              *record.Season
	at                  int                    // the sheet that is being looked at
	several             map[*record.Sheet]bool // the first of several exposures on one piece of film
	terms, dates, words map[string]*record.Findable
	figures             map[string]bool // labels that are a number and nothing else

	notes
	wordsOf map[string][]string // of a text that was met before
}

// is gives the sheet a term; how it is spelled is asked once.
func (x *indexer) is(name string, spelled func() []string) { x.mark(x.know(name, spelled)) }

// know has a term, if only to say that no sheet is so.
func (x *indexer) know(name string, spelled func() []string) *record.Findable {
	f := x.terms[name]
	if f == nil {
		f = &record.Findable{Name: name}
		for _, s := range spelled() {
			f.Spelled = append(f.Spelled, clean(s))
		}
		x.terms[name] = f
	}
	return f
}

// as is the spellings that are known beforehand.
func as(spelled ...string) func() []string { return func() []string { return spelled } }

// clean is a spelling as a query is split: folded, with one blank between items.
func clean(spelled string) string {
	var all []string
	for _, it := range split(spelled) {
		all = append(all, it.text)
	}
	return strings.Join(all, " ")
}

func (x *indexer) mark(f *record.Findable) {
	last := len(f.Sheets) - 1
	switch {
	case last >= 0 && f.Sheets[last].First+f.Sheets[last].Count > x.at:
	case last >= 0 && f.Sheets[last].First+f.Sheets[last].Count == x.at:
		f.Sheets[last].Count++
	default:
		f.Sheets = append(f.Sheets, record.Run{First: x.at, Count: 1})
	}
}

// said gives the sheet the words of a text.
func (x *indexer) said(text string) {
	words, met := x.wordsOf[text]
	if !met {
		words = Words(text)
		x.wordsOf[text] = words
	}
	for _, w := range words {
		put(x.words, w)
		x.mark(x.words[w])
	}
	if len(x.figures) > 0 {
		x.counted(text)
	}
	if slices.ContainsFunc(words, func(w string) bool { return slices.Contains(sides, w) }) {
		for _, m := range behindSide().FindAllStringSubmatch(Fold(text), -1) {
			if _, next, _ := strings.Cut(m[1], " "); !slices.Contains(joining, next) {
				x.phrase(m[1])
				x.phrase(m[1] + m[2])
			}
		}
	}
}

// phrase gives the sheet words that mean themselves where they stand so.
func (x *indexer) phrase(words string) { x.is("\u201c"+words+"\u201d", as(words)) }

// behindSide is what lies under, over or off something, and no exposure: under the footbridge.
var behindSide = pattern.Lazily(`\b((?:` + strings.Join(sides, "|") + `) \p{L}+)( \p{L}+)?`)

// counted gives the sheet the words that stand before a number in a text, with it, where
// the number alone is the label of a sheet: grade 3 is not sheet 3.
func (x *indexer) counted(text string) {
	for _, m := range counted().FindAllStringSubmatch(Fold(text), -1) {
		if x.figures[m[2]] && !slices.Contains(named, m[1]) {
			x.phrase(m[1] + " " + m[2])
		}
	}
}

var counted = pattern.Lazily(`(\p{L}{2,}) (\d{1,4})(?:[^\p{L}\p{N}/.:+-]|$)`)

// named are words that name things by their numbers, which are terms of their own.
var named = []string{"sheet", "sheets", "holder", "side", "neg", "negative", "lens", "filter", "film", "zone", "ev", "ei", "iso", "wratten", "ext"}

func put(all map[string]*record.Findable, name string) {
	if all[name] == nil {
		all[name] = &record.Findable{Name: name}
	}
}

func sorted(all map[string]*record.Findable) []record.Findable {
	var out []record.Findable
	for _, f := range all {
		slices.Sort(f.Spelled)
		f.Spelled = slices.DeleteFunc(slices.Compact(f.Spelled), func(s string) bool { return s == "" || strings.Contains(s, "|") })
		out = append(out, *f)
	}
	slices.SortFunc(out, func(a, b record.Findable) int { return cmp.Compare(a.Name, b.Name) })
	return out
}

// nearby is the prose around each sheet: what stands between the scene, or the
// heading above it, and the next; what stands right above its scene's line, which may be of either; and what stands above all
// headings of its day.
func (x *indexer) nearby() map[*record.Sheet][]string {
	near := map[*record.Sheet][]string{}
	for _, o := range x.season.Outings {
		var texts []string
		var last int // how many of them stand above the last line that is no prose
		var sheets []*record.Sheet
		begun := false // a scene or a sheet stands below the heading
		headed := false
		var intro []string // above all headings, scenes and sheets of the day: it is of all of them
		end := func() {
			for _, sh := range sheets {
				near[sh] = append(near[sh], texts...)
			}
			texts, sheets, begun, last = nil, nil, false, 0
		}
		for _, e := range o.Entries {
			switch {
			case e.Prose != nil && e.Prose.Kind == record.Heading && !headed && !begun:
				intro, texts = texts, nil
			case e.Scene != nil && begun:
				above := texts[last:]
				end()
				texts = slices.Clone(above)
			case e.Prose != nil && e.Prose.Kind == record.Heading:
				end()
			}
			headed = headed || e.Prose != nil && e.Prose.Kind == record.Heading
			if e.Prose == nil {
				last = len(texts)
			}
			switch {
			case e.Prose != nil:
				texts = append(texts, blockText(*e.Prose))
			case e.Line != nil && e.Line.Word == string(lang.Private):
				texts = append(texts, e.Line.Text) // a record to be handed on has none
			case e.Scene != nil:
				begun = true
			case e.Sheet != nil:
				begun = true
				sheets = append(sheets, e.Sheet)
			}
		}
		end()
		if len(intro) > 0 {
			for _, sh := range o.Sheets {
				near[sh] = append(near[sh], intro...)
			}
		}
	}
	return near
}

func blockText(b record.Block) string {
	all := []string{b.Code, inlineText(b.Text)}
	for _, inner := range b.Blocks {
		all = append(all, blockText(inner))
	}
	return strings.TrimSpace(strings.Join(all, " "))
}

// inlineText joins what belongs to one word, however it is set.
func inlineText(all []record.Inline) string {
	var b strings.Builder
	for _, in := range all {
		b.WriteString(in.Text)
		b.WriteString(inlineText(in.Inlines))
		if in.Kind == record.SoftBreak || in.Kind == record.HardBreak {
			b.WriteByte(' ')
		}
	}
	return b.String()
}
