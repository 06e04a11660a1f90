package draw

import (
	"fmt"
	"math"
	"strings"
	"time"

	"notchbook/compile/record"
)

// The calendar strip: a row for each month in which there was an outing, its days
// as ticks, and a dot for each outing, the larger the more sheets it brought.

const (
	monthHigh  = 19.
	daysLeft   = 62.
	daysRight  = LadderWidth - 5
	mostMonths = 36 // beyond, the strip would be a page
)

// month is a row of the strip.
type month struct {
	name   string
	days   int
	sheets [32]int // by day
	out    [32]bool
}

// Calendar draws when the season's outings were; nil where none has a whole
// date.
func Calendar(s *record.Season) *Drawing {
	months, said := monthsOf(s)
	if len(months) == 0 || len(months) > mostMonths {
		return nil
	}
	d := &Drawing{Width: LadderWidth, Height: monthHigh*float64(len(months)) + 2, Title: "Outings by day", Text: strings.Join(said, "; ") + "."}
	for i, m := range months {
		d.month(m, monthHigh*(float64(i)+1)-5)
	}
	return d
}

// counted says a number of sheets.
func counted(sheets int) string {
	if sheets == 1 {
		return "1 sheet"
	}
	return fmt.Sprint(sheets, " sheets")
}

// monthsOf gathers the months in the order of time.
func monthsOf(s *record.Season) (months []*month, said []string) {
	at := map[time.Time]*month{}
	first, last := time.Time{}, time.Time{}
	for _, o := range s.Outings {
		day, err := time.Parse(time.DateOnly, o.ISO)
		if err != nil {
			continue
		}
		start := day.AddDate(0, 0, 1-day.Day())
		m := at[start]
		if m == nil {
			m = &month{name: start.Format("Jan 2006"), days: start.AddDate(0, 1, -1).Day()}
			at[start] = m
		}
		m.sheets[day.Day()] += record.Sheets(o.Sheets)
		m.out[day.Day()] = true
		said = append(said, fmt.Sprintf("%s, %s", day.Format("2 January 2006"), counted(record.Sheets(o.Sheets))))
		if first.IsZero() || start.Before(first) {
			first = start
		}
		if start.After(last) {
			last = start
		}
	}
	for t := first; len(at) > 0 && !t.After(last); t = t.AddDate(0, 1, 0) {
		if m := at[t]; m != nil {
			months = append(months, m)
		}
	}
	return months, said
}

// month draws a row on its base line.
func (d *Drawing) month(m *month, y float64) {
	const wide = (daysRight - daysLeft) / 30
	d.add(Words{At: Point{0, y + 2}, Text: m.name, Size: WordSize, Ink: Quiet})
	worded := -math.MaxFloat64
	for day := 1; day <= m.days; day++ {
		x := daysLeft + wide*float64(day-1)
		if !m.out[day] {
			d.rule(x, y-1.5, x, y+1.5, .6, Hair, Solid)
			continue
		}
		size := min(3+math.Sqrt(float64(m.sheets[day])), wide*1.3)
		d.add(Dot{At: Point{x, y}, Form: Circle, Size: size, Ink: Strong})
		w := Words{At: Point{x, y - 5.5}, Text: fmt.Sprint(day), Size: WordSize, Anchor: Middle, Ink: Strong}
		if b := w.bounds(); b.left > worded {
			d.add(w)
			worded = b.right
		}
	}
}
