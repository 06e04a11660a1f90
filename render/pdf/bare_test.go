package pdf

import (
	"bytes"
	"compress/zlib"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/go-pdf/fpdf"
)

// What the book costs is held against a program that does nothing but hand the
// library as much: as many pages, pieces of type as long, changes of face, strokes
// and links, with the same fonts. Each runs in a process of its own, so that the
// memory of one is not that of the other.

// load is what a book hands to the library.
type load struct {
	Pages, Pieces, Characters, Faces, Strokes, Links int
}

// loadOf counts in the file as it is without compression.
func loadOf(tb testing.TB, n int) (l load) {
	b, err := newBook(season(n), Options{})
	if err != nil {
		tb.Fatal(err)
	}
	b.write()
	var file bytes.Buffer
	if err := b.output(&file); err != nil {
		tb.Fatal(err)
	}
	l.Pages = len(b.sheaf.leaves)
	l.Links = bytes.Count(file.Bytes(), []byte("/Subtype /Link"))
	var drawn []byte
	for _, leaf := range b.sheaf.leaves {
		drawn = append(drawn, unpacked(tb, leaf.packed)...)
	}
	for line := range bytes.Lines(drawn) {
		switch {
		case bytes.HasSuffix(line, []byte(" Tf\n")):
			l.Faces++
		case bytes.HasSuffix(line, []byte("Tj ET\n")):
			l.Pieces++
			l.Characters += (len(line) - len("BT 100.00 700.00 Td () Tj ET\n")) / 2
		case bytes.HasSuffix(line, []byte(" S\n")) || bytes.HasSuffix(line, []byte("l S\n")) || bytes.HasSuffix(line, []byte(" f\n")):
			l.Strokes++
		}
	}
	return l
}

// unpacked is a packed stream as it was, by the standard library.
func unpacked(tb testing.TB, packed []byte) []byte {
	r, err := zlib.NewReader(bytes.NewReader(packed))
	if err != nil {
		tb.Fatal(err)
	}
	drawn, err := io.ReadAll(r)
	if err != nil {
		tb.Fatal(err)
	}
	return drawn
}

// writeBare hands a load to the library, page by page.
func writeBare(w io.Writer, l load) error {
	faces, err := loadFaces()
	if err != nil {
		return err
	}
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: papers[A4].w, Ht: papers[A4].h}})
	faces.register(doc)
	doc.SetAutoPageBreak(false, 0)
	text := strings.Repeat("1/30 f16 gust 2A reeds ", 20)[:l.Characters/l.Pieces]
	links := make([]int, max(l.Links/4, 1)) // a place is linked to from some others
	for i := range links {
		links[i] = doc.AddLink()
		doc.SetLink(links[i], 100, 1+i*l.Pages/len(links))
	}
	share := func(all, page int) int { return all*(page+1)/l.Pages - all*page/l.Pages }
	link := 0
	for page := range l.Pages {
		doc.AddPage()
		for i := range share(l.Faces, page) {
			doc.SetFont(faces.all[[]faceID{regular, bold, italic, mono}[i%4]].family, "", 7+float64(i%3))
		}
		for i := range share(l.Pieces, page) {
			doc.Text(60+float64(i%5)*80, 80+float64(i%58)*grid, text)
		}
		for i := range share(l.Strokes, page) {
			doc.Line(60, 80+float64(i%600), 500, 80+float64(i%600))
		}
		for i := range share(l.Links, page) {
			doc.Link(60, 80+float64(i%600), 100, 10, links[link%len(links)])
			link++
		}
	}
	return doc.Output(w)
}

// TestBareChild is no test: it is the process that BenchmarkBesideBare measures.
func TestBareChild(t *testing.T) {
	what := os.Getenv("NOTCHBOOK_PDF_BESIDE")
	if what == "" {
		t.Skip("runs only for BenchmarkBesideBare")
	}
	var out counter
	start := time.Now()
	if n, err := strconv.Atoi(what); err == nil {
		s := season(n)
		start = time.Now()
		if err := Write(&out, s, Options{}); err != nil {
			t.Fatal(err)
		}
	} else {
		var l load
		if err := json.Unmarshal([]byte(what), &l); err != nil {
			t.Fatal(err)
		}
		if err := writeBare(&out, l); err != nil {
			t.Fatal(err)
		}
	}
	took := time.Since(start)
	// What the kernel tells the parent would be the parent's own peak, if that is
	// higher (getrusage(2)); this is the child's alone (proc(5)).
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		t.Fatal(err)
	}
	_, peak, _ := strings.Cut(string(status), "VmHWM:")
	if _, err := fmt.Println("took", took.Nanoseconds(), strings.Fields(peak + " 0")[0], "kB"); err != nil {
		t.Fatal(err)
	}
}

// child measures one process: nanoseconds, and the most memory that it had.
func child(b *testing.B, what string) (ns, bytes float64) {
	cmd := exec.Command(os.Args[0], "-test.run=^TestBareChild$", "-test.v")
	cmd.Env = append(os.Environ(), "NOTCHBOOK_PDF_BESIDE="+what)
	out, err := cmd.Output()
	if err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	_, rest, _ := strings.Cut(string(out), "took ")
	if _, err := fmt.Sscan(rest, &ns, &bytes); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	return ns, bytes * 1024
}

// BenchmarkBesideBare gives the ratios; goals at 10 000 sheets are 1.6 times the
// time and 1.5 times the memory, best of three each since others disturb.
func BenchmarkBesideBare(b *testing.B) {
	if runtime.GOOS != "linux" {
		b.Skip("the memory of a process is asked of Linux")
	}
	for _, n := range []int{1000, 10000} {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			l := loadOf(b, n)
			text, err := json.Marshal(l)
			if err != nil {
				b.Fatal(err)
			}
			var ours, theirs [2]float64
			for i := range 3 {
				for _, run := range []struct {
					what string
					best *[2]float64
				}{{strconv.Itoa(n), &ours}, {string(text), &theirs}} {
					ns, bytes := child(b, run.what)
					if i == 0 || ns < run.best[0] {
						run.best[0] = ns
					}
					if i == 0 || bytes < run.best[1] {
						run.best[1] = bytes
					}
				}
			}
			b.Logf("%d sheets: %+v", n, l)
			b.ReportMetric(ours[0]/theirs[0], "times-its-time")
			b.ReportMetric(ours[1]/theirs[1], "times-its-memory")
			b.ReportMetric(ours[0]/float64(n), "ns/sheet")
			b.ReportMetric(ours[1]/1e6, "peak-MB")
		})
	}
}
