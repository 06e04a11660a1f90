package lsp

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/aymanbagabas/go-udiff"

	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/lang"
)

// actions are what can be done about the lines of a range: the corrections that
// are certain, and the right settings as a line of their own.
func (s *server) actions(v view, p codeActionParams) ([]codeAction, error) {
	all := []codeAction{}
	from := v.doc.offset(position{p.Range.Start.Line, 0})
	to := v.doc.offset(position{p.Range.End.Line + 1, 0})
	wants := func(kind string) bool { return len(p.Context.Only) == 0 || slices.Contains(p.Context.Only, kind) }
	if wants("quickfix") {
		for _, d := range v.check().Findings() {
			if d.Fix == nil || d.Fix.Span.File == nil || d.Span.File.Name != v.name || d.Span.End < from || d.Span.Start >= to {
				continue
			}
			edit := textEdit{s.place(v.season, d.Fix.Span), d.Fix.Text}
			all = append(all, codeAction{"write " + d.Fix.Text, "quickfix", v.edit(d.Fix.Span.File.Name, edit)})
		}
	}
	if wants("refactor") {
		for _, sh := range v.check().SheetsAt(v.name, from) {
			all = append(all, v.goingBack(sh)...)
		}
	}
	return all, nil
}

func (v view) edit(name string, edits ...textEdit) workspaceEdit {
	return workspaceEdit{Changes: map[string][]textEdit{v.season.uri(name): edits}}
}

// goingBack writes the right settings of a sheet that is off as a new sheet
// behind its line: on the next side that is free, or behind the line that loads one
// later in the day; where the notes log no loads, on the side behind the last that was
// exposed that day. Where loads are logged and no side is free none is written: what is
// in a holder is not for the tool to make up.
func (v view) goingBack(sh *record.Sheet) []codeAction {
	if len(sh.Choices) == 0 || len(sh.Lines) == 0 || sh.Lines[0].Place.Path != v.name {
		return nil
	}
	label, end := v.nextLabel(sh)
	if label == "" {
		return nil
	}
	here := v.doc.span(end, end)
	var all []codeAction
	for _, c := range sh.Choices {
		line := fmt.Sprintf("%s: same as %s, %s %s", label, sh.Label, strings.ReplaceAll(c.Time, " ", ""), strings.ReplaceAll(c.Aperture, "f/", "f"))
		all = append(all, codeAction{"for going back, write " + line, "refactor", v.edit(v.name, textEdit{here, v.newline() + line})})
	}
	return all
}

func (v view) newline() string {
	if strings.Contains(v.doc.src, "\r\n") {
		return "\r\n"
	}
	return "\n"
}

// nextLabel is the next loaded side that was not exposed, or the next number
// where sheets are counted, and behind which line its sheet may be written.
func (v view) nextLabel(sh *record.Sheet) (label string, end int) {
	c := v.check()
	end = c.LineEnd(sh)
	if free := c.FreeSides(v.name, end); len(free) > 0 {
		return free[0].Label, end
	}
	if free := c.FreeSides(v.name, c.DayEnd(sh)); len(free) > 0 {
		return free[0].Label, free[0].Loaded.End
	}
	if sh.Side != "" && !c.LogsLoads() {
		return sideBehind(c.Record().Sheets, sh), end
	}
	digits := strings.TrimPrefix(sh.Label, "#")
	if _, err := strconv.Atoi(digits); err != nil {
		return "", end
	}
	most := 0
	for _, other := range c.Record().Sheets {
		if n, err := strconv.Atoi(strings.TrimPrefix(other.Label, "#")); err == nil {
			most = max(most, n)
		}
	}
	return strings.TrimSuffix(sh.Label, digits) + strconv.Itoa(most+1), end
}

// sideBehind is the side that comes behind the last one exposed on the day of a sheet:
// 3B behind 3A, 4A behind 3B.
func sideBehind(all []*record.Sheet, sh *record.Sheet) string {
	holder, second := 0, false
	for _, other := range all {
		letter := len(other.Side) - 1
		if other.Outing != sh.Outing || letter < 1 {
			continue
		}
		n, err := strconv.Atoi(other.Side[:letter])
		if err != nil {
			continue
		}
		b := strings.EqualFold(other.Side[letter:], "B")
		if n > holder || n == holder && b {
			holder, second = n, b
		}
	}
	switch {
	case holder == 0:
		return ""
	case second:
		return strconv.Itoa(holder+1) + "A"
	}
	return strconv.Itoa(holder) + "B"
}

// format tidies the log lines, with edits no larger than what changes.
func (s *server) format(v view, _ documentParams) ([]textEdit, error) {
	edits := []textEdit{}
	tidied, _ := compile.Tidy(v.world(), v.name)
	for _, t := range tidied {
		for _, e := range udiff.Lines(t.Old, t.New) {
			edits = append(edits, textEdit{v.doc.span(e.Start, e.End), e.New})
		}
	}
	return edits, nil
}

// complete offers what may stand at a place: before the colon log words and
// labels, behind it what the kit declares.
func (s *server) complete(v view, p positionParams) ([]completionItem, error) {
	at := v.doc.offset(p.Position)
	start, _ := v.doc.line(p.Position.Line)
	before := v.doc.src[start:at]
	c := completer{view: v, at: at, items: []completionItem{}}
	head, body, behind := strings.Cut(before, ":")
	c.word = v.doc.span(at-len(partial(before, behind)), at)
	word, _, more := strings.Cut(strings.ToLower(strings.TrimLeft(head, " \t-*[]x•")), " ")
	switch {
	case behind:
		c.bodies(lang.Word(word), strings.ToLower(body))
	case more && aboutSheets(lang.Word(word)):
		c.word = v.doc.span(at-len(partial(before, true)), at)
		c.sheets()
	default:
		c.heads()
	}
	return c.items, nil
}

// partial is the name that is being typed: behind the colon from the last
// comma or blank on, before it the line so far.
func partial(before string, behind bool) string {
	if behind {
		return before[strings.LastIndexAny(before, " \t,:+")+1:]
	}
	return strings.TrimLeft(before, " \t-*•")
}

type completer struct {
	view
	at    int // offset in the document
	word  span
	items []completionItem
}

func (c *completer) add(kind int, text, detail string) {
	c.items = append(c.items, completionItem{
		Label: text, Kind: kind, Detail: detail, SortText: fmt.Sprintf("%04d", len(c.items)), TextEdit: &textEdit{c.word, text},
	})
}

// aboutSheets says whether a line that begins with a word goes on with labels of
// sheets.
func aboutSheets(w lang.Word) bool {
	return slices.Contains([]lang.Word{lang.Amend, lang.Develop, lang.Scan, lang.Neg, lang.Sleeve, lang.Print, lang.Result, lang.Density}, w)
}

// sheets are the labels of the sheets logged so far, the latest first.
func (c *completer) sheets() {
	logged := c.check().Record().Sheets
	own, so := -1, len(logged)
	for i, sh := range logged {
		if sh.Lines[0].Place.Path != c.name {
			continue
		}
		if own < 0 {
			so = i
		}
		if own = i; c.check().LineEnd(sh) < c.at {
			so = i + 1
		}
	}
	offered := map[string]bool{}
	for _, sh := range slices.Backward(logged[:so]) {
		label, _, _ := strings.Cut(sh.Label, "'") // as typed, also of a second use
		if !offered[label] {
			offered[label] = true
			c.add(variableItem, label, sh.ID)
		}
	}
}

// heads are the sides that are free, in the order loaded, and the log words.
func (c *completer) heads() {
	for _, side := range c.check().FreeSides(c.name, c.at) {
		c.add(variableItem, side.Label+":", "loaded, not exposed")
	}
	for _, w := range lang.Words() {
		c.add(keywordItem, string(w)+":", "")
	}
}

// bodies are the names that can be meant behind a log word or a label.
func (c *completer) bodies(word lang.Word, body string) {
	switch {
	case word == lang.Use:
		for _, name := range c.names() {
			if name != c.name {
				c.add(fileItem, name, "notebook")
			}
		}
	case word == lang.Lens || word == lang.Film || word == lang.Camera:
		c.kit(string(word))
	case word == lang.Load:
		c.kit("film")
	case word == lang.FilterWord:
		c.kit("filter")
	case strings.HasSuffix(strings.TrimRight(strings.TrimRight(body, "0123456789ab#"), " "), "same as"):
		c.sheets()
	case word == lang.Sheet || word == lang.Amend || !slices.Contains(lang.Words(), word):
		c.terms(body)
	}
}

// terms are a sheet's: the kit's filters, and behind "lens" or "film" theirs.
func (c *completer) terms(body string) {
	fields := strings.Fields(body)
	if n := len(fields); n > 0 {
		for _, last := range fields[max(0, n-2):] {
			if last == "lens" || last == "film" || last == "camera" {
				c.kit(last)
				return
			}
		}
	}
	c.kit("filter")
	for _, w := range []string{"no filter", "same", "same as", "metered", "gave", "ext", "bracket", "N", "N+1", "N-1", "hold", "unused", "lens", "film"} {
		c.add(valueItem, w, "")
	}
}

func (c *completer) kit(kind string) {
	for _, item := range c.check().Record().Kit {
		if item.Kind == kind {
			c.add(valueItem, item.Name, strings.Join(factValues(item), ", "))
		}
	}
}

func factValues(item *record.Item) []string {
	var all []string
	for _, f := range item.Facts {
		all = append(all, f.Value)
	}
	return all
}
