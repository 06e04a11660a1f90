package compile

import (
	"io/fs"
	"slices"
	"testing"
)

// A prefix is often the year of two figures: what was exposed in 1986 stands before what
// was exposed in 2003, in the list and in the index, also where the later notebook comes
// first. In a series the numbers count, not the days.
func TestSeriesOfNumbersStandByTheirDays(t *testing.T) {
	books := map[string]string{
		"a.md": "day: 2003-06-01\n1A: 1/60 f16\n1B: 1/60 f16\nneg 1A: 03-002\nneg 1B: 03-010\n\nday: 2003-05-01\n2A: 1/60 f16\nneg 2A: 03-004\n",
		"b.md": "day: 1986-05-04\n1A: 1/60 f16\nneg 1A: 86-101\n\nday: 12 may\n5A: 1/60 f16\nneg 5A: A-1\n",
	}
	read := func(name string) ([]byte, error) {
		if text, ok := books[name]; ok {
			return []byte(text), nil
		}
		return nil, fs.ErrNotExist
	}
	season, _ := Compile(World{Read: read}, "a.md", "b.md")
	want := []string{"86-101", "03-002", "03-004", "03-010", "A-1"}
	var listed, indexed []string
	for _, sh := range season.Negatives.Numbered {
		listed = append(listed, sh.Number)
	}
	for _, x := range season.Indexes {
		if x.Kind == "number" {
			for _, row := range x.Rows {
				indexed = append(indexed, row.Key)
			}
		}
	}
	if !slices.Equal(listed, want) || !slices.Equal(indexed, want) {
		t.Errorf("listed %q, indexed %q, want %q", listed, indexed, want)
	}
}
