// Package program is what the tests of the whole command stand on: seasons to work
// on, a look at what a folder holds afterwards, and the command as a process for
// the tests that lie outside its own room. Only tests import it.
package program

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io/fs"
	"maps"
	"net/http"
	"net/http/cookiejar"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

// built is where Main has put the command.
var built string

// Main builds the command, runs the tests of a room with it, does what is to be done
// after them, and ends the process.
func Main(m *testing.M, after ...func()) {
	os.Unsetenv("SOURCE_DATE_EPOCH") // a date in the builder's own environment is no date of these tests
	dir, err := os.MkdirTemp("", "notchbook")
	if err != nil {
		panic(err)
	}
	built = filepath.Join(dir, "notchbook.exe")
	build := exec.Command("go", "build", "-o", built, "notchbook/cmd/notchbook")
	build.Stderr = os.Stderr
	status := 1
	if build.Run() == nil {
		status = m.Run()
	}
	for _, do := range after {
		do()
	}
	os.RemoveAll(dir)
	os.Exit(status)
}

// Process is the command as a process, in an environment that has nothing but
// what is named.
func Process(env []string, args ...string) *exec.Cmd {
	c := exec.Command(built, args...)
	c.Env = env
	if env == nil {
		c.Env = []string{}
	}
	return c
}

// Said is how a run ended.
type Said struct {
	Out, Err string
	Status   int
}

// Failed is the status of a run that could not be made.
const Failed = 2

// Run runs the command without a terminal.
func Run(t testing.TB, args ...string) Said {
	t.Helper()
	var out, complaints bytes.Buffer
	c := Process(nil, args...)
	c.Stdout, c.Stderr = &out, &complaints
	if err := c.Run(); err != nil && !errors.As(err, new(*exec.ExitError)) {
		t.Fatal(err)
	}
	return Said{out.String(), complaints.String(), c.ProcessState.ExitCode()}
}

// Must runs the command and wants it to end well.
func Must(t testing.TB, args ...string) Said {
	t.Helper()
	s := Run(t, args...)
	if s.Status != 0 {
		t.Fatalf("notchbook %s: status %d\n%s%s", strings.Join(args, " "), s.Status, s.Out, s.Err)
	}
	return s
}

// Folder makes a folder of files; a name that ends in a slash is a folder.
func Folder(t testing.TB, files map[string]string) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "season")
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	Fill(t, dir, files)
	return dir
}

func Fill(t testing.TB, dir string, files map[string]string) {
	t.Helper()
	for name, text := range files {
		full := filepath.Join(dir, filepath.FromSlash(name))
		parent := filepath.Dir(full)
		if strings.HasSuffix(name, "/") {
			parent = full
		}
		err := os.MkdirAll(parent, 0o755)
		if err == nil && parent != full {
			err = os.WriteFile(full, []byte(text), 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// Picture is a JPEG with something to see in it.
func Picture(width, height int) string {
	m := image.NewGray(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			m.SetGray(x, y, color.Gray{Y: uint8(255 * x / width)})
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		panic(err) // writing to memory
	}
	return b.String()
}

// Tree is every file below a folder, by its name with slashes, but for the
// folders named, and the cache of what is known of scans.
func Tree(t testing.TB, dir string, without ...string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (slices.Contains(without, name) || name == ".notchbook-cache"):
			return fs.SkipDir
		case d.IsDir():
			return nil
		}
		text, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
		files[name] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// SameTree wants two trees to hold the same files with the same bytes.
func SameTree(t testing.TB, what string, want, got map[string]string) {
	t.Helper()
	for _, name := range slices.Sorted(maps.Keys(want)) {
		if text, ok := got[name]; !ok {
			t.Errorf("%s: %s is gone", what, name)
		} else if text != want[name] {
			t.Errorf("%s: %s has other bytes", what, name)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(got)) {
		if _, ok := want[name]; !ok {
			t.Errorf("%s: %s is new", what, name)
		}
	}
}

// NumberedNotes is a day of ten sheets whose scans follow a pattern.
func NumberedNotes() string {
	notes := "# Mill\n\nlens long: 300 mm\nfilm sedge: ISO 100, EI 64, pan\n\nday: 2026-10-04, Aldermoor mill\nload #31-#40: sedge\n" +
		"scan: scans/neg-{sheet}.png\nlens: long\nmeter: 1/60 f16\nsheet #31: 1/60 f16\n"
	for i := 32; i <= 40; i++ {
		notes += fmt.Sprintf("#%d: 1/60 f16\n", i)
	}
	return notes
}

// TinyScan is a picture like no other number's.
func TinyScan(t testing.TB, n int) string {
	t.Helper()
	img := image.NewGray16(image.Rect(0, 0, 40, 30))
	for i := range 40 * 30 {
		img.SetGray16(i%40, i/40, color.Gray16{Y: uint16(i * n * 7)})
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// NumberedSeason is the notes, and scans of these numbers.
func NumberedSeason(t testing.TB, from, to int) string {
	t.Helper()
	files := map[string]string{"notes.md": NumberedNotes()}
	for n := from; n <= to; n++ {
		files[fmt.Sprintf("scans/neg-#%d.png", n)] = TinyScan(t, n)
	}
	return Folder(t, files)
}

// HeavySeason has some megabytes of scans.
func HeavySeason(t testing.TB, scans int) string {
	dir := NumberedSeason(t, 31, 30+scans)
	for n := 31; n <= 30+scans; n++ {
		name := filepath.Join(dir, fmt.Sprintf("scans/neg-#%d.png", n))
		text, err := os.ReadFile(name)
		if err == nil { // what follows the picture is no part of it
			err = os.WriteFile(name, append(text, bytes.Repeat([]byte{byte(n)}, 700_000)...), 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// Entries are the names in a folder, in order.
func Entries(t testing.TB, dir string) []string {
	t.Helper()
	all, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range all {
		names = append(names, e.Name())
	}
	return names
}

// Example is the season that is shipped, where it lies.
func Example(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	for ; err == nil && dir != filepath.Dir(dir); dir = filepath.Dir(dir) {
		if _, missing := os.Stat(filepath.Join(dir, "go.mod")); missing == nil {
			return filepath.Join(dir, "examples", "aldermoor")
		}
	}
	t.Fatal("the shipped season is not found from here: ", err)
	return ""
}

// CopyNotes copies a season, or a folder of seasons, and none of the records that somebody
// made of them.
func CopyNotes(t testing.TB, to, from string) {
	t.Helper()
	if err := os.CopyFS(to, os.DirFS(from)); err != nil {
		t.Fatal(err)
	}
	for _, made := range []string{"record", ".notchbook-cache"} {
		seasons, err := filepath.Glob(filepath.Join(to, "*", made))
		if err != nil {
			t.Fatal(err)
		}
		for _, one := range append(seasons, filepath.Join(to, made)) {
			if err := os.RemoveAll(one); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// Aldermoor is a copy of the season that is shipped, with what an awkward name
// can be beside it, and with at least a few scans, drawn here, where the
// shipped ones are not at hand.
func Aldermoor(t testing.TB) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "season")
	AldermoorIn(t, dir)
	return dir
}

// AldermoorIn is such a copy in a folder that is not there yet.
func AldermoorIn(t testing.TB, dir string) {
	t.Helper()
	CopyNotes(t, dir, Example(t))
	for _, name := range []string{"scans/2026-10-04-1A.jpg", "scans/2026-11-07-2B.jpg"} {
		if _, err := os.Stat(filepath.Join(dir, name)); err != nil {
			Fill(t, dir, map[string]string{name: Picture(600, 480)})
		}
	}
	Fill(t, dir, map[string]string{
		"2026-12-01-at home.md": Awkward, AwkwardScan: Picture(500, 400), "scans/left over.jpg": Picture(40, 30),
		"prints/day 1/tray #2.jpg": Picture(60, 80),
	})
}

// The notebook beside the shipped season, and its scan.
const (
	AwkwardScan = "scans/50% of #2? (ß 写).jpg"
	Awkward     = `# At <home> & "quoted"

day: 2026-12-01, The "cellar" <b>
meter: 1/8 f16
#31: 1/8 f16 -- <script>alert(1)</script>
scan #31: ` + AwkwardScan + `
12: 1/2 f16

Light from [a page](https://example.org/a?b=c#d), not [javascript](javascript:alert(1)), as in
the [other notes](kit.md) and ![the tray](prints/day%201/tray%20%232.jpg).
`
)

// Tool finds a program that the test cannot do without. In continuous
// integration it must be there.
func Tool(t testing.TB, name, use string) string {
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

// Ask runs such a program and wants it to end well.
func Ask(t testing.TB, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(Tool(t, name, "the PDF is not read by other programs"), args...).Output()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, out)
	}
	return string(out)
}

// Eventually waits for something that comes by itself, a minute at the most.
func Eventually(t testing.TB, what string, ok func() bool) {
	t.Helper()
	for end := time.Now().Add(time.Minute); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		if ok() {
			return
		}
	}
	t.Fatal("in vain: ", what)
}

// Words collects what a command says while it still runs.
type Words struct {
	mu   sync.Mutex
	text strings.Builder
}

func (w *Words) Write(b []byte) (int, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.text.Write(b)
}

func (w *Words) String() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.text.String()
}

// Background runs the command until the test is over, interrupts it as Ctrl-C does,
// and holds it to end well.
func Background(t testing.TB, args ...string) *Words {
	t.Helper()
	out := &Words{}
	c := Process(nil, args...)
	c.Stdout, c.Stderr = out, out
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := c.Process.Signal(os.Interrupt); err != nil {
			t.Error(err)
		}
		if c.Wait(); c.ProcessState.ExitCode() == Failed || !c.ProcessState.Exited() {
			t.Errorf("ended with %v: %s", c.ProcessState, out)
		}
	})
	return out
}

// DeskAddress is the address that the desk prints.
var DeskAddress = regexp.MustCompile(`http://127\.0\.0\.1:\d+/\?key=[A-Z0-9]+`)

// Visitor is a client with a jar for the desk's key.
func Visitor(t testing.TB, first string) *http.Client {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	c := &http.Client{Jar: jar}
	answer, err := c.Get(first)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	if answer.StatusCode != http.StatusOK || !strings.HasSuffix(answer.Request.URL.Path, "/findings.html") {
		t.Fatalf("the first page is %s, %s", answer.Request.URL, answer.Status)
	}
	return c
}
