package exposure

import "testing"

func TestBetween(t *testing.T) {
	for _, c := range []struct {
		least, most float64
		says        string
	}{
		{0, .4, "0 to 0.4 stop over"}, {-.2, .4, "0.2 under to 0.4 stop over"}, {.2, .4, "0.2 to 0.4 stop over"}, {.01, .02, "none"}, {1. / 3, 4. / 3, "⅓ to 1⅓ stops over"},
	} {
		if got := Between(c.least, c.most); got != c.says {
			t.Errorf("%g to %g: %q", c.least, c.most, got)
		}
	}
}
