package html

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"
	"testing"

	"notchbook/compile/record"
)

func mustWrite(t testing.TB, s *record.Season, o Options) *memory {
	t.Helper()
	m := newMemory()
	if err := Write(m, s, o); err != nil {
		t.Fatal(err)
	}
	return m
}

// pagesOf are the names of the pages.
func (m *memory) pagesOf() []string {
	var out []string
	for _, n := range m.names {
		if strings.HasSuffix(n, ".html") {
			out = append(out, n)
		}
	}
	return out
}

func TestSameBytes(t *testing.T) {
	first := mustWrite(t, season(), options())
	for _, parallel := range []int{0, 1, 3, 16} {
		o := options()
		o.Parallel = parallel
		again := mustWrite(t, season(), o)
		if !slices.Equal(first.names, again.names) {
			t.Fatalf("%d at once: other files, or in another order:\n%v\n%v", parallel, first.names, again.names)
		}
		for _, name := range first.names {
			if !bytes.Equal(first.files[name], again.files[name]) {
				t.Errorf("%d at once: %s has other bytes", parallel, name)
			}
		}
	}
}

// broken is a Folder whose n-th file fails at one of its three steps.
type broken struct {
	left int
	step string
}

var errDisk = errors.New("no space left on device")

func (b *broken) Create(string) (io.WriteCloser, error) {
	b.left--
	if b.left == 0 && b.step == "create" {
		return nil, errDisk
	}
	return b, nil
}

func (b *broken) Write(p []byte) (int, error) {
	if b.left == 0 && b.step == "write" {
		return 0, errDisk
	}
	return len(p), nil
}

func (b *broken) Close() error {
	if b.left == 0 && b.step == "close" {
		return errDisk
	}
	return nil
}

func TestEveryFailureIsReported(t *testing.T) {
	names := mustWrite(t, season(), Options{Picture: dot}).names
	for _, step := range []string{"create", "write", "close"} {
		for i, name := range names {
			err := Write(&broken{i + 1, step}, season(), Options{Picture: dot})
			if !errors.Is(err, errDisk) || !strings.Contains(err.Error(), name) {
				t.Errorf("%s of %s failed, and Write said %v", step, name, err)
			}
		}
	}
}

func TestPictureFails(t *testing.T) {
	o := options()
	o.Picture = func(path string, _ int) ([]byte, error) { return nil, fmt.Errorf("%s: %w", path, errDisk) }
	if err := Write(newMemory(), season(), o); !errors.Is(err, errDisk) {
		t.Errorf("got %v", err)
	}
	o.Picture = func(string, int) ([]byte, error) { return []byte("GIF89a"), nil }
	if err := Write(newMemory(), season(), o); err == nil || !strings.Contains(err.Error(), "scans/2026-11-07-1a.tif") {
		t.Errorf("bytes that are no JPEG: got %v", err)
	}
}

func TestWithoutPictures(t *testing.T) {
	m := mustWrite(t, season(), Options{})
	for _, name := range m.names {
		if strings.HasPrefix(name, "thumbs/") || bytes.Contains(m.files[name], []byte("<img")) {
			t.Errorf("%s has a picture that no one gave", name)
		}
	}
}

// TestEmpty: a season with nothing in it is the first one everybody makes.
func TestEmpty(t *testing.T) {
	for _, s := range []*record.Season{{}, {Title: "x", Outings: []*record.Outing{{}}, Findings: []*record.Finding{{}}, Scans: []*record.Scan{{}}, Kit: []*record.Item{{}}}} {
		m := mustWrite(t, s, Options{})
		if !slices.Contains(m.names, "index.html") || !slices.Contains(m.names, "findings.html") {
			t.Errorf("got %v", m.names)
		}
	}
}

// fields walks everything that a season reaches, once, and names each string by
// its type and field: "Sheet.Label", "Sheet.Needs[]".
func fields(v reflect.Value, name string, seen map[any]bool, visit func(name string, s reflect.Value)) {
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() || seen[v.Interface()] {
			return
		}
		seen[v.Interface()] = true
		fields(v.Elem(), v.Type().Elem().Name(), seen, visit)
	case reflect.Slice:
		for i := range v.Len() {
			fields(v.Index(i), name+"[]", seen, visit)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			fields(v.Field(i), v.Type().Name()+"."+v.Type().Field(i).Name, seen, visit)
		}
	case reflect.String:
		if v.Type() == reflect.TypeFor[string]() { // states and kinds are not the writer's
			visit(name, v)
		}
	}
}

func eachField(s *record.Season, visit func(name string, v reflect.Value)) {
	fields(reflect.ValueOf(s), "", map[any]bool{}, visit)
}

// unshown are the fields that no page shows, and why.
var unshown = map[string]string{
	"Line.Word":        "stands in Line.Text",
	"Outing.Date":      "stands in the day's line; the day is shown by Outing.ISO",
	"Finding.Causes[]": "a cause is said in words among the finding's notes",
	"Place.Path":       "a log line stands where it was written; of findings, changes and unread lines the place is shown",
}

// TestEveryFieldIsShown gives every text of the record a word of its own and
// looks for it in the pages: what the compiler found out must reach the reader.
func TestEveryFieldIsShown(t *testing.T) {
	s := season()
	tokens := map[string][]string{}
	n := 0
	eachField(s, func(name string, v reflect.Value) {
		if v.String() == "" || name == "Block.Task" || name == "Block.Align" {
			return
		}
		n++
		token := fmt.Sprintf("Tok%05d", n) // large, as what begins a line is written
		tokens[name] = append(tokens[name], token)
		if name == "Target.URL" {
			token = "https://example.org/" + token
		}
		v.SetString(token)
	})
	m := mustWrite(t, s, options())
	var all strings.Builder
	for _, name := range m.pagesOf() {
		all.WriteString(name)
		all.WriteString(flat(parse(t, m.files[name])))
	}
	all.Write(m.files["find-index.js"])
	text := all.String()
	for name, of := range tokens {
		for _, token := range of {
			if _, ok := unshown[name]; !ok && !strings.Contains(text, token) {
				t.Errorf("%s: %s is on no page", name, token)
			}
		}
	}
	if len(tokens) < 60 {
		t.Errorf("the fixture fills only %d fields", len(tokens))
	}
}

// TestFigures: what is computed is shown as it is said. The words of amounts are
// exposure's and tested there.
func TestFigures(t *testing.T) {
	m := mustWrite(t, season(), options())
	for name, want := range map[string][]string{
		"outing-2026-11-07-brickworks.html": {
			"pan100 at EI 64", "R25 + pol", "front rise 12 mm, rear tilt 3°", "N-1 asked", "N, 9m, 20C, tray, 2026-11-09", "not yet",
			"EV 10⅔", "3 stops more", "0.6 stop more", "½ stop less", "3.1\u00a0s on film", "f22.5 read as half a stop past f/22",
			"2.1 stops under", "2 stops under", "⅔ stop over", "no image", "leaves ¼ stop under", "exact", "III⅔",
			"9600\u00a0×\u00a012000 pixels, 16 bits, 230\u00a0MB", "cannot be read: the file ends in the middle", "Light: hazy sun from the left",
			"Not understood", "struck, aldermoor/brick works.md, line 15", "As typed, 2 lines",
		},
		"outing-14-jan-saltings.html": {"the aperture of #31", "unchecked", "unexposed", "4½ stops over", "Holder side", "N-1, 20 jan"},
		"index.html":                  {"3 errors, 2 warnings, 1 note.", "Of 142 lines, 71 are log, 44 prose, and 2 not understood."},
		"findings.html":               {"aldermoor/brick works.md:15:5", "exposure-off"},
		"unchecked.html":              {"the aperture of #31", "shet 3A", "line 41"},
		"develop.html":                {"pan100, N-1", "6\u00a0min 15\u00a0s at 20\u00a0°C", "off by 2 stops under", "asked for N-1"},
		"holders.html":                {"exposed, pan100", "not known"},
		"negatives.html":              {"26-043", "binder 2, page 14", "left out between 26-041 and 26-043"},
		"losses.html":                 {"Light leak"},
		"scene-long-kiln.html":        {"filter R25 + pol, not none", "What differs"},
		"contact.html":                {"no scan", "4½ stops over"},
		"colophon.html":               {"118 lines, 4096 bytes"},
	} {
		text := flat(parse(t, m.files[name]))
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("%s does not say %q", name, w)
			}
		}
	}
}
