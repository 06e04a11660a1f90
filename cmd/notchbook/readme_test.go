package main

import (
	"os"
	"strings"
	"testing"
)

// What the README shows as output is output.
func TestREADMEShowsWhatIsSaid(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, ok := strings.Cut(string(text), "```\n")
	block, _, closed := strings.Cut(rest, "```")
	if !ok || !closed {
		t.Fatal("the README shows no output")
	}
	out := notchbook(t, "check", aldermoor(t)).out
	shown := strings.Split(strings.TrimSpace(block), "\n\n")
	if len(shown) < 3 {
		t.Errorf("only %d findings are shown", len(shown))
	}
	for _, finding := range shown {
		if !strings.Contains(out, strings.TrimSpace(finding)+"\n") {
			t.Errorf("this is no longer said:\n%s", finding)
		}
	}
}
