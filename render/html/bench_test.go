package html

import (
	"fmt"
	"io"
	"testing"

	"notchbook/compile/record"
)

// discard is a Folder that only counts.
type discard struct{ bytes int64 }

func (d *discard) Create(string) (io.WriteCloser, error) { return d, nil }
func (d *discard) Write(p []byte) (int, error)           { d.bytes += int64(len(p)); return len(p), nil }
func (d *discard) Close() error                          { return nil }

// large is a season of n sheets, 20 an outing, a third of them off, with a line
// of prose, three steps, a scan and an entry in each of six indexes for each.
func large(n int) *record.Season {
	s := &record.Season{Title: "A long season", Notebooks: []*record.Notebook{{Path: "log.md"}}}
	for i := 0; len(s.Sheets) < n; i++ {
		o := &record.Outing{Title: fmt.Sprintf("Outing %d", i), Slug: fmt.Sprintf("outing-%d", i), Date: "2026-11-07", Place: "Aldermoor"}
		sc := &record.Scene{Title: "Long kiln from the tramway", Slug: fmt.Sprintf("kiln-%d", i), Outing: o}
		o.Entries = []record.Entry{{Prose: heading(2, "The long kiln")}, {Scene: sc}}
		for range min(20, n-len(s.Sheets)) {
			largeSheet(s, o, sc)
		}
		s.Outings = append(s.Outings, o)
	}
	for _, kind := range []string{"side", "film", "filter", "lens", "place", "date"} {
		x := &record.Index{Kind: kind, Title: "By " + kind}
		for i := 0; i < n; i += 500 {
			x.Rows = append(x.Rows, record.IndexRow{Key: fmt.Sprint(kind, i), Slug: fmt.Sprint(kind, i), Sheets: s.Sheets[i:min(n, i+500)]})
		}
		s.Indexes = append(s.Indexes, x)
	}
	return s
}

func largeSheet(s *record.Season, o *record.Outing, sc *record.Scene) {
	i := len(s.Sheets)
	label := fmt.Sprintf("#%d", i)
	sh := &record.Sheet{
		ID: o.Date + " " + label, Slug: fmt.Sprintf("s-%d", i), Label: label, Outing: o, Scene: sc, State: record.Right,
		Film: "pan100", Lens: "210", Camera: "field", EI: record.Known(64), Filters: []string{"R25"}, Extension: "ext 260 mm", Development: "N-1",
		Reading:    &record.Reading{Text: "EV 11", Kind: "spot", EV: record.Known(11), How: "EV 11 at EI 64"},
		Steps:      []record.Step{{Kind: "filter", Name: "R25", Stops: 3, Detail: "×8, declared", From: "kit.md:12"}, {Kind: "bellows", Name: "extension 260 mm on 210 mm", Stops: 0.6}},
		Asked:      record.Settings{Time: "2 s", Aperture: "f/22", EV: record.Known(7.5)},
		Given:      record.Settings{Time: "2 s", Aperture: "f/22", EV: record.Known(7.5)},
		Difference: record.Known(0), Tolerance: "±⅓ stop", Remarks: []string{"gust during exposure"},
		Lines: []record.Line{{Word: "sheet", Text: label + ": R25, 2s f22, ext 260mm, N-1 -- gust during exposure", Place: record.Place{Path: "log.md", Line: i}}},
	}
	scan := &record.Scan{Path: fmt.Sprintf("scans/%d.tif", i), State: record.Present, Format: "TIFF", Width: 9600, Height: 12000, Depth: 16, Bytes: 230_000_000, Sheets: []*record.Sheet{sh}}
	sh.Scans = []*record.Scan{scan}
	if i%3 == 0 {
		sh.State, sh.Difference = record.Off, record.Known(-2)
		f := &record.Finding{Code: "exposure-off", Severity: record.Error, Title: "Off by a stop or more", Message: label + " got 2 stops less than it asked for", Excerpt: sh.Lines[0].Text, Sheets: []*record.Sheet{sh}, Anchor: fmt.Sprintf("f-%d", i)}
		sh.Findings = []*record.Finding{f}
		s.Findings = append(s.Findings, f)
	}
	o.Entries = append(o.Entries, record.Entry{Sheet: sh}, record.Entry{Prose: para("Frost gone from the roof by the third sheet; the chimney is what I want.")})
	o.Sheets, sc.Sheets = append(o.Sheets, sh), append(sc.Sheets, sh)
	s.Sheets, s.Scans = append(s.Sheets, sh), append(s.Scans, scan)
}

// BenchmarkWrite shows that a sheet costs the same in a season of any length.
func BenchmarkWrite(b *testing.B) {
	for _, n := range []int{1_000, 10_000, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s := large(n)
			var d discard
			b.ReportAllocs()
			for b.Loop() {
				d = discard{}
				if err := Write(&d, s, Options{Generator: "notchbook 0.1", Parallel: 2}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/sheet")
			b.ReportMetric(float64(d.bytes)/float64(n), "bytes/sheet")
		})
	}
}
