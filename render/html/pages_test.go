package html

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"math"
	"net/url"
	"path"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"notchbook/compile/record"
)

func parse(t testing.TB, b []byte) *html.Node {
	t.Helper()
	doc, err := html.Parse(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// flat is all the text of a page, and the values of its attributes.
func flat(n *html.Node) string {
	var text, values strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			text.WriteString(d.Data)
		}
		for _, a := range d.Attr {
			values.WriteString(a.Val + "\n")
		}
	}
	return text.String() + "\n" + values.String()
}

func attr(n *html.Node, key string) (string, bool) {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val, true
		}
	}
	return "", false
}

// ids are the anchors of every page, by its name. An id given twice is an error.
func ids(t *testing.T, m *memory) map[string]map[string]bool {
	t.Helper()
	all := map[string]map[string]bool{}
	for _, name := range m.pagesOf() {
		all[name] = map[string]bool{}
		for n := range parse(t, m.files[name]).Descendants() {
			id, ok := attr(n, "id")
			if ok && (id == "" || all[name][id]) {
				t.Errorf("%s: id %q is empty or given twice", name, id)
			}
			all[name][id] = true
		}
	}
	return all
}

// inFolder are the files of the season's folder to which a record may lead.
func inFolder(s *record.Season) map[string]bool {
	files := map[string]bool{}
	for _, sc := range s.Scans {
		if sc.State != record.Missing && sc.State != record.Outside {
			files[sc.Path] = true
		}
	}
	for _, n := range s.Notebooks {
		files[n.Path] = true
	}
	eachField(s, func(name string, v reflect.Value) {
		if name == "Target.Path" {
			files[v.String()] = true
		}
	})
	return files
}

// checkLinks follows every link of every page: into the folder, to an anchor
// that is there; to a file of the season, decoded as a browser decodes it; or to
// the web, from the prose alone.
func checkLinks(t *testing.T, m *memory, s *record.Season, root string) {
	t.Helper()
	anchors, originals := ids(t, m), inFolder(s)
	for _, name := range m.pagesOf() {
		for n := range parse(t, m.files[name]).Descendants() {
			for _, key := range []string{"href", "src"} {
				if raw, ok := attr(n, key); ok {
					if err := follow(raw, name, root, m, anchors, originals); err != nil {
						t.Errorf("%s: %s=%q: %v", name, key, raw, err)
					}
				}
			}
		}
	}
}

func follow(raw, from, root string, m *memory, anchors map[string]map[string]bool, originals map[string]bool) error {
	u, err := url.Parse(raw)
	switch {
	case err != nil:
		return err
	case u.Scheme != "":
		if !slices.Contains([]string{"http", "https", "mailto"}, u.Scheme) {
			return fmt.Errorf("scheme %s", u.Scheme)
		}
		return nil
	case u.RawQuery != "" || u.ForceQuery:
		return fmt.Errorf("a query, which a file has not")
	}
	if file, ok := strings.CutPrefix(u.Path, root); ok {
		if !originals[file] || u.Fragment != "" {
			return fmt.Errorf("no file %q in the season", file)
		}
		return nil
	}
	target := u.Path
	if target == "" {
		target = from
	}
	if _, ok := m.files[target]; !ok || path.Clean(target) != target {
		return fmt.Errorf("no file %q in the record", target)
	}
	if u.Fragment != "" && !anchors[target][u.Fragment] {
		return fmt.Errorf("no anchor %q in %s", u.Fragment, target)
	}
	return nil
}

func TestLinks(t *testing.T) {
	s := season()
	checkLinks(t, mustWrite(t, s, options()), s, "../")
	o := options()
	o.Season = "../../my%20season/"
	checkLinks(t, mustWrite(t, s, o), s, "../../my season/")
}

// TestOrphanedSheet: a sheet that the season lists and no outing holds has no
// page, and nothing may lead there.
func TestOrphanedSheet(t *testing.T) {
	s := season()
	lost := &record.Sheet{ID: "lost", Slug: "lost", Label: "9A", State: record.Off, Difference: record.Known(-5)}
	s.Sheets = append(s.Sheets, lost)
	s.Findings[0].Sheets = append(s.Findings[0].Sheets, lost)
	lost.Findings = []*record.Finding{{Anchor: "nowhere", Message: "x"}}
	checkLinks(t, mustWrite(t, s, options()), s, "../")
}

// elements are all that a page may hold.
var elements = strings.Fields(`html head meta title link body a header nav ul ol li main h1 h2 h3 h4 h5 h6 p span strong em s
	code pre mark br hr blockquote table thead tbody tr th td dl dt dd div section article footer details summary time abbr img svg path circle text figure figcaption select label input button script noscript`)

// checkShape holds every page to what a screen reader and the policy need.
func checkShape(t *testing.T, name string, doc *html.Node) {
	t.Helper()
	count := map[string]int{}
	level := 0
	for n := range doc.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		count[n.Data]++
		if !slices.Contains(elements, n.Data) {
			t.Errorf("%s: element %s", name, n.Data)
		}
		checkAttributes(t, name, n)
		if len(n.Data) == 2 && n.Data[0] == 'h' && n.Data[1] >= '1' && n.Data[1] <= '6' {
			next := int(n.Data[1] - '0')
			if next > level+1 {
				t.Errorf("%s: h%d after h%d: %s", name, next, level, flat(n))
			}
			level = next
		}
	}
	for _, one := range []string{"h1", "main", "title", "footer", "header"} {
		if count[one] != 1 {
			t.Errorf("%s: %d of %s", name, count[one], one)
		}
	}
}

func checkAttributes(t *testing.T, name string, n *html.Node) {
	t.Helper()
	for _, a := range n.Attr {
		if a.Key == "style" || strings.HasPrefix(a.Key, "on") || strings.Contains(a.Key, ":") {
			t.Errorf("%s: %s has %s=%q", name, n.Data, a.Key, a.Val)
		}
	}
	if _, ok := attr(n, "alt"); n.Data == "img" && !ok {
		t.Errorf("%s: a picture without alt", name)
	}
	if lang, _ := attr(n, "lang"); n.Data == "html" && lang == "" {
		t.Errorf("%s: no language", name)
	}
}

func TestShape(t *testing.T) {
	m := mustWrite(t, season(), options())
	for _, name := range m.pagesOf() {
		checkShape(t, name, parse(t, m.files[name]))
		if !bytes.Contains(m.files[name], []byte(`content="default-src 'none';`)) {
			t.Errorf("%s: no policy", name)
		}
	}
}

// hostile is what a stranger would write in a notebook: HTML, the ends of
// attributes, of text and of comments, schemes that run, and template actions.
const hostile = `<script>alert(1)</script>"><img src=x onerror=alert(1)>'/*--></title></style>` +
	"<!--\u2028javascript:alert(1)//{{.Season}}&lt;\x00`<svg onload=x>"

// TestHostile writes that into every text of the record at once. The pages must
// keep their shape, and the reader must see what was written.
func TestHostile(t *testing.T) {
	s := season()
	keep := []string{"Slug", "Anchor", "Index.Kind", "Block.Task", "Finding.Code"}
	eachField(s, func(name string, v reflect.Value) {
		for _, k := range keep {
			if strings.HasSuffix(name, k) {
				return
			}
		}
		v.SetString(hostile)
	})
	m := mustWrite(t, s, options())
	seen := false
	for _, name := range m.pagesOf() {
		doc := parse(t, m.files[name])
		checkShape(t, name, doc)
		seen = seen || strings.Contains(flat(doc), `<img src=x onerror=alert(1)>'/*--></title></style><!--`)
	}
	if !seen {
		t.Error("the text is nowhere to be read")
	}
	checkLinks(t, m, s, "../")
}

// TestTargets: links that run, read the disk, or leave the season.
func TestTargets(t *testing.T) {
	for _, u := range []string{
		"javascript:alert(1)", "JaVaScRiPt:alert(1)", " javascript:alert(1)", "java\nscript:alert(1)", "data:text/html,x", "vbscript:x", "file:///etc/passwd",
		"//example.org/x", "/x", "x", "http:", "https:///x", "http:example.org", "tel:1", "blob:x", "",
	} {
		if got := webURL(u); got != "" {
			t.Errorf("webURL(%q) = %q", u, got)
		}
	}
	for _, u := range []string{"https://example.org/a%20b?c=d&e#f", "http://example.org", "mailto:a@example.org"} {
		if got := webURL(u); got != u {
			t.Errorf("webURL(%q) = %q", u, got)
		}
	}
	for _, p := range []string{"", ".", "..", "../x", "a/../../x", "/etc/passwd", `..\x`, `a\..\..\x`, "a\x00b", "a\nb"} {
		if got, ok := inSeason(p); ok {
			t.Errorf("inSeason(%q) = %q", p, got)
		}
	}
	w := &site{opt: Options{Season: "../"}}
	// Percent-encoding as RFC 3986 section 2.1 has it.
	for p, want := range map[string]string{
		"scans/a.tif": "../scans/a.tif", "./a//b.tif": "../a/b.tif", "50% #2?.tif": "../50%25%20%232%3F.tif", "ü.tif": "../%C3%BC.tif", "%2e%2e/x": "../%252e%252e/x", "a:b": "../a:b",
	} {
		if got := w.fileURL(p); got != want {
			t.Errorf("fileURL(%q) = %q, want %q", p, got, want)
		}
	}
}

// TestParts: no page grows without end, and links find their part.
func TestParts(t *testing.T) {
	s := large(5000)
	one := s.Outings[0]
	for _, o := range s.Outings[1:] { // one outing that never ended
		one.Entries = append(one.Entries, o.Entries...)
		one.Sheets = append(one.Sheets, o.Sheets...)
	}
	s.Outings = s.Outings[:1]
	m := mustWrite(t, s, Options{})
	for _, name := range m.pagesOf() {
		if n := len(m.files[name]); n > 1_200_000 {
			t.Errorf("%s is %d bytes long", name, n)
		}
	}
	for _, name := range []string{"outing-outing-0.2.html", "by-film.2.html", "findings.2.html"} {
		if _, ok := m.files[name]; !ok {
			t.Errorf("no %s among %d pages", name, len(m.pagesOf()))
		}
	}
	checkLinks(t, m, s, "../")
}

func TestCut(t *testing.T) {
	weigh := func(n int) int { return n }
	for _, c := range []struct{ in, want []int }{
		{nil, []int{0}},
		{[]int{1}, []int{1}},
		{[]int{pageBytes, 1}, []int{1, 1}},
		{[]int{pageBytes * 2, pageBytes * 2}, []int{1, 1}},
		{[]int{pageBytes / 2, pageBytes / 2, 1}, []int{2, 1}},
	} {
		var got, flat []int
		for _, part := range cut(c.in, weigh) {
			got, flat = append(got, len(part)), append(flat, part...)
		}
		if !slices.Equal(got, c.want) || !slices.Equal(flat, c.in) {
			t.Errorf("cut(%v): parts of %v holding %v, want %v", c.in, got, flat, c.want)
		}
	}
}

// dot is the smallest picture.
func dot(string, int) ([]byte, error) {
	var b bytes.Buffer
	err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 4, 5)), nil)
	return b.Bytes(), err
}

// TestWeights holds the estimates by which pages are cut to what a page weighs.
func TestWeights(t *testing.T) {
	s := large(8000)
	for _, o := range s.Outings[1:] {
		s.Outings[0].Entries = append(s.Outings[0].Entries, o.Entries...)
	}
	s.Outings = s.Outings[:1]
	m := mustWrite(t, s, Options{Picture: dot})
	for _, name := range []string{"outing-outing-0.2.html", "by-film.html", "findings.html", "scans.html"} {
		if n := len(m.files[name]); n < pageBytes*6/10 || n > pageBytes*12/10 {
			t.Errorf("%s was cut at %d bytes, which were weighed as %d", name, n, pageBytes)
		}
	}
}

// TestContrast computes the contrast of the style's colours as WCAG 2.2 defines
// it (relative luminance, success criteria 1.4.3 and 1.4.11).
func TestContrast(t *testing.T) {
	rule := regexp.MustCompile(`--([a-z]+): #([0-9a-f]{6});`)
	light, dark, _ := strings.Cut(string(styleSheet), "@media (prefers-color-scheme: dark)")
	for _, css := range []string{light, dark} {
		colours := map[string]float64{}
		for _, m := range rule.FindAllStringSubmatch(css, -1) {
			if _, ok := colours[m[1]]; !ok {
				colours[m[1]] = luminance(m[2])
			}
		}
		for name, least := range map[string]float64{"ink": 7, "pencil": 4.5, "link": 4.5, "red": 4.5, "firm": 3} {
			for _, under := range []string{"paper", "wash"} {
				a, b := colours[name], colours[under]
				if c := (max(a, b) + 0.05) / (min(a, b) + 0.05); c < least {
					t.Errorf("%s on %s: %.2f to 1, want %v", name, under, c, least)
				}
			}
		}
	}
}

func luminance(hex string) float64 {
	rgb, _ := strconv.ParseUint(hex, 16, 32)
	linear := func(shift int) float64 {
		c := float64(rgb>>shift&0xff) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(16) + 0.7152*linear(8) + 0.0722*linear(0)
}
