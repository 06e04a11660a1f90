package html

import (
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"notchbook/compile"
	"notchbook/compile/query"
	"notchbook/compile/record"
)

// The notes are a stranger's from the first letter on. Here they go through the
// compiler, and another parser of HTML says what came out.

// notesSeason compiles a notebook, with scans of hostile names beside it.
func notesSeason(notes string) *record.Season {
	scans := []string{`scans/50% "x" onerror='alert(1)' #2?<b>.tif`, "scans/a.tif"}
	s, _ := compile.Compile(compile.World{
		Title: "Notes",
		Read:  func(string) ([]byte, error) { return []byte(notes), nil },
		Look: func(string) compile.Scan {
			return compile.Scan{State: record.Present, Format: "TIFF", Width: 40, Height: 50}
		},
		Scans: scans,
	}, "notes.md")
	s.Find = query.Index(s)
	return s
}

// allowedAttributes are all that a page has; elements are in pages_test.go.
var allowedAttributes = strings.Fields(`alt aria-current aria-describedby aria-hidden aria-label aria-labelledby autocapitalize autocomplete charset class
	colspan content cx cy d data-label data-picture datetime defer enterkeyhint fill font-size for height hidden href http-equiv id lang loading max min name
	r rel role scope spellcheck src start stroke-dasharray stroke-width tabindex title type value viewbox viewBox width x y`)

// strange is what of a page can only come from the notes: elements and attributes
// that no page has, places that run or are loaded from elsewhere.
func strange(page []byte) []string {
	doc, err := html.Parse(strings.NewReader(string(page)))
	if err != nil {
		return []string{err.Error()}
	}
	var all []string
	scripts := []string{"find-index.js", "find.js", "look.js"}
	for n := range doc.Descendants() {
		if n.Type == html.CommentNode {
			all = append(all, "comment "+n.Data)
		}
		if n.Type != html.ElementNode {
			continue
		}
		if !slices.Contains(elements, n.Data) {
			all = append(all, "element "+n.Data)
		}
		src, _ := attr(n, "src")
		if n.Data == "script" && (n.FirstChild != nil || !slices.Contains(scripts, src)) {
			all = append(all, "a script of its own")
		}
		for _, a := range n.Attr {
			if !slices.Contains(allowedAttributes, a.Key) {
				all = append(all, n.Data+" with "+a.Key)
			}
			low := strings.ToLower(strings.TrimSpace(a.Val))
			if (a.Key == "href" || a.Key == "src") && strings.Contains(low, ":") && !strings.HasPrefix(low, "http") && !strings.HasPrefix(low, "mailto:") && !strings.HasPrefix(low, "../") && strings.IndexByte(low, ':') < strings.IndexAny(low+"/", "/?#") {
				all = append(all, a.Key+" to "+a.Val)
			}
			if a.Key == "src" && (strings.HasPrefix(low, "http") || strings.HasPrefix(low, "//")) {
				all = append(all, "loads "+a.Val)
			}
		}
	}
	return all
}

// shownAs writes the notes' record and looks at every page.
func shownAs(t *testing.T, notes string) (text string) {
	t.Helper()
	m := mustWrite(t, notesSeason(notes), Options{Picture: dot, View: func(string) ([]byte, error) { return dot("", 0) }})
	var all strings.Builder
	for _, name := range m.pagesOf() {
		for _, fault := range strange(m.files[name]) {
			t.Errorf("%s: %s, from %q", name, fault, notes)
		}
		all.WriteString(flat(parse(t, m.files[name])))
	}
	if index := string(m.files["find-index.js"]); strings.ContainsAny(index, "<>\u2028\u2029") {
		t.Errorf("the index holds what could end its script, from %q", notes)
	}
	return all.String()
}

// Each line is shown as text, as it was typed.
func TestNotesAreText(t *testing.T) {
	const sheet = "day: 2026-11-07, Aldermoor\nscene: kiln\nmeter: EV 12\n"
	for _, c := range []struct{ notes, shown string }{
		{"day: 2026-11-07\nscene: <script>alert(1)</script>\n3A: 1/30 f16\n", "<script>alert(1)</script>"},
		{"day: 2026-11-07, \"><img src=x onerror=alert(1)>\n3A: 1/30 f16\n", `"><img src=x onerror=alert(1)>`},
		{sheet + "3A: 1/30 f16 -- ' onmouseover='alert(1)\n", "' onmouseover='alert(1)"},
		{sheet + "3A: 1/30 f16 -- \" autofocus onfocus=\"alert(1)\n", `" autofocus onfocus="alert(1)`},
		{sheet + "3A: 1/30 f16\nscan 3A: scans/50% \"x\" onerror='alert(1)' #2?<b>.tif\n", "50%"},
		{sheet + "3A: 1/30 f16\nscan 3A: javascript:alert(1)\n", "javascript:alert(1)"},
		{sheet + "\n<svg onload=alert(1)><circle r=1></svg>\n", "<svg onload=alert(1)><circle r=1></svg>"},
		{sheet + "\n<b>bold</b> and <!-- a comment --> &lt;i&gt;\n", "<b>bold</b> and <!-- a comment --> <i>"},
		{sheet + "\n<style>body { display: none }</style>\n\n<iframe src=\"https://example.org\"></iframe>\n", "<iframe src=\"https://example.org\"></iframe>"},
		{sheet + "\n[run](javascript:alert(1)) and ![p](data:image/svg+xml,x) and <javascript:alert(1)>\n", "run"},
		{sheet + "\n[titled](https://example.org \"a\\\" onclick=alert(1)\")\n", `a" onclick=alert(1)`},
		{sheet + "\n![\"><script>x</script>](scans/a.tif)\n", `"><script>x</script>`},
		{sheet + "\n```\"><script>\ncode </code></pre><script>x</script>\n```\n", "code </code></pre><script>x</script>"},
		{sheet + "\n| <td onclick=x> |\n|---|\n| </table><script>x</script> |\n", "</table><script>x</script>"},
		{"lens <img src=x>: 300 mm\nfilter \"><b>: x2\n" + sheet + "3A: 1/30 f16\n", "<img src=x>"},
		{"# {{.Season}} </title><script>x</script>\n" + sheet + "3A: 1/30 f16\n", "{{.Season}} </title><script>x</script>"},
		{sheet + "neg 3A: <u>26</u>\nsleeve 3A: </td><script>\nresult 3A: <i>keeper\n3A: 1/30 f16\n", "</td><script>"},
	} {
		if text := shownAs(t, c.notes); !strings.Contains(text, c.shown) {
			t.Errorf("%q is not shown for %q", c.shown, c.notes)
		}
	}
}

func FuzzNotesAreText(f *testing.F) {
	f.Add("day: 2026-11-07, x\nscene: <script>alert(1)</script>\n3A: \"><img src=x onerror=y> f16\n")
	f.Add("# <svg onload=x>\n\n[a](javascript:b \"c\") ![d](data:e) <f@example.org>\n\n<!-- g --> <h i='j'>\n")
	f.Add("lens <b>: 300 mm\nfilter '\"`: x2\nday: 1\nscan: scans/{day}-{sheet}%\"'.tif\n1A: '\" 1/30 f16 -- &#60;x&#62;\n")
	f.Add(hostile)
	f.Fuzz(func(t *testing.T, notes string) {
		if len(notes) > 4000 {
			t.Skip("long notes have no other words")
		}
		shownAs(t, notes)
	})
}

// Where the notes speak of what can hurt, every page carries the trade's caution:
// of chemicals where there is a sheet to develop, of the sun where a filter or the
// light leads to it, and there alone.
func TestCautions(t *testing.T) {
	const sheet = "day: 2026-11-07, Aldermoor\nload 1A: slate\nscene: kiln\nmeter: EV 12\n"
	for _, c := range []struct {
		notes string
		want  []string
	}{
		{"film slate: ISO 400\n" + sheet + "1A: 1/30 f16, ND 3.0\n", []string{"not solar filters", "never look at the sun"}},
		{"film slate: ISO 400\n" + sheet + "1A: 1/30 f16\ndevelop 1A: N, 8 min\n", []string{"safety data sheet", "local rules"}},
		{"film slate: ISO 400\n" + sheet + "1A: 1/30 f16\n", nil},
	} {
		m := mustWrite(t, notesSeason(c.notes), Options{})
		for _, name := range m.pagesOf() {
			text := flat(parse(t, m.files[name]))
			for _, w := range c.want {
				if !strings.Contains(text, w) {
					t.Errorf("%s does not say %q of %q", name, w, c.notes)
				}
			}
			if c.want == nil && strings.Contains(text, "solar") {
				t.Errorf("%s warns for nothing", name)
			}
		}
	}
	waiting := mustWrite(t, notesSeason("film slate: ISO 400, N 8:00 at 20C\n"+sheet+"1A: 1/30 f16, N\n"), Options{})
	if text := flat(parse(t, waiting.files["develop.html"])); !strings.Contains(text, "safety data sheet") {
		t.Error("the list that is taken into the darkroom does not speak of chemicals")
	}
}
