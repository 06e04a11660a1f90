// Package many_test holds what is true of a life's work: as many sheets as one person
// makes.
package many_test

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"notchbook/cmd/notchbook/program"
	"notchbook/render/html/chrome"
)

func TestMain(m *testing.M) { program.Main(m, chrome.Close) }

// manySheets writes the notes of a life's work: n sheets, 20 an outing, 5 a scene,
// a third of them off for want of their filter's light.
func manySheets(tb testing.TB, dir string, n int) {
	tb.Helper()
	var b strings.Builder
	b.WriteString("film slate: ISO 400, EI 250, pan, reciprocity t^1.31 over 1s\nlens 210: 210 mm\nlens 300: 300 mm\nfilter Y8: x2\nfilter R25: x8\n")
	luck := rand.New(rand.NewPCG(1, 2))
	words := strings.Fields("kiln frost chimney heron weir tramway shed slate water gate post moss arch crane towpath reeds bridge lamp brick sky cloud wind roof field")
	some := func(all []string) string { return all[luck.IntN(len(all))] }
	for i := range n {
		if i%20 == 0 {
			fmt.Fprintf(&b, "\nday: %d-%02d-%02d, %s %s\n", 2000+i/800, 1+i/40%12, 1+i/20%28, some(words), some(words))
		}
		if i%5 == 0 {
			fmt.Fprintf(&b, "\nThe %s and the %s, with %s over the %s %d.\n\nscene: %s by the %s\nlens: %s\nmeter: EV %d\n", some(words), some(words), some(words), some(words), i, some(words), some(words), some([]string{"210", "300"}), 8+luck.IntN(7))
		}
		fmt.Fprintf(&b, "%d%s: %s, 1/%s f%s, %s\n", 1+i/2%10, []string{"A", "B"}[i%2], some([]string{"no filter", "Y8", "R25"}), some([]string{"2", "4", "8", "15", "30", "60"}), some([]string{"11", "16", "16½", "22"}), some([]string{"N", "N-1", "N+1"}))
	}
	if err := os.WriteFile(filepath.Join(dir, "log.md"), []byte(b.String()), 0o666); err != nil {
		tb.Fatal(err)
	}
}

// heaviest is how heavy a page may be: a phone opens it without a pause.
const heaviest = 1_500_000

// Of 20 000 sheets the index is under 120 bytes a sheet as it travels, and no page
// is heavier than a phone bears.
func TestManySheets(t *testing.T) {
	if testing.Short() {
		t.Skip("short: no season of 20 000 sheets is compiled")
	}
	const sheets = 20_000
	dir := t.TempDir()
	manySheets(t, dir, sheets)
	program.Must(t, "compile", "--sections", "findings", dir)
	text, err := os.ReadFile(filepath.Join(dir, "record", "find-index.js"))
	if err != nil {
		t.Fatal(err)
	}
	var small bytes.Buffer
	z := gzip.NewWriter(&small)
	z.Write(text)
	z.Close()
	t.Logf("%d sheets: %d bytes, %d compressed, %.1f a sheet", sheets, len(text), small.Len(), float64(small.Len())/sheets)
	if small.Len() > 120*sheets {
		t.Errorf("the index takes %.1f bytes a sheet", float64(small.Len())/sheets)
	}
	pages, _ := filepath.Glob(filepath.Join(dir, "record", "*.html"))
	if len(pages) < sheets/20 {
		t.Errorf("only %d pages", len(pages))
	}
	largest, most := "", int64(0)
	for _, page := range pages {
		info, err := os.Stat(page)
		if err != nil {
			t.Fatal(err)
		}
		if info.Size() > most {
			largest, most = filepath.Base(page), info.Size()
		}
		if info.Size() > heaviest {
			t.Errorf("%s is %d bytes long", filepath.Base(page), info.Size())
		}
	}
	t.Logf("of %d pages %s is the heaviest: %d bytes", len(pages), largest, most)
}

// BenchmarkOpen opens the heaviest page of each kind of a season of 20 000 sheets
// from the disk and gives the time until its load event, which is to stay below
// two seconds.
func BenchmarkOpen(b *testing.B) {
	dir := b.TempDir()
	manySheets(b, dir, 20_000)
	program.Must(b, "compile", "--sections", "findings", dir)
	pages, _ := filepath.Glob(filepath.Join(dir, "record", "*.html"))
	kinds, weight := map[string]string{}, map[string]int64{}
	for _, page := range pages {
		kind, _, _ := strings.Cut(strings.TrimSuffix(filepath.Base(page), ".html"), ".")
		for _, many := range []string{"outing", "scene"} {
			if strings.HasPrefix(kind, many+"-") {
				kind = many
			}
		}
		if info, err := os.Stat(page); err == nil && info.Size() > weight[kind] {
			kinds[kind], weight[kind] = page, info.Size()
		}
	}
	tab := chrome.Open(b)
	chrome.Resize(b, tab, 390)
	for _, kind := range slices.Sorted(maps.Keys(kinds)) {
		b.Run(kind, func(b *testing.B) {
			ms := 0.
			for b.Loop() {
				chrome.Go(b, tab, chrome.FileURL(kinds[kind]))
				ms += chrome.Ask[float64](b, tab, `(() => { const t = performance.getEntriesByType("navigation")[0]; return t.loadEventEnd || performance.now(); })()`)
			}
			b.ReportMetric(ms/float64(b.N), "ms-load")
			b.ReportMetric(float64(weight[kind])/1000, "kB")
		})
	}
}
