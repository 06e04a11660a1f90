package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A number that is another sheet's than in the last record is said; one whose sheet was
// corrected, or whose notebook has another name, is not.
func TestANumberThatMovesIsSaid(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	compiles := func(want string) {
		t.Helper()
		got := must(t, "compile", dir).err
		if said := strings.Contains(got, "another sheet than in the last record"); said != (want != "") || !strings.Contains(got, want) {
			t.Errorf("%q is said, want %q", got, want)
		}
	}
	const day = "day: 1991-05-20, mill\n"
	write("mill.md", day+"1A: f16 1/8\n1B: f11 1/8\nneg 1A: 1991-001\n")
	compiles("")
	write("mill.md", day+"1A: f16 1/4\n1B: f11 1/8\nneg 1A: 1991-001\n")
	compiles("")
	if err := os.Rename(filepath.Join(dir, "mill.md"), filepath.Join(dir, "walk.md")); err != nil {
		t.Fatal(err)
	}
	compiles("")
	write("walk.md", day+"1A: f16 1/4\n1B: f11 1/8\nneg 1B: 1991-001\n")
	compiles("1 number belongs to another sheet than in the last record: 1991-001 is 1991-05-20 1B in walk.md, and was 1991-05-20 1A in walk.md")
	compiles("")
	write("walk.md", day+"1A: f16 1/4\n1A: again, f11 1/4\n1B: f11 1/8\nneg 1A: 1991-002\nneg 1B: 1991-001\n")
	compiles("")
	compiles("")
}
