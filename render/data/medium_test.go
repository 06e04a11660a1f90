package data

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"io"
	"net/url"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"notchbook/compile/record"
)

// Every form keeps the writer's text and obeys the rules of its medium, whatever
// the text is.

// texts are what a medium could take for something else. The beginnings of a
// formula are those of OWASP, CSV Injection; the marks of direction are those of
// Unicode UAX #9 that close over others' text.
var texts = []string{
	"=1+1", "+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", " =cmd|' /C calc'!A0", "\u00a0=1", "\u200b=1", "\ufeff=1", "＝1", "＋1", "－1", "＠x", "|x", "%x",
	`"=1`, `a","=1`, "a\r\n=1", "'=1", "-", "--", "-1⅔ stops", "\x1b[2J\x07", "\u009b31m", "a\u202eb\u202c", "\u2066a\u2069", "\u2028\u2029", "\U000e0041",
	"]]>", "<!--", "&amp;", "</x><y a='b'>", "\x00\x01", "\xff\xfe", "\\u0041", "</script>",
}

// sheetsOf gives of every text a sheet that bears it wherever a table has a text.
func sheetsOf(texts []string) *record.Season {
	s := &record.Season{}
	for _, text := range texts {
		o := &record.Outing{Place: text, Date: text}
		sh := &record.Sheet{ID: text, Label: text, Title: text, Outing: o, Scene: &record.Scene{Title: text, Light: text}, Film: text, Lens: text, Camera: text,
			Filters: []string{text}, Remarks: []string{text}, Number: text, Sleeve: text, Lost: text, Hour: text, Side: text, Needs: []string{text}}
		scan := &record.Scan{Path: "scans/" + text + ".jpg", State: record.Present, Sheets: []*record.Sheet{sh}}
		sh.Scans = []*record.Scan{scan}
		s.Sheets, s.Scans, s.Outings = append(s.Sheets, sh), append(s.Scans, scan), append(s.Outings, o)
		s.Findings = append(s.Findings, &record.Finding{Code: "exposure-off", Severity: record.Error, Title: text, Message: text, Notes: []string{text},
			Place: record.Place{Path: "a b/" + text + ".md", Line: 1, Column: 1, EndLine: 1, EndColumn: 2}, Sheets: []*record.Sheet{sh}})
	}
	return s
}

// A table is read back by Go's reader of RFC 4180 as it was; a cell that a
// spreadsheet would run has an apostrophe in front and is otherwise the same.
func TestCellsAreReadBackAndRunNothing(t *testing.T) {
	s := sheetsOf(texts)
	var b bytes.Buffer
	if err := SheetsCSV(&b, s.Sheets); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(rows) != len(texts)+1 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for i, text := range texts {
		want := strings.ReplaceAll(text, "\r", "") // the library writes line ends only, and no note's text holds another
		for j, cell := range rows[i+1] {
			if cell == "" || rows[0][j] == "scans" || rows[0][j] == "was developed" {
				continue
			}
			if _, err := strconv.ParseFloat(cell, 64); err == nil && cell == text {
				continue // a number
			}
			if strings.TrimPrefix(cell, "'") != strings.TrimPrefix(want, "'") {
				t.Errorf("%s: %q is read back as %q", rows[0][j], text, cell)
			}
			bare := strings.TrimLeftFunc(cell, func(r rune) bool { return unicode.IsSpace(r) || unicode.Is(unicode.Cf, r) })
			if strings.ContainsAny(bare[:min(1, len(bare))], "=+-@|%") || strings.HasPrefix(cell, "\t") || strings.HasPrefix(cell, "\r") {
				t.Errorf("%s: %q may be run", rows[0][j], cell)
			}
			for _, wide := range "＝＋－＠" {
				if strings.HasPrefix(cell, string(wide)) {
					t.Errorf("%s: %q may be run", rows[0][j], cell)
				}
			}
		}
	}
}

func TestNumbersOfTablesStayNumbers(t *testing.T) {
	for _, cell := range []string{"-1.333", "-0.5", "12", "+2", "-1e3"} {
		if got := inert(cell); got != cell {
			t.Errorf("%s became %s", cell, got)
		}
	}
}

// JSON gives back every text that is UTF-8, and holds nothing that a terminal
// obeys.
func TestJSONIsReadBackAndShownSafely(t *testing.T) {
	s := sheetsOf(texts)
	for name, write := range map[string]func(io.Writer) error{
		"findings": func(w io.Writer) error { return Findings(w, s, "") },
		"sheets":   func(w io.Writer) error { return SheetsJSON(w, s.Sheets) },
		"sarif":    func(w io.Writer) error { return SARIF(w, s, "", "0.1") },
		"season":   func(w io.Writer) error { return Season(w, s) },
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(name, err)
		}
		if at := strings.IndexFunc(b.String(), func(r rune) bool { return r != '\n' && unicode.In(r, unicode.Cc, unicode.Cf) }); at >= 0 {
			t.Errorf("%s holds %q", name, b.String()[at:min(b.Len(), at+20)])
		}
		held := map[string]bool{}
		var all any
		if err := json.Unmarshal(b.Bytes(), &all); err != nil {
			t.Fatal(name, err)
		}
		gather(all, held)
		for _, text := range texts {
			if text = strings.ToValidUTF8(text, "\ufffd\ufffd"); name != "sarif" && !held[text] || name == "sarif" && !held[text+"\n"+text] {
				t.Errorf("%s: %q is not read back", name, text)
			}
		}
	}
}

// gather collects every text of a JSON value.
func gather(v any, held map[string]bool) {
	switch v := v.(type) {
	case string:
		held[v] = true
	case []any:
		for _, x := range v {
			gather(x, held)
		}
	case map[string]any:
		for _, x := range v {
			gather(x, held)
		}
	}
}

// The places of SARIF are relative URI references (RFC 3986) that lead to the
// file and nowhere else.
func TestPlacesOfSARIFAreURIs(t *testing.T) {
	for _, text := range append(texts, "javascript:x", "a#b?c%20", "C:", "..") {
		path := "a b/" + text + ".md"
		u, err := url.Parse(artifact(path).URI)
		if err != nil || u.Scheme != "" || u.Host != "" || u.RawQuery != "" || u.Fragment != "" || u.Path != path {
			t.Errorf("%q is %q: %v", path, artifact(path).URI, err)
		}
	}
}

// A sidecar is XML whatever the notes say, and says what they say, but for the
// characters that XML 1.0 cannot hold.
func TestSidecarsOfHostileNotesAreXML(t *testing.T) {
	s := sheetsOf(texts)
	for i, scan := range s.Scans {
		d := xml.NewDecoder(bytes.NewReader(XMP(s, scan, "notchbook")))
		said, depth := "", 0
		for {
			token, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("%q: %v", texts[i], err)
			}
			switch token := token.(type) {
			case xml.StartElement:
				if depth++; strings.Contains(token.Name.Local, "y") && token.Name.Local != "PhotographicSensitivity" {
					t.Errorf("%q made an element %s", texts[i], token.Name.Local)
				}
			case xml.CharData:
				said += string(token)
			}
		}
		want := strings.Map(func(r rune) rune {
			if r < ' ' && r != '\t' && r != '\n' && r != '\r' {
				return '\ufffd'
			}
			return r
		}, strings.ToValidUTF8(texts[i], "\ufffd\ufffd"))
		if !strings.Contains(said, want) {
			t.Errorf("%q is not said", texts[i])
		}
	}
}
