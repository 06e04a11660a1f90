package saying

import "testing"

// What stands on one line by the SI Brochure (9th edition, 5.4.3: the space between the
// number and the unit) and by the notation, which writes EV 11 and p. 9; and what is prose.
func TestBound(t *testing.T) {
	for _, c := range []struct {
		left, right string
		bound       bool
	}{
		{"right: 39", "s f/32", true}, {"39 s", "f/32", false}, {"extension 360", "mm", true}, {"at 20", "°C, N−1", true}, {"1½", "stops more", true},
		{"asked EV", "11, given", true}, {"box speed: ISO", "400", true}, {"p.", "9", true}, {"(EI", "64)", true},
		{"given 1m", "23s + 1m", true}, {"2h", "5m", true}, {"+ 1m", "8s, f/5.6", true}, {"given 3", "× 9.4 s", true}, {"3 ×", "9.4 s", true}, {"×8", "9 s", false}, {"9600", "pixels", false}, {"1m 8s,", "f/5.6", false}, {"3m", "25 sheets", false}, {"1m", "30", false}, {"1m", "4mm", false}, {"farm", "2s", false},
		{"11", "sheets", false}, {"at", "20 °C", false}, {"in", "2026", false}, {"", "s", false}, {"lens 300", "", false}, {"at noon", "s", false},
	} {
		if got := Bound(c.left, c.right); got != c.bound {
			t.Errorf("%q and %q: %v", c.left, c.right, got)
		}
	}
}

func TestBind(t *testing.T) {
	const want = "read EV\u00a014, O21 −2; 39\u00a0s f/32 at 20\u00a0°C"
	if got := Bind("read EV 14, O21 −2; 39 s f/32 at 20 °C"); got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestInTime(t *testing.T) {
	for _, c := range []struct {
		left, right string
		whole       bool
	}{
		{"given 1m", "23s", true}, {"2h", "5m,", true}, {"3", "× 9.4 s", true}, {"12 ×", "1m 8s", true}, {"9600", "× 12000 pixels", false}, {"9600 ×", "12000 pixels", false}, {"1m 8s,", "f/5.6", false}, {"", "", false},
	} {
		if got := InTime(c.left, c.right); got != c.whole {
			t.Errorf("%q and %q: %v", c.left, c.right, got)
		}
	}
}
