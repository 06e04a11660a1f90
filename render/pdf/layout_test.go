package pdf

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// The words of a table's head are never cut, however many columns there are; what has no
// room stands below, behind the first column once more.
func TestHeadsAreNotCut(t *testing.T) {
	names := []string{"outing", "outings", "sheets", "right", "off", "exposed twice", "no image", "unchecked", "unexposed", "developed", "scanned", "lost"}
	for width := 120.0; width < 600; width += 7 {
		for columns := 2; columns <= len(names); columns++ {
			r := tableRow{cells: []cell{words("9 April 2004 (Good Friday) " + longWord)}}
			for i := 1; i < columns; i++ {
				r.cells = append(r.cells, figures(fmt.Sprint(100+i)))
			}
			f, err := loadFaces()
			if err != nil {
				t.Fatal(err)
			}
			g := &galley{faces: f}
			g.setTable([]tableRow{headRow(r, names[:columns]...), r}, 0, width)
			var heads, all []string
			for _, p := range g.pieces {
				if p.face == bold {
					heads = append(heads, strings.Fields(p.text)...)
				}
				all = append(all, p.text)
				if p.x+p.w > width+1 {
					t.Errorf("%d columns in %v points: %q ends at %v", columns, width, p.text, p.x+p.w)
				}
			}
			for _, word := range strings.Fields(strings.Join(names[:columns], " ")) {
				if !slices.Contains(heads, word) {
					t.Errorf("%d columns in %v points: %q is cut: %q", columns, width, word, heads)
				}
			}
			for i := 1; i < columns; i++ {
				if !slices.Contains(all, fmt.Sprint(100+i)) {
					t.Errorf("%d columns in %v points: no figure of column %d", columns, width, i)
				}
			}
		}
	}
}

// A few lines of the contents do not go overleaf alone.
func TestContentsLeaveNoRest(t *testing.T) {
	on := map[int]bool{}
	for n := range 24 {
		s := fixture()
		for i := range 18 + n {
			s.Outings = append(s.Outings, &record.Outing{Title: fmt.Sprint("A walk ", i), Date: "2026-12-01"})
		}
		page := pages(t, write(t, s, Options{}))[2]
		if rows := len(strings.Fields(strings.ReplaceAll(page, " ", ""))); strings.Contains(page, "Contents") {
			on[2] = true
			if rows < 8 {
				t.Errorf("%d outings: page 2 holds %d lines of the contents alone:\n%s", len(s.Outings), rows, page)
			}
		} else {
			on[1] = true
		}
	}
	if len(on) != 2 {
		t.Errorf("the contents never reach page 2 or always: %v", on)
	}
}

// Contents that have no room below the title, and have on a page, stand whole on one of their own.
func TestContentsAreNotPartedInVain(t *testing.T) {
	own := 0
	for n := 0; n < 24; n += 4 {
		s := fixture()
		for i := range n {
			s.Outings = append(s.Outings, &record.Outing{Title: fmt.Sprint("A walk ", i), Date: "2026-12-01"})
		}
		text := pages(t, write(t, s, Options{Paper: A5}))
		first, second := strings.Contains(text[1], "Colophon"), strings.Contains(text[2], "Colophon") && strings.Contains(text[2], "Contents")
		if second && strings.Contains(text[2], summaryTitle) {
			own++
		}
		if rows := len((&book{season: s, marks: map[any]*mark{}}).listSections()); rows < 30 && !first && !(second && strings.Contains(text[2], summaryTitle)) {
			t.Errorf("%d lines of contents are parted:\n%s\n%s", rows, text[1], text[2])
		}
	}
	if own == 0 {
		t.Error("no contents have a page of their own")
	}
}

// What happened to a holder side is not parted by a page's end.
func TestSidesAreNotParted(t *testing.T) {
	s := fixture()
	for i := range 90 {
		h := &record.HolderSide{Label: fmt.Sprintf("H%02d", i), State: "loaded"}
		for j := range 1 + i%7 {
			h.Events = append(h.Events, record.SideEvent{Date: "2026-12-01", What: fmt.Sprintf("h%02d.%d", i, j)})
		}
		s.Holders = append(s.Holders, h)
	}
	text := pages(t, write(t, s, testOptions))
	for _, h := range s.Holders {
		i := slices.IndexFunc(text, func(page string) bool { return strings.Contains(page, h.Events[0].What) })
		for _, e := range h.Events {
			if i < 0 || !strings.Contains(text[i], e.What) || !strings.Contains(text[i], h.Label) {
				t.Errorf("%s: %s is not on page %d", h.Label, e.What, i)
			}
		}
	}
}

// A key of an index does not touch the numbers behind it.
func TestKeysDoNotTouchTheirPages(t *testing.T) {
	s := fixture()
	x := &record.Index{Kind: "place", Title: "By place"}
	for n := range 60 {
		x.Rows = append(x.Rows, record.IndexRow{Key: strings.Repeat("i", n+10) + "." + strings.Repeat("f", n%4), Slug: fmt.Sprint("k", n), Sheets: s.Sheets[:1]})
	}
	s.Indexes = []*record.Index{x}
	f, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	b := &book{season: s, form: papers[A4], marks: map[any]*mark{}}
	b.pen.faces, b.galley.faces = f, f
	b.markOf(s.Sheets[0]).page = 7
	for i := range x.Rows {
		b.reset()
		b.indexRow(&x.Rows[i])
		key := b.pieces[0]
		for _, p := range b.pieces[b.lines[0].from:b.lines[0].to] {
			if p.text == "7" && key.x+key.w > p.x-1 {
				t.Errorf("%q ends at %v, its page begins at %v", key.text, key.x+key.w, p.x)
			}
		}
	}
}

// Beside the pictures of a scene a sheet without one has a frame.
func TestFramesStandBesidePictures(t *testing.T) {
	s := fixture()
	var sc *record.Scene
	for _, o := range s.Outings {
		for _, c := range o.Scenes {
			if len(c.Sheets) > 1 {
				sc = c
			}
		}
	}
	for i, x := range sc.Sheets {
		x.Scans = nil
		if i == 0 {
			x.Scans = []*record.Scan{{Path: "one.jpg", State: record.Present, Width: 4, Height: 3}}
		}
	}
	o := testOptions
	o.Parts = []string{"scenes"}
	if text := run(t, "pdftotext", "-layout", write(t, s, o), "-"); strings.Count(text, "no picture") != 3 {
		t.Errorf("beside the one picture of a row of four stand no three frames:\n%s", text)
	}
}

// Headings leave out the pictures that no face has, and no letter; the colophon says so.
func TestHeadingsLeaveOutWhatNoFaceHas(t *testing.T) {
	f, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string]string{
		"Fog 📷": "Fog", "📷 Fog": "Fog", "Fog 📷 in the yard": "Fog in the yard", "Fog📷 in": "Fog in",
		"the 👨\u200d👩\u200d👧 house": "the house", "Grüße, ⅓  ☑": "Grüße, ⅓  ☑", "漢字": "漢字",
		"Fog 漢字 yard": "Fog 漢字 yard", "Fog 漢": "Fog 漢", "Fog ❤️ yard": "Fog ❤️ yard", "Fog 🅰️ yard": "Fog yard", "two\nlines": "two\nlines",
	} {
		if got := f.spare(span{text: text, style: strong})[0].text; got != want {
			t.Errorf("%q is set as %q, want %q", text, got, want)
		}
	}
	sc := &record.Scene{Title: "Fog 📷"}
	s := &record.Season{Title: "Season", Outings: []*record.Outing{{Title: "Dawn 📷 walk", Date: "2026-12-01", Scenes: []*record.Scene{sc}, Entries: []record.Entry{{Scene: sc}}}}}
	text := strings.Join(strings.Fields(run(t, "pdftotext", "-layout", write(t, s, testOptions), "-")), " ")
	if n := strings.Count(text, lackedMark); n != 1 || !strings.Contains(text, "Dawn walk") || !strings.Contains(text, "U+1F4F7 2 times") {
		t.Errorf("%d marks, want only the one that is explained:\n%s", n, text)
	}
}

// No page holds a single row of a table of several, or a line or two of an entry that was
// too long for the page before.
func TestNothingIsLeftAlone(t *testing.T) {
	for rest := range 12 {
		b, err := newBook(fixture(), Options{Paper: A5})
		if err != nil {
			t.Fatal(err)
		}
		b.newPage()
		b.y = b.bottom() - float64(3+rest)*grid
		rows := []tableRow{headRow(tableRow{}, "side", "why")}
		for i := range 8 {
			rows = append(rows, tableRow{cells: []cell{words(fmt.Sprint("side ", i)), words("loaded")}})
		}
		b.setTable(rows, 0, b.width())
		on := map[int]int{}
		for i := range b.lines {
			if l := &b.lines[i]; l.to > l.from {
				l.mark = &mark{}
			}
		}
		lines := slices.Clone(b.lines)
		b.place()
		for i := range lines {
			if m := lines[i].mark; m != nil && i > 0 {
				on[m.page]++
			}
		}
		for page, n := range on {
			if n == 1 {
				t.Errorf("page %d holds one row, with %d lines left on the page before", page, 3+rest)
			}
		}
	}
	for more := range 40 {
		s := fixture()
		sh := s.Sheets[0]
		sh.Remarks = slices.Repeat([]string{"as dry as it was"}, 20+more)
		b, err := newBook(s, Options{Paper: A5})
		if err != nil {
			t.Fatal(err)
		}
		b.newPage()
		b.entry(sh)
		if b.page > 1 && b.y-b.form.top < leastOverleaf*grid-slack {
			t.Errorf("%d remarks: page %d ends at %v", len(sh.Remarks), b.page, b.y-b.form.top)
		}
	}
}

// An entry that does not fit goes over whole where little is left of the page, and is parted where it would
// leave a third empty: what stands beside its picture stays there, and what goes on is worth the page.
func TestPagesAreFilled(t *testing.T) {
	parted, whole := 0, 0
	for above := range 60 {
		s := fixture()
		sh := s.Sheets[0]
		sh.Remarks = slices.Repeat([]string{"as dry as it was"}, 12)
		b, err := newBook(s, Options{Paper: A5})
		if err != nil {
			t.Fatal(err)
		}
		b.newPage()
		b.y += float64(above) * grid
		room := b.bottom() - b.y
		b.entry(sh)
		switch begins := b.markOf(sh).page; {
		case b.page == 1:
		case begins == 1:
			parted++
			if under := b.y - b.form.top; under < leastOverleaf*grid-slack || room < (b.bottom()-b.form.top)/3 {
				t.Errorf("%d lines above: parted with %v of room, %v go on", above, room, under)
			}
		default:
			whole++
			if room > (b.bottom()-b.form.top)/2 {
				t.Errorf("%d lines above: %v of the page are left empty", above, room)
			}
		}
	}
	if parted == 0 || whole == 0 {
		t.Errorf("%d entries are parted, %d go over whole", parted, whole)
	}
}
