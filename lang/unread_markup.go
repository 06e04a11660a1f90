package lang

import (
	"fmt"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"notchbook/lang/diag"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// Log lines where none is read: in comments, tables, lists by number, fences and headings, and the end of
// a line that was broken in two.

// inComment is a log line in a comment, where none is read and none was meant to be.
func (l *doubtful) inComment(text string) *suspicion {
	if !l.holdsLog(text) {
		if l.hangs {
			return &suspicion{}
		}
		return nil
	}
	return &suspicion{one: true, Diagnostic: diag.Diagnostic{
		Many: "are log lines in comments, where none is read",
		Code: "log-line-in-markup", Severity: diag.Note, Span: l.at(0, len(l.folded.Text)), Message: "a log line is not read in a comment",
	}}
}

// inMarkup is a log line in a heading, a numbered list or a table, where it is
// never read.
func (l *doubtful) inMarkup() (diag.Diagnostic, bool) {
	what, body := markup(l.text)
	if what == "" {
		return diag.Diagnostic{}, false
	}
	note := "write it on a line of its own that begins with the sheet's label and a colon"
	h, headed := readHead(body, l.names)
	terms := body
	if headed {
		terms = body[h.body:]
	}
	s := scanFolded(terms, onSheet, l.names)
	settings := s.settings() > 0 && s.terse()
	var fix *diag.Fix
	switch what {
	case "a heading":
		if headed && h.said > h.word && h.how.word != Sheet && h.how.word != Private { // a sheet's label may be a title
			settings, l.meant = true, h.how.word
			note = "write it on a line of its own, without the signs of the heading: " + body
			if from := len(l.text) - len(body); l.certain(h, terms) {
				fix = &diag.Fix{Span: l.at(0, len(l.text)), Text: l.at(from, len(strings.TrimRight(l.text, "# \t"))).Text()}
			}
		}
		settings = settings && headed
	case "a table":
		settings = settings && len(s.tokens) > 1 || l.tabled()
	}
	if !settings {
		return diag.Diagnostic{}, false
	}
	if fix == nil { // each mend stands at its line
		l.many = "are log lines in " + what + ", where none is read"
	}
	return diag.Diagnostic{
		Code: "log-line-in-markup", Severity: diag.Error, Span: l.at(0, len(l.text)),
		Message: "a log line is not read in " + what,
		Notes:   []diag.Aside{{Text: note}}, Fix: fix,
	}, true
}

// certain reports whether a heading that begins as a log line does can be nothing else: a scene's,
// a day's with its date, or one of terms or names.
func (l *doubtful) certain(h head, terms string) bool {
	if h.how.word == Scene {
		return strings.TrimSpace(terms) != ""
	}
	s := scanFolded(terms, h.how.field, l.names)
	return l.suits(terms, h.how.word) || !h.how.free && s.onlyTerms()
}

// tabled reports whether a row of a table begins with a sheet's label and has two cells more
// that are figures or terms and nothing else: | 4A | R25 | 22 | 1 |.
func (l *doubtful) tabled() bool {
	cells := strings.Split(strings.Trim(l.text, "| \t"), "|")
	label := lower(strings.TrimSpace(cells[0]))
	if !looksLabel(label, l.names) || !sided(label) && !l.names.Labels[label] {
		return false
	}
	said := 0
	for _, cell := range cells[1:] {
		if s := scanFolded(cell, onSheet, l.names); len(s.tokens) > 0 && s.count(tWord, tComma, tSame) == 0 {
			said++
		}
	}
	return said > 1
}

// ofNoSheet reports whether every cell of a table's row is a setting, a temperature or a dilution, or
// stands below a head for such a thing: | 9 min | 20C | 1+31 |. Nothing in it can be a label.
func (l *doubtful) ofNoSheet() bool {
	if l.text[0] != '|' {
		return false
	}
	heads := l.heads()
	for i, cell := range inCells(l.low) {
		switch {
		case cell == "":
		case slices.ContainsFunc(strings.Fields(cell), l.names.namesSheet):
			return false
		case i < len(heads) && ofNoLabel[overFigures().FindString(heads[i])]:
		default:
			s := scanFolded(cell, onSheet|onDevelop, l.names)
			if len(s.tokens) == 0 || s.count(tAperture, tTime, tEV, tDegrees, tDilution) < len(s.tokens) {
				return false
			}
		}
	}
	return true
}

// namesSheet reports whether a word in lower case is the side of a holder or a negative's number.
func (x *Lexicon) namesSheet(word string) bool {
	word = strings.Trim(word, ".,;:()")
	first, count, ranged := cutDash(word)
	return looksLabel(word, x) && (sided(word) || ranged && ofYear(first, count))
}

// ofNoLabel are words that stand over columns of figures which are no labels (common practice, no source).
var ofNoLabel = SetOf("f stop aperture time times ev temp temperature c min mins minutes s sec secs seconds " +
	"dilution developer print prints paper grade note notes remark remarks")

// overFigures is the first word of a head: time of time (s), f of f/.
var overFigures = pattern.Lazily(`\pL+`)

// heads are the cells over the columns of a row, in lower case, nil where none are found near it.
func (l *doubtful) heads() []string {
	const longest = 100 // rows
	row := func(i int) string { return l.src[l.lines[i].Body:l.lines[i].BodyEnd] }
	top := l.line
	for top > 0 && l.line-top < longest && strings.HasPrefix(row(top-1), "|") {
		top--
	}
	if top+1 >= l.line || strings.Trim(row(top+1), "|-: \t") != "" {
		return nil
	}
	return inCells(lower(source.Fold(row(top)).Text))
}

// inCells are the cells of a table's row.
func inCells(row string) []string {
	row = strings.TrimSuffix(strings.TrimRight(row, " \t\r\n"), "|")
	cells := strings.Split(strings.TrimPrefix(row, "|"), "|")
	for i := range cells {
		cells[i] = strings.TrimSpace(cells[i])
	}
	return cells
}

// markup is what a line stands in by its first sign, and what stands in it.
func markup(text string) (what, body string) {
	switch {
	case text[0] == '#' && strings.HasPrefix(strings.TrimLeft(text, "#"), " "):
		return "a heading", strings.TrimLeft(text, "# \t")
	case text[0] == '|':
		return "a table", strings.ReplaceAll(strings.Trim(text, "| \t"), "|", " ")
	case isDigit(text[0]):
		end := digits(text, 0)
		if c := at(text, end); (c == '.' || c == ')') && isSpace(at(text, end+1)) {
			return "a numbered list", text[skip(text, end+1):]
		}
	}
	return "", ""
}

// wrapped is the second half of a log line that was broken by hand.
func (l *doubtful) wrapped(before string) (diag.Diagnostic, bool) {
	s := scanFolded(l.text, onSheet, l.names)
	if l.text[0] == '"' || s.count(tAperture, tEV) == 0 && s.count(tWord, tAbout) > 0 && !strings.Contains(l.text, "/") {
		return diag.Diagnostic{}, false // the weather: "waited about 4 min"
	}
	if told, _ := hourBefore(l.text, 0); told > 0 && digits(l.text, 0) == len("18") {
		if rest := scanFolded(l.text[told:], onSheet, l.names); rest.count(tWord, tChoose, tComma) == len(rest.tokens) {
			return diag.Diagnostic{}, false // 18:20 light now very flat
		}
	}
	open := strings.HasSuffix(strings.TrimRight(before, " \t\r\n"), ",")
	if !(s.settings() > 0 && s.terse()) && !(s.onlyTerms() && (open || s.count(tComma) > 0 && len(s.tokens) > 2)) {
		return diag.Diagnostic{}, false
	}
	above := before[strings.LastIndexByte(strings.TrimRight(before, "\r\n"), '\n')+1:]
	h, ok := readHead(source.Fold(above).Text, l.names)
	if !ok || h.how.free {
		return diag.Diagnostic{}, false // no setting belongs to a scene's or a day's words
	}
	return l.joins(h.how.word), true
}

// goesOn reports whether a line goes on with the sheet's above: that ends with a comma, or this
// is indented and has a term of its own between commas: water high, N-1.
func (l *doubtful) goesOn(before string) bool {
	before = strings.TrimRight(before, " \t\r\n")
	h, ok := readHead(source.Fold(before[strings.LastIndexByte(before, '\n')+1:]).Text, l.names)
	if !ok || h.how.word != Sheet || isBullet(l.text) || strings.IndexByte("#>|`", l.text[0]) >= 0 {
		return false
	}
	if strings.HasSuffix(before, ",") {
		return true
	}
	if line := l.lines[l.line]; line.Start == line.Body && !isSpace(l.text[0]) {
		return false
	}
	s := l.bench.scan(l.text, 0, onSheet, l.names)
	s.settle()
	for i := range s.tokens {
		before, behind := s.kind(i-1), s.kind(i+1)
		if (before == tComma || i == 0) && (behind == tComma || i == len(s.tokens)-1) && s.count(tComma) > 0 {
			switch s.kind(i) {
			case tN, tExt, tBracket, tMovement, tNegative, tAperture, tEV:
				return true
			}
		}
	}
	return false
}

// joins is what is said of the end of a log line.
func (l *doubtful) joins(above Word) diag.Diagnostic {
	l.meant = above
	return diag.Diagnostic{
		Code: "wrapped-line", Severity: diag.Error, Span: l.at(0, len(l.text)),
		Message: "this looks like the end of the log line above and is not read",
		Notes:   []diag.Aside{{Text: "a log line is one line, however long; join the two"}},
	}
}

// fences reports the lines within fenced blocks, and blocks that hide log lines: one without
// an end was hardly meant to.
func (r *reading) fences(doc ast.Node) (map[int]bool, diag.List) {
	inside := map[int]bool{}
	var list diag.List
	_ = ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		block, ok := n.(*ast.FencedCodeBlock)
		if !entering || !ok || block.Lines().Len() == 0 {
			return ast.WalkContinue, nil
		}
		first := r.lineAt(block.Lines().At(0).Start + r.base)
		last := r.lineAt(block.Lines().At(block.Lines().Len()-1).Start + r.base)
		hidden := 0
		for i := first; i <= last; i++ {
			inside[i] = true
			if r.holdsLog(source.Fold(r.src[r.lines[i].Body:r.lines[i].BodyEnd]).Text) {
				hidden++
			}
		}
		if hidden == 0 {
			return ast.WalkSkipChildren, nil
		}
		opener := r.lines[max(first-1, 0)]
		d := diag.Diagnostic{
			Code: "hidden-by-fence", Severity: diag.Note, Span: r.span(opener.Body, opener.BodyEnd),
			Message: fmt.Sprintf("the block that opens here holds %s, and none is read", plural(hidden, "log line", "log lines")),
		}
		switch {
		case last == len(r.lines)-1:
			d.Severity = diag.Error
			d.Message = fmt.Sprintf("the block that opens here hides %s", plural(hidden, "log line", "log lines"))
			d.Notes = []diag.Aside{{Text: "take the opening line out, or close the block where it should end"}}
		case first == 1 && r.front > 0:
			d.Notes = []diag.Aside{{Text: "what stands between --- and --- at the top of a notebook is for other programs; a log line stands below it"}}
		}
		list = append(list, d)
		return ast.WalkSkipChildren, nil
	})
	return inside, list
}
