package main

import (
	"regexp"
	"strconv"
	"strings"

	"github.com/aymanbagabas/go-udiff"
)

// unified is how one text becomes another, as patch and git read it. Where a stretch begins in
// the new text is counted here: what the library says of it leaves out the lines between two
// changes of one stretch.
func unified(name, changed, old, text string) string {
	lines := strings.SplitAfter(udiff.Unified(name, changed, old, text), "\n")
	lower := 0 // by how many lines what follows has moved down
	for i, line := range lines {
		m := hunk.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		if before, after := countOf(m[3]), countOf(m[5]); before > 0 && after > 0 { // else it is all of the text
			from, _ := strconv.Atoi(m[2])
			lines[i] = m[1] + strconv.Itoa(from+lower) + m[4]
			lower += after - before
		}
	}
	return strings.Join(lines, "")
}

// hunk heads a stretch of lines: where it begins in the old text and in the new, and how
// many lines it has there if not one.
var hunk = regexp.MustCompile(`^(@@ -(\d+)(?:,(\d+))? \+)\d+((?:,(\d+))? @@\n)$`)

func countOf(said string) int {
	if n, err := strconv.Atoi(said); err == nil {
		return n
	}
	return 1
}
