package lang_test

import (
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
		{"## private: the key\n\nA walk.\n", "\n\nA walk.\n"},
		{"> private: the key\n", "\n"},
		{"**private:** the key\n", "\n"},
		{"\ufeffprivate: the key\n", "\n"},
		{"We went on (private: with Ada) to the kiln.\n", "We went on to the kiln.\n"},
		{"Left early – private: row with the owner\n", "Left early\n"},
		{"scene: private: the miller's bedroom\n", "scene:\n"},
		{"result 1A: private: hers\nsleeve 1A: private: under the bed\n", "result 1A:\nsleeve 1A:\n"},
		{"1A: f16, ~~private: hers~~ 1/30\n", "1A: f16, 1/30\n"},
		{"| mill | private: hers |\n", "| mill ||\n"},
		{"[^1]: private: hers\n", "[^1]:\n"},
		{"<p>private: hers</p>\n", "<p></p>\n"},
		{"We left. private: She stayed.\n", "We left.\n"},
		{"A <!-- private: hers --> walk\n", "A walk\n"},
		{"A walk (private: with\nher) home.\n\nThen rain.\n", "A walk\n\n\nThen rain.\n"},
		{"privat: hers\n1A: f16, privte: hers\n", "\n1A: f16,\n"},
		{"```\nprivate: hers\n```\n1A: f16, 1/30\n", "```\n\n```\n1A: f16, 1/30\n"},
		{"Private remark: the key\nis here\n1A: f16 (private notes: hers)\n", "\n\n1A: f16\n"},
		{"# Walk\n\n## Private\n\nThe key.\n\n### Where\n\nUnder it.\n\n## Kiln\n\nFog.\n", "# Walk\n\n\n\n\n\n\n\n\n\n## Kiln\n\nFog.\n"},
		{"## Private notes:\n\nThe key.\n1A: f16, 1/30\n\n# Kiln\n", "\n\n\n1A: f16, 1/30\n\n# Kiln\n"},
		{"# Private road\n\nFog.\n", "# Private road\n\nFog.\n"},
		{"# Privates\n\nThree on the bridge.\n", "# Privates\n\nThree on the bridge.\n"},
		{"# Privat\n\nFog.\n", "# Privat\n\nFog.\n"},
		{"# *PRIVATE*\n\nThe key.\n", "\n\n\n"},
		{"<b>private:</b> Ida is ill\n", "<b>\n"},
		{"<details><summary>private:</summary> her address</details>\n", "<details><summary>\n"},
		{"<div>private: hers</div> walk\n", "<div></div> walk\n"},
		{"1A: f16 -- private: Ida was\nstanding in the door.\n\nFog.\n", "1A: f16\n\n\nFog.\n"},
		{"1A: f16 -- private: Ida.\nThe fog lifted.\n", "1A: f16\nThe fog lifted.\n"},
		{"private: from left:\n- Ida\n- Karl\n\nFog.\n", "\n\n\n\nFog.\n"},
		{"Private\n=======\n\nThe key.\n\nWalk\n====\n\nFog.\n", "\n\n\n\n\nWalk\n====\n\nFog.\n"},
		{"## Private\n\n2A: f16 -- the mayor asleep\n", "\n\n2A: f16\n"},
		{"private:\n\nThe key.\n\nFog.\n", "\n\n\n\nFog.\n"},
		{"[private: Ida](letters/ida.pdf) and fog\n", " and fog\n"},
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
	if got := lang.Public(tree).Left; !slices.Equal(got, []int{1, 10, 15}) {
		t.Errorf("lines %v", got)
	}
}
