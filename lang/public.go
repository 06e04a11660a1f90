package lang

import (
	"bytes"
	"strings"

	"notchbook/lang/source"
)

// Redaction is a notebook as it may be handed on.
type Redaction struct {
	Text    []byte // without the private remarks
	Private bool   // there were some
	Left    []int  // lines, from 1, that speak of something private and stand in Text
}

// Public is a notebook without its private remarks. A remark is private when it begins with "private:", behind any sign, on a
// log line also behind a blank, in brackets, quotation marks, a comment, a cell or struck
// out; "private note:" and its like say the same. Below a heading that is no more than
// that, all prose goes up to the next heading of its level. With a line that begins so, or does not
// close what it opened, go the lines of prose that follow it in the same paragraph,
// which are its rest where an editor broke it. An emptied line keeps its line end, so
// that the lines of the copy have the numbers of the original.
//
// It looks at every line, whatever that was read as, and takes a word that is nearly
// "private" for it: where the shape of a line is in doubt, what is marked goes.
func Public(tree *Notebook) (out Redaction) {
	file := tree.File
	var text bytes.Buffer
	inside := false // the paragraph of a private line
	section := 0    // level of the private heading, 0 outside
	for n, l := range tree.Lines {
		body := string(file.Text[l.Body:l.BodyEnd])
		folded := source.Fold(body)
		if level := headingLevel(body); level > 0 && (section == 0 || level <= section) {
			section = 0
			if privateHeading(folded.Text) {
				section = level
			}
		}
		inside = inside && l.Kind != Blank && l.Kind != Log && !beginsBlock(file.Text[l.Start:l.BodyEnd]) || privateLine(folded.Text)
		if inside || section > 0 && l.Kind != Log {
			out.Private = out.Private || l.Body < l.BodyEnd
			text.Write(file.Text[l.BodyEnd:l.Close])
			continue
		}
		kept, open := withoutPrivate(body, folded, l.Kind == Log || l.Kind == Unread)
		inside = open && l.Kind != Log
		out.Private = out.Private || len(kept) != len(body)
		if section > 0 || saysPrivate(kept) {
			out.Left = append(out.Left, n+1)
		}
		text.Write(file.Text[l.Start:l.Body])
		text.WriteString(kept)
		text.Write(file.Text[l.BodyEnd:l.Close])
	}
	out.Text = text.Bytes()
	return out
}

// headingLevel is how many signs stand before a heading's text, 0 where a line is none.
func headingLevel(line string) int {
	line = strings.TrimLeft(line, " \t>")
	level := len(line) - len(strings.TrimLeft(line, "#"))
	if level > 6 || level < len(line) && !isSpace(line[level]) {
		return 0
	}
	return level
}

// privateHeading reports whether a heading is private and no more.
func privateHeading(line string) bool {
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

// beginsBlock reports whether a line of prose begins a list's item or a heading, or
// is a fence or a rule.
func beginsBlock(line []byte) bool {
	line = bytes.TrimLeft(line, " \t")
	for _, sign := range []string{"```", "~~~", "---", "***", "___", "==="} {
		if bytes.HasPrefix(line, []byte(sign)) {
			return true
		}
	}
	mark := bytes.TrimLeft(line, "0123456789")
	if len(line) != len(mark) {
		return bytes.HasPrefix(mark, []byte(". ")) || bytes.HasPrefix(mark, []byte(") "))
	}
	rest := bytes.TrimLeft(line, "-*+#")
	return len(rest) < len(line) && bytes.HasPrefix(rest, []byte(" "))
}

// privateWord is what a private remark begins with, in any case and with
// blanks before the colon.
const privateWord = "private"

// beginsPrivate reports whether a text begins with "private:", or with a word one
// slip from it and a colon.
func beginsPrivate(text string) bool {
	text = strings.TrimLeft(text, " \t*_~`")
	end := 0
	for end < len(text) && isLetter(text[end]|0x20) {
		end++
	}
	if end+1 < len(privateWord) || end > len(privateWord)+1 || distance(lower(text[:end]), privateWord) > 1 {
		return false
	}
	rest := strings.TrimLeft(text[end:], " \t*_~`")
	for _, what := range [...]string{"remark", "note", "comment", "memo"} {
		if behind, ok := strings.CutPrefix(lower(rest), what); ok && rest[0] != ':' {
			rest = strings.TrimLeft(strings.TrimPrefix(behind, "s"), " \t*_~`")
			break
		}
	}
	return strings.HasPrefix(rest, ":")
}

// privateLine passes over what Markdown sets before a text.
func privateLine(text string) bool {
	text = strings.TrimLeft(text, " \t>#*-+•\ufeff0123456789.)")
	for _, box := range []string{"[ ]", "[x]", "[X]"} {
		text = strings.TrimPrefix(text, box)
	}
	return beginsPrivate(text)
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
			return until(i+1, "<")
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
