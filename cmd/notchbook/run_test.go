package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"notchbook/cmd/notchbook/program"
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
	os.Exit(m.Run())
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
)

// aldermoor is a copy of the season that is shipped, with what an awkward name
// can be beside it, and with at least a few scans, drawn here, where the
// shipped ones are not at hand.
func aldermoor(t testing.TB) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "season")
	if err := os.CopyFS(dir, os.DirFS("../../examples/aldermoor")); err != nil {
		t.Fatal(err)
	}
	for _, made := range []string{"record", ".notchbook-cache"} { // by somebody who tried the example
		if err := os.RemoveAll(filepath.Join(dir, made)); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{"scans/2026-10-04-1A.jpg", "scans/2026-11-07-2B.jpg"} {
		if _, err := os.Stat(filepath.Join(dir, name)); err != nil {
			fill(t, dir, map[string]string{name: picture(600, 480)})
		}
	}
	fill(t, dir, map[string]string{
		"2026-12-01-at home.md": awkward, awkwardScan: picture(500, 400), "scans/left over.jpg": picture(40, 30),
		"prints/day 1/tray #2.jpg": picture(60, 80),
	})
	return dir
}

const (
	awkwardScan = "scans/50% of #2? (ß 写).jpg"
	awkward     = `# At <home> & "quoted"

day: 2026-12-01, The "cellar" <b>
meter: 1/8 f16
#31: 1/8 f16 -- <script>alert(1)</script>
scan #31: ` + awkwardScan + `
12: 1/2 f16

Light from [a page](https://example.org/a?b=c#d), not [javascript](javascript:alert(1)), as in
the [other notes](kit.md) and ![the tray](prints/day%201/tray%20%232.jpg).
`
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

// tool finds a program that the test cannot do without. In continuous
// integration it must be there.
func tool(t testing.TB, name, use string) string {
	t.Helper()
	full, err := exec.LookPath(name)
	if err != nil && os.Getenv("CI") == "true" {
		t.Fatalf("%s is not installed: %s", name, use)
	}
	if err != nil {
		t.Skipf("%s is not installed: %s", name, use)
	}
	return full
}

// ask runs such a program and wants it to end well.
func ask(t testing.TB, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(tool(t, name, "the PDF is not read by other programs"), args...).Output()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, out)
	}
	return string(out)
}
