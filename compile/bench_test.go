package compile_test

import (
	"fmt"
	"io"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"strings"
	"testing"
	"time"

	"github.com/yuin/goldmark"

	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/source"
	"notchbook/render/html"
	"notchbook/render/pdf"
)

// A sheet must cost the same in a season of any length, and the whole check a
// bounded multiple of what goldmark alone needs to read and write the same text
// as Markdown. testdata/bench/run prints the figures beside these bounds.

// lengths of the seasons, in sheets: a diligent year, a decade, more than a
// working life.
var lengths = []int{1_000, 10_000, 100_000}

const benchKit = `# Kit

camera field: 4x5, ext 65-400 mm
lens 150: 150 mm, f5.6-f64
lens 210: 210 mm, f5.6-f64
film sedge: ISO 100, pan, reciprocity t^1.31 over 1s
filter Y8: Wratten 8, x2
filter O21: Wratten 21, x4
filter R25: Wratten 25, x8
`

// Marks and speeds a stop apart. EV 12 is f/16 at 1/15 on both scales.
var (
	benchMarks  = []string{"f8", "f11", "f16", "f22", "f32"}
	benchTimes  = []string{"1/60", "1/30", "1/15", "1/8", "1/4", "½", "1s", "2s"}
	benchFilter = []string{"", "Y8, ", "O21, ", "R25, "}
)

// benchNotes is a notebook of n sheets in outings of 20, no two lines the same,
// with a paragraph to every scene. One sheet in nine was given the time of no
// filter; of these three in four have one, and are off.
func benchNotes(n int) string {
	var b strings.Builder
	b.WriteString("use: kit.md\n")
	day := time.Date(1990, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range n {
		if i%20 == 0 {
			fmt.Fprintf(&b, "\n## Walk %d\n\nday: %s, Aldermoor, field %d\nload 1A-10B: sedge\n", i/20, day.Format(time.DateOnly), i%37)
			day = day.AddDate(0, 0, 1)
		}
		if i%5 == 0 {
			fmt.Fprintf(&b, "\nscene: Hedge %d from the lane\nlens: %s\nmeter: EV 12\n\nMist until *the church struck* %d; after that [nothing](kit.md) but wind in the hedge.\n\n",
				i, []string{"150", "210"}[i%2], i%12)
		}
		mark, filter := i/3%len(benchMarks), i/7%len(benchFilter)
		slow := mark + filter
		if i%9 == 0 {
			slow = mark
		}
		fmt.Fprintf(&b, "%d%c: %s%s %s, N, rise %d -- frame %d of the walk\n",
			i%20/2+1, 'A'+i%2, benchFilter[filter], benchMarks[mark], benchTimes[slow], i%29, i)
	}
	return b.String()
}

func benchWorld(notes string) compile.World {
	return compile.World{Title: "Bench", Read: func(name string) ([]byte, error) {
		if name == "kit.md" {
			return []byte(benchKit), nil
		}
		return []byte(notes), nil
	}}
}

func benchCompile(b *testing.B, notes string, n int) *record.Season {
	b.Helper()
	season, _ := compile.Compile(benchWorld(notes), "notes.md")
	if t := season.Tally; t.Sheets != n || t.Right < n*8/10 || t.Off < n/20 || t.UnreadLines > 0 || t.Unchecked > 0 {
		b.Fatalf("the season is not what it is meant to be: %+v", t)
	}
	return season
}

// each runs a benchmark for seasons of every length and reports the cost of a
// sheet. prepare is not measured; what it returns is.
func each(b *testing.B, prepare func(b *testing.B, notes string, n int) func() error) {
	for _, n := range lengths {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			defer debug.SetGCPercent(debug.SetGCPercent(200)) // as the commands have it
			work := prepare(b, benchNotes(n), n)
			runtime.GC()
			b.ReportAllocs()
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			stop := watchHeap()
			for b.Loop() {
				if err := work(); err != nil {
					b.Fatal(err)
				}
			}
			peak := stop()
			runtime.ReadMemStats(&after)
			sheets := float64(b.N) * float64(n)
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/sheets, "ns/sheet")
			b.ReportMetric(float64(after.TotalAlloc-before.TotalAlloc)/sheets, "B/sheet")
			b.ReportMetric(float64(peak)/(1<<20), "peak-MiB")
		})
	}
}

// watchHeap samples what lies on the heap, garbage not yet collected included,
// until it is stopped.
func watchHeap() (stop func() (peak uint64)) {
	quit, done := make(chan struct{}), make(chan uint64)
	go func() {
		sample := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
		var peak uint64
		for tick := time.NewTicker(5 * time.Millisecond); ; {
			metrics.Read(sample)
			peak = max(peak, sample[0].Value.Uint64())
			select {
			case <-tick.C:
			case <-quit:
				tick.Stop()
				done <- peak
				return
			}
		}
	}()
	return func() uint64 { close(quit); return <-done }
}

func BenchmarkParse(b *testing.B) {
	each(b, func(b *testing.B, notes string, _ int) func() error {
		return func() error {
			names := lang.NewLexicon()
			lang.Parse(source.New("kit.md", []byte(benchKit)), names)
			lang.Parse(source.New("notes.md", []byte(notes)), names)
			return nil
		}
	})
}

// BenchmarkCheck is the work of the command check.
func BenchmarkCheck(b *testing.B) {
	each(b, func(b *testing.B, notes string, n int) func() error {
		return func() error {
			if c := compile.Check(benchWorld(notes), "notes.md").Counts(); c.Sheets != n || c.Right < n*8/10 {
				b.Fatalf("the season is not what it is meant to be: %+v", c)
			}
			return nil
		}
	})
}

// BenchmarkAgain is the work of the editor's server behind each key: a check of
// notes of which one line changed.
func BenchmarkAgain(b *testing.B) {
	each(b, func(b *testing.B, notes string, n int) func() error {
		var c *compile.Checked
		edition := 0
		return func() error {
			edition++
			c = c.Again(benchWorld(strings.Replace(notes, "frame 500", fmt.Sprint("frame ", edition), 1)), "notes.md")
			return nil
		}
	})
}

// BenchmarkCompile is a check and the record.
func BenchmarkCompile(b *testing.B) {
	each(b, func(b *testing.B, notes string, n int) func() error {
		return func() error {
			benchCompile(b, notes, n)
			return nil
		}
	})
}

// BenchmarkGoldmark is goldmark alone, as it comes, with the same text as a
// plain document: the measure for the others.
func BenchmarkGoldmark(b *testing.B) {
	each(b, func(_ *testing.B, notes string, _ int) func() error {
		return func() error { return goldmark.Convert([]byte(notes), io.Discard) }
	})
}

// nowhere is a folder that keeps nothing.
type nowhere struct{}

func (nowhere) Create(string) (io.WriteCloser, error) { return nowhere{}, nil }
func (nowhere) Write(p []byte) (int, error)           { return len(p), nil }
func (nowhere) Close() error                          { return nil }

func BenchmarkPages(b *testing.B) {
	each(b, func(b *testing.B, notes string, n int) func() error {
		season := benchCompile(b, notes, n)
		return func() error { return html.Write(nowhere{}, season, html.Options{Parallel: 2}) }
	})
}

func BenchmarkBook(b *testing.B) {
	each(b, func(b *testing.B, notes string, n int) func() error {
		season := benchCompile(b, notes, n)
		return func() error { return pdf.Write(nowhere{}, season, pdf.Options{}) }
	})
}
