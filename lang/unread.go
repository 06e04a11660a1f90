package lang

import (
	"fmt"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"notchbook/lang/diag"
)

// unread looks through what was taken for prose for lines that look like log
// lines: nothing that was meant as a log line may pass in silence, and nothing
// that was meant as prose may be reported.
func (r *reading) unread(book *Notebook) diag.List {
	fenced, list := r.fences(book.Prose)
	after := false // the line before is a log line
	for i := range r.lines {
		line := &r.lines[i]
		if line.Kind == Prose && !fenced[i] {
			if d, ok := r.suspect(i, after); ok {
				line.Kind = Unread
				list = append(list, d)
			}
		}
		after = line.Kind == Log
	}
	return list
}

// suspect says what is wrong with a prose line that looks like a log line.
func (r *reading) suspect(i int, after bool) (diag.Diagnostic, bool) {
	line := r.lines[i]
	text := r.src[line.Body:line.BodyEnd]
	if len(text) > longestLine {
		_, isLog := readHead(text[:longestHead], r.names)
		return diag.Diagnostic{
			Code: "line-too-long", Severity: diag.Error, Span: r.span(line.Body, line.Body+longestHead),
			Message: "a log line of more than 64 KB is not read",
		}, isLog
	}
	if !strings.ContainsAny(text, "0123456789½⅓⅔¼¾⅛") {
		return diag.Diagnostic{}, false
	}
	for _, look := range []func(int, string) (diag.Diagnostic, bool){r.misspelled, r.colonless, r.inMarkup} {
		if d, ok := look(line.Body, text); ok {
			return d, true
		}
	}
	if after {
		return r.wrapped(line.Body, text)
	}
	return diag.Diagnostic{}, false
}

// misspelled is a word nearly of the notation before a label and a colon, or
// before a colon and terms.
func (r *reading) misspelled(start int, text string) (diag.Diagnostic, bool) {
	from := opening(text)
	colon, width := colonIn(text[from:])
	if colon < 0 {
		return diag.Diagnostic{}, false
	}
	low := lower(text[from : from+colon])
	end := letterRun(low, 0)
	meant := nearest(low[:end])
	if meant == "" || len(strings.Fields(low)) > 3 {
		return diag.Diagnostic{}, false
	}
	_, labelled := splitLabels(low[end:], 0, r.names)
	body := scanTerms(text[from+colon+width:], words[meant].field|onSheet, r.names)
	if !(labelled && words[meant].labels != 0) && !(body.settings() > 0 && body.terse()) {
		return diag.Diagnostic{}, false
	}
	said := r.span(start+from, start+from+end)
	return diag.Diagnostic{
		Code: "unknown-word", Severity: diag.Error, Span: said,
		Message: fmt.Sprintf("%q is no word of the notation", said.Text()),
		Notes:   []diag.Aside{{Text: fmt.Sprintf("%q is near; the line is kept as typed and not read", meant)}},
		Fix:     &diag.Fix{Span: said, Text: meant},
	}, true
}

// colonless is a log word or a label with terms behind it and no colon.
func (r *reading) colonless(start int, text string) (diag.Diagnostic, bool) {
	from := opening(text)
	first := from
	for first < len(text) && !isSpace(text[first]) {
		first++
	}
	low := lower(text[from:first])
	how, isWord := words[low]
	if !isWord && !labelShaped(low, r.names) || strings.HasSuffix(low, ":") || strings.Contains(low, "/") && !r.names.Labels[low] {
		return diag.Diagnostic{}, false
	}
	end := first
	if isWord && how.labels != 0 {
		end = r.labelsEnd(text, first)
	}
	body := scanTerms(text[end:], onSheet, r.names)
	if how.free || body.settings() == 0 || !body.terse() || len(body.tokens) < 2 || body.tokens[0].Type == tWord {
		return diag.Diagnostic{}, false
	}
	at := r.span(start+from, start+end)
	d := diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: at,
		Message: fmt.Sprintf("a colon is missing behind %q", at.Text()),
	}
	if !isWord || how.needs && end > first {
		d.Fix = &diag.Fix{Span: at, Text: at.Text() + ":"}
	}
	return d, true
}

// labelShaped is a label that cannot be a plain number.
func labelShaped(word string, names *Lexicon) bool {
	return looksLabel(word, names) && (names.Labels[word] || digits(word, 0) < len(word))
}

// labelsEnd is the end of the labels behind a word.
func (r *reading) labelsEnd(text string, i int) int {
	for {
		start := skip(text, i)
		end := start
		for end < len(text) && !isSpace(text[end]) && text[end] != ',' {
			end++
		}
		if start == end || !labelShaped(lower(text[start:end]), r.names) {
			return i
		}
		i = end
	}
}

// inMarkup is a log line in a heading, a numbered list or a table, where it is
// never read.
func (r *reading) inMarkup(start int, text string) (diag.Diagnostic, bool) {
	body := strings.TrimLeft(text, "#|>0123456789.) \t")
	marks := text[:len(text)-len(body)]
	if marks == "" {
		return diag.Diagnostic{}, false
	}
	what := ""
	switch {
	case text[0] == '#' && strings.HasPrefix(strings.TrimLeft(text, "#"), " "):
		what = "a heading"
		body = strings.TrimLeft(text, "# \t")
	case text[0] == '|':
		what = "a table"
		body = strings.ReplaceAll(strings.Trim(text, "| \t"), "|", " ")
	case isDigit(text[0]) && strings.ContainsAny(marks, ".)"):
		what = "a numbered list"
		body = strings.TrimLeft(strings.TrimLeft(text, "0123456789"), ".) \t")
	default:
		return diag.Diagnostic{}, false
	}
	h, headed := readHead(body, r.names)
	if headed {
		body = body[h.body:]
	}
	s := scanTerms(body, onSheet, r.names)
	if s.settings() == 0 || !s.terse() || what == "a heading" && !headed || what == "a table" && len(s.tokens) < 2 {
		return diag.Diagnostic{}, false
	}
	return diag.Diagnostic{
		Code: "log-line-in-markup", Severity: diag.Error, Span: r.span(start, start+len(text)),
		Message: "a log line is not read in " + what,
		Notes:   []diag.Aside{{Text: "write it on a line of its own that begins with the sheet's label and a colon"}},
	}, true
}

// wrapped is the second half of a log line that was broken by hand.
func (r *reading) wrapped(start int, text string) (diag.Diagnostic, bool) {
	s := scanTerms(text, onSheet, r.names)
	if s.settings() == 0 || !s.terse() {
		return diag.Diagnostic{}, false
	}
	return diag.Diagnostic{
		Code: "wrapped-line", Severity: diag.Error, Span: r.span(start, start+len(text)),
		Message: "this looks like the end of the log line above and is not read",
		Notes:   []diag.Aside{{Text: "a log line is one line, however long"}},
	}, true
}

// fences reports the lines within fenced blocks, and blocks that hide log lines
// though they were hardly meant to: fences of tildes, and fences without an end.
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
			if _, is := readHead(r.src[r.lines[i].Body:r.lines[i].BodyEnd], r.names); is {
				hidden++
			}
		}
		opener := r.lines[max(first-1, 0)]
		said := r.src[opener.Body:opener.BodyEnd]
		if hidden > 0 && (strings.Contains(said, "~~~") || last == len(r.lines)-1) {
			list = append(list, diag.Diagnostic{
				Code: "hidden-by-fence", Severity: diag.Error, Span: r.span(opener.Body, opener.BodyEnd),
				Message: fmt.Sprintf("the block that opens here hides %s", plural(hidden, "log line", "log lines")),
				Notes:   []diag.Aside{{Text: "take the opening line out, or close the block where it should end"}},
			})
		}
		return ast.WalkSkipChildren, nil
	})
	return inside, list
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprint(n, " ", many)
}

// nearest is the log word that a word was probably meant for: one slip away,
// two for long words; itself a word of the notation is no slip.
func nearest(word string) string {
	if len(word) < 3 || words[word].word != "" {
		return ""
	}
	best, found := 1+len(word)/6, ""
	for _, w := range wordList {
		if d := distance(word, w); d <= best && (found == "" || d < best) {
			best, found = d, w
		}
	}
	return found
}

var wordList = func() []string {
	var all []string
	for w := range words {
		all = append(all, w)
	}
	slices.Sort(all)
	return all
}()

// distance counts the slips between two words: a letter left out, put in,
// taken for another, or two swapped (optimal string alignment).
func distance(a, b string) int {
	rows := make([][]int, len(a)+1)
	for i := range rows {
		rows[i] = make([]int, len(b)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			rows[i][j] = min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				rows[i][j] = min(rows[i][j], rows[i-2][j-2]+1)
			}
		}
	}
	return rows[len(a)][len(b)]
}

// Slips counts the letters by which two words differ.
func Slips(a, b string) int { return distance(a, b) }
