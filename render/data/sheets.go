package data

import (
	"encoding/csv"
	"encoding/json"
	"io"
	"iter"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"notchbook/compile/record"
)

// column is one fact of a sheet, for tables: what its heading is and what stands
// in a row. Units are in the heading, so that a cell is a number or a text.
type column struct {
	heading string
	cell    func(*record.Sheet) string
}

// columns are the table's, in order. What is not known is an empty cell.
var columns = []column{
	{"id", func(s *record.Sheet) string { return s.ID }},
	{"date", func(s *record.Sheet) string { return of(s.Outing, func(o *record.Outing) string { return o.ISO }) }},
	{"date as typed", func(s *record.Sheet) string { return of(s.Outing, func(o *record.Outing) string { return o.Date }) }},
	{"time of day", func(s *record.Sheet) string { return s.Hour }},
	{"place", func(s *record.Sheet) string { return of(s.Outing, func(o *record.Outing) string { return o.Place }) }},
	{"sheet", func(s *record.Sheet) string { return s.Label }},
	{"holder side", func(s *record.Sheet) string { return s.Side }},
	{"negative number", func(s *record.Sheet) string { return s.Number }},
	{"scene", func(s *record.Sheet) string { return of(s.Scene, func(c *record.Scene) string { return c.Title }) }},
	{"title", func(s *record.Sheet) string { return s.Title }},
	{"light", func(s *record.Sheet) string { return of(s.Scene, func(c *record.Scene) string { return c.Light }) }},
	{"film", func(s *record.Sheet) string { return s.Film }},
	{"exposure index", func(s *record.Sheet) string { return plain(s.EI) }},
	{"camera", func(s *record.Sheet) string { return s.Camera }},
	{"lens", func(s *record.Sheet) string { return s.Lens }},
	{"filters", func(s *record.Sheet) string { return strings.Join(s.Filters, " + ") }},
	{"extension", func(s *record.Sheet) string { return s.Extension }},
	{"movements (as typed)", func(s *record.Sheet) string { return strings.Join(s.Movements, ", ") }},
	{"reading (as typed)", func(s *record.Sheet) string { return of(s.Reading, func(r *record.Reading) string { return r.Text }) }},
	{"asked (EV at the exposure index)", func(s *record.Sheet) string { return plain(s.Asked.EV) }},
	{"aperture (as marked)", func(s *record.Sheet) string { return s.Given.Aperture }},
	{"time (as marked)", func(s *record.Sheet) string { return s.Given.Time }},
	{"time (s)", func(s *record.Sheet) string { return plain(s.Given.Seconds) }},
	{"time after reciprocity (s)", func(s *record.Sheet) string { return plain(s.Given.OnFilm) }},
	{"reciprocity rule", func(s *record.Sheet) string { return s.Rule }},
	{"given (EV at the exposure index)", func(s *record.Sheet) string { return plain(s.Given.EV) }},
	{"difference (stops, + is over)", func(s *record.Sheet) string { return plain(s.Difference) }},
	{"counted as one exposure (stops)", func(s *record.Sheet) string { return plain(s.AsOne) }},
	{"state", func(s *record.Sheet) string { return string(s.State) }},
	{"would settle it", func(s *record.Sheet) string { return strings.Join(s.Needs, "; ") }},
	{"development asked", func(s *record.Sheet) string { return s.Development }},
	{"was developed", func(s *record.Sheet) string { return wasDeveloped(s) }},
	{"developed", func(s *record.Sheet) string { return developed(s) }},
	{"sleeve", func(s *record.Sheet) string { return s.Sleeve }},
	{"lost to", func(s *record.Sheet) string { return s.Lost }},
	{"scans", func(s *record.Sheet) string { return scanPaths(s) }},
	{"remarks", func(s *record.Sheet) string { return strings.Join(s.Remarks, "; ") }},
	{"notebook", func(s *record.Sheet) string { return where(s).Path }},
	{"line", func(s *record.Sheet) string { return number(where(s).Line) }},
}

// cells are a sheet's row: each heading with what stands below it.
func cells(s *record.Sheet) iter.Seq2[string, string] {
	return func(yield func(heading, cell string) bool) {
		for _, c := range columns {
			if !yield(c.heading, c.cell(s)) {
				return
			}
		}
	}
}

// SheetsCSV writes sheets as a table, RFC 4180: commas, CRLF, a heading row,
// UTF-8. A cell that a spreadsheet would run as a formula begins with an
// apostrophe, which the spreadsheet does not show.
func SheetsCSV(w io.Writer, sheets []*record.Sheet) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	row := make([]string, 0, len(columns))
	for _, c := range columns {
		row = append(row, c.heading)
	}
	if err := out.Write(row); err != nil {
		return err
	}
	for _, s := range sheets {
		row = row[:0]
		for _, cell := range cells(s) {
			row = append(row, inert(cell))
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// SheetRow is what the table says of one sheet, by the headings.
func SheetRow(s *record.Sheet) map[string]string {
	row := map[string]string{}
	for heading, cell := range cells(s) {
		row[heading] = inert(cell)
	}
	return row
}

// inert keeps a cell from being run: a spreadsheet takes what begins with one of
// these for a formula, also behind blanks and what is not shown, and some take
// the wide forms too (OWASP, CSV Injection). A negative number is a number.
func inert(cell string) string {
	text := strings.TrimLeftFunc(cell, func(r rune) bool { return !unicode.IsGraphic(r) || unicode.IsSpace(r) })
	first, _ := utf8.DecodeRuneInString(text)
	if !strings.ContainsRune("=+-@|%＝＋－＠", first) && !strings.HasPrefix(cell, "\t") && !strings.HasPrefix(cell, "\r") {
		return cell
	}
	if _, err := strconv.ParseFloat(cell, 64); err == nil {
		return cell
	}
	return "'" + cell
}

// sheetsVersion is the version of the form of the JSON.
const sheetsVersion = 1

// SheetsJSON writes sheets as JSON, described in lang/NOTATION.md: for each an
// object with the headings of the table as names. What is not known is left out.
func SheetsJSON(w io.Writer, sheets []*record.Sheet) error {
	out := struct {
		Format  string  `json:"format"`
		Version int     `json:"version"`
		Sheets  []facts `json:"sheets"`
	}{"notchbook sheets", sheetsVersion, []facts{}}
	for _, s := range sheets {
		out.Sheets = append(out.Sheets, facts{s})
	}
	return encoded(w, out, " ")
}

// facts is a sheet's row, written as an object in the order of the table.
type facts struct{ of *record.Sheet }

// figures are the columns that hold numbers.
var figures = map[string]bool{}

func init() {
	for _, c := range columns {
		figures[c.heading] = strings.Contains(c.heading, "(EV") || strings.Contains(c.heading, "(s)") || strings.Contains(c.heading, "(stops") ||
			c.heading == "exposure index" || c.heading == "line"
	}
}

// MarshalJSON writes numbers as numbers and everything else as text.
func (f facts) MarshalJSON() ([]byte, error) {
	b := []byte{'{'}
	for heading, cell := range cells(f.of) {
		if cell == "" {
			continue
		}
		if len(b) > 1 {
			b = append(b, ',')
		}
		name, err := json.Marshal(heading)
		if err != nil {
			return nil, err
		}
		b = append(append(b, name...), ':')
		if figures[heading] {
			b = append(b, cell...)
			continue
		}
		text, err := json.Marshal(cell)
		if err != nil {
			return nil, err
		}
		b = append(b, text...)
	}
	return append(b, '}'), nil
}

func of[T any](p *T, fact func(*T) string) string {
	if p == nil {
		return ""
	}
	return fact(p)
}

// plain writes a figure with up to three decimals.
func plain(f record.Figure) string {
	if !f.Known {
		return ""
	}
	text := strconv.FormatFloat(f.Value, 'f', 3, 64)
	if text = strings.TrimRight(strings.TrimRight(text, "0"), "."); text == "-0" {
		return "0"
	}
	return text
}

func number(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

func developed(s *record.Sheet) string {
	var all []string
	for _, d := range s.Developed {
		all = append(all, strings.Trim(d.Day()+", "+d.Text, ", "))
	}
	return strings.Join(all, "; ")
}

// wasDeveloped is yes where the notes say so or show it, perhaps where one of several sheets
// is meant, else not said; of film that was never exposed it is empty.
func wasDeveloped(s *record.Sheet) string {
	switch {
	case s.WasDeveloped():
		return "yes"
	case s.State == record.Unexposed:
		return ""
	case len(s.Developed) > 0:
		return "perhaps"
	}
	return "not said"
}

func scanPaths(s *record.Sheet) string {
	var all []string
	for _, sc := range s.Scans {
		if sc.State == record.Present {
			all = append(all, sc.Path)
		}
	}
	return strings.Join(all, "; ")
}

// where is the sheet's first line.
func where(s *record.Sheet) record.Place {
	if len(s.Lines) == 0 {
		return record.Place{}
	}
	return s.Lines[0].Place
}
