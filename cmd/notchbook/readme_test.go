package main

import (
	"os"
	"regexp"
	"strings"
	"testing"
)

// What the README shows as output is output: each paragraph behind a command is a
// stretch of whole lines of what that command says.
func TestREADMEShowsWhatIsSaid(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir("../..") // where the README's reader stands
	ran := 0
	for _, block := range regexp.MustCompile("(?s)```console\n(.*?)```").FindAllStringSubmatch(string(text), -1) {
		said := ""
		for _, part := range strings.Split(strings.TrimRight(block[1], "\n"), "\n\n") {
			if command, rest, ok := strings.Cut(part, "\n"); strings.HasPrefix(part, "$ ") && ok {
				if !strings.HasPrefix(command, "$ notchbook ") {
					t.Fatalf("%s is not run", command)
				}
				said, part = "\n"+answer(strings.TrimPrefix(command, "$ notchbook ")), rest
				ran++
			}
			for shown := range strings.SplitSeq(part, "…\n") { // with lines left out
				if !strings.Contains(said, "\n"+strings.TrimRight(shown, "\n")+"\n") {
					t.Errorf("this is no longer said:\n%s", shown)
				}
			}
		}
	}
	if ran < 7 {
		t.Errorf("only %d commands are shown", ran)
	}
}
