package saying

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"notchbook/compile/record"
)

// Told is findings that say one thing: in their sentences nothing differs but what is marked
// in the line of each.
type Told struct {
	Message string // with … for what is marked, where that differs
	Of      []*record.Finding
}

// Fold puts findings together that say one thing, where the first of them stood. A record
// tells it once, with every place; who reads line by line reads the findings.
func Fold(all []*record.Finding) []Told {
	at := map[string]int{}
	var out []Told
	for _, f := range all {
		key := strings.Join(append([]string{f.Code, string(f.Severity), f.Title, apartFromMark(f)}, f.Notes...), "\n")
		i, known := at[key]
		if !known {
			i = len(out)
			at[key] = i
			out = append(out, Told{Message: f.Message})
		}
		if out[i].Of = append(out[i].Of, f); f.Message != out[i].Message {
			out[i].Message = apartFromMark(f)
		}
	}
	return out
}

// Times says how often it is told: "29 times", "" where once.
func (t Told) Times() string {
	if len(t.Of) < 2 {
		return ""
	}
	return strconv.Itoa(len(t.Of)) + " times"
}

// apartFromMark is a finding's sentence with … for what is marked in its line.
func apartFromMark(f *record.Finding) string {
	from, to := f.Mark[0], f.Mark[1]
	if from < 0 || to > len(f.Excerpt) || from >= to {
		return f.Message
	}
	before, after, found := strings.Cut(f.Message, f.Excerpt[from:to])
	last, _ := utf8.DecodeLastRuneInString(before)
	first, _ := utf8.DecodeRuneInString(after)
	if !found || unicode.IsLetter(last) || unicode.IsNumber(last) || unicode.IsLetter(first) || unicode.IsNumber(first) {
		return f.Message
	}
	return before + "…" + after
}
