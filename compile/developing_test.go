package compile_test

import (
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/lang/diag"
)

const trayNotes = `film slate: ISO 400, EI 400, pan, N 6:15 at 20C, N 5:00 at 24C, N-1 5:00 at 20C, developer ash 1+31, capacity 2 sheets
film plate: ISO 25, EI 25, ortho
film curlew: ISO 25, EI 25, ortho, safelight deep red
develop: N
day: 2026-03-01
load 1A-3B: slate
load 4A: plate
load 4B: curlew
scene: Gate
meter: 1/30 f16
1A: 1/30 f16
1B: 1/30 f16
2A: 1/30 f16, N-1
2B: 1/4 f16
3A: 1/30 f16
3B: unused
4A: 1/30 f16
4B: 1/30 f16
`

func at(celsius float64, text string) *record.Season {
	read := func(string) ([]byte, error) { return []byte(text), nil }
	season, _ := compile.Compile(compile.World{Title: "Notes", Read: read, Celsius: celsius}, "notes.md")
	return season
}

func batchOf(t *testing.T, s *record.Season, film, n string) *record.Batch {
	t.Helper()
	for _, b := range s.ToDevelop.Batches {
		if b.Film == film && b.Development == n {
			return b
		}
	}
	t.Fatalf("no batch of %s at %s", film, n)
	return nil
}

// Arrhenius's law over a few degrees: the logarithm of the time is a straight
// line in the temperature, so halfway between two it is their geometric mean.
func TestTimesBetweenDeclaredTemperatures(t *testing.T) {
	b := batchOf(t, at(22, trayNotes), "slate", "N")
	if mean := math.Sqrt(375 * 300); math.Abs(b.Seconds.Value-mean) > 2.5 {
		t.Errorf("at 22 °C %v s, the geometric mean is %v", b.Seconds.Value, mean)
	}
	for celsius, want := range map[float64]float64{20: 375, 24: 300} {
		if b := batchOf(t, at(celsius, trayNotes), "slate", "N"); b.Seconds.Value != want {
			t.Errorf("at %v °C %v s, declared is %v", celsius, b.Seconds.Value, want)
		}
	}
}

// A film may be declared with two developers: the first that has a time is taken,
// with its own time, and the other stands beside it.
func TestEachDeveloperHasItsTimes(t *testing.T) {
	for _, c := range []struct{ kit, n, developer, time, others string }{
		{"N 9m at 20C, developer ash 1+31, developer brook 1+50, N 13m at 20C", "N", "ash 1+31", "9 min", "13 min at 20 °C in brook 1+50"},
		{"developer brook 1+50, N 13m at 20C, developer ash 1+31, N 9m at 20C, N 7m at 24C", "N", "brook 1+50", "13 min", "9 min at 20 °C in ash 1+31"},
		{"developer ash 1+31, N 9m at 20C, developer brook 1+50, N-1 10m at 20C", "N−1", "brook 1+50", "10 min", ""},
		{"developer ash 1+31, N 9m at 20C, developer brook 1+50, N 13m", "N", "ash 1+31", "9 min", "13 min in brook 1+50"},
		{"N 9m at 20C", "N", "", "9 min", ""},
	} {
		s := at(0, "film slate: ISO 400, pan, "+c.kit+"\nday: 2026-03-01\nload 1A: slate\nmeter: 1/30 f16\n1A: 1/30 f16, "+c.n+"\n")
		b := batchOf(t, s, "slate", c.n)
		if got := strings.TrimSpace(b.Developer + " " + b.Dilution); got != c.developer || b.Time != c.time || strings.Join(b.Others, "; ") != c.others {
			t.Errorf("%s: %s %s, others %q", c.kit, got, b.Time, b.Others)
		}
	}
}

// A verdict by the negative's number is its sheet's, also where the label was used
// again: the film that is said to be clear is the first day's.
func TestResultByNumber(t *testing.T) {
	s := at(0, "film slate: ISO 400\nday: 2026-03-01\nload 1A: slate\nmeter: 1/500 f16\n1A: 1/500 f16\nneg 1A: 26-001\nday: 2026-03-02\nload 1A: slate\nmeter: 1/500 f16\n1A: 1/500 f16\nresult 26-001: clear as glass\n")
	said := 0
	for _, f := range s.Findings {
		if f.Code == "cause-not-in-settings" {
			said++
			if len(f.Sheets) != 1 || f.Sheets[0].Number != "26-001" {
				t.Errorf("said of %v", f.Sheets)
			}
		}
	}
	if said != 1 {
		t.Errorf("what it looks like was taken up %d times", said)
	}
	for _, sh := range s.Sheets {
		if got := len(sh.Results); got != map[string]int{"26-001": 1}[sh.ID] {
			t.Errorf("%s has %d verdicts", sh.ID, got)
		}
	}
}

func TestNoTimeOutsideTheDeclaredTemperatures(t *testing.T) {
	for _, celsius := range []float64{19.9, 24.1, 30} {
		if b := batchOf(t, at(celsius, trayNotes), "slate", "N"); b.Seconds.Known || b.Time != "" || !strings.Contains(b.How, "outside the declared 20 °C to 24 °C") {
			t.Errorf("at %v °C: %q, %s", celsius, b.Time, b.How)
		}
	}
	if b := batchOf(t, at(22, trayNotes), "slate", "N−1"); b.Seconds.Known || !strings.Contains(b.How, "only 20 °C is") {
		t.Errorf("one temperature is no range: %q, %s", b.Time, b.How)
	}
}

func TestBatchesShareOneFilmAndDevelopment(t *testing.T) {
	s := at(0, trayNotes)
	b := batchOf(t, s, "slate", "N")
	var order []string
	for _, sh := range b.Sheets {
		order = append(order, sh.Sheet.Label)
	}
	if got := strings.Join(order, " "); got != "1A 1B 3A" {
		t.Errorf("in the tank are %s", got)
	}
	if b.Sheets[2].Run != 2 || b.Sheets[2].Order != 1 {
		t.Errorf("of two at once the third is run %d, order %d", b.Sheets[2].Run, b.Sheets[2].Order)
	}
	if b.Temperature != "20 °C" || b.Dilution != "1+31" || b.Developer != "ash" {
		t.Errorf("%q %q %q", b.Temperature, b.Developer, b.Dilution)
	}
	if len(s.ToDevelop.Held) != 1 || s.ToDevelop.Held[0].Sheet.Label != "2B" || s.ToDevelop.Held[0].Why != "3 stops over" {
		t.Errorf("held back: %+v", s.ToDevelop.Held)
	}
}

func TestDarknessAsTheFilmNeedsIt(t *testing.T) {
	s := at(0, trayNotes)
	for film, want := range map[string]string{"slate": "total darkness", "plate": "total darkness", "curlew": "safelight as declared: deep red"} {
		if b := batchOf(t, s, film, "N"); !strings.HasPrefix(b.Safelight, want) {
			t.Errorf("%s: %s", film, b.Safelight)
		}
	}
	pan := at(0, strings.Replace(trayNotes, "400, pan,", "400, pan, safelight green,", 1))
	if b := batchOf(t, pan, "slate", "N"); !strings.HasPrefix(b.Safelight, "total darkness") {
		t.Errorf("panchromatic film with a declared safelight: %s", b.Safelight)
	}
}

func TestAnOpenLineIsSettledByTheOther(t *testing.T) {
	for _, c := range []struct{ more, a, b string }{
		{"", "doubtful", "doubtful"},
		{"holder 1B: exposed\n", "developed", "exposed"},
		{"holder 1A: exposed?\n", "doubtful", "doubtful"},
	} {
		s := at(0, trayNotes+"develop 1A or 1B: 2026-03-04, N\n"+c.more)
		for _, h := range s.Holders {
			if want := map[string]string{"1A": c.a, "1B": c.b}[h.Label]; want != "" && string(h.State) != want {
				t.Errorf("%q: %s is %s, not %s", c.more, h.Label, h.State, want)
			}
		}
	}
}

func TestNumbersAreGivenOnce(t *testing.T) {
	s := at(0, trayNotes+"neg 1A 1B: 26-041 to 26-042\nneg 2A: 26-045\nneg 3A: 26-041\nneg 1B: 26-050\nsleeve 26-044: binder 1\n")
	if n := s.Negatives.Series[0]; n.Next != "26-046" || n.After != "26-045" {
		t.Errorf("next free %s after %s", n.Next, n.After)
	}
	var unlogged []string
	for _, u := range s.Negatives.Unlogged {
		unlogged = append(unlogged, u.Number)
	}
	if got := strings.Join(unlogged, " "); got != "26-043 26-044" {
		t.Errorf("without an entry: %s", got)
	}
	for _, sh := range s.Sheets {
		if want := map[string]string{"1A": "26-041", "1B": "26-042", "2A": "26-045"}[sh.Label]; sh.Number != want {
			t.Errorf("%s bears %q, not %q", sh.Label, sh.Number, want)
		}
	}
}

// A run of negatives is filed by its first number and its last, in whatever way a
// range is written.
func TestNegativesAreFiledByARange(t *testing.T) {
	for _, sep := range []string{" to ", " - ", "-", "–", " – ", " through "} {
		for _, c := range []struct{ first, last, given string }{{"26-041", "26-043", "26-041 26-042 26-043"}, {"N041", "N043", "N041 N042 N043"}, {"26-141", "26-143", "26-141 26-142 26-143"}} {
			line := "sleeve " + c.first + sep + c.last + ": binder 1, page 3\n"
			s := at(0, trayNotes+"neg 1A 1B 2A: "+c.given+"\nneg 3A: 27-001\n"+line)
			filed := ""
			for _, sh := range s.Sheets {
				if sh.Sleeve == "binder 1, page 3" {
					filed += " " + sh.Number
				}
			}
			if filed != " "+c.given || len(s.Negatives.Unlogged) != 0 {
				t.Errorf("%s files%s; without an entry: %v", line, filed, s.Negatives.Unlogged)
			}
		}
	}
	s := at(0, trayNotes+"neg 1A 1B: 26-041 26-042\nsleeve 26-041 to 26-049: binder 1\n")
	if n := s.Negatives.Unlogged; !slices.ContainsFunc(n, func(u record.UnloggedNote) bool { return u.Number == "26-041 to 26-049" }) {
		t.Errorf("a run to a number that was not given is taken: %v", n)
	}
}

func TestLossesAreWhatTheNotesSay(t *testing.T) {
	s := at(0, trayNotes+"result 1A: light leak along one edge\nresult 1B: keeper, dust in the sky\nresult 3A: shaken\ndevelop 2B: N\n"+
		"result 2A: no leak at all\nresult 4A: not a keeper, fogged\nresult 4B: darkslide left in, blank\n")
	got := map[string]string{}
	for _, l := range s.Losses {
		for _, sh := range l.Sheets {
			got[sh.Label] = l.Cause
		}
	}
	if want := map[string]string{"1A": "light leak", "3A": "camera shake", "2B": "off exposure", "4A": "fogged", "4B": "dark slide"}; !maps.Equal(got, want) {
		t.Errorf("lost: %v", got)
	}
}

// Develop lines take the dates that day lines take, and are warned of alike where nobody
// can say which figure is the month; a sheet's own line may say where it is filed.
func TestDatesOfDevelopment(t *testing.T) {
	for typed, ambiguous := range map[string]bool{"9.XI.26": false, "9 Nov 26": false, "9 November 2026": false, "9.11.26": false, "3/5/26": true} {
		s, list := compileText("day: 2026-11-07\n1A: 1/8 f16, N, binder 6 p 1\ndevelop 1A: " + typed + ", N, 9m\n")
		warned := slices.ContainsFunc(list, func(d diag.Diagnostic) bool { return d.Code == "date-ambiguous" })
		if d := s.Sheets[0].Developed; len(d) != 1 || d[0].Date != typed || d[0].Text != "N, 9m" || warned != ambiguous || s.Sheets[0].Sleeve != "binder 6 p 1" {
			t.Errorf("%s: %+v, warned %t, in %q", typed, d, warned, s.Sheets[0].Sleeve)
		}
	}
}

// A negative whose number is corrected has not been given another's.
func TestAmendedNumberIsNotReused(t *testing.T) {
	for text, want := range map[string]int{
		"sheet 1: neg 86-001\nsheet 2: neg 86-001\n":                      1,
		"sheet 1: neg 86-001\nsheet 2: neg 86-001\namend 2: neg 86-002\n": 0,
		"sheet 1: neg 86-001\nsheet 2: neg 86-001\namend 1: neg 86-000\n": 0,
	} {
		s, list := compileText("day: 1986-11-07\n" + text)
		reused := 0
		for _, d := range list {
			if d.Code == "number-reused" {
				reused++
			}
		}
		if reused != want || want == 0 && (len(s.Sheets) != 2 || s.Sheets[1].Number == "" || s.Sheets[0].Number == s.Sheets[1].Number) {
			t.Errorf("%q: reused %d times, want %d", text, reused, want)
		}
	}
}

// A label that is a number of a series is the negative's, sheet by sheet, whatever else is
// logged: runs of them are filed and developed. What is loaded with film is a holder.
func TestSheetsLoggedByTheirNumbers(t *testing.T) {
	const notes = "day: 1979-06-14\n79-001: 1/8 f16\n79-002: 1/8 f16\n79-003: 1/8 f16\n79-141: 1/8 f16\n79-142: 1/8 f16\n"
	s, list := compileText(notes + "develop 79-001 to 79-002: 1979-06-16, N\nsleeve 79-141 to 79-142: binder 1\n")
	got := ""
	for _, sh := range s.Sheets {
		got += sh.Number + " "
		if sh.WasDeveloped() {
			got += "done "
		}
	}
	if want := "79-001 done 79-002 done 79-003 79-141 done 79-142 done "; got != want || s.Negatives.Series[0].Next != "79-143" {
		t.Errorf("%s and next %s, want %s", got, s.Negatives.Series[0].Next, want)
	}
	for _, d := range list {
		if d.Code != "unchecked" {
			t.Errorf("%s: %s", d.Code, d.Message)
		}
	}
	if s, _ := compileText(notes + "1A: 1/8 f16\n"); len(s.Negatives.Numbered) != 5 {
		t.Error("a holder's side beside them takes the numbers away")
	}
	if s, _ := compileText("load 79-001 79-002: slate\n" + notes); len(s.Negatives.Numbered) != 3 {
		t.Error("what is loaded is taken for a number")
	}
	for text, want := range map[string]string{
		"78-1: 1/8 f16\n78-2: 1/8 f16\n78-11: 1/8 f16\n":                                                              "78-1 78-2 78-11",
		"78-101 to 78-103: 1/8 f16\nday: 1979-01-02\n79-1: 1/8 f16\nsleeve 78-101 to 78-103: box 1\n":                 "78-101(box 1) 78-102(box 1) 78-103(box 1) 79-1",
		"78-101 to 78-103: 1/8 f16\nsleeve 78-101 to 103: box 1\nresult 78-101, 102: good\n":                          "78-101(box 1)+ 78-102(box 1)+ 78-103(box 1)",
		"#78-114: 1/8 f16\n1978-115: 1/8 f16\nsleeve 78-114: box 1\nsleeve #78-114: box 1\nprint 1978-115: grade 2\n": "78-114(box 1) 1978-115",
	} {
		s, list := compileText("day: 1978-06-14\n" + text)
		got := ""
		for _, sh := range s.Sheets {
			got += " " + sh.Number
			if sh.Sleeve != "" {
				got += "(" + sh.Sleeve + ")"
			}
			if len(sh.Results) > 0 {
				got += "+"
			}
		}
		if got != " "+want {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
		for _, d := range list {
			if d.Code != "unchecked" {
				t.Errorf("%q: %s: %s", text, d.Code, d.Message)
			}
		}
	}
	_, list = compileText("day: 1978-06-14\n78-1: 1/8 f16\nsleeve HW-1 to HW-3: box 1\n")
	if !slices.ContainsFunc(list, func(d diag.Diagnostic) bool {
		return d.Message == "no entry above this line is any of HW-1 to HW-3" && strings.Contains(d.Notes[0].Text, "both ends in full")
	}) {
		t.Errorf("%v", list)
	}
}

// Each series of numbers has its next free one, the series used latest first; a number
// given to a second negative is in the list beside the one that bears it.
func TestNextFreeOfEverySeries(t *testing.T) {
	for text, want := range map[string]string{
		"1A: 1/8 f16, neg 91-001\n1B: 1/8 f16, neg 95-003\n2A: 1/8 f16, neg 93-001\n":                                                                   "95-004 93-002 91-002",
		"1A: 1/8 f16, neg HW-001\n1B: 1/8 f16\n2A: 1/8 f16\nneg 1B: MD/93/7\nneg 2A: 17\n":                                                              "18 MD/93/8 HW-002",
		"day: 1993-05-01\n1A: 1/8 f16, neg A-9\nday: 1995-05-01\n1A: 1/8 f16, neg B-9\nday: 1994-05-01\n1A: 1/8 f16, neg C-9\n1B: 1/8 f16, neg A-010\n": "B-10 A-011 C-10",
	} {
		s, _ := compileText(text)
		got := ""
		for _, n := range s.Negatives.Series {
			got += n.Next + " "
		}
		if got != want+" " {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
	}
	s, _ := compileText("1A: 1/8 f16, neg 91-001\n3B: 1/8 f16\nneg 3B: 91-001\n")
	if tw := s.Negatives.Twice; len(tw) != 1 || tw[0].Number != "91-001" || tw[0].Sheet.Label != "3B" || tw[0].Bearer.Label != "1A" || tw[0].Place.Line != 3 {
		t.Errorf("%+v", tw)
	}
}

// One rule says what was developed: the page to develop, the years and what is found agree.
func TestShownToBeDeveloped(t *testing.T) {
	for line, want := range map[string]bool{
		"": false, "sleeve 1A: binder 1\n": true, "print 1A: grade 3\n": true, "neg 1A: 26-041\n": true, "density 1A: sky 1.20\n": true,
		"result 1A: thin\n": false,
	} {
		s, _ := compileText("film slate: ISO 100, N 7m\nday: 2026-11-07\nmeter: 1/8 f16\n1A: 1/8 f16\n" + line)
		waits := len(s.ToDevelop.Batches)+len(s.ToDevelop.Held) > 0
		sh := s.Sheets[0]
		if sh.WasDeveloped() != want || waits == want || (s.Years[0].Developed > 0) != want {
			t.Errorf("%q: developed %t, waits %t, %d in the year", line, sh.WasDeveloped(), waits, s.Years[0].Developed)
		}
	}
}

func TestDoubtfulFilmStaysOutOfTheTank(t *testing.T) {
	for more, why := range map[string]string{
		"load 6A: slate\nload 6A: plate\n6A: 1/30 f16\n": "its holder was loaded twice: it is slate or plate",
		"load 6A: slate\n6A: film plate, 1s f16\n":       "logged as plate, and its holder was loaded with slate",
		"6A: 1/30 f16\n": "which film it is, no line says",
	} {
		s := at(0, trayNotes+more)
		held := ""
		for _, h := range s.ToDevelop.Held {
			if h.Sheet.Label == "6A" {
				held = h.Why
			}
		}
		if held != why {
			t.Errorf("%q: held back because %q", more, held)
		}
	}
}

// One right sheet of the scene tells what the wrong one will look like; not all of
// them are named.
// A zone is a stop, and Zone I about what film shows first (common practice, no source).
func TestWhatAnotherDevelopmentCouldDo(t *testing.T) {
	s := at(20, "film slate: ISO 100, EI 100, N 6:00 at 20C, N+1 8:00 at 20C\nfilm plate: ISO 100, EI 100\nday: 2026-03-01\nload 1A-3B: slate\nload 4A: plate\nmeter: EV 12\n"+
		"1A: f16 1/30, N\n1B: f16 1/125, N\n2A: f16 1/4, N\n2B: f16 1/15, N\n3A: f16 1/30, N+1\n4A: f16 1/30\n")
	for label, want := range map[string]string{
		"1A": "Zone III lies on Zone II", "1B": "lies below Zone I", "2A": "more than they ask for", "3A": "Zone III lies on Zone II",
	} {
		i := slices.IndexFunc(s.ToDevelop.Held, func(h record.HeldSheet) bool { return h.Sheet.Label == label })
		if i < 0 || !strings.Contains(s.ToDevelop.Held[i].Still, want) {
			t.Errorf("%s: %q is not said: %+v", label, want, s.ToDevelop.Held)
		}
	}
	want := []string{
		"Under: longer development raises the high values and does little for the shadows; declared: slate N+1.",
		"Over: shorter development lowers the high values and does little to the shadows; none is declared.",
	}
	if !slices.Equal(s.ToDevelop.Helps, want) {
		t.Errorf("%q", s.ToDevelop.Helps)
	}
}

func TestOneTwinIsDevelopedFirst(t *testing.T) {
	const notes = "film slate: ISO 100\nday: 2026-11-07\nfilm: slate\nscene: gate\nmeter: 1/60 f16\n1A: 1/4 f16\n1B: 1/60 f16\n"
	still := func(text string) string {
		for _, h := range at(0, text).ToDevelop.Held {
			if h.Sheet.Label == "1A" {
				return h.Still
			}
		}
		return ""
	}
	if got := still(notes); !strings.HasPrefix(got, "develop 1B first: ") {
		t.Errorf("one twin: %q", got)
	}
	if got := still(notes + "2A-5B: 1/60 f16\n"); !strings.HasPrefix(got, "develop one of 1B, 2A, 2B, 3A, 3B and 4 more first: ") {
		t.Errorf("nine twins: %q", got)
	}
	if got := still(notes + "1B: 1/60 f16\n2A: 1/60 f16\n"); !strings.HasPrefix(got, "develop 2A first: ") {
		t.Errorf("1B is exposed twice: %q", got)
	}
}

// Two exposures on one sheet of film are developed together, as one of their lines asks;
// two amounts on one line are a slip.
func TestOneDevelopmentForOneSheet(t *testing.T) {
	for notes, want := range map[string]string{
		"7A: N+1, 1/60 f16\n7A: again, 1/60 f16":      "N+1 N+1",
		"7A: 1/60 f16\n7A: again, 1/60 f16, N+1":      "N+1 N+1",
		"7A: N+1, 1/60 f16, again, 1/60 f16":          "N+1 N+1",
		"7A: N, 1/30 f16\namend 7A: dev N+1, was N":   "N+1",
		"7A: N, 1/30 f16\namend 7A: N+1 not N":        "N+1",
		"7A: N, N+1, 1/30 f16":                        "N",
		"7A: N, 1/30 f16\n7A: not again, 1/30 f16, N": "N N",
	} {
		season, list := compileText("film fell: EI 100\n\nday: 2026-11-07\nload 7A: fell\nmeter: 1/30 f16\n" + notes + "\n")
		var got []string
		for _, sh := range season.Sheets {
			got = append(got, sh.Development)
		}
		if all := strings.Join(got, " "); all != want {
			t.Errorf("%s: %q, want %q", notes, all, want)
		}
		if _, two := codes(list)["two-settings"]; two != strings.Contains(notes, "N, N+1") {
			t.Errorf("%s: two-settings %v", notes, two)
		}
	}
}

// A remark about a number, a sleeve or a print stands in ( ) and is no part of it.
func TestRemarksOnDryNegatives(t *testing.T) {
	for line, want := range map[string]string{
		"neg 1A: 95-001 (found loose)":                              "95-001//",
		"neg 1A: 95-001 (in 2 pieces)":                              "95-001//",
		"neg 1A: 95-001 \"in 2 pieces\"":                            "95-001//",
		"neg 1A 1B: 95-001 (in 2 pieces), 95-002":                   "95-001//",
		"neg 1A 1B: 95-001 to 95-002 (one of them in two (halves))": "95-001//",
		"sleeve 1A: binder 2, page 14 (top pocket)":                 "/binder 2, page 14/",
		"sleeve 1A: (loose)":                                        "/(loose)/",
		"print 1A: grade 3 (dodge the sky)":                         "//print",
	} {
		s, list := compileText("day: 1995-03-04\n1A: 1/8 f16\n1B: 1/8 f16\n" + line + "\n")
		sh := s.Sheets[0]
		got := sh.Number + "/" + sh.Sleeve + "/"
		if len(sh.Prints) > 0 {
			got += "print"
		}
		if got != want {
			t.Errorf("%s: %s, want %s", line, got, want)
		}
		for _, d := range list {
			if d.Code != "unchecked" {
				t.Errorf("%s: %s: %s", line, d.Code, d.Message)
			}
		}
	}
}

// Duplicates are alike in all that makes the negative: one scene is not enough.
func TestDuplicatesAreTakenAlike(t *testing.T) {
	const kit = "lens 150: 150 mm\nlens 210: 210 mm\nday: 2026-11-07\nscene: the roots\n"
	for text, want := range map[string]bool{
		"1A: roots, lens 150, EV 8 on III, f22 1/2\n1B: fungus, lens 210, ext 297mm, EV 11 on V, f22 1/2\n": false,
		"1A: lens 150, EV 8 on III, f22 1/2\n1B: lens 150, EV 8 on III, f22 1/2\n":                          true,
		"1A: lens 150, EV 8 on III, f22 1/2\n1B: same\n":                                                    true,
		"1A: lens 150, EV 8 on III, f22 1/2\n1B: same, N-1\n":                                               true,
		"1A: lens 150, EV 8 on III, f22 1/2\n1B: lens 150, EV 9 on III, f22 1/2\n":                          false,
		"1A: lens 150, f22 1/2\n1B: lens 210, f22 1/2\n":                                                    false,
		"meter: EV 11\n1A: lens 150, f22 1/2\n1B: lens 150, ext 200mm, f22 1/2\n":                           false,
		"meter: EV 11\n1A: lens 150, f22 1/2\nmeter: EV 11\n1B: lens 150, f22 1/2\n":                        true,
	} {
		s, _ := compileText(kit + text)
		if got := len(s.Sheets[0].Twins) > 0; got != want {
			t.Errorf("%q: duplicates %t", text, got)
		}
	}
}

// Words that change a development in a way that is not read leave it open; it is on no list.
func TestDevelopmentChangedInWords(t *testing.T) {
	season, _ := compileText("day: 2026-09-12\n1A: f22 1/8 N plus a half\n1B: f22 1/8 N less one\n2A: f22 1/8 N, more cows\n2B: f22 1/8 N-1\n")
	for i, want := range []string{"", "", "N", "N−1"} {
		if sh := season.Sheets[i]; sh.Development != want {
			t.Errorf("%s: %q, want %q", sh.Label, sh.Development, want)
		}
	}
}

// What leaves the list because it has a number, and for no better reason, is named on it.
func TestNumberedSheetsDoNotLeaveTheListInSilence(t *testing.T) {
	const head = "film slate: ISO 400\nload 1A-4A: slate\nday: 2026-12-03\n1A-4A: 1/60 f16\n"
	for text, want := range map[string]string{
		"neg 1A: 26-1\n":                            "26-1 counts as developed, by its number alone, and is not listed.",
		"neg 1A 1B: 26-1, 26-2\n":                   "26-1, 26-2 count as developed, by their numbers alone, and are not listed.",
		"neg 1A: 26-1\ndevelop 1A: 2026-12-04, N\n": darkroomCaution,
		"neg 1A: 26-1\nsleeve 1A: b 1\n":            darkroomCaution,
		"":                                          darkroomCaution,
	} {
		season, _ := compileText(head + text)
		if got := season.ToDevelop.Cautions[0]; got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

const darkroomCaution = "Follow the safety data sheet of each chemical: it overrules what is printed here."

// A development said where a film is loaded or chosen, in a scene's title, on a meter line or in brackets is asked for as
// on the sheet's own line, with the index that the film has for it; so is the one that a sheet got that asked for none.
func TestDevelopmentSaidElsewhere(t *testing.T) {
	for notes, want := range map[string]string{
		"load 1A: slate, N-1\nmeter: EV 10 at EI 32\n1A: 1/4 f16":                                               "N−1",
		"load 1A: slate (N-1)\nmeter: EV 10 at EI 32\n1A: 1/4 f16":                                              "N−1",
		"load 1A: slate, for N-1\nmeter: EV 10 at EI 32\n1A: 1/4 f16":                                           "N−1",
		"load 1A: slate, N-1\nmeter: EV 10 at EI 64\n1A: 1/4 f16, N":                                            "N",
		"film: slate, N-1\nmeter: EV 10 at EI 32\n1A: 1/4 f16":                                                  "N−1",
		"film: slate\nscene: gate, N-1\nmeter: EV 10 at EI 32\n1A: 1/4 f16":                                     "N−1",
		"film: slate\nscene: weir, N-1\nmeter: EV 10 at EI 32\nscene: gate\nmeter: EV 10 at EI 64\n1A: 1/4 f16": "",
		"film: slate\nmeter: wall EV 8 on III, sky EV 14, N-1 at EI 32\n1A: 1/4 f16":                            "N−1",
		"film: slate\nmeter: EV 10 at EI 32\n1A: 1/4 f16 (N-1)":                                                 "N−1",
		"film: slate\nmeter: EV 10 at EI 32\n1A: 1/4 f16\ndevelop 1A: 2026-11-09, N-1":                          "",
		"film: slate\nscene: Henry V, north side\nmeter: EV 10 at EI 64\n1A: 1/4 f16":                           "",
	} {
		s := at(20, "film slate: EI 64, N-1 EI 32\nfilm other: EI 200\n"+notes+"\n")
		if sh := s.Sheets[0]; sh.State != record.Right || sh.Development != want {
			t.Errorf("%s: %s, development %q, want %q", notes, sh.State, sh.Development, want)
		}
	}
}
