package whole_test

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"notchbook/cmd/notchbook/program"
)

// Fifty times the program is ended at some moment of its work. There is a whole
// bag or none; nothing of the season is lost; and the next run comes to its end.
func TestArchiveKilledAtAnyMoment(t *testing.T) {
	if testing.Short() {
		t.Skip("short: nothing is killed")
	}
	dir := program.HeavySeason(t, 6)
	place := t.TempDir()
	bag := filepath.Join(place, "bag")
	program.Must(t, "compile", dir, "-o", filepath.Join(t.TempDir(), "record")) // what is known of scans is known
	before := program.Tree(t, dir)
	start := time.Now()
	if out, err := program.Process(nil, "archive", dir, "-o", bag).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	whole, want := time.Since(start), program.Tree(t, bag)
	taken, ended := 0, 0
	for i := range 50 {
		if _, err := os.Stat(bag); err == nil {
			program.SameTree(t, "the bag", want, program.Tree(t, bag))
			if err := os.RemoveAll(bag); err != nil {
				t.Fatal(err)
			}
			ended++
		}
		var said bytes.Buffer
		p := program.Process(nil, "archive", dir, "-o", bag)
		p.Stdout = &said
		if err := p.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(whole * time.Duration(i*37%50) / 45)
		p.Process.Kill()
		p.Wait()
		if strings.Contains(said.String(), "taken over") {
			taken++
		}
		for _, e := range program.Entries(t, place) {
			if e != "bag" && e != ".bag.tmp-notchbook" && e != ".bag.lock-notchbook" {
				t.Errorf("%s is left", e)
			}
		}
	}
	os.RemoveAll(bag)
	s := program.Must(t, "archive", dir, "-o", bag)
	program.SameTree(t, "the bag", want, program.Tree(t, bag))
	program.SameTree(t, "the season", before, program.Tree(t, dir))
	if got := program.Entries(t, place); !slices.Equal(got, []string{"bag"}) {
		t.Errorf("beside the bag is left %q", got)
	}
	t.Logf("%d of 50 came to their end, %d took something over; the last says %q", ended, taken, s.Out)
}
