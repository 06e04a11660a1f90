package lang

import (
	"regexp"
	"strings"

	"github.com/yuin/goldmark/ast"

	"notchbook/lang/source"
)

// Comments and elements of HTML are text to the notation, so that an unclosed one hides
// nothing. Of what is private those that are closed, on a later line of the same day, are
// the bounds.

// element is a comment, or an element of HTML, of several lines.
type element struct {
	first, last int // lines
	from        int // in the text of the first, where it is opened
	close, end  int // in the text of the last, from where to where it is closed
	lead        int // the line on which its own text begins
	comment     bool
	cleared     bool
}

// elements are those of a notebook by the lines on which they are looked for: comments by
// all theirs, others by that on which their text begins.
type elements struct{ comments, others map[int]*element }

var htmlMark = regexp.MustCompile(`<!--|-->|<(/?)([A-Za-z][A-Za-z0-9]*)[^<>]*>`)

func (r *redactor) findElements() elements {
	all := elements{map[int]*element{}, map[int]*element{}}
	type opened struct {
		name     string
		line, at int
	}
	var open []opened
	count := map[string]int{}
	text := make([]int, len(r.lines)+1) // by line: the next one that has more than marks of HTML
	text[len(r.lines)] = len(r.lines)
	for n := len(r.lines) - 1; n >= 0; n-- {
		if text[n] = n; strings.Trim(withoutHTML(r.lines[n].text), " \t>") == "" {
			text[n] = text[n+1]
		}
	}
	closed := func(n int, at []int) {
		from := open[len(open)-1]
		if from.line == n {
			return
		}
		e := &element{comment: from.name == "<!--", first: from.line, from: from.at, last: n, close: at[0], end: at[1], lead: text[from.line+1]}
		if strings.TrimSpace(withoutHTML(r.lines[from.line].text[from.at:])) != "" {
			e.lead = from.line
		}
		if !e.comment {
			all.others[e.lead] = e // the outer one closes later
			return
		}
		for i := e.first; i <= e.last; i++ {
			all.comments[i] = e
		}
	}
	for n := range r.lines {
		if r.days[n] == n {
			open, count = open[:0], map[string]int{}
		}
		if k := r.leaf[n].kind(); !strings.ContainsAny(r.lines[n].text, "<>") || k == ast.KindCodeBlock || k == ast.KindFencedCodeBlock {
			continue
		}
		for _, at := range htmlMark.FindAllStringSubmatchIndex(r.lines[n].text, -1) {
			name := r.lines[n].text[at[0]:at[1]]
			inComment := len(open) > 0 && open[len(open)-1].name == "<!--"
			switch {
			case name == "-->":
				if inComment {
					closed(n, at)
					open = open[:len(open)-1]
				}
				continue
			case inComment:
				continue
			case name == "<!--":
				open = append(open, opened{name, n, at[0]})
				continue
			}
			name = lower(r.lines[n].text[at[4]:at[5]])
			if at[2] == at[3] {
				open = append(open, opened{name, n, at[0]})
				count[name]++
				continue
			}
			for count[name] > 0 {
				top := open[len(open)-1]
				if top.name == name {
					closed(n, at)
				}
				open, count[top.name] = open[:len(open)-1], count[top.name]-1
				if top.name == name {
					break
				}
			}
		}
	}
	return all
}

// hideElement takes out what belongs to a private remark on line n by HTML: the rest of the
// comment that it stands in, and all of the comment or element that begins with it.
func (r *redactor) hideElement(n int) {
	if e := r.elements.comments[n]; e != nil {
		r.clear(e, n)
	}
	if e := r.elements.others[n]; e != nil && r.leads(n) {
		r.clear(e, n)
	}
}

// leads reports whether a line begins with what is private, behind marks of HTML.
func (r *redactor) leads(n int) bool {
	return privateLine(withoutHTML(r.lines[n].folded.Text))
}

func withoutHTML(text string) string {
	if !strings.ContainsAny(text, "<>") {
		return text
	}
	return htmlMark.ReplaceAllString(text, "")
}

func (r *redactor) clear(e *element, n int) {
	if e.cleared || n == e.last {
		return
	}
	e.cleared = true
	r.hide(n+1, e.last-1)
	from := e.close
	if n == e.lead && r.leads(n) {
		from = e.end // nothing is left in it
		if e.first < n {
			r.hide(e.first+1, n-1)
			if r.shortened(e.first) == 0 {
				r.shorten(e.first, r.lines[e.first].text[:e.from])
			}
		}
	}
	from = max(0, from-r.shortened(e.last)) // of the line another may have taken the beginning
	r.shorten(e.last, strings.TrimLeft(r.lines[e.last].text[from:], " \t"))
}

// shortened is how much shorter a line is than it was.
func (r *redactor) shortened(n int) int {
	return r.Lines[n].BodyEnd - r.Lines[n].Body - len(r.lines[n].text)
}

// shorten leaves of a line of prose what is given.
func (r *redactor) shorten(n int, text string) {
	if r.Lines[n].Kind == Log {
		return
	}
	l := &r.lines[n]
	l.text, l.gone = text, l.gone || strings.TrimSpace(text) == ""
	l.folded = source.Fold(text)
}
