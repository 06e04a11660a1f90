package text

import (
	"strings"
	"testing"
	"unicode"

	"golang.org/x/text/unicode/norm"
	"pgregory.net/rapid"

	"notchbook/compile/record"
	"notchbook/lang/ruler"
)

// Widths are those of Unicode Standard Annex 11, East Asian Width (W and F are two
// columns), and marks that sit on a letter take none.
func TestWidth(t *testing.T) {
	for text, want := range map[string]int{
		"":                                 0,
		"f16½, 1⁄30":                       10,
		"Küste":                            5,
		norm.NFD.String("Küste, Ångström"): 15, // the same with combining marks
		"窯場":                               4,
		"ｆ１６":                              6, // full-width letters of a phone
		"ﾊﾝ":                               2, // half-width
		"한국":                               4,
		"☐ 1A":                             4,
		"👍🏽":                               2, // one sign of two characters
		"→":                                1,
	} {
		if got := ruler.Width(text); got != want {
			t.Errorf("%q is %d columns wide, want %d", text, got, want)
		}
	}
}

func TestWrapped(t *testing.T) {
	cases := []struct {
		name, text     string
		first, further int
		want           string // lines, parted by |
	}{
		{"short", "1A: Y8, 1/30 f16", 20, 20, "1A: Y8, 1/30 f16"},
		{"nothing", "", 20, 20, ""},
		{"at a blank", "one two three", 8, 8, "one two|three"},
		{"exactly", "one two three", 7, 5, "one two|three"},
		{"narrower further on", "one two three four", 7, 5, "one two|three|four"},
		{"inner blanks are kept", "1A:   Y8  1/30", 20, 20, "1A:   Y8  1/30"},
		{"leading blanks are kept", "   1A: Y8", 20, 20, "   1A: Y8"},
		{"blanks at a break go", "one    two", 6, 6, "one|two"},
		{"a word that cannot be broken", "see Donaudampfschiff now", 6, 6, "see|Donaudampfschiff|now"},
		{"a first word that cannot be broken", "Donaudampfschiff", 6, 6, "Donaudampfschiff"},
		{"accents take one column", "Küste müde", 5, 5, "Küste|müde"},
		{"wide characters take two, and lines end between them (UAX 14, class ID)", "窯場の煙突を撮る", 8, 8, "窯場の煙|突を撮る"},
		{"none before a closing mark (UAX 14, rule LB13)", "窯場の煙。突", 8, 8, "窯場の|煙。突"},
		{"an address is not broken", "https://example.org/a/b", 8, 8, "https://example.org/a/b"},
		{"no-break blank", "f/16\u00a0½ s", 6, 6, "f/16\u00a0½|s"},
	}
	for _, c := range cases {
		if got := strings.Join(wrapped(c.text, c.first, c.further), "|"); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// Whatever is wrapped: nothing is lost or moved, and a line that is too long
// holds one word that may be broken nowhere.
func TestWrappedLosesNothing(t *testing.T) {
	alphabet := []rune("ab é½/-,.()窯場。ü \u0308 ｆ👍")
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringOf(rapid.SampledFrom(alphabet)).Draw(t, "text")
		columns := rapid.IntRange(1, 12).Draw(t, "columns")
		further := rapid.IntRange(1, 12).Draw(t, "further")
		lines := wrapped(s, columns, further)
		if got, want := unblanked(strings.Join(lines, "")), unblanked(s); got != want {
			t.Fatalf("%q became %q", s, lines)
		}
		for i, line := range lines {
			if head, tail := cut(line, columns); ruler.Width(line) > columns && tail != "" && strings.TrimSpace(head) != "" {
				t.Fatalf("%q stands on a line of %d columns, though it may be broken behind %q", line, columns, head)
			}
			if i == 0 {
				columns = further
			}
		}
	})
}

func unblanked(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, s)
}

func words(s string) []record.Inline { return []record.Inline{{Kind: record.Words, Text: s}} }

func paragraph(s string) record.Block {
	return record.Block{Kind: record.Paragraph, Text: words(s)}
}

func item(s string, more ...record.Block) record.Block {
	return record.Block{Kind: record.ListItem, Blocks: append([]record.Block{paragraph(s)}, more...)}
}

// Each kind of prose as it stands in the text.
func TestProse(t *testing.T) {
	row := func(head bool, cells ...string) record.Block {
		b := record.Block{Kind: record.Row, Head: head}
		for _, c := range cells {
			b.Blocks = append(b.Blocks, record.Block{Kind: record.Cell, Text: words(c)})
		}
		return b
	}
	long := strings.Repeat("word ", 14) + "and behind it more"
	cases := []struct {
		name  string
		block record.Block
		want  string
	}{
		{"paragraph", paragraph(long), strings.TrimSpace(strings.Repeat("word ", 14)) + "\nand behind it more\n"},
		{"heading", record.Block{Kind: record.Heading, Level: 2, Text: words("Küste")}, "Küste\n-----\n"},
		{"marks", record.Block{Kind: record.Paragraph, Text: []record.Inline{
			{Kind: record.Emphasis, Inlines: words("haze")}, {Kind: record.HardBreak}, {Kind: record.Strong, Inlines: words("twice")}, {Kind: record.SoftBreak},
			{Kind: record.Struck, Inlines: words("never")}, {Kind: record.CodeSpan, Text: "f16"},
			{Kind: record.Link, Target: record.Target{URL: "https://example.org/"}, Inlines: words("kilns")},
			{Kind: record.Picture, Target: record.Target{Path: "plan.png"}, Text: "plan"}}},
			"*haze*\n**twice** ~~never~~`f16`kilns <https://example.org/>[picture: plan\n<plan.png>]\n"},
		{"tight list", record.Block{Kind: record.List, Tight: true, Blocks: []record.Block{item("cloth"),
			item("holders", record.Block{Kind: record.List, Tight: true, Ordered: true, Start: 4, Blocks: []record.Block{item("one"), item("two")}}),
			{Kind: record.ListItem, Task: "x", Blocks: []record.Block{paragraph("meter")}}}},
			"- cloth\n- holders\n  4. one\n  5. two\n[x] meter\n"},
		{"loose list", record.Block{Kind: record.List, Blocks: []record.Block{item("cloth"), item(long)}},
			"- cloth\n\n- " + strings.TrimSpace(strings.Repeat("word ", 14)) + "\n  and behind it more\n"},
		{"quote", record.Block{Kind: record.Quote, Blocks: []record.Block{paragraph("one"), {Kind: record.Quote, Blocks: []record.Block{paragraph("two")}}}},
			"> one\n>\n> > two\n"},
		{"code", record.Block{Kind: record.Code, Code: "a  b\n\tc\n"}, "    a  b\n     c\n"},
		{"table", record.Block{Kind: record.Table, Blocks: []record.Block{row(true, "hour", "sky"), row(false, "nine", "窯"), row(false, "ten", "sun")}},
			"hour  sky\n----  ---\nnine  窯\nten   sun\n"},
		{"wide table", record.Block{Kind: record.Table, Blocks: []record.Block{row(true, "hour", "sky"), row(false, "nine", long)}},
			"hour            nine\nsky             word word word word word word word word word word word\n                  word word word and behind it more\n"},
	}
	for _, c := range cases {
		p := &page{}
		p.block(&c.block)
		if got := p.b.String(); got != c.want {
			t.Errorf("%s:\n%swant\n%s", c.name, got, c.want)
		}
	}
}
