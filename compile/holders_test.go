package compile_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"notchbook/compile/record"
)

// drawer is a set of holders as a careful assistant would keep it in his head:
// what he puts in, what he exposes, what he takes to the darkroom. It shares no
// code with the compiler; it writes the notes that the photographer would.
type drawer struct {
	notes strings.Builder
	slots []slot
	day   int
}

type slot struct {
	label   string
	film    string // in it now
	what    string // "", "film", "exposed", "spoiled", "developed", "doubt"
	touched bool
	known   bool // that it was looked at and not used
}

var drawerFilms = []string{"slate", "plate", "curlew"}

func newDrawer(holders int) *drawer {
	d := &drawer{day: 1}
	for i := range holders {
		for _, s := range []string{"A", "B"} {
			d.slots = append(d.slots, slot{label: fmt.Sprintf("%d%s", i+1, s)})
		}
	}
	for _, f := range drawerFilms {
		fmt.Fprintf(&d.notes, "film %s: ISO 100\n", f)
	}
	d.notes.WriteString("day: 2026-01-01\n")
	return d
}

// step does one thing to one slot; pick gives a number below n.
func (d *drawer) step(pick func(n int) int) {
	s := &d.slots[pick(len(d.slots))]
	switch pick(12) {
	case 0, 1, 2, 3:
		d.load(s, drawerFilms[pick(len(drawerFilms))])
	case 4, 5, 6, 7:
		d.expose(s)
	case 8, 9:
		d.develop(s)
	case 10:
		d.state(s, pick)
	case 11:
		d.unused(s)
	}
}

func (d *drawer) load(s *slot, film string) {
	fmt.Fprintf(&d.notes, "load %s: %s\n", s.label, film)
	switch {
	case s.what == "film" && s.known:
		s.what, s.film = "film", film
	case s.what == "film" && s.film != film:
		s.what, s.film = "doubt", s.film+" or "+film
	case s.what == "film":
		s.what = "doubt"
	default:
		s.what, s.film = "film", film
	}
	s.touched, s.known = true, false
}

// expose is done only to what holds film, or twice to the same.
func (d *drawer) expose(s *slot) {
	if s.what != "film" && s.what != "exposed" && s.what != "empty" {
		return
	}
	fmt.Fprintf(&d.notes, "%s: 1/30 f16\n", s.label)
	if s.what != "film" {
		s.what = "doubt"
	} else {
		s.what = "exposed"
	}
}

func (d *drawer) unused(s *slot) {
	if s.what == "film" {
		fmt.Fprintf(&d.notes, "%s: unused\n", s.label)
		s.known = true
	}
}

// develop is done to a sheet that is still in its holder.
func (d *drawer) develop(s *slot) {
	if s.what != "exposed" {
		return
	}
	fmt.Fprintf(&d.notes, "develop %s: 2026-02-01, N\n", s.label)
	s.what, s.film = "developed", ""
}

func (d *drawer) state(s *slot, pick func(int) int) {
	switch pick(2) {
	case 0:
		fmt.Fprintf(&d.notes, "holder %s: empty\n", s.label)
		s.what, s.film = "empty", ""
	default:
		fmt.Fprintf(&d.notes, "load %s: nothing\n", s.label)
		s.what, s.film = "empty", ""
	}
	s.touched = true
}

// differs compares the drawer with the record's holders; "" where they agree.
func (d *drawer) differs(season *record.Season) string {
	states := map[string]record.HolderState{
		"film": record.Loaded, "exposed": record.Exposed, "developed": record.Developed, "doubt": record.Doubtful, "empty": record.Empty,
	}
	may := map[string]record.Answer{"film": record.No, "exposed": record.No, "developed": record.Yes, "doubt": record.NotKnown, "empty": record.Yes}
	got := map[string]*record.HolderSide{}
	for _, h := range season.Holders {
		got[h.Label] = h
	}
	for _, s := range d.slots {
		h := got[s.label]
		switch {
		case !s.touched && h == nil:
		case !s.touched:
			return s.label + " is in the record and was never touched"
		case h == nil:
			return s.label + " is not in the record"
		case h.State != states[s.what] || h.May != may[s.what]:
			return fmt.Sprintf("%s is %s, may be loaded: %s; it should be %s, %s (%s)", s.label, h.State, h.May, states[s.what], may[s.what], h.Why)
		case h.Film != s.film:
			return fmt.Sprintf("%s holds %q, should hold %q", s.label, h.Film, s.film)
		case s.what == "exposed" && (h.Sheet == nil || h.Sheet.Side != s.label):
			return s.label + " does not say which sheet is in it"
		}
	}
	return ""
}

func TestHolderStatesAgreeWithADrawer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := newDrawer(rapid.IntRange(1, 3).Draw(t, "holders"))
		for range rapid.IntRange(1, 40).Draw(t, "steps") {
			d.step(func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "pick") })
		}
		season, _ := compileText(d.notes.String())
		if why := d.differs(season); why != "" {
			t.Fatalf("%s in\n%s", why, d.notes.String())
		}
	})
}

// A season of 5 000 loads and exposures in forty holders.
func TestFiveThousandLoadsAndExposures(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 26))
	d := newDrawer(40)
	for strings.Count(d.notes.String(), "load ")+strings.Count(d.notes.String(), "f16") < 5000 {
		for range 100 {
			d.step(r.IntN)
		}
		d.day++
		fmt.Fprintf(&d.notes, "day: 2026-%02d-%02d\nload 99A: slate\nholder 99A: empty\n", 1+d.day/28%12, 1+d.day%28)
	}
	season, _ := compileText(d.notes.String())
	if why := d.differs(season); why != "" {
		t.Error(why)
	}
	events := 0
	for _, h := range season.Holders {
		events += len(h.Events)
	}
	t.Logf("%d sides, %d events", len(season.Holders), events)
}

// A day without a date says not when a side was in use: among dated days it is said, and the
// side is left doubtful, unless it is in use by another day. Where no day has a date, their
// order is all there is.
func TestSidesOfADayWithoutADate(t *testing.T) {
	const day = "day: 1996-05-01\nload 1A 1B: slate\n1A: 1/8 f16\n"
	for text, want := range map[string]string{
		day + "develop 1A: 1996-06-01\nday: undated page, dunes\n1A: 1/8 f16\n": "doubtful undated page 1A/1",
		day + "day: undated page, dunes\n1A: 1/8 f16\n":                         "exposed 1996-05-01 1A/1",
		day + "day: undated page, dunes\n1B: 1/8 f16\nneg 1B: 96-001\n":         "exposed 1996-05-01 1A/1",
		day + "day: 1992-??-??, dunes\n2A: 1/8 f16\n":                           "exposed 1996-05-01 1A/0",
		"day: the dunes\n1A: 1/8 f16\n":                                         "exposed the dunes 1A/0",
	} {
		s, list := compileText(text)
		h := s.Holders[0]
		got := string(h.State)
		if h.Sheet != nil {
			got += " " + h.Sheet.ID
		}
		said := 0
		for _, d := range list {
			if d.Code == "day-without-date" {
				said++
			}
		}
		if got = fmt.Sprintf("%s/%d", got, said); got != want {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
		for _, h := range s.Holders[1:] {
			if h.State == record.Exposed {
				t.Errorf("%q: %s is held to be in use", text, h.Label)
			}
		}
	}
}

// Words that say that a holder was loaded afresh are pointed to what is written for them, and make no double
// exposure of its sheets; words behind a film's name are not of its name.
func TestHoldersLoadedAfreshInWords(t *testing.T) {
	const kit = "film tern: ISO 100, EI 100\nfilm plate: ISO 25, EI 25\nday: 2026-11-02\nload 1A-3B: plate\nscene: wall\nmeter: EV 12 at EI 100\n2A: 1/15 f8\n2B: 1/15 f8\n"
	for lines, want := range map[string][2]string{
		"reloaded in the bag\n2A: 1/15 f8": {"unknown-label", "load 1A-4B: slate"}, "Reloaded all three holders in the tent.\n2A: 1/15 f8": {"unknown-label", "load 1A-4B: slate"}, "holder 2 reloaded\n2A: 1/15 f8": {"unknown-label", "load 1A-4B: slate"},
		"reloaded holder 2 with tern\n2A: 1/60 f8": {"unknown-label", "load 1A-4B: slate"}, "reloaded 2A 2B in the bag with tern\n2A: 1/60 f8": {"unknown-label", "load 1A-4B: slate"},
		"load 2A 2B: tern in the bag\n2A: 1/60 f8": {"not-declared", "load 2A 2B: tern -- in the bag"}, "load 2A 2B: tern (in the bag)\n2A: 1/60 f8": {"", ""},
		"2A: reloaded in the bag, 1/15 f8": {"unknown-term", "load 2A: FILM"}, "2A: film tern, 1/60 f8 (reloaded in the bag)": {"unknown-term", "load 2A: tern"}, "2A: 1/15 f8, fresh sheet": {"unknown-term", "load 2A: FILM"},
		"2A: 1/15 f8, not reloaded": {"exposed-twice", "load 2A: FILM"}, "2A: 1/15 f8, reloaded afterwards": {"exposed-twice", "load 2A: FILM"}, "2A: again, 1/15 f8, reloaded the pack": {"", ""},
	} {
		season, list := compileText(kit + lines + "\n")
		all, said := codes(list), ""
		for _, note := range all[want[0]].Notes {
			said += note.Text + "\n"
		}
		if _, twice := all["exposed-twice"]; twice != (want[0] == "exposed-twice") || !strings.Contains(said, want[1]) {
			t.Errorf("%q: %v", lines, list)
		}
		if sh := season.Sheets[len(season.Sheets)-1]; sh.State == record.Off || want[0] != "exposed-twice" && want[0] != "" && sh.State == record.Right && !strings.Contains(lines, "film tern") {
			t.Errorf("%q: %s", lines, sh.State)
		}
	}
}

// Sides that the notes count through, or name by their holder, have the letters of those that
// they write out.
func TestSidesHaveTheLettersOfTheNotes(t *testing.T) {
	for notes, want := range map[string]string{
		"load 1a-2b: slate\nload 12: slate\nholder 14: empty\n1a: 1/30 f11\n12a: 1/30 f11\n": "1a 1b 2a 2b 12a 12b 14a 14b",
		"load 1A-2B: slate\nload 12: slate\nholder 14: empty\n12A: 1/30 f11\n":               "1A 1B 2A 2B 12A 12B 14A 14B",
		"load 1b-2a: slate\nholder 3: empty\n":                                               "1b 2a 3A 3B",
	} {
		season, _ := compileText("film slate: ISO 100\nday: 2026-10-03\n" + notes)
		var got []string
		for _, side := range season.Holders {
			got = append(got, side.Label)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%q: %q, want %s", notes, got, want)
		}
	}
}

// A fix of a line that tells of loading keeps what else the line says.
func TestLoadingThatIsMendedKeepsItsWords(t *testing.T) {
	for line, want := range map[string]string{
		"Reloaded 6A with coal at noon.": "load 6A: coal -- at noon", "Reloaded 6A in the car with coal": "load 6A: coal -- in the car", "Loaded coal in 6A in the car": "load 6A: coal -- in the car",
		"Loaded 6A-7B with moth in the changing tent": "load 6A-7B: moth -- in the changing tent", "Holder 6A has coal in it by mistake": "load 6A: coal -- has in it by mistake",
		"reloaded 6A with coal": "load 6A: coal", "loaded 6A = coal": "load 6A: coal", "load 6A and 6B with coal": "load 6A and 6B: coal",
	} {
		_, list := compileText("film coal: EI 200\nfilm moth: EI 64\n" + line + "\n")
		if len(list) != 1 || list[0].Fix == nil || list[0].Fix.Text != want {
			t.Errorf("%s: %v", line, list)
		}
	}
}

// Whether a label that stands again with other settings is a second exposure or puts the first right, nobody but the
// writer knows: none is written for him.
func TestALabelAgainIsNotMended(t *testing.T) {
	for _, line := range []string{"1A again: f22", "1A again f22 1/8", "1A encore: f22"} {
		_, list := compileText("film c: EI 100\nload 1A: c\nmeter: EV 9\n1A: f16 1/2\n" + line + "\n")
		f, ok := codes(list)["missing-colon"]
		if ok && f.Fix != nil {
			t.Errorf("%s: mended to %q", line, f.Fix.Text)
		}
	}
}
