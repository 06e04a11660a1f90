package record

import (
	"slices"
	"testing"
)

// Two hundred sheets behind one filter of which nothing was measured are one line; a
// sheet of which more is said, or behind another filter, is another.
func TestSheetsOfWhichTheSameIsSaidStandTogether(t *testing.T) {
	c := &Compared{}
	add := func(label, name string, says ...string) {
		c.Sheets = append(c.Sheets, &Filtered{Sheet: &Sheet{Label: label}, Name: name, Says: says})
	}
	for range 200 {
		add("1A", "R25", "costs 3 stops")
	}
	add("1B", "R25", "costs 3 stops", "sky went down 1 stop")
	add("2A", "Y8", "costs 3 stops")
	add("2B", "R25", "costs 3 stops")
	var got []string
	sheets := 0
	for _, a := range c.ByWhatIsSaid() {
		got, sheets = append(got, a.Sheets[len(a.Sheets)-1].Label), sheets+len(a.Sheets)
	}
	if !slices.Equal(got, []string{"2B", "1B", "2A"}) || sheets != 203 {
		t.Errorf("%q of %d sheets", got, sheets)
	}
}
