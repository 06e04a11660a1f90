package pdf

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// The words of a table's head are never cut, however many columns there are; what has no
// room stands below, behind the first column once more.
func TestHeadsAreNotCut(t *testing.T) {
	names := []string{"outing", "outings", "sheets", "right", "off", "exposed twice", "no image", "unchecked", "unexposed", "developed", "scanned", "lost"}
	for width := 120.0; width < 600; width += 7 {
		for columns := 2; columns <= len(names); columns++ {
			r := tableRow{cells: []cell{words("9 April 2004 (Good Friday) " + longWord)}}
			for i := 1; i < columns; i++ {
				r.cells = append(r.cells, figures(fmt.Sprint(100+i)))
			}
			f, err := loadFaces()
			if err != nil {
				t.Fatal(err)
			}
			g := &galley{faces: f}
			g.setTable([]tableRow{headRow(r, names[:columns]...), r}, 0, width)
			var heads, all []string
			for _, p := range g.pieces {
				if p.face == bold {
					heads = append(heads, strings.Fields(p.text)...)
				}
				all = append(all, p.text)
				if p.x+p.w > width+1 {
					t.Errorf("%d columns in %v points: %q ends at %v", columns, width, p.text, p.x+p.w)
				}
			}
			for _, word := range strings.Fields(strings.Join(names[:columns], " ")) {
				if !slices.Contains(heads, word) {
					t.Errorf("%d columns in %v points: %q is cut: %q", columns, width, word, heads)
				}
			}
			for i := 1; i < columns; i++ {
				if !slices.Contains(all, fmt.Sprint(100+i)) {
					t.Errorf("%d columns in %v points: no figure of column %d", columns, width, i)
				}
			}
		}
	}
}
