package lang_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"notchbook/lang"
	"notchbook/lang/source"
)

func TestPublicLeavesOutWhatIsMarkedPrivate(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"1A: f16, 1/30 -- private: at the widow's\n", "1A: f16, 1/30\n"},
		{"1A: f16, 1/30 — Private : hers\n", "1A: f16, 1/30\n"},
		{"1A: f16 (private: hers (and his)), 1/30\n", "1A: f16, 1/30\n"},
		{"1A: f16 “private: hers”, 1/30\n", "1A: f16, 1/30\n"},
		{"1A: f16 (private: never closed, 1/30\n", "1A: f16\n"},
		{"private: the key is under the stone\r\n1A: f16\r\n", "\r\n1A: f16\r\n"},
		{"private: the key is under\nthe stone by the gate\n1A: f16, 1/30\n", "\n\n1A: f16, 1/30\n"},
		{"private: the key\n\nThe fog lifted.\n", "\n\nThe fog lifted.\n"},
		{"- private: the key\n- a walk\n", "\n- a walk\n"},
		{"## private: the key\n\nA walk.\n", "\n\n\n"},
		{"> private: the key\n", "\n"},
		{"**private:** the key\n", "\n"},
		{"\ufeffprivate: the key\n", "\n"},
		{"We went on (private: with Ada) to the kiln.\n", "We went on to the kiln.\n"},
		{"Left early – private: row with the owner\n", "Left early\n"},
		{"scene: private: the miller's bedroom\n", "scene:\n"},
		{"result 1A: private: hers\nsleeve 1A: private: under the bed\n", "result 1A:\nsleeve 1A:\n"},
		{"1A: f16, ~~private: hers~~ 1/30\n", "1A: f16, 1/30\n"},
		{"| mill | private: hers |\n", "\n"},
		{"[^1]: private: hers\n", "\n"},
		{"<p>private: hers</p>\n", "\n"},
		{"We left. private: She stayed.\n", "We left.\n"},
		{"A <!-- private: hers --> walk\n", "A walk\n"},
		{"A walk (private: with\nher) home.\n\nThen rain.\n", "A walk\n\n\nThen rain.\n"},
		{"privat: hers\n1A: f16, privte: hers\n", "\n1A: f16\n"},
		{"```\nprivate: hers\n```\n1A: f16, 1/30\n", "```\n\n```\n1A: f16, 1/30\n"},
		{"Private remark: the key\nis here\n1A: f16 (private notes: hers)\n", "\n\n1A: f16\n"},
		{"# Walk\n\n## Private\n\nThe key.\n\n### Where\n\nUnder it.\n\n## Kiln\n\nFog.\n", "# Walk\n\n\n\n\n\n\n\n\n\n## Kiln\n\nFog.\n"},
		{"## Private notes:\n\nThe key.\n1A: f16, 1/30\n\n# Kiln\n", "\n\n\n1A: f16, 1/30\n\n# Kiln\n"},
		{"# Private road\n\nFog.\n", "\n\n\n"},
		{"# Privates\n\nThree on the bridge.\n", "# Privates\n\nThree on the bridge.\n"},
		{"# Privat\n\nFog.\n", "# Privat\n\nFog.\n"},
		{"# *PRIVATE*\n\nThe key.\n", "\n\n\n"},
		{"<b>private:</b> Ida is ill\n", "\n"},
		{"<details><summary>private:</summary> her address</details>\n", "\n"},
		{"<div>private: hers</div> walk\n", "walk\n"},
		{"1A: f16 -- private: Ida was\nstanding in the door.\n\nFog.\n", "1A: f16\n\n\nFog.\n"},
		{"1A: f16 -- private: Ida.\nThe fog lifted.\n", "1A: f16\nThe fog lifted.\n"},
		{"private: from left:\n- Ida\n- Karl\n\nFog.\n", "\n\n\n\nFog.\n"},
		{"Private\n=======\n\nThe key.\n\nWalk\n====\n\nFog.\n", "\n\n\n\n\nWalk\n====\n\nFog.\n"},
		{"## Private\n\n2A: f16 -- the mayor asleep\n", "\n\n2A: f16\n"},
		{"private:\n\nThe key.\n\nFog.\n", "\n\n\n\nFog.\n"},
		{"[private: Ida](letters/ida.pdf) and fog\n", "and fog\n"},
		{"private 1A: sitter is Ida\n", "\n"},
		{"private (do not print): Ida\n", "\n"},
		{"private note - phone Ida\n", "\n"},
		{"PRIVATE Ida owes me\n", "\n"},
		// What is not a remark stays, and so does every other byte.
		{"The gate is private: no entry\n", "The gate is private: no entry\n"},
		{"The private road (privately owned) — a privateer\n", "The private road (privately owned) — a privateer\n"},
		{"1A: f16½,\u00a01⁄30 “gate”\n\n\tcode\n", "1A: f16½,\u00a01⁄30 “gate”\n\n\tcode\n"},
	} {
		tree, _ := lang.Parse(source.New("n.md", []byte(c.text)), lang.NewLexicon())
		got := lang.Public(tree)
		if string(got.Text) != c.want || got.Private != (c.want != c.text) {
			t.Errorf("%q:\n got %q (%v)\nwant %q", c.text, got.Text, got.Private, c.want)
		}
	}
}

// Behind a blank too, on every line: what is marked goes.
func TestPrivateBehindABlank(t *testing.T) {
	for _, line := range []string{
		"scene: Kiln private: Qac", "2B: 1/15 f32 private: Qac", "sleeve 90-008: box 3 private: Qac", "day: 1990-08-09, Skarrow private: Qac",
		"load 1A: marl Private : Qac", "The donor, private: Qac, was there.",
	} {
		book, _ := lang.Parse(source.New("n.md", []byte(line+"\n")), lang.NewLexicon())
		if got := lang.Public(book); !got.Private || strings.Contains(string(got.Text), "Qac") {
			t.Errorf("%s: %q", line, got.Text)
		}
	}
}

// What speaks of something private and was not taken for marked is named, so that
// nobody hands it on unseen.
func TestPublicNamesWhatItLeaves(t *testing.T) {
	if tree, _ := lang.Parse(source.New("n.md", []byte("# Privates\n\nFog.\n\n# Pirvate\n\n## Privat note\n\nFog.\n")), lang.NewLexicon()); !slices.Equal(lang.Public(tree).Left, []int{1, 5, 7}) {
		t.Errorf("of headings nearly private: lines %v", lang.Public(tree).Left)
	}
	text := "The gate is private: no entry\nA privateer.\n\n1A: f16 (private: hers)\n\n## Private\n\nThe key.\n\n2A: f16, 1/30\n\n# Kiln\n\nprivate: hers\n3A: f16 -- Ida\n"
	tree, _ := lang.Parse(source.New("n.md", []byte(text)), lang.NewLexicon())
	if got := lang.Public(tree); !slices.Equal(got.Left, []int{1}) || !slices.Equal(got.Below, []int{10}) || !slices.Equal(got.Doubted, []int{15}) {
		t.Errorf("with the word lines %v, below a private heading %v, in doubt %v", got.Left, got.Below, got.Doubted)
	}
}

// What goes with a private remark, by the blocks that it stands in. Of the words Qa to Qz none
// may be left, and of Publ1 to Publ9 none may go.
func TestPublicTakesWhatBelongs(t *testing.T) {
	for _, text := range []string{
		// An item of a list with all that is in it, and no other.
		"- private: his name is Qa\n  - and his wife is Qb\n- Publ1\n",
		"- private: Qa\n\n  Qb\n\n      Qc\n- Publ1\n",
		"- [ ] private: Qa\n  Qb\n- Publ1\n",
		"1. private: Qa\n   - Qb\n     - Qc\n2. Publ1\n",
		"- Publ1\n  - private: Qa\n    - Qb\n  - Publ2\n- Publ3\n",
		"- Publ1\n\n  private: Qa\n- Publ2\n- Publ3\n",
		"- Publ1\n\n  private: Qa\n  - Qb\n\n  Publ2\n- Publ3\n",
		"- private: Qa\nQb\n\nPubl1\n",
		"- Publ1\nprivate: Qa\n- Qb\n\nPubl2\n",
		"- Publ1\nprivate note: Qa\n- Qb\n- Qc\n\nPubl2\n",
		"- private:\n\n  Qa\n- Publ1\n",
		"- private: from left:\n- Qa\n- Publ1\n",
		// The list, quote, table or code behind it.
		"private:\n\n- Qa\n- Qb\n\n- Qc\n\nPubl1\n",
		"private:\n\n- Qa\n\n- Qb\n\n- Qc\n\nPubl1\n",
		"private: the list\n\n- Qa\n  - Qb\n\nPubl1\n",
		"private: the list\n- Qa\n\n* Qb\n\nPubl1\n",
		"private:\n\n```\nQa\n\nQb\n```\n\nPubl1\n",
		"private: the letter\n~~~\nQa\n~~~\nPubl1\n",
		"private:\n\n    Qa\n\nPubl1\n",
		"private:\n\n> Qa\n>\n> Qb\n\nPubl1\n",
		"private:\n\n| a | b |\n|---|---|\n| Qa | Qb |\n\nPubl1\n",
		"private: the names are these:\n\nQa and Qb\n\nPubl1\n",
		"Private\n\nQa\nQb\n\nPubl1\n",
		"**private:**\n\nQa\n\nPubl1\n",
		"private:\n\nThe guests:\n\n- Qa\n\nPubl1\n",
		// The rest of a paragraph.
		"Publ1 had tea. private: with Qa\nand Qb who lives there.\n\nPubl2\n",
		"Publ1 – private: with Qa\nand Qb\n\nPubl2\n",
		"Publ1 had tea. private: from left:\n- Qa\n\nPubl2\n",
		"Publ1 had tea (private: with Qa) and\nPubl2\n",
		"Publ1 had tea **private: with Qa** and Publ2\n",
		"Publ1 had tea, **private:** with Qa\nand Qb\n\nPubl2\n",
		"Publ1 “tea” private: Qa\nQb\n",
		"Publ1 (with milk; private: and Qa (her)) and Publ2\n",
		"[^1]: private: Qa\n    Qb\n\nPubl1\n", "[^1]: private: Qa\n  Qb\n\nPubl1\n", "[^1]: private: Qa\nQb\n\nPubl1\n",
		"[^1]: private: Qa\n\n    Qb\n\nPubl1\n", "[^1]: private:\n    Qb\n\nPubl1\n", "[^1]: private:Qa\n\nPubl1\n", "[^1]: private: \"Qa\"\nQb\n\nPubl1\n",
		"Publ1\n\n    code\n    private: Qa\n    Qb\n\nPubl2\n",
		"```\nPubl1\nprivate: Qa\nQb\n\nQc\n```\nPubl2\n",
		"> ```\n> Publ1\n> private: Qa\n> Qb\n> ```\n>\n> 1A: f16 -- Publ2\n",
		"Private, says Publ1\n",
		"[private: Qa]: qb/Qb.pdf\n\nPubl1\n",
		"> [!private]\n> Qa\n\nPubl1\n",
		// Quotes.
		"> - private: Qa\n> - Publ1\n>\n> Publ2\n",
		"> private: Qa\n>\n> Qb\n\nPubl1\n",
		"> private: Qa\nQb\n\nPubl1\n",
		"> Publ1\n>\n> private: Qa\n> Qb\n>\n> Publ2\n",
		"> private: the names\n- Qa\n\nPubl1\n",
		// Tables.
		"| Publ1 | b |\n|---|---|\n| private: | Qa |\n| Publ2 | c |\n",
		"| Publ1 | b |\n|---|---|\n| Qa | private: Qb |\n| Publ2 | c |\n",
		"Publ1 | b\n---|---\nQa, private: x | Qb\nPubl2 | c\n",
		"| Publ1 | b |\n|---|---|\n| Publ2 (private: Qa) | Publ3 |\n",
		"| a | private: |\n|---|---|\n| b | Qa |\n\nPubl1\n",
		"- Publ1\n\n  | a | b |\n  |---|---|\n  | private: | Qa |\n- Publ2\n",
		// Headings.
		"# Publ1\n\n## Private – family\n\nQa\n\n- Qb\n\n### Qc\n\nQd\n\n## Publ2\n\nPubl3\n",
		"## private: Family of Qa\n\nQb\n\n- Qc\n\n# Publ1\n",
		"## Private notes\nQa\n\n    Qb\n\nday: 1991-06-23, Publ1\n\nPubl2\n",
		"Private family\n--------------\n\nQa\n\nPubl1\n------\n\nPubl2\n",
		"## **Private:** family\n\nQa\n\n> # Qb\n\nQc\n\n## Publ1\n",
		"> ## Private\n> Qa\n\nPubl1\n",
		"## Publ1 – private: Qa\n\nPubl2\n",
		// Comments and elements.
		"<!--\nprivate: Qa\n\nQb\n-->\nPubl1\n",
		"<!-- Publ1\n\nprivate: Qa\n\nQb\n-->\nPubl2\n",
		"<!-- private: Qa\n\nQb --> Publ1\n",
		"<!-- Publ1. private: Qa --> Publ2\n",
		"<details><summary>private:</summary>\n\nQa\n\nQb\n</details>\n\nPubl1\n",
		"<div>\nprivate: Qa\n<p>\nprivate: Qb\n\nQc\n</p> Qd</div> Publ1\n",
		"<div>\n<!--\nprivate: Qa\n\nQb\n--> Qc</div>\nPubl1\n",
		"<div>\n\nprivate: Qa\n\n- Qb\n\nQc\n\n</div>\n\nPubl1\n",
		"<p>private: Qa <b>Qb</b> Qc</p> Publ1\n",
		"<span title=\"private: Qa\">Publ1</span>\n",
		"<img alt=\"private: Qa\" src=\"qb/Qb.png\"> Publ1\n",
		"Publ1 ![private: Qa](Qb.jpg) Publ2\n",
		// Log lines: what is struck is cut inside its marks, and none goes that is not marked.
		"1B: f22 ~~1/60 private: Qa moved~~ 1/4 -- Publ1\n",
		"1B: f22 (wind; private: Qa), 1/4 -- Publ1\n",
		"1A: f16 -- private: Qa was\nstanding with Qb\n\nPubl1\n",
		"1A: f16 -- private: with Qa\nQb and Qc\n\nPubl1\n",
		"1A: f16 -- private: with Qa.\nPubl1\n",
		"1A: f16 -- private: from left:\n- Qa\n- Qb\n\nPubl1\n",
		"private: Qa\n1A: f16 -- Publ1\n",
		"- private: Qa\n  1A: f16 -- Publ1\n  - Qb\n",
		"private:\n\nday: 1991-06-23, Publ1\n\nPubl2\n",
		"- private: Qa\n  day: 1991-06-23, Publ1\n  - Publ2\n",
	} {
		_, got := publicOf(text)
		for _, word := range wordsOf(got) {
			if word[0] == 'Q' {
				t.Errorf("%q:\n%s is published in %q", text, word, got)
			}
		}
		for _, word := range wordsOf(text) {
			if strings.HasPrefix(word, "Publ") && !strings.Contains(got, word) {
				t.Errorf("%q:\n%s is gone from %q", text, word, got)
			}
		}
	}
}

var planted = regexp.MustCompile(`Q[a-z]\b|Publ[0-9]`)

func wordsOf(text string) []string { return planted.FindAllString(text, -1) }

func publicOf(text string) (lang.Redaction, string) {
	tree, _ := lang.Parse(source.New("n.md", []byte(text)), lang.NewLexicon())
	got := lang.Public(tree)
	return got, string(got.Text)
}

// Nothing stays that stood only for the private part: separators, words that led to it, marks
// and bullets around nothing.
func TestPublicLeavesNoStumps(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"scene: Chapel, private: hers", "scene: Chapel"}, {"sleeve 26-001: box 3, private: hers", "sleeve 26-001: box 3"},
		{"1A: f16 -- remark; private: hers", "1A: f16 -- remark"}, {"1A: f16 -- see private: hers", "1A: f16"}, {"We left, see [private: Ida](ida.pdf)", "We left"},
		{"We left, see [private: Ida](ida.pdf).", "We left."}, {"1A: f16 (private: hers), 1/30, private: his", "1A: f16, 1/30"}, {"A walk (with [private: her]) home", "A walk (with) home"},
		{"A walk ([private: her]) home", "A walk home"}, {"- (private: hers)", ""}, {"2. *private: hers*", ""}, {"- [ ] [private: hers][1]", ""}, {"![private: hers](a.jpg)", ""},
		{"Fog ![private: hers](a.jpg) and rain", "Fog and rain"}, {"<span title=\"private: hers\">fog</span>", "<span>fog</span>"}, {"Fog <b>private: hers</b> and rain", "Fog and rain"},
		{"Fog, **private:** hers", "Fog"}, {"Fog – **private: hers**", "Fog"}, {"scene: Chapel – “private: hers”", "scene: Chapel"}, {"scene: (private: hers)", "scene:"}, {"sleeve 26-001: “private: hers”, box 3", "sleeve 26-001: box 3"}, {"1B; f16, 1/8 (private: hers", "1B; f16, 1/8"}, {"## (private: hers)", ""},
		{"1B: f22 ~~1/60 private: Ida moved~~ 1/4", "1B: f22 ~~1/60~~ 1/4"}, {"Fog (all day, private: with Ida) and rain", "Fog (all day) and rain"},
	} {
		if _, got := publicOf(c.text + "\n"); got != c.want+"\n" {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
}
