package main

import (
	"reflect"
	"strings"
	"testing"

	"github.com/alecthomas/kong"
)

// Where a command is named only that one is built, and what it says of itself is
// what it says within the whole command line.
func TestCommandAloneIsTheCommandAmongAll(t *testing.T) {
	all := reflect.TypeFor[commands]()
	seen := 0
	for i := range all.NumField() {
		if _, command := all.Field(i).Tag.Lookup("cmd"); !command {
			continue
		}
		name := strings.ToLower(all.Field(i).Name)
		for _, args := range [][]string{{name, "--help"}, {name, "--no-such-flag"}, {name, "--version"}, {"--no-such-flag", name}} {
			seen++
			var alone, among strings.Builder
			got := run(args, terminal{in: strings.NewReader(""), out: &alone, err: &alone})
			want := runOf(&commands{}, args, terminal{in: strings.NewReader(""), out: &among, err: &among})
			if alone.String() != among.String() || got != want || alone.Len() == 0 {
				t.Errorf("notchbook %s: exit status %d and alone\n%s\nexit status %d and among all\n%s", strings.Join(args, " "), got, alone.String(), want, among.String())
			}
		}
		if built := reflect.TypeOf(grammar([]string{name})).Elem().NumField(); built != 2 && name != "man" && name != "completion" {
			t.Errorf("%s: %d fields are built", name, built)
		}
	}
	if seen < 80 {
		t.Errorf("only %d command lines", seen)
	}
}

// help says what --help says, of the whole and of each command.
func TestHelpInWords(t *testing.T) {
	for _, name := range append([]string{""}, names(describe(whole()))...) {
		asked, flag := strings.Fields("help "+name), strings.Fields(name+" --help")
		got, want := notchbook(t, asked...), notchbook(t, flag...)
		if got != want || got.status != right || !strings.HasPrefix(got.out, strings.TrimSpace("Usage: notchbook "+name)) {
			t.Errorf("notchbook %v: status %d\n%s%s", asked, got.status, got.out, got.err)
		}
	}
	if s := notchbook(t, "help", "nothing"); s.status != failed || s.out != "" || !strings.Contains(s.err, "nothing") {
		t.Errorf("status %d: %s%s", s.status, s.out, s.err)
	}
}

// whole is the whole command line.
func whole() *kong.Kong {
	return kong.Must(&commands{}, kong.Vars{"version": "", "sections": ""})
}
