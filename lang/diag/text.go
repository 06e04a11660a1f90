package diag

import (
	"fmt"
	"io"
	"iter"
	"strings"
	"unicode"
	"unicode/utf8"

	"notchbook/lang/ruler"
	"notchbook/lang/source"
)

// Writer writes diagnostics as text for people.
type Writer struct {
	Out    io.Writer
	Named  func(string) string // a file's name as the reader can open it; nil where the names stand for themselves
	Colour bool                // ANSI colours
	Most   int                 // findings that are written out, 0 for all; the rest is counted
}

// Write writes a list, a blank line between any two. Where many of a notebook say one thing,
// the first says it, with the lines of the others.
func (w Writer) Write(list List) error {
	var b strings.Builder
	var rest List
	written := 0
	for first, all := range list.told() {
		if w.Most > 0 && written == w.Most {
			for _, d := range all {
				rest = append(rest, *d)
			}
			continue
		}
		if written > 0 {
			b.WriteByte('\n')
		}
		written++
		w.one(&b, first)
		if len(all) > 1 {
			var lines []string
			for _, d := range all[1:] {
				for _, at := range append([]source.Span{d.Span}, d.Also...) {
					lines = append(lines, fmt.Sprint(at.File.Position(at.Start).Line))
				}
			}
			fmt.Fprintf(&b, "  = the same on %d more lines: %s\n", len(lines), Few(lines, ", "))
		}
	}
	if len(rest) > 0 {
		fmt.Fprintf(&b, "\nand %d more: %d errors, %d warnings, %d notes; --format json has all of them\n",
			len(rest), rest.Count(Error), rest.Count(Warning), rest.Count(Note))
	}
	_, err := io.WriteString(w.Out, b.String())
	return err
}

// mostAlike is how many lines of which one thing is said are written out each.
const mostAlike = 3

// Told is how many diagnostics of each severity a reader is told: of those that say one thing, one.
func (l List) Told() map[Severity]int {
	n := map[Severity]int{}
	for first := range l.told() {
		n[first.Severity]++
	}
	return n
}

// told is each diagnostic that is written out, and all that it stands for, itself among them.
func (l List) told() iter.Seq2[*Diagnostic, []*Diagnostic] {
	return func(yield func(*Diagnostic, []*Diagnostic) bool) {
		keys, alike, said := make([]string, len(l)), map[string][]*Diagnostic{}, map[string]bool{} // by their form in their notebook
		for i := range l {
			if d := &l[i]; d.Span.File != nil {
				form, _ := d.Form()
				keys[i] = d.Span.File.Name + "\n" + form
				alike[keys[i]] = append(alike[keys[i]], d)
			}
		}
		for i, key := range keys {
			if said[key] {
				continue
			}
			all := []*Diagnostic{&l[i]}
			if len(alike[key]) > mostAlike {
				all, said[key] = alike[key], true
			}
			if !yield(&l[i], all) {
				return
			}
		}
	}
}

// Few is a list in which no more is named than a reader takes in, and the rest counted.
func Few(all []string, between string) string {
	const most = 10
	if len(all) <= most+1 { // "and 1 more" is no shorter than its name
		return strings.Join(all, between)
	}
	return fmt.Sprintf("%s and %d more", strings.Join(all[:most], between), len(all)-most)
}

func (w Writer) one(b *strings.Builder, d *Diagnostic) {
	if d.Span.File != nil {
		p := d.Span.File.Position(d.Span.Start)
		fmt.Fprintf(b, "%s:%d:%d: ", w.file(d.Span.File), p.Line, p.Column)
	}
	fmt.Fprintf(b, "%s: %s %s\n", w.paint(d.Severity, d.Severity.String()), Clean(d.Said()), w.dim("["+d.Code+"]"))
	w.excerpt(b, d)
	for _, n := range d.Notes {
		w.note(b, n, d.Span)
	}
	if d.Fix != nil {
		fmt.Fprintf(b, "  = write: %s\n", Clean(fixed(d.Fix)))
	}
}

// file is a file's name from where the reader stands, so that an editor opens it.
func (w Writer) file(f *source.File) string {
	if w.Named == nil {
		return Clean(f.Name)
	}
	return Clean(w.Named(f.Name))
}

// note says where it points to, unless that is the diagnostic's own line.
func (w Writer) note(b *strings.Builder, n Aside, at source.Span) {
	fmt.Fprintf(b, "  = %s", Clean(n.Text))
	if n.Span.File != nil {
		p := n.Span.File.Position(n.Span.Start)
		if n.Span.File != at.File {
			fmt.Fprintf(b, " (%s:%d)", w.file(n.Span.File), p.Line)
		} else if p.Line != at.File.Position(at.Start).Line {
			fmt.Fprintf(b, " (line %d)", p.Line)
		}
	}
	b.WriteByte('\n')
}

// excerpt shows the source line with a caret under every character of the
// marked stretch. Long lines are cut around it.
func (w Writer) excerpt(b *strings.Builder, d *Diagnostic) {
	if d.Span.File == nil || len(d.Span.File.Text) == 0 {
		return
	}
	line := d.Span.File.Line(d.Span.Start)
	mark := d.Span
	mark.Start = min(mark.Start, line.End)
	mark.End = min(max(mark.End, mark.Start), line.End)
	line, more, less := window(line, mark)
	number := fmt.Sprint(d.Span.File.Position(d.Span.Start).Line)
	gutter := strings.Repeat(" ", len(number))
	shown := func(s string, at int) string { return Clean(ruler.Untab(s, at)) }
	text, to := line.Text(), mark.Start-line.Start
	before := ruler.Width(shown(text[:to], 0))
	carets := max(1, ruler.Width(shown(mark.Text(), before)))
	fmt.Fprintf(b, " %s %s %s%s%s\n", w.dim(number), w.dim("|"), more, shown(text, 0), less)
	fmt.Fprintf(b, " %s %s %s%s\n", gutter, w.dim("|"), strings.Repeat(" ", ruler.Width(more)+before),
		w.paint(d.Severity, strings.Repeat("^", carets)))
}

// window cuts a line that would not fit a terminal down to the neighbourhood of
// its mark.
func window(line, mark source.Span) (cut source.Span, more, less string) {
	const around = 60
	text := line.File.Text
	if mark.Start-line.Start > 2*around {
		line.Start, more = mark.Start-around, "…"
		for !utf8.RuneStart(text[line.Start]) {
			line.Start++
		}
	}
	if line.End-mark.End > 2*around {
		line.End, less = mark.End+around, "…"
		for line.End > mark.End && !utf8.RuneStart(text[line.End]) {
			line.End--
		}
	}
	return line, more, less
}

func fixed(f *Fix) string {
	line := f.Span.File.Line(f.Span.Start)
	text := f.Span.File.Text
	return strings.TrimSpace(string(text[line.Start:f.Span.Start]) + f.Text + string(text[f.Span.End:max(line.End, f.Span.End)]))
}

func (w Writer) paint(s Severity, text string) string {
	if !w.Colour {
		return text
	}
	return [...]string{"\x1b[1;31m", "\x1b[1;33m", "\x1b[1;36m"}[s] + text + "\x1b[0m"
}

func (w Writer) dim(text string) string {
	if !w.Colour {
		return text
	}
	return "\x1b[2m" + text + "\x1b[0m"
}

// Clean makes text safe for a terminal and keeps it on its line: control
// characters, line ends and the marks that turn the direction of text are shown
// as a replacement character. A tab is shown as one space.
func Clean(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '\t' {
			return ' '
		}
		if unicode.IsPrint(r) || r == '\u00A0' || r == '\u202F' || r == '\u2009' || r == '\u200D' {
			return r
		}
		return utf8.RuneError
	}, s)
}
