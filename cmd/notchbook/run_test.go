package main

import (
	"bytes"
	"os"
	"os/exec"
	"strings"
	"testing"

	"notchbook/cmd/notchbook/program"
	"notchbook/render/html/chrome"
)

// What every test of the whole program stands on: a season's folder of its own,
// a run of the command in it, and a look at what the folder holds afterwards.

// asProgram, set in the environment, makes the test binary the program itself,
// for what only a process can show: its environment, its terminal.
const asProgram = "NOTCHBOOK_IS_RUN"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		main() // ends the process
	}
	// A date in the builder's own environment is no date of these tests.
	os.Unsetenv("SOURCE_DATE_EPOCH")
	keep()
	status := m.Run()
	chrome.Close()
	forget()
	os.Exit(status)
}

// said is how a run ended.
type said struct {
	out, err string
	status   int
}

// notchbook runs the command in this process, without a terminal.
func notchbook(t testing.TB, args ...string) said {
	t.Helper()
	return notchbookReading(t, "", args...)
}

func notchbookReading(t testing.TB, stdin string, args ...string) said {
	t.Helper()
	var out, err bytes.Buffer
	status := run(args, terminal{in: strings.NewReader(stdin), out: &out, err: &err})
	return said{out.String(), err.String(), status}
}

// process is the command as a process of its own, in an environment that has
// nothing but what is named.
func process(env []string, args ...string) *exec.Cmd {
	c := exec.Command(os.Args[0], args...)
	c.Env = append(env, asProgram+"=1")
	return c
}

// must runs the command and wants it to end well.
func must(t testing.TB, args ...string) said {
	t.Helper()
	s := notchbook(t, args...)
	if s.status != right {
		t.Fatalf("notchbook %s: status %d\n%s%s", strings.Join(args, " "), s.status, s.out, s.err)
	}
	return s
}

var (
	folder         = program.Folder
	fill           = program.Fill
	tree           = program.Tree
	sameTree       = program.SameTree
	picture        = program.Picture
	tinyScan       = program.TinyScan
	heavySeason    = program.HeavySeason
	entries        = program.Entries
	numberedNotes  = program.NumberedNotes
	numberedSeason = program.NumberedSeason
	copyNotes      = program.CopyNotes
	aldermoor      = program.Aldermoor
	tool           = program.Tool
	ask            = program.Ask
	eventually     = program.Eventually
)

const (
	awkward     = program.Awkward
	awkwardScan = program.AwkwardScan
)

// tallyOf is the line that check and compile end their findings with; compile
// says where the record is below it.
func tallyOf(t testing.TB, out string) string {
	t.Helper()
	for line := range strings.Lines(out) {
		if strings.Contains(line, " sheet") && strings.Contains(line, "; ") && strings.Contains(line, " error") {
			return strings.TrimSpace(line)
		}
	}
	t.Fatalf("no tally in\n%s", out)
	return ""
}
