package pdf

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"strconv"
	"testing"

	"notchbook/compile/record"
)

// setAt is where type is set on a page (PDF 32000-1, 9.4.2), or a drawing begins
// or ends, whose words are its own.
var setAt = regexp.MustCompile(`/Figure BMC|EMC|BT \S+ (\S+) Td`)

// baselines gives where type stands outside of drawings, from the top of the
// paper, as qpdf unpacks it.
func baselines(t *testing.T, file string, height float64) (all []float64, figures int) {
	t.Helper()
	plain := file + ".qdf"
	run(t, "qpdf", "--qdf", file, plain)
	data, err := os.ReadFile(plain)
	if err != nil {
		t.Fatal(err)
	}
	inside := false
	for _, m := range setAt.FindAllSubmatch(data, -1) {
		switch {
		case len(m[1]) > 0 && !inside:
			y, err := strconv.ParseFloat(string(m[1]), 64)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, height-y)
		case len(m[1]) == 0:
			inside = string(m[0]) != "EMC"
			if inside {
				figures++
			}
		}
	}
	return all, figures
}

// Whatever is set, however large, stands on lines 12 points apart, the same on
// every page, so that the lines on both sides of a leaf lie on one another.
func TestTypeStandsOnTheGrid(t *testing.T) {
	for name, s := range map[string]*record.Season{"fixture": fixture(), "extreme": extreme()} {
		for paper, size := range papers {
			all, figures := baselines(t, write(t, s, Options{Paper: paper, Picture: testPicture}), size.h)
			astray := map[string]int{}
			for _, y := range all {
				if off := math.Remainder(y-(size.top-descent), grid); math.Abs(off) > 0.02 {
					astray[fmt.Sprintf("%.2f", y)]++
				}
			}
			if len(astray) > 0 {
				t.Errorf("%s on %s: off the grid: %v", name, size.name, astray)
			}
			if len(all) < 100 || name == "fixture" && figures < 2 {
				t.Errorf("%s: only %d pieces of type and %d drawings", name, len(all), figures)
			}
		}
	}
}
