package lang

import (
	"strings"
	"testing"

	"notchbook/lang/source"
)

// A comma between figures is a decimal one where it can be nothing else, and parts two cells where
// the line has others without blanks or the unit of a time stands behind; what cannot be told is a
// number without a unit, which is asked about.
func TestCommasBetweenFigures(t *testing.T) {
	for line, want := range map[string]string{
		"Gate,EV 8,f16,1 s":             "words Gate | EV 8 | f/16 | 1s",
		"EV 11,R25,x8,1 s,f16":          "EV 11 | filter R25 ×8 | 1s | f/16",
		"f16, 1/8, N-1,5 min":           "f/16 | 1/8 | N-1 | 300s",
		"EV 8,2 s":                      "EV 8 | 2s",
		"EV 10,III,f16,1 s":             "EV 10 on zone 3 | f/16 | 1s",
		"EI 50,1 s,f16":                 "film EI 50 | 1s | f/16",
		"ext 260,1 s,f16":               "extension 260 mm | 1s | f/16",
		"zone 5,1 s,f16":                "zone 5 | 1s | f/16",
		"f22,4 s":                       "f/22 | 4s",
		"f16,8 min":                     "f/16 | 480s",
		"f16,1 min 30 s":                "f/16 | 90s",
		"N-1,f16,8 s":                   "N-1 | f/16 | 8s",
		"EV 9,5,Y8,f8,1/2":              "EV 9 | unread number 5 | filter Y8 | f/8 | 1/2",
		"Gate,1,5 s,f16":                "words Gate | unread number 1 | 5s | f/16",
		"f8,60":                         "f/8 | unread number 60",
		"f8,6, 1 s":                     "f/8 | unread number 6 | 1s",
		"f5,6 1/15":                     "f/5.6 1/15",
		"f5,6,1/15,Y8":                  "f/5.6 | 1/15 | filter Y8",
		"f2,8, 1/15":                    "f/2.8 | 1/15",
		"f12,5 1s":                      "f/12.5 1s",
		"1,5s f16":                      "1.5s f/16",
		"1,5 s, f16":                    "1.5s | f/16",
		"Y8,f16,0,7 s":                  "filter Y8 | f/16 | 0.7s",
		"EV 12,5, f16 1s":               "EV 12.5 | f/16 1s",
		"x2,5, f16 1s":                  "×2.5 | f/16 1s",
		"+1,5, f16 1s":                  "1.5 stops | f/16 1s",
		"bellows 29,7cm, f16 1/2":       "extension 297 mm | f/16 1/2",
		"bellows 29,7 cm, f16 1/2":      "extension 297 mm | f/16 1/2",
		"Gate,ext 29,7cm,f16,1/2":       "words Gate | extension 297 mm | f/16 | 1/2",
		"bellows 297,5mm, f16 1/2":      "extension 297.5 mm | f/16 1/2",
		"f16,2s":                        "f/16 | 2s",
		"f16,2,5s":                      "f/16 | 2.5s",
		"EV 7,8,9, f16":                 "EV 7 | unread number 8 | unread number 9 | f/16",
		"1/8 f16 -- 1,5 m off,at 2,5 m": `1/8 f/16 | "1,5 m off,at 2,5 m"`,
	} {
		book, _ := Parse(source.New("n.md", []byte("1A: "+line+"\n")), NewLexicon())
		if got := strings.TrimPrefix(book.Statements[0].String(), "sheet 1A: "); got != want {
			t.Errorf("%s\nis  %s\nnot %s", line, got, want)
		}
		laws(t, line, "1A: "+line+"\n")
	}
	// Other lines have tables of figures.
	book, _ := Parse(source.New("n.md", []byte("patch: sky 0.30,0.12, far wall 0.5,0.6\ndensity 1A: base+fog 0,07,card 0,72\n")), NewLexicon())
	if got := book.Statements[1].String(); !strings.Contains(got, "density 0.07") || !strings.Contains(got, "0.72") {
		t.Error(got)
	}
}
