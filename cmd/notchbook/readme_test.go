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
	t.Chdir("../..") // where the README's reader stands
	out := notchbook(t, "check", "examples/aldermoor").out
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

// So is what it shows of the test series.
func TestREADMEShowsWhatTestsSay(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, ok := strings.Cut(string(text), "## Your own numbers\n")
	_, rest, opened := strings.Cut(rest, "```\n")
	block, _, closed := strings.Cut(rest, "```")
	if !ok || !opened || !closed {
		t.Fatal("the README shows no test")
	}
	out := notchbook(t, "tests", "../../examples/testbench").out
	shown := strings.Split(strings.TrimRight(block, "\n"), "\n\n")
	if len(shown) < 4 {
		t.Errorf("only %d parts are shown", len(shown))
	}
	for _, part := range shown {
		if !strings.Contains(out, part+"\n") {
			t.Errorf("this is no longer said:\n%s", part)
		}
	}
}
