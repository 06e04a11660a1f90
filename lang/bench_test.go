package lang

import (
	"fmt"
	"strings"
	"testing"

	"github.com/yuin/goldmark"

	"notchbook/lang/source"
)

// sheets is a notebook of n sheet lines as people type them, no two alike, and
// few of their settings either.
func sheets(n int, prefix string) []byte {
	var b strings.Builder
	filters := []string{"Y8", "O21", "R25", "no filter", "pol 1½ stops", "G11 + pol", "ND 0.9"}
	times := []string{"1/125", "1/60", "1/30", "1/15", "1/8", "¼", "½", "1s", "2s", "4s", "8s", "15s", "B 45s"}
	marks := []string{"f8", "f11", "f11½", "f16", "f16⅓", "f22", "f/32", "f45"}
	for i := range n {
		fmt.Fprintf(&b, "%s%d%c: %s, %s %s, N%+d, ext %d.%dmm\n", prefix, 1+i/2%4000, 'A'+i%2,
			filters[i%len(filters)], times[i/3%len(times)], marks[i/5%len(marks)], i/11%4-2, 150+i%250, i/250)
	}
	return []byte(b.String())
}

func BenchmarkParse(b *testing.B) {
	for _, n := range []int{1_000, 10_000, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			text := sheets(n, "")
			b.ReportAllocs()
			for b.Loop() {
				Parse(source.New("bench.md", text), NewLexicon())
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/sheet")
		})
	}
}

// BenchmarkMarkdown is goldmark alone, reading and rendering the same text as
// list items: what the notation is measured against.
func BenchmarkMarkdown(b *testing.B) {
	for _, n := range []int{1_000, 10_000, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			text := sheets(n, "- ")
			md := goldmark.New()
			for b.Loop() {
				var out strings.Builder
				if err := md.Convert(text, &out); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/sheet")
		})
	}
}
