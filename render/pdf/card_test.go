package pdf

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// cardFixture is a kit of some filters and lenses, with names that are long.
func cardFixture(filters, lenses int) *record.Card {
	card := &record.Card{Title: "Aldermoor 2026"}
	for i := range filters {
		f := record.CardFilter{Name: fmt.Sprintf("F%d", i+1), Stops: record.Known(float64(i+1) / 3), Detail: "×2", Own: i%3 > 0}
		if i == 1 {
			f.Name = "the graduated one that was borrowed in spring and never went back"
		}
		if i == 2 {
			f.Per = []record.Fact{{Name: "tungsten", Value: "2⅓ stops"}}
		}
		card.Filters = append(card.Filters, f)
		for _, other := range card.Filters[:i] {
			card.Stacks = append(card.Stacks, record.CardStack{First: other.Name, Second: f.Name, Stops: exposure.Round(other.Stops.Value + f.Stops.Value)})
		}
	}
	for i := range lenses {
		l := record.CardLens{Name: fmt.Sprint(90 + 60*i), Facts: []record.Fact{{Name: "apertures", Value: "f/8 to f/45"}, {Name: "shutter", Value: "T, B, 1 s, ½, ¼, ⅛, 1/15, 1/30, 1/60, 1/125"}}}
		for third := 1; third <= 12; third++ {
			l.Rows = append(l.Rows, record.CardRow{What: fmt.Sprintf("%d mm", 100+20*third), Costs: exposure.FormatAmount(float64(third) / 3), More: "1:2.5"})
		}
		card.Lenses = append(card.Lenses, l)
	}
	card.Films = []record.CardFilm{{Name: "sedge", Facts: []record.Fact{{Name: "index", Value: "EI 64"}}, Rule: "t^1.31 over 1 s",
		Rows: []record.CardRow{{What: "2 s", Costs: "2.5 s", More: "×1.2"}, {What: "240 s", Costs: "beyond the rule"}}}}
	for zone := 0.0; zone <= 10; zone++ {
		card.Zones = append(card.Zones, record.CardZone{Zone: exposure.Roman(zone), Stops: exposure.FormatStops(zone - 5)})
	}
	card.Lights = []record.CardLight{{Name: "full sun", Aperture: "f/16", EV100: "EV 15", Source: "common practice, no source"}}
	return card
}

// cardWord is a word of a card as poppler finds it, in points from the top left.
type cardWord struct {
	XMin float64 `xml:"xMin,attr"`
	YMin float64 `xml:"yMin,attr"`
	XMax float64 `xml:"xMax,attr"`
	YMax float64 `xml:"yMax,attr"`
	Text string  `xml:",chardata"`
}

// wordsOfCard are the words of each page.
func wordsOfCard(t *testing.T, file string) (pages [][]cardWord) {
	t.Helper()
	raw, err := exec.Command(tool(t, "pdftotext"), "-bbox", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Pages []struct {
			Words []cardWord `xml:"word"`
		} `xml:"body>doc>page"`
	}
	d := xml.NewDecoder(bytes.NewReader(raw))
	d.Strict, d.Entity = false, xml.HTMLEntity
	if err := d.Decode(&doc); err != nil {
		t.Fatal(err)
	}
	for _, p := range doc.Pages {
		pages = append(pages, p.Words)
	}
	return pages
}

// rowsOfCard are the rows of type of every panel, as they read when the panel
// stands upright.
func rowsOfCard(t *testing.T, file string, l leaflet) (all []string) {
	t.Helper()
	sides := 1
	if l.panels[1].back {
		sides = 2
	}
	for n, words := range wordsOfCard(t, file) {
		for _, p := range l.panels {
			if p.back != (n%sides == 1) {
				continue
			}
			for column := range l.across {
				all = append(all, rowsOf(words, p, &l, column)...)
			}
		}
	}
	return all
}

func rowsOf(words []cardWord, p panel, l *leaflet, column int) []string {
	type at struct {
		x, y float64
		text string
	}
	var here []at
	for _, w := range words {
		x, y := (w.XMin+w.XMax)/2-p.x, (w.YMin+w.YMax)/2-p.y
		if x < 0 || y < 0 || x > l.w || y > l.h {
			continue
		}
		if p.turned {
			x, y = l.w-x, l.h-y
		}
		if l.across == 1 || (x > l.w/2) == (column == 1) {
			here = append(here, at{x, y, w.Text})
		}
	}
	slices.SortFunc(here, func(a, b at) int {
		if math.Abs(a.y-b.y) > 3 {
			return cmp.Compare(a.y, b.y)
		}
		return cmp.Compare(a.x, b.x)
	})
	var rows []string
	for i, w := range here {
		if i > 0 && w.y-here[i-1].y < 3 {
			rows[len(rows)-1] += " " + w.text
		} else {
			rows = append(rows, w.text)
		}
	}
	return rows
}

func writeCard(t *testing.T, card *record.Card, o CardOptions) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteCard(&b, card, o); err != nil {
		t.Fatal(err)
	}
	if !IsCard(b.Bytes()) {
		t.Error("a card is not known as one")
	}
	file := filepath.Join(t.TempDir(), "card.pdf")
	if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

// every way a card is folded, with a kit that fits one sheet and one that does
// not.
func everyCard(t *testing.T, do func(t *testing.T, card *record.Card, o CardOptions)) {
	for _, paper := range []Paper{A4, Letter} {
		for _, fold := range []Fold{ToQuarter, ToPocket} {
			for _, filters := range []int{3, 16} {
				t.Run(fmt.Sprint(papers[paper].name, fold, filters), func(t *testing.T) {
					do(t, cardFixture(filters, filters/3), CardOptions{Paper: paper, Fold: fold})
				})
			}
		}
	}
}

func TestCardStaysInItsPanels(t *testing.T) {
	everyCard(t, func(t *testing.T, card *record.Card, o CardOptions) {
		l, err := leafletOf(o)
		if err != nil {
			t.Fatal(err)
		}
		sides := 2
		if o.Fold == ToPocket {
			sides = 1
		}
		for n, words := range wordsOfCard(t, writeCard(t, card, o)) {
			for _, w := range words {
				if w.Text == "fold" || w.Text == "fold," || w.Text == "then" || w.Text == "cut" || w.Text == "first" {
					continue // the marks stand at the folds
				}
				if foot := l.panels[pocketRows-1].y + l.h; o.Fold == ToPocket && w.YMin > foot+8 && w.YMax < l.paper.h-18 && w.XMin >= l.panels[pocketRows].x-1 && w.XMax <= l.panels[0].x+l.w+1 {
					continue // how it is folded is said below the strip
				}
				inside := false
				for _, p := range l.panels {
					const bled = 4.5 // at least, from the edge
					inside = inside || p.back == (n%sides == 1) && w.XMin >= p.x+bled && w.XMax <= p.x+l.w-bled && w.YMin >= p.y+bled && w.YMax <= p.y+l.h-bled
				}
				if !inside {
					t.Errorf("page %d: %q at %.0f–%.0f × %.0f–%.0f is in no panel", n+1, w.Text, w.XMin, w.XMax, w.YMin, w.YMax)
				}
			}
		}
	})
}

func TestCardHoldsEveryFigure(t *testing.T) {
	everyCard(t, func(t *testing.T, card *record.Card, o CardOptions) {
		c, _, err := setCard(card, o)
		if err != nil {
			t.Fatal(err)
		}
		rows := rowsOfCard(t, writeCard(t, card, o), c.leaflet)
		want := []string{"III −2", "full sun f/16 15", "2 s 2.5 s ×1.2", "140 mm ⅔ 1:2.5", "tungsten 2⅓"}
		for _, f := range card.Filters {
			name := f.Name
			if !f.Own {
				name += " *"
			}
			want = append(want, lastWords(name)+" "+exposure.FormatAmount(f.Stops.Value))
		}
		for _, s := range card.Stacks {
			want = append(want, lastWords(s.First+" + "+s.Second)+" "+exposure.FormatAmount(s.Stops))
		}
		for _, w := range want {
			if !slices.ContainsFunc(rows, func(row string) bool { return row == w || strings.HasSuffix(row, " "+w) }) {
				t.Errorf("no row of the card says %q", w)
			}
		}
		if text := strings.Join(rows, " "); !strings.Contains(text, "Never look at the sun through a lens, a filter or a spot meter.") || !strings.Contains(text, "beyond the rule") {
			t.Error("the caution, or what no rule reaches, is not on the card")
		}
	})
}

// lastWords is what of a name must stand in the row of its figure: a long one is
// broken.
func lastWords(name string) string {
	words := strings.Fields(name)
	return strings.Join(words[max(0, len(words)-1):], " ")
}

func TestCardIsSoundAndTheSameEachTime(t *testing.T) {
	everyCard(t, func(t *testing.T, card *record.Card, o CardOptions) {
		file := writeCard(t, card, o)
		run(t, "qpdf", "--check", file)
		first, _ := os.ReadFile(file)
		again, _ := os.ReadFile(writeCard(t, card, o))
		if !bytes.Equal(first, again) {
			t.Error("the same card is written differently")
		}
	})
}

// Folded, the panels must come in their order: leaf by leaf back to back, and
// side by side where the paper is folded.
func TestCardReadsInOrderWhenFolded(t *testing.T) {
	l, _ := leafletOf(CardOptions{})
	for leaf := 0; leaf < perSheet; leaf += 2 {
		front, back := l.panels[leaf], l.panels[leaf+1]
		if front.back {
			front, back = back, front
		}
		// Turned over its long edge the paper keeps up and down, and its left comes right.
		if !back.back || math.Abs(front.x+back.x+l.w-l.paper.w) > .01 || front.y != back.y || front.turned != back.turned {
			t.Errorf("%d and %d are not back to back", leaf+1, leaf+2)
		}
	}
	for i, p := range l.panels {
		if p.turned != (p.y < l.h) {
			t.Errorf("%d stands wrongly: only what is folded over is on its head", i+1)
		}
	}
	for _, pair := range [][2]int{{1, 2}, {5, 6}} { // face one another across the upper fold
		a, b := l.panels[pair[0]], l.panels[pair[1]]
		if a.back != b.back || a.x != b.x || math.Abs(a.y-b.y) != l.h {
			t.Errorf("%d does not face %d", pair[0]+1, pair[1]+1)
		}
	}
	if a, b := l.panels[7], l.panels[0]; a.back || b.back || a.y != b.y || b.x <= a.x {
		t.Error("1 is not in front, with its fold at the left")
	}
	p, _ := leafletOf(CardOptions{Fold: ToPocket})
	if math.Abs(p.w*25.4/72-85.6) > .1 || math.Abs(p.h*25.4/72-53.98) > .1 {
		t.Errorf("a pocket card of %.1f × %.1f mm; ISO/IEC 7810 has 85.60 × 53.98", p.w*25.4/72, p.h*25.4/72)
	}
	if l.least < 7 || p.least < 7 {
		t.Error("type that is too small to read at arm's length")
	}
}

// A row of a table stands on one line: where larger type would break it, the type is
// smaller, and no smaller than that. A small kit is set larger than a large one.
func TestCardBreaksNoRow(t *testing.T) {
	const long = "sand or snow in the sun"
	sizes := map[int]float64{}
	for _, filters := range []int{4, 12} {
		card := cardFixture(filters, 4)
		card.Filters[1].Name = "F2"
		card.Stacks = nil
		for i, f := range card.Filters {
			for _, other := range card.Filters[:i] {
				card.Stacks = append(card.Stacks, record.CardStack{First: other.Name, Second: f.Name, Stops: exposure.Round(other.Stops.Value + f.Stops.Value)})
			}
		}
		card.Lights[0].Name = long
		c, columns, err := setCard(card, CardOptions{})
		if err != nil {
			t.Fatal(err)
		}
		if panels := (len(columns) + c.across - 1) / c.across; panels > perSheet {
			t.Errorf("%d filters take %d panels", filters, panels)
		}
		sizes[filters] = c.size
		rows := rowsOfCard(t, writeCard(t, card, CardOptions{}), c.leaflet)
		if !slices.Contains(rows, long+" f/16 15") {
			t.Errorf("%d filters, %g points: no row says %q with its figures", filters, c.size, long)
		}
		c.size += .5
		if across := c.across; across == 2 {
			if c.try(card); !c.broken {
				t.Errorf("%d filters: the row would not be broken in %g points", filters, c.size)
			}
		}
	}
	if sizes[4] <= sizes[12] || sizes[12] < 9 {
		t.Errorf("the type has %g points for 4 filters and %g for 12", sizes[4], sizes[12])
	}
}

// The table of a film or a lens that a panel can hold stands on one, on either fold; and no
// second sheet is printed for a few lines, least of all for how the first is folded.
func TestCardKeepsThingsOnOnePanel(t *testing.T) {
	for _, fold := range []Fold{ToQuarter, ToPocket} {
		card := cardFixture(4, 3)
		for i := range 2 {
			film := record.CardFilm{Name: fmt.Sprint("long ", i), Facts: []record.Fact{{Name: "box speed", Value: "ISO 100"}}, Rule: "t^1.31 over 1s"}
			for k := range 12 {
				film.Rows = append(film.Rows, record.CardRow{What: fmt.Sprint(k+1, "m"), Costs: fmt.Sprint(2*k+3, "m"), More: "×2"})
			}
			card.Films = append(card.Films, film)
		}
		c, columns, err := setCard(card, CardOptions{Fold: fold})
		if err != nil {
			t.Fatal(err)
		}
		on := map[int]int{} // the panels of lines
		for n, column := range columns {
			for _, at := range column {
				on[at.line] = n/c.across + 1
			}
		}
		for _, b := range c.blocks {
			for i := b.title; i < b.to && b.thing; i++ {
				if on[i] != on[b.to-1] {
					t.Errorf("%v: line %d of a table stands on panel %d, its last on %d", fold, i-b.from, on[i], on[b.to-1])
				}
			}
		}
		if len(columns) > c.across*perSheet {
			t.Errorf("%v: %d columns of %d a panel", fold, len(columns), c.across)
		}
	}
}
