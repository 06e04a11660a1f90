package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile"
)

// A sheet of film has one number and one sleeve, however often it was exposed; a holder that was
// loaded anew has two sheets.
func TestANegativeIsNumberedOnce(t *testing.T) {
	const head = "film slate: ISO 400\nload 4A 5A: slate\nday: 2026-12-03\n"
	for text, want := range map[string]string{
		"4A: 1/60 f16\n4A: 1/60 f16\nneg 4A: 26-2\nsleeve 4A: b 1\n":                 "26-2 4A 26-2 b 1|2026-12-03 4A'2 4A'2 26-2 b 1",
		"4A: 8s f16\n4A: 9s f16, again, neg 26-2\nsleeve 26-2: b 1\n":                "26-2 4A 26-2 b 1|2026-12-03 4A'2 4A'2 26-2 b 1",
		"4A: 8s f16, again, 9s f16\nneg 4A: 26-2\n":                                  "26-2 4A 26-2 |2026-12-03 4A'2 4A'2 26-2 ",
		"4A: 8s f16, neg 26-2\n4A: 9s f16, again\n":                                  "26-2 4A 26-2 |2026-12-03 4A'2 4A'2 26-2 ",
		"4A: 8s f16, neg 26-2\n4A: 9s f16, again, neg 26-2\n":                        "26-2 4A 26-2 |2026-12-03 4A'2 4A'2 26-2 ",
		"5A: 1/60 f16\nload 5A: slate\n5A: 1/60 f16\nneg 5A: 26-3\nsleeve 5A: b 1\n": "2026-12-03 5A 5A  |26-3 5A'2 26-3 b 1",
	} {
		season, list := compileText(head + text)
		var got []string
		for _, sh := range season.Sheets {
			got = append(got, strings.Join([]string{sh.ID, sh.Label, sh.Number, sh.Sleeve}, " "))
		}
		if all := strings.Join(got, "|"); all != want {
			t.Errorf("%s: %q, want %q, %v", text, all, want, list)
		}
		if n := len(season.Negatives.Numbered); n != 1 || len(season.Negatives.Without) != 0 {
			t.Errorf("%s: %d negatives, %d without a number", text, n, len(season.Negatives.Without))
		}
		if all := compile.Explain(compile.World{Read: func(string) ([]byte, error) { return []byte(head + text), nil }}, season.Negatives.Numbered[0].Number, "a.md"); len(all) != 1 {
			t.Errorf("%s: its number is explained as %d sheets", text, len(all))
		}
	}
}
