package html

import (
	"html/template"
	"strconv"
	"strings"
	"sync"

	"notchbook/lang/pattern"
	"notchbook/render/saying"
)

// What a season has thousands of (entries, rows, drawings) is written by Go code
// and not by a template, which would take several times as long. The one door for
// a text of the record is markup.text, which escapes it; what is put as it stands
// has to be a constant of this program, and the compiler sees to that: a string
// is no constant.

// constant is HTML that stands in this program.
type constant string

// markup is a stretch of HTML in the making.
type markup struct{ out []byte }

// put writes constants as they are.
func (m *markup) put(parts ...constant) *markup {
	for _, p := range parts {
		m.out = append(m.out, p...)
	}
	return m
}

// text writes a text, for between tags and for within a quoted attribute.
func (m *markup) text(s string) *markup {
	from := 0
	for i := range len(s) {
		if safe := escaped[s[i]]; safe != "" {
			m.out = append(append(m.out, s[from:i]...), safe...)
			from = i + 1
		}
	}
	m.out = append(m.out, s[from:]...)
	return m
}

// escaped is what stands for the bytes that HTML would take for its own (HTML
// Living Standard, sections 13.1.2 and 13.2.5); NUL may not stand in a page.
var escaped = [256]constant{'&': "&amp;", '<': "&lt;", '>': "&gt;", '"': "&#34;", '\'': "&#39;", 0: "\uFFFD"}

// dated writes a text whose calendar days are not broken at their hyphens.
func (m *markup) dated(s string) *markup {
	from := 0
	for _, at := range calendarDay().FindAllStringIndex(s, -1) {
		m.text(s[from:at[0]]).put(`<span class="day">`).text(s[at[0]:at[1]]).put("</span>")
		from = at[1]
	}
	return m.text(s[from:])
}

// typed writes a line as typed, and keeps its times whole without changing a byte.
func (m *markup) typed(s string) *markup {
	from := 0
	for _, at := range timeOfTwo().FindAllStringIndex(s, -1) {
		m.text(s[from:at[0]]).put(`<span class="day">`).text(s[at[0]:at[1]]).put("</span>")
		from = at[1]
	}
	return m.text(s[from:])
}

var timeOfTwo = pattern.Later(`\b\d+ ?(h|m|min) \d+ ?(s|sec|m|min)?\b`)

var calendarDay = pattern.Later(`\b\d{4}-\d\d-\d\d\b`)

// joined writes what there is of the parts, with sep between. No line ends between a
// figure and its unit.
func (m *markup) joined(sep constant, parts ...string) *markup {
	any := false
	for _, p := range parts {
		if p == "" {
			continue
		}
		if any {
			m.put(sep)
		}
		m.text(saying.Bind(p))
		any = true
	}
	return m
}

// middot parts words of different kinds; it stays on the line of what it follows.
const middot = "\u00a0· "

// number writes a count.
func (m *markup) number(n int) *markup {
	m.out = strconv.AppendInt(m.out, int64(n), 10)
	return m
}

// link begins an attribute that leads somewhere: ` href="…"`. Addresses are made
// by this package or checked by it (see links.go); should one be neither, it leads
// nowhere.
func (m *markup) link(attribute constant, url string) *markup {
	if scheme, _, ok := strings.Cut(url, ":"); ok && !strings.ContainsAny(scheme, "/?#") && webURL(url) == "" {
		url = "#"
	}
	return m.put(" ", attribute, `="`).text(url).put(`"`)
}

// each writes what list holds, or nothing at all.
func each[T any](m *markup, before constant, list []T, one func(T), after constant) {
	if len(list) == 0 {
		return
	}
	m.put(before)
	for _, x := range list {
		one(x)
	}
	m.put(after)
}

// html is what was written.
func (m *markup) html() template.HTML { return template.HTML(m.out) }

// piece is what a function writes, for a template.
func piece(write func(*markup)) template.HTML {
	m := newMarkup()
	defer m.spare()
	write(m)
	return m.html()
}

// spares are stretches that are written and read, in whose memory others are made: a
// season is drawn in that of a few pages.
var spares = sync.Pool{New: func() any { return &markup{make([]byte, 0, 16<<10)} }}

// newMarkup is an empty stretch.
func newMarkup() *markup {
	m := spares.Get().(*markup)
	m.out = m.out[:0]
	return m
}

// spare gives back a stretch that nobody reads any more.
func (m *markup) spare() { spares.Put(m) }
