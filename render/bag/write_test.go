package bag

import (
	"bytes"
	"crypto/sha256"
	"crypto/sha512"
	"errors"
	"fmt"
	"io"
	"math/rand"
	"slices"
	"strings"
	"testing"
	"testing/iotest"
)

// memory is a folder of files in memory.
type memory files

func (m memory) Create(name string) (io.WriteCloser, error) {
	return &memoryFile{m: m, name: name}, nil
}

type memoryFile struct {
	m    memory
	name string
	bytes.Buffer
}

func (f *memoryFile) Close() error { f.m[f.name] = f.String(); return nil }

// written is a bag of ours, with names as awkward as they come.
func ours(t *testing.T, grain int) (files, *Writer) {
	t.Helper()
	m := memory{}
	w := NewWriter(m)
	for name, text := range map[string]string{
		"season/kiln.md": "a kiln\n", "season/50%0A.txt": "per cent\n", "season/a\nb": "two lines", "season/Köhler ½.tif": strings.Repeat("grain", grain), "empty": "",
	} {
		f, err := w.Payload(name, iotest.HalfReader(strings.NewReader(text)))
		if err != nil || f.Bytes != int64(len(text)) || f.SHA256 != fmt.Sprintf("%x", sha256.Sum256([]byte(text))) {
			t.Fatalf("%q: %v, %v", name, f, err)
		}
	}
	page, err := w.Within("record").Create("pages/index.html")
	if err != nil {
		t.Fatal(err)
	}
	io.WriteString(page, "<p>")
	io.WriteString(page, "kiln")
	if err := page.Close(); err != nil {
		t.Fatal(err)
	}
	if err := w.Tag("about/more.txt", "more\n"); err != nil {
		t.Fatal(err)
	}
	err = w.Close([]Element{{"External-Description", strings.Repeat("many words ", 40)}, {"Contact-Name", "A\nB"}, {"Nothing", ""}, {"Bagging-Date", "2026-11-07"}})
	if err != nil {
		t.Fatal(err)
	}
	return files(m), w
}

// What we write is without a fault, without a warning even, and the same each
// time; another hand agrees.
func TestOursIsValid(t *testing.T) {
	f, _ := ours(t, 300_000)
	report, err := Verify(f.fs(), Options{})
	if err != nil || !report.Valid() || report.Count(Warning) > 0 {
		t.Fatalf("%v %v", err, report.Problems)
	}
	if report.Files != 6 || report.Version != "1.0" || !slices.Equal(report.Algorithms, []string{"sha256", "sha512"}) {
		t.Errorf("%+v", report)
	}
	again, _ := ours(t, 300_000)
	for name := range f {
		if f[name] != again[name] {
			t.Errorf("%s is another each time", name)
		}
	}
	if said := checkedElsewhere(t, []files{f})[0]; said != "valid" {
		t.Errorf("the other says %s", said)
	}
}

// RFC 8493, section 2.2.2: order is kept, lines are short, what goes on is
// indented.
func TestInfoReadsBack(t *testing.T) {
	f, _ := ours(t, 300_000)
	report, err := Verify(f.fs(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	want := []Element{
		{"External-Description", strings.TrimSpace(strings.Repeat("many words ", 40))}, {"Contact-Name", "A B"}, {"Bagging-Date", "2026-11-07"},
		{"Bag-Size", "1.5 MB"}, {"Payload-Oxum", "1500032.6"},
	}
	if !slices.Equal(report.Info, want) {
		t.Errorf("read %q", report.Info)
	}
	for line := range strings.Lines(f[infoName]) {
		if len(strings.TrimSuffix(line, "\n")) > 79 {
			t.Errorf("too long: %q", line)
		}
	}
}

func TestDigestsAtTheEdgesOfBlocks(t *testing.T) {
	d := newDigests("sha256", "sha512")
	for _, n := range []int{0, 1, blockSize - 1, blockSize, blockSize + 1, 2 * blockSize, 3*blockSize + 7} {
		text := make([]byte, n)
		rand.New(rand.NewSource(int64(n))).Read(text)
		var out bytes.Buffer
		got, sums, read, wrote := d.copy(&out, bytes.NewReader(text))
		want := []string{fmt.Sprintf("%x", sha256.Sum256(text)), fmt.Sprintf("%x", sha512.Sum512(text))}
		if got != int64(n) || read != nil || wrote != nil || !slices.Equal(sums, want) || !bytes.Equal(out.Bytes(), text) {
			t.Errorf("%d bytes: %d %v %v", n, got, read, wrote)
		}
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errBroken }

var errBroken = errors.New("broken")

// Whose fault it was is told: that of what is read, or of where it is written.
func TestFaultsAreTold(t *testing.T) {
	w := NewWriter(memory{})
	_, err := w.Payload("a", io.MultiReader(bytes.NewReader(make([]byte, blockSize+5)), iotest.ErrReader(errBroken)))
	var read *ReadError
	if !errors.As(err, &read) || !errors.Is(err, errBroken) {
		t.Errorf("reading: %v", err)
	}
	_, _, _, err = newDigests("sha256").copy(broken{}, bytes.NewReader(make([]byte, 5*blockSize)))
	if !errors.Is(err, errBroken) {
		t.Errorf("writing: %v", err)
	}
}

// RFC 8493, section 6.1.1.3: names that differ in composition are prevented, names
// that differ in case are discouraged.
func TestNamesThatAreAlike(t *testing.T) {
	w := NewWriter(memory{})
	add := func(name string) error { _, err := w.Payload(name, strings.NewReader("x")); return err }
	if err := errors.Join(add("é.tif"), add("KILN.tif"), add("kiln.tif")); err != nil || len(w.Warnings()) != 1 {
		t.Errorf("%v %q", err, w.Warnings())
	}
	if add("e\u0301.tif") == nil || add("é.tif") == nil || add("../x") == nil || add("/x") == nil || add("") == nil {
		t.Error("a name was not refused")
	}
}

// What an interrupted run left counts only if it is what it should be.
func TestKept(t *testing.T) {
	w := NewWriter(memory{})
	sum := fmt.Sprintf("%x", sha256.Sum256([]byte("kiln")))
	for _, c := range []struct {
		text string
		want bool
	}{{"kil", false}, {"kilm", false}, {"kiln", true}} {
		if got, err := w.Kept("a", strings.NewReader(c.text), 4, sum); got != c.want || err != nil {
			t.Errorf("%q: %v %v", c.text, got, err)
		}
	}
	if bytes, n := w.held(); bytes != 4 || n != 1 {
		t.Errorf("%d bytes in %d files", bytes, n)
	}
}

// Random damage to a bag of ours is found by both, or by neither.
func TestRandomDamage(t *testing.T) {
	random := rand.New(rand.NewSource(7))
	var bags []files
	for len(bags) < 150 {
		f, _ := ours(t, 30)
		names := []string{"bagit.txt", "bag-info.txt", "manifest-sha256.txt", "manifest-sha512.txt", "tagmanifest-sha256.txt", "data/empty", "data/season/kiln.md"}
		for range 1 + random.Intn(2) {
			name := names[random.Intn(len(names))]
			f[name] = damaged(random, f[name])
		}
		if random.Intn(2) == 0 { // else every change of a list shows in the lists of the lists
			delete(f, "tagmanifest-sha256.txt")
			delete(f, "tagmanifest-sha512.txt")
		}
		bags = append(bags, f)
	}
	valid := 0
	for i, said := range checkedElsewhere(t, bags) {
		report, err := Verify(bags[i].fs(), Options{})
		if err != nil {
			t.Fatal(err)
		}
		if (said == "valid") != report.Valid() {
			t.Errorf("%d: the other says %s, here it is %v", i, said, report.Problems)
		}
		if report.Valid() {
			valid++
		}
	}
	if valid == 0 || valid > 100 {
		t.Errorf("%d of 150 are valid: that is no test", valid)
	}
}

// damaged flips, drops, doubles or puts in.
func damaged(random *rand.Rand, text string) string {
	lines := strings.SplitAfter(text, "\n")
	i, at := random.Intn(len(lines)), random.Intn(len(text)+1)
	switch random.Intn(6) {
	case 0:
		return strings.Join(slices.Delete(lines, i, i+1), "")
	case 1:
		return strings.Join(slices.Insert(lines, i, lines[i]), "")
	case 2:
		return text[:at] + string("0aZ% \t*\\:/~.\r\n"[random.Intn(14)]) + text[at:]
	case 3:
		return text[:at] + text[min(len(text), at+1):]
	case 4:
		return strings.Replace(text, "  ", " ", 1)
	}
	lines[i] = strings.ToUpper(lines[i])
	return strings.Join(lines, "")
}
