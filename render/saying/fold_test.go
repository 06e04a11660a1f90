package saying

import (
	"fmt"
	"slices"
	"testing"

	"notchbook/compile/record"
)

// What has one form is told once, where the first stood, in its own sentence or in one for all;
// what has none is told apart.
func TestFold(t *testing.T) {
	of := func(form, message string) *record.Finding {
		return &record.Finding{Message: message, Form: form, OfAll: "no entry is …", Notes: []string{"one", "write: 1A:"}}
	}
	for _, c := range []struct {
		all  []*record.Finding
		want []string
	}{
		{nil, nil},
		{[]*record.Finding{of("none", "no entry is HW-1")}, []string{"1 no entry is HW-1"}},
		{[]*record.Finding{of("none", "no entry is HW-1"), of("blur", "blurred"), of("none", "no entry is HW-2")}, []string{"2 no entry is …", "1 blurred"}},
		{[]*record.Finding{of("blur", "blurred"), of("blur", "blurred")}, []string{"2 blurred"}},
		{[]*record.Finding{of("", "a"), of("", "a")}, []string{"1 a", "1 a"}},
		{[]*record.Finding{{Message: "1a got 1 stop over", Day: "2026-10-04"}}, []string{"1 2026-10-04 1a got 1 stop over"}},
	} {
		var got []string
		for _, told := range Fold(c.all) {
			got = append(got, fmt.Sprint(len(told.Of), " ", told.Message))
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// What is written instead is one line's, and not said of many.
func TestNotesOfMany(t *testing.T) {
	fixed := &record.Finding{Form: "x", Notes: []string{"one", "write: 1A:"}, Fix: &record.Fix{Text: "1A:"}}
	if one := (Told{Of: []*record.Finding{fixed}}).Notes(); len(one) != 2 {
		t.Error(one)
	}
	if many := (Told{Of: []*record.Finding{fixed, fixed}}).Notes(); !slices.Equal(many, []string{"one"}) {
		t.Error(many)
	}
}
