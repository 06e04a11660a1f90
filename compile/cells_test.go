package compile_test

import (
	"cmp"
	"fmt"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// Cells between blanks or tabs are apart as those between commas are: the film that stands in one
// of its own is the sheet's, whatever its name looks like.
func TestCellsAreApart(t *testing.T) {
	kit := "film P400: ASA 400, EI 200\nfilm P64: ASA 64, EI 50\nfilm O25: ASA 25, ortho\nmeter spot: EV at EI\nday: 7 Oct 1991\nfilm: P400\nmeter: at EI 200\n"
	for line, film := range map[string]string{
		"1A: Gate   P64   EV 12   -   1/4 f16½   N": "P64", "1A: Gate\tP64\tEV 12\t1/4\tf16½": "P64", "1A: Gate, P64, EV 12, 1/4 f16½": "P64", "1A: Gate | P64 | EV 12 | 1/4 f16½": "P64",
		"1A: Gate, O25, EV 12, 1/2 f16½": "O25", "1A: Gate   O25   EV 12   1/2 f16½": "O25", "1A: Gate P64   EV 12   1/15 f16½": "P400",
	} {
		if sh := sheetOf(t, kit, line); sh.Film != film || film != "P400" && sh.State == record.Unchecked {
			t.Errorf("%q: film %s, %s, %q", line, sh.Film, sh.State, sh.Needs)
		}
	}
	for _, line := range []string{"1A: N-, EV 12, 1/15 f16", "1A: Gate, N+, EV 12, 1/15 f16"} {
		if sh := sheetOf(t, kit, line); sh.State != record.Right {
			t.Errorf("%q: %s, %q", line, sh.State, sh.Needs)
		}
	}
}

// In a row with a mark in the column of the times, a day below a day is no time, and whether any other is the sheet's is asked.
// A row with no such mark gives its own.
func TestATimeBesideAMarkForTheTime(t *testing.T) {
	const kit = "film P400: ISO 40\nmeter spot: EV at EI\nfilm: P400\n"
	for _, c := range []struct {
		above, row string
		state      record.State
	}{
		{"62-1: 12/5  Weir  EV 12  1/10  f20", `62-2: 1/5   Mill  "      "     "`, record.Right},
		{"62-1: 30 Apr  Weir  EV 12  1/10  f20", `62-2: 1/5     Mill  "      "     "`, record.Right},
		{"62-1:\t12/5\tWeir\tEV 12\t1/10\tf20", "62-2:\t1/5\tMill\t\"\t\"\t\"", record.Right},
		{"62-1: Weir  EV 12  1/10  f20", `62-2: Mill  "      "     "    1/5`, record.Unchecked},
		{"62-1: Weir  EV 12  1/10  f20", `62-2: Mill  "      "     "  5/12`, record.Unchecked},
		{"62-1: Weir  EV 12  1/10  f20", `62-2: Mill  "      "     f20  1/5`, record.Unchecked},
		{"62-1: Weir EV 12 1/10 f20", `62-2: Mill " " " 1/5`, record.Unchecked},
		{"62-1: Weir  EV 12  1/10  f20", "62-2: Mill  EV 12  f20  5/12", record.Unchecked},
		{"62-1: Weir  EV 12  1/10  f20", "62-2: Mill  EV 12  3/4   f20", record.Off},
		{"62-1: Weir  EV 12  1/10  f20", `62-2: Mill  "      1/5   "`, record.Off},
		{"62-1: Weir  EV 12  1/10  f20", `62-2: Mill  "      1/10  "`, record.Right},
		{"62-1: Weir  EV 12  1/10  f20", `62-2: Mill "  1/5  "`, record.Off},
		{"62-1: Weir EV 12 1/10 f20", `62-2: Mill " 1/5 "`, record.Off},
	} {
		season, list := compileText(kit + c.above + "\n" + c.row + "\n")
		if sh := season.Sheets[1]; sh.State != c.state {
			t.Errorf("%q: %s, want %s; %v", c.row, sh.State, c.state, list)
		}
	}
}

// A row of marks under a number is a sheet's, however many words stand in it, and whatever parts its cells.
func TestARowOfMarksIsASheet(t *testing.T) {
	kit := "film P400: ISO 40\nmeter spot: EV at EI\nfilm: P400\n"
	for above, rows := range map[string]string{
		"62-1: EV 12   1/10   f20   Weir":              `62-2: "       "      "     Mill by the sluice|62-2: "       "      "     View to N.`,
		"62-1: Weir                EV 12   1/10   f20": `62-2: Mill at dusk        "       "      "|62-2: Oak by the old mill   "     "      "|No. 3: Mill at dusk       "       "      "|6: Mill at dusk at last   "       "      "|62-2: Mill at dusk        do.     do.    do.|62-2: Mill at the dam     "       1/10   "`,
		"62-1: Weir  K  L  EV 12  1/10  f20":           `62-2: Mill  nil  nil  "  "  "|62-2: Mill  not used  L  "  "  "`,
		"62-1: Weir;EV 12;1/10;f20":                    `62-2: Lane, no wind at all;";";"`,
		"62-1:\tWeir\tEV 12\t1/10\tf20":                "62-2:\tMill at dusk\t\"\t\"\t\"",
	} {
		for row := range strings.SplitSeq(rows, "|") {
			season, list := compileText(kit + above + "\n" + row + "\n")
			if len(season.Sheets) != 2 || season.Sheets[1].State != record.Right && season.Sheets[1].State != record.Unchecked {
				t.Errorf("%q: %d sheets; %v", row, len(season.Sheets), list)
			}
		}
	}
}

// A row of ditto marks copies the row above but for what stands under a dash, whether columns are
// set by blanks, tabs, commas or bars; where nobody can tell the column, nothing is checked. EV 12
// at ISO 100 is EV 13 at the index: 1/15 f/22, and 1/8 behind the filter.
func TestADashAmongDittoMarksIsAnEmptyColumn(t *testing.T) {
	kit := "film P400: ISO 400, EI 200\nlens long: 305 mm\nfilter Y8: yellow, x2\nmeter spot: EV at 100\nday: 7 Oct 1991\nfilm: P400\n"
	rows := []struct {
		above, row string
		state      record.State
	}{
		{"1A: Gate    long    EV 12   Y8   1/8   f22", "1B: \"       \"       \"       -    1/15  \"", record.Right},
		{"1A: Gate    long    EV 12   Y8   1/8   f22", "1B: \"       \"       \"       -    1/8   \"", record.Off},
		{"1A: Gate    long    EV 12   Y8   1/8   f22", "1B: \"       \"       \"       \"    \"     \"", record.Right},
		{"1A: Gate    long    EV 12   Y8   1/8   f22", "1B: Mill    \"       \"       \"    \"     \"", record.Right},
		{"1A: Gate    long    EV 12   Y8   1/8   f22", "1B: Mill    do.     do.     --   1/15  do.", record.Right},
		{"1A: Gate    long    EV 12   Y8   1/8   f22   N-1", "1B: ,,      ,,      ,,      ,,   ,,    ,,    -", record.Right},
		{"1A: Gate    long    EV 12   Y8   1/8   f22", "1B: „       „       „       -    1/15  „", record.Right},
		{"1A: Gate    long    EV 12   1/8   f22   Y8", "1B: \"       \"       \"       1/15   \"    -", record.Right},
		{"1A:\tGate\tlong \tEV 12\tY8\t1/8\tf22", "1B:\t\"\t\"\t\"\t-\t1/15\t\"", record.Right},
		{"1A: Gate, long , EV 12, Y8, 1/8, f22", "1B: \", \", \", -, 1/15, \"", record.Right},
		{"1A: Gate | long  | EV 12 | Y8 | 1/8 | f22", "1B: \" | \" | \" | - | 1/15 | \"", record.Right},
		{"1A: Gate    long    EV 12   Y8   1/8   f22", "1B: \"       \"       \"            1/15  \"", record.Unchecked},
		{"1A: Gate    long    EV 12   Y8   1/8   f22   N", "1B: \"   \"   \"   -   1/15   \"", record.Unchecked},
		{"1A: Gate, long , EV 12, Y8, 1/8, f22", "1B: \", \", 1/15, \"", record.Unchecked},
		{"1A: Gate, long , EV 12, Y8, 1/8, f22", "1B: \", \", -, 1/15, \"", record.Unchecked},
		{"1A: Gate    long    EV 12   Y8   1/8   f22", "1B: \"       \"       \"       \"    -     \"", record.Unchecked},
	}
	for _, c := range rows {
		season, _ := compileText(kit + c.above + "\n" + c.row + "\n")
		if sh := season.Sheets[1]; sh.State != c.state {
			t.Errorf("%q: %s, %q", c.row, sh.State, sh.Needs)
		}
	}
	// What stood in the column is known however many rows of marks are between, and a dash in
	// another column leaves it alone.
	season, list := compileText(kit + rows[0].above + "\n" + rows[0].row + `
2A: "       "       "       "    "     "
2B: "       "       EV 11   -    1/8   "
3A: Gate    long    EV 12   Y8   1/8   f22   N-1
3B: "       "       "       "    "     "     "
4A: "       "       "       "    "     "     -
4B: "       "       "       -    1/15  "     "
`)
	if last := season.Sheets[7]; len(list) > 0 || season.Sheets[5].Development != "N−1" || season.Sheets[6].Development != "" || last.Development != "" {
		t.Errorf("%v: asked %q", list, last.Development)
	}
}

// What a row of ditto marks copies is as open as it is above it, and a row above that was not read
// is not passed over for an older one. What the row gives itself is checked.
func TestDittoMarksRestOnTheRowAbove(t *testing.T) {
	kit := "film P400: ISO 400, EI 200\nfilter Y8: yellow, x2\nmeter spot: EV at 100\nday: 7 Oct 1991\nfilm: P400\n1A: Gate   EV 12   1/15   f22\n"
	for row, want := range map[string]record.State{
		"1B: Barn   EV 14   1/x    f22\n2A: \"      \"       \"      \"":                                  record.Unchecked,
		"1B: Barn   EV 14   1/x    f22\n2A: \"      \"       1/60   \"":                                   record.Right,
		"1B: Barn   EV 14   1/x    f22\n2A: \"      \"       1/30   \"":                                   record.Off,
		"1B: Barn   EV 14   1/x    f22\n2A: \"      \"       \"      f22\n2B: \"      \"       1/60   \"": record.Right,
		"1B: Barn   EV 12   1/15   f22 or f32\n2A: \"      \"       \"      \"":                           record.Unchecked,
		"1B: Barn   EV 12?  1/15   f22\n2A: \"      \"       \"      \"":                                  record.Unchecked,
		"1B  Barn   EV 10   1/4    f22\n2A: \"      \"       \"      \"":                                  record.Unchecked,
		"1B  \"      EV 10   1/4    f22\n2A: \"      \"       \"      \"":                                 record.Unchecked,
		"1B  \"      closer  \"      \"\n2A: \"      \"       \"      \"":                                 record.Unchecked,
		"1B  Barn   EV 10   1/4    f22\n2A: same as 1A":                                                   record.Right,
		"1B  Barn   EV 10   1/4    f22\n2A: Gate   EV 12   1/15   f22":                                    record.Right,
		"1B  Barn   EV 10   1/4    f22\n2A: Gate   EV 12   1/15":                                          record.Unchecked,
	} {
		season, _ := compileText(kit + row + "\n")
		if sh := season.Sheets[len(season.Sheets)-1]; sh.State != want {
			t.Errorf("%q: %s, %q", row, sh.State, sh.Needs)
		}
	}
}

// A fraction behind the aperture, in one column with it, is a part of a stop where another column
// has the time; where none has, or columns are not apart, nobody guesses which it is.
func TestHalfAStopInItsColumn(t *testing.T) {
	kit := "film P400: ISO 400, EI 200\nmeter spot: EV at EI\nday: 7 Oct 1991\nfilm: P400\n1A: Gate   EV 13   1/15   f22\n"
	for row, want := range map[string]record.State{
		"1B: Mill   EV 12½   f16 1/2   1/15": record.Right, "1B: Mill   EV 12½   1/15   f16 1/2": record.Right, "1B: Mill\tEV 12½\t1/15\tf16 1/2\tN": record.Right,
		"1B: Mill   EV 8½   f16 1/2   1s": record.Right, "1B: Mill   EV 8½   1s   f16 ½": record.Right, "1B: Mill   EV 10½   f16 1/2   1s": record.Off,
		"1B: Mill   EV 9   f16 1/2": record.Right, "1B: Mill, EV 12½, 1/15, f16 1/2": record.Unchecked, "1B: Mill, EV 12½, f16 1/2 1/15": record.Unchecked,
		"1B: \"      EV 12½  \"   f16 1/2": record.Unchecked, "1B: Mill   EV 8½   f16 1/2   1s no wait 2s": record.Unchecked,
	} {
		season, list := compileText(kit + row + "\n")
		if sh := season.Sheets[1]; sh.State != want {
			t.Errorf("%q: %s, %q", row, sh.State, sh.Needs)
		}
		if strings.Contains(row, ",") && (len(list) != 1 || list[0].Fix != nil || !strings.Contains(list[0].Notes[0].Text, "f16½")) {
			t.Errorf("%q: %v", row, list)
		}
	}
}

// Two times are asked about and never mended; what only looks like a second time, an hour of the day,
// a dilution, a count of sheets, how long it was in the tray, is none and makes no stop of a half second.
func TestASecondTimeIsNoStop(t *testing.T) {
	kit := "film P400: ISO 400, EI 100\nday: 7 Oct 1991\nfilm: P400\n"
	for line, want := range map[string]record.State{
		"EV 9, f16 1/2, a second bud opened": record.Right, "EV 9, f16 1/2 tray 8m30": record.Right, "EV 9, N, 8 min, f16, 1/2": record.Right,
		"6h20, EV 9, f16 1/2": record.Right, "18h20, EV 9, f16 1/2": record.Right, "ash 1:31, EV 9, f16 1/2": record.Right, "sheet 2/4, EV 9, f16 1/2": record.Right,
		"EV 9, f16 1/2, 8m30 in the tray": record.Right, "tray 8m30, EV 9, f16 1/2": record.Right, "EV 9, f16 1/2, sheet 2/4": record.Right,
		"EV 9, f16 1/2, developed 8m30": record.Right, "EV 9, f16 1/2, N, 8 min": record.Right, "EV 8, f16, just a second": record.Right,
		"6h20, EV 9⅔, f16 1/3": record.Right, "sheet 2/4, EV 9⅔, f16 1/3": record.Right, "N, 8 min, EV 9⅔, f16 1/3": record.Right, "EV 12, 1/15 f16 1/3": record.Right,
		"needed 1:31, EV 2, f16 1/2": record.Unchecked, "6h20, EV -6, f16 1/2": record.Unchecked, "EV 9, f16 1/2, 1/4": record.Unchecked, "EV 9, f16 1/2, a second": record.Unchecked, "ash 1:31, EV 8, f16 1s": record.Unchecked, "EV 9, f16, 1/2, 1/30": record.Unchecked,
	} {
		season, list := compileText(kit + "1A: " + line + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%q: %s, %v, %v", line, sh.State, sh.Difference, list)
		}
		for _, d := range list {
			if d.Fix != nil {
				t.Errorf("%q: mended to %q", line, d.Fix.Text)
			}
		}
	}
}

// What is seen stands at the head of a row as its writer calls it: no word of it is a slip for a
// term, no point of the compass a development, and a number in it is no setting.
func TestSubjectsOfRowsAreWords(t *testing.T) {
	kit := "film P400: ISO 400, EI 200\nlens long: 305 mm\nmeter spot: EV at 100\nday: 7 Oct 1991\nfilm: P400\nlens: long\n"
	for _, subject := range []string{
		"Nave", "Skylight", "skylight", "Latch", "Limes", "Lime", "Swans", "Cottage no. 7", "No. 7", "Bay 4 of 9", "bay 4 of 9", "Mill, bay 4 of 9", "Window 2 of 3 seen from below",
		"Nave N.E.", "N.E. tower", "Tower S.W. front", "Tower from N.W.", "Aisle N.", "Porch N.N.E.", "Porch, N.W", "N. aisle",
	} {
		for _, row := range []string{"1A: " + subject + "   long   EV 12   1/15   f22", "1A: " + subject + ", EV 12, 1/15 f22", "1A: " + subject + "\tEV 12\t1/15\tf22"} {
			season, list := compileText(kit + row + "\n")
			if sh := season.Sheets[0]; sh.State != record.Right || len(list) > 0 || sh.Development != "" || !strings.HasPrefix(subject, sh.Title) || sh.Title == "" && subject != "No. 7" {
				t.Errorf("%q: %s, %q, title %q, %q, %v", row, sh.State, sh.Needs, sh.Title, sh.Development, list)
			}
		}
	}
	if season, _ := compileText(kit + "1A: Porch N.E.   EV 12   1/15   f22   N-1\n"); season.Sheets[0].Development != "N−1" {
		t.Error("the development is gone")
	}
}

// A sheet that is a copy and unused has no settings to be the same.
func TestAnUnusedCopyHasNoSettings(t *testing.T) {
	kit := "film P400: ISO 400, EI 200\nfilter Y8: yellow, x2\nmeter spot: EV at 100\nday: 7 Oct 1991\nfilm: P400\n1A: Gate   EV 12   Y8   1/8   f22\n"
	for _, row := range []string{"1B: do. unused", "1B: \"      \"       -    \"     \"     unused", "1B: do., no filter, unused"} {
		if season, list := compileText(kit + row + "\n"); len(list) > 0 || season.Sheets[1].State != record.Unexposed {
			t.Errorf("%q: %v", row, list)
		}
	}
}

// A subject that is copied by a mark is that of its sheet.
func TestASubjectUnderAMarkIsCopied(t *testing.T) {
	kit := "film P400: ISO 400, EI 200\nmeter spot: EV at 100\nday: 7 Oct 1991\nfilm: P400\n1A: Mrs Alder   EV 12   1/15   f22\n"
	for row, title := range map[string]string{
		"1B: \"           EV 12   \"      \"": "Mrs Alder", "1B: do., EV 12, 1/15 f22": "Mrs Alder", "1B: \"   closer   \"   \"   \"": "Mrs Alder",
		"1B: Barn        \"       \"      \"": "Barn", "1B: same": "",
	} {
		season, _ := compileText(kit + row + "\n")
		if sh := season.Sheets[1]; sh.Title != title {
			t.Errorf("%q: title %q", row, sh.Title)
		}
	}
}

// columnsKit has what rows in columns speak of; the film has a rule, so that no time is out of it.
const columnsKit = "film heath: ISO 100, reciprocity none\nlens 150: 150 mm\nlens 210: 210 mm\nfilter Y8: yellow, x2\nfilter O22: orange, x4\nfilter R25: red, x8\nday: 7 Oct 1991\nfilm: heath\nlens: 210\n"

// lastIs compiles rows and compares the state of the last of their sheets.
func lastIs(t *testing.T, want record.State, rows string) {
	t.Helper()
	season, list := compileText(columnsKit + rows + "\n")
	if sh := season.Sheets[len(season.Sheets)-1]; sh.State != want {
		t.Errorf("%q: %s, %q\n%v", rows, sh.State, sh.Needs, list)
	}
}

// H is upright, H3 a holder: a letter in the column behind the time is no unit of it. Between two settings it may be
// anything, and is asked.
func TestALetterInItsOwnColumnIsNoUnit(t *testing.T) {
	for _, time := range strings.Split("1/8   H|1/8   M|1/8   m|1/8\tH|1/8\tM|1/8   H3|1/8 H3|1/8 H|1/8 h|1/8   S|1/8   min|⅛   H|8th   H|1/8   H   N", "|") {
		lastIs(t, record.Right, "1A: Gate   EV 11   f16   "+time)
		between := map[bool]record.State{true: record.Right, false: record.Unchecked}[!strings.Contains(time, "  ") && !strings.Contains(time, " H")]
		lastIs(t, between, "1A: Gate   EV 11   "+time+"   f16")
	}
	for _, time := range strings.Split("2m|2 m|2 min|2M|2   min|120 s|1 m 59 s", "|") {
		lastIs(t, record.Right, "1A: Gate   EV 1   f16   "+time)
	}
	lastIs(t, record.Right, "1A: Gate   EV -3   f16   1/2 h")
	for _, time := range strings.Split("2 M|2   m|2   H3|2 H3|2\th|1/8h", "|") { // no time without its unit
		lastIs(t, record.Unchecked, "1A: Gate   EV 1   f16   "+time)
	}
}

// What stands under a filter or the bellows in a row of marks is never as above: well-known signs are
// for none, and what another word says is asked. EV 11 at f/16 asks for 1/8, and behind Y8, or 297 mm
// of bellows on a 210 mm lens (2 log₂ of it is a stop), for 1/4.
func TestAnotherWordInAColumnIsNotAsAbove(t *testing.T) {
	for _, above := range []string{"1A: Gate   EV 11   Y8   f16   1/4\n", "1A: Gate   EV 11   ext 297mm   f16   1/4\n"} {
		pad := above[:strings.Index(above, "f16")]
		row := func(sign string) string {
			line := `1B:  "      "      ` + sign
			return above + line + strings.Repeat(" ", max(3, len(pad)-len([]rune(line)))) + "f16   1/8"
		}
		for _, none := range strings.Split("-|--|none|None|nil|n/a|./.|∅", "|") {
			lastIs(t, record.Right, row(none))
			lastIs(t, record.Off, strings.TrimSuffix(row(none), "1/8")+"1/4")
		}
		for _, open := range strings.Split("entf.|no|x|.|..|leer|Null|(-)|-.-|*|%|gusty|normal|?", "|") {
			lastIs(t, record.Unchecked, row(open))
			lastIs(t, record.Unchecked, strings.TrimSuffix(row(open), "1/8")+"1/4")
		}
		for _, open := range strings.Split("nil|-|n/a|./.|∅|x|entf.|leer|(-)|*", "|") { // no column tells of what
			lastIs(t, record.Unchecked, above+"1B: same, "+open+", 1/8")
		}
	}
	above := "1A: Gate   EV 11   ext 297mm   f16   1/4\n"
	for _, far := range strings.Split("∞|inf|no ext", "|") {
		lastIs(t, record.Right, above+`1B:  "      "      `+far+strings.Repeat(" ", 12-len([]rune(far)))+"f16   1/8")
	}
	for rows, want := range map[string]record.State{
		"1A:\tGate\tEV 11\tY8\tf16\t1/4\n1B:\t\"\t\"\tnil\tf16\t1/8":                    record.Right,
		"1A:\tGate\tEV 11\tY8\tf16\t1/4\n1B:\t\"\t\"\tgusty\tf16\t1/8":                  record.Unchecked,
		"1A: Gate | EV 11 | Y8 | f16 | 1/4\n1B: \" | \" | nil | f16 | 1/8":              record.Right,
		"1A: Gate, EV 11, Y8, f16, 1/4\n1B: \", \", nil, f16, 1/8":                      record.Right,
		"1A: Gate,   EV 11,  Y8,   f16,  1/4\n1B: do.,    do.,    nil,  f16,  1/8":      record.Right,
		"1A: Gate, EV 11, Y8, f16, 1/4\n1B: \", \", nil, 1/8":                           record.Unchecked,
		"1A: Red gate   EV 11   f16   1/8\n1B: Mill       \"      f16   1/8":            record.Right, // a colour is no column of filters
		"1A: Gate   EV 11   f16   1/8   windy\n1B: \"      \"       \"     \"     calm": record.Right,
		"1A: Gate   EV 11   Y8   f16   1/4\n1B: \"      gloom   \"    \"     \"":        record.Unchecked,
	} {
		lastIs(t, want, rows)
	}
}

// What stands in a column in which a row above says something, and is not understood, is neither as above nor empty, in
// whatever layout, with marks beside it or without; a mark in letters copies.
func TestAnUnreadCellUnderAColumnIsAsked(t *testing.T) {
	rows := func(sep string, cells ...string) string {
		text := ""
		for i, row := range cells {
			text += fmt.Sprintf("%dA:%s%s\n", i+1, strings.Trim(sep, ",|"), strings.ReplaceAll(row, "; ", sep))
		}
		return strings.TrimSpace(text)
	}
	words := strings.Split("w.o.|v.o.|s.o.|..|pareil|le même|ebenso|↓|r|A|B|YG|K-2|XI|PF|tri-red|gusty|(x)|+", "|")
	for _, sep := range []string{"   ", "\t", " | ", ",", ", "} {
		for _, word := range words {
			for _, table := range []string{
				"Gate; EV 9; Y8; f16; 1s#Weir; EV 9; ?; f16; 1/2", "Gate; EV 9; Y8; f16; 1s#Weir; EV 9; ?; f16; 1s", "Gate; EV 9; Y8; f16; 1s#Lane; EV 9; -; f16; 1/2#Weir; EV 9; ?; f16; 1/2",
				"Gate; EV 9; ext 297mm; f16; 1s#Weir; EV 9; ?; f16; 1/2", "Gate; EV 9; III; f16; 1/8#Weir; EV 9; ?; f16; 1/2", "Gate; 150; EV 9; f16; 1/2#Weir; ?; EV 9; f16; 1/2",
				"Gate; brook; EV 9; f16; 1/8#Weir; ?; EV 9; f16; 1/2", "Gate; EV 9; f16; 1/2#Weir; EV 9; f16; ?", "Gate; EV 9; f16; 1/2#Weir; EV 9; ?; 1/2",
			} {
				lastIs(t, record.Unchecked, "film brook: ISO 400, reciprocity none\n"+rows(sep, strings.Split(strings.ReplaceAll(table, "?", word), "#")...))
			}
		}
		for _, mark := range []string{"do", "-do-", "d°", "do."} {
			lastIs(t, record.Off, rows(sep, "Gate; EV 9; Y8; f16; 1s", "Weir; EV 9; "+mark+"; f16; 1/2"))
			lastIs(t, record.Right, rows(sep, "Gate; EV 9; Y8; f16; 1s", "Weir; EV 9; "+mark+"; f16; 1s"))
		}
		for _, title := range []string{"Red gate", "Red", "Y", "r", "Kiln no. 3", "do we know"} { // what is seen is no such column
			lastIs(t, record.Right, rows(sep, "Mill; EV 9; Y8; f16; 1s", "Red gate; EV 9; -; f16; 1/2", title+"; EV 9; Y8; f16; 1s", "Last; EV 9; -; f16; 1/2"))
		}
	}
	for rows, want := range map[string]record.State{
		"1A: Gate   EV 9   Y8   f16   1s\n1B: Weir   EV 9   |   f16   1/2":                     record.Unchecked,
		"1A: Gate, EV 9, Y8, f16, 1s\n1B: Weir, EV 9, |, f16, 1/2":                             record.Unchecked,
		"1A: Gate   EV 9   f16   1/2   windy\n1B: Weir   EV 9   f16   1/2   calm":              record.Right,
		"1A: Gate   EV 9   f16   1/2   N\n1B: Weir   EV 9   f16   1/2   calm":                  record.Right,
		"1A: Y8, EV 9, f16 1s\n1B: closer, EV 9, f16 1/2":                                      record.Right, // words between commas are no columns
		"1A: Y8, EV 9, f16 1s\n1B: the mill, closer, EV 9, f16 1/2":                            record.Right,
		"1A: Gate   EV 9   f16   1/2\n1B: Weir   EV 9   f16   -":                               record.Unchecked,
		"1A: Gate   EV 9   Y8   f16   1s\nday: 8 Oct 1991\n1B: Weir   EV 9   calm   f16   1/2": record.Right,
	} {
		lastIs(t, want, rows)
	}
}

// A cell between two that say something, and that no row above tells the column of, is asked about in whatever layout: a
// code of its writer's, and where more than commas set cells apart a word or two as well. What is seen stays the title.
func TestAnUnreadCellBetweenOthersIsAsked(t *testing.T) {
	for _, time := range []string{"1/2", "1s"} {
		for _, code := range strings.Split("r|A|B|w.o.|v.o.|K-2|XI|YG|PF|E2", "|") {
			for _, sep := range []string{"   ", "\t", " | ", ", ", ","} {
				line := "1A:" + strings.Trim(sep, "|,") + strings.Join([]string{"Gate", "EV 9", code, "f16", time}, sep)
				lastIs(t, record.Unchecked, line)
				if season, _ := compileText(columnsKit + line + "\n"); season.Sheets[0].Title != "Gate" && sep != " | " {
					t.Errorf("%q: title %q", line, season.Sheets[0].Title)
				}
			}
			lastIs(t, record.Unchecked, "1A: Gate   "+code+"   EV 9   f16   "+time)
			lastIs(t, record.Unchecked, "1A: Gate   EV 9   f16   "+code+"   "+time)
		}
		for _, words := range strings.Split("tri-red|pareil|le même|rötlich|deep one", "|") {
			for _, sep := range []string{"   ", "\t", " | "} {
				lastIs(t, record.Unchecked, "1A:"+strings.Trim(sep, "|,")+strings.Join([]string{"Gate", "EV 9", words, "f16", time}, sep))
			}
		}
	}
	for _, row := range strings.Split("Gate   EV 9   gusty   f16   1/2|Gate   EV 9   light rain   f16   1/2|EV 9   Gate   f16   1/2|210   Gate   EV 9   f16   1/2|210   old gate   north side   EV 9   f16   1/2|Gate   north side   EV 9   f16   1/2|"+
		"3.5.84   Gate   EV 9   f16   1/2|Gate   9h40   EV 9   f16   1/2|St. Mary   EV 9   f16   1/2|Porch   N.E.   EV 9   f16   1/2|Porch   W   EV 9   f16   1/2|Gate   3B   EV 9   f16   1/2|"+
		"Gate   EV 9   -   f16   1/2|Gate   EV 9   f16   1/2   H|Gate   EV 9   f16   1/2   H   N-1|EV 9, closer, f16 1/2|Gate, EV 9, no wind, f16, 1/2|Gate, EV 9, the mill at last, f16, 1/2", "|") {
		lastIs(t, record.Right, "1A: "+row)
	}
}

// Where a column is full one blank sets its cell apart from the next: what stands there is in the column of what
// is above it, and a sign behind a setting stands in place of the other.
func TestOneBlankBetweenColumns(t *testing.T) {
	const above = "1A: Gate   EV 9  Y8   f16   1s\n"
	for row, want := range map[string]record.State{
		"1B: Weir   EV 10 xx   f16   1/4": record.Unchecked, "1B: Weir   EV 10 gusty f16   1/4": record.Unchecked, "1B: Weir   EV 10 w.o. f16   1/2": record.Unchecked, "1B: Weir   EV 10½ xx f16   1/4": record.Unchecked, "1B: Weir   EV 10 pareil f16   1/2": record.Unchecked,
		"1B: Weir   EV 10 -    f16   1/4": record.Right, "1B: \"      EV 10 -    f16   1/4": record.Right, "1B: \"      EV 10 -    \"     1/4": record.Right, "1B: \"      EV 10 -    \"     1/2": record.Off, "1B: \"      EV 10 \"    f16   1/2": record.Right,
		"1B: \"      EV 10 xx   f16   1/2": record.Unchecked, "1B: Weir   EV 9  Y8   f16 -": record.Unchecked, "1B: Weir   EV 9  Y8   - 1s": record.Unchecked, "1B: Weir, EV 9, Y8, f16 -": record.Unchecked, "1B: EV 9, Y8, f16 –": record.Unchecked, "1B: EV 9, Y8, f16 --": record.Unchecked,
		"1B: EV 9, Y8, f16": record.Right, "1B: Weir   EV 9  Y8   f16 - windy   1s": record.Right, "1B: \" \" - f16 1/2": record.Unchecked, "1B: \" \" - f16 1s": record.Unchecked, "1B: \" EV 9, \" 1s": record.Right,
	} {
		lastIs(t, want, above+row)
	}
	for _, row := range strings.Split("Weir   EV 9 xx   f16   1/2|Weir   EV 9 w.o. f16   1/2|Weir   EV 9 pareil f16   1/2", "|") {
		lastIs(t, record.Unchecked, "1A: Gate   EV 9 Y8   f16   1s\n1B: "+row)
	}
	for _, row := range strings.Split("Gate EV 9   f16   1/2|Gate   EV 9 palm   f16   1/2|Gate   EV 9   f16   1/2 closer|Red gate EV 9   f16   1/2|Gate   EV 9   Y8+   f16   1s|Gate   EV 9 * f16   1/2", "|") {
		lastIs(t, record.Right, "1A: "+row)
	}
}

// A row between bars has its title, and a bar by itself in it is a mark that nobody can read, where only so the row is in
// the columns of the one above.
func TestBarsInATableOfBars(t *testing.T) {
	const above = "1A: Gate | EV 9 | Y8 | f16 | 1s"
	for row, want := range map[string]record.State{
		"1B: Weir | EV 9 | | | f16 | 1/2": record.Unchecked, "1B: Weir | EV 9 | | | f16 | 1s": record.Unchecked, "1B: Weir | EV 9 | | f16 | 1/2": record.Right, "1B: Weir | EV 9 |   | f16 | 2s": record.Off, "1B: \" | \" | | | \" | 1/2": record.Unchecked,
		"1B: Weir | EV 9 | | f16 | |": record.Unchecked, "1B: Weir | EV 9 | Y8 | f16 | 1s | |": record.Right, "1B: | EV 9 | Y8 | f16 | 1s": record.Right,
	} {
		lastIs(t, want, above+"\n"+row)
	}
	lastIs(t, record.Unchecked, above+" | N\n1B: Weir | EV 9 | | | f16 | 1/2")
	lastIs(t, record.Unchecked, "1A: | Gate | EV 9 | Y8 | f16 | 1s |\n1B: | Weir | EV 9 | | | f16 | 1/2 |")
	for _, row := range strings.Split("1A: Gate | EV 9 | Y8 | f16 | 1s|1A: | Gate | EV 9 | Y8 | f16 | 1s ||1A: | Gate | EV 9 | | f16 | 1/2 |", "|1A") {
		season, list := compileText(columnsKit + "1A" + strings.TrimPrefix(row, "1A") + "\n")
		if sh := season.Sheets[0]; sh.Title != "Gate" || sh.State != record.Right || len(list) > 0 {
			t.Errorf("%q: title %q, %s, %v", row, sh.Title, sh.State, list)
		}
	}
}

// What stands in quotation marks before the settings is the title, but for a filter and a sign, which are asked about.
func TestNoTitleIsAFilterInQuotationMarks(t *testing.T) {
	for row, want := range map[string]record.State{
		`1A: "Y8" EV 9 f16 1s`: record.Unchecked, `1A: Gate "Y8" EV 9 f16 1s`: record.Unchecked, `1A: Gate   "x"   EV 9   f16   1/2`: record.Unchecked, `1A: "Gate"   EV 9   "x"   f16   1/2`: record.Unchecked,
		`1A: "The old gate" EV 9 f16 1/2`: record.Right, `1A: "Gate"   EV 9   Y8   f16   1s`: record.Right, "1A: \"Gate\"   EV 9   Y8   f16   1s\n1B: \"Weir\"   EV 9   -   f16   1/2": record.Right,
	} {
		lastIs(t, want, row)
	}
	if season, _ := compileText(columnsKit + "1A: \"Y8\" EV 9 f16 1s\n"); season.Sheets[0].Title != "" {
		t.Errorf("title %q", season.Sheets[0].Title)
	}
}

// A length as it is read off a rail is asked about wherever it stands, and is no scale of the picture, no title and no lens.
func TestALengthOffTheRail(t *testing.T) {
	for _, said := range strings.Split("scale 300|e 300|e300|e. 300|e=300|bell.300|bell.17in|bell 300|rail 300|bed 300", "|") {
		for _, time := range []string{"1/2", "1s"} {
			for _, line := range []string{"1A: " + said + ", EV 9, f16 " + time, "1A: EV 9, f16 " + time + ", " + said, "1A: Gate   EV 9   " + said + "   f16   " + time, "1A: Gate   " + said + "   EV 9   f16   " + time} {
				lastIs(t, record.Unchecked, line)
			}
			if !strings.Contains(said, "=") {
				lastIs(t, record.Unchecked, "lens: 210, "+said+"\n1A: EV 9, f16 "+time)
				lastIs(t, record.Unchecked, said+"\n1A: EV 9, f16 "+time)
			}
		}
	}
	for _, line := range strings.Split("1A: bed 12, EV 9, f16 1/2|1A: Bell 3, EV 9, f16 1/2|bell at 12\n1A: EV 9, f16 1/2|lens: 210, new one\n1A: EV 9, f16 1/2|1A: EV 9, scale 1:1, f16 2s|1A: EV 9, scale 1, f16 2s", "|") {
		lastIs(t, record.Right, line)
	}
}

// The unit of a time in a column of its own is asked about where the sheet looks wrong without it, and so is what may be
// the hour where a line has no other time and it is far too long.
func TestUnitsAndHoursInTheirColumns(t *testing.T) {
	for row, want := range map[string]record.State{
		"Gate   EV -3   f16   1/2   Std": record.Unchecked, "Gate   EV -3   f16   1/2   Std.   N": record.Unchecked, "Gate,EV -3,f16,1/2,Std": record.Unchecked, "Gate | EV -3 | f16 | 1/2 | heure": record.Unchecked, "Gate   EV 4   f16   2s   min": record.Unchecked,
		"Gate   EV -3   f16   1/2 Std.": record.Right, "Gate   EV 9   f16   1/2   sec": record.Right, "Gate   EV 9   f16   1/2   min": record.Right, "Gate   EV 8   f16   1/4   H": record.Off,
		"6h20, EV 9, f16": record.Unchecked, "Gate   6h20   EV 9   f16": record.Unchecked, "9:40, EV 9, f16": record.Unchecked, "EV -6, f16 3h00": record.Off, "EV -3, f16 30:00": record.Right, "EV -6, f16 1h12": record.Off, "Gate   6h20   EV 9   f16   1/2": record.Right,
	} {
		lastIs(t, want, "1A: "+row)
	}
}

// A sign that refers to a note below the table says nothing of its cell, wherever it stands; a raised figure that begins a
// fraction is its part, and a star by itself is asked about.
func TestSignsOfFootnotes(t *testing.T) {
	for _, sign := range strings.Split("*|**|†|‡|§|¹|²| *| 1)| 2)| (1)", "|") {
		for n := range 5 {
			cells := []string{"Gate", "EV 9", "Y8", "f16", "1s"}
			if n == 0 && strings.ContainsAny(sign, "¹² ") {
				continue
			}
			cells[n] += sign
			for _, sep := range []string{"   ", "\t", " | ", ", "} {
				lastIs(t, record.Right, "1A:"+strings.Trim(sep, "|,")+strings.Join(cells, sep))
			}
			lastIs(t, record.Right, "1A: Gate   EV 9   Y8   f16   1s\n1B: Weir   EV 9   -"+strings.TrimSpace(strings.Trim(sign, "12)(¹²"))+"   f16   1/2")
		}
		lastIs(t, record.Off, "1A: Gate   EV 9"+sign+"   Y8"+sign+"   f16"+sign+"   1/4"+sign)
	}
	for rows, want := range map[string]record.State{
		"1A: EV 9¹⁄₂, f16 1/2": record.Off, "1A: EV 9 ¹⁄₂, f16 ¹/₂": record.Off, "1A: EV 9, f16 ¹⁄₂": record.Right, "1A†: EV 9, f16 1/2": record.Right, "1A: EV 9, f16 (about 4) 1/2": record.Right,
		"1A: Gate   EV 9   Y8   f16   1s\n1B: Weir   EV 9   *   f16   1/2": record.Unchecked,
	} {
		lastIs(t, want, rows)
	}
}

// A decimal comma that may part two cells blames nobody who is right with two.
func TestADecimalCommaThatMayPartTwoCells(t *testing.T) {
	for rows, want := range map[string]record.State{
		"1A: Gate,EV 9,f16,1/2\n1B: Weir,EV 8,0,1s": record.Unchecked, "1A: Weir,EV 8,f16,0,1s": record.Unchecked, "1A: Weir,EV 9,f16,0,5s": record.Right, "1A: Weir,EV 7,f16,0,5s": record.Off, "1A: EV 9, f16, 0,5s": record.Right,
	} {
		lastIs(t, want, rows)
	}
}

// Rows between semicolons are rows too, with marks of every kind in them; a word that repeats in a row is a mark that nobody
// knows, and one more column than above leaves the others where they are.
func TestRowsBetweenSemicolons(t *testing.T) {
	for _, sep := range []string{"; ", ";"} {
		for row, want := range map[string]record.State{
			"Weir; EV 9; -; f16; 1/2": record.Right, "Weir; EV 9; Y8; f16; 1s": record.Right, "\"; \"; \"; \"; 1s": record.Right, "\"; \"; \"; \"; 1/2": record.Off, "\"; \"; -; \"; 1/2": record.Right, "\"; EV 8; \"; f16; \"": record.Off,
			"do.; do.; -; do.; 1/2": record.Right, "|; |; |; |; 1s": record.Unchecked, "Weir; EV 9; xx; f16; 1/2": record.Unchecked, "Weir; EV 9; |; f16; 1/2": record.Unchecked, "Weir; pareil; pareil; f16; 1/2": record.Unchecked, "Weir; EV 9; pareil; f16; 1s": record.Unchecked,
		} {
			lastIs(t, want, strings.ReplaceAll("1A: Gate; EV 9; Y8; f16; 1s\n1B: "+row, "; ", sep))
		}
	}
	for rows, want := range map[string]record.State{
		"1A: Gate\tEV 9\tY8\tf16\t1s\n1B:\t|\t|\t|\t|\t1/2": record.Unchecked, "1A: Gate\tEV 9\tY8\tf16\t1s\n1B:\t\"\t\"\tx\tf16\t1/2\tcalm": record.Unchecked, "1A: Gate\tEV 9\tY8\tf16\t1s\n1B:\t\"\t\"\t-\tf16\t1/2\tcalm": record.Right,
		"1A: Gate, EV 9, Y8, f16, 1s\n1B: =, =, =, =, 1/2": record.Unchecked, "1A: Gate, EV 9, f16, 1/2, Y8": record.Off, "1A: Gate, EV 9, f16, 1s, r": record.Unchecked, "1A: Gate, EV 9, f16, 1/2, r": record.Right,
	} {
		lastIs(t, want, rows)
	}
}

// A zone in the column of zones places the reading of its row, and a mark there stands for the zone
// above. EV 9 on III asks for EV 11: 1/8 at f/16.
func TestZonesInTheirColumn(t *testing.T) {
	above := "1A: Gate   EV 9   III   f16   1/8\n"
	for row, want := range map[string]record.State{
		`1B:  "      "     V     f16   1/2`: record.Right, `1B:  "      "     V     f16   1/8`: record.Off, `1B:  "      "     IV½   f16   1/8`: record.Off,
		`1B:  "     EV 8   "     f16   1/4`: record.Right, `1B:  "     EV 8   "     f16   1s`: record.Off, `1B:  "     EV 8   V     f16   1s`: record.Right,
		`1B:  "      "     on V  f16   1/2`: record.Right, `1B: same, V, 1/2`: record.Right, `1B: same, V, 1/8`: record.Off, "1B: same, V, 1/2\n2A: same, EV 8, 1s": record.Right,
		"1B:  \"      \"     V     f16   1/2\n2A:  \"      \"     \"     \"     \"": record.Right,
		"1B:  \"      \"     V     f16   1/2\n2A:  \"     EV 8   \"     f16   1s":   record.Right,
		`1B:  "     EV 8         f16   1/4`:                                         record.Unchecked, `1B:  "     EV 8         f16   1s`: record.Unchecked, `1B:  "      "     -     f16   1/2`: record.Unchecked,
		`1B:  "      "     X     f16   1/2`: record.Unchecked, `1B:  "      "     iv    f16   1/4`: record.Unchecked, `1B: same, X, 1/2`: record.Unchecked,
	} {
		lastIs(t, want, above+row)
	}
	lastIs(t, record.Right, "1A: Gate   EV 9   V   f16   1/2\n1B:  \"      \"     III   f16   1/8")
	lastIs(t, record.Right, "1A: Gate   EV 9   I   f16   1/30")
	lastIs(t, record.Right, "1A: Gate\tEV 9\tIII\tf16\t1/8\n1B: \"\t\"\tV\tf16\t1/2")
	lastIs(t, record.Unchecked, "1A: Gate   EV 9 III   f16   1/8\n1B:  \"     EV 8       f16   1/4")
}

// A dash in the column of the filters may take off the one that was chosen for all sheets.
func TestADashBelowAChosenFilterIsAskedAbout(t *testing.T) {
	for row, want := range map[string]record.State{
		"1B: Gate   EV 11   -    f16   1/8": record.Unchecked, "1B: Gate   EV 11   nil  f16   1/8": record.Unchecked, "1B: Gate   EV 11   xx   f16   1/8": record.Unchecked,
		"1B: Gate   EV 11   Y8   f16   1/8": record.Off, "1B: Gate   EV 11   Y8   f16   1/4": record.Right, "1B: Gate   EV 11        f16   1/4": record.Right,
		"1B: Gate, EV 11, -, f16, 1/8": record.Unchecked, "1B: Gate   EV 11   none   f16   1/8": record.Right, "1B: Gate | EV 11 | - | f16 | 1/8": record.Unchecked,
		"1B: Gate   EV 11   O22  f16   1/2   -": record.Right,
	} {
		lastIs(t, want, "filter: Y8\n1A: Gate   EV 11   Y8   f16   1/4\n"+row)
	}
	lastIs(t, record.Unchecked, "filter: Y8\n1A: Gate   EV 11   -   f16   1/8")
	lastIs(t, record.Right, "1A: Gate   EV 11   Y8   f16   1/4\n1B: Gate   EV 11   -    f16   1/8")
}

// A mark behind a value with one blank is a mark, and no quotation that takes the rest of the row.
func TestAMarkOneBlankBehindAValue(t *testing.T) {
	above := "1A: Gate   EV 9   f16   1/2\n"
	for row, want := range map[string]record.State{
		`1B: "     EV 8 "       f16   1s`: record.Right, `1B: "     EV 8 "       f16   1/4`: record.Off, `1B: "     EV 8   210 "       f16   1s`: record.Right, "1B: \"\tEV 8 \"\tf16\t1s": record.Right,
		`1B: "     "   f16 "   1/2`: record.Right, `1B: "   EV 9   1/2 "   f16`: record.Right, `1B: "     EV 9 " windy   f16   1/2`: record.Right, `1B: Lane     EV 9 "   f16   1/2`: record.Right,
		`1B: Lane     EV 9 "windy"   f16   1/2`: record.Right, `1B: Lane     EV 9 "windy   f16   1/2`: record.Unchecked, `1B: same, EV 8 "windy, f16 1s`: record.Unchecked, `1B: same, EV 8 "windy, f16 1/2`: record.Unchecked,
	} {
		lastIs(t, want, above+row)
	}
	lastIs(t, record.Right, "1A: Gate | EV 9 | f16 | 1/2\n1B: \" | EV 8 | \" | 1s")
}

// A plus or a minus that joins nothing makes its value doubtful, and two figures with dots between
// them are no one of the two.
func TestAValueOrALittleMore(t *testing.T) {
	for line, want := range map[string]record.State{
		"EV 11+   f16   1/8": record.Unchecked, "EV 11 +   f16   1/8": record.Unchecked, "EV 11-   f16   1/8": record.Unchecked, "EV 11+, f16, 1/8": record.Unchecked, "EV 11+ f16 1/8": record.Unchecked,
		"EV 11..13   f16   1/8": record.Unchecked, "EV 11…13   f16   1/8": record.Unchecked, "EV 11...13   f16   1/8": record.Unchecked, "EV 11   f16   1/8..1/15": record.Unchecked, "EV 11   f16..22   1/8": record.Unchecked,
		"EV 11   f22+   1/8": record.Unchecked, "EV 11   f22-   1/8": record.Unchecked, "EV 11   f16   1/4 +": record.Unchecked, "EV 11   f16   1/4+": record.Unchecked, "EV 11   f16   1/4++": record.Unchecked,
		"EV 11   f16   1/4": record.Off, "EV 11   f22   1/8": record.Off, "EV 11   f16+1/2   1/8": record.Off, "EV 11   f16   1/8 + Y8": record.Off, "EV 11   f16   1/4 + Y8": record.Right, "EV 11   Y8+   f16   1/4": record.Right,
		"EV 11.   f16.   1/8.": record.Right, "EV 11   f16   1/16s + 1/16s": record.Right, "EV 11   f16   1/8 - windy": record.Right,
	} {
		lastIs(t, want, "1A: Gate   "+line)
	}
	season, _ := compileText(columnsKit + "1A: Gate   EV 11   f16   1/8+\n")
	if sh := season.Sheets[0]; sh.State != record.Right || len(sh.Doubts) != 1 {
		t.Errorf("%s, doubtful %q", sh.State, sh.Doubts)
	}
}

// What rests on a reading whose words leave it open is as open, in whatever row it is copied.
func TestRowsRestOnAReadingThatIsOpen(t *testing.T) {
	for _, rows := range []string{
		"1A: Gate   EV 9 nach III   -   f16   1/8\n1B:  \"      \"             R25   f16   1/8", "1A: Gate   EV 9 nach III   -   f16   1/8\n1B: same, R25, 1/8\n2A: same, 1/4",
		"meter: EV 9 nach III\n1A: Gate   f16   1/8\n1B: Mill   R25   f16   1/8", "1A: Gate   EV 9 nach III   f16   1/8\n1B: same, at EI 50, 1s",
	} {
		lastIs(t, record.Unchecked, rows)
	}
	above := "1A: Gate   EV 9 nach III   f16   1/8\n"
	lastIs(t, record.Off, above+"1B: Gate   EV 9   f16   1/8")
	lastIs(t, record.Off, above+"1B: same, EV 9 on V, 1/8")
	lastIs(t, record.Right, above+"1B: same, EV 9 on V, 1/2")
}

// A zone in a column before its reading is no zone of the reading before it.
func TestZonesBeforeTheirReadings(t *testing.T) {
	for _, said := range strings.Split("III  EV 9    VII  EV 13|III\tEV 9\tVII\tEV 13|V   EV 11   VII   EV 13|III   EV 9|VII   EV 13|III, EV 9, VII, EV 13", "|") {
		for _, time := range []string{"1/8", "1/2", "1/30"} {
			lastIs(t, record.Unchecked, "1A: Gate   "+said+"   f16   "+time)
		}
	}
	for _, said := range strings.Split("EV 9   III   EV 13   VII|EV 9 III   EV 13 VII|EV 9   III", "|") {
		lastIs(t, record.Right, "1A: Gate   "+said+"   f16   1/8")
		lastIs(t, record.Off, "1A: Gate   "+said+"   f16   1/2")
	}
	lastIs(t, record.Right, "1A: Pier V   EV 9   III   f16   1/8")
}

// A mark below a zone that stands apart from its reading leaves its own reading as open as that one.
func TestAMarkBelowAZoneThatMayBeTheReadings(t *testing.T) {
	for _, above := range []string{"1A: III  EV 9   f16  1/8  calm  Weir", "1A: f16  EV 9   1/8  calm  III  Weir", "1A: f16  EV 9   1/8  calm  III  Weir\n1B: \"    \"      \"    \"     \"    \""} {
		row := `2A: "    EV 10  f16  %s calm  Mill`
		if !strings.HasPrefix(above, "1A: III") {
			row = `2A: "    EV 10  %s calm  "    Mill`
		}
		for _, time := range []string{"1/4 ", "1/16"} {
			lastIs(t, record.Unchecked, above+"\n"+fmt.Sprintf(row, time))
		}
	}
	lastIs(t, record.Right, "1A: f16  EV 9   1/8  calm  III  Weir\n2A: \"    EV 10  1/4  calm  -    Mill")
	lastIs(t, record.Right, "1A: Pier V   EV 9    f16   1/2\n1B: \"        EV 10   f16   1/4")
}

// What was not exposed has nothing to copy: the question names it.
func TestACopyOfASheetThatHasNothing(t *testing.T) {
	above := "1A: Gate   EV 9   Y8   f16   1s\n1B: spoiled\n"
	for _, row := range []string{`2A:  "      "     "    f16   1s`, `2A:  "     EV 9   "    f16   1s`, "2A: same", "2A: same, 1/4"} {
		season, _ := compileText(columnsKit + above + row + "\n")
		if sh := season.Sheets[2]; sh.State != record.Unchecked || !strings.Contains(sh.Needs[0], "1B, the one before, is spoiled") {
			t.Errorf("%q: %s, %q", row, sh.State, sh.Needs)
		}
	}
	lastIs(t, record.Unexposed, above+"2A: same, unused")
	lastIs(t, record.Right, "1A: Gate   EV 9   f16   1/2\n1B: spoiled\n2A: \"     EV 9   f16   1/2")
}

// Signs for the same and for a light value, as German registers have them.
func TestRowsOfAGermanRegister(t *testing.T) {
	for _, row := range strings.Split(`wie vor|dito|wie oben|wie 1A|dito   LW 10   dito   1/4|wie vor, 1/2|dito, Ev. 10, 1/4|LW 10   f16   1/4|LW10, f16, 1/4|10 LW   f16   1/4|EV. 10   f16   1/4|EV: 10   f16   1/4|Lw. 10   f16   1/4`, "|") {
		lastIs(t, record.Right, "1A: Gate   EV 9   f16   1/2\n1B: "+row)
	}
	for _, row := range strings.Split("wie vor, 1/8|dito   LW 10   dito   1/2|LW 10   f16   1/2", "|") {
		lastIs(t, record.Off, "1A: Gate   EV 9   f16   1/2\n1B: "+row)
	}
	lastIs(t, record.Unchecked, "1A: Gate   EV 9   R25   f16   4s\n1B: wie oben, f16 1/2") // what is seen may be as above, and no more
	for _, title := range []string{"Dino", "Evening", "Licht wie vor", "Lwow"} {
		lastIs(t, record.Right, "1A: Gate   EV 9   f22   1s\n1B: "+title+", EV 9, f16, 1/2")
	}
}

// What says that there is nothing is of its column: none below the bellows takes no filter off, a cross is no filter and
// no zone, and a length in its column is no unit of the number before it.
func TestNothingIsOfItsColumn(t *testing.T) {
	for rows, want := range map[string]record.State{
		"1A: Gate   EV 9   Y8   none   f16   1s": record.Right, "1A: Gate   EV 9   Y8   none   f16   1/2": record.Off, "1A: Gate   EV 9   none   none   f16   1/2": record.Right,
		"1A: Gate   EV 9   Y8   none   f16   1s\n1B: Mill   \"      \"    none   \"     \"": record.Right, "1A: Gate   EV 9   Y8   none   f16   1s\n1B: Mill   \"      \"    none   \"     1/2": record.Off,
		"1A: EV 9, f16 1/2, Y8 none": record.Unchecked, "1A: EV 9, f16 1s, Y8 -> none": record.Unchecked, "1A: EV 9, f16 1s, Y8, none": record.Right,
		"filter: Y8\n1A: Gate   EV 9   X   f16   1/2": record.Unchecked, "filter: Y8\n1A: Gate   EV 9   X   f16   1s": record.Unchecked, "1A: Gate   EV 9   R25   f16   4s\n1B: \"      \"      X     \"     1/2": record.Unchecked,
		"1A: Gate   EV 9   210mm   ext 297mm   f16   1s": record.Right, "1A: Gate   EV 9   210mm   ext 297mm   f16   1/2": record.Off,
		"1A: Gate   EV 9   ext 297   f16   1s\n1B: \"      \"      ext 297   \"     \"": record.Right, "1A: Gate   EV 9   f16   ext 297\n1B: \"      \"      \"     ext 297   \"": record.Unchecked,
		"1A: Gate   EV 9   --   Y8   f16   1s": record.Right, "1A: Gate   EV 9   f16   1s   --   Y8": record.Right, "1A: Gate   EV 9   f16   1/2   --   windy, 1/8 f22 next time": record.Right,
		"1A: Gate   EV 9   Y8   f16   1s\n1B: \"      EV 9        f16   1/2": record.Unchecked, "1A: Gate,EV 9,Y8,f16,1s\n1B: \",EV 9,,f16,1s": record.Unchecked,
		"1A: Gate   IL 9   f16   1/2": record.Right, "1A: Gate   9 IL   f16   1/8": record.Off, "meter: IL 9\n1A: f16, 1/2": record.Right, "1A: Il 9 novembre, EV 9, f16 1/2": record.Right,
		"1A: Gate   150   EV 9   ext 212mm   f16   1s\n1B: \"      210   \"      ext 297mm   \"     \"": record.Right, "1A: Gate   EV 9   f16   1/2\n1B: \"      EV 9   f16   150": record.Unchecked,
	} {
		lastIs(t, want, rows)
	}
}

// Stops by themselves below a development are the development, and what stands below them is theirs.
func TestADevelopmentByItsStops(t *testing.T) {
	const above = "1A: Gate   EV 9   Y8   f16   1s   N\n"
	for rows, want := range map[string]string{
		`1B: "      "      "    "     "    +1`: "N+1", `1B: "      "      "    "     "    -1`: "N−1", "1B: \"      \"      \"    \"     \"    +1\n2A: \"      \"      \"    \"     \"    \"": "N+1",
		"1B: \"      \"      \"    \"     \"    +1\n2A: idem   idem   id.  idem  id.  \"\n2B: idem   idem   -    id.   1/2   -1": "N−1",
	} {
		season, list := compileText(columnsKit + above + rows + "\n")
		if sh := season.Sheets[len(season.Sheets)-1]; sh.State != record.Right || sh.Development != want || len(list) > 0 {
			t.Errorf("%q: %s, %s, %v", rows, sh.State, sh.Development, list)
		}
	}
}

// Another sheet's label within a line is reported, and neither sheet is read from it; one in words is a remark.
func TestTwoSheetsInOneLine(t *testing.T) {
	for _, line := range []string{"1A: EV 9, f16 1/2. 1B: same", "1A: EV 9, f16 1/2; 1B: EV 10, f16 1/4", "1a: EV 9, f16 1/2 / 1b: f16 1/2", "1A: EV 9, f16, 2B: 1/2"} {
		season, list := compileText(columnsKit + line + "\n2A: same\n")
		if a, b := season.Sheets[0], season.Sheets[1]; len(season.Sheets) != 2 || a.State != record.Unchecked || b.State != record.Unchecked || len(list) == 0 || list[0].Code != "unknown-label" {
			t.Errorf("%q: %s, %s, %v", line, a.State, b.State, list)
		}
	}
	for _, line := range []string{"1A: EV 9, f16 1/2, see 1B: fog", "1A: EV 9, f16 1/2 (like 1B: 1/8)", "1A: EV 9, f16 1/2 -- 1B: same", "1A: EV 9, f16 1/2, at 14:30"} {
		lastIs(t, record.Right, line)
	}
}

// A register of rows, in whatever layout and with whatever marks, is read as its writer meant it, or asked about: no
// sheet that is right is blamed, none that is wrong passes, and what is recorded of a sheet that is right is what its row
// says. EV 9 at f/16 asks for 1/2 s; behind Y8 for twice, behind O22 for four times, R25 for eight times as much, and so
// with the bellows out to √2 of the focal length for twice (2 log₂ √2 = 1 stop).
func TestRowsOfMarksInEveryLayout(t *testing.T) {
	type sheet struct{ subject, lens, ev, filter, ext, stop, right, wrong string }
	register := []sheet{
		{"Gate", "210", "EV 9", "Y8", "", "f16", "1s", "1/4"}, {"Gate", "210", "EV 9", "Y8", "", "f16", "1s", "4s"}, {"Gate", "210", "EV 9", "", "", "f16", "1/2", "2s"},
		{"Mill", "210", "EV 9", "", "ext 297mm", "f16", "1s", "1/4"}, {"Mill", "300", "EV 9", "", "ext 424mm", "f16", "1s", "4s"}, {"Kiln", "300", "EV 9", "R25", "", "f22", "8s", "1s"},
		{"Kiln", "300", "EV 10", "R25", "", "f22", "4s", "1s"}, {"Kiln", "150", "EV 10", "O22", "", "f22", "2s", "1/2"},
	}
	columns := map[string]func(sheet) string{
		"subject": func(s sheet) string { return s.subject }, "lens": func(s sheet) string { return s.lens }, "ev": func(s sheet) string { return s.ev }, "filter": func(s sheet) string { return s.filter },
		"ext": func(s sheet) string { return s.ext }, "stop": func(s sheet) string { return s.stop },
	}
	kit := "film heath: ISO 100, reciprocity none\nlens 150: 150 mm\nlens 210: 210 mm\nlens 300: 300 mm\nfilter Y8: yellow, x2\nfilter O22: orange, x4\nfilter R25: red, x8\nday: 7 Oct 1991\nfilm: heath\nlens: 210\n"
	tables, checked, all := 0, 0, 0
	for _, order := range []string{"subject lens ev filter ext stop time", "subject ev stop time filter ext lens", "subject time stop lens ext filter ev"} {
		for _, parted := range []string{"  ", "\t", " | ", ", "} {
			for _, mark := range strings.Split("\"|''|do.|do|-do-|-\"-|〃|„|ditto|dto.|,,|w.o.|↓|pareil", "|") {
				for _, none := range []string{"-", "–", "none", ""} {
					if mark == ",," && parted == ", " {
						continue
					}
					for _, wrong := range []bool{false, true} {
						rows, last := "", []string(nil)
						for n, s := range register {
							line, cells := fmt.Sprintf("%d%c:%s", n/2+1, 'A'+n%2, strings.Trim(parted, ",|")), []string(nil)
							for i, name := range strings.Fields(order) {
								said := s.right
								if name != "time" {
									said = cmp.Or(columns[name](s), none)
								} else if wrong {
									said = s.wrong
								}
								cells = append(cells, said)
								if n > 0 && said == last[i] && said != none {
									said = mark
								}
								if parted == "  " {
									said += strings.Repeat(" ", max(0, 11-len([]rune(said))))
								}
								if i > 0 {
									line += parted
								}
								line += said
							}
							if last = cells; n == 5 {
								rows += "\npage 2\n\n"
							}
							rows += line + "\n"
						}
						season, list := compileText(kit + rows + "* the last from the bank\n")
						tables++
						for n, sh := range season.Sheets {
							want := register[n]
							switch filters := strings.Join(sh.Filters, "+"); {
							case sh.State == record.Off && !wrong, sh.State == record.Right && wrong:
								t.Fatalf("%s is %s, %v, %q\n%s%v", sh.Label, sh.State, sh.Filters, sh.Extension, rows, list)
							case sh.State == record.Right && (filters != want.filter || sh.Lens != want.lens || strings.ReplaceAll(sh.Extension, " mm", "mm") != want.ext):
								t.Fatalf("%s has %s, %s, %s\n%s%v", sh.Label, filters, sh.Lens, sh.Extension, rows, list)
							}
							if all++; sh.State != record.Unchecked {
								checked++
							}
						}
						if len(season.Sheets) != len(register) {
							t.Fatalf("%d sheets in\n%s", len(season.Sheets), rows)
						}
					}
				}
			}
		}
	}
	share := float64(checked) / float64(all)
	t.Logf("%d tables, %.0f %% of their sheets are checked", tables, 100*share)
	if share < 0.5 {
		t.Error("too many are asked about")
	}
}

// A day in the first column is none of a row's times, nor a number without a unit.
func TestADayInTheFirstColumn(t *testing.T) {
	const kit = "film slate: ISO 100\nmeter spot: EV at 100\nday: 1984-10-07\nfilm: slate\n"
	for rows, want := range map[string]string{
		"84-017: 7 Oct   Gate   EV 12   1/60   f8\n84-018: 7/10   \"   \"   \"   \"":   "1/60",
		"84-017: 7. 10.   Gate   EV 12   1/60   f8\n84-018: 8 Oct   \"   \"   \"   \"": "1/60",
	} {
		season, list := compileText(kit + rows + "\n")
		for _, sh := range season.Sheets {
			if sh.Given.Time != want || sh.State == record.Off {
				t.Errorf("%s: %s %s; %v", rows, sh.Given.Time, sh.State, list)
			}
		}
	}
	season, list := compileText(kit + "84-017: 7/10   Gate   EV 12   1/60   f8\n")
	if sh := season.Sheets[0]; sh.State != record.Unchecked {
		t.Errorf("two times in figures: %s; %v", sh.State, list)
	}
}

// A filter's one letter at the head of words is no filter where a mark stands in the column of the filters; by itself it is.
func TestAShortNameAheadOfASubject(t *testing.T) {
	for _, parted := range []string{"   ", "\t", ", "} {
		row := func(cells ...string) string { return strings.TrimLeft(parted, ", ") + strings.Join(cells, parted) }
		above := "filter A: x8\nfilter X1: x4\n1A: " + row("Weir", "Y8", "EV 9", "1s", "f16") + "\n1B: "
		for _, subject := range []string{"A yard", "X1 hut", "A yard by the sea"} {
			lastIs(t, record.Right, above+row(subject, `"`, "EV 9", "1s", "f16"))
			lastIs(t, record.Right, above+row(subject, `"`, `"`, `"`, `"`)+"\n2A: "+row(`"`, `"`, `"`, `"`, `"`))
			lastIs(t, record.Off, above+row(subject, `"`, "EV 9", "4s", "f16"))
		}
		lastIs(t, record.Off, above+row("Weir", "A", "EV 9", "1s", "f16"))
	}
}

// A word between the columns takes no blank cell's place: whether the filter stayed is asked with it as without.
func TestAWordBesideABlankCell(t *testing.T) {
	for _, rows := range []string{
		"1A: 1s   Y8         210   EV 9   Weir   f16\n1B: 1/2  %s   \"     EV 10   Mill  f16", "1A: 1s   Y8                210   EV 9   Weir   f16\n1B: 1/2      %s      \"     EV 10   Mill  f16",
		"1A: 1s   Y8   210   EV 9   Weir   f16\n1B: 1/2       \"     EV 10  Mill   f16    %s",
	} {
		for _, word := range []string{"        ", "    calm", "    pool"} {
			lastIs(t, record.Unchecked, fmt.Sprintf(rows, word))
		}
	}
	lastIs(t, record.Right, "1A: 1s   Y8         210   EV 9    Weir   f16\n1B: 1/2  \"   calm   \"     EV 10   Mill   f16")
}

// What a row says or leaves blank where the one above it has a filter is no silent copy of that: EV 9 at f/16 asks for
// 1/2 s, and behind Y8 for 1 s.
func TestAFilterIsNotCopiedInSilence(t *testing.T) {
	for _, rows := range []string{
		"1A: Weir   Y8    EV 9    1s    f16   calm\n1B: Weir   without \"     \"     \"", "1A: Weir   Y8  EV 9    1s    f16\n1B: Yellow house -   \"       \"     \"",
		"1A: Weir     Y8   EV 9    1s    f16\n1B: Mill     N    \"       \"     \"", "1A: Weir     Y8   EV 9    1s    f16\n1B: Mill          \"       \"   \"",
	} {
		lastIs(t, record.Unchecked, rows)
	}
	for _, rows := range []string{
		"1A: Weir     Y8   EV 9    1s    f16   N\n1B: Mill     \"    \"       \"     \"     N", "1A: Weir     Y8   EV 9    1s    f16\n1B: Yellow house     \"    \"       \"     \"",
		"1A: Weir     Y8   EV 9    1s    f16\n1B: Mill     -    \"       1/2   \"",
	} {
		lastIs(t, record.Right, rows)
	}
}
