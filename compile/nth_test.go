package compile_test

import (
	"strings"
	"testing"
)

// What a line says of one of its sheets is that one's, and stands in the place of what it says of all.
func TestOneOfSeveralSheets(t *testing.T) {
	for line, want := range map[string]string{
		"1A 1B: 1/60 f16, second unused":                     "right unexposed",
		"1A 1B: 1/60 f16, first unused":                      "unexposed right",
		"1A 1B 2A: 1/60 f16, last two unused":                "right unexposed unexposed",
		"1A 1B 2A: R25, 1/8 f16, third no filter":            "right right off",
		"1A 1B 2A: R25, 1/8 f16, third no filter 1/60":       "right right right",
		"1A 1B 2A: 1/60 f16, second and third R25 1/8":       "right right right",
		"1A 1B 2A: 1/60 f16, second and third R25":           "right off off",
		"1A 1B 2A: 1/60 f16, second, third R25":              "right off off",
		"1A 1B 2A: 1/60 f16, the second & the last R25":      "right off off",
		"1A 1B 2A 2B: 1/60 f16, first two R25":               "off off right right",
		"1A 1B 2A: 1/60 f16, second or third R25":            "right unchecked unchecked",
		"1A 1B: 1/60 f16, second sheet was Y8 1/30":          "right right",
		"1A 1B: R25, 1/8 f16, second Y8 1/30":                "right right",
		"1A 1B: 1/60 f16, second + Y8":                       "right off",
		"1A 1B: Y8, 1/30 f16, second + R25 1/4":              "right right",
		"1A 1B: 1/60 f16, second f11":                        "right off",
		"1A 1B: 1/60 f16, second f11 1/125":                  "right right",
		"1A 1B: first R25 1/8 f16, second 1/60 f16":          "right right",
		"1A 1B: second R25 1/8, f16 1/60":                    "right right",
		"1A 1B: metered 1/60 f16, gave 1/60 f16, second 1/8": "right off",
		"1A 1B: 1/60 f16, second ext 297mm 1/30":             "right right",
		"1A 1B: 1/60 f16, second not R25":                    "right unchecked",
		"1A 1B: 1/60 f16, second +1":                         "right right",
		"1A 1B: 1/60 f16, 1B unused":                         "unchecked unchecked",
		"1A 1B: 1/60 f16, 1B with R25":                       "unchecked unchecked",
		"1A 1B: 1/60 f16, 1A the gate, 1B the post":          "right right",
		"1A 1B: 1/60 f16 -- 1B is the better one":            "right right",
		"1A: 1/60 f16, second +1":                            "unchecked",
		"1A 1B: second bend of the river, 1/60 f16":          "right right",
		"1A 1B: 1/60 f16 / amend 1A 1B: second R25":          "right off",
	} {
		if got := becameOf("lens: 210 / meter: 1/60 f16 / " + line); got != want {
			t.Errorf("%s: %s, want %s", line, got, want)
		}
	}
	for line, want := range map[string]string{
		"second spoiled": "1B", "first fogged": "1A", "the second sheet was spoiled": "1B", "second possibly fogged": "1B", "last two spoiled": "1B 2A", "spoiled": "1A 1B 2A", "N, second N-1": "",
	} {
		season, _ := compileText(copyingKit + "meter: 1/60 f16\n1A 1B 2A: 1/60 f16, " + line + "\n")
		var lost []string
		for _, sh := range season.Sheets {
			if sh.Lost != "" {
				lost = append(lost, sh.Label)
			}
		}
		if got := strings.Join(lost, " "); got != want {
			t.Errorf("%s: %s, want %s", line, got, want)
		}
	}
}
