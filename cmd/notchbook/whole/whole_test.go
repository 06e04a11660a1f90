package whole_test

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"notchbook/cmd/notchbook/disk"
	"notchbook/cmd/notchbook/program"
)

// What is written is there as a whole or not at all, whatever becomes of the run
// that writes it: it is killed, the disk is full, the folder may not be written,
// another run is at it.

func TestMain(m *testing.M) { program.Main(m) }

const goodNotes = "day: 2026-11-07\nmeter: 1/60 f16\n1A: 1/60 f16\n"

// writer is a command that writes, a season in which it has something to write,
// and what must be true of the season at any moment.
type writer struct {
	name   string
	season func(t *testing.T) string
	args   func(dir string) []string
	whole  func(t *testing.T, dir string)
}

// writers are all of them. What is whole is told by what the command makes of the
// same season when nothing disturbs it.
func writers(t *testing.T) []writer {
	untidy := map[string]string{
		"a.md": strings.Repeat("1A:1/60   F16 , r25\nProse stays  so.\n\n", 200), "b.md": strings.Repeat("2A:   1/30 f 22\n", 100), "c.txt": strings.Repeat("3A:1/15 F/11\n", 300),
	}
	mendable := map[string]string{"a.md": strings.Repeat("shet 1A: 1/60 f16\n\nProse stays.\n", 150), "b.md": strings.Repeat("shet 3A: 1/30 f16\n", 80)}
	both := func(files map[string]string, args ...string) writer {
		dir := program.Folder(t, files)
		program.Run(t, append(args, dir)...)
		after := program.Tree(t, dir)
		for name := range files {
			if after[name] == files[name] {
				t.Fatalf("%v: nothing is to be written to %s", args, name)
			}
		}
		return writer{strings.Join(args, " "), func(t *testing.T) string { return program.Folder(t, files) },
			func(dir string) []string { return append(slices.Clone(args), dir) },
			func(t *testing.T, dir string) {
				for name, text := range withoutBeside(program.Tree(t, dir)) {
					if text != files[name] && text != after[name] {
						t.Errorf("%s is neither as it was nor as it was to be: %d bytes", name, len(text))
					}
				}
			}}
	}
	return []writer{compiling(t), both(untidy, "tidy", "--write"), both(mendable, "check", "--fix"), renaming(t)}
}

// compiling writes the record of one of two states of the notes over that of the
// other.
func compiling(t *testing.T) writer {
	files := map[string]string{"a.md": goodNotes + "1B: 1/8 f16\nscan 1A: s/1.jpg\n", "s/1.jpg": program.Picture(300, 200), "s/2.jpg": program.Picture(200, 300)}
	other := goodNotes + "2B: 1/8 f16 -- another day\nscan 1A: s/2.jpg\n"
	dir := program.Folder(t, files)
	program.Must(t, "compile", dir)
	records := []map[string]string{program.Tree(t, filepath.Join(dir, "record"))}
	program.Fill(t, dir, map[string]string{"a.md": other})
	program.Must(t, "compile", dir)
	records = append(records, program.Tree(t, filepath.Join(dir, "record")))
	n := 0
	return writer{"compile", func(t *testing.T) string {
		dir := program.Folder(t, files)
		program.Must(t, "compile", dir)
		return dir
	}, func(dir string) []string {
		n++
		if err := os.WriteFile(filepath.Join(dir, "a.md"), []byte([]string{files["a.md"], other}[n%2]), 0o644); err != nil {
			panic(err)
		}
		return []string{"compile", dir}
	}, func(t *testing.T, dir string) {
		for _, at := range []string{"record", ".record.old-notchbook"} { // the second only where the first is missing for a moment
			if _, err := os.Stat(filepath.Join(dir, at)); err != nil {
				continue
			}
			got := program.Tree(t, filepath.Join(dir, at))
			if !maps.Equal(got, records[0]) && !maps.Equal(got, records[1]) {
				t.Errorf("the record is neither the old one nor the new one: %d files", len(got))
			}
			return
		}
		t.Error("there is no record")
	}}
}

// renaming moves ten scans on by one. No scan's bytes may be lost, and what was
// written for undoing it brings the old names back.
func renaming(t *testing.T) writer {
	return writer{"scans --rename-plan --apply", func(t *testing.T) string { return program.NumberedSeason(t, 32, 41) },
		func(dir string) []string { return []string{"scans", "--rename-plan", "--apply", dir} },
		func(t *testing.T, dir string) {
			held := map[[32]byte]bool{}
			for name, text := range program.Tree(t, dir) {
				if strings.HasSuffix(name, ".png") {
					held[sha256.Sum256([]byte(text))] = true
				}
			}
			for n := 32; n <= 41; n++ {
				if !held[sha256.Sum256([]byte(program.TinyScan(t, n)))] {
					t.Errorf("the bytes of scan %d are gone", n)
				}
			}
			undo := filepath.Join(dir, "undo-renames-1.sh")
			if _, err := os.Stat(undo); err != nil {
				return
			}
			if out, err := exec.Command("sh", undo).CombinedOutput(); err != nil {
				t.Errorf("%v\n%s", err, out)
			}
			for n := 32; n <= 41; n++ {
				if text, err := os.ReadFile(filepath.Join(dir, fmt.Sprintf("scans/neg-#%d.png", n))); err != nil || string(text) != program.TinyScan(t, n) {
					t.Errorf("after undoing scan %d is not what it was: %v", n, err)
				}
			}
		}}
}

// withoutBeside leaves out what a run that was ended leaves for the next one.
func withoutBeside(files map[string]string) map[string]string {
	maps.DeleteFunc(files, func(name, _ string) bool {
		return strings.Contains(name, "-notchbook") || strings.HasPrefix(name, disk.CacheFolder)
	})
	return files
}

// kills is how often each command is killed: set NOTCHBOOK_KILLS for more.
func kills(t *testing.T) int {
	n, err := strconv.Atoi(os.Getenv("NOTCHBOOK_KILLS"))
	if err != nil {
		return 10
	}
	return n
}

// Each command that writes is killed at moments drawn by chance, most of them
// near its end, where it writes; then the next run finds everything in order.
func TestKilledWritersLeaveWholes(t *testing.T) {
	if testing.Short() {
		t.Skip("short: nothing is killed")
	}
	seed := uint64(time.Now().UnixNano())
	for _, w := range writers(t) {
		t.Run(w.name, func(t *testing.T) {
			random := rand.New(rand.NewPCG(seed, 1))
			whole := duration(t, w)
			ended, dir := 0, w.season(t)
			for range kills(t) {
				if w.name != "compile" || random.IntN(4) == 0 {
					dir = w.season(t)
				}
				p := program.Process(nil, w.args(dir)...)
				if err := p.Start(); err != nil {
					t.Fatal(err)
				}
				time.Sleep(time.Duration(float64(whole) * (1.1 - random.Float64()*random.Float64())))
				p.Process.Kill()
				if p.Wait() == nil || p.ProcessState.Exited() {
					ended++
				}
				w.whole(t, dir)
				if t.Failed() {
					t.Fatalf("seed %d", seed)
				}
			}
			again := program.Process(nil, w.args(dir)...)
			if out, err := again.CombinedOutput(); err != nil && again.ProcessState.ExitCode() == program.Failed {
				t.Errorf("the next run: %v\n%s", err, out)
			}
			w.whole(t, dir)
			t.Logf("killed %d times, %d of these after its end, which takes %v; seed %d", kills(t), ended, whole, seed)
		})
	}
}

func duration(t *testing.T, w writer) time.Duration {
	t.Helper()
	dir := w.season(t)
	args := w.args(dir)
	start := time.Now()
	program.Process(nil, args...).Run()
	return time.Since(start)
}

// Two runs at once: one writes, the other says so and ends, or comes after it.
func TestTwoWritersAtOnce(t *testing.T) {
	for _, w := range writers(t) {
		t.Run(w.name, func(t *testing.T) {
			for range 3 {
				dir := w.season(t)
				args := w.args(dir)
				var runs sync.WaitGroup
				for range 3 {
					runs.Go(func() {
						p := program.Process(nil, args...)
						out, _ := p.CombinedOutput()
						busy := bytes.Contains(out, []byte("is being written by another run of notchbook")) ||
							bytes.Contains(out, []byte("has changed since it was read and was left alone")) ||
							bytes.Contains(out, []byte("exists; nothing was renamed"))
						if p.ProcessState.ExitCode() == program.Failed && !busy {
							t.Errorf("%s", out)
						}
					})
				}
				runs.Wait()
				w.whole(t, dir)
				for name := range program.Tree(t, dir) {
					if strings.Contains(name, "-notchbook") && !strings.HasPrefix(name, disk.CacheFolder) {
						t.Errorf("%s is left over", name)
					}
				}
			}
		})
	}
}

// A disk that fills up, at each size from nothing left to all that is needed, and
// one that may only be read.
func TestWritersOnAFullDisk(t *testing.T) {
	for _, w := range writers(t) {
		t.Run(w.name, func(t *testing.T) {
			from := w.season(t)
			disk := smallDisk(t)
			refused := 0
			for _, left := range []int64{0, 4 << 10, 16 << 10, 64 << 10, 160 << 10, 480 << 10, 1 << 20, 2 << 20} {
				dir := filepath.Join(disk, "season") // whose name is in the record
				if err := os.CopyFS(dir, os.DirFS(from)); err != nil {
					t.Fatal(err)
				}
				args := w.args(dir)
				fillUp(t, disk, left)
				s := program.Run(t, args...)
				if strings.Contains(s.Err, "no space left on device") && s.Status == program.Failed {
					refused++
				} else if s.Status == program.Failed {
					t.Errorf("with %d bytes left it says %s", left, s.Err)
				}
				w.whole(t, dir)
				for name := range program.Tree(t, dir) {
					if strings.Contains(name, ".tmp-notchbook") {
						t.Errorf("with %d bytes left %s is left over", left, name)
					}
				}
				os.RemoveAll(dir)
			}
			if refused == 0 {
				t.Error("the disk was never full")
			}
		})
	}
}

func TestWritersWhereNothingMayBeWritten(t *testing.T) {
	for _, w := range writers(t) {
		t.Run(w.name, func(t *testing.T) {
			disk := smallDisk(t)
			dir := filepath.Join(disk, "season")
			if err := os.CopyFS(dir, os.DirFS(w.season(t))); err != nil {
				t.Fatal(err)
			}
			args := w.args(dir)
			readOnly(t, disk)
			before := program.Tree(t, dir)
			if s := program.Run(t, args...); s.Status != program.Failed || !strings.Contains(s.Err, "read-only file system") && !strings.Contains(s.Err, "cannot be") {
				t.Errorf("status %d\n%s%s", s.Status, s.Out, s.Err)
			}
			if s := program.Run(t, "check", dir); s.Status == program.Failed {
				t.Errorf("it cannot even be checked\n%s", s.Err)
			}
			program.SameTree(t, "after all", before, program.Tree(t, dir))
		})
	}
}

// fillUp leaves so many bytes on a disk.
func fillUp(t *testing.T, disk string, left int64) {
	t.Helper()
	name := filepath.Join(disk, "filler")
	os.Remove(name)
	file, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	block := make([]byte, 4096)
	for err == nil {
		_, err = file.Write(block)
	}
	info, err := file.Stat()
	if err == nil {
		err = file.Truncate(max(0, info.Size()-left))
	}
	if err != nil {
		t.Fatal(err)
	}
}
