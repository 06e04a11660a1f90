package handbook

import (
	"slices"
	"strings"
)

// Table is one table as it is printed: a heading for each column, and rows. The
// last column is the source of the row, where the table has one.
type Table struct {
	Name    string // "filters"
	Title   string
	Columns []string
	Rows    [][]string
}

// printed names the tables that are shown, with their titles. What the program
// alone needs, such as the words by which a light is recognised, is left out.
var printed = []struct {
	name, file, title string
	leave             []string
}{
	{"factors", "values.csv", "Published filter factors", nil},
	{"filters", "filters.csv", "Filters by Wratten number, and what film makes of them (common practice, no source)", []string{"hues"}},
	{"light", "light.csv", "The light, as EV at ISO 100", []string{"words"}},
	{"direction", "direction.csv", "What the sun's direction takes off", []string{"words"}},
	{"apertures", "apertures.csv", "Marks of apertures", nil},
	{"speeds", "speeds.csv", "Marks of shutters", nil},
	{"iso", "speed.csv", "Film speeds", nil},
	{"zones", "zones.csv", "Zones", nil},
}

// Tables gives the names of all tables that can be printed, in their order.
func Tables() []string {
	var names []string
	for _, p := range printed {
		names = append(names, p.name)
	}
	return names
}

// Lookup gives a table by its name; ok is false where there is none.
func Lookup(name string) (Table, bool) {
	for _, p := range printed {
		if p.name != name {
			continue
		}
		t, err := readTable(p.file)
		if err != nil {
			return Table{}, false
		}
		return t.without(p.leave, Table{Name: p.name, Title: p.title}), true
	}
	return Table{}, false
}

// without copies a table's columns but for some, in the order of the file.
func (t table) without(leave []string, to Table) Table {
	var keep []int
	for column, i := range t.columns {
		if !slices.Contains(leave, column) {
			keep = append(keep, i)
		}
	}
	slices.Sort(keep)
	names := make([]string, len(t.columns))
	for column, i := range t.columns {
		names[i] = strings.ReplaceAll(column, "_", " ")
	}
	to.Columns = pick(names, keep)
	for _, row := range t.rows {
		if i, ok := t.columns["low"]; ok && row[i] == "" {
			continue // words that are recognised only to be left alone
		}
		to.Rows = append(to.Rows, pick(row, keep))
	}
	return to
}

func pick(row []string, keep []int) []string {
	var out []string
	for _, i := range keep {
		out = append(out, row[i])
	}
	return out
}
