package pdf

import (
	"bytes"
	"io"
	"runtime"
	"strings"
	"testing"
)

// The pages of a book are packed while it is set, all but those that wait for the
// number of a later page; else the book of a long life would not fit in memory.
func TestPagesArePackedAsTheyAreDrawn(t *testing.T) {
	b, err := newBook(season(500), Options{})
	if err != nil {
		t.Fatal(err)
	}
	b.write()
	b.sheaf.work.Wait()
	waiting := 0
	for _, l := range b.sheaf.leaves {
		if l.packed == nil {
			waiting++
		}
	}
	if all := len(b.sheaf.leaves); all < 100 || waiting > all/4 {
		t.Errorf("%d of %d pages are packed only at the end", waiting, all)
	}
	if err := b.output(io.Discard); err != nil {
		t.Fatal(err)
	}
	for i, l := range b.sheaf.leaves {
		if text := unpacked(t, l.packed); !bytes.Contains(text, []byte(" Tj ET\n")) {
			t.Errorf("page %d is empty: %.100q", i+1, text)
		}
	}
}

// Packers are used again and by several at once, which must not show in the bytes.
func TestPackersLeaveNoTrace(t *testing.T) {
	write := func() []byte {
		var out bytes.Buffer
		if err := Write(&out, season(120), Options{}); err != nil {
			t.Fatal(err)
		}
		return out.Bytes()
	}
	want := write()
	for _, n := range []int{1, 8} {
		old := runtime.GOMAXPROCS(n)
		got := write()
		runtime.GOMAXPROCS(old)
		if !bytes.Equal(got, want) {
			t.Errorf("with %d processors the book is another one", n)
		}
	}
}

// A file that is not as the library's files are is refused, never bound wrongly.
func TestStrangeFilesAreNotBound(t *testing.T) {
	const object = "1 0 obj\n<</Type /Pages\n/Kids [3 0 R ]\n>>\nendobj\n"
	whole := "%PDF-1.3\n" + object + "xref\n0 2\n0000000000 65535 f \n0000000009 00000 n \ntrailer\n<<\n>>\nstartxref\n57\n%%EOF\n"
	if at := strings.Index(whole, "xref"); at != 57 {
		t.Fatalf("the table stands at %d", at)
	}
	leaves := &sheaf{leaves: []*leaf{{packed: []byte("x")}}}
	if err := bind(io.Discard, []byte(whole), leaves); err != nil {
		t.Errorf("a plain file: %v", err)
	}
	for name, file := range map[string]string{
		"no end":     strings.TrimSuffix(whole, "%%EOF\n"),
		"no table":   strings.Replace(whole, "\n57\n", "\n9999\n", 1),
		"no trailer": strings.Replace(whole, "trailer", "Trailer", 1),
		"no object":  strings.Replace(whole, "0000000009", "0000000010", 1),
		"no pages":   strings.Replace(whole, "/Kids", "/Cats", 1),
		"two pages":  strings.Replace(whole, "[3 0 R ", "[3 0 R 5 0 R ", 1),
		"nothing":    "",
	} {
		if err := bind(io.Discard, []byte(file), leaves); err == nil {
			t.Errorf("%s: the file is bound", name)
		}
	}
	leaves.leaves[0].links = []byte("x")
	if err := bind(io.Discard, []byte(strings.Replace(whole, "/Type /Pages", "/Type /Cages", 1)), leaves); err == nil {
		t.Error("links without a page: the file is bound")
	}
	leaves.leaves[0].links, leaves.attached = nil, []*attachment{{}}
	if err := bind(io.Discard, []byte(whole), leaves); err == nil {
		t.Error("attachments without a place: the file is bound")
	}
}
