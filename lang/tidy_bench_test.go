package lang

import (
	"fmt"
	"strings"
	"testing"

	"notchbook/lang/source"
)

// BenchmarkTidy is the cost of tidying, by the size of the notebook.
func BenchmarkTidy(b *testing.B) {
	for _, n := range []int{1000, 10000, 100000} {
		var text strings.Builder
		for i := range n {
			fmt.Fprintf(&text, "%dA: Y8 ,1/%ds   F/16.5 -- number %d\n", i%999, 15+i%7, i)
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for range b.N {
				book, _ := Parse(source.New("notes.md", []byte(text.String())), NewLexicon())
				Tidy(book, NewLexicon(), nil)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/sheet")
		})
	}
}
