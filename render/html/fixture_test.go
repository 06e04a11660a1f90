package html

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"io"
	"strings"

	"notchbook/compile/query"
	"notchbook/compile/record"
)

// memory is a Folder that keeps what is written.
type memory struct {
	names []string
	files map[string][]byte
}

func newMemory() *memory { return &memory{files: map[string][]byte{}} }

func (m *memory) Create(name string) (io.WriteCloser, error) {
	if _, twice := m.files[name]; twice {
		return nil, fmt.Errorf("created twice")
	}
	m.names = append(m.names, name)
	m.files[name] = nil
	return &memoryFile{m, name}, nil
}

type memoryFile struct {
	m    *memory
	name string
}

func (f *memoryFile) Write(b []byte) (int, error) {
	f.m.files[f.name] = append(f.m.files[f.name], b...)
	return len(b), nil
}

func (f *memoryFile) Close() error { return nil }

// gradient is a picture with a sky and a ground, different for each path.
func gradient(path string, edge int) ([]byte, error) {
	if strings.Contains(path, "no-picture") {
		return nil, nil
	}
	sum := 0
	for _, b := range []byte(path) {
		sum += int(b)
	}
	w, h := edge*4/5, edge
	if sum%2 == 0 {
		w, h = h, w
	}
	img := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			v := 225 - 90*y/h
			if y > h*3/5+(x*(sum%7)/20)%(h/6) {
				v = 40 + 60*x/w
			}
			img.SetGray(x, y, color.Gray{Y: uint8(v)})
		}
	}
	var b bytes.Buffer
	err := jpeg.Encode(&b, img, nil)
	return b.Bytes(), err
}

func options() Options {
	return Options{Generator: "notchbook 0.1", Picture: gradient, View: func(path string) ([]byte, error) { return gradient(path, 1600) }, Parallel: 2}
}

func words(s string) record.Inline { return record.Inline{Kind: record.Words, Text: s} }

func text(parts ...record.Inline) []record.Inline { return parts }

func para(s string) *record.Block {
	return &record.Block{Kind: record.Paragraph, Text: text(words(s))}
}

func heading(level int, s string) *record.Block {
	return &record.Block{Kind: record.Heading, Level: level, Text: text(words(s))}
}

// oddScan is a path that every careless way of making a link breaks on.
const oddScan = `scans/50% "sharp" #2?/Küste & <Kiln> 3A;x:y+z.tif`

// season is a small season with every state, every kind of prose and every field
// of the record filled in at least once.
func season() *record.Season {
	s := &record.Season{
		Title: "Aldermoor, winter 2026", LastDay: "2026-11-21",
		Notebooks: []*record.Notebook{
			{Path: "kit.md", SHA256: strings.Repeat("1f", 32), Bytes: 812, Lines: 24},
			{Path: "aldermoor/brick works.md", SHA256: strings.Repeat("a0", 32), Bytes: 4096, Lines: 118},
		},
		Kit: []*record.Item{
			{Kind: "camera", Name: "field", Slug: "camera-field", Facts: []record.Fact{{Name: "format", Value: "4×5 in"}, {Name: "extension", Value: "75 to 380 mm"}}, Place: at(3), Source: "camera field: 4x5, ext 75-380 mm"},
			{Kind: "lens", Name: "210", Slug: "lens-210", Facts: []record.Fact{{Name: "focal length", Value: "210 mm"}, {Name: "shutter", Value: "T B 1s 1/2 1/5 1/10 1/25 1/50 1/100; 1/50 tested as 1/40"}}, Place: at(4), Source: "lens 210: 210 mm, f5.6-f64, shutter T B 1s 1/2 1/5 1/10 1/25 1/50 1/100, tested 1/50=1/40"},
			{Kind: "film", Name: "pan100", Slug: "film-pan100", Facts: []record.Fact{{Name: "speed", Value: "ISO 100, EI 64"}}, Place: at(6), Source: "film pan100: ISO 100, EI 64, pan, reciprocity t^1.31 over 1s"},
			{Kind: "filter", Name: "R25", Slug: "filter-r25", Facts: []record.Fact{{Name: "stops", Value: "3 (×8)"}}, Place: at(9), Source: "filter R25: Wratten 25, x8, tungsten x5"},
		},
		Tally: record.Tally{
			Counts: record.Counts{Outings: 3, Sheets: 8, Right: 2, Off: 3, Unchecked: 1, NoImage: 1, Unexposed: 1, Developed: 3, Scanned: 4},
			Errors: 3, Warnings: 2, Notes: 1, LogLines: 71, ProseLines: 44, UnreadLines: 2, AllLines: 142,
		},
		Cautions: []string{"Reciprocity rules are averages; a film of your own batch may differ."},
	}
	addScans(s)
	addFirst(s)
	addSecond(s)
	addFindings(s)
	s.Outings = append(s.Outings, &record.Outing{Title: "log.md, before the first day", Slug: "log", Path: "log.md",
		Entries: []record.Entry{{Line: &record.Line{Word: "use", Text: "use: kit.md", Place: at(1)}}}})
	addIndexes(s)
	addDarkroom(s)
	s.Find = query.Index(s)
	return s
}

// addDarkroom adds what waits, what was lost, and what lies in holders and
// sleeves.
func addDarkroom(s *record.Season) {
	a, b := s.Sheets[0], s.Sheets[1]
	a.Number, a.Sleeve = "26-041", "binder 2, page 14"
	a.Prints = []record.Line{{Word: "print", Text: "print 1A: grade 3", Place: at(70)}}
	a.Densities = []record.Density{{Spot: "base+fog", D: .07, Place: at(71)}}
	a.Results = []record.Line{{Word: "result", Text: "result 1A: keeper", Place: at(72)}}
	s.Sheets[6].Lost = "light leak"
	a.Twins, b.Twins = []*record.Sheet{b}, []*record.Sheet{a}
	wait := &record.Batch{
		Slug: "batch-pan100-n-1", Film: "pan100", Class: "pan", Safelight: "total darkness", Development: "N-1", Developer: "metol", Dilution: "1+31",
		Time: "6 min 15 s", Temperature: "20 °C", How: "declared, kit.md:6", Others: []string{"5 min 50 s at 21 °C"}, Agitation: "every 30 s", Capacity: "4 sheets", Fits: 1,
		Sheets:   []record.BatchSheet{{Sheet: s.Sheets[2], Run: 1, Order: 1, Note: "+⅔ stop"}, {Sheet: s.Sheets[4], Run: 2, Order: 1}},
		Cautions: []string{"the time is short: under five minutes development comes out uneven"},
	}
	s.ToDevelop = record.ToDevelop{
		Batches: []*record.Batch{wait}, Held: []record.HeldSheet{{Sheet: b, Why: "off by 2 stops under", Still: "the development can still be chosen", Batch: wait}},
		Otherwise: []record.Otherwise{{Sheet: s.Sheets[6], Asked: "N-1", Done: "N", Date: "20 jan", Place: at(90)}},
		Cautions:  []string{"Developing: follow the safety data sheet of each chemical."},
	}
	s.Holders = []*record.HolderSide{
		{Label: "1B", Slug: "side.1b", State: record.Exposed, Why: "exposed 2026-11-07", Film: "pan100", Sheet: b, May: record.No, Reason: "it holds 1B, exposed and not developed", Format: "4x5", Notch: "III",
			Events: []record.SideEvent{{Date: "2026-11-07", What: "loaded", Film: "pan100", Place: at(7)}, {Date: "2026-11-07", What: "exposed", Sheet: b, Place: at(15)}}, Conflicts: s.Findings[:1]},
		{Label: "9B", Slug: "side.9b", State: record.Unknown, May: record.NotKnown},
	}
	s.Negatives = record.Negatives{Numbered: []*record.Sheet{a}, Series: []record.NumberSeries{{Next: "26-044", After: "26-043"}}, Unlogged: []record.UnloggedNote{{Number: "26-042", Why: "left out between 26-041 and 26-043"}}, Without: s.Sheets[7:], Unfiled: s.Sheets[7:]}
	s.Losses = []*record.Loss{{Cause: "light leak", Slug: "leak", Sheets: s.Sheets[6:7]}}
}

func at(line int) record.Place {
	return record.Place{Path: "aldermoor/brick works.md", Line: line, Column: 5, EndLine: line, EndColumn: 9}
}

func addScans(s *record.Season) {
	sha := strings.Repeat("7c", 32)
	s.Scans = []*record.Scan{
		{Path: "scans/2026-11-07-1a.tif", State: record.Present, Format: "TIFF", Width: 9600, Height: 12000, Depth: 16, Bytes: 230_400_000, SHA256: sha},
		{Path: oddScan, State: record.Present, Format: "TIFF", Width: 4800, Height: 6000, Depth: 8, Bytes: 28_800_000},
		{Path: "scans/2026-11-07-2a.tif", State: record.Missing},
		{Path: "scans/2026-11-07-2b.tif", State: record.Unreadable, Why: "the file ends in the middle", Bytes: 1200},
		{Path: "scans/contact sheet.jpg", State: record.Orphan, Format: "JPEG", Width: 2400, Height: 3000, Depth: 8, Bytes: 912_000},
		{Path: "../elsewhere/3b.tif", State: record.Outside},
	}
}

func addFirst(s *record.Season) {
	o := &record.Outing{Title: "Brickworks, first frost", Slug: "2026-11-07-brickworks", Date: "2026-11-07", ISO: "2026-11-07", Place: "Aldermoor brickworks", Path: "aldermoor/brick works.md"}
	kiln := &record.Scene{Title: "Long kiln from the tramway", Slug: "long-kiln", Light: "hazy sun from the left", Outing: o}
	shed := &record.Scene{Title: "Inside the drying shed", Slug: "drying-shed", Outing: o}
	a := rightSheet(s, o, kiln)
	b := offSheet(s, o, kiln)
	c := overSheet(s, o, shed)
	d := noImageSheet(s, o, shed)
	o.Scenes = []*record.Scene{kiln, shed}
	o.Sheets = []*record.Sheet{a, b, c, d}
	kiln.Sheets, shed.Sheets = o.Sheets[:2], o.Sheets[2:]
	o.Entries = []record.Entry{
		{Prose: heading(1, "Brickworks, first frost")},
		{Line: &record.Line{Word: "load", Text: "load 1A-3B: pan100", Place: at(7)}},
		{Line: &record.Line{Word: "lens", Text: "lens: 210", Place: at(8)}},
		{Prose: heading(4, "The long kiln")},
		{Scene: kiln}, {Sheet: a},
		{Prose: para("Frost gone from the roof by the third sheet; the chimney is what I want.")},
		{Sheet: b},
		{Scene: shed}, {Sheet: c},
		{Unread: &record.Line{Text: "shet 3A: Y8 1/30 f16, and then the wind took the dark cloth across the yard", Place: at(41)}},
		{Sheet: d},
	}
	o.Entries = append(o.Entries, prose()...)
	s.Outings = append(s.Outings, o)
	s.Sheets = append(s.Sheets, o.Sheets...)
}

func rightSheet(s *record.Season, o *record.Outing, sc *record.Scene) *record.Sheet {
	sh := &record.Sheet{
		ID: "2026-11-07 1A", Slug: "2026-11-07-1a", Label: "1A", Side: "1A", Title: "with the chimney", Outing: o, Scene: sc, State: record.Right,
		Film: "pan100", Lens: "210", Camera: "field", Format: "4x5", EI: record.Known(64), Movements: []string{"front rise 12 mm", "rear tilt 3°"},
		Development: "N", Developed: []record.Development{{Text: "N, 9m, 20C, tray", Date: "2026-11-09", Place: at(60)}},
		Reading:    &record.Reading{Text: "1/60 f16", Kind: "plain", EV: record.Known(14), How: "meter at EI 64"},
		Asked:      record.Settings{Time: "1/60", Aperture: "f/16", EV: record.Known(14)},
		Given:      record.Settings{Time: "1/60", Aperture: "f/16", EV: record.Known(14), Note: "1/60 tested as 1/50"},
		Difference: record.Known(1. / 6), Tolerance: "±⅓ stop",
		Remarks: []string{"gust during exposure"}, Lines: []record.Line{{Word: "sheet", Text: "1A: no filter, 1/60 f16 -- gust during exposure", Place: at(14)}},
		Scans: s.Scans[:1],
	}
	s.Scans[0].Sheets = []*record.Sheet{sh}
	return sh
}

func offSheet(s *record.Season, o *record.Outing, sc *record.Scene) *record.Sheet {
	sh := &record.Sheet{
		ID: "2026-11-07 1B", Slug: "2026-11-07-1b", Label: "1B", Side: "1B", Outing: o, Scene: sc, State: record.Off,
		Film: "pan100", Lens: "210", Camera: "field", EI: record.Known(64), Filters: []string{"R25", "pol"}, Extension: "ext 260 mm",
		Development: "N-1",
		Reading:     &record.Reading{Text: "EV 11", Kind: "spot", EV: record.Known(32. / 3), How: "EV 11 at EI 64; meter at EI 80, −⅓"},
		Steps: []record.Step{
			{Kind: "filter", Name: "R25", Stops: 3, Detail: "×8, declared", From: "kit.md:12"},
			{Kind: "bellows", Name: "extension 260 mm on 210 mm", Stops: 0.616, Detail: "2 log2(260/210)", From: "computed"},
			{Kind: "bracket", Name: "bracket −½", Stops: -0.5},
		},
		Asked:      record.Settings{Time: "2 s", Aperture: "f/22", EV: record.Known(7.5), OnFilm: record.Known(3.1)},
		Given:      record.Settings{Time: "½ s", Aperture: "f/22½", EV: record.Known(9.5), Note: "f22.5 read as half a stop past f/22"},
		Difference: record.Known(-2.1), ByClock: record.Known(-2), Tolerance: "±⅓ stop",
		Choices: []record.Choice{{Kind: "aperture kept", Aperture: "f/22½", Time: "2 s"}, {Kind: "time kept", Aperture: "f/11", Time: "½ s", Left: -0.25}},
		History: []record.Change{{Was: "f16", Now: "f22.5", How: "amended", Place: at(31)}, {Was: "Y8", How: "struck", Place: at(15)}},
		Lines:   []record.Line{{Text: "1B: ~~Y8~~ R25 + pol, ½s f22.5, ext 260mm, N-1", Place: at(15)}, {Word: "amend", Text: "amend 1B: f22.5 not f16", Place: at(31)}},
		Scans:   s.Scans[1:4],
	}
	for _, sc := range s.Scans[1:4] {
		sc.Sheets = []*record.Sheet{sh}
	}
	return sh
}

func overSheet(_ *record.Season, o *record.Outing, sc *record.Scene) *record.Sheet {
	return &record.Sheet{
		ID: "2026-11-07 2A", Slug: "2026-11-07-2a", Label: "2A", Side: "2A", Outing: o, Scene: sc, State: record.Off, Film: "pan100", Lens: "210",
		Reading: &record.Reading{Text: "doorway EV 5 on III, window EV 11", Kind: "spot", EV: record.Known(7), How: "doorway placed on III",
			Areas: []record.Area{{Name: "doorway", EV: 5, Read: "EV 5⅔", Brought: "EV 5 at EI 64", Meant: record.Known(3), Fell: record.Known(3.667)}, {EV: 11, Read: "EV 11", Fell: record.Known(9.667)}}},
		Asked:      record.Settings{Time: "4 s", Aperture: "f/22", EV: record.Known(7), OnFilm: record.Known(4)},
		Given:      record.Settings{Time: "6 s", Aperture: "f/22", EV: record.Known(6.333), OnFilm: record.Known(6.2)},
		Difference: record.Known(2. / 3), Tolerance: "±⅓ stop",
		Lines: []record.Line{{Text: "2A: f22, 6s, N-1, rise 12", Place: at(38)}},
	}
}

func noImageSheet(_ *record.Season, o *record.Outing, sc *record.Scene) *record.Sheet {
	return &record.Sheet{
		ID: "2026-11-07 2B", Slug: "2026-11-07-2b", Label: "2B", Side: "2B", Outing: o, Scene: sc, State: record.NoImage, Film: "plate", Filters: []string{"R25"},
		Given: record.Settings{Time: "8 s", Seconds: record.Known(8)}, Lines: []record.Line{{Text: "2B: film plate, R25, 8s", Place: at(42)}},
	}
}

func addSecond(s *record.Season) {
	o := &record.Outing{Title: "14 jan, Saltings", Slug: "14-jan-saltings", Date: "14 jan", Place: "Saltings", Path: "aldermoor/brick works.md"}
	o.Sheets = []*record.Sheet{
		{ID: "14 jan #31", Slug: "14-jan-31", Label: "#31", Side: "7A", Outing: o, State: record.Unchecked, Film: "slate", Needs: []string{"the aperture of #31", "the focal length of the lens called “long”"}, Lines: []record.Line{{Text: "#31: 1/30", Place: at(80)}}},
		{ID: "14 jan #32", Slug: "14-jan-32", Label: "#32", Outing: o, State: record.Unexposed, Lines: []record.Line{{Text: "#32: unused", Place: at(81)}}},
		{ID: "14 jan #33", Slug: "14-jan-33", Label: "#33", Title: "Groyne, low water", Outing: o, State: record.Off, Difference: record.Known(4.5), Tolerance: "±⅓ stop",
			Developed: []record.Development{{Text: "N-1", Date: "20 jan"}}, Asked: record.Settings{Aperture: "f/32", Av: record.Known(10)}},
		{ID: "14 jan #34", Slug: "14-jan-34", Label: "#34", Outing: o, State: record.Right, Difference: record.Known(0), Developed: []record.Development{{Text: "N"}}},
	}
	for _, sh := range o.Sheets[:3] { // the fourth is left to the strays
		o.Entries = append(o.Entries, record.Entry{Sheet: sh})
	}
	s.Outings = append(s.Outings, o)
	s.Sheets = append(s.Sheets, o.Sheets...)
}

func addFindings(s *record.Season) {
	line := "1B: ~~Y8~~ R25 + pol, ½s f22.5, ext 260mm, N-1"
	from := strings.Index(line, "½s")
	add := func(f record.Finding) {
		f.Anchor = fmt.Sprintf("f%d-%s", len(s.Findings)+1, f.Code)
		s.Findings = append(s.Findings, &f)
		for _, sh := range f.Sheets {
			sh.Findings = append(sh.Findings, &f)
		}
	}
	add(record.Finding{Code: "reading-missing", Severity: record.Note, Title: "No reading", Message: "nothing was metered for #31", Place: at(80), Excerpt: "#31: 1/30", Mark: [2]int{0, 3}, Sheets: s.Sheets[4:5]})
	add(record.Finding{Code: "exposure-off", Severity: record.Error, Title: "Off by a stop or more", Message: "1B got 2 stops less than it asked for",
		Notes: []string{"asked 2 s at f/22, given ½ s at f/22½", "the bare reading would have been right without R25"}, Place: at(15), Excerpt: line,
		Mark: [2]int{from, from + len("½s f22.5")}, Sheets: s.Sheets[1:2], Causes: []string{"filter-not-compensated", "factor-as-stops"}})
	add(record.Finding{Code: "film-blind", Severity: record.Error, Title: "The film cannot see this light", Message: "plate is blind to what R25 passes", Place: at(42), Excerpt: "2B: film plate, R25, 8s", Mark: [2]int{16, 19}, Sheets: s.Sheets[3:4]})
	add(record.Finding{Code: "exposure-beyond-tolerance", Severity: record.Warning, Title: "Beyond the tolerance", Message: "2A got ⅔ stop more than it asked for", Place: at(38), Excerpt: "2A: f22, 6s, N-1, rise 12", Mark: [2]int{9, 11}, Sheets: s.Sheets[2:3]})
	add(record.Finding{Code: "exposure-off", Severity: record.Error, Title: "Off by a stop or more", Message: "#33 got 4½ stops more than it asked for", Sheets: s.Sheets[6:7]})
	add(record.Finding{Code: "word-unknown", Severity: record.Warning, Title: "Looks like a log line", Message: "“shet” is no log word; “sheet” is", Place: at(41), Excerpt: "shet 3A: Y8 1/30 f16, and then the wind took the dark cloth across the yard", Mark: [2]int{0, 4}})
}

func addIndexes(s *record.Season) {
	s.Indexes = []*record.Index{
		{Kind: "side", Title: "By holder side", Rows: []record.IndexRow{{Key: "1A", Slug: "side-1a", Sheets: s.Sheets[:1]}, {Key: "1B", Slug: "side-1b", Sheets: s.Sheets[1:2]}, {Key: "9B", Slug: "side-9b"}}},
		{Kind: "film", Title: "By film", Rows: []record.IndexRow{{Key: "pan100", Slug: "film.pan100", Sheets: s.Sheets[:3]}, {Key: "", Slug: "film.none", Sheets: s.Sheets[5:]}}},
		{Kind: "filter", Title: "By filter", Rows: []record.IndexRow{{Key: "R25", Slug: "filter.r25", Sheets: s.Sheets[1:2]}}},
		{Kind: "lens", Title: "By lens"},
		{Kind: "place", Title: "By place", Rows: []record.IndexRow{{Key: "Aldermoor brickworks", Slug: "place-aldermoor", Sheets: s.Sheets[:4]}}},
		{Kind: "date", Title: "By date", Rows: []record.IndexRow{{Key: "14 jan", Slug: "date-14-jan", Sheets: s.Sheets[4:]}}},
	}
}

// prose is one of each kind of block and inline.
func prose() []record.Entry {
	item := func(task, s string) record.Block {
		return record.Block{Kind: record.ListItem, Task: task, Blocks: []record.Block{*para(s)}}
	}
	cell := func(align, s string) record.Block {
		return record.Block{Kind: record.Cell, Align: align, Text: text(words(s))}
	}
	row := func(head bool, cells ...record.Block) record.Block {
		return record.Block{Kind: record.Row, Head: head, Blocks: cells}
	}
	link := func(to record.Target, s string) record.Inline {
		return record.Inline{Kind: record.Link, Target: to, Title: "a title", Inlines: text(words(s))}
	}
	picture := func(path, alt string) record.Inline {
		return record.Inline{Kind: record.Picture, Target: record.Target{Path: path}, Text: alt, Title: "sketch"}
	}
	blocks := []record.Block{
		*heading(6, "What I would do again"),
		{Kind: record.Paragraph, Text: text(words("Wait for "), record.Inline{Kind: record.Emphasis, Inlines: text(words("haze"))}, words(", then "),
			record.Inline{Kind: record.Strong, Inlines: text(words("meter twice"))}, words(", "), record.Inline{Kind: record.Struck, Inlines: text(words("never"))},
			record.Inline{Kind: record.SoftBreak}, words("as the "), record.Inline{Kind: record.CodeSpan, Text: "meter:"}, words(" line says."), record.Inline{Kind: record.HardBreak},
			link(record.Target{URL: "https://example.org/kilns?a=1&b=2"}, "Kilns of the county"), words(", "), link(record.Target{Path: "notes/map of the works.pdf"}, "the map"),
			words(", "), link(record.Target{}, "nowhere"), words("."))},
		{Kind: record.List, Tight: true, Blocks: []record.Block{item("", "dark cloth"), item("x", "spare holders"), item(" ", "thermometer")}},
		{Kind: record.List, Ordered: true, Start: 4, Blocks: []record.Block{item("", "loose one"), item("", "loose two")}},
		{Kind: record.Quote, Blocks: []record.Block{*para("The kiln was last fired in the year of the flood."), *heading(3, "In a quote")}},
		{Kind: record.Code, Info: "notchbook", Code: "sheet 3A: Y8, 1/30 f16, N\n    and a long line that has to wrap somewhere on a telephone, or else the whole page slides to the side\n"},
		{Kind: record.Rule},
		{Kind: record.Table, Blocks: []record.Block{
			row(true, cell("left", "Sheet"), cell("center", "Film"), cell("right", "Density"), cell("", "Remark"), cell("", "Another"), cell("", "Printing")),
			row(false, cell("left", "1A"), cell("center", "pan100"), cell("right", "0.72"), cell("", "keeper"), cell("", "grade 3 with a split filter"), cell("", "burn the sky 20 s")),
		}},
		{Kind: record.Paragraph, Text: text(picture("sketches/plan.png", "Plan of the kiln"), words(" "), picture("sketches/no-picture.png", "Section"), words(" "),
			record.Inline{Kind: record.Picture, Target: record.Target{URL: "https://example.org/x.png"}, Text: "A picture elsewhere"})},
	}
	var out []record.Entry
	for _, b := range blocks {
		out = append(out, record.Entry{Prose: &b})
	}
	return out
}
