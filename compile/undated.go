package compile

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// The part of resolve that sees a day begin without its word: a heading or a line of prose
// that begins with a whole date, and sheets below it.

// undated is such a line, above which the notes are of another day or of none.
type undated struct {
	at    source.Span // the date
	whole source.Span // the line
	fix   bool        // it stands by itself and is no sentence: "day: " before it makes a day line of it
}

// mostOfDay is how many words stand behind the date on a line that is a day's and no
// story's.
const mostOfDay = 10

// beginsDay looks for a date at the beginning of a heading or of a line of prose. The
// reading ends with it, as with a day.
func (r *resolver) beginsDay(n ast.Node) {
	var heading bool
	switch n.(type) {
	case *ast.Heading:
		heading = true
	case *ast.Paragraph, *ast.TextBlock:
	default:
		return
	}
	mark := r.book.File.Mark()
	for i := range n.Lines().Len() {
		segment := n.Lines().At(i)
		line := source.Span{File: r.book.File, Start: segment.Start + mark, End: segment.Stop + mark}
		text := line.Text()
		if !strings.ContainsAny(text, "0123456789") {
			continue
		}
		start := len(text) - len(strings.TrimLeft(text, " \t*_>"))
		line = line.Sub(start, len(strings.TrimRight(text, " \t\r\n")))
		iso, length, ambiguous := dateIn(r.book, line.Text())
		words := 0
		if length > 0 {
			words = len(strings.Fields(line.Text()[length:]))
		}
		if length == 0 || iso == "" && !ambiguous || i > 0 && words > mostOfDay {
			continue
		}
		story := !heading && isStory(line.Text()[length:])
		date := line.Sub(0, length)
		if o := r.outing; o != nil && o.date != "" && (o.iso == iso && iso != "" || strings.EqualFold(o.date, date.Text())) {
			r.undated = nil
			continue
		}
		_, listed := n.Parent().(*ast.ListItem)
		r.undated = &undated{date, line, !story && !heading && !listed && start == 0 && n.Lines().Len() == 1 && words <= mostOfDay && !strings.HasSuffix(line.Text(), ".")}
		if !story {
			r.now.reading = nil
		}
	}
}

// isStory reports whether what stands behind a date reads as a sentence about it, or as
// another thing that begins with figures: a verb or a small word follows, and no name.
func isStory(behind string) bool {
	next, more, _ := strings.Cut(strings.TrimLeft(behind, " "), " ")
	if next == "" || strings.ContainsAny(next[:1], ",;:-–—.(") {
		return false
	}
	if next[0] >= 'a' && next[0] <= 'z' || next[0] >= '0' && next[0] <= '9' {
		return true // 14.3.1987 is carved on the stone
	}
	verb, _, _ := strings.Cut(more, " ")
	switch verb {
	case "was", "is", "were", "had", "has", "went", "came", "said", "made", "took":
		return true // 3 May 2025 Tom was born near here
	}
	return false
}

// sheetsOfNoDay reports the date above a sheet's line that no day line says. What is
// logged from there on may be of another day than what stands above, and no side is held
// to have been exposed twice across it.
func (r *resolver) sheetsOfNoDay() {
	u := r.undated
	if u == nil {
		return
	}
	r.undated = nil
	r.stretch++
	f := r.report("date-without-day", u.at, "the sheets below do not count to "+u.at.Text()+": no day: stands before it")
	if o := r.outing; o != nil && o.date != "" {
		f.note("as it stands they count to "+o.date, o.at)
	} else {
		f.note("as it stands they count to no day")
	}
	if u.fix {
		f.Fix = &diag.Fix{Span: u.whole.Sub(0, 0), Text: string(lang.Day) + ": "}
		return
	}
	line := u.whole.Text()
	if len(strings.Fields(line)) > 2*mostOfDay {
		line = u.at.Text() + ", …"
	}
	f.note("a day begins with a line of its own: day: " + line)
}
