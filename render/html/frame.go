package html

import (
	"bytes"
	"slices"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// The frame around every page: what a browser must know, the way to the record's
// parts, and the foot.

// Write takes what a template has written, which has escaped it.
func (m *markup) Write(b []byte) (int, error) {
	m.out = append(m.out, b...)
	return len(b), nil
}

// draw renders one page, in memory for whoever has written it to give back.
func (w *site) draw(p *page) (*markup, error) {
	m := newMarkup()
	defer m.spare()
	p.head(m)
	if err := templates().ExecuteTemplate(m, p.Template, p); err != nil {
		return nil, err
	}
	p.foot(m)
	whole := newMarkup()
	whole.out = wholeTimes(whole.out, m.out)
	return whole, nil
}

// wholeTimes appends a page to out, with hard blanks in its times, so that none is broken
// between its minutes and its seconds, whoever wrote it there. What was typed stays as it
// was: see markup.typed.
func wholeTimes(out, page []byte) []byte {
	from, code, seen := 0, false, 0 // whether page[:seen] ends within what was typed
	for i := 0; ; i++ {
		next := bytes.IndexByte(page[i:], ' ')
		if next < 0 {
			return append(out, page[from:]...)
		}
		if i += next; !saying.InTime(page[:i], page[i+1:]) {
			continue
		}
		for {
			tag := bytes.Index(page[seen:i], codeTag)
			if tag < 0 {
				break
			}
			seen += tag
			code = page[seen-1] == '<' // and not </code>
			seen += len(codeTag)
		}
		if !code {
			out = append(append(out, page[from:i]...), "\u00a0"...)
			from = i + 1
		}
	}
}

// codeTag ends a tag around what was typed, and no other: no text has a > of its own.
var codeTag = []byte("code>")

const (
	pageBegin = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; `
	policyEnd = `style-src 'self'; img-src 'self'; font-src 'self'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
`
)

func (p *page) head(m *markup) {
	live, season := p.site.opt.Live, p.site.season
	m.put(pageBegin)
	if live != "" || p.looks() || p.Template == "find" {
		m.put("script-src 'self'; ")
	}
	if live != "" {
		m.put("connect-src 'self'; ")
	}
	m.put(policyEnd)
	if g := p.site.opt.Generator; g != "" {
		m.put(`<meta name="generator" content="`).text(g).put("\">\n")
	}
	m.put("<title>").text(p.Title)
	if p.Title != season.Title {
		m.put(" – ").text(season.Title)
	}
	m.put("</title>\n", `<link rel="stylesheet" href="style.css">`)
	if p.Template == "find" {
		m.put("\n", `<script src="find-index.js" defer></script>`, "\n", `<script src="find.js" defer></script>`)
	}
	if p.looks() {
		m.put("\n", `<script src="look.js" defer></script>`)
	}
	if live != "" {
		m.put("\n<script").link("src", live).put(" defer></script>")
	}
	m.put("\n</head>\n<body>\n", `<a class="skip" href="#page.content">To the content</a>`, "\n", `<header class="top">`, "\n", `<nav aria-label="Record">`, "\n<ul>")
	p.links(m, p.nav())
	m.put("\n</ul>")
	if p.Template == "lookup" {
		m.put("\n", `<ul class="lookup-nav">`)
		p.links(m, p.site.lookup)
		m.put("\n</ul>")
	}
	m.put("\n</nav>\n</header>\n", `<main id="page.content" class="`).text(p.Template).put(`">`, "\n<h1>").text(p.Title).put("</h1>")
	p.parts(m)
	m.put("\n")
}

func (p *page) foot(m *markup) {
	season := p.site.season
	p.parts(m)
	m.put("\n</main>\n", `<footer class="bottom">`, "\n")
	for _, c := range season.Cautions {
		m.put(`<p class="caution">`).text(c).put("</p>\n")
	}
	m.put("<p>")
	if season.LastDay != "" && !p.ofOuting() {
		m.put("Notes up to ").text(season.LastDay).put(". ")
	}
	m.put("Made ")
	if g := p.site.opt.Generator; g != "" {
		m.put("by ").text(g).put(" ")
	}
	from := "the notebooks"
	if !p.ofOuting() {
		from = saying.Count(len(season.Notebooks), "notebook")
	}
	m.put(`from <a href="colophon.html">`).text(from).put("</a>; the scans stay where they are.</p>\n</footer>\n</body>\n</html>\n")
}

// ofOuting reports whether the page is of one outing. Such a page says nothing of the
// season as it stands: it stays the same file, to the byte, when others go on.
func (p *page) ofOuting() bool {
	return p.Template == "outing" || p.Template == "scene" || p.Template == "pictures"
}

// nav is the way to the record's parts, with how much there is in each.
func (p *page) nav() []link {
	if !p.ofOuting() {
		return p.site.nav
	}
	plain := slices.Clone(p.site.nav)
	for i := range plain {
		plain[i].Count = 0
	}
	return plain
}

// looks reports whether the page has pictures that the script turns or wipes.
func (p *page) looks() bool { return p.Template == "scene" || p.Template == "pictures" }

// parts are the ways to the other parts of a list.
func (p *page) parts(m *markup) {
	each(m, "\n<nav class=\"parts\" aria-label=\"Parts of this page\"><span>Part</span>\n<ul>", p.Parts, func(l link) {
		m.item(l, l.Here)
	}, "\n</ul>\n</nav>")
}

// links is a list of links, in which the one that leads to this page says so.
func (p *page) links(m *markup, all []link) {
	for _, l := range all {
		m.item(l, l.URL == p.Name)
	}
}

// item is a link in a list.
func (m *markup) item(l link, here bool) {
	m.put("\n<li><a").link("href", l.URL)
	if here {
		m.put(` aria-current="page"`)
	}
	m.put(">").text(l.Text).put("</a>")
	if l.Count > 0 {
		m.put(` <span class="n">`).number(l.Count).put("</span>")
	}
	m.put("</li>")
}

// What the templates ask of a page.

// Body is what the page shows, made when the page is drawn: a season's pages
// together would not fit in memory.
func (p *page) Body() any { return p.body() }

func (p *page) Season() *record.Season { return p.site.season }
func (p *page) Generator() string      { return p.site.opt.Generator }
func (p *page) Book() string           { return p.site.opt.Book }
func (p *page) Data() []Datum          { return p.site.opt.Data }
func (p *page) Lookup() []link         { return p.site.lookup }
