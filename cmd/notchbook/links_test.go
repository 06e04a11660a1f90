package main

import (
	"fmt"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// Every way out of every page of the record is followed, on the disk, as a
// browser would: to a file that is there, to an anchor that is there.

// pages is the record's pages as they lie on the disk, by full path.
type pages struct {
	record, season string
	parsed         map[string]*html.Node
	anchors        map[string]map[string]bool
	reached        map[string]bool // files of record and season that something leads to
}

func readPages(t *testing.T, season, record string) *pages {
	t.Helper()
	p := &pages{record: record, season: season,
		parsed: map[string]*html.Node{}, anchors: map[string]map[string]bool{}, reached: map[string]bool{}}
	for name, text := range tree(t, record) {
		if path.Ext(name) != ".html" {
			continue
		}
		doc, err := html.Parse(strings.NewReader(text))
		if err != nil {
			t.Fatal(name, err)
		}
		full := filepath.Join(record, filepath.FromSlash(name))
		p.parsed[full], p.anchors[full] = doc, map[string]bool{}
		for n := range doc.Descendants() {
			for _, a := range n.Attr {
				if a.Key == "id" && p.anchors[full][a.Val] {
					t.Errorf("%s: two things have the id %q", name, a.Val)
				}
				if a.Key == "id" {
					p.anchors[full][a.Val] = true
				}
			}
		}
	}
	return p
}

// leading are the attributes that name another file.
var leading = []string{"href", "src", "srcset", "poster", "data", "action", "formaction", "background", "cite", "ping", "manifest"}

// follow resolves one reference of a file of the record.
func (p *pages) follow(from, element, raw string) error {
	u, err := url.Parse(raw)
	switch {
	case err != nil:
		return err
	case u.Scheme != "" || u.Host != "":
		if element != "a" || !slices.Contains([]string{"http", "https", "mailto"}, u.Scheme) {
			return fmt.Errorf("leaves the folder")
		}
		return nil
	case u.RawQuery != "" || u.ForceQuery:
		return fmt.Errorf("has a query, which a file has not")
	case path.IsAbs(u.Path):
		return fmt.Errorf("does not move with the folder")
	}
	target := filepath.Join(filepath.Dir(from), filepath.FromSlash(u.Path))
	if u.Path == "" {
		target = from
	}
	if !within(p.record, target) && !within(p.season, target) {
		return fmt.Errorf("leads to %s, outside of record and season", target)
	}
	if info, err := os.Stat(target); err != nil || info.IsDir() {
		return fmt.Errorf("there is no file %s", target)
	}
	if anchors, page := p.anchors[target]; u.Fragment != "" && (!page || !anchors[u.Fragment]) {
		return fmt.Errorf("%s has no id %q", target, u.Fragment)
	}
	p.reached[target] = true
	return nil
}

func within(dir, name string) bool {
	rel, err := filepath.Rel(dir, name)
	return err == nil && filepath.IsLocal(rel)
}

// followAll follows what every page and style sheet refers to.
func (p *pages) followAll(t *testing.T) {
	t.Helper()
	for from, doc := range p.parsed {
		for n := range doc.Descendants() {
			for _, a := range n.Attr {
				if !slices.Contains(leading, a.Key) {
					continue
				}
				if err := p.follow(from, n.Data, a.Val); err != nil {
					t.Errorf("%s: %s=%q: %v", filepath.Base(from), a.Key, a.Val, err)
				}
			}
		}
	}
	styles, _ := filepath.Glob(filepath.Join(p.record, "*.css"))
	for _, from := range styles {
		p.followStyle(t, from)
	}
}

var inStyle = regexp.MustCompile(`url\(["']?([^"')]*)["']?\)|@import ["']([^"']*)["']`)

func (p *pages) followStyle(t *testing.T, from string) {
	t.Helper()
	text, err := os.ReadFile(from)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range inStyle.FindAllStringSubmatch(string(text), -1) {
		if err := p.follow(from, "style", m[1]+m[2]); err != nil {
			t.Errorf("%s: %q: %v", filepath.Base(from), m[0], err)
		}
	}
}

func TestEveryLinkLeadsSomewhere(t *testing.T) {
	dir := compiledSeason(t)
	p := readPages(t, dir, filepath.Join(dir, "record"))
	p.followAll(t)

	for name := range tree(t, dir) {
		full := filepath.Join(dir, filepath.FromSlash(name))
		switch {
		case strings.HasPrefix(name, "record/fonts/LICENSE"), name == "record/.notchbook", name == "record/index.html",
			name == "record/SHA256SUMS": // for sha256sum, not for readers
		case name == "kit.md", strings.HasPrefix(name, "2026-"):
			// A notebook's page stands for it; a link to the file is not owed.
		case !p.reached[full]:
			t.Errorf("nothing leads to %s", name)
		}
	}
	if thumbs, _ := filepath.Glob(filepath.Join(dir, "record/thumbs/*.jpg")); len(thumbs) < 4 {
		t.Errorf("only %d thumbnails were made", len(thumbs))
	}
}

// The record may lie anywhere; the way back to the scans is then longer.
func TestLinksLeadBackFromElsewhere(t *testing.T) {
	for _, where := range []string{"../out", "../a b/50% #out", "deep/er/record"} {
		dir := aldermoor(t)
		dest := filepath.Join(dir, filepath.FromSlash(where))
		if err := os.MkdirAll(filepath.Dir(dest), 0o755); err != nil {
			t.Fatal(err)
		}
		must(t, "compile", dir, "-o", dest)
		p := readPages(t, dir, dest)
		p.followAll(t)
		if !p.reached[filepath.Join(dir, filepath.FromSlash(awkwardScan))] {
			t.Errorf("%s: nothing leads to %s", where, awkwardScan)
		}
	}
}

// What the notes would run or load from elsewhere stays text.
func TestNotesBecomeNoMarkup(t *testing.T) {
	dir := compiledSeason(t)
	for full, doc := range readPages(t, dir, filepath.Join(dir, "record")).parsed {
		for n := range doc.Descendants() {
			if n.Type == html.ElementNode && n.Data == "script" && (n.FirstChild != nil || !ownScript(n)) {
				t.Errorf("%s has a script of somebody else's", filepath.Base(full))
			}
			if n.Type == html.ElementNode && slices.Contains([]string{"iframe", "object", "embed", "form", "base"}, n.Data) {
				t.Errorf("%s has a <%s>", filepath.Base(full), n.Data)
			}
			for _, a := range n.Attr {
				if strings.HasPrefix(a.Key, "on") || strings.HasPrefix(strings.TrimSpace(strings.ToLower(a.Val)), "javascript:") {
					t.Errorf("%s has %s=%q", filepath.Base(full), a.Key, a.Val)
				}
			}
		}
	}
}

// ownScript reports whether a script element loads one of the record's own.
func ownScript(n *html.Node) bool {
	for _, a := range n.Attr {
		if a.Key == "src" && slices.Contains([]string{"find-index.js", "find.js", "look.js"}, a.Val) {
			return true
		}
	}
	return false
}
