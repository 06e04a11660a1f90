package pdf

import (
	"strings"
	"testing"
	"unicode"

	"github.com/go-pdf/fpdf"
	"pgregory.net/rapid"
)

func testFaces(t *testing.T) *faces {
	t.Helper()
	f, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// The widths measured here are the widths the library writes into the file.
func TestWidthsAgreeWithTheLibrary(t *testing.T) {
	f := testFaces(t)
	doc := fpdf.New("P", "pt", "A4", "")
	f.register(doc)
	text := "Hamburgefonstiv 0123456789 – „“ ½ Żółć Ωμέγα Жуки"
	for id := range faceCount {
		doc.SetFont(f.all[id].family, "", 9)
		if got, want := f.width(id, 9, text), doc.GetStringWidth(text); got-want > 0.001 || want-got > 0.001 {
			t.Errorf("%s: %v, library %v", f.all[id].family, got, want)
		}
	}
}

// Figures stand below one another only if they are all as wide.
func TestFiguresAreTabular(t *testing.T) {
	f := testFaces(t)
	for id := range faceCount {
		for r := '1'; r <= '9'; r++ {
			if f.advance(id, r) != f.advance(id, '0') {
				t.Errorf("%s: %c is not as wide as 0", f.all[id].family, r)
			}
		}
	}
}

func TestStandIns(t *testing.T) {
	f := testFaces(t)
	for _, c := range []struct {
		want faceID
		r    rune
		face faceID
		has  bool
	}{
		{regular, 'a', regular, true}, {regular, '½', regular, true}, {regular, '⅓', second, true},
		{bold, '⅔', secondBold, true}, {italic, '☑', second, true}, {mono, '\u2009', second, true},
		{regular, 'ж', regular, true}, {regular, '漢', second, false}, {regular, '📷', second, false},
		{regular, '\x01', second, false},
	} {
		if id, w := f.find(c.want, c.r); id != c.face || (w != missing) != c.has {
			t.Errorf("%q in %d: face %d, width %d", c.r, c.want, id, w)
		}
	}
}

// squeeze takes out white space, which may fall away at the end of a line.
func squeeze(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) && r != '\u00a0' && r != '\u2009' && r != '\u202f' && r < 0x2000 || r == '\u2028' || r == '\u2029' {
			return -1
		}
		return r
	}, text)
}

// Whatever the text and the measure: every character is set, in its order,
// and no piece passes the right edge.
func TestSettingKeepsEveryCharacter(t *testing.T) {
	f := testFaces(t)
	alphabet := []rune("abcdefg hijk lmno  pqrs/-_.,ÄΩж⅓☑漢📷\t\n\u00a0\u2009(\\)W")
	rapid.Check(t, func(t *rapid.T) {
		g := galley{faces: f}
		look := style{face: faceID(rapid.IntRange(0, int(mono)).Draw(t, "face")), size: rapid.Float64Range(6, 14).Draw(t, "size")}
		var spans []span
		want := ""
		for _, text := range rapid.SliceOfN(rapid.StringOfN(rapid.SampledFrom(alphabet), 0, 80, -1), 1, 4).Draw(t, "spans") {
			spans = append(spans, span{text: text, style: look})
			want += shown(text) // each span by itself: it may have a look of its own
		}
		left := rapid.Float64Range(0, 40).Draw(t, "left")
		right := left + rapid.Float64Range(80, 400).Draw(t, "width")
		g.set(measure{left: left, first: -left, right: right}, spans...)
		if got := squeeze(set(&g)); got != squeeze(want) {
			t.Fatalf("set %q\nof %q", got, want)
		}
		for _, p := range g.pieces {
			if p.x < 0 || p.x+p.w > right+0.001 {
				t.Fatalf("%q runs from %v to %v of %v", p.text, p.x, p.x+p.w, right)
			}
		}
	})
}

// set joins what stands in the lines.
func set(g *galley) string {
	var out strings.Builder
	for _, p := range g.pieces {
		out.WriteString(p.text)
	}
	return out.String()
}

func TestLongWordIsCutAtAMark(t *testing.T) {
	g := galley{faces: testFaces(t)}
	g.set(measure{right: 100}, span{text: "scans/2026-11-07/aldermoor-long-kiln-3a.tif", style: plain})
	for i, l := range g.lines[:len(g.lines)-1] {
		text := g.pieces[l.to-1].text
		if !strings.ContainsAny(text[len(text)-1:], "/-_.") {
			t.Errorf("line %d ends with %q", i, text)
		}
	}
	if len(g.lines) < 2 {
		t.Error("the word was not cut")
	}
}

// However deep quotes are nested, their bars stay in the column.
func TestBarsStayInTheColumn(t *testing.T) {
	g := galley{faces: testFaces(t)}
	p := prose{galley: &g, right: 450}
	p.block(extreme().Outings[0].Entries[0].Prose, 0)
	bars := 0
	for _, l := range g.lines {
		for _, at := range l.bars {
			bars++
			if at < 0 || at > 450 {
				t.Fatalf("a bar at %v", at)
			}
		}
	}
	if bars == 0 {
		t.Error("no bars")
	}
}

func TestPlainLineIsOnePiece(t *testing.T) {
	g := galley{faces: testFaces(t)}
	g.set(measure{right: 400}, span{text: "a line of many words in one face", style: plain})
	if len(g.pieces) != 1 || len(g.lines) != 1 {
		t.Errorf("%d pieces in %d lines", len(g.pieces), len(g.lines))
	}
}

func TestSurrogates(t *testing.T) {
	// UTF-8 of the surrogates D83D DCF7 (CESU-8, Unicode Technical Report 26)
	if got := surrogates("a📷"); got != "a\xed\xa0\xbd\xed\xb3\xb7" {
		t.Errorf("%q", got)
	}
	if got := surrogates("Ω"); got != "Ω" {
		t.Errorf("%q", got)
	}
}

// A short paragraph is read without turning the page; of a longer one no line stands alone.
// White below a line that is kept, such as a heading, parts nothing.
func TestParagraphsAndHeadingsAreKept(t *testing.T) {
	g := &galley{faces: testFaces(t)}
	for _, c := range []struct {
		lines int
		kept  string // a line that stays with the next is a +
	}{{1, "-"}, {2, "+-"}, {4, "+++-"}, {5, "++++-"}, {7, "+----+-"}} {
		g.lines, g.pieces = nil, nil
		g.set(measure{right: 300}, span{text: strings.TrimSuffix(strings.Repeat("a line\n", c.lines), "\n"), style: plain})
		kept := ""
		for _, l := range g.lines {
			kept += map[bool]string{true: "+", false: "-"}[l.keep]
		}
		if kept != c.kept {
			t.Errorf("%d lines are kept as %s, not %s", c.lines, kept, c.kept)
		}
	}
	b := &book{galley: galley{faces: testFaces(t)}}
	b.lines = []line{{h: grid, keep: true}, {h: grid, gap: true}, {h: grid, keep: true}, {h: grid}, {h: grid, gap: true}}
	if end, h := b.block(0); end != 4 || h != 4*grid {
		t.Errorf("the heading is kept with %d lines, %g points", end, h)
	}
}
