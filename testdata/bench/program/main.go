// Command program measures the program itself, as a process: how long it takes to
// start, what a second processor is worth to it, what memory a sheet takes, and
// what compiling again costs after one notebook of 200 has changed. testdata/bench/run
// calls it with the program that it has built.
package main

import (
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
	cores       = 1.7                   // one processor's time against two's
	perSheet    = 10_000                // bytes of memory at most
	again       = 0.10                  // of the first compilation
	manySheets  = 100_000
	manyBooks   = 200
	sheetsABook = 17
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "program: the program to measure is wanted")
		os.Exit(2)
	}
	work, err := os.MkdirTemp("", "bench")
	if err == nil {
		defer os.RemoveAll(work)
		err = measure(os.Args[1], work)
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
	nothing, _ := best(50, nil, "/bin/true")
	start, _ := best(50, nil, program, "check", note)
	say("start-up", fmt.Sprintf("check of ten lines takes %v, %.1f times /bin/true's %v; goal %d times and %v, here %v", start, float64(start)/float64(nothing), nothing, startTimes, startExtra, startTimes*nothing+startExtra), start <= startTimes*nothing+startExtra)

	big := filepath.Join(work, "big")
	if err := season(big, 1, manySheets); err != nil {
		return err
	}
	one, _ := best(2, []string{"GOMAXPROCS=1"}, program, "check", big)
	two, memory := best(2, []string{"GOMAXPROCS=2"}, program, "check", big)
	ratio := float64(one) / float64(two)
	say("cores", fmt.Sprintf("two are worth %.2f of one: %v and %v for %d sheets; goal %.1f", ratio, two, one, manySheets, cores), ratio >= cores)
	say("memory", fmt.Sprintf("%d bytes a sheet at most; goal %d", memory/manySheets, perSheet), memory/manySheets <= perSheet)

	many := filepath.Join(work, "many")
	if err := season(many, manyBooks, sheetsABook); err != nil {
		return err
	}
	first, _ := best(1, nil, program, "compile", many)
	if err := season(many, 1, sheetsABook+1); err != nil {
		return err
	}
	second, _ := best(1, nil, program, "compile", many)
	ratio = float64(second) / float64(first)
	say("again", fmt.Sprintf("after one notebook of %d has changed compiling takes %.0f %% of %v; goal %.0f %%", manyBooks, 100*ratio, first, 100*again), ratio <= again)
	return nil
}

func say(what, text string, good bool) {
	missed := ""
	if !good {
		missed = "  MISSED"
	}
	fmt.Printf("%-10s %s%s\n", what, text, missed)
}

// best is the shortest of some runs and the most memory of any, in bytes.
func best(runs int, env []string, args ...string) (shortest time.Duration, memory int64) {
	for range runs {
		c := exec.Command(args[0], args[1:]...)
		c.Env = append(os.Environ(), env...)
		start := time.Now()
		c.Run() // it has things to find
		if took := time.Since(start); shortest == 0 || took < shortest {
			shortest = took
		}
		if use, ok := c.ProcessState.SysUsage().(*syscall.Rusage); ok {
			memory = max(memory, use.Maxrss<<10)
		}
	}
	return shortest, memory
}

// season writes notebooks of so many sheets each, of a day each.
func season(dir string, books, sheets int) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	day := time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)
	for range books {
		var b strings.Builder
		date := day.Format(time.DateOnly)
		fmt.Fprintf(&b, "# Mill\n\nlens 300: 300 mm\nfilm sedge: ISO 400, EI 250\nfilter R25: x8\nfilm: sedge\nlens: 300\nday: %s, Aldermoor mill\n", date)
		for i := range sheets {
			if i%8 == 0 {
				fmt.Fprintf(&b, "\nThe light had gone round to the other side by then.\n\nscene: Sluice %d\nmeter: 1/60 f16\n", i/8+1)
			}
			fmt.Fprintf(&b, "#%d: R25, %s f16, N-1 -- a gust\n", i+1, []string{"1/8", "1/8", "1/60"}[i%3])
		}
		if err := os.WriteFile(filepath.Join(dir, date+".md"), []byte(b.String()), 0o644); err != nil {
			return err
		}
		day = day.AddDate(0, 0, 1)
	}
	return nil
}
