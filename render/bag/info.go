package bag

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// widest is the longest line of bag-info.txt that is recommended, in characters
// (RFC 8493, section 2.2.2).
const widest = 79

// infoText is bag-info.txt of these elements. An element without a value is left
// out. Long values go on in indented lines, broken at blanks only.
func infoText(info []Element) string {
	var b strings.Builder
	for _, e := range info {
		words := strings.Fields(plain(e.Value))
		if len(words) == 0 {
			continue
		}
		line := e.Label + ":"
		for i, word := range words {
			if i > 0 && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > widest {
				b.WriteString(line + "\n")
				line = " "
			}
			line += " " + word
		}
		b.WriteString(line + "\n")
	}
	return b.String()
}

// plain has no character that would end a line.
func plain(text string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsControl(c) || c == '\u2028' || c == '\u2029' {
			return ' '
		}
		return c
	}, text)
}

// parseInfo reads bag-info.txt. A value that goes on in the next line has a blank
// there.
func (c *check) parseInfo(lines []line) (info []Element) {
	for _, l := range lines {
		if strings.TrimLeft(l.text, " \t") != l.text {
			c.continueElement(info, l)
			continue
		}
		label, value, ok := strings.Cut(l.text, ":")
		if !ok {
			c.form(infoName, l.number, "2.2.2", "has no colon")
			continue
		}
		info = append(info, c.element(l, label, value))
	}
	return info
}

func (c *check) continueElement(info []Element, l line) {
	text := strings.TrimSpace(l.text)
	switch {
	case text == "":
		c.form(infoName, l.number, "2.2.2", "is empty")
	case len(info) == 0:
		c.form(infoName, l.number, "2.2.2", "goes on with nothing")
	default:
		last := &info[len(info)-1]
		last.Value = strings.TrimSpace(last.Value + " " + text)
	}
}

// element reads one line. Before 1.0 blanks might stand on both sides of the
// colon.
func (c *check) element(l line, label, value string) Element {
	trimmed := strings.TrimRight(label, " \t")
	switch {
	case trimmed == "":
		c.form(infoName, l.number, "2.2.2", "has no label before its colon")
	case trimmed != label && c.strict():
		c.form(infoName, l.number, "2.2.2", "has a blank before its colon")
	}
	if c.strict() && !strings.HasPrefix(value, " ") && !strings.HasPrefix(value, "\t") {
		c.form(infoName, l.number, "2.2.2", "has no blank behind its colon")
	}
	return Element{trimmed, strings.TrimSpace(value)}
}

// once are the elements that should stand once (RFC 8493, section 2.2.2).
var once = []string{"bagging-date", "bag-size", "bag-group-identifier", "bag-count"}

const oxumLabel = "payload-oxum"

// info reads bag-info.txt.
func (c *check) info() {
	if _, there := c.files[infoName]; !there {
		return
	}
	c.report.Info = c.parseInfo(c.read(infoName))
	count := map[string]int{}
	for _, e := range c.report.Info {
		label := strings.ToLower(e.Label)
		count[label]++
		switch {
		case label == oxumLabel && count[label] > 1:
			c.form(infoName, 0, "2.2.2", "has more than one Payload-Oxum")
		case label == oxumLabel:
			c.oxum(e.Value)
		case label == "bagging-date" && !isDate(e.Value):
			c.add(Problem{Form, Warning, infoName, 0, "has a Bagging-Date that is not written as 2026-11-07", "2.2.2"})
		}
		if slices.Contains(once, label) && count[label] == 2 {
			c.add(Problem{Form, Warning, infoName, 0, "has more than one " + e.Label, "2.2.2"})
		}
	}
}

// oxum holds the payload's size against what is there.
func (c *check) oxum(value string) {
	octets, streams, ok := strings.Cut(value, ".")
	bytes, err := strconv.ParseInt(octets, 10, 64)
	files, err2 := strconv.ParseInt(streams, 10, 64)
	switch {
	case !ok || err != nil || err2 != nil || bytes < 0 || files < 0:
		c.form(infoName, 0, "2.2.2", "has a Payload-Oxum that is not two numbers with a dot between")
	case bytes != c.report.Bytes || files != int64(c.report.Files):
		c.add(Problem{Changed, Error, infoName, 0,
			fmt.Sprintf("counts %d bytes in %d files of payload; there are %d in %d", bytes, files, c.report.Bytes, c.report.Files), "2.2.2"})
	}
}

func isDate(text string) bool {
	for i, c := range []byte(text) {
		if (i == 4 || i == 7) != (c == '-') || c != '-' && (c < '0' || c > '9') {
			return false
		}
	}
	return len(text) == len("2026-11-07")
}
