package bag

import (
	"fmt"
	"slices"
	"strings"
)

// declaration reads bagit.txt: two lines and no more (RFC 8493, section 2.1.1).
func (c *check) declaration() {
	if _, there := c.files[declarationName]; !there {
		c.add(Problem{Missing, Error, declarationName, 0, "is missing: without its declaration this is no bag", "2.1.1"})
		return
	}
	data, ok := c.bytes(declarationName)
	if !ok {
		return
	}
	lines := splitLines(c.checkUTF8(declarationName, string(data), "2.1.1"))
	if len(lines) > 0 {
		c.version(lines[0])
	}
	if len(lines) > 1 {
		c.charset(lines[1])
	}
	if len(lines) != 2 {
		c.loose(declarationName, 0, "2.1.1", fmt.Sprintf("has not two lines but %d", len(lines)))
	}
}

// earlier are the versions before 1.0 that were in use.
var earlier = []string{"0.93", "0.94", "0.95", "0.96", "0.97"}

func (c *check) version(l line) {
	value, exact, ok := c.declared(l, "BagIt-Version")
	if !ok {
		return
	}
	c.report.Version = value
	c.old = slices.Contains(earlier, value)
	c.blanks(l, exact)
	if !c.old && value != "1.0" {
		c.form(declarationName, l.number, "2.1.1", "declares the version "+quoted(value)+", which is not known")
	}
}

func (c *check) charset(l line) {
	value, exact, ok := c.declared(l, "Tag-File-Character-Encoding")
	if !ok {
		return
	}
	c.blanks(l, exact)
	c.report.Encoding = value
	c.encoding, ok = findEncoding(value)
	switch {
	case !ok:
		c.form(declarationName, l.number, "2.1.1", "declares the encoding "+quoted(value)+", which is not known")
	case !strings.EqualFold(value, "UTF-8"):
		c.add(Problem{Form, Warning, declarationName, l.number, "declares another encoding than UTF-8", "2.1.1"})
	}
}

// declared takes a line of the declaration apart, and tells whether it is exactly
// as the RFC has it. Labels may be in any case, as in the RFC's own examples and
// its grammar.
func (c *check) declared(l line, label string) (value string, exact, ok bool) {
	before, after, ok := strings.Cut(l.text, ":")
	value = strings.TrimSpace(after)
	if !ok || !strings.EqualFold(strings.TrimSpace(before), label) || value == "" {
		c.form(declarationName, l.number, "2.1.1", "does not read "+label+": and a value")
		return "", false, false
	}
	return value, strings.EqualFold(before, label) && after == " "+value, true
}

// blanks were free before 1.0.
func (c *check) blanks(l line, exact bool) {
	if !exact {
		c.loose(declarationName, l.number, "2.1.1", "has blanks where none belong")
	}
}
