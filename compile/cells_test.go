package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
)

// Cells between blanks or tabs are apart as those between commas are: the film that stands in one
// of its own is the sheet's, whatever its name looks like.
func TestCellsAreApart(t *testing.T) {
	kit := "film P400: ASA 400, EI 200\nfilm P64: ASA 64, EI 50\nfilm O25: ASA 25, ortho\nday: 7 Oct 1991\nfilm: P400\nmeter: at EI 200\n"
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
