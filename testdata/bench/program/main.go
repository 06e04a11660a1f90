// Command program measures the program itself, as a process: how long it takes to
// start, what a second processor is worth to it and what memory a sheet takes, in
// one long notebook and in a season of many, and what compiling again costs after
// one notebook of 200 has changed: without scans, with some, and with one for every
// sheet (8 GB, removed afterwards). testdata/bench/run calls it with the program
// that it has built.
package main

import (
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"time"
)

// The goals.
const (
	startTimes  = 3                     // of what /bin/true takes,
	startExtra  = 10 * time.Millisecond // and so much more
	coresWorth  = 1.7                   // one processor's time against two's
	perSheet    = 10_000                // bytes of memory at most
	againAtMost = 0.10                  // of the first compilation
)

// What is measured.
const (
	manySheets     = 100_000
	sheetsAWeek    = 40 // in a notebook of the season of many
	manyBooks      = 200
	sheetsABook    = 20
	frameMegabytes = 8
	fewSheets      = 5 // in a notebook of the season of which each sheet is scanned: 8 GB
)

func main() {
	if len(os.Args) != 2 && !(len(os.Args) == 3 && os.Args[2] == "again") {
		fmt.Fprintln(os.Stderr, "program: the program to measure is wanted, and perhaps: again, for that alone")
		os.Exit(2)
	}
	work, err := os.MkdirTemp("", "bench")
	if err == nil {
		defer os.RemoveAll(work)
		if len(os.Args) == 2 {
			err = measure(os.Args[1], work)
		}
		if err == nil {
			err = measureAgain(os.Args[1], work)
		}
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "program:", err)
		os.Exit(1)
	}
}

func measure(program, work string) error {
	note := filepath.Join(work, "note.md")
	if err := os.WriteFile(note, []byte("day: 2026-11-07\nlens 300: 300 mm\nlens: 300\nmeter: 1/60 f16\n1A: 1/60 f16\n1B: 1/30 f22\n2A: 1/15 f32\n2B: 1/125 f11\n\nIt rained.\n"), 0o644); err != nil {
		return err
	}
	nothing, err := best(run{args: []string{"/bin/true"}, times: 50})
	if err != nil {
		return err
	}
	start, err := best(run{args: []string{program, "check", note}, times: 50, says: "4 sheets,"})
	if err != nil {
		return err
	}
	goal := startTimes*nothing.took + startExtra
	say("start-up", fmt.Sprintf("check of ten lines takes %v, %.1f times /bin/true's %v; goal %d times and %v, here %v", start.took, float64(start.took)/float64(nothing.took), nothing.took, startTimes, startExtra, goal), start.took <= goal)

	for _, notebooks := range []int{1, manySheets / sheetsAWeek} {
		dir := filepath.Join(work, fmt.Sprint("check", notebooks))
		if err := season(dir, notebooks, manySheets/notebooks, scans{}); err != nil {
			return err
		}
		if err := cores(program, dir, notebooks); err != nil {
			return err
		}
	}
	return nil
}

func measureAgain(program, work string) error {
	frame, err := frameOf(work, frameMegabytes)
	if err != nil {
		return err
	}
	for i, s := range []struct {
		sheets, scanned int
		with            string
	}{
		{sheetsABook, 0, "without scans"},
		{sheetsABook, 1, fmt.Sprintf("with a scan of %d MB for a sheet of each", frameMegabytes)},
		{fewSheets, fewSheets, fmt.Sprintf("with a scan of %d MB for each of its %d sheets", frameMegabytes, fewSheets)},
	} {
		dir := filepath.Join(work, fmt.Sprint("again", i))
		if err := again(program, dir, s.with, books{s.sheets, scans{frame, s.scanned}}); err != nil {
			return err
		}
		os.RemoveAll(dir) // it may be large
	}
	return nil
}

// books are notebooks of so many sheets each.
type books struct {
	sheets int
	scans
}

// scans are what the first sheets of each notebook have: files like frame.
type scans struct {
	frame string
	most  int
}

// cores says what the second processor is worth, and what memory a sheet takes.
func cores(program, dir string, notebooks int) error {
	check := run{args: []string{program, "check", dir}, times: 3, says: fmt.Sprintf("%d sheets,", manySheets)}
	on := func(processors int) run {
		r := check
		r.env = []string{fmt.Sprint("GOMAXPROCS=", processors)}
		return r
	}
	one, err := best(on(1))
	if err != nil {
		return err
	}
	two, err := best(on(2))
	if err != nil {
		return err
	}
	apart, err := sideBySide(on(1), 2)
	if err != nil {
		return err
	}
	in := "one notebook"
	if notebooks > 1 {
		in = fmt.Sprint(notebooks, " notebooks")
	}
	ratio := float64(one.took) / float64(two.took)
	say("cores", fmt.Sprintf("two are worth %.2f of one: %v and %v for %d sheets in %s; goal %.1f", ratio, two.took, one.took, manySheets, in, coresWorth), ratio >= coresWorth)
	say("cores", fmt.Sprintf("two checks with one each, at once, are worth %.2f: more this machine cannot give", 2*float64(one.took)/float64(apart)), true)
	say("memory", fmt.Sprintf("%d bytes a sheet at most in %s; goal %d", two.memory/manySheets, in, perSheet), two.memory/manySheets <= perSheet)
	return nil
}

// again says what compiling a season costs once more, after a sheet was added to
// the first of its notebooks.
func again(program, dir, with string, b books) error {
	if err := season(dir, manyBooks, b.sheets, b.scans); err != nil {
		return err
	}
	compile := run{args: []string{program, "compile", dir}, times: 1}
	compile.says = fmt.Sprintf("%d sheets,", manyBooks*b.sheets)
	first, err := best(compile)
	if err != nil {
		return err
	}
	if err := notebook(dir, 0, b.sheets, 1, b.scans); err != nil {
		return err
	}
	compile.says = fmt.Sprintf("%d sheets,", manyBooks*b.sheets+1)
	second, err := best(compile)
	if err != nil {
		return err
	}
	ratio := float64(second.took) / float64(first.took)
	say("again", fmt.Sprintf("after one notebook of %d, %s, has changed compiling takes %v, %.1f %% of %v; goal %.0f %%", manyBooks, with, second.took, 100*ratio, first.took, 100*againAtMost), ratio <= againAtMost)
	return nil
}

func say(what, text string, good bool) {
	missed := ""
	if !good {
		missed = "  MISSED"
	}
	fmt.Printf("%-10s %s%s\n", what, text, missed)
}

// run is a command to measure, and what its last lines must say: a program that
// fails at once would be the fastest.
type run struct {
	args  []string
	env   []string
	times int
	says  string
}

// cost is the shortest of some runs and the most memory of any, in bytes.
type cost struct {
	took   time.Duration
	memory int64
}

func best(r run) (all cost, err error) {
	for range r.times {
		c := exec.Command(r.args[0], r.args[1:]...)
		c.Env = append(os.Environ(), r.env...)
		start := time.Now()
		out, _ := c.Output() // it may have things to find
		took := time.Since(start)
		if !strings.Contains(string(out[max(0, len(out)-1000):]), r.says) {
			return all, fmt.Errorf("%s does not say %q but %.300q", strings.Join(r.args, " "), r.says, out)
		}
		if all.took == 0 || took < all.took {
			all.took = took
		}
		if use, ok := c.ProcessState.SysUsage().(*syscall.Rusage); ok {
			all.memory = max(all.memory, use.Maxrss<<10)
		}
	}
	return all, nil
}

// sideBySide is how long n of a command take that run at the same time and have nothing to do
// with one another, the shortest of some rounds.
func sideBySide(r run, n int) (took time.Duration, err error) {
	rounds := r.times
	r.times = 1
	for range rounds {
		done := make(chan error, n)
		start := time.Now()
		for range n {
			go func() { _, err := best(r); done <- err }()
		}
		for range n {
			err = errors.Join(err, <-done)
		}
		if now := time.Since(start); took == 0 || now < took {
			took = now
		}
	}
	return took, err
}

const kit = `# Kit

camera field: 4x5, ext 65-400 mm
lens 150: 150 mm, f5.6-f64
lens 210: 210 mm, f5.6-f64
film sedge: ISO 100, pan, reciprocity t^1.31 over 1s
filter Y8: Wratten 8, x2
filter O21: Wratten 21, x4
filter R25: Wratten 25, x8
`

// season writes a kit and notebooks of so many sheets each.
func season(dir string, notebooks, sheets int, s scans) error {
	if err := os.MkdirAll(filepath.Join(dir, "scans"), 0o755); err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(dir, "kit.md"), []byte(kit), 0o644); err != nil {
		return err
	}
	for n := range notebooks {
		if err := notebook(dir, n, sheets, 0, s); err != nil {
			return err
		}
	}
	return nil
}

// notebook writes the nth notebook, with so many sheets more than it had: twenty
// sheets a day, five a scene, one sheet in nine given the time of no filter. EV 12
// is f/16 at 1/15 and ISO 100.
func notebook(dir string, n, sheets, more int, s scans) error {
	marks := []string{"f8", "f11", "f16", "f22", "f32"}
	times := []string{"1/60", "1/30", "1/15", "1/8", "1/4", "½", "1s", "2s"}
	filters := []string{"", "Y8, ", "O21, ", "R25, "}
	first := time.Date(1990, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, n*((sheets+19)/20))
	var b strings.Builder
	for i := range sheets + more {
		day := first.AddDate(0, 0, i/20)
		if i%20 == 0 {
			fmt.Fprintf(&b, "\n# Walk %d\n\nday: %s, Aldermoor, field %d\nload 1A-10B: sedge\n", n+i/20, day.Format(time.DateOnly), n%37)
		}
		if i%5 == 0 {
			fmt.Fprintf(&b, "\nscene: Hedge %d from the lane\nlens: %s\nmeter: EV 12\n\nMist until *the church struck* %d; after that [nothing](kit.md) but wind in the hedge.\n\n", n+i, []string{"150", "210"}[i%2], i%12)
		}
		mark, filter := i/3%len(marks), (n+i/7)%len(filters)
		slow := mark + filter
		if i%9 == 0 {
			slow = mark
		}
		side := fmt.Sprintf("%d%c", i%20/2+1, 'A'+i%2)
		fmt.Fprintf(&b, "%s: %s%s %s, N, rise %d -- frame %d of the walk\n", side, filters[filter], marks[mark], times[slow], i%29, i)
		if i < s.most {
			name := fmt.Sprintf("scans/%s-%d.tif", day.Format(time.DateOnly), i)
			fmt.Fprintf(&b, "scan %s: %s\n", side, name)
			if err := likeness(s.frame, filepath.Join(dir, name), n*s.most+i); err != nil {
				return err
			}
		}
	}
	return os.WriteFile(filepath.Join(dir, first.Format(time.DateOnly)+".md"), []byte(b.String()), 0o644)
}

// frameOf writes a frame of so many megabytes as the bench of scans has them.
func frameOf(work string, megabytes int) (string, error) {
	name := filepath.Join(work, "frame.tif")
	out, err := exec.Command("go", "run", "./testdata/bench/scans/frames", name, fmt.Sprint(megabytes), "1").CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return name, nil
}

// likeness writes the nth scan, which differs from the others in its last pixels,
// unless it is there already.
func likeness(frame, name string, n int) error {
	if _, err := os.Stat(name); err == nil {
		return nil
	}
	pixels, err := os.ReadFile(frame)
	if err != nil {
		return err
	}
	binary.LittleEndian.PutUint32(pixels[len(pixels)-4:], uint32(n))
	return os.WriteFile(name, pixels, 0o644)
}
