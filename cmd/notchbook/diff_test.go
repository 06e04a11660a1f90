package main

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Every stretch of a diff stands in both texts where its head says.
func TestDiffsSayWhereTheirLinesStand(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		var old, now []string
		for i := range 2 + random.IntN(80) {
			line := fmt.Sprintf("line %d\n", i)
			old = append(old, line)
			switch random.IntN(12) {
			case 0:
				now = append(now, "other "+line)
			case 1:
				now = append(now, line, "new "+line)
			case 2:
			default:
				now = append(now, line)
			}
		}
		if len(now) == 0 || slices.Equal(old, now) {
			continue
		}
		diff := strings.SplitAfter(unified("a", "b", strings.Join(old, ""), strings.Join(now, "")), "\n")
		from, to := 0, 0
		for _, line := range diff[2 : len(diff)-1] {
			if m := hunk.FindStringSubmatch(line); m != nil {
				from, _ = strconv.Atoi(m[2])
				_, rest, _ := strings.Cut(line, "+")
				fmt.Sscan(strings.NewReplacer(",", " ").Replace(rest), &to)
				continue
			}
			if line[0] != '+' {
				if old[from-1] != line[1:] {
					t.Fatalf("line %d of the old text is no %q in\n%s", from, line, strings.Join(diff, ""))
				}
				from++
			}
			if line[0] != '-' {
				if now[to-1] != line[1:] {
					t.Fatalf("line %d of the new text is no %q in\n%s", to, line, strings.Join(diff, ""))
				}
				to++
			}
		}
	}
}
