package disk

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// folder makes a folder from names and contents; a name that ends in "/" is an
// empty folder.
func folder(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	fill(t, dir, files)
	return dir
}

func fill(t *testing.T, dir string, files map[string]string) {
	t.Helper()
	for name, content := range files {
		full := filepath.Join(dir, filepath.FromSlash(name))
		if strings.HasSuffix(name, "/") {
			must(t, os.MkdirAll(full, 0o755))
			continue
		}
		must(t, os.MkdirAll(filepath.Dir(full), 0o755))
		must(t, os.WriteFile(full, []byte(content), 0o644))
	}
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func season(t *testing.T, dir string) *Season {
	t.Helper()
	s, err := Open(dir)
	must(t, err)
	t.Cleanup(func() { s.Close() })
	return s
}

// wantKind checks the reason, and the whole message where one is given.
func wantKind(t *testing.T, err error, kind Kind, message string) {
	t.Helper()
	if !errors.Is(err, kind) {
		t.Fatalf("got %v, want: %v", err, kind)
	}
	if message != "" && err.Error() != message {
		t.Errorf("message %q, want %q", err, message)
	}
}

func TestListSortsAndChooses(t *testing.T) {
	dir := folder(t, map[string]string{
		"feb.md": "", "README.md": "", "2024/b.TXT": "", "2024/a.markdown": "",
		"scans/2.TIF": "", "scans/1.jpeg": "", "scans/3.png": "", "x.JPG": "", "y.tiff": "",
		"notes.pdf": "", ".hidden.md": "", ".cache/a.md": "",
		"record/" + Marker: "notchbook record 1\n", "record/index.md": "", "record/scans/1.jpg": "",
		"deep/bag/" + Marker: "notchbook bag 1\n", "deep/bag/feb.md": "",
		"folder.md/inner.txt": "",
	})
	l := season(t, dir).List()
	want := []string{"2024/a.markdown", "2024/b.TXT", "README.md", "feb.md", "folder.md/inner.txt"}
	if !slices.Equal(l.Notebooks, want) {
		t.Errorf("notebooks %q, want %q", l.Notebooks, want)
	}
	want = []string{"scans/1.jpeg", "scans/2.TIF", "scans/3.png", "x.JPG", "y.tiff"}
	if !slices.Equal(l.Scans, want) {
		t.Errorf("scans %q, want %q", l.Scans, want)
	}
	if len(l.Problems) != 0 {
		t.Errorf("problems %v", l.Problems)
	}
}

func TestListIsBounded(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": "", "b.md": "", "1/c.md": "", "1/2/d.md": "", "1/2/3/e.md": ""})
	s := season(t, dir)

	l := s.list(2, maxEntries)
	if want := []string{"1/2/d.md", "1/c.md", "a.md", "b.md"}; !slices.Equal(l.Notebooks, want) {
		t.Errorf("to depth 2: %q, want %q", l.Notebooks, want)
	}
	if len(l.Problems) != 1 || l.Problems[0].Name != "1/2/3" || l.Problems[0].Kind != TooMany {
		t.Errorf("to depth 2: problems %v", l.Problems)
	}

	l = s.list(maxDepth, 3)
	if len(l.Problems) != 1 || l.Problems[0].Kind != TooMany {
		t.Errorf("of 3 entries: problems %v", l.Problems)
	}
}

func TestListReportsLinksThatLeadOut(t *testing.T) {
	outside := folder(t, map[string]string{"far.md": "far", "1.tif": ""})
	dir := folder(t, map[string]string{"near.md": "near", "sub/b.md": ""})
	links := map[string]string{
		"far.md": filepath.Join(outside, "far.md"), "scans": outside,
		"inner.md": "near.md", "loop": ".", "nowhere.md": "missing.md",
	}
	for name, to := range links {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Skip("this system makes no links:", err)
		}
	}
	s := season(t, dir)
	l := s.List()
	if want := []string{"near.md", "sub/b.md"}; !slices.Equal(l.Notebooks, want) {
		t.Errorf("notebooks %q, want %q", l.Notebooks, want)
	}
	var got []string
	for _, p := range l.Problems {
		got = append(got, p.Error())
	}
	want := []string{"far.md lies outside the season's folder", "scans lies outside the season's folder"}
	if !slices.Equal(got, want) {
		t.Errorf("problems %q, want %q", got, want)
	}

	_, err := s.ReadFile("far.md")
	wantKind(t, err, Outside, "far.md lies outside the season's folder")
	_, err = s.OpenScan("scans/1.tif")
	wantKind(t, err, Outside, "scans/1.tif lies outside the season's folder")
	wantKind(t, s.WriteFile("scans/new.md", nil), Outside, "")
	if data, err := s.ReadFile("inner.md"); err != nil || string(data) != "near" {
		t.Errorf("a link inside the folder reads %q, %v", data, err)
	}
	_, err = s.ReadFile("nowhere.md")
	wantKind(t, err, Missing, "")
}

func TestListReportsNamesThatAreNoText(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": ""})
	if err := os.WriteFile(filepath.Join(dir, "b\xff.md"), nil, 0o644); err != nil {
		t.Skip("this system keeps such names out:", err)
	}
	l := season(t, dir).List()
	if !slices.Equal(l.Notebooks, []string{"a.md"}) || len(l.Problems) != 1 || l.Problems[0].Kind != BadName {
		t.Errorf("listed %+v", l)
	}
}

func TestReadFileRefusals(t *testing.T) {
	dir := folder(t, map[string]string{"season/a.md": "text", "season/sub/": "", "secret.md": "secret"})
	s := season(t, filepath.Join(dir, "season"))
	cases := []struct {
		name, message string
		kind          Kind
	}{
		{"b.md", "b.md is missing", Missing},
		{"", `"" is missing`, Missing},
		{"a.md/b.md", "a.md/b.md is missing", Missing},
		{"sub", "sub is a folder, not a file", Folder},
		{".", ". is a folder, not a file", Folder},
		{"../secret.md", "../secret.md lies outside the season's folder", Outside},
		{"sub/../../secret.md", "sub/../../secret.md lies outside the season's folder", Outside},
		{filepath.ToSlash(filepath.Join(dir, "secret.md")), "", Outside},
	}
	for _, c := range cases {
		_, err := s.ReadFile(c.name)
		wantKind(t, err, c.kind, c.message)
		_, err = s.OpenScan(c.name)
		wantKind(t, err, c.kind, c.message)
	}
	for _, name := range []string{"a.md", "./a.md", "sub/../a.md"} {
		if data, err := s.ReadFile(name); err != nil || string(data) != "text" {
			t.Errorf("%s reads %q, %v", name, data, err)
		}
	}
	_, err := s.readUpTo("a.md", 3)
	wantKind(t, err, TooBig, "a.md is larger than 256 MB")
	if data, err := s.readUpTo("a.md", 4); err != nil || string(data) != "text" {
		t.Errorf("at the bound it reads %q, %v", data, err)
	}
}

func TestPermissionDenied(t *testing.T) {
	if os.Geteuid() == 0 || runtime.GOOS == "windows" {
		t.Skip("the superuser is denied nothing, nor does Windows know these bits")
	}
	dir := folder(t, map[string]string{"a.md": "", "shut/b.md": "", "c.md": ""})
	must(t, os.Chmod(filepath.Join(dir, "a.md"), 0))
	must(t, os.Chmod(filepath.Join(dir, "shut"), 0))
	t.Cleanup(func() { os.Chmod(filepath.Join(dir, "shut"), 0o755) })
	s := season(t, dir)
	_, err := s.ReadFile("a.md")
	wantKind(t, err, Denied, "a.md cannot be opened: permission denied")
	l := s.List()
	if len(l.Problems) != 1 || l.Problems[0].Name != "shut" || l.Problems[0].Kind != Denied {
		t.Errorf("problems %v", l.Problems)
	}
	if want := []string{"a.md", "c.md"}; !slices.Equal(l.Notebooks, want) {
		t.Errorf("the rest is %q, want %q", l.Notebooks, want)
	}
}

func TestFaultWording(t *testing.T) {
	denied := &os.PathError{Op: "openat", Path: "/home/x/a.md", Err: os.ErrPermission}
	wantKind(t, fault("a.md", denied), Denied, "a.md cannot be opened: permission denied")
	full := errors.Join(&os.PathError{Op: "write", Path: "/x", Err: errors.New("no space left on device")}, io.ErrShortWrite)
	wantKind(t, fault("a.md", full), Failed, "a.md could not be read or written: no space left on device")
	if fault("a.md", nil) != nil {
		t.Error("no error became one")
	}
	for k := Missing; k <= Failed; k++ {
		if text := k.Error(); text == "" || strings.HasSuffix(text, ".") || strings.ToLower(text[:1]) != text[:1] {
			t.Errorf("kind %d reads %q", k, text)
		}
	}
}

func TestOpen(t *testing.T) {
	dir := folder(t, map[string]string{"feb.md": "x", "record/" + Marker: "notchbook record 1\n", "record/a.md": ""})
	s := season(t, filepath.Join(dir, "feb.md"))
	if s.File != "feb.md" || s.Path != dir {
		t.Errorf("opened %q in %q", s.File, s.Path)
	}
	if data, err := s.ReadFile(s.File); err != nil || string(data) != "x" {
		t.Errorf("reads %q, %v", data, err)
	}
	_, err := Open(filepath.Join(dir, "none"))
	wantKind(t, err, Missing, "")
	_, err = Open(filepath.Join(dir, "feb.md", "none"))
	wantKind(t, err, Missing, "")
	for _, name := range []string{"record", "record/a.md"} {
		_, err = Open(filepath.Join(dir, name))
		wantKind(t, err, Written, filepath.Join(dir, "record")+" was written by notchbook and is not a season's folder")
	}
}

func TestOpenScan(t *testing.T) {
	s := season(t, folder(t, map[string]string{"scans/1.tif": "II*\x00 and more"}))
	scan, err := s.OpenScan("scans/1.tif")
	must(t, err)
	data, err := io.ReadAll(io.NewSectionReader(scan, 0, scan.Size))
	if err != nil || !bytes.Equal(data, []byte("II*\x00 and more")) {
		t.Errorf("reads %q, %v", data, err)
	}
	if scan.ModTime.IsZero() {
		t.Error("no time")
	}
	must(t, scan.Close())
}

func TestWriteFile(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": "old", "sub/": "", "locked.md": "old"})
	must(t, os.Chmod(filepath.Join(dir, "a.md"), 0o640))
	must(t, os.Chmod(filepath.Join(dir, "locked.md"), 0o444))
	s := season(t, dir)

	must(t, s.WriteFile("a.md", []byte("new")))
	must(t, s.WriteFile("sub/b.md", []byte("made")))
	for name, want := range map[string]string{"a.md": "new", "sub/b.md": "made"} {
		if data, err := s.ReadFile(name); err != nil || string(data) != want {
			t.Errorf("%s reads %q, %v", name, data, err)
		}
	}
	info, err := os.Stat(filepath.Join(dir, "a.md"))
	must(t, err)
	if perm := info.Mode().Perm(); runtime.GOOS != "windows" && perm != 0o640 {
		t.Errorf("permissions became %v", perm)
	}

	wantKind(t, s.WriteFile("sub", nil), Folder, "")
	wantKind(t, s.WriteFile("../x.md", nil), Outside, "")
	wantKind(t, s.WriteFile("none/x.md", nil), Missing, "")
	wantKind(t, s.WriteFile("a.md/x.md", nil), Missing, "")
	wantKind(t, s.WriteFile("locked.md", []byte("new")), ReadOnly, "locked.md is read-only; nothing was changed")
	if os.Symlink("a.md", filepath.Join(dir, "link.md")) == nil {
		wantKind(t, s.WriteFile("link.md", []byte("new")), Link, "link.md is a link; nothing was changed")
		must(t, os.Remove(filepath.Join(dir, "link.md")))
	}
	wantTree(t, dir, map[string]string{"a.md": "new", "locked.md": "old", "sub/b.md": "made"})
}

func TestWriteFileClearsWhatWasLeft(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": "old", ".a.md.tmp-notchbook": "ne", ".a.md.lock-notchbook": ""})
	s := season(t, dir)
	must(t, s.WriteFile("a.md", []byte("new")))
	wantTree(t, dir, map[string]string{"a.md": "new"})
}

func TestWriteFileWaitsForNobody(t *testing.T) {
	s := season(t, folder(t, map[string]string{"a.md": "old"}))
	release, err := acquire(s.root, "a.md", "a.md")
	must(t, err)
	wantKind(t, s.WriteFile("a.md", nil), Busy, "a.md is being written by another run of notchbook")
	release()
	must(t, s.WriteFile("a.md", []byte("new")))
}

// A rename that cannot be done leaves the old file and nothing beside it.
func TestWriteFileFails(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": "old"})
	s := season(t, dir)
	fill(t, dir, map[string]string{".a.md.tmp-notchbook/in/the/way": ""})
	if err := s.WriteFile("a.md", []byte("new")); err == nil {
		t.Fatal("written over a folder")
	}
	if data, _ := s.ReadFile("a.md"); string(data) != "old" {
		t.Errorf("the old file reads %q", data)
	}
}

// What is kept beside the scans is neither backed up nor committed.
func TestCacheIsLeftOut(t *testing.T) {
	dir := folder(t, map[string]string{"notes.md": ""})
	s := season(t, dir)
	c, err := s.Cache()
	must(t, err)
	defer c.Close()
	must(t, c.Put("ab1", []byte("kept")))
	c.Sweep(map[string]bool{"ab1": true})
	for name, want := range map[string]string{".gitignore": "*\n", "CACHEDIR.TAG": "Signature: 8a477f597d28d172789f06886806bc55\n"} {
		text, err := os.ReadFile(filepath.Join(dir, CacheFolder, name))
		if err != nil || !strings.HasPrefix(string(text), want) {
			t.Errorf("%s: %q, %v", name, text, err)
		}
	}
}
