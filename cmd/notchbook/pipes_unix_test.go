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
	if s := prompt(t, "check", "/dev/zero"); s.status != failed || !strings.Contains(s.err, "/dev/zero is larger") {
		t.Errorf("status %d: %s%s", s.status, s.out, s.err)
	}
}

// A stream that is named is a notebook, as standard input is one; what must be
// written back, followed or told from others needs a file.
func TestStreamsAreReadAsNotebooks(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	if err := syscall.Mkfifo("notes", 0o644); err != nil {
		t.Skip("this system makes no pipes: ", err)
	}
	stream := func() {
		go func() {
			pipe, err := os.OpenFile("notes", os.O_WRONLY, 0)
			if err == nil {
				_, err = pipe.WriteString("meter: 1/60 f16\n3A: 1/30 f16\n")
				pipe.Close()
			}
			if err != nil {
				t.Error(err)
			}
		}()
	}
	stream()
	if s := prompt(t, "check", "notes"); s.status != found || !strings.Contains(s.out, "notes:2:5: error: 3A got 1 stop over [exposure-off]") {
		t.Errorf("status %d: %s%s", s.status, s.out, s.err)
	}
	stream()
	if s := prompt(t, "compile", "notes", "-o", "record"); s.status != right {
		t.Errorf("status %d: %s%s", s.status, s.out, s.err)
	}
	if s := prompt(t, "check", "/dev/null"); s.status != right || !strings.Contains(s.out, "nothing in this notebook") || s.err != "" {
		t.Errorf("status %d: %s%s", s.status, s.out, s.err)
	}
	for _, args := range [][]string{{"check", "notes", "record"}, {"check", "--watch", "notes"}, {"desk", "notes"}, {"archive", "notes", "-o", "bag"}} {
		if s := prompt(t, args...); s.status != failed {
			t.Errorf("%v: status %d: %s%s", args, s.status, s.out, s.err)
		}
	}
}
