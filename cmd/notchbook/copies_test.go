package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A notebook is in the record and in the bag whatever its name; what not every system can
// hold is named with what is odd about it, and has a copy under a name near it.
func TestNotebooksOfOddNames(t *testing.T) {
	dir := t.TempDir()
	names := map[string]string{`a"b.md`: "a_b.md", "a_b.md": "a_b.md", "a:b.md": "a_b.md", "why?.md": "why_.md", "con.md": "_con.md", `c\d.md`: "c_d.md"}
	for name := range names {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("day: 2026-11-07, "+name+"\n1A: 1/8 f16\n"), 0o644); err != nil {
			t.Skip("this disk does not hold such names: ", err)
		}
	}
	s := must(t, "compile", dir)
	copies, err := os.ReadDir(filepath.Join(dir, "record", "notes"))
	if err != nil || len(copies) != len(names) {
		t.Errorf("%d copies: %v", len(copies), err)
	}
	for _, c := range copies {
		if portable(c.Name()) != c.Name() {
			t.Errorf("a copy is called %s", c.Name())
		}
	}
	for name, copied := range names {
		if said := strings.Contains(s.err, name+" has "); said == (name == copied) {
			t.Errorf("%s: %s", name, s.err)
		}
	}
	wantLines(t, s.err, `notchbook: why?.md has ? in its name, which not every system can hold; its copy in the record is called notes/why_.md: give it another name where others are to open it`)
	bag := must(t, "archive", dir, "-o", filepath.Join(t.TempDir(), "bag"))
	if !strings.Contains(bag.err, `why?.md has ?, which Windows cannot hold in a name: give it another name`) {
		t.Errorf("the bag is made without a word: %s", bag.err)
	}
}
