package bag

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// wanted is what one list says of a file.
type wanted struct {
	list   *manifest
	digest string
}

// manifests reads all lists, in the order of their names.
func (c *check) manifests() {
	folded := map[string]string{}
	for _, name := range slices.Sorted(maps.Keys(c.files)) {
		if strings.Contains(name, "/") {
			continue
		}
		key := foldCase(spelling(name))
		algorithm, ofPayload, ok := manifestAlgorithm(key)
		if !ok {
			continue
		}
		if other := folded[key]; other != "" {
			c.add(Problem{Names, Warning, name, 0, "differs from " + other + " only in how it is spelled", "6.1.1.3"})
		}
		folded[key] = name
		if exact, _, ok := manifestAlgorithm(name); ok {
			algorithm = exact
		} else {
			c.form(name, 0, "2.1.3", "is not named manifest- or tagmanifest- in lower case")
		}
		c.lists = append(c.lists, c.parseManifest(name, algorithm, ofPayload))
	}
	if c.payloadLists() == 0 {
		c.add(Problem{Missing, Error, "manifest-sha512.txt", 0, "or another list of the payload is missing", "2.1.3"})
	}
	c.algorithms()
	c.resolve()
	c.tagLists()
}

func (c *check) payloadLists() (n int) {
	for _, m := range c.lists {
		if m.ofPayload {
			n++
		}
	}
	return n
}

// algorithms says by what the payload is checked, and by what it cannot be.
func (c *check) algorithms() {
	for _, m := range c.lists {
		switch {
		case algorithms[m.algorithm] == nil && c.known(m.ofPayload):
			c.add(Problem{Form, Warning, m.name, 0, "was not checked: its algorithm is not known here", "2.4"})
		case algorithms[m.algorithm] == nil:
			c.form(m.name, 0, "2.4", "cannot be checked: its algorithm is not known here")
		case m.ofPayload:
			c.report.Algorithms = append(c.report.Algorithms, m.algorithm)
		}
	}
}

// known tells whether some list can be checked.
func (c *check) known(ofPayload bool) bool {
	return slices.ContainsFunc(c.lists, func(m *manifest) bool { return m.ofPayload == ofPayload && algorithms[m.algorithm] != nil })
}

// resolve finds the file that every line of every list means.
func (c *check) resolve() {
	c.wanted = map[string][]wanted{}
	for _, m := range c.lists {
		seen := map[string]listed{}
		for _, e := range m.entries {
			if !c.belongs(m, e) {
				continue
			}
			name := c.there(m, e)
			if before, twice := seen[name]; twice {
				c.listedTwice(m, before, e)
				continue
			}
			seen[name] = e
			c.wanted[name] = append(c.wanted[name], wanted{m, e.digest})
		}
	}
}

func (c *check) listedTwice(m *manifest, before, e listed) {
	message := "lists " + quoted(e.path) + fmt.Sprintf(", which line %d lists already", before.line)
	if before.digest == e.digest {
		c.loose(m.name, e.line, "2.1.3", message)
		return
	}
	c.form(m.name, e.line, "2.1.3", message+" with another checksum")
}

// belongs tells whether a line names what its list may name.
func (c *check) belongs(m *manifest, e listed) bool {
	inside := strings.HasPrefix(e.path, payload)
	_, ofPayload, list := manifestAlgorithm(e.path)
	switch {
	case c.folders[e.path] || e.path+"/" == payload:
		c.form(m.name, e.line, "2.1.3", "names the folder "+quoted(e.path))
	case m.ofPayload && !inside:
		c.form(m.name, e.line, "2.1.3", "names "+quoted(e.path)+", which is not in the payload")
	case !m.ofPayload && inside:
		c.form(m.name, e.line, "2.2.1", "names "+quoted(e.path)+", which is in the payload")
	case !m.ofPayload && list && !ofPayload:
		c.form(m.name, e.line, "2.2.1", "names "+quoted(e.path)+", a list of tag files")
	default:
		return true
	}
	return false
}

// there is the name under which a listed file stands in the bag: its own, or one
// that looks the same (RFC 8493, section 6.1.1.3).
func (c *check) there(m *manifest, e listed) string {
	if _, ok := c.files[e.path]; ok {
		return e.path
	}
	alike := c.spelled[spelling(e.path)]
	if len(alike) != 1 {
		return e.path
	}
	c.add(Problem{Names, Warning, m.name, e.line, "composes the letters of " + quoted(e.path) + " otherwise than the file's name does", "6.1.1.3"})
	return alike[0]
}

// tagLists holds the lists of the tag files against one another (RFC 8493, section
// 2.2.1).
func (c *check) tagLists() {
	var tags []*manifest
	for _, m := range c.lists {
		if !m.ofPayload {
			tags = append(tags, m)
		}
	}
	if len(tags) == 0 && len(c.lists) > 0 {
		c.add(Problem{Form, Note, c.untagged(), 0, "is not there, nor any other list of the tag files: nothing tells whether the lists themselves have changed", "2.2.1"})
		if _, ok := c.files["bag-info.txt"]; !ok {
			c.add(Problem{Form, Note, "bag-info.txt", 0, "is not there: it may be left out, and nothing tells whether it was", "2.2.2"})
		}
		return
	}
	if name := c.untagged(); name != "" {
		c.add(Problem{Form, Note, name, 0, "is not there, though " + tags[0].name + " is: nothing tells whether it was", "2.2.1"})
	}
	for _, m := range tags {
		for _, name := range slices.Sorted(maps.Keys(c.files)) {
			c.tagListed(m, name)
		}
		if !slices.ContainsFunc(c.lists, func(p *manifest) bool { return p.ofPayload && p.algorithm == m.algorithm }) {
			c.add(Problem{Form, Warning, m.name, 0, "has an algorithm that no list of the payload has", "2.2.1"})
		}
	}
}

// untagged is the list of the tag files that would go with a list of the payload and is not
// there, "" where each has its own.
func (c *check) untagged() string {
	for _, p := range c.lists {
		own := func(m *manifest) bool { return !m.ofPayload && m.algorithm == p.algorithm }
		if p.ofPayload && !slices.ContainsFunc(c.lists, own) {
			return "tagmanifest-" + p.algorithm + ".txt"
		}
	}
	return ""
}

func (c *check) tagListed(m *manifest, name string) {
	_, ofPayload, list := manifestAlgorithm(name)
	if strings.HasPrefix(name, payload) || list && !ofPayload || c.saidBy(m, name) {
		return
	}
	if list {
		c.form(m.name, 0, "2.2.1", "does not list "+quoted(name))
		return
	}
	c.add(Problem{Form, Warning, m.name, 0, "does not list " + quoted(name), "2.2.1"})
}

func (c *check) saidBy(m *manifest, name string) bool {
	return slices.ContainsFunc(c.wanted[name], func(w wanted) bool { return w.list == m })
}

func listNames(all []wanted) string {
	var names []string
	for _, w := range all {
		names = append(names, w.list.name)
	}
	return strings.Join(names, " and ")
}
