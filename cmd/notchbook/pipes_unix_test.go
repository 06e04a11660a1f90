//go:build unix

package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"notchbook/cmd/notchbook/disk"
)

// Pipes and devices are no files: nothing waits for them, and nothing is endless.
func TestPipesAndDevicesHoldNothingUp(t *testing.T) {
	season, _ := guarded(t, "use: kit.md\nuse: zero.md\nday: 2026-11-07\nmeter: 1/60 f16\n1A: 1/60 f16\nscan 1A: wait.tif\n1B: 1/60 f16\nscan 1B: zero.tif\n\n![p](wait.jpg)\n")
	must(t, "compile", season) // makes record and cache
	pipes := []string{"kit.md", "wait.tif", "wait.jpg", "listed.md", "record/" + sumsName, disk.CacheFolder + "/" + keptKey("near.jpg") + ".kept"}
	for _, name := range pipes {
		full := filepath.Join(season, name)
		os.Remove(full)
		if err := syscall.Mkfifo(full, 0o644); err != nil {
			t.Skip("this system makes no pipes: ", err)
		}
	}
	for _, name := range []string{"zero.md", "zero.tif"} {
		if err := os.Symlink("/dev/zero", filepath.Join(season, name)); err != nil {
			t.Fatal(err)
		}
	}
	for _, args := range [][]string{{"check", season}, {"scans", season}, {"scans", "--xmp", season}, {"tidy", season}, {"compile", season, "-o", filepath.Join(t.TempDir(), "record")}} {
		prompt(t, args...)
	}
	check := prompt(t, "check", season)
	for _, words := range []string{"kit.md is not a regular file", "zero.md lies outside", "wait.tif is not a regular file"} {
		if !strings.Contains(check.out, words) {
			t.Errorf("nothing says %q\n%s", words, check.out)
		}
	}
	for _, device := range []string{"/dev/zero", filepath.Join(season, "listed.md")} {
		if s := prompt(t, "check", device); s.status == right {
			t.Errorf("%s is read: %s", device, s.out)
		}
	}
}
