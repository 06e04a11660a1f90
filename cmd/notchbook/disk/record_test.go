package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// tree reads all files below a folder, the hidden ones too.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	found := map[string]string{}
	err := filepath.WalkDir(dir, func(full string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(full)
		name, _ := filepath.Rel(dir, full)
		found[filepath.ToSlash(name)] = string(data)
		return err
	})
	must(t, err)
	return found
}

func wantTree(t *testing.T, dir string, want map[string]string) {
	t.Helper()
	if got := tree(t, dir); !maps.Equal(got, want) {
		t.Errorf("the folder holds %q, want %q", got, want)
	}
}

func put(r *Record, name, content string) error {
	w, err := r.Create(name)
	if err != nil {
		return err
	}
	_, err = io.WriteString(w, content)
	return errors.Join(err, w.Close())
}

// write makes a record of two files, up to and without its Commit.
func write(dest, content string) (*Record, error) {
	r, err := NewRecord(dest)
	if err != nil {
		return nil, err
	}
	return r, errors.Join(put(r, "index.html", content), put(r, "sheets/3A/page.html", content))
}

func written(content string) map[string]string {
	return map[string]string{
		Marker:                "notchbook record 1\nindex.html\nsheets/3A/page.html\n",
		"index.html":          content,
		"sheets/3A/page.html": content,
	}
}

func compile(t *testing.T, dest, content string) {
	t.Helper()
	r, err := write(dest, content)
	must(t, err)
	must(t, r.Commit())
}

// names of what stands in a folder, hidden or not.
func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	must(t, err)
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func wantOnly(t *testing.T, dir string, want ...string) {
	t.Helper()
	if got := names(t, dir); !slices.Equal(got, want) {
		t.Errorf("the folder holds %q, want %q", got, want)
	}
}

func TestRecordReplacesRecord(t *testing.T) {
	dir := folder(t, map[string]string{"feb.md": ""})
	dest := filepath.Join(dir, "record")
	compile(t, dest, "one")
	wantTree(t, dest, written("one"))

	r, err := NewRecord(dest)
	must(t, err)
	defer r.Abort()
	must(t, put(r, "only.html", "two"))
	wantTree(t, dest, written("one"))
	must(t, r.Commit())
	wantTree(t, dest, map[string]string{Marker: "notchbook record 1\nonly.html\n", "only.html": "two"})
	wantOnly(t, dir, "feb.md", "record")
}

// What has not changed is the same file as before, and what has is another.
func TestRecordKeepsWhatHasNotChanged(t *testing.T) {
	dir := folder(t, map[string]string{"season/": ""})
	dest := filepath.Join(dir, "record")
	write := func(files map[string]string) map[string]os.FileInfo {
		r, err := NewRecord(dest)
		must(t, err)
		defer r.Abort()
		for name, text := range files {
			f, err := r.Create(name)
			must(t, err)
			_, err = f.Write([]byte(text))
			must(t, errors.Join(err, f.Close()))
		}
		must(t, r.Commit())
		infos := map[string]os.FileInfo{}
		for name, text := range files {
			infos[name], err = os.Lstat(filepath.Join(dest, name))
			must(t, err)
			if data, err := os.ReadFile(filepath.Join(dest, name)); err != nil || string(data) != text {
				t.Errorf("%s reads %.20q, %v", name, data, err)
			}
		}
		return infos
	}
	long := strings.Repeat("long ", 40_000)
	first := write(map[string]string{"a.html": "same", "b.html": "old", "c/d.jpg": long, "e": "", "f.html": "gone"})
	if os.Link(filepath.Join(dest, "e"), filepath.Join(dir, "link")) != nil {
		t.Skip("this disk knows no second names")
	}
	second := write(map[string]string{"a.html": "same", "b.html": "new", "c/d.jpg": long, "e": "", "g.html": "here"})
	for name, same := range map[string]bool{"a.html": true, "b.html": false, "c/d.jpg": true, "e": true} {
		if os.SameFile(first[name], second[name]) != same {
			t.Errorf("%s: the same file: %v", name, !same)
		}
	}
	third := write(map[string]string{"c/d.jpg": long[:len(long)-1] + "x"})
	if os.SameFile(second["c/d.jpg"], third["c/d.jpg"]) {
		t.Error("a file that differs in its last byte was kept")
	}
}

// A second compile must not take the first one's output for the season, nor
// what a run under way or an interrupted one has there.
func TestRecordIsNeverListed(t *testing.T) {
	dir := folder(t, map[string]string{"feb.md": "", "scans/1.tif": ""})
	fill(t, dir, map[string]string{".record.old-notchbook/x.md": "", ".record.tmp-notchbook/x.jpg": ""})
	s := season(t, dir)
	before := s.List()
	r, err := NewRecord(filepath.Join(dir, "record"))
	must(t, err)
	must(t, errors.Join(put(r, "notes.md", ""), put(r, "thumbs/1.jpg", "")))
	during := s.List()
	must(t, r.Commit())
	for _, now := range []Listing{during, s.List()} {
		if !slices.Equal(now.Notebooks, before.Notebooks) || !slices.Equal(now.Scans, before.Scans) || len(now.Problems) != 0 {
			t.Errorf("listed %+v, want %+v", now, before)
		}
	}
	wantOnly(t, dir, "feb.md", "record", "scans")
}

func TestRecordRefusesDestination(t *testing.T) {
	const form = "notchbook record 1\na.html\n"
	cases := []struct {
		title   string
		files   map[string]string
		kind    Kind
		message string // after the destination
	}{
		{"a folder of someone else", map[string]string{"record/a.jpg": ""}, NotOurs,
			" exists and was not written by notchbook; nothing was changed"},
		{"a folder of folders", map[string]string{"record/sub/": ""}, NotOurs, ""},
		{"a file", map[string]string{"record": "x"}, NotFolder, " is a file, not a folder"},
		{"a bag", map[string]string{"record/" + Marker: "notchbook bag 1\n", "record/a": ""}, NotOurs, ""},
		{"a marker of something else", map[string]string{"record/" + Marker: "colour = blue\n"}, NotOurs, ""},
		{"a marker that is a folder", map[string]string{"record/" + Marker + "/record": ""}, NotOurs, ""},
		{"a record with a stranger", map[string]string{"record/" + Marker: form, "record/a.html": "", "record/my/own.txt": ""},
			Stranger, "/my/own.txt stands in the record and was not written by notchbook; nothing was changed"},
	}
	for _, c := range cases {
		t.Run(c.title, func(t *testing.T) {
			dir := folder(t, c.files)
			before := tree(t, dir)
			dest := filepath.Join(dir, "record")
			_, err := NewRecord(dest)
			message := ""
			if c.message != "" {
				message = dest + c.message
			}
			wantKind(t, err, c.kind, message)
			wantTree(t, dir, before)
		})
	}
}

func TestRecordAcceptsDestination(t *testing.T) {
	const form = "notchbook record 1\na.html\n"
	cases := map[string]map[string]string{
		"nothing":                {"feb.md": ""},
		"an empty folder":        {"record/": ""},
		"a folder once shown":    {"record/.DS_Store": ""},
		"a record":               {"record/" + Marker: form, "record/a.html": "changed by hand"},
		"a record once shown":    {"record/" + Marker: form, "record/Thumbs.db": "", "record/._a.html": ""},
		"a record with one gone": {"record/" + Marker: form},
	}
	for title, files := range cases {
		t.Run(title, func(t *testing.T) {
			dest := filepath.Join(folder(t, files), "record")
			compile(t, dest, "new")
			wantTree(t, dest, written("new"))
		})
	}
}

func TestRecordParent(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": "x"})
	_, err := NewRecord(filepath.Join(dir, "none", "record"))
	wantKind(t, err, Missing, filepath.Join(dir, "none")+" is missing")
	_, err = NewRecord(filepath.Join(dir, "a.md", "record"))
	wantKind(t, err, NotFolder, filepath.Join(dir, "a.md")+" is a file, not a folder")
	_, err = NewRecord(string(filepath.Separator))
	wantKind(t, err, NotOurs, "")
	if os.Symlink(t.TempDir(), filepath.Join(dir, "record")) == nil {
		_, err = NewRecord(filepath.Join(dir, "record"))
		wantKind(t, err, Link, "")
	}
	wantTree(t, filepath.Join(dir, "a.md"), map[string]string{".": "x"})
}

// A stranger that comes while the record is being written is kept too.
func TestRecordRefusesLateStranger(t *testing.T) {
	dir := t.TempDir()
	dest := filepath.Join(dir, "record")
	compile(t, dest, "one")
	r, err := write(dest, "two")
	must(t, err)
	fill(t, dest, map[string]string{"mine.txt": "mine"})
	wantKind(t, r.Commit(), Stranger, "")
	want := written("one")
	want["mine.txt"] = "mine"
	wantTree(t, dest, want)
	wantOnly(t, dir, "record")
}

func TestRecordIsForOneRun(t *testing.T) {
	dir := t.TempDir()
	dest := filepath.Join(dir, "record")
	r, err := write(dest, "one")
	must(t, err)
	_, err = NewRecord(dest)
	wantKind(t, err, Busy, dest+" is being written by another run of notchbook")
	other, err := NewRecord(filepath.Join(dir, "other"))
	must(t, err)
	other.Abort()
	must(t, r.Commit())
	compile(t, dest, "two")
	wantTree(t, dest, written("two"))
	wantOnly(t, dir, "record")
}

func TestAbort(t *testing.T) {
	dir := t.TempDir()
	dest := filepath.Join(dir, "record")
	compile(t, dest, "one")
	r, err := write(dest, "two")
	must(t, err)
	w, err := r.Create("left-open.html")
	must(t, err)
	r.Abort()
	r.Abort()
	w.Close()
	if r.Commit() == nil {
		t.Error("committed after Abort")
	}
	if _, err := r.Create("late.html"); err == nil {
		t.Error("created after Abort")
	}
	wantTree(t, dest, written("one"))
	wantOnly(t, dir, "record")
}

func TestCreateRefusesNames(t *testing.T) {
	dir := t.TempDir()
	cases := []struct {
		name string
		want error
	}{
		{"../x", Outside}, {"/etc/x", Outside}, {"a/../../x", Outside}, {"", Outside}, {"..", Outside},
		{".", BadName}, {"a//b", BadName}, {"a/../b", BadName}, {"a/", BadName}, {"a:b", BadName}, {"a?b", BadName},
		{"a\nb", BadName}, {"a\\b", BadName}, {"a.", BadName}, {"a\xffb", BadName},
		{Marker, fs.ErrExist}, {"index.html", fs.ErrExist}, {"INDEX.html", fs.ErrExist}, {"index.html/x", Failed},
	}
	for _, c := range cases {
		r, err := write(filepath.Join(dir, "record"), "x")
		must(t, err)
		if _, err = r.Create(c.name); !errors.Is(err, c.want) {
			t.Errorf("%q gives %v, want %v", c.name, err, c.want)
		}
		if err := r.Commit(); !errors.Is(err, c.want) {
			t.Errorf("after %q Commit gives %v, want %v", c.name, err, c.want)
		}
	}
	wantOnly(t, dir)
}

func TestCommitWantsFilesClosed(t *testing.T) {
	dir := t.TempDir()
	r, err := write(filepath.Join(dir, "record"), "x")
	must(t, err)
	_, err = r.Create("open.html")
	must(t, err)
	if err := r.Commit(); err == nil || !strings.Contains(err.Error(), "not closed") {
		t.Errorf("Commit gives %v", err)
	}
	wantOnly(t, dir)
}

func TestRecordManyHands(t *testing.T) {
	dir := t.TempDir()
	r, err := NewRecord(filepath.Join(dir, "record"))
	must(t, err)
	results := make(chan error)
	for i := range 20 {
		go func() { results <- put(r, fmt.Sprintf("sheets/%02d.html", i), "x") }()
	}
	for range 20 {
		must(t, <-results)
	}
	must(t, r.Commit())
	if got := len(tree(t, filepath.Join(dir, "record"))); got != 21 {
		t.Errorf("%d files", got)
	}
}

// commitSteps are the names of the steps, as Commit takes them.
func commitSteps() (steps []string) {
	for _, s := range new(Record).steps() {
		steps = append(steps, s.name)
	}
	return steps
}

// inPlace tells whether the new record stands before a step is taken.
func inPlace(step string) bool {
	all := commitSteps()
	return slices.Index(all, step) > slices.Index(all, "put in place")
}

func TestFaultAtEachStep(t *testing.T) {
	for _, first := range []bool{true, false} {
		for _, at := range commitSteps() {
			t.Run(fmt.Sprintf("%s, first %v", at, first), func(t *testing.T) {
				dir := t.TempDir()
				dest := filepath.Join(dir, "record")
				if !first {
					compile(t, dest, "old")
				}
				r, err := write(dest, "new")
				must(t, err)
				broken := errors.New("broken")
				r.before = func(step string) error {
					if step == at {
						return broken
					}
					return nil
				}
				if err := r.Commit(); !errors.Is(err, broken) {
					t.Errorf("Commit gives %v", err)
				}
				wantAfter(t, dir, at, first)
			})
		}
	}
}

// wantAfter checks that the record is the old or the new one, whole, with
// nothing beside it.
func wantAfter(t *testing.T, dir, at string, first bool) {
	t.Helper()
	switch {
	case inPlace(at):
		wantTree(t, dir, below("record", written("new")))
	case first:
		wantOnly(t, dir)
	default:
		wantTree(t, dir, below("record", written("old")))
	}
}

func below(dir string, files map[string]string) map[string]string {
	moved := map[string]string{}
	for name, content := range files {
		moved[dir+"/"+name] = content
	}
	return moved
}

// TestEndAtEachStep ends a process of its own within Commit, without any
// clearing up, and looks at what the next run makes of it.
func TestEndAtEachStep(t *testing.T) {
	for _, at := range commitSteps() {
		t.Run(at, func(t *testing.T) {
			dir := t.TempDir()
			dest := filepath.Join(dir, "record")
			compile(t, dest, "old")
			child := exec.Command(os.Args[0], "-test.run=^TestChildThatEnds$")
			child.Env = append(os.Environ(), "DISK_TEST_DEST="+dest, "DISK_TEST_STEP="+at)
			if out, err := child.CombinedOutput(); child.ProcessState.ExitCode() != endedHere {
				t.Fatalf("the child ended otherwise: %v\n%s", err, out)
			}
			if at != "put in place" { // the one gap
				content := "old"
				if inPlace(at) {
					content = "new"
				}
				wantTree(t, dest, written(content))
			}
			r, err := NewRecord(dest)
			must(t, err)
			r.Abort()
			wantAfter(t, dir, at, false)
		})
	}
}

const endedHere = 86

func TestChildThatEnds(t *testing.T) {
	dest := os.Getenv("DISK_TEST_DEST")
	if dest == "" {
		t.Skip("run by TestEndAtEachStep only")
	}
	r, err := write(dest, "new")
	must(t, err)
	r.before = func(step string) error {
		if step == os.Getenv("DISK_TEST_STEP") {
			os.Exit(endedHere)
		}
		return nil
	}
	t.Fatal("not ended:", r.Commit())
}
