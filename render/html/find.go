package html

import (
	_ "embed"
	"encoding/json"
	"strconv"
	"strings"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// The page that finds sheets. It is the one page that needs a script: the index
// lies beside it as a script of its own, since a page on a disk may load nothing
// else, and carries everything that the notation means in finished spellings.

//go:embed page/find.js
var findScript []byte

// findPages is the page, where there is an index to ask.
func (w *site) findPages() []*page {
	if w.season.Find == nil {
		return nil
	}
	return []*page{{Name: "find.html", Title: "Find", Template: "find", body: func() any { return nil }}}
}

// finder is the index as the page's script reads it. Lists are texts, one line a
// thing: a browser reads a few long texts much faster than many short ones.
type finder struct {
	Sheets  int               `json:"sheets"`
	Film    map[int]int       `json:"film"`   // rows of second exposures: the row of the first on the same film
	Unused  []int             `json:"unused"` // rows that are no exposure
	Plain   map[string]string `json:"plain"`
	Terms   string            `json:"terms"`
	Dates   string            `json:"dates"`
	Words   string            `json:"words"`
	Label   string            `json:"label"`
	URL     string            `json:"url"`
	What    string            `json:"what"`
	How     string            `json:"how"`
	State   string            `json:"state"` // style of the verdict
	Verdict string            `json:"check"`
}

// writeFinder writes the script and the index.
func (w *site) writeFinder(dst Folder) error {
	f := w.season.Find
	if f == nil {
		return nil
	}
	out := finder{Sheets: f.Sheets, Plain: f.Plain, Terms: findables(f.Terms), Dates: findables(f.Dates), Words: findables(f.Words)}
	out.Film, out.Unused = map[int]int{}, []int{}
	at := map[*record.Sheet]int{}
	var rows [6][]string
	for i, s := range w.season.Sheets {
		if at[s] = i; s.Before != nil {
			out.Film[i] = at[s.First()]
		}
		if s.State == record.Unexposed {
			out.Unused = append(out.Unused, i)
		}
		r := w.row(s)
		class := "v-" + r.Verdict.Class
		if r.Verdict.Error {
			class += " v-error"
		}
		for i, cell := range []string{saying.Name(s), r.URL, r.What(), r.WhenAndHow(), class, saying.Join(" ", r.Verdict.Sign, r.Verdict.Words)} {
			rows[i] = append(rows[i], onOneLine(cell))
		}
	}
	for i, column := range []*string{&out.Label, &out.URL, &out.What, &out.How, &out.State, &out.Verdict} {
		*column = strings.Join(rows[i], "\n")
	}
	text, err := json.Marshal(out)
	if err != nil {
		return err
	}
	if err := writeFile(dst, "find.js", findScript); err != nil {
		return err
	}
	return writeFile(dst, "find-index.js", []byte("globalThis.notchbookIndex = "+string(text)+";\n"))
}

// onOneLine keeps a text on its line.
func onOneLine(text string) string { return oneLine.Replace(text) }

var oneLine = strings.NewReplacer("\n", " ", "\t", " ", "|", "¦")

// findables writes a line for each: the name, its spellings, its sheets.
func findables(all []record.Findable) string {
	var b strings.Builder
	for i, f := range all {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(onOneLine(f.Name))
		b.WriteByte('\t')
		for j, s := range f.Spelled {
			if j > 0 {
				b.WriteByte('|')
			}
			b.WriteString(s)
		}
		b.WriteByte('\t')
		runs(&b, f.Sheets)
	}
	return b.String()
}

// runs writes runs of sheets: how many are passed over since the last run, and
// behind a point how many there are, where it is not one; to the base of 36.
func runs(b *strings.Builder, all []record.Run) {
	at := 0
	for i, r := range all {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(strconv.FormatInt(int64(r.First-at), 36))
		if r.Count > 1 {
			b.WriteByte('.')
			b.WriteString(strconv.FormatInt(int64(r.Count), 36))
		}
		at = r.First + r.Count
	}
}
