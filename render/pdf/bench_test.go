package pdf

import (
	"fmt"
	"io"
	"testing"

	"notchbook/compile/record"
)

// season makes n sheets in outings of ten, a finding for each third sheet, and
// indexes: what a long working life might hold.
func season(n int) *record.Season {
	s := &record.Season{Title: "Collected notebooks", LastDay: "2026-11-21"}
	side := &record.Index{Kind: "side", Title: "By holder side"}
	film := &record.Index{Kind: "film", Title: "By film", Rows: []record.IndexRow{{Key: "pan100", Slug: "film"}}}
	var o *record.Outing
	var sc *record.Scene
	for i := range n {
		if i%10 == 0 {
			o = &record.Outing{Title: fmt.Sprintf("Outing %d along the towpath", i/10), Slug: fmt.Sprint("o", i), ISO: "2026-11-07",
				Date: "2026-11-07", Place: "Towpath"}
			sc = &record.Scene{Title: fmt.Sprintf("Lock %d in hazy sun", i), Slug: fmt.Sprint("s", i), Outing: o}
			s.Outings = append(s.Outings, o)
			o.Entries = append(o.Entries, record.Entry{Prose: para(inWords("Frost gone from the beams by the third sheet; " +
				"the overflow is what I want, and the far gate only if the sun comes round before it is too high.")...)},
				record.Entry{Scene: sc})
		}
		x := sheet(s, o, sc, fmt.Sprintf("%d%c", i/2%40+1, 'A'+i%2), record.Off)
		x.Filters, x.Remarks = []string{"R25"}, []string{"gust during exposure, the reeds moved"}
		x.Reading = &record.Reading{Text: "1/60 f16", Kind: "plain", EV: record.Known(13.9), How: "EV 13.9 at EI 64"}
		x.Steps = []record.Step{{Kind: "filter", Name: "R25", Stops: 3, Detail: "×8, declared", From: "kit.md:12"}}
		x.Asked = record.Settings{Aperture: "f/16", Time: "1/8", EV: record.Known(11)}
		x.Given = record.Settings{Aperture: "f/16½", Time: "1/8", EV: record.Known(11.5)}
		x.Difference = record.Known(-0.5)
		if i%3 == 0 {
			f := &record.Finding{Code: "exposure-off", Severity: record.Warning, Title: "Exposure off", Message: "½ stop under",
				Place: at(i), Excerpt: x.Lines[0].Text, Mark: [2]int{4, 7}, Sheets: []*record.Sheet{x}}
			x.Findings, s.Findings = append(x.Findings, f), append(s.Findings, f)
		}
		side.Rows = append(side.Rows, record.IndexRow{Key: x.Label, Sheets: []*record.Sheet{x}})
	}
	film.Rows[0].Sheets = s.Sheets
	s.Indexes = []*record.Index{side, film}
	return s
}

type counter struct{ n int64 }

func (c *counter) Write(p []byte) (int, error) { c.n += int64(len(p)); return len(p), nil }

var _ io.Writer = (*counter)(nil)

// The cost of a sheet must not grow with the number of sheets: at 100 000 it
// is to be within half of what it is at 1 000.
func BenchmarkWrite(b *testing.B) {
	for _, n := range []int{1000, 10000, 100000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s := season(n)
			var out counter
			b.ResetTimer()
			for range b.N {
				out.n = 0
				if err := Write(&out, s, Options{}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/sheet")
			b.ReportMetric(float64(out.n)/float64(n), "bytes/sheet")
		})
	}
}
