package compile

import (
	"fmt"
	"strconv"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/source"
)

// Words and figures as the record shows them.

// timeText is a marked time as people write it.
func timeText(s lang.Seconds) string {
	if s.Den != 1 {
		return trim(s.Num) + "/" + trim(s.Den)
	}
	return exposure.FormatTime(s.Num)
}

// apertureText is a marked aperture as read.
func apertureText(a lang.Aperture) string {
	switch {
	case a.Widest:
		return "wide open"
	case a.Upper != 0:
		return "f/" + trim(a.Mark) + "–" + trim(a.Upper)
	case a.Past != 0:
		return "f/" + trim(a.Mark) + past(a.Past)
	}
	return "f/" + trim(a.Mark)
}

// past is the part past a mark: a fraction stands at the figure, tenths apart.
func past(stops float64) string {
	text := exposure.FormatAmount(stops)
	if strings.Contains(text, ".") {
		return "+" + text
	}
	return text
}

func trim(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func parseFloat(s string) float64 {
	v, _ := strconv.ParseFloat(s, 64)
	return v
}

// place is "kit.md:12" of a span.
func place(at source.Span) string {
	if at.File == nil {
		return ""
	}
	return at.File.Name + ":" + strconv.Itoa(at.File.Position(at.Start).Line)
}

// nounFor is "1 sheet", "3 sheets".
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprint(n, " ", many)
}

// slug makes a text safe for file names and anchors.
func slug(text string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(text) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	text = strings.Trim(b.String(), "-")
	return text[:min(len(text), 60)]
}

// slugs hands out slugs, each once.
type slugs map[string]int

func (s slugs) unique(text, otherwise string) string {
	base := slug(text)
	if base == "" {
		base = otherwise
	}
	for {
		s[base]++
		if s[base] == 1 {
			return base
		}
		next := fmt.Sprintf("%s-%d", base, s[base])
		if s[next] == 0 {
			s[next]++
			return next
		}
	}
}
