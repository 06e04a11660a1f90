package compile

import (
	"slices"
	"testing"

	"notchbook/compile/record"
)

func TestSubjectWordsAreThoseThatSayWhatIsSeen(t *testing.T) {
	kiln := &record.Sheet{Scene: &record.Scene{Title: "Long kiln from the tramway, 3rd try"}}
	mouth := &record.Sheet{Title: "Mrs Kiln’s mouth", Scene: &record.Scene{Title: "Überlandwerk beyond Aldermoor (o’clock)"}}
	keys := subjects([]*record.Sheet{kiln, mouth})
	for _, c := range []struct {
		sheet *record.Sheet
		want  []string
	}{
		{kiln, []string{"long", "kiln", "tramway", "try"}},
		{mouth, []string{"Kiln’s", "mouth", "überlandwerk", "Aldermoor", "o’clock"}},
	} {
		if got := keys(c.sheet); !slices.Equal(got, c.want) {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
