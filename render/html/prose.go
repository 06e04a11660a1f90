package html

import (
	"cmp"
	"strings"

	"notchbook/compile/record"
)

// The prose where it stood. The kinds of Markdown are a closed set, and no text of
// the notes ever becomes anything but text: raw HTML has come here as words.

// prose writes a block; tight is the inside of a list whose items are no
// paragraphs of their own.
func (w *site) prose(m *markup, b record.Block, heads *headings, tight bool) {
	switch b.Kind {
	case record.Paragraph:
		if tight {
			w.inlines(m, b.Text)
			return
		}
		m.put("\n<p>")
		w.inlines(m, b.Text)
		m.put("</p>")
	case record.Heading:
		tag := headingTags[heads.level(b.Level)]
		m.put("\n<", tag, ">")
		w.inlines(m, b.Text)
		m.put("</", tag, ">")
	case record.List:
		if !b.Ordered {
			m.put("\n<ul>")
			w.blocks(m, b.Blocks, heads, b.Tight)
			m.put("\n</ul>")
			return
		}
		m.put("\n", `<ol start="`).number(b.Start).put(`">`)
		w.blocks(m, b.Blocks, heads, b.Tight)
		m.put("\n</ol>")
	case record.ListItem:
		m.put(tasks[b.Task])
		w.blocks(m, b.Blocks, heads, tight)
		m.put("</li>")
	case record.Quote:
		m.put("\n<blockquote>")
		w.blocks(m, b.Blocks, heads, false)
		m.put("\n</blockquote>")
	case record.Code:
		m.put("\n<pre")
		m.title(b.Info)
		m.put("><code>").text(b.Code).put("</code></pre>")
	case record.Rule:
		m.put("\n<hr>")
	case record.Table:
		w.table(m, b.Blocks)
	default:
		w.inlines(m, b.Text)
		w.blocks(m, b.Blocks, heads, false)
	}
}

func (w *site) blocks(m *markup, all []record.Block, heads *headings, tight bool) {
	for _, b := range all {
		w.prose(m, b, heads, tight)
	}
}

var (
	headingTags = [...]constant{2: "h2", 3: "h3", 4: "h4", 5: "h5", 6: "h6"}

	tasks = map[string]constant{
		"":  "\n<li>",
		"x": "\n<li class=\"task\"><span role=\"img\" aria-label=\"done\">☑</span> ",
		" ": "\n<li class=\"task\"><span role=\"img\" aria-label=\"open\">☐</span> ",
	}

	aligned = map[string]constant{"left": ` class="to-left"`, "center": ` class="to-center"`, "right": ` class="to-right"`}
)

// table writes a table; its head is the rows that say so.
func (w *site) table(m *markup, rows []record.Block) {
	m.put("\n", `<div class="wide" role="region" aria-label="Table from the notes" tabindex="0"><table>`)
	if len(rows) > 0 && rows[0].Head {
		m.put("\n<thead>")
		w.rowsOf(m, rows, true, `<th scope="col"`, "</th>")
		m.put("</thead>")
	}
	m.put("\n<tbody>")
	w.rowsOf(m, rows, false, "<td", "</td>")
	m.put("\n</tbody></table></div>")
}

func (w *site) rowsOf(m *markup, rows []record.Block, head bool, open, shut constant) {
	for _, r := range rows {
		if r.Head != head {
			continue
		}
		m.put("\n<tr>")
		for _, c := range r.Blocks {
			m.put(open, aligned[c.Align], ">")
			w.inlines(m, c.Text)
			m.put(shut)
		}
		m.put("</tr>")
	}
}

func (w *site) inlines(m *markup, text []record.Inline) {
	within := func(open constant, in record.Inline, shut constant) {
		m.put(open)
		w.inlines(m, in.Inlines)
		m.put(shut)
	}
	for _, in := range text {
		switch in.Kind {
		case record.Words:
			m.text(in.Text)
		case record.CodeSpan:
			m.put("<code>").text(in.Text).put("</code>")
		case record.Emphasis:
			within("<em>", in, "</em>")
		case record.Strong:
			within("<strong>", in, "</strong>")
		case record.Struck:
			within("<s>", in, "</s>")
		case record.Link:
			w.anchor(m, in, func() { w.inlines(m, in.Inlines) })
		case record.Picture:
			w.pictured(m, in)
		case record.SoftBreak:
			m.put("\n")
		case record.HardBreak:
			m.put("<br>")
		default:
			m.text(in.Text)
			w.inlines(m, in.Inlines)
		}
	}
}

// anchor writes what leads somewhere: a link where it may be followed, else its
// text alone.
func (w *site) anchor(m *markup, in record.Inline, inside func()) {
	away := webURL(in.Target.URL)
	url := cmp.Or(away, w.fileURL(in.Target.Path))
	switch {
	case url == "" && in.Title == "":
		inside()
		return
	case url == "":
		m.put("<span")
		m.title(in.Title)
		m.put(">")
		inside()
		m.put("</span>")
		return
	}
	m.put("<a").link("href", url)
	if away != "" {
		m.put(` rel="noreferrer"`)
	}
	m.title(in.Title)
	m.put(">")
	inside()
	m.put("</a>")
}

// title writes what is shown when one points at a thing.
func (m *markup) title(text string) {
	if text != "" {
		m.put(` title="`).text(text).put(`"`)
	}
}

// pictured writes a picture of the prose: as a picture where there is a thumbnail
// of it, else as the link that it is.
func (w *site) pictured(m *markup, in record.Inline) {
	t := w.thumbs[in.Target.Path]
	w.anchor(m, in, func() {
		if t.Name == "" {
			m.text(cmp.Or(in.Text, "picture"))
			return
		}
		m.picture(t, cmp.Or(in.Text, "Picture"), true)
	})
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
