package disk

import (
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
)

func putInBag(b *Bag, name, content string) error {
	w, err := b.Create(name)
	if err != nil {
		return err
	}
	_, err = io.WriteString(w, content)
	return errors.Join(err, w.Close())
}

// newBag makes a bag of two files, up to and without its Commit.
func newBag(t *testing.T, dest string) *Bag {
	t.Helper()
	b, err := NewBag(dest)
	must(t, err)
	must(t, errors.Join(putInBag(b, "bagit.txt", "x"), putInBag(b, "data/a\n:?/KILN.tif", "one"), putInBag(b, "data/a\n:?/kiln.tif", "two")))
	return b
}

var bagFiles = map[string]string{"bagit.txt": "x", "data/a\n:?/KILN.tif": "one", "data/a\n:?/kiln.tif": "two"}

const left = ".bag.tmp-notchbook"

func TestBag(t *testing.T) {
	dir := folder(t, map[string]string{"feb.md": "", "bag/": ""})
	b := newBag(t, filepath.Join(dir, "bag"))
	wantTree(t, filepath.Join(dir, "bag"), map[string]string{})
	must(t, b.Commit())
	wantTree(t, filepath.Join(dir, "bag"), bagFiles)
	wantOnly(t, dir, "bag", "feb.md")
	if b.Abort(true) != "" {
		t.Error("something is left after Commit")
	}
	wantOnly(t, dir, "bag", "feb.md")
}

func TestBagRefusesDestination(t *testing.T) {
	for title, c := range map[string]struct {
		files map[string]string
		kind  Kind
	}{
		"a folder of someone else": {map[string]string{"bag/a.jpg": ""}, Taken},
		"a record":                 {map[string]string{"bag/" + Marker: "notchbook record 1\n"}, Taken},
		"a bag":                    {map[string]string{"bag/" + Marker: BagMarker}, Taken},
		"a file":                   {map[string]string{"bag": "x"}, NotFolder},
		"a file in the way":        {map[string]string{left: "x"}, NotFolder},
	} {
		t.Run(title, func(t *testing.T) {
			dir := folder(t, c.files)
			before := tree(t, dir)
			_, err := NewBag(filepath.Join(dir, "bag"))
			wantKind(t, err, c.kind, "")
			wantTree(t, dir, before)
		})
	}
}

func TestBagIsForOneRun(t *testing.T) {
	dir := t.TempDir()
	dest := filepath.Join(dir, "bag")
	b := newBag(t, dest)
	_, err := NewBag(dest)
	wantKind(t, err, Busy, dest+" is being written by another run of notchbook")
	b.Abort(false)
	wantOnly(t, dir)
}

// What came to stand at the destination meanwhile is not replaced, and what was
// copied is not lost.
func TestBagRefusesLateStranger(t *testing.T) {
	dir := t.TempDir()
	dest := filepath.Join(dir, "bag")
	b := newBag(t, dest)
	fill(t, dest, map[string]string{"mine.txt": "mine"})
	wantKind(t, b.Commit(), Taken, "")
	wantTree(t, dest, map[string]string{"mine.txt": "mine"})
	if got := b.Abort(true); got != filepath.Join(dir, left) {
		t.Errorf("left in %q", got)
	}
	wantTree(t, filepath.Join(dir, left), bagFiles)
}

// What an interrupted run left can be asked for, and taken over or not; the rest
// of it goes.
func TestBagTakesOver(t *testing.T) {
	dir := folder(t, map[string]string{left + "/data/kept": "kept", left + "/data/again": "old", left + "/data/way": "in the way", left + "/gone/x": ""})
	b, err := NewBag(filepath.Join(dir, "bag"))
	must(t, err)
	for _, name := range []string{"data/none", "data", "../bag", "gone"} {
		if _, ok := b.Left(name); ok {
			t.Errorf("%s is left", name)
		}
	}
	scan, ok := b.Left("data/kept")
	if !ok || scan.Size != 4 {
		t.Fatal("data/kept is not left")
	}
	must(t, scan.Close())
	must(t, b.Keep("data/kept"))
	if _, err := b.Create("data/kept"); err == nil {
		t.Error("what was kept was written again")
	}
	must(t, errors.Join(putInBag(b, "data/again", "new"), putInBag(b, "data/way/x", "x")))
	if err := b.Commit(); err == nil { // for the fault above
		t.Error("committed with a fault")
	}
	b.Abort(false)
	b, err = NewBag(filepath.Join(dir, "bag"))
	must(t, err)
	must(t, b.Keep("data/kept"))
	must(t, errors.Join(putInBag(b, "data/again", "newer"), putInBag(b, "data/way/x", "x")))
	must(t, b.Commit())
	wantTree(t, filepath.Join(dir, "bag"), map[string]string{"data/kept": "kept", "data/again": "newer", "data/way/x": "x"})
	wantOnly(t, dir, "bag")
}

func TestAbortOfBag(t *testing.T) {
	for _, c := range []struct{ resumed, keep, stays bool }{{false, false, false}, {false, true, true}, {true, false, true}, {true, true, true}} {
		dir := t.TempDir()
		if c.resumed {
			fill(t, dir, map[string]string{left + "/data/x": ""})
		}
		b := newBag(t, filepath.Join(dir, "bag"))
		if stays := b.Abort(c.keep) != ""; stays != c.stays || slices.Contains(names(t, dir), left) != c.stays {
			t.Errorf("%+v: %v, left is %q", c, stays, names(t, dir))
		}
		wantOnly(t, dir, names(t, dir)...)
	}
}

// bagSteps are the names of the steps, as Commit takes them.
func bagSteps() (steps []string) {
	for _, s := range new(Bag).steps() {
		steps = append(steps, s.name)
	}
	return steps
}

// TestBagEndsAtEachStep ends a process of its own within Commit: there is a whole
// bag or none, and the next run finds all that was copied.
func TestBagEndsAtEachStep(t *testing.T) {
	for i, at := range bagSteps() {
		t.Run(at, func(t *testing.T) {
			dir := t.TempDir()
			dest := filepath.Join(dir, "bag")
			child := exec.Command(os.Args[0], "-test.run=^TestChildThatEndsABag$")
			child.Env = append(os.Environ(), "DISK_TEST_BAG="+dest, "DISK_TEST_STEP="+at)
			if out, err := child.CombinedOutput(); child.ProcessState.ExitCode() != endedHere {
				t.Fatalf("the child ended otherwise: %v\n%s", err, out)
			}
			if i > slices.Index(bagSteps(), "put in place") {
				wantTree(t, dest, bagFiles)
				return
			}
			if slices.Contains(names(t, dir), "bag") {
				t.Error("there is a bag")
			}
			wantTree(t, filepath.Join(dir, left), bagFiles)
			b, err := NewBag(dest)
			must(t, err)
			for name := range bagFiles {
				must(t, b.Keep(name))
			}
			must(t, b.Commit())
			wantTree(t, dest, bagFiles)
			wantOnly(t, dir, "bag")
		})
	}
}

func TestChildThatEndsABag(t *testing.T) {
	dest := os.Getenv("DISK_TEST_BAG")
	if dest == "" {
		t.Skip("run by TestBagEndsAtEachStep only")
	}
	b := newBag(t, dest)
	b.before = func(step string) error {
		if step == os.Getenv("DISK_TEST_STEP") {
			os.Exit(endedHere)
		}
		return nil
	}
	t.Fatal("not ended:", b.Commit())
}

// A tree is only what lies in it: a link does not lead out.
func TestTreeEndsAtItsFolder(t *testing.T) {
	dir := folder(t, map[string]string{"bag/a": "x", "out": "far"})
	if err := os.Symlink("../out", filepath.Join(dir, "bag/b")); err != nil {
		t.Skip("this system makes no links: ", err)
	}
	tree, err := OpenTree(filepath.Join(dir, "bag"))
	must(t, err)
	defer tree.Close()
	if _, err := tree.FS().Open("a"); err != nil {
		t.Error(err)
	}
	if _, err := tree.FS().Open("b"); err == nil {
		t.Error("a link led out")
	}
	_, err = OpenTree(filepath.Join(dir, "none"))
	wantKind(t, err, Missing, "")
}
