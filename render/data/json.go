package data

import (
	"encoding/json"
	"fmt"
	"io"
	"unicode"
	"unicode/utf16"
)

// encoded writes a value as JSON (RFC 8259). What a terminal would obey and not
// show is written by its number: the text that a reader gets is the same.
func encoded(w io.Writer, v any, indent string) error {
	e := json.NewEncoder(shown{w})
	e.SetEscapeHTML(false)
	e.SetIndent("", indent)
	return e.Encode(v)
}

// shown escapes controls and marks of direction on their way out. They stand in
// texts only, since the rest of JSON is ASCII; the encoder hands over a whole
// value at once, and has escaped those below U+0020 itself.
type shown struct{ io.Writer }

func (s shown) Write(p []byte) (int, error) {
	var out []byte
	from := 0
	for at, r := range string(p) {
		if r < 0x7f || !unicode.In(r, unicode.Cc, unicode.Cf) {
			continue
		}
		out = append(out, p[from:at]...)
		if r > 0xffff {
			high, low := utf16.EncodeRune(r)
			out = fmt.Appendf(out, `\u%04x\u%04x`, high, low)
		} else {
			out = fmt.Appendf(out, `\u%04x`, r)
		}
		from = at + len(string(r))
	}
	if from == 0 {
		return s.Writer.Write(p)
	}
	if _, err := s.Writer.Write(append(out, p[from:]...)); err != nil {
		return 0, err
	}
	return len(p), nil
}
