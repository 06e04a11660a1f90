package compile

import "testing"

func TestWordsInFigures(t *testing.T) {
	for text, want := range map[string]string{
		"gave eight": "gave 8", "an eighth, no a half": "1/8, no 1/2", "EI two hundred fifty": "EI 250", "meter on two fifty": "meter on 250", "a hundred and twenty-five": "125",
		"one half": "1/2", "three cows and a half": "3 cows and 1/2", "Thirty two.": "32.", "one more": "one more", "one-and-twenty": "one-and-20", "one and a half": "1.5", "one hundred and five": "105", "often, attend": "often, attend", "twenty, two": "20, 2", "five six": "5 6",
		"half past four": "1/2 past 4", "on a seven": "on 7", "F eleven not twenty two": "F 11 not 22", "": "",
	} {
		if got := inFigures(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
