package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"notchbook/lang"
)

// DEVELOPERS.md says of every name in the program whose it is.
func TestEveryNameIsListed(t *testing.T) {
	text, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]string{}
	_, section, _ := strings.Cut(string(text), "## Names, and whose they are")
	section, _, _ = strings.Cut(section, "\n## ")
	for line := range strings.Lines(section) {
		if cells := strings.SplitN(line, "|", 3); len(cells) == 3 {
			rows[strings.TrimSpace(cells[1])] = cells[2]
		}
	}
	inCode := regexp.MustCompile("`([^`]+)`")
	coded := func(row string) (all []string) {
		for _, m := range inCode.FindAllStringSubmatch(rows[row], -1) {
			all = append(all, m[1])
		}
		return all
	}
	app := whole()
	var cmds, flags []string
	for _, f := range app.Model.Flags {
		flags = append(flags, "--"+f.Name)
	}
	for _, c := range app.Model.Children {
		if !c.Hidden {
			cmds = append(cmds, c.Name)
		}
		for _, f := range c.Flags {
			flags = append(flags, "--"+f.Name)
		}
	}
	same(t, "commands", coded("commands"), cmds)
	same(t, "flags", coded("flags"), flags)
	var words []string
	for _, w := range lang.Words() {
		words = append(words, string(w))
	}
	same(t, "log words", coded("log words"), words)
	headings := strings.FieldsFunc(rows["headings of the record"], func(r rune) bool { return strings.ContainsRune(",|\n()", r) })
	for i := range headings {
		headings[i] = strings.TrimSpace(headings[i])
	}
	for _, said := range headingsOfRecord(t) {
		if !slices.Contains(headings, said) {
			t.Errorf("heading %q is not listed", said)
		}
	}
}

// same wants every name listed once and no other.
func same(t *testing.T, what string, listed, there []string) {
	t.Helper()
	slices.Sort(there)
	there = slices.Compact(there)
	for _, name := range there {
		if n := len(slices.DeleteFunc(slices.Clone(listed), func(s string) bool { return s != name })); n != 1 {
			t.Errorf("%s: %s is listed %d times", what, name, n)
		}
	}
	for _, name := range listed {
		if !slices.Contains(there, name) {
			t.Errorf("%s: there is no %s", what, name)
		}
	}
}

// headingsOfRecord is the titles of a record's own pages, those of outings, scenes and
// the season left out, and what its navigation says.
func headingsOfRecord(t *testing.T) []string {
	dir := compiledSeason(t)
	var all []string
	for name, page := range recordIn(t, dir) {
		if filepath.Ext(name) != ".html" || regexp.MustCompile(`^(outing|scene|pictures)-|^index`).MatchString(filepath.Base(name)) {
			continue
		}
		doc, err := html.Parse(strings.NewReader(page))
		if err != nil {
			t.Fatal(err)
		}
		for n := range doc.Descendants() {
			if n.Type == html.ElementNode && n.Data == "h1" {
				all = append(all, strings.TrimSpace(htmlText(n)))
			}
		}
	}
	if len(all) < 15 {
		t.Fatalf("only %d headings", len(all))
	}
	return all
}

// htmlText is the text within an element.
func htmlText(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return b.String()
}
