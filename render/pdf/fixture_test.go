package pdf

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"strings"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

const (
	longWord = "Kraftwerksmaschinenhallenfensterrahmenverglasungskittreste60"
	family   = "👨\u200d👩\u200d👧"
)

// longRemark is 3 000 characters, no two stretches of it alike.
var longRemark = func() string {
	var s strings.Builder
	for i := 0; s.Len() < 3000; i++ {
		fmt.Fprintf(&s, "gust%d held the bellows, ", i)
	}
	return s.String()[:3000]
}()

func inWords(text string) []record.Inline { return []record.Inline{{Kind: record.Words, Text: text}} }

func para(in ...record.Inline) *record.Block { return &record.Block{Kind: record.Paragraph, Text: in} }

func cellBlock(text string) record.Block { return record.Block{Kind: record.Cell, Text: inWords(text)} }

func at(line int) record.Place {
	return record.Place{Path: "2026/november.md", Line: line, Column: 1, EndLine: line, EndColumn: 20}
}

// fixture is a season with a sheet in every state and the odd things people
// write.
func fixture() *record.Season {
	s := &record.Season{
		Title:   "Brickworks & Überlandwerk – τούβλα, кирпич, cegła 📷",
		LastDay: "2026-11-21",
		Notebooks: []*record.Notebook{
			{Path: "kit.md", SHA256: strings.Repeat("0a", 32), Bytes: 812, Lines: 14},
			{Path: "2026/november.md", SHA256: strings.Repeat("f3", 32), Bytes: 9120, Lines: 163},
		},
		Cautions: []string{"Figures for filters are declared or published, not measured on your film."},
	}
	fixtureKit(s)
	first := &record.Outing{Title: "Aldermoor brickworks, first frost", Slug: "o1", Date: "Sat 7.11.26",
		ISO: "2026-11-07", Place: "Aldermoor brickworks", Path: "2026/november.md"}
	second := &record.Outing{Title: "Überlandwerk (north hall)", Slug: "o2", Date: "2026-11-21", ISO: "2026-11-21",
		Place: "Überlandwerk", Path: "2026/november.md"}
	s.Outings = []*record.Outing{first, second}
	fixtureProse(first)
	fixtureSheets(s, first)
	fixtureSecond(s, second)
	fixtureFindings(s)
	fixtureIndexes(s)
	fixtureTally(s)
	return s
}

func fixtureKit(s *record.Season) {
	s.Kit = []*record.Item{
		{Kind: "camera", Name: "4x5", Slug: "c", Facts: []record.Fact{{Name: "extension", Value: "75–380 mm"}},
			Place: record.Place{Path: "kit.md", Line: 3}, Source: "camera 4x5: back 5x7, ext 75-380 mm"},
		{Kind: "lens", Name: "300", Slug: "l", Facts: []record.Fact{{Name: "focal length", Value: "300 mm"},
			{Name: "widest", Value: "f/9"}}, Place: record.Place{Path: "kit.md", Line: 5}, Source: "lens 300: 300 mm, f9"},
		{Kind: "film", Name: "pan100", Slug: "f", Facts: []record.Fact{{Name: "speed", Value: "ISO 100, EI 64"},
			{Name: "reciprocity", Value: "t^1.31 over 1 s"}}, Source: "film pan100: ISO 100, EI 64, pan"},
		{Kind: "filter", Name: "R25", Slug: "r", Facts: []record.Fact{{Name: "factor", Value: "×8 (3 stops)"}},
			Source: "filter R25: Wratten 25, x8"},
	}
}

// fixtureProse has every block and inline of the model.
func fixtureProse(o *record.Outing) {
	in := func(k record.InlineKind, text string) record.Inline {
		return record.Inline{Kind: k, Inlines: inWords(text)}
	}
	link := record.Inline{Kind: record.Link, Inlines: inWords("tramway map"),
		Target: record.Target{URL: "https://maps.example/tram?q=Überland (1)"}}
	file := record.Inline{Kind: record.Link, Inlines: inWords("sketch"), Target: record.Target{Path: "notes/kiln sketch.pdf"}}
	list := &record.Block{Kind: record.List, Ordered: true, Start: 3, Tight: true, Blocks: []record.Block{
		{Kind: record.ListItem, Text: inWords("third holder is light-tight again")},
		{Kind: record.ListItem, Blocks: []record.Block{*para(inWords("cable release")...),
			{Kind: record.List, Tight: true, Blocks: []record.Block{
				{Kind: record.ListItem, Task: "x", Text: inWords("packed")},
				{Kind: record.ListItem, Task: " ", Text: inWords("spare")}}}}},
	}}
	table := &record.Block{Kind: record.Table, Blocks: []record.Block{
		{Kind: record.Row, Head: true, Blocks: []record.Block{cellBlock("hour"), cellBlock("incident"), cellBlock("what the light did")}},
		{Kind: record.Row, Blocks: []record.Block{cellBlock("08:10"), cellBlock("EV 9⅓"), cellBlock("fog, no direction at all; the far " +
			"bank went in and out while the dark slide was out, so the second half of this is a guess")}},
		{Kind: record.Row, Blocks: []record.Block{cellBlock("10:40"), cellBlock("EV 12"), cellBlock("sun from the left")}},
	}}
	blocks := []*record.Block{
		{Kind: record.Heading, Level: 2, Text: inWords("The long kiln")},
		para(inWords("Frost gone from the roof by the ")[0], in(record.Emphasis, "third"), inWords(" sheet; the ")[0],
			in(record.Strong, "chimney"), inWords(" is what I want, ")[0], in(record.Struck, "not the shed"),
			inWords(". See ")[0], link, inWords(" and ")[0], file, inWords("; set ")[0],
			record.Inline{Kind: record.CodeSpan, Text: "f/16½"}, record.Inline{Kind: record.SoftBreak},
			inWords("Grüße, ναι, мороз, zażółć gęślą jaźń, ½ ⅓ ⅔ ¼ ⅛, 漢, 📷 and " + family + ". " + longWord)[0],
			record.Inline{Kind: record.HardBreak}, inWords("After the break.")[0]),
		list, table,
		{Kind: record.Quote, Blocks: []record.Block{*para(inWords("Place the shadow, then see where the rest falls, and " +
			"only then reach for a filter: the filter is the last decision and not the first.")...),
			{Kind: record.Quote, Blocks: []record.Block{*para(inWords("a quote within")...)}}}},
		{Kind: record.Code, Code: "lens 300: 300 mm\n  \tindented with a tab\n" + strings.Repeat("x", 140) + "\n"},
		{Kind: record.Rule},
		para(record.Inline{Kind: record.Picture, Text: "the kiln door", Target: record.Target{Path: "phone/door.jpg"}}),
	}
	for _, b := range blocks {
		o.Entries = append(o.Entries, record.Entry{Prose: b})
	}
}

func sheet(s *record.Season, o *record.Outing, sc *record.Scene, label string, state record.State) *record.Sheet {
	x := &record.Sheet{ID: o.ISO + " " + label, Slug: o.Slug + "-" + label, Label: label, Side: label, Outing: o,
		Scene: sc, State: state, Film: "pan100", Lens: "300", Camera: "4x5", Format: "4x5", EI: record.Known(64),
		Tolerance: "±⅓ stop"}
	n := len(s.Sheets)
	x.Lines = []record.Line{{Word: "sheet", Text: label + ": R25, 1/8 f16½   -- gust during exposure", Place: at(20 + n)}}
	s.Sheets = append(s.Sheets, x)
	o.Sheets = append(o.Sheets, x)
	if sc != nil {
		sc.Sheets = append(sc.Sheets, x)
	}
	o.Entries = append(o.Entries, record.Entry{Sheet: x})
	return x
}

func fixtureSheets(s *record.Season, o *record.Outing) {
	sc := &record.Scene{Title: "Long kiln from the tramway", Slug: "s1", Light: "hazy sun from the left", Outing: o}
	o.Scenes = append(o.Scenes, sc)
	o.Entries = append(o.Entries, record.Entry{Scene: sc},
		record.Entry{Line: &record.Line{Word: "meter", Text: "meter: 1/60 f16", Place: at(18)}})
	a := sheet(s, o, sc, "1A", record.Right)
	a.Asked = record.Settings{Aperture: "f/16", Time: "1/60", EV: record.Known(13.9)}
	a.Given, a.Difference = a.Asked, record.Known(0)
	a.Developed = []record.Development{{Text: "N, 9m, 20C", Date: "2026-11-09"}}
	b := sheet(s, o, sc, "2A", record.Off)
	offSheet(s, b)
	c := sheet(s, o, sc, "2B", record.Unchecked)
	c.Needs = []string{"the factor of the filter G11 on this film: write “filter G11: x4”", "the meter's EI"}
	c.Filters, c.Title = []string{"G11"}, "Chimney, second try"
	c.Given = record.Settings{Aperture: "f/11", Note: "aperture carried from 2A"}
	n := sheet(s, o, sc, "3A", record.NoImage)
	n.Film, n.Filters = "plate", []string{"R25"}
	u := sheet(s, o, sc, "3B", record.Unexposed)
	u.EI, u.Lens = record.Figure{}, ""
	o.Entries = append(o.Entries, record.Entry{Unread: &record.Line{Text: "shet 4A: Y8 1/30 f16 \x01 " + family, Place: at(41)}})
}

// offSheet has everything that a sheet can have.
func offSheet(s *record.Season, b *record.Sheet) {
	b.Title, b.Filters, b.Extension = "Chimney with “ghost” sign", []string{"R25", "pol"}, "ext 380 mm"
	b.Movements = []string{"rise 20 mm", "front tilt 4°"}
	b.Reading = &record.Reading{Text: "doorway EV 5 on III, window EV 11", Kind: "spot", EV: record.Known(7),
		How: "EV 7⅔ at EI 100; film at EI 64, −⅔", Areas: []record.Area{
			{Name: "doorway", EV: 5, Read: "EV 5⅔", Brought: "EV 5 at EI 64", Meant: record.Known(3), Fell: record.Known(2.333333)}, {Name: "window", EV: 11, Read: "EV 11", Fell: record.Known(9)}}}
	b.Steps = []record.Step{
		{Kind: "filter", Name: "R25", Stops: 3, Detail: "×8, declared", From: "kit.md:12"},
		{Kind: "bellows", Name: "extension 380 mm on 300 mm", Stops: 0.682, Detail: "2 log2(380/300)"},
		{Kind: "reciprocity", Name: "", Stops: 0.5, From: "kit.md:9"}}
	b.Asked = record.Settings{Aperture: "f/16½", Time: "20 s", EV: record.Known(4)}
	b.Given = record.Settings{Aperture: "f/16½", Time: "6 s", EV: record.Known(5.7), OnFilm: record.Known(4.8),
		Note: "f16.5 read as half a stop past f/16"}
	b.Difference, b.ByClock = record.Known(-1.6666667), record.Known(-1.3333333)
	b.Choices = []record.Choice{{Kind: "aperture kept", Aperture: "f/16½", Time: "20 s"},
		{Kind: "time kept", Aperture: "f/8⅔", Time: "6 s", Left: 0.25}}
	b.Development = "N-1"
	b.History = []record.Change{{Was: "f/16", Now: "f16.5", How: "struck", Place: at(22)}, {Was: "Y8", How: "withdrawn", Place: at(23)}}
	b.Remarks = []string{"gust during exposure; (bracketed) \\ backslash, \r tab\there", longWord, longRemark}
	scan := &record.Scan{Path: "scans/gate 3a (β) 100%.tif", State: record.Present, Format: "TIFF", Width: 8000, Height: 6400,
		Depth: 16, Bytes: 102400000, SHA256: strings.Repeat("9c", 32), Sheets: []*record.Sheet{b}}
	lost := &record.Scan{Path: "scans/lost.tif", State: record.Missing, Sheets: []*record.Sheet{b}}
	b.Scans = []*record.Scan{scan, lost}
	s.Scans = append(s.Scans, scan, lost,
		&record.Scan{Path: "scans/half.tif", State: record.Unreadable, Why: "ends after 812 bytes", Bytes: 812},
		&record.Scan{Path: "../other/x.tif", State: record.Outside},
		&record.Scan{Path: "scans/who-am-i.jpg", State: record.Orphan, Format: "JPEG", Width: 800, Height: 1000, Depth: 8, Bytes: 90000})
}

// fixtureSecond is an outing long enough to fill pages.
func fixtureSecond(s *record.Season, o *record.Outing) {
	for i := range 14 {
		sc := &record.Scene{Title: fmt.Sprintf("Turbine %d", i+1), Slug: fmt.Sprintf("t%d", i), Outing: o}
		o.Scenes = append(o.Scenes, sc)
		o.Entries = append(o.Entries, record.Entry{Scene: sc})
		x := sheet(s, o, sc, fmt.Sprintf("%dA", i+10), record.Off)
		x.Given = record.Settings{Aperture: "f/22⅓", Time: "1/2", EV: record.Known(10)}
		x.Asked = record.Settings{Aperture: "f/22⅓", Time: "1/4", EV: record.Known(11)}
		x.Difference = record.Known(1)
		pic := &record.Scan{Path: fmt.Sprintf("scans/t%d.jpg", i), State: record.Present, Format: "JPEG", Width: 400,
			Height: 300, Depth: 8, Bytes: 12345, Sheets: []*record.Sheet{x}}
		x.Scans = []*record.Scan{pic}
		s.Scans = append(s.Scans, pic)
		o.Entries = append(o.Entries, record.Entry{Prose: para(inWords(strings.Repeat("Dust hangs in the hall. ", i))...)})
	}
}

func fixtureFindings(s *record.Season) {
	for i, x := range s.Sheets {
		if x.State != record.Off && x.State != record.Unchecked {
			continue
		}
		f := &record.Finding{Code: "exposure-off", Severity: record.Error, Title: "Exposure off",
			Message: fmt.Sprintf("sheet %s is %s", x.Label, saying.Verdict(x)),
			Notes:   []string{"the filter R25 asks for 3 stops, declared in kit.md:12", "the bellows ask for ⅔ stop"},
			Place:   at(20 + i), Excerpt: x.Lines[0].Text, Mark: [2]int{len(x.Label) + 2, len(x.Label) + 5}, Causes: []string{"filter-forgotten"}, Sheets: []*record.Sheet{x}}
		if x.State == record.Unchecked {
			f.Severity, f.Code = record.Note, "unchecked"
		}
		x.Findings = append(x.Findings, f)
		s.Findings = append(s.Findings, f)
	}
	s.Findings = append(s.Findings, &record.Finding{Code: "meter-ei", Severity: record.Warning, Title: "Meter's EI",
		Message: "the meter stood on EI 100 for these sheets", Place: at(19), Sheets: s.Sheets})
}

func fixtureIndexes(s *record.Season) {
	side := &record.Index{Kind: "side", Title: "By holder side"}
	for _, x := range s.Sheets {
		side.Rows = append(side.Rows, record.IndexRow{Key: x.Label, Slug: "side-" + x.Label, Sheets: []*record.Sheet{x}})
	}
	s.Indexes = []*record.Index{side,
		{Kind: "film", Title: "By film", Rows: []record.IndexRow{{Key: "pan100", Slug: "film-1", Sheets: s.Sheets},
			{Key: longWord, Slug: "film-2", Sheets: s.Sheets[2:4]}}},
		{Kind: "place", Title: "By place", Rows: []record.IndexRow{{Key: "Aldermoor brickworks", Slug: "p", Sheets: s.Sheets[:5]},
			{Key: "Überlandwerk", Slug: "q", Sheets: s.Sheets[5:]}}}}
}

func fixtureTally(s *record.Season) {
	t := &s.Tally
	t.Outings, t.Sheets, t.AllLines, t.LogLines, t.ProseLines, t.UnreadLines = len(s.Outings), len(s.Sheets), 177, 120, 56, 1
	for _, x := range s.Sheets {
		switch x.State {
		case record.Right:
			t.Right++
		case record.Off:
			t.Off++
		case record.Unchecked:
			t.Unchecked++
		case record.NoImage:
			t.NoImage++
		case record.Unexposed:
			t.Unexposed++
		}
	}
	t.Errors, t.Warnings, t.Notes = 15, 1, 1
}

// testPicture draws a small gradient, another for every path.
func testPicture(path string, edge int) ([]byte, error) {
	img := image.NewGray(image.Rect(0, 0, edge, edge*3/4))
	for y := range img.Rect.Dy() {
		for x := range edge {
			img.SetGray(x, y, color.Gray{uint8((x*len(path) + y*int(path[len(path)-5])) / 64)})
		}
	}
	var out bytes.Buffer
	err := jpeg.Encode(&out, img, nil)
	return out.Bytes(), err
}
