package lang

import (
	"archive/zip"
	"fmt"
	"io"
	"sort"
	"strings"
	"testing"

	"notchbook/lang/source"
)

func TestZZ(t *testing.T) {
	for _, l := range []string{"filter orange: orange 21, 2 stops.", "filter O: orange 21, 2 stops.", "filter red: red 25, 3 stops"} {
		fmt.Println(l, "=>", meaning(t, l))
	}
	z, err := zip.OpenReader("../testdata/planted/corpus.zip")
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	dirs := map[string][]string{}
	text := map[string][]byte{}
	for _, f := range z.File {
		if !strings.HasSuffix(f.Name, ".md") && !strings.HasSuffix(f.Name, ".txt") {
			continue
		}
		r, _ := f.Open()
		text[f.Name], _ = io.ReadAll(r)
		d := f.Name[:strings.LastIndex(f.Name, "/")+1]
		dirs[d] = append(dirs[d], f.Name)
	}
	codes := map[string]int{}
	shown := map[string]int{}
	for _, names := range dirs {
		sort.Slice(names, func(i, j int) bool { return strings.Contains(names[i], "kit") && !strings.Contains(names[j], "kit") })
		x := NewLexicon()
		for _, n := range names {
			book, list := Parse(source.New(n, text[n]), x)
			for _, d := range list {
				codes[d.Code]++
				if shown[d.Code]++; shown[d.Code] < 8 {
					fmt.Printf("%s [%s] %s\n", d.Code, d.Span.Text(), book.File.Line(d.Span.Start).Text())
				}
			}
			for i, l := range book.Lines {
				s := string(book.File.Text[l.Body:l.BodyEnd])
				if c := strings.IndexByte(s, ':'); l.Kind == Prose && c > 0 && c < 14 && strings.ContainsAny(s[:c], "0123456789") {
					if shown["prose"]++; shown["prose"] < 25 {
						fmt.Printf("PROSE %s:%d %s\n", n, i, s)
					}
				}
			}
		}
	}
	fmt.Println(codes, shown["prose"], "label-like prose lines")
}
