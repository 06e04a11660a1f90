package bag

import (
	"fmt"
	"strconv"
	"strings"
)

// fetch reads fetch.txt. Nothing is ever fetched: what is not there is missing
// (RFC 8493, section 2.2.3).
func (c *check) fetch() {
	c.fetched = map[string]bool{}
	if _, there := c.files[fetchName]; !there {
		return
	}
	for _, l := range c.read(fetchName) {
		url, rest := field(l.text)
		length, name := field(rest)
		size, err := strconv.ParseInt(length, 10, 64)
		switch {
		case name == "":
			c.form(fetchName, l.number, "2.2.3", "is not an address, a length and a path")
			continue
		case length != "-" && (err != nil || size < 0):
			c.form(fetchName, l.number, "2.2.3", "has a length that is no number")
		case !isAbsolute(url):
			c.form(fetchName, l.number, "2.2.3", "has no absolute address")
		}
		if name, ok := c.place(fetchName, l.number, name); ok {
			c.fetchLine(l.number, name, size, err == nil)
		}
	}
}

func (c *check) fetchLine(number int, name string, size int64, sized bool) {
	if !strings.HasPrefix(name, payload) {
		c.form(fetchName, number, "2.2.3", "names "+quoted(name)+", which is not in the payload")
		return
	}
	c.fetched[name] = true
	for _, m := range c.lists {
		if m.ofPayload && !c.saidBy(m, name) {
			c.form(fetchName, number, "2.2.3", "names "+quoted(name)+", which "+m.name+" does not list")
		}
	}
	if has, there := c.files[name]; there && sized && has != size {
		c.add(Problem{Form, Warning, fetchName, number, fmt.Sprintf("says that %s has %d bytes; it has %d", quoted(name), size, has), "2.2.3"})
	}
}

// field takes the first word off a line.
func field(text string) (word, rest string) {
	end := strings.IndexAny(text, " \t")
	if end < 0 {
		return text, ""
	}
	return text[:end], strings.TrimLeft(text[end:], " \t")
}

// isAbsolute tells an address that begins with a scheme (RFC 3986, section 4.3).
func isAbsolute(address string) bool {
	scheme, rest, ok := strings.Cut(address, ":")
	if !ok || rest == "" || scheme == "" || !isLetter(scheme[0]) {
		return false
	}
	return !strings.ContainsFunc(scheme, func(c rune) bool {
		return !(c < 0x80 && isLetter(byte(c)) || c >= '0' && c <= '9' || c == '+' || c == '-' || c == '.')
	})
}
