package pdf

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// Labels
//
// Labels stand edge to edge, so that one cut parts two of them, and the cuts are
// marked in the margins, outside of what is kept. Where they fill the paper to its
// edge they have no margin: such sheets are sold ready cut. A sleeve's label says what is in
// it; a holder side's what it is loaded with, and that of a free side leaves lines
// to be filled in with a pencil.

// LabelSize is a label's width and height in millimetres.
type LabelSize struct{ Width, Height float64 }

const (
	millimetre  = 72 / 25.4
	labelMargin = 10 * millimetre  // what printers leave white, and the cutting marks
	labelPad    = 4.5 * millimetre // at most, within a label
	labelRest   = 3 * millimetre   // of the paper may be over where labels fill it
	labelTitle  = 13.0
	smallest    = 5.0 // type below it cannot be read
)

// leastLabel is the smallest label that holds a side and a line of words.
var leastLabel = LabelSize{25, 12}

// Fits reports whether labels of a size have room on a paper, as an error that
// says what is wrong.
func (l LabelSize) Fits(p Paper) error {
	sheet, known := papers[p]
	if !known {
		return fmt.Errorf("pdf: unknown paper %d", p)
	}
	if !(l.Width >= leastLabel.Width && l.Height >= leastLabel.Height) {
		return fmt.Errorf("a label is at least %v × %v mm", leastLabel.Width, leastLabel.Height)
	}
	if across, down := l.counts(sheet); across < 1 || down < 1 {
		return fmt.Errorf("a label of %v × %v mm has no room on %s paper", l.Width, l.Height, sheet.name)
	}
	return nil
}

// counts says how many labels stand side by side, and one below the other.
func (l LabelSize) counts(sheet form) (across, down int) {
	return labelsOn(sheet.w, l.Width*millimetre), labelsOn(sheet.h, l.Height*millimetre)
}

func labelsOn(paper, label float64) int {
	if filled := int((paper + slack) / label); filled > 0 && paper-float64(filled)*label < labelRest {
		return filled
	}
	return int((paper - 2*labelMargin + slack) / label)
}

// tag is what one label says.
type tag struct {
	title string
	rows  []string
	blank []string // what is to be filled in by hand
}

// WriteLabels writes the labels of the season's sleeves and holder sides. Of the
// options the paper, the date and the generator count.
func WriteLabels(w io.Writer, s *record.Season, size LabelSize, o Options) error {
	if err := size.Fits(o.Paper); err != nil {
		return err
	}
	o.Bind = false
	b, err := newBook(s, o)
	if err != nil {
		return err
	}
	b.pdf.SetTitle(surrogates(s.Title+": labels"), true)
	b.labels(append(sleeveLabels(s), holderLabels(s)...), size)
	return b.output(w)
}

// labels fills page after page, in the middle of the paper.
func (b *book) labels(list []tag, size LabelSize) {
	across, down := size.counts(b.form)
	w, h := size.Width*millimetre, size.Height*millimetre
	left, top := (b.form.w-float64(across)*w)/2, (b.form.h-float64(down)*h)/2
	for i := 0; i < len(list) || i == 0; i += across * down {
		b.addPage(true)
		b.cuts(left, top, w, h, across, down)
		for j := i; j < min(i+across*down, len(list)); j++ {
			column, row := (j-i)%across, (j-i)/across
			b.label(&list[j], left+float64(column)*w, top+float64(row)*h, w, h)
		}
	}
}

// cuts marks where to cut: a stroke at both ends of each cut, and a hair between
// the labels.
func (b *book) cuts(left, top, w, h float64, across, down int) {
	const long, off = 5 * millimetre, 1.5 * millimetre
	right, bottom := left+float64(across)*w, top+float64(down)*h
	for i := range across + 1 {
		x := left + float64(i)*w
		b.stroke(x, top-off-long, x, top-off, 0.4, black)
		b.stroke(x, bottom+off, x, bottom+off+long, 0.4, black)
		b.stroke(x, top, x, bottom, 0.25, hair)
	}
	for i := range down + 1 {
		y := top + float64(i)*h
		b.stroke(left-off-long, y, left-off, y, 0.4, black)
		b.stroke(right+off, y, right+off+long, y, 0.4, black)
		b.stroke(left, y, right, y, 0.25, hair)
	}
}

// label sets one label: its title, and below it as large as they fit its rows.
func (b *book) label(l *tag, x, y, w, h float64) {
	look := style{face: bold, size: min(labelTitle, h/3)}
	pad := min(labelPad, h/6)
	room := w - 2*pad
	x, y = x+pad, y+pad+look.size*0.8
	b.say(x, y, b.fit(l.title, look, room), look)
	y += look.size * 0.35
	foot := h - 2*pad - look.size*1.15
	for size := bodySize; ; size -= 0.5 {
		high := size * 1.25
		b.reset()
		for _, row := range l.rows {
			b.set(measure{right: room, h: high}, span{text: row, style: style{size: size}})
		}
		lines := len(b.lines) + len(l.blank)
		if float64(lines)*high > foot && size > smallest {
			continue
		}
		most := max(int(foot/high), 1)
		for i := range b.lines[:min(len(b.lines), most)] {
			b.labelLine(i, i == most-1 && len(b.lines) > most, x, y, room)
			y += high
		}
		b.blanks(l.blank, x, y, room, min(foot/float64(max(len(l.blank), 1)), 2*grid))
		b.reset()
		return
	}
}

// labelLine draws a set line; the last that has room says that more follows.
func (b *book) labelLine(i int, more bool, x, y, room float64) {
	l := &b.lines[i]
	base := y + l.h*0.8
	for j := l.from; j < l.to; j++ {
		p := &b.pieces[j]
		b.text(x+p.x, base, p.text, p.style)
	}
	if more {
		last := &b.pieces[l.to-1]
		b.say(min(x+last.x+last.w, x+room-last.size), base, " …", last.style)
	}
}

// blanks sets words with a line behind them to write on.
func (b *book) blanks(names []string, x, y, room, high float64) {
	look := style{size: min(smallSize, high*0.6), ink: grey}
	for _, name := range names {
		y += high
		b.say(x, y-descent, name, look)
		b.stroke(x+b.faces().width(regular, look.size, name)+4, y-descent, x+room, y-descent, 0.4, faint)
	}
}

// sleeveLabels are those of the sleeves, in the order of their first negative.
func sleeveLabels(s *record.Season) []tag {
	var out []tag
	for _, g := range sleeves(s) {
		var numbers, places, dates, films []string
		for _, sh := range g.sheets {
			numbers = append(numbers, orWords(sh.Number, sh.ID))
			films = appendNew(films, sh.Film)
			if o := sh.Outing; o != nil {
				places, dates = appendNew(places, o.Place), appendNew(dates, o.Day())
			}
		}
		out = append(out, tag{title: g.title, rows: saying.Given(strings.Join(numberRuns(numbers), ", "),
			strings.Join(places, "; "), strings.Join(dates, ", "), strings.Join(films, ", "))})
	}
	return out
}

// appendNew adds what is not in a list yet.
func appendNew(list []string, s string) []string {
	for _, known := range list {
		if known == s {
			return list
		}
	}
	return append(list, saying.Given(s)...)
}

// numberRuns joins numbers that follow one another: 26-041 – 26-044.
func numberRuns(numbers []string) []string {
	var out []string
	for i := 0; i < len(numbers); {
		j := i
		for j+1 < len(numbers) && follows(numbers[j], numbers[j+1]) {
			j++
		}
		run := numbers[i]
		if j > i {
			run += " – " + numbers[j]
		}
		out = append(out, run)
		i = j + 1
	}
	return out
}

// follows reports whether b is a with the figure at its end one higher, written
// with as many digits.
func follows(a, b string) bool {
	i := len(a)
	for i > 0 && a[i-1] >= '0' && a[i-1] <= '9' {
		i--
	}
	n, err := strconv.Atoi(a[i:])
	return err == nil && b == fmt.Sprintf("%s%0*d", a[:i], len(a)-i, n+1)
}

// holderLabels are those of the holder sides.
func holderLabels(s *record.Season) []tag {
	var out []tag
	for _, h := range s.Holders {
		l := tag{title: h.Name()}
		switch h.State {
		case record.Loaded, record.Exposed, record.Spoiled, record.Doubtful:
			film := orWords(h.Film, "film not known")
			if ei := holderIndex(s, h); ei != "" {
				film += ", EI " + ei
			}
			l.rows = saying.Given(film, loadedOn(h), otherThan(string(h.State), string(record.Loaded)))
		default:
			l.blank = []string{"film", "EI", "date"}
		}
		out = append(out, l)
	}
	return out
}

// loadedOn is when the side was loaded last, and when it was exposed.
func loadedOn(h *record.HolderSide) string {
	var said []string
	for _, e := range h.Events {
		switch {
		case e.Date == "":
		case e.What == "loaded":
			said = []string{"loaded " + e.Date}
		case strings.HasPrefix(e.What, "exposed"):
			said = append(said, e.What+" "+e.Date)
		}
	}
	return strings.Join(said, ", ")
}

// holderIndex is the exposure index of the film in a side: that of its sheet, else
// what the kit declares.
func holderIndex(s *record.Season, h *record.HolderSide) string {
	if h.Sheet != nil && h.Sheet.EI.Known {
		return saying.Number(h.Sheet.EI.Value)
	}
	for _, item := range s.Kit {
		if item.Kind != "film" || item.Name != h.Film {
			continue
		}
		for _, f := range item.Facts {
			if f.Name == "exposure index" {
				return strings.TrimPrefix(f.Value, "EI ")
			}
		}
	}
	return ""
}
