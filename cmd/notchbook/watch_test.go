package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"notchbook/cmd/notchbook/program"
)

// background runs a command until the test is over, and holds it to end well.
func background(t *testing.T, args ...string) *program.Words {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	out, ended := &program.Words{}, make(chan int, 1)
	go func() { ended <- run(args, terminal{in: strings.NewReader(""), out: out, err: out, until: ctx}) }()
	t.Cleanup(func() {
		stop()
		if code := <-ended; code == failed {
			t.Errorf("ended with %d: %s", code, out)
		}
	})
	return out
}

func TestCheckWatches(t *testing.T) {
	dir := aldermoor(t)
	out := background(t, "check", "--watch", dir)
	eventually(t, "the first check", func() bool { return strings.Contains(out.String(), "35 sheets") })
	name := filepath.Join(dir, brickworks)
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, append(text, "\n9A: f16 1/30\n"...), 0o644); err != nil {
		t.Fatal(err)
	}
	eventually(t, "a check of what was saved", func() bool {
		return strings.Contains(out.String(), "checked again:") && strings.Contains(out.String(), "36 sheets")
	})
}
