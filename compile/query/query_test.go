package query

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"notchbook/compile"
	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// season compiles a notebook behind a kit.
func season(t testing.TB, notes string) *record.Season {
	t.Helper()
	s, _ := compile.Compile(compile.World{Read: func(string) ([]byte, error) { return []byte(notes), nil }}, "notes.md")
	return s
}

const moor = `# Moor and mill

film slate: ISO 400, EI 250, pan, reciprocity 2s=3s 4s=7s
film plate: ortho, EI 12
lens 210: 210 mm, f5.6-f64
lens 300: 300 mm
filter Y8: yellow, Wratten 8, x2
filter R25: red, Wratten 25, x8
filter pol: 1½ stops
call: gold = Y8

day: 2026-10-04, Aldermoor
load 1A-3B: slate
Frost on the reeds, and a heron.

scene: The café wall
lens: 210
meter: EV 11½
1A: no filter, 1/30 f16½
1B: yellow 8, 1/15 f16, N-1
2A: #25 + pol, 2s f16, N-1, rise 12
2B: K2, 1/8 f11, ext 260mm -- the kiln's door

day: 2026-11-07, the mill
scene: Weir
lens: 300
3A: unused
3B: 1/60 f8, neg 26-041, at 14:30
develop 1A 1B: 2026-11-09, N
`

// What stands in the notes' words is no label, and a word may have a stroke.
func TestFindInWords(t *testing.T) {
	s := season(t, "day: 1979-06-14\n2: 1/8 f16 -- blown w/a and dark\n3: 1/8 f16 -- grade 2\n\nday: 1986-11-07\n86-041: 1/8 f16, neg 86-041\n86-042: 1/8 f16, neg 86-042\n86-044: 1/8 f16, neg 86-044\n")
	book := Open(Index(s))
	for q, want := range map[string]string{
		"grade 2": "3", `"grade 2"`: "3", "2": "2", "w/a": "2", "14/6/79": "2 3", "14.6.1979": "2 3", "7.XI.86": "86-041 86-042 86-044",
		"7 November 1986": "86-041 86-042 86-044", "86-041..86-043": "86-041 86-042", "86-042 to 86-044": "86-042 86-044", "1986-10..1986-11": "86-041 86-042 86-044",
	} {
		var got []string
		for _, i := range book.Find(q).Sheets {
			got = append(got, s.Sheets[i].Label)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%s finds %v, want %s", q, got, want)
		}
	}
}

// Prose right above a scene's line may be of the scene before and of the one below: its words find both.
func TestFindByProseBetweenScenes(t *testing.T) {
	s := season(t, "day: 2026-10-10\nOut early.\n\nscene: hawthorn\n1A: 1/8 f16\n\nA wren in it.\n1B: 1/8 f16\n\nTeatime, nearly dark\nscene: culvert\n2A: 1/8 f16\nscene: weir\n2B: 1/8 f16\n")
	book := Open(Index(s))
	for q, want := range map[string]string{"early": "1A 1B", "wren": "1A 1B", "teatime": "1A 1B 2A"} {
		var got []string
		for _, i := range book.Find(q).Sheets {
			got = append(got, s.Sheets[i].Label)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%s finds %v, want %s", q, got, want)
		}
	}
}

// A word is found without the article or preposition that is joined to it, and with it.
func TestFindBehindElision(t *testing.T) {
	s := season(t, "day: 1963-06-03\nscene: L'\u00e9cluse, vue du pont\n1A: 1/8 f16\nscene: le toit de l\u2019auvent\n1B: 1/8 f16 -- Pont D\u2019Orvelle\n2A: 1/8 f16 -- all'ora\n")
	book := Open(Index(s))
	for q, want := range map[string]int{"\u00e9cluse": 1, "ecluse": 1, "\"\u00c9cluse\"": 1, "l'\u00e9cluse": 1, "L\u2019\u00e9cluse": 1, "auvent": 2, "orvelle": 1, "d'orvelle": 1, `"ora"`: 0} {
		if got := len(book.Find(q).Sheets); got != want {
			t.Errorf("%s finds %d sheets, want %d", q, got, want)
		}
	}
}

// A name of the kit is that thing, used or not; near the sheets the same word is found in
// quotation marks.
func TestKitBeforeWords(t *testing.T) {
	s := season(t, "film slate: ISO 400\nfilm quartz: ISO 100\nlens 90: 90 mm\nfilter R25: x8\nfilter Y8: x2\nload 1A-3B: slate\nday: 2026-11-07\nmeter: 1/60 f16\n"+
		"1A: R25, 1/8 f16\n1B: 1/60 f16 -- yellow leaves\n2A: 1/60 f16 -- quartz vein\n")
	book := Open(Index(s))
	for q, want := range map[string]string{
		"red": "filter R25: 1A", "R25": "filter R25: 1A", "yellow": "filter Y8:", "K2": "filter Y8:", "filter Y8": "filter Y8:", `"yellow"`: `"yellow": 1B`,
		"quartz": "film quartz:", `"quartz"`: `"quartz": 2A`, "90 mm": "lens 90: 1A 1B 2A", "leaves": "leaves…: 1B",
	} {
		a := book.Find(q)
		got := strings.Join(a.Read, ", ") + ":"
		for _, i := range a.Sheets {
			got += " " + s.Sheets[i].Label
		}
		if got != want || len(a.Lost) > 0 {
			t.Errorf("%s: %q, lost %q, want %q", q, got, a.Lost, want)
		}
	}
}

// All exposures of a sheet that has more than one are found, be it meant or not; several
// exposures in one line's time are one.
func TestFindDoubleExposures(t *testing.T) {
	s := season(t, "day: 2026-10-04, Mill\nmeter: 1/60 f16\nload 1A-3B: slate\n1A: 1/60 f16\n1B: 1/120 f16\n1B: again, 1/120 f16\n2A: 4 x 1s f16\n2B: 1/60 f16\n3A: 1/60 f16\n3A: second exposure, 1/60 f16\n")
	book := Open(Index(s))
	for q, want := range map[string]string{
		"double": "1B 1B'2 3A 3A'2", "double exposures": "1B 1B'2 3A 3A'2", "twice exposed": "1B 1B'2 3A 3A'2", "exposed twice": "1B 1B'2 3A 3A'2", "not double": "1A 2A 2B",
	} {
		var got []string
		for _, i := range book.Find(q).Sheets {
			got = append(got, s.Sheets[i].Label)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%s finds %v, want %s", q, got, want)
		}
	}
}

// Each line is a query and the sheets it fits.
func TestFind(t *testing.T) {
	cases := []struct{ query, want string }{
		{"", "1A 1B 2A 2B 3A 3B"},
		{"R25", "2A"}, {"r 25", "2A"}, {"red", "2A"}, {"red 25", "2A"}, {"W25", "2A"}, {"wratten 25", "2A"}, {"#25", "2A"},
		{"Y8", "1B 2B"}, {"yellow 8", "1B 2B"}, {"K2", "1B 2B"}, {"w8", "1B 2B"}, {"gold", "1B 2B"},
		{"pol", "2A"}, {"polarizer R25", "2A"}, {"no filter", "1A 3B"}, {"no pol", "1A 1B 2B 3A 3B"},
		{"N-1", "1B 2A"}, {"N−1", "1B 2A"}, {"n minus 1", "1B 2A"}, {"N", ""},
		{"26-040..26-050", "3B"}, {"26-040 to 26-050", "3B"}, {"26-042..26-050", ""}, {"7.XI.2026", "3A 3B"}, {"7 November 2026", "3A 3B"}, {"4.10.26", "1A 1B 2A 2B"},
		{"developed", "1A 1B"}, {"undeveloped", "2A 2B 3B"}, {"developed N", "1A 1B"}, {"developed N-1", ""}, {"otherwise", "1B"},
		{"f16", "1B 2A"}, {"f/16", "1B 2A"}, {"f16½", "1A"}, {"f16.5", "1A"}, {"f 16", "1B 2A"},
		{"1/15", "1B"}, {"1/15s", "1B"}, {"2s", "2A"}, {"2 sec", "2A"}, {"reciprocity", "2A"},
		{"EV 11½", "1A 1B 2A 2B"}, {"EV 11.5", "1A 1B 2A 2B"}, {"ev11+1/2", "1A 1B 2A 2B"}, {"EV 11", ""},
		{"ext 260", "2B"}, {"ext 26cm", "2B"}, {"bellows 260 mm", "2B"}, {"close-up", "2B"},
		{"rise", "2A"}, {"rise 12", "2A"}, {"rise 12 mm", "2A"}, {"rise 15", ""},
		{"3A", "3A"}, {"holder 3", "3A 3B"}, {"side 1b", "1B"}, {"neg 26-041", "3B"}, {"26-041", "3B"},
		{"slate", "1A 1B 2A 2B 3A 3B"}, {"plate", ""}, {"210", "1A 1B 2A 2B"}, {"lens 300", "3A 3B"}, {"300mm", "3A 3B"},
		{"unused", "3A"}, {"unchecked", "1B 2A 2B 3B"}, {"unscanned", "1A 1B 2A 2B 3B"}, {"no scan", "1A 1B 2A 2B 3B"}, {"not scanned", "1A 1B 2A 2B 3B"}, {"without a scan", "1A 1B 2A 2B 3B"},
		{"2026", "1A 1B 2A 2B 3A 3B"}, {"2026-11", "3A 3B"}, {"2026-10-04", "1A 1B 2A 2B"}, {"2026-10..2026-11", "1A 1B 2A 2B 3A 3B"},
		{"..2026-10", "1A 1B 2A 2B"}, {"2026-10-05…", "3A 3B"}, {"2027..", ""}, {"october", "1A 1B 2A 2B"}, {"nov 2026", "3A 3B"},
		{"café", "1A 1B 2A 2B"}, {"CAFE wall", "1A 1B 2A 2B"}, {"heron", "1A 1B 2A 2B"}, {"hero", "1A 1B 2A 2B"}, {`"hero"`, ""},
		{"kiln's", "2B"}, {"kiln’s door", "2B"}, {"mill", "1A 1B 2A 2B 3A 3B"}, {"weir", "3A 3B"}, {"zeppelin", ""},
		{"not Y8", "1A 2A 3A 3B"}, {"not not Y8", "1B 2B"}, {"Y8 or R25", "1B 2A 2B"}, {"Y8 or R25 N-1", "1B 2A"},
		{"not Y8 not R25", "1A 3A 3B"}, {"Y8, f11", "2B"}, {"or", "1A 1B 2A 2B 3A 3B"}, {"not", "1A 1B 2A 2B 3A 3B"}, {"Y8 or", "1B 2B"},
		{"café/wall", "1A 1B 2A 2B"}, {"exposure-off", "1A"}, {"f8", "3B"}, {"f8.5", ""}, {"16", ""},
	}
	s := season(t, moor)
	book := Open(Index(s))
	for _, c := range cases {
		var got []string
		for _, i := range book.Find(c.query).Sheets {
			got = append(got, s.Sheets[i].Label)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: found %q, want %s", c.query, got, c.want)
		}
	}
}

// Sheets that are off by 0, ⅓, ½, ⅔, 1, 1⅓ and 2 stops, over and under: more than an
// amount is not the amount itself.
func TestFindBeyondAnAmount(t *testing.T) {
	s := season(t, "film slate: ISO 100\ntolerance: 0.1 stop\nday: 2026-10-04\nload 1A-8B: slate\nmeter: 1/60 f16\n1A: 1/60 f16\n1B: 1/60 f11⅔\n2A: 1/60 f11½\n2B: 1/60 f11⅓\n3A: 1/30 f16\n3B: 1/30 f11⅔\n4A: 1/15 f16\n"+
		"5A: 1/60 f16⅓\n5B: 1/60 f16⅔\n6A: 1/125 f16\n6B: 1/250 f16\n7A: 1/60? f8\n8A: unused\n")
	book := Open(Index(s))
	for query, want := range map[string]string{
		"off>1/3": "2A 2B 3A 3B 4A 5B 6A 6B", "off > ⅓ stop": "2A 2B 3A 3B 4A 5B 6A 6B", "off>.5": "", "off>1/2": "2B 3A 3B 4A 5B 6A 6B", "off>0.5": "2B 3A 3B 4A 5B 6A 6B",
		"off>2/3": "3A 3B 4A 6A 6B", "off >⅔": "3A 3B 4A 6A 6B", "OFF> 2/3 stops": "3A 3B 4A 6A 6B", "off>1": "3B 4A 6B", "over>1": "3B 4A", "under>1": "6B", "off>1⅓": "4A 6B", "off>1+1/3": "4A 6B",
		"off>2": "", "off>4": "", "not off>2/3": "1A 1B 2A 2B 5A 5B 7A 8A", "under>1/3 undeveloped": "5B 6A 6B",
	} {
		var got []string
		for _, i := range book.Find(query).Sheets {
			got = append(got, s.Sheets[i].Label)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%s: found %q, want %s", query, got, want)
		}
	}
}

// What a word says of a sheet goes before the word: a flash that was brought along lit nothing, and
// what lies under a bridge is not underexposed. In quotation marks it is the word.
func TestFindWhatAWordSaysOfASheet(t *testing.T) {
	const log = "film slate: ISO 100, EI 100\nday: 2026-10-04\nscene: Mill\nmeter: EV 12\nNobody wanted the flash, stored under the seat.\n" +
		"1A: slate, 1/30 f11\n1B: slate, flash, 1/60 f16\n2A: slate, 1/15 f16 -- no flash\n2B: slate, 1/15 f16 -- fill flash\n" +
		"3A: slate, 1/60 f16\nscene: Under the bridge, over or under the weir\nmeter: EV 12\n3B: slate, 1/8 f16\n"
	s := season(t, log)
	book := Open(Index(s))
	for query, want := range map[string]string{
		"flash": "1B 2B", "not flash": "1A 2A 3A 3B", "flash right": "2B", `"flash"`: "1A 1B 2A 2B 3A", "flashlight": "",
		"under": "3A", "over": "3B", "over or under": "3A 3B", "under the bridge": "3B", "under the brid": "3B", "under 2026-10": "3A", `"under"`: "1A 1B 2A 2B 3A 3B",
	} {
		var got []string
		for _, i := range book.Find(query).Sheets {
			got = append(got, s.Sheets[i].Label)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%s: found %q, want %s", query, got, want)
		}
	}
	s = season(t, strings.ReplaceAll(strings.ReplaceAll(log, "slate, flash", "slate"), "fill flash", "fill card"))
	if a := Open(Index(s)).Find("flash"); len(a.Sheets) != 5 { // said of no sheet, it is a word
		t.Errorf("flash: %v", a)
	}
}

// The specification's queries find what it says.
func TestNotationFinds(t *testing.T) {
	text, err := os.ReadFile("../../lang/NOTATION.md")
	if err != nil {
		t.Fatal(err)
	}
	block := func(kind string) string {
		_, rest, _ := strings.Cut(string(text), "```"+kind+"\n")
		inner, _, _ := strings.Cut(rest, "```")
		return inner
	}
	s := season(t, block("notes"))
	book := Open(Index(s))
	lines := strings.Split(strings.TrimSpace(block("find")), "\n")
	if len(lines) < 15 {
		t.Fatalf("only %d queries", len(lines))
	}
	for _, line := range lines {
		q, want, _ := strings.Cut(line, "=")
		var got []string
		for _, i := range book.Find(q).Sheets {
			got = append(got, s.Sheets[i].Label)
		}
		if strings.Join(got, " ") != strings.TrimSpace(want) {
			t.Errorf("%s finds %q", line, got)
		}
	}
}

// BenchmarkFind is a query on the shipped season, and BenchmarkIndex its index.
func BenchmarkFind(b *testing.B) {
	book := Open(Index(aldermoor(b)))
	for b.Loop() {
		book.Find("R25 or Y8 kiln not right 2026-10..")
	}
}

func BenchmarkIndex(b *testing.B) {
	s := aldermoor(b)
	for b.Loop() {
		Index(s)
	}
}

func TestWhatIsNotKnownIsSaid(t *testing.T) {
	a := Open(Index(season(t, moor))).Find("R25 zeppelin")
	if !slices.Equal(a.Lost, []string{"zeppelin"}) || !slices.Equal(a.Read, []string{"filter R25", "zeppelin"}) {
		t.Errorf("lost %q, read %q", a.Lost, a.Read)
	}
}

// aldermoor compiles the shipped season without its scans.
func aldermoor(t testing.TB) *record.Season {
	t.Helper()
	dir := "../../examples/aldermoor"
	s, _ := compile.Compile(compile.World{Read: func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(dir, name)) }},
		"2026-10-04-brickworks.md", "2026-10-25-drying-shed.md", "2026-11-07-wharf.txt")
	return s
}

// The laws of sets hold whatever is asked.
func TestQueriesAreSetsOfSheets(t *testing.T) {
	f := Index(aldermoor(t))
	book := Open(f)
	ask := func(q string) []int { return book.Find(q).Sheets }
	rapid.Check(t, func(t *rapid.T) {
		a, b := Sample(f, t, "a"), Sample(f, t, "b")
		own := slices.ContainsFunc(f.Terms, func(of record.Findable) bool { return slices.Contains(of.Spelled, "not "+a) })
		if got := len(ask(a)) + len(ask("not "+a)); got != f.Sheets && !own { // not scanned is said of what was exposed
			t.Fatalf("%q and its turn are %d sheets of %d", a, got, f.Sheets)
		}
		both, either := ask(a+" "+b), ask(a+" or "+b)
		if len(both)+len(either) != len(ask(a))+len(ask(b)) {
			t.Fatalf("%q, %q: %d both, %d either", a, b, len(both), len(either))
		}
	})
}

// Sample draws a term, a date or a word as somebody would write it.
func Sample(f *record.Finder, t *rapid.T, label string) string {
	switch rapid.IntRange(0, 2).Draw(t, label+" kind") {
	case 0:
		spelled := rapid.SampledFrom(f.Terms).Draw(t, label)
		return rapid.SampledFrom(spelled.Spelled).Draw(t, label+" spelled")
	case 1:
		return rapid.SampledFrom(f.Dates).Draw(t, label).Name
	}
	return `"` + rapid.SampledFrom(f.Words).Draw(t, label).Name + `"`
}

func FuzzFind(f *testing.F) {
	book := Open(Index(season(f, moor)))
	for _, seed := range []string{"R25 N-1", "not", "or or not", `"`, "2026..", "f16½", "ＹＥＬＬＯＷ ８", "\xff\xfe", "no no filter"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		a := book.Find(text)
		for i, s := range a.Sheets {
			if s < 0 || s >= 6 || i > 0 && s <= a.Sheets[i-1] {
				t.Fatalf("%q: sheets %v", text, a.Sheets)
			}
		}
		if again := Fold(Fold(text)); again != Fold(text) {
			t.Fatalf("%q folds to %q and then to %q", text, Fold(text), again)
		}
	})
}

// Whatever was written about a sheet finds it: the areas that were metered and by what, the
// light in its words and by what it counts as, what stands above the first heading of its day, and
// the folders that its notebook lies in.
func TestFindWhatWasWritten(t *testing.T) {
	notes := map[string]string{
		"hw/a.md": "meter dial: EV at 100\n\nday: 1993-05-05, Kiln\n\nSwallows in the rafters.\n\n# The nave\n\nscene: nave\nlight: lamp only\n" +
			"1A: shadow under the gallery EV 8 on III, f22 1/2\n7B: double exposure, bridge, f/11 2 x 1/30\nmeter: dial bark EV 9 on V\n8A: f16 1/4 -- no double exposure\n",
		"md/2024/b.md": "day: 1994-05-05, Weir\n2A: 1/8 f16\n",
	}
	world := compile.World{Read: func(name string) ([]byte, error) { return []byte(notes[name]), nil }}
	s, _ := compile.Compile(world, "hw/a.md", "md/2024/b.md")
	book := Open(Index(s))
	for q, want := range map[string]string{
		"gallery": "1A", "swallows": "1A 7B 8A", "double exposure": "7B", "lamp": "1A 7B 8A", "tungsten": "1A 7B 8A", "light tungsten": "1A 7B 8A", "dial": "8A", "meter dial": "8A", "bark": "8A",
		"hw": "1A 7B 8A", "in hw": "1A 7B 8A", "in md": "2A", "folder 2024": "2A", "2024": "", "not in hw": "2A",
	} {
		var got []string
		for _, i := range book.Find(q).Sheets {
			got = append(got, s.Sheets[i].Label)
		}
		if all := strings.Join(got, " "); all != want {
			t.Errorf("%s: %s, want %s", q, all, want)
		}
	}
}

// What is shown as 1½ stops under is not under by more than that, whatever the thousandths.
func TestFindBeyondWhatIsShown(t *testing.T) {
	s := season(t, "film slate: ISO 100, EI 100\nday: 2026-10-04\nload 1A-8B: slate\n1A: EV 12.04 on V, 1/60 f11\n1B: EV 8.46, 1/60 f11\n2A: EV 11.5, 1/60 f16\n")
	book := Open(Index(s))
	for _, sh := range s.Sheets {
		for _, c := range cuts {
			if !sh.Difference.Known || exposure.FormatAmount(math.Abs(sh.Difference.Value)) != exposure.FormatAmount(float64(c)) {
				continue
			}
			for _, i := range book.Find("off>" + exposure.FormatAmount(float64(c))).Sheets {
				if s.Sheets[i] == sh {
					t.Errorf("%s is %s off and is found beyond %s", sh.Label, exposure.OverUnder(sh.Difference.Value), exposure.FormatAmount(float64(c)))
				}
			}
		}
	}
}

// A word that is cut short is found by its letters, with its full stop or without; what a leaf is called
// of where negatives are filed may be whole or cut short.
func TestFolios(t *testing.T) {
	book := Open(Index(season(t, "day: 2026-11-14\nscene: gate (fol. 2v)\n1A: 1/8 f16\nscene: barn\n1B: 1/8 f16 -- as on fol. 3r\n2A: 1/8 f16\n2B: 1/8 f16\n"+
		"sleeve 2A: Album 4, fol. 12v\nsleeve 2B: Album 4, page 14\n")))
	for q, want := range map[string]int{
		"fol. 2v": 1, "fol 2v": 1, "fol.2v": 1, "fol. 3r": 1, "fol.": 3, "fol. 9": 0, "fol. 12v": 1, "folio 12v": 1, "fol 12v": 1, "f. 12v": 1, "album 4, fo. 12v": 1,
		"p. 14": 1, "p 14": 1, "page 14": 1, "sleeve p. 14": 1, "p. 12v": 0, "–": 0, ".": 0,
	} {
		if got := len(book.Find(q).Sheets); got != want {
			t.Errorf("%s: %d sheets, want %d", q, got, want)
		}
	}
}
