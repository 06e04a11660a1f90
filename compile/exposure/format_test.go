package exposure

import (
	"math"
	"testing"
)

func TestFormatStops(t *testing.T) {
	cases := []struct {
		stops          float64
		signed, amount string
	}{
		{0, "0", "0"}, {0.04, "0", "0"}, {-0.04, "0", "0"}, {math.Copysign(0, -1), "0", "0"},
		{4. / 3, "+1⅓", "1⅓"}, {-0.5, "−½", "½"}, {-2, "−2", "2"}, {2. / 3, "+⅔", "⅔"},
		{0.25, "+¼", "¼"}, {-1.75, "−1¾", "1¾"}, {0.4, "+0.4", "0.4"}, {-1.42, "−1.4", "1.4"},
		{0.585, "+0.6", "0.6"}, {1.585, "+1.6", "1.6"}, {2.97, "+3", "3"}, {0.2, "+0.2", "0.2"},
		{math.NaN(), "?", "?"}, {math.Inf(-1), "?", "?"},
	}
	for _, c := range cases {
		if got := FormatStops(c.stops); got != c.signed {
			t.Errorf("%g stops: %q, want %q", c.stops, got, c.signed)
		}
		if got := FormatAmount(c.stops); got != c.amount {
			t.Errorf("amount of %g stops: %q, want %q", c.stops, got, c.amount)
		}
	}
}

func TestFormatTime(t *testing.T) {
	cases := []struct {
		seconds float64
		want    string
	}{
		{1. / 32, "1/30"}, {1. / 128, "1/125"}, {1. / 50, "1/50"}, {1. / 64, "1/60"}, {0.5, "1/2"},
		{math.Sqrt2 / 2, "0.7 s"}, {0.75, "0.8 s"}, {0.9, "0.9 s"}, {1. / 17.1, "1/17"}, {1. / 70, "1/70"},
		{1. / 16000, "1/16000"}, {0.997, "1 s"}, {1, "1 s"}, {2.5, "2.5 s"}, {9.94, "9.9 s"}, {9.95, "10 s"}, {9.97, "10 s"}, {10.4, "10 s"}, {20.4, "20 s"}, {59.7, "1m"},
		{90, "1m 30s"}, {120, "2m"}, {3599.8, "1h"}, {4080, "1h 8m"}, {262144, "72h 49m"},
		{0, "?"}, {-1, "?"}, {math.NaN(), "?"}, {math.Inf(1), "?"}, {86400 * 36500, "36500 days"},
	}
	for _, c := range cases {
		if got := FormatTime(c.seconds); got != c.want {
			t.Errorf("%g s: %q, want %q", c.seconds, got, c.want)
		}
	}
}

func TestFormatOthers(t *testing.T) {
	cases := []struct{ got, want string }{
		{FormatEV(11 + 1./3), "EV 11⅓"}, {FormatEV(-2.5), "EV −2½"}, {FormatEV(0), "EV 0"},
		{FormatEV(math.NaN()), "EV ?"}, {FormatEV(9.4), "EV 9.4"},
		{FormatFactor(4), "×4"}, {FormatFactor(2.25), "×2.25"}, {FormatFactor(5.0625), "×5.06"},
		{FormatFactor(1200), "×1200"}, {FormatFactor(0), "?"},
		{FormatAperture(16), "f/256"}, {FormatAperture(7.97), "f/16"}, {FormatAperture(math.NaN()), "?"},
		{Roman(3.5), "III½"}, {Roman(8), "VIII"}, {Roman(2 + 2./3), "II⅔"}, {Roman(0), "0"}, {Roman(0.5), "0½"},
		{Roman(2.4), "II+0.4"}, {Roman(10), "X"}, {Roman(10.5), "above X"}, {Roman(-1), "below 0"}, {Roman(math.NaN()), "?"},
	}
	for _, c := range cases {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
