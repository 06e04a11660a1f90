package lang

import (
	"bytes"
	"strings"

	"notchbook/lang/source"
)

// Public is a notebook's text without its private remarks, and whether there
// were any. A remark is private when it begins with "private:", behind a dash,
// in brackets or in quotation marks; so is a line that begins with that word,
// and with it the lines of prose that follow it in the same paragraph, which
// are its rest where an editor broke it. An emptied line keeps its line end, so
// that the lines of the copy have the numbers of the original.
//
// It looks at every line, whatever that was read as: where the shape of a line
// is in doubt, what is marked private goes.
func Public(tree *Notebook) (text []byte, private bool) {
	file := tree.File
	var out bytes.Buffer
	inside := false // the paragraph of a private line
	for _, l := range tree.Lines {
		body := string(file.Text[l.Body:l.BodyEnd])
		folded := source.Fold(body)
		inside = inside && l.Kind != Blank && l.Kind != Log && !beginsBlock(file.Text[l.Start:l.BodyEnd]) || privateLine(folded.Text)
		if inside {
			private = true
			out.Write(file.Text[l.BodyEnd:l.Close])
			continue
		}
		kept := withoutPrivate(body, folded)
		private = private || len(kept) != len(body)
		out.Write(file.Text[l.Start:l.Body])
		out.WriteString(kept)
		out.Write(file.Text[l.BodyEnd:l.Close])
	}
	return out.Bytes(), private
}

// beginsBlock reports whether a line of prose begins a list's item or a heading.
func beginsBlock(line []byte) bool {
	line = bytes.TrimLeft(line, " \t")
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

// beginsPrivate reports whether a text begins with "private:".
func beginsPrivate(text string) bool {
	text = strings.TrimLeft(text, " \t*_~`")
	if len(text) < len(privateWord) || !strings.EqualFold(text[:len(privateWord)], privateWord) {
		return false
	}
	return strings.HasPrefix(strings.TrimLeft(text[len(privateWord):], " \t*_~`"), ":")
}

// privateLine passes over what Markdown sets before a text.
func privateLine(text string) bool {
	text = strings.TrimLeft(text, " \t>#*-+•\ufeff0123456789.)")
	for _, box := range []string{"[ ]", "[x]", "[X]"} {
		text = strings.TrimPrefix(text, box)
	}
	return beginsPrivate(text)
}

// withoutPrivate takes the private remarks out of one line.
func withoutPrivate(line string, folded source.Folded) string {
	var kept strings.Builder
	from, text := 0, folded.Text
	for i := 0; i < len(text); i++ {
		end := privateEnd(text, i)
		if end == 0 {
			continue
		}
		kept.WriteString(strings.TrimRight(line[from:folded.At(i)], " \t\u00a0"))
		from, i = folded.End(end), end-1
	}
	kept.WriteString(line[from:])
	return kept.String()
}

// privateEnd is where the private remark ends that opens at i, 0 where none
// does. What is not closed goes on to the end of the line.
func privateEnd(text string, i int) int {
	closing := ""
	rest := text[i+1:]
	switch text[i] {
	case '(':
		closing = ")"
	case '[':
		closing = "]"
	case '"', '\'':
		closing = text[i : i+1]
	case '-':
		if i > 0 && !strings.ContainsRune(" \t-", rune(text[i-1])) {
			return 0
		}
		rest = strings.TrimLeft(rest, "-")
	default:
		return 0
	}
	if !beginsPrivate(rest) {
		return 0
	}
	if closing == "" {
		return len(text)
	}
	return closedAt(text, i, text[i], closing[0])
}

// closedAt is the offset behind the bracket or quotation mark that closes the
// one at i. An apostrophe within words closes nothing.
func closedAt(text string, i int, open, closing byte) int {
	depth := 1
	for j := i + 1; j < len(text); j++ {
		switch {
		case text[j] == closing && closing == '\'' && j+1 < len(text) && isLetter(text[j+1]|0x20):
		case text[j] == closing:
			if depth--; depth == 0 {
				return j + 1
			}
		case text[j] == open:
			depth++
		}
	}
	return len(text)
}
