package lang

import (
	"bytes"
	"path"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"notchbook/lang/source"
)

// Redaction is a notebook as it may be handed on. Its lines are counted from 1.
type Redaction struct {
	Text    []byte   // without the private remarks
	Private bool     // there were some
	Left    []int    // lines that speak of something private and stand in Text
	Doubted []int    // lines that may belong to a private remark and stand in Text
	Below   []int    // log lines below a private heading, which stand in Text without their remarks
	Scans   []string // files that a scan line holds back, as it names them
}

// Public is a notebook without its private remarks. How one is marked is in private.go; what
// else of the notebook goes with it is told here, by the blocks of the Markdown:
//
//   - What is in brackets, quotation marks, a comment, an element or struck out ends there.
//     Any other goes on to the end of its paragraph, and so does one that nothing closes on
//     its line.
//   - An item of a list, and a quote, that begins with one goes as a whole; so does the row
//     of a table that has one in a cell, and with the row of its heads the table.
//   - Behind one that ends its paragraph goes the list, quote, table or code that follows,
//     and any block where it ends in a colon or says no more than that it is private.
//   - A heading that begins with the word goes with all that is below it, up to the next
//     heading of its level or a higher one.
//
// Nothing goes beyond the next day, and no log line that is not itself marked: below a
// private heading it goes without its remark. An emptied line keeps its line end, so
// that the lines of the copy have the numbers of the original.
//
// Of a scan line with the word private, as in "scan 1A: kiln.tif, private", only the
// labels and that word stay.
//
// It looks at every line, whatever that was read as, and takes a word that is nearly
// "private" for it: where the shape of a line is in doubt, what is marked goes.
func Public(tree *Notebook) Redaction {
	r := newRedactor(tree)
	for n := range r.lines {
		r.look(n)
	}
	return r.redaction()
}

// redactor is the state of one Public.
type redactor struct {
	*Notebook
	said     []*Statement // by line
	lines    []line
	leaf     []*block // by line; nil on a blank one
	days     []int    // by line: the next one at which a day begins, or how many there are
	elements elements
}

// line is what becomes of a line.
type line struct {
	text   string // the text of the line, without what is private
	folded source.Folded
	gone   bool // all of it
	doubt  bool // it may belong to what is private, and stays
	below  bool // it stands below a private heading, and stays
}

// block is a block of the Markdown by the lines that it stands on.
type block struct {
	node        ast.Node
	first, last int
	up          *block
	nth         int // of the blocks in up
	inner       []*block
	cut         int  // it goes up to this line, or the day there
	listed      bool // as an item, it goes with a list that goes
}

func newRedactor(tree *Notebook) *redactor {
	count := len(tree.Lines)
	r := &redactor{Notebook: tree, said: make([]*Statement, count), lines: make([]line, count), leaf: make([]*block, count), days: make([]int, count)}
	for _, st := range tree.Statements {
		r.said[r.lineOf(st.Span.Start)] = st
	}
	next := count
	for n := count - 1; n >= 0; n-- {
		l := &tree.Lines[n]
		if st := r.said[n]; st != nil && st.Word == Day || l.Kind == Unread && l.Meant == Day {
			next = n
		}
		r.days[n] = next
		r.lines[n].text = tree.File.Whole()[l.Body:l.BodyEnd]
		r.lines[n].folded = source.Fold(r.lines[n].text)
	}
	r.blocks(tree.Prose, nil)
	for n := range r.lines {
		if r.leaf[n] == nil && !r.blank(n) { // the end of a fence, the strokes below a heading or a table's heads
			r.leaf[n] = &block{first: n, last: n}
			if n > 0 && r.leaf[n-1] != nil {
				r.leaf[n] = r.leaf[n-1]
			}
			for b := r.leaf[n]; b != nil; b = b.up {
				b.last = max(b.last, n)
			}
		}
	}
	r.elements = r.findElements()
	return r
}

// lineOf is the line that an offset of the file is on.
func (r *redactor) lineOf(offset int) int {
	n, found := slices.BinarySearchFunc(r.Lines, offset, func(l Line, at int) int { return l.Start - at })
	if !found {
		n--
	}
	return max(n, 0)
}

// indent is how far in a line begins, behind the signs of quotes.
func (r *redactor) indent(n int) int {
	text := r.File.Whole()[r.Lines[n].Start:r.Lines[n].BodyEnd]
	return len(text) - len(strings.TrimLeft(text, " \t>"))
}

// blank reports whether nothing stands on a line but the signs of quotes.
func (r *redactor) blank(n int) bool { return strings.Trim(r.lines[n].folded.Text, " \t>") == "" }

// blocks finds where a block stands, and all in it. The row of a table is not looked into.
func (r *redactor) blocks(node ast.Node, up *block) *block {
	mark := r.File.Mark()
	b := &block{node: node, up: up, first: r.lineOf(max(node.Pos(), 0) + mark)}
	b.last = b.first
	if lines := node.Lines(); lines != nil && lines.Len() > 0 {
		b.last = max(b.last, r.lineOf(lines.At(lines.Len()-1).Start+mark))
	}
	if !isRow(node) {
		for child := node.FirstChild(); child != nil && child.Type() == ast.TypeBlock; child = child.NextSibling() {
			inner := r.blocks(child, b)
			inner.nth = len(b.inner)
			b.inner = append(b.inner, inner)
			b.last = max(b.last, inner.last)
		}
	}
	switch {
	case len(b.inner) == 0 && up != nil:
		for n := b.first; n <= b.last; n++ {
			r.leaf[n] = b
		}
	case b.kind() == east.KindTable: // whose place is that of the paragraph above it, where there is one
		b.first = b.inner[0].first
	}
	return b
}

func (b *block) kind() ast.NodeKind {
	if b == nil || b.node == nil {
		return ast.KindParagraph
	}
	return b.node.Kind()
}

func isRow(node ast.Node) bool {
	return node != nil && (node.Kind() == east.KindTableHeader || node.Kind() == east.KindTableRow)
}

// isText reports whether a block is a paragraph or what stands for one.
func (b *block) isText() bool {
	switch b.kind() {
	case ast.KindParagraph, ast.KindTextBlock, ast.KindLinkReferenceDefinition, KindLogLine:
		return true
	}
	return false
}

// isEnclosed reports whether a block is one that a remark may be the lead of.
func (b *block) isEnclosed() bool {
	switch b.kind() {
	case ast.KindList, ast.KindBlockquote, east.KindTable, ast.KindCodeBlock, ast.KindFencedCodeBlock:
		return true
	}
	return false
}

// next is the block behind b: where b is the last in an item or in a quote, the one behind
// that. out is the block that b was the last of, if there is one.
func (b *block) next() (next, out *block) {
	for ; b.up != nil; b = b.up {
		if b.nth+1 < len(b.up.inner) {
			return b.up.inner[b.nth+1], out
		}
		out = b.up
	}
	return nil, nil
}

// look takes what is private out of one line, and with it what belongs to it.
func (r *redactor) look(n int) {
	l, b := &r.lines[n], r.leaf[n]
	kind, text := r.Lines[n].Kind, l.folded.Text
	switch {
	case b == nil:
		return
	case b.kind() == ast.KindHeading && n == b.first && privateHeading(text):
		r.section(b)
		return
	case kind == Log && r.said[n] != nil && r.said[n].Word == Private, privateLine(text), b.first == b.last && kind != Log && b.isText() && onlyPrivate(text):
		r.remark(b, n, true)
		return
	}
	logged, body := kind == Log || kind == Unread, 0
	switch st := r.said[n]; {
	case st != nil:
		for offset := st.Body.Start - r.Lines[n].Body; body < len(text) && l.folded.At(body) < offset; body++ {
		}
	case logged:
		body = strings.IndexByte(text, ':') + 1
	}
	kept := withoutPrivate(l.text, l.folded, body, logged)
	switch {
	case !kept.cut:
		return
	case kept.cell && !logged, isRow(b.node) && kept.open:
		r.remark(b, n, true)
	default:
		l.text = kept.text
		if kept.open {
			r.remark(b, n, false)
		}
	}
}

// section takes out what is below a private heading.
func (r *redactor) section(heading *block) {
	r.hide(heading.first, heading.last)
	last := r.below(heading)
	for n := heading.last + 1; n <= last; n++ {
		if r.Lines[n].Kind == Log {
			r.lines[n].below = true
		} else {
			r.lines[n].gone = true
		}
	}
}

// below is the last line of what stands below a heading.
func (r *redactor) below(heading *block) int {
	last := heading.last
	for _, b := range heading.up.inner[heading.nth+1:] {
		if h, ok := b.node.(*ast.Heading); ok && h.Level <= heading.node.(*ast.Heading).Level {
			break
		}
		last = b.last
	}
	return min(last, r.days[heading.first]-1)
}

// hide takes out lines up to the next day, but for log lines that are not private. One with a
// dash may go on with what is.
func (r *redactor) hide(first, last int) {
	for n := first; n <= last && n < r.days[first]; n++ {
		l, of := &r.lines[n], &r.Lines[n]
		switch {
		case of.Kind == Log && (r.said[n] == nil || r.said[n].Word != Private) && !privateLine(l.folded.Text):
			l.doubt = l.doubt || strings.Contains(l.folded.Text, " --")
		case of.Kind == Unread && (of.Meant == Sheet || of.Meant == "" && isDigit(at(l.folded.Text, 0))) && !privateLine(l.folded.Text):
			l.doubt = true
		default:
			l.gone = true
		}
	}
}

// remark takes out what goes with a private remark on line n of a block, which is all of the
// line or its end.
func (r *redactor) remark(b *block, n int, whole bool) {
	r.hideElement(n)
	// A line that Markdown gives to an item though it stands left of it is above what follows.
	lazy := whole && b.isText() && r.Lines[n].Kind != Log && n > b.first && b.up.kind() == ast.KindListItem && r.indent(n) <= r.indent(b.up.first)
	switch {
	case n < b.cut && lazy:
		r.follow(b, n, whole, lazy)
		return
	case n < b.cut:
		return
	case !isRow(b.node):
		b.cut = r.days[n]
	}
	from := n
	if !whole {
		from++
	}
	last := b.last
	if b.kind() == ast.KindFencedCodeBlock && n > b.first { // its fence stays
		last = r.lastOfFence(b)
	}
	switch {
	case isRow(b.node):
		if last = b.last; b.kind() == east.KindTableHeader {
			last = b.up.last
		}
		r.hide(n, last)
		return
	case whole && n == b.first && b.nth == 0 && b.up != nil && (b.up.kind() == ast.KindListItem || b.up.kind() == ast.KindBlockquote):
		r.hide(b.up.first, b.up.last)
	default:
		r.hide(from, last)
	}
	r.follow(b, n, whole, lazy)
}

// lastOfFence is the last line of a fenced block that is not its fence.
func (r *redactor) lastOfFence(b *block) int {
	if text := strings.Trim(r.lines[b.last].folded.Text, "> \t"); b.last > b.first && len(text) > 2 && strings.Trim(text, "`~-") == "" { // or front matter's
		return b.last - 1
	}
	return b.last
}

// follow takes out the blocks behind a remark on line n of b that go with it.
func (r *redactor) follow(b *block, n int, whole, lazy bool) {
	behind := n // the end of what goes
	if r.Lines[n].Kind != Log {
		behind = b.last
	}
	day := len(r.lines)
	if n+1 < day {
		day = r.days[n+1]
	}
	for now := b; ; {
		next, out := now.next()
		if next == nil || next.first >= day {
			return
		}
		adjacent := next.first == behind+1
		open := now.isText() && waits(r.lines[behind].folded.Text) || now == b && onlyPrivate(r.lines[n].folded.Text)
		switch {
		case next.kind() == KindLogLine:
			if adjacent || open {
				r.hide(next.first, next.last)
			}
			return
		case next.kind() == ast.KindThematicBreak:
			return
		case next.kind() == ast.KindHeading:
			if open {
				r.doubt(next.first, r.below(next))
			}
			return
		case open:
		case next.kind() == ast.KindListItem:
			if !lazy || next.listed {
				return
			}
			next.listed = true
		case now == b && r.Lines[n].Kind == Log && !whole: // the remark of a log line
			switch {
			case !adjacent:
				return
			case ended(r.lines[n].folded.Text) && !goesOn(r.lines[next.first].folded.Text):
				r.doubt(next.first, next.last)
				return
			}
		case adjacent && next.isText() && now.isText():
		case next.isEnclosed() && (now.isText() || now.kind() == ast.KindList && next.kind() == ast.KindList) && (out == nil || adjacent && (out.kind() == ast.KindBlockquote || next.kind() != ast.KindList)):
		default:
			return
		}
		r.hide(next.first, next.last)
		now, behind = next, next.last
	}
}

// doubt names lines that stay.
func (r *redactor) doubt(first, last int) {
	for n := first; n <= last; n++ {
		r.lines[n].doubt = r.Lines[n].Kind != Blank
	}
}

// ended reports whether a sentence ends with a text.
func ended(text string) bool {
	text = strings.TrimRight(text, " \t\"')]"+emphasis)
	return text != "" && strings.IndexByte(".!?", text[len(text)-1]) >= 0
}

// goesOn reports whether a line reads as the rest of the one above it, broken by an
// editor: sentences begin with a capital.
func goesOn(text string) bool {
	text = strings.TrimLeft(text, " \t")
	return text != "" && text[0] >= 'a' && text[0] <= 'z'
}

// redaction is the notebook as it is now.
func (r *redactor) redaction() (out Redaction) {
	for _, st := range r.Statements {
		if names, ok := privateScan(st); ok {
			out.Scans = append(out.Scans, names...)
		}
	}
	var text bytes.Buffer
	for n := range r.lines {
		l, of := &r.lines[n], r.Lines[n]
		whole := string(r.File.Text[of.Body:of.BodyEnd])
		if l.gone {
			out.Private = out.Private || whole != ""
			text.WriteString(r.quoted(n))
			text.Write(r.File.Text[of.BodyEnd:of.Close])
			continue
		}
		if l.below {
			l.text = withoutRemark(l.text)
			out.Below = append(out.Below, n+1)
		}
		nearly := r.leaf[n].kind() == ast.KindHeading && of.Kind != Log && nearlyPrivate(l.text)
		if st := r.said[n]; st != nil && held(st) {
			l.text = string(r.File.Text[of.Body:st.Body.Start]) + " " + privateWord
		} else if nearly || saysPrivate(l.text) || slices.ContainsFunc(out.Scans, func(name string) bool { return strings.Contains(l.text, name) }) {
			out.Left = append(out.Left, n+1)
		} else if l.doubt && !l.below {
			out.Doubted = append(out.Doubted, n+1)
		}
		out.Private = out.Private || l.text != whole
		if l.text != "" || whole == "" {
			text.Write(r.File.Text[of.Start:of.Body])
		}
		text.WriteString(l.text)
		text.Write(r.File.Text[of.BodyEnd:of.Close])
	}
	out.Text = text.Bytes()
	return out
}

// quoted is what stays of a line that is gone from within a fence: the signs of the quotes,
// without which the end of the fence would be the beginning of another.
func (r *redactor) quoted(n int) string {
	b := r.leaf[n]
	if b.kind() != ast.KindFencedCodeBlock || r.lines[b.first].gone {
		return ""
	}
	for up := b.up; up != nil; up = up.up {
		if up.kind() == ast.KindBlockquote {
			return strings.TrimRight(r.File.Whole()[r.Lines[n].Start:][:r.indent(n)], " \t")
		}
	}
	return ""
}

// held reports whether a scan line says that its scans are private.
func held(st *Statement) bool { _, ok := privateScan(st); return ok }

// privateScan reports whether a scan line says that its scans are private, and which
// they are.
func privateScan(st *Statement) (names []string, ok bool) {
	if st.Word != Scan || len(st.Labels) == 0 {
		return nil, false
	}
	for part := range strings.SplitSeq(st.Text, ",") {
		switch part = strings.TrimSpace(part); {
		case strings.EqualFold(part, privateWord):
			ok = true
		case path.Ext(part) != "":
			names = append(append(names, part), strings.Fields(part)...) // one name with blanks, or several
		}
	}
	return names, ok
}

// withoutRemark leaves a log line without what is behind its dash.
func withoutRemark(line string) string {
	for _, dash := range [...]string{" -- ", " – ", " — "} {
		if i := strings.Index(line, dash); i >= 0 {
			line = strings.TrimRight(line[:i], " \t")
		}
	}
	return line
}
