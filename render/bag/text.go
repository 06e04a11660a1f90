package bag

import (
	"io"
	"io/fs"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/ianaindex"
)

// maxTag is the most that a list or declaration may hold, in bytes: a million
// files are listed in less.
const maxTag = 256 << 20

// line is a line of a tag file without its end; lines count from 1.
type line struct {
	number int
	text   string
}

// splitLines splits at LF, CR and CRLF (RFC 8493, section 2.3). The last line
// need not be ended.
func splitLines(text string) (lines []line) {
	for text != "" {
		end := strings.IndexAny(text, "\r\n")
		if end < 0 {
			return append(lines, line{len(lines) + 1, text})
		}
		lines = append(lines, line{len(lines) + 1, text[:end]})
		if strings.HasPrefix(text[end:], "\r\n") {
			end++
		}
		text = text[end+1:]
	}
	return lines
}

// byteOrderMark is that of UTF-8.
const byteOrderMark = "\ufeff"

// read gives the lines of a tag file in the encoding that the declaration names.
func (c *check) read(name string) []line {
	data, ok := c.bytes(name)
	if !ok {
		return nil
	}
	text := string(data)
	if c.encoding != nil {
		decoded, err := c.encoding.NewDecoder().Bytes(data)
		if err != nil {
			c.form(name, 0, "2.3", "is not written in "+c.report.Encoding)
			return nil
		}
		return splitLines(strings.TrimPrefix(string(decoded), byteOrderMark))
	}
	return splitLines(c.checkUTF8(name, text, "2.3"))
}

// checkUTF8 says what is amiss in a text of UTF-8 and gives it without its mark.
func (c *check) checkUTF8(name, text, section string) string {
	if strings.HasPrefix(text, byteOrderMark) {
		c.form(name, 1, section, "begins with a byte order mark")
		text = strings.TrimPrefix(text, byteOrderMark)
	}
	if !utf8.ValidString(text) {
		c.form(name, 0, section, "is not written in UTF-8")
	}
	return text
}

// bytes reads a tag file whole.
func (c *check) bytes(name string) ([]byte, bool) {
	file, err := c.fsys.Open(name)
	if err != nil {
		c.unreadable(name, err)
		return nil, false
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, maxTag+1))
	switch {
	case err != nil:
		c.unreadable(name, err)
		return nil, false
	case len(data) > maxTag:
		c.form(name, 0, "2.3", "is larger than 256 MB and is not read")
		return nil, false
	}
	return data, true
}

// findEncoding gives what a name of IANA's registry stands for; nil and true is
// UTF-8.
func findEncoding(name string) (encoding.Encoding, bool) {
	switch strings.ToUpper(name) {
	case "UTF-8", "UTF8", "US-ASCII", "ASCII": // ASCII is UTF-8
		return nil, true
	}
	e, err := ianaindex.IANA.Encoding(name)
	return e, err == nil && e != nil
}

// regular tells whether a name of the bag is a file that can be read.
func regular(fsys fs.FS, name string) (size int64, ok bool) {
	info, err := fs.Stat(fsys, name)
	if err != nil || !info.Mode().IsRegular() {
		return 0, false
	}
	return info.Size(), true
}
