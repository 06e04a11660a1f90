package lang

import (
	"bytes"
	"path"
	"slices"
	"strings"

	"notchbook/lang/source"
)

// Redaction is a notebook as it may be handed on.
type Redaction struct {
	Text    []byte   // without the private remarks
	Private bool     // there were some
	Left    []int    // lines, from 1, that speak of something private and stand in Text
	Scans   []string // files that a scan line holds back, as it names them
}

// Public is a notebook without its private remarks. A remark is private when it begins with "private:", behind any sign, on a
// log line also behind a blank, in brackets, quotation marks, a comment, a cell or struck
// out; "private note:" and its like say the same. Below a heading that is no more than
// that, all prose goes up to the next heading of its level. With a line that begins so, or does not
// close what it opened, go the lines of prose that follow it in the same paragraph,
// which are its rest where an editor broke it. An emptied line keeps its line end, so
// that the lines of the copy have the numbers of the original.
//
// Of a scan line with the word private, as in "scan 1A: kiln.tif, private", only the
// labels and that word stay.
//
// It looks at every line, whatever that was read as, and takes a word that is nearly
// "private" for it: where the shape of a line is in doubt, what is marked goes.
func Public(tree *Notebook) (out Redaction) {
	file := tree.File
	var text bytes.Buffer
	var at place
	held := map[int]*Statement{} // by where the line begins
	for _, st := range tree.Statements {
		if names, ok := privateScan(st); ok {
			held[st.Span.Start], out.Scans = st, append(out.Scans, names...)
		}
	}
	line := func(n int) string { return string(file.Text[tree.Lines[n].Body:tree.Lines[n].BodyEnd]) }
	for n, l := range tree.Lines {
		body := line(n)
		under := ""
		if n+1 < len(tree.Lines) {
			under = line(n + 1)
		}
		folded := source.Fold(body)
		gone := at.enters(l.Kind, string(file.Text[l.Start:l.BodyEnd]), folded.Text, under)
		if gone {
			out.Private = out.Private || l.Body < l.BodyEnd
			text.Write(file.Text[l.BodyEnd:l.Close])
			continue
		}
		kept, open := withoutPrivate(body, folded, l.Kind == Log || l.Kind == Unread)
		if at.section > 0 {
			kept = withoutRemark(kept)
		}
		private := len(kept) != len(body)
		at.leaves(l.Kind, folded.Text, private, open)
		out.Private = out.Private || private
		if st := held[l.Body]; st != nil && l.Kind == Log {
			kept, out.Private = string(file.Text[l.Body:st.Body.Start])+" "+privateWord, true
		} else if at.section > 0 || at.doubtful || saysPrivate(kept) || l.Kind != Log && headingLevel(folded.Text, under) > 0 && nearlyPrivate(folded.Text) ||
			slices.ContainsFunc(out.Scans, func(name string) bool { return strings.Contains(kept, name) }) {
			out.Left = append(out.Left, n+1)
		}
		text.Write(file.Text[l.Start:l.Body])
		text.WriteString(kept)
		text.Write(file.Text[l.BodyEnd:l.Close])
	}
	out.Text = text.Bytes()
	return out
}

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

// place is where a line stands to what is marked private above it.
type place struct {
	section  int  // level of the private heading that it stands below, 0 for none
	inside   bool // in the paragraph of a private line
	item     bool // that line was an item of a list, which the next item ends
	waits    bool // that line said "private:" and no more: the paragraph below is meant
	wrapped  bool // behind a log line whose private remark went on to its end
	doubtful bool // the line may have been meant, and stays
}

// enters takes the next line, and reports whether all of it goes.
func (p *place) enters(kind LineKind, typed, text, under string) bool {
	if level := headingLevel(text, under); level > 0 && (p.section == 0 || level <= p.section) {
		p.section = 0
		if privateHeading(text) {
			p.section = level
		}
	}
	block, listed := beginsBlock(typed)
	p.doubtful = false
	switch {
	case privateLine(text):
		*p = place{section: p.section, inside: true, item: listed, waits: isBarePrivate(text)}
		return true
	case kind == Blank:
		p.inside, p.wrapped = p.inside && p.waits, false
	case kind == Log:
		p.doubtful = p.inside && strings.Contains(text, " --") // its remark may go on with what is private
		p.inside, p.waits = false, false
	case block, listed && p.item:
		p.inside, p.waits, p.wrapped = false, false, false
	case p.wrapped && goesOn(text):
		p.inside, p.wrapped = true, false
	case p.wrapped:
		p.doubtful, p.wrapped = true, false
	}
	if p.inside && kind != Blank {
		p.waits = false
	}
	return (p.inside || p.section > 0) && kind != Log
}

// leaves is what a line that stays says of the next.
func (p *place) leaves(kind LineKind, text string, private, open bool) {
	switch {
	case open && kind != Log:
		p.inside, p.item = true, false
	case private && (kind == Log || kind == Unread):
		p.wrapped = !strings.HasSuffix(strings.TrimRight(text, " \t"), ")")
	}
}

// goesOn reports whether a line reads as the rest of the one above it, broken by an
// editor: sentences begin with a capital.
func goesOn(text string) bool {
	text = strings.TrimLeft(text, " \t")
	return text != "" && text[0] >= 'a' && text[0] <= 'z'
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

// headingLevel is the level of a heading, by the signs before it or by those below it; 0
// where a line is none.
func headingLevel(line, under string) int {
	line, under = strings.TrimLeft(line, " \t>"), strings.TrimSpace(under)
	level := len(line) - len(strings.TrimLeft(line, "#"))
	switch {
	case level > 0 && level <= 6 && (level == len(line) || isSpace(line[level])):
		return level
	case level > 0, line == "", under == "":
		return 0
	case strings.Trim(under, "=") == "":
		return 1
	case strings.Trim(under, "-") == "":
		return 2
	}
	return 0
}

// privateHeading reports whether a heading is private and no more. The word is as it is, for
// all below goes with it: Privates are soldiers.
func privateHeading(line string) bool {
	word, rest := cutLetters(strings.Trim(line, " \t>#*_:."))
	return lower(word) == privateWord && behindNote(rest) == ""
}

// nearlyPrivate reports whether a heading is one slip from private and no more.
func nearlyPrivate(line string) bool {
	line = strings.Trim(line, " \t>#*_:.")
	return !strings.Contains(line, ":") && beginsPrivate(line+":")
}

// saysPrivate reports whether a text has the word.
func saysPrivate(text string) bool {
	low := lower(text)
	for i := 0; ; i++ {
		n := strings.Index(low[i:], privateWord)
		if n < 0 {
			return false
		}
		i += n
		if (i == 0 || !isLetter(low[i-1])) && !isLetter(at(low, i+len(privateWord))) {
			return true
		}
	}
}

// beginsBlock reports whether a line of prose is a heading, a fence or a rule, and
// whether it begins a list's item.
func beginsBlock(line string) (block, item bool) {
	line = strings.TrimLeft(line, " \t")
	for _, sign := range []string{"```", "~~~", "---", "***", "___", "==="} {
		if strings.HasPrefix(line, sign) {
			return true, false
		}
	}
	if mark := strings.TrimLeft(line, "0123456789"); len(line) != len(mark) {
		return false, strings.HasPrefix(mark, ". ") || strings.HasPrefix(mark, ") ")
	}
	rest := strings.TrimLeft(line, "-*+#")
	marked := len(rest) < len(line) && strings.HasPrefix(rest, " ")
	return marked && line[0] == '#', marked && line[0] != '#'
}

// privateWord is what a private remark begins with, in any case and with
// blanks before the colon.
const privateWord = "private"

// beginsPrivate reports whether a text begins with "private:", or with a word one
// slip from it and a colon.
func beginsPrivate(text string) bool {
	word, rest := cutLetters(strings.TrimLeft(text, " \t*_~`"))
	if len(word)+1 < len(privateWord) || len(word) > len(privateWord)+1 || distance(lower(word), privateWord) > 1 {
		return false
	}
	return strings.HasPrefix(behindNote(rest), ":")
}

// behindNote is what follows "private", behind a word for a remark where there is one.
func behindNote(text string) string {
	const signs = " \t*_~`"
	text = strings.TrimLeft(text, signs)
	if note, behind := cutLetters(text); isNote(note) {
		return strings.TrimLeft(behind, signs)
	}
	return text
}

// privateLine passes over what Markdown sets before a text. At the beginning of a line the
// word is a mark also before sheets (private 1A:), before a dash, and in capitals.
func privateLine(text string) bool {
	text = afterMarks(text)
	if beginsPrivate(text) {
		return true
	}
	word, rest := cutLetters(strings.TrimLeft(text, "*_~`"))
	if lower(word) != privateWord {
		return false
	}
	rest = behindNote(rest)
	switch {
	case rest == "":
		return false
	case word == strings.ToUpper(word), strings.IndexByte("-;(", rest[0]) >= 0:
		return true
	}
	labels, _, colon := strings.Cut(rest, ":")
	return colon && len(labels) < 40 && !slices.ContainsFunc(strings.Fields(labels), func(w string) bool {
		return !strings.ContainsAny(w, "0123456789") && w != "and" && w != "to"
	})
}

// afterMarks is a text behind what Markdown sets before it.
func afterMarks(text string) string {
	text = strings.TrimLeft(text, " \t>#*-+•\ufeff0123456789.)")
	for _, box := range []string{"[ ]", "[x]", "[X]"} {
		text = strings.TrimPrefix(text, box)
	}
	return strings.TrimLeft(text, " \t")
}

// isBarePrivate reports a line that is marked private and says nothing else.
func isBarePrivate(text string) bool {
	text = strings.Trim(afterMarks(text), "*_~` \t:")
	return lower(text) == privateWord
}

// cutLetters cuts a text behind its first letters.
func cutLetters(text string) (word, rest string) {
	end := 0
	for end < len(text) && isLetter(text[end]|0x20) {
		end++
	}
	return text[:end], text[end:]
}

// isNote reports the words for a remark behind "private".
func isNote(word string) bool {
	switch strings.TrimSuffix(lower(word), "s") {
	case "remark", "note", "comment", "memo":
		return true
	}
	return false
}

// withoutPrivate takes the private remarks out of one line, and reports whether the
// last of them is still open at its end.
func withoutPrivate(line string, folded source.Folded, log bool) (text string, open bool) {
	var kept strings.Builder
	from, all := 0, folded.Text
	for i := 0; i < len(all); i++ {
		begin, end, closed := privateAt(all, i, log)
		if end == 0 {
			continue
		}
		kept.WriteString(strings.TrimRight(line[from:max(from, folded.At(begin))], " \t\u00a0"))
		from, i, open = folded.End(end), end-1, !closed
	}
	kept.WriteString(line[from:])
	return kept.String(), open
}

// privateAt is the private remark that a sign at i opens, from where to where it is
// taken out, and whether it closes on the line; end is 0 where there is none.
func privateAt(text string, i int, log bool) (begin, end int, closed bool) {
	rest := text[i+1:]
	until := func(from int, sign string) (int, int, bool) {
		if n := strings.Index(text[i+1:], sign); n >= 0 {
			return from, i + 1 + n, true
		}
		return from, len(text), false
	}
	switch c := text[i]; c {
	case '(', '[', '"', '\'':
		if beginsPrivate(rest) {
			end, closed := closedAt(text, i, c, map[byte]byte{'(': ')', '[': ']', '"': '"', '\'': '\''}[c])
			if c == '[' && closed && at(text, end) == '(' { // where a link leads tells as much
				end, closed = closedAt(text, end, '(', ')')
			}
			return i, end, closed
		}
	case '-':
		rest = strings.TrimLeft(rest, "-")
		switch {
		case !beginsPrivate(rest):
		case strings.HasSuffix(text[:i], "<!"):
			begin, end, closed = until(i-len("<!"), "-->")
			if closed {
				end += len("-->")
			}
			return begin, end, closed
		case i == 0 || strings.IndexByte(" \t-", text[i-1]) >= 0:
			return i, len(text), true
		}
	case ' ', '\t': // in prose a gate may be private: no entry
		if log && beginsPrivate(rest) && !strings.HasPrefix(strings.TrimLeft(rest, " \t"), "~") {
			return i, len(text), false
		}
	case '~':
		if strings.HasPrefix(rest, "~") && beginsPrivate(rest) {
			if n := strings.Index(rest[1:], "~~"); n >= 0 {
				return i, i + 2 + n + 2, true
			}
			return i, len(text), false
		}
	case '|':
		if beginsPrivate(rest) {
			return until(i+1, "|")
		}
	case '>':
		if beginsPrivate(rest) {
			begin, end, closed = until(i+1, "<")
			if _, said, _ := strings.Cut(text[begin:end], ":"); strings.TrimSpace(said) == "" { // only the word stood in the tag
				return i + 1, len(text), false
			}
			return begin, end, closed
		}
	case ':', ',', ';', '.', '!', '?', '{', '=', '/':
		if beginsPrivate(rest) && !strings.HasPrefix(strings.TrimLeft(rest, " \t"), "~") { // that is struck out
			return i + 1, len(text), true
		}
	}
	return 0, 0, false
}

// closedAt is the offset behind the bracket or quotation mark that closes the
// one at i, and whether one does. An apostrophe within words closes nothing.
func closedAt(text string, i int, open, closing byte) (int, bool) {
	depth := 1
	for j := i + 1; j < len(text); j++ {
		switch {
		case text[j] == closing && closing == '\'' && j+1 < len(text) && isLetter(text[j+1]|0x20):
		case text[j] == closing:
			if depth--; depth == 0 {
				return j + 1, true
			}
		case text[j] == open:
			depth++
		}
	}
	return len(text), false
}
