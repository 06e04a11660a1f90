package html

import (
	"strings"

	"notchbook/compile/record"
)

// block is a record.Block made ready for the templates: levels settled, links
// checked, pictures found. The templates know a closed set of kinds and no
// text of the notes ever becomes anything but text, so there is nothing here to
// escape and no way to smuggle an element in.
type block struct {
	record.Block
	Level  int  // Heading: 2-6
	Plain  bool // Paragraph: of a tight list, without a paragraph of its own
	Text   []inline
	Blocks []block
}

// inline is a record.Inline made ready.
type inline struct {
	record.Inline
	URL     string // where a link leads; "" shows only its text
	Away    bool   // URL leaves the season
	Thumb   thumb  // Picture: its thumbnail, if there is one
	Inlines []inline
}

// HeadRows and BodyRows part a table's head from its body.
func (b block) HeadRows() []block { return b.rows(true) }
func (b block) BodyRows() []block { return b.rows(false) }

func (b block) rows(head bool) []block {
	var out []block
	for _, r := range b.Blocks {
		if r.Head == head {
			out = append(out, r)
		}
	}
	return out
}

func (w *site) block(b record.Block, heads *headings, tight bool) block {
	out := block{Block: b, Plain: tight, Text: w.inlines(b.Text)}
	if b.Kind == record.Heading {
		out.Level = heads.level(b.Level)
	}
	// A list's tightness is said of the list and felt by its items' paragraphs.
	inner := b.Kind == record.List && b.Tight || b.Kind == record.ListItem && tight
	for _, x := range b.Blocks {
		out.Blocks = append(out.Blocks, w.block(x, heads, inner))
	}
	return out
}

func (w *site) inlines(text []record.Inline) []inline {
	var out []inline
	for _, in := range text {
		x := inline{Inline: in, Inlines: w.inlines(in.Inlines)}
		if x.URL = webURL(in.Target.URL); x.URL != "" {
			x.Away = true
		} else {
			x.URL = w.fileURL(in.Target.Path)
		}
		if in.Kind == record.Picture {
			x.Thumb = w.thumbs[in.Target.Path]
		}
		out = append(out, x)
	}
	return out
}

// plain is the text of inlines without their structure.
func plain(text []record.Inline) string {
	var b strings.Builder
	for _, in := range text {
		switch in.Kind {
		case record.SoftBreak, record.HardBreak:
			b.WriteByte(' ')
		default:
			b.WriteString(in.Text)
			b.WriteString(plain(in.Inlines))
		}
	}
	return b.String()
}
