package bag

import (
	"io/fs"
	"strings"
	"testing"
)

// guarded fails the test where a name is opened that could leave the bag.
type guarded struct {
	fs.FS
	t *testing.T
}

func (g guarded) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		g.t.Errorf("%q was opened", name)
	}
	return g.FS.Open(name)
}

// FuzzVerify hands the check any text for the files that it reads. It never
// leaves the bag, and what it calls valid does not survive a flipped byte, nor a
// file more or less.
func FuzzVerify(f *testing.F) {
	whole := whole()
	seed := func(change func(files)) {
		s := files{}
		for name, text := range whole {
			s[name] = text
		}
		change(s)
		f.Add(s["bagit.txt"], s["bag-info.txt"], s["manifest-sha256.txt"], s["tagmanifest-sha256.txt"], s["fetch.txt"])
	}
	for _, r := range rules {
		seed(r.change)
	}
	f.Fuzz(func(t *testing.T, declaration, info, manifest, tags, fetch string) {
		bag := files{"bagit.txt": declaration, "bag-info.txt": info, "manifest-sha256.txt": manifest}
		for name, text := range map[string]string{"tagmanifest-sha256.txt": tags, "fetch.txt": fetch} {
			if text != "" {
				bag[name] = text
			}
		}
		for name, text := range whole {
			if strings.HasPrefix(name, payload) {
				bag[name] = text
			}
		}
		if !isValid(t, bag) {
			return
		}
		for name, change := range map[string]string{"data/kiln.txt": "A kiln\n", "data/more.txt": "x"} {
			old, there := bag[name]
			bag[name] = change
			if isValid(t, bag) {
				t.Errorf("it is still valid with another %s", name)
			}
			bag[name] = old
			if !there {
				delete(bag, name)
			}
		}
		delete(bag, "data/kiln.txt")
		if isValid(t, bag) {
			t.Error("it is still valid without data/kiln.txt")
		}
	})
}

func isValid(t *testing.T, bag files) bool {
	report, err := Verify(guarded{bag.fs(), t}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range report.Problems {
		if p.Message == "" || p.Section == "" || strings.ContainsAny(p.String(), "\n\r") {
			t.Errorf("said as %q", p.String())
		}
	}
	return report.Valid()
}
