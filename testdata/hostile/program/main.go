// Command program runs the program on hostile notebooks under a memory limit.
// testdata/hostile/run calls it with the program that it has built and the share of
// the full sizes.
package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"time"
)

// trial is one kind of input. The full size is counted in what size counts.
type trial struct {
	name  string
	size  int
	limit int64 // of memory at the full size, in bytes
	write func(dir string, size int) error
}

const (
	floor    = 256 << 20 // of the limit: the program itself
	growth   = 1.5       // processor time for four times the input, against four times the time
	mostSaid = 10_000    // lines: a thousand findings, each with its line of the notes
)

var trials = []trial{
	{"a notebook of prose, bytes", 100 << 20, 4 << 30, one("It rained, and the light had gone round to the other side by then.\n\n")},
	{"one line of prose, bytes", 1 << 30, 6 << 30, one("rain ")},
	{"one log line, bytes", 100 << 20, 2 << 30, func(dir string, n int) error {
		return note(dir, func(w *bufio.Writer) { fill(w, "1A: 1/60 f16 ", n) })
	}},
	{"colons", 10_000_000, 2 << 30, one(":")},
	{"lines of a colon", 1_000_000, 2 << 30, func(dir string, n int) error { return note(dir, func(w *bufio.Writer) { fill(w, ":\n", 2*n) }) }},
	{"rows of ditto marks", 100_000, 3 << 30, func(dir string, n int) error {
		return note(dir, func(w *bufio.Writer) {
			w.WriteString("scene: wall\nmeter: EV 12\n10-1:  Y8  f16  1/8\n")
			for i := range n {
				fmt.Fprintf(w, "%d-%d:  -   \"    \"\n", 10+i/5000, i%5000+2)
			}
		})
	}},
	{"lists within one another", 10_000, 1 << 30, func(dir string, n int) error {
		return note(dir, func(w *bufio.Writer) { fill(w, "- ", 2*n); w.WriteString("deep\n") })
	}},
	{"quotes within one another", 10_000, 1 << 30, func(dir string, n int) error {
		return note(dir, func(w *bufio.Writer) { fill(w, "> ", 2*n); w.WriteString("1A: 1/60 f16\n") })
	}},
	{"files in a folder", 100_000, 2 << 30, func(dir string, n int) error {
		for i := range n {
			if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%06d.md", i)), []byte("1A: 1/60 f16\n"), 0o644); err != nil {
				return err
			}
		}
		return nil
	}},
	{"kits that use one another, and the first", 10_000, 2 << 30, func(dir string, n int) error {
		for i := range n {
			if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%06d.md", i)), fmt.Appendf(nil, "use: %06d.md\n", (i+1)%n), 0o644); err != nil {
				return err
			}
		}
		return nil
	}},
	{"faults in one line", 10_000, 1 << 30, func(dir string, n int) error {
		return note(dir, func(w *bufio.Writer) { w.WriteString("1A: "); fill(w, "1/61 ", 5*n) })
	}},
	{"lines with a fault", 100_000, 2 << 30, func(dir string, n int) error {
		return note(dir, func(w *bufio.Writer) { fill(w, "shet 3A: 1/30 f16\n", 18*n) })
	}},
}

// one is a notebook of a stretch over and over.
func one(text string) func(dir string, n int) error {
	return func(dir string, n int) error { return note(dir, func(w *bufio.Writer) { fill(w, text, n) }) }
}

func note(dir string, write func(w *bufio.Writer)) error {
	file, err := os.Create(filepath.Join(dir, "note.md"))
	if err != nil {
		return err
	}
	w := bufio.NewWriterSize(file, 1<<20)
	write(w)
	return errors.Join(w.Flush(), file.Close())
}

// fill writes n bytes of a text over and over.
func fill(w *bufio.Writer, text string, n int) {
	for ; n > 0; n -= len(text) {
		w.WriteString(text[:min(n, len(text))])
	}
}

func main() {
	if len(os.Args) != 3 {
		fmt.Fprintln(os.Stderr, "program: the program to try and the share of the sizes are wanted")
		os.Exit(2)
	}
	share, err := strconv.ParseFloat(os.Args[2], 64)
	if err != nil || share <= 0 {
		fmt.Fprintln(os.Stderr, "program: the share is no number:", os.Args[2])
		os.Exit(2)
	}
	bad := false
	for _, t := range trials {
		size := max(int(float64(t.size)*share), 4)
		limit := floor + int64(float64(t.limit)*share)
		quarter, err := run(os.Args[1], t, size/4, limit)
		whole, fault := run(os.Args[1], t, size, limit)
		times := float64(whole.took) / float64(quarter.took)
		said := ""
		switch err = errors.Join(err, fault); {
		case err != nil:
			said, bad = "  "+err.Error(), true
		case times > 4*growth && whole.took > time.Second:
			said, bad = "  GROWS FASTER THAN ITS INPUT", true
		case whole.lines > mostSaid:
			said, bad = "  SAYS TOO MUCH", true
		}
		fmt.Printf("%-42s %11d  %8v, %.1f times a quarter's; peak %5d MiB of %5d; %d lines said%s\n", t.name, size,
			whole.took.Round(time.Millisecond), times, whole.peak>>20, limit>>20, whole.lines, said)
	}
	if bad {
		os.Exit(1)
	}
}

type outcome struct {
	took  time.Duration // of a processor
	peak  int64         // bytes
	lines int
}

// run makes the input and checks it. The limit is on what is written to in memory:
// Go reserves more addresses than it uses.
func run(program string, t trial, size int, limit int64) (o outcome, err error) {
	dir, err := os.MkdirTemp("", "hostile")
	if err != nil {
		return o, err
	}
	defer os.RemoveAll(dir)
	if err := t.write(dir, size); err != nil {
		return o, err
	}
	c := exec.Command("prlimit", fmt.Sprintf("--data=%d", limit), "--cpu=600", program, "check", dir)
	var out bytes.Buffer
	c.Stdout, c.Stderr = &out, &out
	err = c.Run()
	o.lines = bytes.Count(out.Bytes(), []byte("\n"))
	if c.ProcessState == nil {
		return o, err
	}
	o.took = c.ProcessState.UserTime() + c.ProcessState.SystemTime() // what else the machine does is not the program's
	if use, ok := c.ProcessState.SysUsage().(*syscall.Rusage); ok {
		o.peak = use.Maxrss << 10
	}
	if code := c.ProcessState.ExitCode(); code == 0 || code == 1 {
		return o, nil
	}
	first, _, _ := strings.Cut(out.String(), "\n")
	return o, fmt.Errorf("FAILED: %v: %.120s", err, first)
}
