// Command mutate asks whether the tests would notice: it changes one comparison,
// sign, constant or connective of a package at a time, runs the tests that should
// mind, and prints the changes that nobody minded.
//
//	go run ./testdata/mutate -test ./compile/exposure compile/exposure/*.go
//	go run ./testdata/mutate -n 60 -test ./compile -long Planted compile/slip/*.go
//	go run ./testdata/mutate -n 100 -test ./lang lang/lexer.go lang/shape.go lang/number.go
//
// The files are of one package. All changes are compiled at once, each behind a
// switch, and a process of the tests is told which one it is to make; so a change
// costs what the tests cost. Of all changes it tries so many, drawn by a seed.
// Nothing in the tree is written: what is compiled is laid over it (go help build,
// -overlay). Constants that the language wants known at compile time are left out.
// A comparison of whole numbers takes the edge in or leaves it out, one of floats is
// turned round.
package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"time"
)

func main() {
	n := flag.Int("n", 0, "changes to try; 0 is all")
	seed := flag.Uint64("seed", 1, "of the draw")
	tests := flag.String("test", "", "packages whose tests are run, separated by blanks; the quickest first")
	limit := flag.Duration("limit", 2*time.Minute, "for the tests of one change; tests that do not end have minded")
	beside := flag.Int("beside", 1, "changes tried side by side")
	only := flag.String("run", "", "only these tests, a regular expression as for go test")
	long := flag.String("long", "", "tests that are not short, which are asked about what the short ones let pass; a regular expression")
	flag.Parse()
	asked := [][]string{{"-test.short", "-test.run", *only}}
	if *long != "" {
		asked = append(asked, []string{"-test.run", *long})
	}
	if err := mutate(flag.Args(), strings.Fields(*tests), asked, *n, *beside, *seed, *limit); err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(2)
	}
}

func mutate(files, tests []string, asked [][]string, n, beside int, seed uint64, limit time.Duration) error {
	if len(files) == 0 || len(tests) == 0 {
		return fmt.Errorf("there is nothing to change, or no -test")
	}
	work, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return err
	}
	defer os.RemoveAll(work)
	changes, err := lay(files, work)
	if err != nil {
		return err
	}
	programs, err := build(tests, work)
	if err != nil {
		return err
	}
	if minded, out := try(programs, asked, 0, limit); minded {
		return fmt.Errorf("the tests fail without a change: %s", out)
	}
	possible := len(changes)
	rand.New(rand.NewPCG(seed, 0)).Shuffle(possible, func(i, j int) { changes[i], changes[j] = changes[j], changes[i] })
	if n > 0 {
		changes = changes[:min(n, possible)]
	}
	minded := make([]bool, len(changes))
	var all sync.WaitGroup
	turns := make(chan struct{}, beside)
	for i, c := range changes {
		turns <- struct{}{}
		all.Go(func() {
			if minded[i], _ = try(programs, asked, c.number, limit); !minded[i] {
				fmt.Printf("nobody minds %s: %s became %s\n", c.place, c.was, c.becomes)
			}
			<-turns
		})
	}
	all.Wait()
	count := 0
	for _, m := range minded {
		if m {
			count++
		}
	}
	fmt.Printf("%d of %d changes were minded, %.1f %%; %d are possible\n", count, len(changes), 100*float64(count)/float64(max(len(changes), 1)), possible)
	return nil
}

// lay writes the files with all changes behind their switches, and the list of what
// is laid over the tree.
func lay(files []string, work string) ([]change, error) {
	p, err := load(files)
	if err != nil {
		return nil, err
	}
	over := map[string]string{}
	for i, name := range p.names {
		full, err := filepath.Abs(name)
		if err != nil {
			return nil, err
		}
		over[full] = filepath.Join(work, fmt.Sprint(i, ".go"))
		if err := os.WriteFile(over[full], p.switched(i), 0o644); err != nil {
			return nil, err
		}
	}
	dir, err := filepath.Abs(filepath.Dir(files[0]))
	if err != nil {
		return nil, err
	}
	helper := filepath.Join(work, "switch.go")
	over[filepath.Join(dir, "zz_switch.go")] = helper
	if err := os.WriteFile(helper, []byte("package "+p.name+"\n"+switches), 0o644); err != nil {
		return nil, err
	}
	list, err := json.Marshal(map[string]map[string]string{"Replace": over})
	if err != nil {
		return nil, err
	}
	return p.changes, os.WriteFile(filepath.Join(work, "overlay.json"), list, 0o644)
}

// program is the tests of a package, and the folder they expect to be run in.
type program struct{ name, dir string }

func build(tests []string, work string) (all []program, err error) {
	for i, test := range tests {
		p := program{filepath.Join(work, fmt.Sprint(i, ".test")), test}
		out, err := exec.Command("go", "test", "-c", "-overlay", filepath.Join(work, "overlay.json"), "-vet=off", "-o", p.name, test).CombinedOutput()
		if err != nil {
			return nil, fmt.Errorf("%s: %w\n%s", test, err, out)
		}
		all = append(all, p)
	}
	return all, nil
}

// try runs the tests with one change, as they are asked one after the other; 0 is none.
func try(programs []program, asked [][]string, number int, limit time.Duration) (minded bool, out []byte) {
	for _, which := range asked {
		for _, p := range programs {
			ctx, cancel := context.WithTimeout(context.Background(), limit)
			c := exec.CommandContext(ctx, p.name, append([]string{"-test.failfast"}, which...)...)
			c.Dir, c.Env = p.dir, append(os.Environ(), fmt.Sprint("NOTCHBOOK_MUTANT=", number))
			out, err := c.CombinedOutput()
			cancel()
			if err != nil {
				return true, out[max(0, len(out)-1000):]
			}
		}
	}
	return false, nil
}
