package pdf

import "fmt"

// Paper is the size of the pages.
type Paper int

// The papers, in portrait (A4 and A5: ISO 216).
const (
	A4     Paper = iota // 210 × 297 mm
	Letter              // 8½ × 11 in
	A5                  // 148 × 210 mm
)

// Thumbs is the size of the pictures beside the entries.
type Thumbs int

// The sizes; on A5 they are three quarters of it.
const (
	SmallThumbs Thumbs = iota // 112 points along the longer edge
	NoThumbs
	LargeThumbs // 168 points
)

// form is the measures of a page, in points.
type form struct {
	name         string
	w, h         float64
	inner, outer float64 // margins
	top, foot    float64 // above and below the lines
	folio        float64 // lines from the last one down to the page number
	edge         float64 // longest edge of a picture
	fact, value  float64 // where an entry's labels and its values begin
}

var papers = map[Paper]form{
	A4:     {name: "A4", w: 595.28, h: 841.89, inner: 85, outer: 54, top: 60, foot: 56, folio: 2, edge: 112, fact: 132, value: 194},
	Letter: {name: "US Letter", w: 612, h: 792, inner: 85, outer: 54, top: 60, foot: 56, folio: 2, edge: 112, fact: 132, value: 194},
	A5:     {name: "A5", w: 419.53, h: 595.28, inner: 54, outer: 32, top: 52, foot: 49, folio: 2, edge: 84, fact: 98, value: 152},
}

// formOf finds the measures for what was asked. Margins that are alike are as
// wide together as those for binding, so that the lines break alike.
func formOf(o Options) (form, error) {
	f, known := papers[o.Paper]
	if !known {
		return f, fmt.Errorf("pdf: unknown paper %d", o.Paper)
	}
	if !o.Bind {
		f.inner = (f.inner + f.outer) / 2
		f.outer = f.inner
	}
	if o.Thumbs == LargeThumbs {
		more := f.edge / 2
		f.edge, f.fact, f.value = f.edge+more, f.fact+more, f.value+more
	}
	return f, nil
}
