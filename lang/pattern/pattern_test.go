package pattern

import (
	"reflect"
	"regexp"
	"regexp/syntax"
	"slices"
	"strings"
	"testing"
)

func TestPieces(t *testing.T) {
	for expression, want := range map[string]string{
		`\b(?:forgot|forgotten|fault|fool)\b`: "forgot fault fool",
		`n't\b|\?`:                            "n't ?",
		`^(?:probably|maybe)$`:                "probably maybe",
		`\d ?\?`:                              "?",
		`(?i)\bZone\b`:                        "zone",
		`(?i)\bE|x\d`:                         "", // one letter is in any text
		`a*`:                                  "",
		`(?:ab)?`:                             "",
		`(?:ab)+c`:                            "ab",
		`(?:ab){2,}`:                          "ab",
		`(?:ab){0,2}`:                         "",
		`[0-9]+ (?:mm|cm)`:                    " mm  cm",
		`[0-9](?:mm|cm)(?:up|down|over)\b`:    "mmup mmdown mmover cmup cmdown cmover",
		`(?:up|down) by [0-9]`:                "up by  down by ",
		`not (?:\w+ )?on`:                     "not ",
		`.`:                                   "",
		`Blende|blende`:                       "Blende blende",
	} {
		if all := strings.Join(New(expression).pieces, " "); all != want {
			t.Errorf("%s: pieces %q, want %q", expression, all, want)
		}
	}
}

// agree asks a pattern and its expression the same.
func agree(t *testing.T, expression, text string) {
	t.Helper()
	p, re := New(expression), regexp.MustCompile(expression)
	for what, pair := range map[string][2]any{
		"MatchString":           {p.MatchString(text), re.MatchString(text)},
		"FindString":            {p.FindString(text), re.FindString(text)},
		"FindStringIndex":       {p.FindStringIndex(text), re.FindStringIndex(text)},
		"FindStringSubmatch":    {p.FindStringSubmatch(text), re.FindStringSubmatch(text)},
		"FindAllString":         {p.FindAllString(text, -1), re.FindAllString(text, -1)},
		"FindAllStringIndex":    {p.FindAllStringIndex(text, -1), re.FindAllStringIndex(text, -1)},
		"FindAllStringSubmatch": {p.FindAllStringSubmatch(text, -1), re.FindAllStringSubmatch(text, -1)},
		"ReplaceAllString":      {p.ReplaceAllString(text, "<$0>"), re.ReplaceAllString(text, "<$0>")},
	} {
		if !reflect.DeepEqual(pair[0], pair[1]) {
			t.Errorf("%s of %q in %q: %v, package regexp has %v (pieces %q)", what, expression, text, pair[0], pair[1], p.pieces)
		}
	}
}

var samples = []struct{ expression, text string }{
	{`(?i)kelvin`, "5600 \u212Aelvin"}, // the sign of the unit folds to k
	{`(?i)stop`, "\u017Ftop"},          // and the long s to s
	{`(?i)STOP|blende`, "two Stops"},
	{`(?i:EV|LV) ?\d`, "ev 12"},
	{`X(?i:ev)`, "XEV"},
	{`[XY](?i:ev)`, "Xev"},
	{`(?s)a.b|c`, "a\nb"},
	{`[^a]b`, "\xffb"},
	{`[\x{FFFD}]`, "\xff"},
	{`\x{FFFD}x`, "\xffx"},
	{`(?:a|b)(?:c|d)+e?`, "bdc"},
	{`^$`, ""},
	{`(?m)^x$`, "y\nx"},
	{`(?U)a+b`, "aab"},
	{`\Qa.b\E+`, "a.bb"},
	{`[½¼]|1/2`, "f16½"},
	{`x{3}`, "xxx"},
	{`(?:ab|)c`, "c"},
}

func TestPatternsSayWhatTheirExpressionsSay(t *testing.T) {
	for _, s := range samples {
		agree(t, s.expression, s.text)
		for _, other := range samples {
			agree(t, s.expression, other.text)
		}
	}
}

func TestAny(t *testing.T) {
	any := AnyOf("forg lamp ? grös ½")
	for text, want := range map[string]bool{
		"": false, "f": false, "lam": false, "frame 12": false, "he forgot": true, "the LAMP": true, "lamp": true, "so?": true,
		"GRÖSSE": true, "f8½": true, "flap": false, "lalamp": true, "fo rg": false,
	} {
		if any.In(text) != want {
			t.Errorf("%q: %v", text, !want)
		}
	}
}

// What may match is never passed over, however its words were put together.
func TestMay(t *testing.T) {
	forgot, stopped, any := Lazily(`(?i)\bforgot the (?:lamp|Größe)\b`), Lazily(`[0-9] Stops?\b`), Lazily(`.`)
	for _, c := range []struct {
		may  Any
		text string
		want bool
	}{
		{May(forgot), "he Forgot  the lamp", true},
		{May(forgot), "a lantern", false},
		{May(forgot), "forgot the GRÖSSE", true},
		{May(forgot, stopped), "2 Stops", true},
		{May(stopped), "2 \u017Ftops", true}, // the long s is one, to an expression that holds in both cases
		{May(forgot).Or(AnyOf("kelvin")), "\u212Aelvin", true},
		{May(forgot).Or(AnyOf("kelvin")), "frame 12 of the walk", false},
		{May(forgot, any), "", true},
		{May(any).Or(AnyOf("x")), "", true},
	} {
		if c.may.In(c.text) != c.want {
			t.Errorf("%q: %v", c.text, !c.want)
		}
	}
}

// FuzzAny asks for pieces one by one what is looked for in one go.
func FuzzAny(f *testing.F) {
	f.Add("forg lamp ?", "he forgot the LAMP")
	f.Add("grös ½", "GRÖSSE")
	f.Fuzz(func(t *testing.T, list, text string) {
		list, low := folded(list), folded(text)
		want := slices.ContainsFunc(strings.Fields(list), func(piece string) bool { return strings.Contains(low, piece) })
		if got := AnyOf(list).In(text); got != want {
			t.Errorf("%q in %q: %v", list, text, got)
		}
	})
}

// FuzzPattern makes up expressions and texts; package regexp says what is right.
func FuzzPattern(f *testing.F) {
	for _, s := range samples {
		f.Add(s.expression, s.text)
	}
	f.Fuzz(func(t *testing.T, expression, text string) {
		if _, err := syntax.Parse(expression, syntax.Perl); err != nil || len(expression) > 100 {
			return
		}
		if _, err := regexp.Compile(expression); err != nil {
			return
		}
		agree(t, expression, text)
		if !May(func() *Pattern { return New(expression) }).In(text) && regexp.MustCompile(expression).MatchString(text) {
			t.Errorf("%q may not match %q, and does", expression, text)
		}
		if pieces := New(expression).pieces; slices.Contains(pieces, "") {
			t.Errorf("%q: an empty piece", expression)
		}
	})
}

func BenchmarkNo(b *testing.B) {
	const many = `\b(?:forgot|forgotten|mistake|oops|should have|wrong|wrongly|accident|by error|misread|botched|stupid|thought|sorry|(?:not|never|no) (?:on |a )?(?:purpose|intended))\b|n't\b|\?`
	const text = "frame 1723 of the walk"
	b.Run("expression", func(b *testing.B) {
		for re := regexp.MustCompile(many); b.Loop(); {
			re.MatchString(text)
		}
	})
	b.Run("pattern", func(b *testing.B) {
		for p := New(many); b.Loop(); {
			p.MatchString(text)
		}
	})
}
