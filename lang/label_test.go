package lang

import (
	"slices"
	"strings"
	"testing"

	"notchbook/lang/source"
)

// What stands before the colon names these sheets and no others: runs of numbers that have
// a dash within them are counted through, and what would be more sheets than anybody
// exposes alike is one.
func TestLabelsOfSheetLines(t *testing.T) {
	for said, want := range map[string]string{
		"83-101 to 83-103": "83-101 83-102 83-103", "83-101 to 103": "83-101 83-102 83-103", "sheet 84-01 to 84-03": "84-01 84-02 84-03",
		"sheet 84-09 to 84-11": "84-09 84-10 84-11", "83-131, 132": "83-131 83-132", "83-131 and 132, 140": "83-131 83-132 83-140",
		"#83-114": "#83-114", "1983-114": "1983-114", "83-114": "83-114", "78-1": "78-1", "#31-#34": "#31 #32 #33 #34", "31-34": "31 32 33 34",
		"98-102": "98 99 100 101 102", "26-60": "26-60", "#26-041": "#26-041", "1-40": "1-40", "1A-2B": "1A 1B 2A 2B", "3-1": "3-1", "1-3, 5": "1 2 3 5",
		"83-103 to 83-101": "83-103 83-101", "83-101 to 84-002": "83-101 84-002",
		"1A/1B": "1A 1B", "2A/B": "2A 2B", "1A+B": "1A 1B", "1A&B": "1A 1B", "1A & B": "1A 1B", "1A / 1B": "1A 1B", "1a/b": "1a 1b", "1A-B": "1A 1B", "1A/2A/3B": "1A 2A 3B",
		"sheet 84/17-19": "84/17 84/18 84/19", "sheets 84/17-84/19": "84/17 84/18 84/19", "sheets 84/17 to 84/19": "84/17 84/18 84/19", "sheets 84/17 to 19": "84/17 84/18 84/19", "sheets 84/1, 2": "84/1 84/2",
		"84-1 84-2 84-3": "84-1 84-2 84-3", "78-1 78-2": "78-1 78-2", "84-1, 2": "84-1 84-2", "84-9, 10 and 11": "84-9 84-10 84-11", "84-001, 2": "84-001 84-002", "84-1, 3-5, 8": "84-1 84-3 84-4 84-5 84-8", "84-17-19": "84-17 84-18 84-19", "84-12, 2": "84-12 2", "sheet 84/17/19": "84/17/19",
		"sheet 1A/1B": "1A 1B", "sheets 1A and B": "1A 1B", "2A/B, 3AB": "2A 2B 3A 3B", "sheet 1/2": "1/2",
		"Plate II": "II", "Plates I-IV": "I II III IV", "Pl. IX to XI": "IX X XI", "sheet XIV": "XIV", "Plate A": "A", "Plate no. 4": "4", "No. 1": "1", "Nr. 8": "8", "N° 3": "3", "№3": "3", "No 7": "7", "Nos. 1-3": "1 2 3", "sheet no. 2A": "2A",
		"86-12a": "86-12a", "86-12B": "86-12B", "sheet 86-12b": "86-12b", "26-031c": "26-031c", "26-31a": "26-31a", "86-12a, 86-13": "86-12a 86-13",
	} {
		tree, list := Parse(source.New("", []byte(said+": f22 1/8\n")), NewLexicon())
		var got []string
		for _, s := range tree.Statements {
			for _, l := range s.Labels {
				got = append(got, l.Text)
			}
		}
		if !slices.Equal(got, strings.Fields(want)) {
			t.Errorf("%s: %q, want %q", said, got, want)
		}
		odd := slices.Contains([]string{"1-40", "83-103 to 83-101", "83-101 to 84-002"}, said)
		if odd != (len(list) == 1 && list[0].Code == "unknown-label") {
			t.Errorf("%s: %v", said, list)
		}
	}
	// One label of signs is none by itself, and is not mended to one: it may be of several sheets.
	for _, said := range []string{"1A/C", "101/102", "1/2", "1A/B/x"} {
		if tree, list := Parse(source.New("", []byte(said+": f22 1/8\n")), NewLexicon()); len(tree.Statements) > 0 || len(list) != 1 || list[0].Code != "unknown-label" || list[0].Fix != nil {
			t.Errorf("%s: %v, %v", said, tree.Statements, list)
		}
	}
	// A label of the writer's own may as well be a slip for another, and a word with a colon none.
	for _, said := range []string{"T1", "II", "IXX", "sheet XIIII", "No", "plate glass", "no 3A"} {
		if tree, list := Parse(source.New("", []byte(said+": f22 1/8\n")), NewLexicon()); len(tree.Statements) > 0 || len(list) != 1 || list[0].Fix != nil {
			t.Errorf("%s: %v, %v", said, tree.Statements, list)
		}
	}
	for _, line := range []string{"Pl. 1: f16 1/2", "plate no. 2: f16 1/2", "develop Pl. 1: N", "amend No. 3: f22"} {
		book, _ := Parse(source.New("", []byte(line+"\n")), NewLexicon())
		if got := Tidy(book, NewLexicon(), nil); got != line+"\n" {
			t.Errorf("%s: tidied to %q", line, got)
		}
	}
	// A book that counts by years goes on with them.
	for text, want := range map[string]string{
		"57-012: f16 1/8\n57-58: f22 1/8":          "57-012 57-58",
		"57-012: f16 1/8\n57 to 58: f22 1/8":       "57-012 57 58",
		"56-101: f16 1/8\n57-58: f22 1/8":          "56-101 57 58 !",
		"26-017: f16 1/8\n57-58: f22 1/8":          "26-017 57 58",
		"57-58: f22 1/8\n57-012: f16 1/8\n1A: f16": "57 58 57-012 1A",
		// The year of the day says what its numbers are; where none is known, they are asked about.
		"day: 7 May 1984\n84-99: f22 1/8":                                   "84-99",
		"day: May 1984\n84-99: f22 1/8":                                     "84-99",
		"day: le 7 mai 1984\n84-99: f22 1/8":                                "84-99",
		"# 1984\n\nday: 7.5.\n84-99: f22 1/8":                               "84-99",
		"day: 7 May 2012\n12-13: f22 1/8\n12-14 to 12-16: f22 1/8":          "12-13 12-14 12-15 12-16",
		"# 1984\n\nday: 7 May\n84-99: f22 1/8\nday: 8 May\n84-100: f22 1/8": "84-99 84-100",
		"1991 (cont'd)\n\nday: 7 May\n91-101: f22 1/8\n91-102: f22 1/8":     "91-101 91-102",
		"# 1984\n\nday: 7 May\n\n# Moor\n\nday: 9 May\n84-99: f22 1/8":      "84 85 86 87 88 89 90 91 92 93 94 95 96 97 98 99 !",
		"day: 7 May\n84-86: f22 1/8":                                        "84 85 86 !",
		"84-97: f22 1/8":                                                    "84 85 86 87 88 89 90 91 92 93 94 95 96 97 !",
		"day: 7 May 1984\n12-13: f22 1/8":                                   "12 13",
		"day: 7 May 2012\nload 12-14: slate\n12-13: f22 1/8":                "12 13 14 12 13",
		"day: 7 May 2012\n11: f22 1/8\n12-13: f22 1/8":                      "11 12 13 !",
		"day: 7 May 1984\n84/99: f22 1/8":                                   "84/99",
		"day: 7 May 1984\n84/17-19: f22 1/8":                                "84/17 84/18 84/19",
		"day: 7 May 1984\n84/1, 2 and 4-5: f22 1/8":                         "84/1 84/2 84/4 84/5",
		"day: 7 May 1984\n85/99: f22 1/8":                                   "!",
		"day: 7 May 2026\n26/11: f22 1/8":                                   "!",
	} {
		tree, list := Parse(source.New("", []byte(text+"\n")), NewLexicon())
		var got []string
		for _, s := range tree.Statements {
			for _, l := range s.Labels {
				got = append(got, l.Text)
			}
		}
		if len(list) > 0 {
			got = append(got, "!")
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
	// A run of holders may well be longer.
	tree, _ := Parse(source.New("", []byte("load 1-40: slate\n")), NewLexicon())
	if n := len(tree.Statements[0].Labels); n != 40 {
		t.Errorf("%d holders are loaded", n)
	}
}

// A side in so many words is the label that it is in figures, before a colon with settings behind it, behind a log word,
// and in a sentence.
func TestSidesInWords(t *testing.T) {
	for line, want := range map[string]string{
		"One B: f16 1/30": "1B", "two B: same": "2B", "Two-A: f16 1/30": "2A", "Twenty two B: f16 1/30": "22B", "One A and one B: f16 1/30": "1A 1B", "One A to two B: f16 1/30": "1A 1B 2A 2B",
		"develop one A, two B: N": "1A 2B", "amend one B: f22": "1B", "load one A to two A: slate": "1A 1B 2A", "develop holder two side A: N": "2A",
		"One a: f16 1/30": "", "Two A: the gate was closed": "", "one after the other: f16 1/30": "", "one Apple: f16": "", "one A4: f16": "",
	} {
		tree, _ := Parse(source.New("", []byte(line+"\n")), NewLexicon())
		var labels []string
		for _, st := range tree.Statements {
			for _, l := range st.Labels {
				labels = append(labels, l.Text)
			}
		}
		if !slices.Equal(labels, strings.Fields(want)) {
			t.Errorf("%s: %q, want %q", line, labels, want)
		}
		if got := Tidy(tree, NewLexicon(), nil); !strings.HasPrefix(got, line[:3]) {
			t.Errorf("%s: tidied to %q", line, got)
		}
	}
	side := func(label string) bool { return holderOf(label) != "" }
	for text, want := range map[string]string{
		"the red was on for one A": "1A", "twenty two B was at f22": "22B", "one A and two B": "1A 2B", "one A4 sheet": "", "a plan B": "", "on one-B the red": "1B", "one a": "", "one Apple": "",
	} {
		if got := LabelsIn(text, side); !slices.Equal(got, strings.Fields(want)) {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}
