// Command notchbook reads a season's notes as they were typed, says which
// sheets went wrong and why, and writes an HTML and a PDF record in which every
// sheet is linked to its scan.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"reflect"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/alecthomas/kong"
	"golang.org/x/term"

	"notchbook/lang/diag"
	"notchbook/render/pdf"
)

const description = `The field-notebook compiler for people who photograph on sheet film.
It reads notes as they were typed, checks the arithmetic of every sheet, and writes a record linked to the scans.`

// commands is the command line; kong reads it from the tags.
type commands struct {
	Check      checkCommand      `cmd:"" help:"Say what is wrong with the notes. Exit status 1 when there are errors, 2 when it could not run."`
	Compile    compileCommand    `cmd:"" help:"Check the notes and write the record, as HTML and PDF."`
	Scans      scansCommand      `cmd:"" help:"Audit the scans against the notes and the last record. Exit status 1 when one is missing, unreadable, moved or changed."`
	Find       findCommand       `cmd:"" help:"Find sheets by the notation's own terms and by words. Exit status 1 when none fits."`
	Explain    explainCommand    `cmd:"" help:"Explain one sheet with every figure and its source, or a finding or a cause by its code, with an example."`
	Tidy       tidyCommand       `cmd:"" help:"Spell the log lines in one way; prose is left byte for byte. Show the result, or with --write write it."`
	Reckon     reckonCommand     `cmd:"" help:"Compute the settings for a reading, filters and extension, written as on a sheet line."`
	Forecast   forecastCommand   `cmd:"" help:"Forecast what filters do: what each costs, and how sky, foliage, brick, skin and other things move against grey. Exit status 1 when a curve is missing."`
	Notation   notationCommand   `cmd:"" help:"Print how notes are read: the whole notation, or what it says of some words. Exit status 1 when it says nothing of them."`
	Handbook   handbookCommand   `cmd:"" help:"Print the published tables, each row with its source."`
	Fieldcard  fieldcardCommand  `cmd:"" help:"Make the card for the field: one HTML file with the kit's tables and the whole checker, for a phone without a network."`
	Desk       deskCommand       `cmd:"" help:"Show the record live in a browser on this machine: it changes when a notebook is saved."`
	Lsp        lspCommand        `cmd:"" help:"Speak with an editor: findings while you type, hover, completion, renaming. Language Server Protocol 3.17 on standard input and output."`
	Develop    developCommand    `cmd:"" help:"List what waits for development: batches that share a tray, times, what to hold back, what was developed otherwise than asked."`
	Negatives  negativesCommand  `cmd:"" help:"List the negatives by their numbers, the next free one, negatives without an entry and entries without a negative."`
	Losses     lossesCommand     `cmd:"" help:"Say which sheets were lost, and to what."`
	Years      yearsCommand      `cmd:"" help:"Set the calendar years beside one another, and list what was used in a place each time you came back."`
	Tests      testsCommand      `cmd:"" help:"Say what your own tests give: film speed, developing times, filters, reciprocity, shutters and meters, with the sheets that do not belong."`
	Holders    holdersCommand    `cmd:"" help:"Say what is in each holder side, what was, and which may be loaded again."`
	Archive    archiveCommand    `cmd:"" help:"Put a season into a bag (BagIt 1.0): notebooks, kit, record, scans and sidecars with the digests of all of them; or check a bag."`
	Help       helpCommand       `cmd:"" help:"Say how the program or one of its commands is used, as --help does."`
	Completion completionCommand `cmd:"" help:"Print the completion code for a shell: bash, zsh or fish."`
	Man        manCommand        `cmd:"" help:"Print the manual page: notchbook man | man -l -"`
	Version    kong.VersionFlag  `name:"version" help:"Print the version and exit."`
}

// terminal is what a command may say things to, and how.
type terminal struct {
	in       io.Reader
	out, err io.Writer
	colour   bool
	progress bool
	screen   bool            // out is a terminal
	columns  int             // how wide it is, 0 where that is not known
	until    context.Context // ends what runs until Ctrl-C; nil: Ctrl-C does
}

// Exit statuses: found is what a gate stops at, failed that it could not run.
const (
	right  = 0
	found  = 1
	failed = 2
)

// status is an error that is only an exit status: all is said already.
type status int

func (s status) Error() string { return fmt.Sprint("exit status ", int(s)) }

func main() {
	columns, _, err := term.GetSize(int(os.Stdout.Fd()))
	if err != nil {
		columns = 0 // no terminal
	}
	os.Exit(run(os.Args[1:], terminal{
		in: os.Stdin, out: os.Stdout, err: os.Stderr,
		colour:   term.IsTerminal(int(os.Stdout.Fd())) && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb",
		screen:   term.IsTerminal(int(os.Stdout.Fd())),
		progress: term.IsTerminal(int(os.Stderr.Fd())),
		columns:  columns,
	}))
}

// run is main without the process: arguments in, exit status out.
func run(args []string, t terminal) int { return runOf(grammar(args), args, t) }

func runOf(grammar any, args []string, t terminal) (code int) {
	exited := -1
	parser := kong.Must(grammar,
		kong.Name("notchbook"), kong.Description(description), kong.Vars{"version": version(), "sections": strings.Join(pdf.Parts(), ", ")},
		kong.Writers(t.out, t.err), kong.UsageOnError(), kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
		kong.Exit(func(code int) { exited = code; panic(status(code)) }), kong.Bind(t),
	)
	parser.Model.HelpFlag.Help = "Say how this is used."
	defer func() {
		if r := recover(); r != nil {
			if _, ok := r.(status); !ok {
				panic(r)
			}
			code = exited
		}
	}()
	if len(args) == 0 {
		args = []string{"--help"}
	}
	ctx, err := parser.Parse(withNumbers(args))
	if err != nil {
		t.complain(err)
		fmt.Fprintln(t.err, "see: notchbook --help")
		return failed
	}
	return exitStatus(ctx.Run(), t)
}

// withNumbers tells numbers below nought from flags: reckon EV -2 on IV.
func withNumbers(args []string) []string {
	i := slices.IndexFunc(args, func(a string) bool { return len(a) > 1 && a[0] == '-' && a[1] >= '0' && a[1] <= '9' })
	if i < 1 || slices.Contains(args[:i], "--") || args[0] != "reckon" && args[0] != "find" {
		return args
	}
	var flags, words []string // flags stand before the mark that ends them
	for n := 1; n < len(args); n++ {
		switch a := args[n]; {
		case strings.HasPrefix(a, "--") && !strings.Contains(a, "=") && n+1 < len(args):
			flags = append(flags, a, args[n+1])
			n++
		case strings.HasPrefix(a, "--"):
			flags = append(flags, a)
		default:
			words = append(words, a)
		}
	}
	return slices.Concat(args[:1], flags, []string{"--"}, words)
}

// grammar is what kong builds the command line of: the whole, or where a command is
// named that one alone, since building the others takes longer than checking a
// short note. What describes the commands needs all of them.
func grammar(args []string) any {
	all := reflect.TypeFor[commands]()
	if len(args) == 0 || args[0] == "man" || args[0] == "completion" {
		return &commands{}
	}
	named, ok := all.FieldByNameFunc(func(name string) bool { return strings.ToLower(name) == args[0] })
	if _, command := named.Tag.Lookup("cmd"); !ok || !command {
		return &commands{}
	}
	flag, _ := all.FieldByName("Version")
	return reflect.New(reflect.StructOf([]reflect.StructField{named, flag})).Interface()
}

func exitStatus(err error, t terminal) int {
	var s status
	switch {
	case err == nil:
		return right
	case errors.As(err, &s):
		return int(s)
	}
	t.complain(err)
	return failed
}

// complain says an error. It may hold the name of a file, which may hold
// anything.
func (t terminal) complain(err error) {
	fmt.Fprintf(t.err, "notchbook: %s\n", diag.Clean(err.Error()))
}

// verbatim is for what another program may read from out, to the byte: notes,
// tables, patches. On a terminal nobody's notes may say what it is to do.
func (t terminal) verbatim() io.Writer {
	if t.screen {
		return cleaned{t.out}
	}
	return t.out
}

// cleaned shows what a terminal would obey. It is handed whole characters.
type cleaned struct{ io.Writer }

func (c cleaned) Write(p []byte) (int, error) {
	var b strings.Builder
	for line := range strings.Lines(string(p)) {
		text := strings.TrimSuffix(line, "\n")
		b.WriteString(diag.Clean(strings.ReplaceAll(strings.TrimSuffix(text, "\r"), "\t", "    ")) + line[len(text):])
	}
	if _, err := io.WriteString(c.Writer, b.String()); err != nil {
		return 0, err
	}
	return len(p), nil
}

// number is the version of the program's next release.
const number = "0.1"

// version names the program as it was built.
func version() string {
	text := "notchbook " + number
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" && len(s.Value) >= 12 {
				text += " (" + s.Value[:12] + ")"
			}
		}
	}
	return text
}
