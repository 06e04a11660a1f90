package lang

import (
	"regexp"
	"slices"
	"strings"

	"notchbook/lang/source"
)

// How a private remark is marked, in a line by itself. Which other lines go with it is in
// public.go.

// privateWord is what a private remark begins with, in any case and with
// blanks before the colon.
const privateWord = "private"

// emphasis are the marks that may stand around a word.
const emphasis = "*_~`"

// beginsPrivate reports whether a text begins with "private:", or with a word one
// slip from it and a colon.
func beginsPrivate(text string) bool {
	word, rest := cutLetters(strings.TrimLeft(text, " \t"+emphasis))
	if len(word)+1 < len(privateWord) || len(word) > len(privateWord)+1 || distance(lower(word), privateWord) > 1 {
		return false
	}
	return strings.HasPrefix(behindNote(rest), ":")
}

// behindNote is what follows "private", behind a word for a remark where there is one.
func behindNote(text string) string {
	const signs = " \t" + emphasis
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
	word, rest := cutLetters(strings.TrimLeft(text, emphasis))
	if lower(word) != privateWord {
		return false
	}
	rest = behindNote(rest)
	switch {
	case rest == "":
		return false
	case rest[0] == ']': // > [!private]
		return true
	case word == strings.ToUpper(word), strings.IndexByte("-;(", rest[0]) >= 0:
		return true
	}
	labels, _, colon := strings.Cut(rest, ":")
	return colon && len(labels) < 40 && !slices.ContainsFunc(strings.Fields(labels), func(w string) bool {
		return !strings.ContainsAny(w, "0123456789") && w != "and" && w != "to"
	})
}

// onlyPrivate reports whether a line is the word and no more, which as a block of its own
// says of the next one what "private:" does.
func onlyPrivate(text string) bool {
	word, rest := cutLetters(strings.TrimLeft(afterMarks(text), emphasis))
	return lower(word) == privateWord && behindNote(rest) == ""
}

// privateHeading reports whether a heading begins with the word, behind whatever signs. The
// word is as it is, for all below goes with it: Privates are soldiers.
func privateHeading(text string) bool {
	word, _ := cutLetters(strings.TrimLeftFunc(text, func(c rune) bool { return c > 0x7f || !isLetter(byte(c)|0x20) }))
	return lower(word) == privateWord
}

// nearlyPrivate reports whether a heading is one slip from private and no more.
func nearlyPrivate(text string) bool {
	text = strings.Trim(text, " \t>#*_:.")
	return !strings.Contains(text, ":") && beginsPrivate(text+":")
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

// afterMarks is a text behind what Markdown sets before it.
func afterMarks(text string) string {
	text = strings.TrimLeft(text, " \t>#*-+•\ufeff0123456789.)\\")
	for _, box := range []string{"[ ]", "[x]", "[X]", "[!"} {
		text = strings.TrimPrefix(text, box)
	}
	return strings.TrimLeft(text, " \t")
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

// waits reports whether a text ends in a colon: what it speaks of is still to come.
func waits(text string) bool {
	return strings.HasSuffix(strings.TrimRight(tag.ReplaceAllString(text, ""), " \t"+emphasis), ":")
}

var (
	tag     = regexp.MustCompile(`</?[A-Za-z][^<>]*>`)
	lastTag = regexp.MustCompile(`<([A-Za-z][A-Za-z0-9]*)[^<>]*>$`)
	naming  = regexp.MustCompile(`[ \t]+([A-Za-z-]+)[ \t]*=[ \t]*$`) // an attribute, before its value
	onlySet = regexp.MustCompile(`^[ \t>]*([-*+•]|[0-9]+[.)]|#+|\[\^[^\]]*\]:?)?[ \t]*(\[[ xX]?\])?[ \t]*$`)
	leadIn  = regexp.MustCompile(`(?i)(^|[ \t(])(see|see also|cf\.?|namely|viz\.?|i\.e\.|e\.g\.|and|or|&)$`)
)

// redacted is one line without its private remarks.
type redacted struct {
	text string
	cut  bool // there were some
	open bool // the last one goes on to the end of the line, and is closed by nothing there
	cell bool // one is a cell of a table
}

// withoutPrivate takes the private remarks out of a line of prose, or of a log line, of which
// what is before body stays whatever is taken.
func withoutPrivate(line string, folded source.Folded, body int, log bool) (r redacted) {
	var kept strings.Builder
	behind, from, all := 0, 0, folded.Text // the last cut, in the line and as folded
	for i := 0; i < len(all); i++ {
		m := privateAt(all, i, log)
		if m.end == 0 {
			continue
		}
		r.cut, r.open, r.cell = true, !m.closed, r.cell || m.cell
		least := from
		if m.begin >= body {
			least = max(body, from)
		}
		begin, end := widened(all, least, m.begin, m.end)
		kept.WriteString(strings.TrimRight(line[behind:max(behind, folded.At(begin))], " \t\u00a0"))
		behind, from, i = folded.End(end), end, max(i, end-1)
	}
	rest := line[behind:]
	if r.cut && kept.Len() == 0 {
		rest = strings.TrimLeft(rest, " \t\u00a0")
	}
	if r.text = kept.String() + rest; r.cut && !log && onlySet.MatchString(r.text) {
		r.text = ""
	}
	return r
}

// mark is where a private remark stands on its line; end is 0 where there is none.
type mark struct {
	begin, end int
	closed     bool // what closes it stands on the line
	cell       bool
}

// privateAt is the private remark that the sign at i opens.
func privateAt(text string, i int, log bool) mark {
	rest := text[i+1:]
	switch c := text[i]; c {
	case '(', '[', '"', '\'':
		if !beginsPrivate(rest) {
			break
		}
		end, closed := closedAt(text, i, c, map[byte]byte{'(': ')', '[': ']', '"': '"', '\'': '\''}[c])
		switch next := at(text, end); { // where a link leads tells as much
		case c != '[' || !closed:
		case next == '(':
			end, closed = closedAt(text, end, '(', ')')
		case next == '[':
			end, closed = closedAt(text, end, '[', ']')
		case next == ':' && strings.Trim(text[:i], " \t>") == "":
			end = len(text)
		}
		return mark{begin: i, end: end, closed: closed}
	case '*', '_', '~', '`':
		run := len(text) - i - len(strings.TrimLeft(text[i:], string(c)))
		if i > 0 && (text[i-1] == c || isLetter(text[i-1]|0x20)) || !beginsPrivate(text[i+run:]) {
			break
		}
		if n := strings.Index(text[i+run:], text[i:i+run]); n >= 0 && !isBarePrivate(text[i+run:i+run+n]) {
			return mark{begin: i, end: i + run + n + run, closed: true}
		}
		return toEnd(text, i, i)
	case '-':
		rest = strings.TrimLeft(rest, "-")
		switch {
		case !beginsPrivate(rest):
		case strings.HasSuffix(text[:i], "<!"):
			if n := strings.Index(text[i:], "-->"); n >= 0 {
				return mark{begin: i - len("<!"), end: i + n + len("-->"), closed: true}
			}
			return mark{begin: i - len("<!"), end: len(text)}
		case i == 0 || strings.IndexByte(" \t-", text[i-1]) >= 0:
			return toEnd(text, i, i)
		}
	case ' ', '\t': // in prose a gate may be private: no entry
		next := strings.TrimLeft(rest, " \t")
		if next == "" || strings.IndexByte(emphasis, next[0]) >= 0 || !beginsPrivate(rest) {
			break
		}
		if log || next[0] == 'P' || i > 0 && strings.IndexByte(")]}\"'"+emphasis, text[i-1]) >= 0 {
			return toEnd(text, i, i)
		}
	case '|':
		if beginsPrivate(rest) {
			if n := strings.IndexByte(rest, '|'); n >= 0 {
				return mark{begin: i + 1, end: i + 1 + n, closed: true, cell: true}
			}
			return mark{begin: i + 1, end: len(text), cell: true}
		}
	case '>':
		if !beginsPrivate(rest) {
			break
		}
		if opened := lastTag.FindStringSubmatch(text[:i+1]); opened != nil {
			n := strings.Index(lower(rest), "</"+lower(opened[1]))
			if n >= 0 && !isBarePrivate(tag.ReplaceAllString(rest[:n], "")) { // else only the word stood in the tag
				return mark{begin: i + 1, end: i + 1 + n, closed: true}
			}
		}
		return mark{begin: i + 1, end: len(text)}
	case ':', ',', ';', '.', '!', '?', '{', '=', '/':
		if next := strings.TrimLeft(rest, " \t"); beginsPrivate(rest) && strings.IndexByte(emphasis, next[0]) < 0 {
			return toEnd(text, i, i+1)
		}
	}
	return mark{}
}

// isBarePrivate reports a text that is marked private and says nothing else.
func isBarePrivate(text string) bool {
	word, rest := cutLetters(strings.Trim(text, " \t"+emphasis))
	return distance(lower(word), privateWord) <= 1 && strings.Trim(behindNote(rest), " \t:"+emphasis) == ""
}

// toEnd is a remark that a sign at i opens and nothing closes but what is around it: the
// brackets, the strokes or the comment that the sign stands in, else the end of the line.
func toEnd(text string, i, begin int) mark {
	var around []string // what closes them
	for j := 0; j < i; j++ {
		switch rest := text[j:]; {
		case len(around) > 0 && strings.HasPrefix(rest, around[len(around)-1]):
			j += len(around[len(around)-1]) - 1
			around = around[:len(around)-1]
		case strings.HasPrefix(rest, "<!--"):
			around = append(around, "-->")
		case strings.HasPrefix(rest, "~~"), strings.HasPrefix(rest, "**"):
			around = append(around, rest[:2])
			j++
		case rest[0] == '(':
			around = append(around, ")")
		case rest[0] == '[':
			around = append(around, "]")
		}
	}
	for _, closing := range slices.Backward(around) {
		end, closed := strings.Index(text[i+1:], closing), true
		switch closing {
		case ")":
			end, closed = closedAt(text, i, '(', ')')
			end -= i + 2
		case "]":
			end, closed = closedAt(text, i, '[', ']')
			end -= i + 2
		}
		if end >= 0 && closed {
			return mark{begin: begin, end: i + 1 + end, closed: true}
		}
	}
	return mark{begin: begin, end: len(text)}
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

// widened is a cut with what is nothing without it: the brackets that it empties, the sign
// that makes a picture of them, the name of a tag's attribute, and where nothing of the
// sentence follows, the separator or the word that led to it. What is before from stays.
func widened(text string, from, begin, end int) (int, int) {
	begin = max(begin, from)
	if text[begin] == '[' && begin > from && text[begin-1] == '!' {
		begin--
	}
	if name := naming.FindStringSubmatch(text[from:begin]); name != nil {
		begin -= len(name[0])
		open, closing := strings.LastIndexByte(text[from:begin], '<'), strings.IndexByte(text[end:], '>')
		if lower(name[1]) == "alt" && open >= 0 && closing >= 0 { // it stands for the whole picture
			begin, end = from+open, end+closing+1
		}
	}
	for {
		head, tail := strings.TrimRight(text[from:begin], " \t"), strings.TrimLeft(text[end:], " \t")
		opening, closing := emptied(head, tail)
		if opening == 0 {
			break
		}
		begin, end = from+len(head)-opening, len(text)-len(tail)+closing
	}
	if next := at(text, end); strings.TrimSpace(text[from:begin]) == "" && (next == ',' || next == ';') {
		end++
	}
	if tail := strings.TrimLeft(text[end:], " \t"); tail == "" || strings.IndexByte(",;.:!?)]}|~*<", tail[0]) >= 0 {
		begin = from + len(withoutLead(text[from:begin], tail == ""))
	}
	return begin, end
}

// emptied is how long the marks are that a cut between head and tail leaves with nothing
// between them; 0 where there are none.
func emptied(head, tail string) (opening, closing int) {
	for _, pair := range [...][2]string{{"(", ")"}, {"[", "]"}, {"{", "}"}, {`"`, `"`}, {"'", "'"}, {"<!--", "-->"}, {"~~", "~~"}, {"**", "**"}, {"__", "__"}, {"*", "*"}, {"_", "_"}, {"`", "`"}} {
		if strings.HasSuffix(head, pair[0]) && strings.HasPrefix(tail, pair[1]) {
			return len(pair[0]), len(pair[1])
		}
	}
	if opened := lastTag.FindStringSubmatch(head); opened != nil {
		if end := strings.IndexByte(tail, '>'); end > 0 && strings.EqualFold(strings.TrimRight(tail[:end], " \t"), "</"+opened[1]) {
			return len(opened[0]), end + 1
		}
	}
	return 0, 0
}

// withoutLead is a text without what led to something that is gone: separators, a dash, a
// word such as "see", and at the end of a line also marks that nothing closes any more.
func withoutLead(text string, last bool) string {
	for {
		shorter := strings.TrimRight(text, " \t,;:=/")
		if bare := strings.TrimRight(shorter, "-"); bare == "" || strings.HasSuffix(bare, " ") {
			shorter = bare
		}
		shorter = leadIn.ReplaceAllString(shorter, "$1")
		if last {
			shorter = lastTag.ReplaceAllString(shorter, "")
			if bare := strings.TrimRight(shorter, emphasis+"(["); bare == "" || strings.HasSuffix(bare, " ") {
				shorter = bare
			}
		}
		if shorter == text {
			return text
		}
		text = shorter
	}
}
