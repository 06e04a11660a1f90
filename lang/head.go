package lang

import (
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"notchbook/lang/source"
)

// head is what stands before a log line's colon, and where its body begins.
// Offsets count from the start of the text that was looked at.
type head struct {
	how        manner
	from       int // first byte of the word or label, behind list and bold marks
	word, said int // the word's stretch; empty where a label stands alone
	labels     []labelAt
	body       int // behind the colon
}

type labelAt struct {
	text       string
	start, end int
}

// longestHead is how far a colon is looked for.
const longestHead = 160

// readHead recognises a log line by its beginning. It must be right about
// prose with colons, so a word of the notation counts only with labels that can
// be labels, and a lone label only where it is one or the line reads as one.
func readHead(line string, names *Lexicon) (head, bool) {
	from := opening(line)
	rest := line[from:]
	colon, width := colonIn(rest)
	if colon < 0 {
		return head{}, false
	}
	said := strings.TrimRight(rest[:colon], "* \t\u00A0")
	h := head{from: from, body: from + colon + width}
	if bold := strings.TrimPrefix(line[h.body:], "**"); len(rest) > 0 && from >= 2 && strings.HasSuffix(line[:from], "**") {
		h.body = len(line) - len(bold)
	}
	if h.wordHead(said, line, names) || h.labelHead(said, line, names) {
		return h, true
	}
	return head{}, false
}

// opening skips what people put before a line: task boxes, bullets that are
// not Markdown's, bold.
func opening(line string) int {
	i := skip(line, 0)
	for _, box := range []string{"[ ] ", "[x] ", "[X] ", "• ", "◦ ", "▪ ", "· ", "‣ "} {
		if strings.HasPrefix(line[i:], box) {
			i = skip(line, i+len(box))
			break
		}
	}
	if strings.HasPrefix(line[i:], "**") {
		i += 2
	}
	return i
}

// colonIn finds the first colon, plain or full-width.
func colonIn(s string) (at, width int) {
	s = s[:min(len(s), longestHead)]
	for i := 0; i < len(s); i++ {
		if s[i] == ':' {
			return i, 1
		}
		if strings.HasPrefix(s[i:], "：") {
			return i, len("：")
		}
	}
	return -1, 0
}

// wordHead is a log word, alone or with labels.
func (h *head) wordHead(said, line string, names *Lexicon) bool {
	low := lower(said)
	end := letterRun(low, 0)
	how, ok := words[low[:end]]
	if !ok {
		return false
	}
	rest := strings.TrimLeft(said[end:], " \t\u00A0")
	start := h.from + len(said) - len(rest)
	h.how, h.word, h.said = how, h.from, h.from+end
	switch {
	case rest == "":
		return !how.needs
	case how.labels == 0 || rest == said[end:]:
		return false
	case how.labels == 1:
		h.labels = []labelAt{{rest, start, start + len(rest)}}
		return len(strings.Fields(rest)) <= 4 && h.declares(line, names)
	default:
		var all bool
		h.labels, all = splitLabels(rest, start, names)
		return all
	}
}

// declares tells "film slate: ISO 400" from "film choice: I am not sure".
func (h *head) declares(line string, names *Lexicon) bool {
	body := strings.TrimSpace(line[h.body:])
	label := h.labels[0].text
	if h.how.free || body == "" || strings.ContainsAny(label, "0123456789") || names.Names[lower(label)] == h.how.word {
		return true
	}
	s := scanTerms(body, h.how.field, names)
	return len(s.tokens) > 0 && s.tokens[0].Type != tWord || s.count(tISO, tEI, tClass, tFactor, tStops, tLength, tAperture, tDensity, tFilter) > 0
}

// labelHead is one or more labels alone: a sheet line.
func (h *head) labelHead(said, line string, names *Lexicon) bool {
	var all bool
	h.labels, all = splitLabels(said, h.from, names)
	if !all || len(h.labels) == 0 {
		return false
	}
	h.how, h.word, h.said = sheetLine, h.from, h.from
	if digits(said, 0) < len(said) && !letterFirst(said) {
		return true
	}
	// A bare number is a label only where the line reads like a sheet's, and
	// where no time of day is written.
	if isDigit(at(line, h.body)) {
		return false
	}
	return names.Labels[lower(said)] && at(line, h.body) == ' ' || h.reads(line, names)
}

func letterFirst(s string) bool { return s != "" && isLetter(lower(s[:1])[0]) }

// reads reports whether what follows the colon reads as terms of a sheet.
func (h *head) reads(line string, names *Lexicon) bool {
	s := scanTerms(strings.TrimSpace(line[h.body:]), onSheet, names)
	return s.settings() > 0 && s.terse()
}

// scanTerms lexes a text for a look at what is in it.
func scanTerms(text string, f field, names *Lexicon) *scanner {
	folded := source.Fold([]byte(text))
	s := &scanner{src: folded.Text, low: lower(folded.Text), field: f, names: names}
	s.scan()
	return s
}

// splitLabels splits a list of labels; all says whether every one can be one.
func splitLabels(text string, at int, names *Lexicon) (labels []labelAt, all bool) {
	for i := 0; i < len(text); {
		end := i
		for end < len(text) && !isSpace(text[end]) && text[end] != ',' {
			end++
		}
		if end == i {
			i++
			continue
		}
		word := text[i:end]
		if joins := lower(word); joins != "and" && joins != "&" && joins != "+" {
			if !looksLabel(joins, names) {
				return nil, false
			}
			labels = append(labels, labelAt{word, at + i, at + end})
		}
		i = end
	}
	return labels, len(labels) > 0
}

// looksLabel reports whether a word, in lower case, can be the label of a sheet
// or a range of them: 3A, 12b, #31, 31, 3AB, 1A-3B, or any that is known.
func looksLabel(word string, names *Lexicon) bool {
	if word == "" || len(word) > 24 {
		return false
	}
	if names != nil && names.Labels[word] {
		return true
	}
	from, to, ranged := cutDash(word)
	if ranged {
		return looksLabel(from, names) && looksLabel(to, names)
	}
	word = strings.TrimPrefix(word, "#")
	end := digits(word, 0)
	if end == 0 || end > 4 {
		return false
	}
	side := word[end:]
	if tick := strings.IndexByte(side, '\''); tick >= 0 && digits(side, tick+1) == len(side) {
		side = side[:tick]
	}
	return side == "" || len(side) == 1 && side[0] >= 'a' && side[0] <= 'z' || side == "ab"
}

// cutDash splits a range at its dash, of whatever length.
func cutDash(s string) (from, to string, ok bool) {
	for _, dash := range []string{"-", "–", "—", "‑"} {
		if from, to, ok = strings.Cut(s, dash); ok {
			return from, to, from != "" && to != ""
		}
	}
	return s, "", false
}

// expand writes out 3AB and the ranges of holder sides and numbers; what
// cannot be counted through stays as its two ends.
func expand(label string) []string {
	if from, to, ok := cutDash(label); ok {
		return expandRange(from, to)
	}
	if n := digits(label, 0); n > 0 && lower(label[n:]) == "ab" {
		return []string{label[:n+1], label[:n] + label[n+1:]}
	}
	return []string{label}
}

// mostInRange bounds what a slip of the finger can make of a range.
const mostInRange = 500

func expandRange(from, to string) []string {
	prefix := from[:len(from)-len(strings.TrimLeft(from, "#pPtT"))]
	a, sideA, okA := counted(strings.TrimPrefix(from, prefix))
	b, sideB, okB := counted(strings.TrimPrefix(to, prefix))
	if !okA || !okB || b < a || b-a > mostInRange || (sideA == "") != (sideB == "") {
		return []string{from, to}
	}
	var all []string
	for n := a; n <= b; n++ {
		if sideA == "" {
			all = append(all, prefix+strconv.Itoa(n))
			continue
		}
		for _, side := range []string{"A", "B"} {
			if (n > a || side >= strings.ToUpper(sideA)) && (n < b || side <= strings.ToUpper(sideB)) {
				all = append(all, prefix+strconv.Itoa(n)+side)
			}
		}
	}
	return all
}

// counted splits a label into its number and its side.
func counted(label string) (n int, side string, ok bool) {
	end := digits(label, 0)
	n, err := strconv.Atoi(label[:end])
	side = lower(label[end:])
	return n, side, err == nil && (side == "" || side == "a" || side == "b")
}

// count is how many tokens are of one of the kinds.
func (s *scanner) count(kinds ...lexer.TokenType) int {
	n := 0
	for _, t := range s.tokens {
		for _, k := range kinds {
			if t.Type == k {
				n++
			}
		}
	}
	return n
}

// settings is how many apertures, times and light values there are.
func (s *scanner) settings() int { return s.count(tAperture, tTime, tEV) }

// terse reports whether terms outnumber words, as they do in a log line and do
// not in prose.
func (s *scanner) terse() bool {
	words := s.count(tWord, tNo, tNot, tAt, tTo)
	remark := s.count(tRemark, tComma, tDoubt, tStrike)
	return len(s.tokens)-words-remark > words
}
