package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// shellTool finds a program that reads what we wrote, or skips.
func shellTool(t *testing.T, name string) string {
	t.Helper()
	return tool(t, name, "what is written for it was not read")
}

// The manual page is read by groff without a warning and names every command and
// flag.
func TestManualPage(t *testing.T) {
	page := must(t, "man").out
	file := filepath.Join(t.TempDir(), "notchbook.1")
	if err := os.WriteFile(file, []byte(page), 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(shellTool(t, "groff"), "-man", "-Tascii", "-P-cbou", "-ww", file).CombinedOutput() // no bold, no underline
	text := strings.Join(strings.Fields(string(out)), " ")
	if err != nil || strings.Contains(text, "warning:") {
		t.Errorf("%v\n%.500s", err, text)
	}
	for _, words := range []string{"NOTCHBOOK(1)", "--strict", "fieldcard", "SOURCE_DATE_EPOCH", "safety data sheet"} {
		if !strings.Contains(text, words) {
			t.Errorf("the page does not say %s", words)
		}
	}
	if again := must(t, "man").out; again != page {
		t.Error("the page is another each time")
	}
}

// Bash completes with what it was given, without asking the program.
func TestBashCompletes(t *testing.T) {
	script := must(t, "completion", "bash").out
	for typed, want := range map[string]string{
		"ch": "check", "check --st": "--strict", "check --format s": "sarif", "completion z": "zsh", "com": "compile completion", "help fo": "forecast",
	} {
		words := strings.Fields("notchbook " + typed)
		run := script + "\nCOMP_WORDS=(" + strings.Join(words, " ") + "); COMP_CWORD=" + string(rune('0'+len(words)-1)) + "; _notchbook; echo ${COMPREPLY[@]}\n"
		out, err := exec.Command(shellTool(t, "bash"), "--norc", "-c", run).CombinedOutput()
		if err != nil || strings.TrimSpace(string(out)) != want {
			t.Errorf("%s: %v %q, want %q", typed, err, out, want)
		}
	}
}

// The other shells take their code without complaint.
func TestShellsReadTheirCompletion(t *testing.T) {
	for _, shell := range []string{"zsh", "fish"} {
		t.Run(shell, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "completion")
			if err := os.WriteFile(file, []byte(must(t, "completion", shell).out), 0o644); err != nil {
				t.Fatal(err)
			}
			if out, err := exec.Command(shellTool(t, shell), "-n", file).CombinedOutput(); err != nil {
				t.Errorf("%v\n%s", err, out)
			}
		})
	}
}
