package compile_test

import (
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
