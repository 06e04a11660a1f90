package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// What only a terminal shows is looked at in one: a pseudo-terminal, on whose
// other side the test sits.

// onTerminal runs the program with a terminal for its output and gives what
// arrives there.
func onTerminal(t *testing.T, env []string, args ...string) string {
	t.Helper()
	ours, err := os.OpenFile("/dev/ptmx", os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Skip("there are no pseudo-terminals here: ", err)
	}
	defer ours.Close()
	theirs := otherSide(t, ours)
	defer theirs.Close()

	c := process(env, args...)
	c.Stdout, c.Stderr = theirs, theirs
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	heard := make(chan string)
	go func() {
		text, _ := io.ReadAll(ours) // ends in an error when the other side is closed
		heard <- string(text)
	}()
	c.Wait() // the status is not looked at here
	theirs.Close()
	select {
	case text := <-heard:
		return text
	case <-time.After(30 * time.Second):
		t.Fatal("the terminal was never let go")
		return ""
	}
}

func otherSide(t *testing.T, ours *os.File) *os.File {
	t.Helper()
	fd := int(ours.Fd())
	if err := unix.IoctlSetPointerInt(fd, unix.TIOCSPTLCK, 0); err != nil {
		t.Skip("a pseudo-terminal cannot be unlocked: ", err)
	}
	number, err := unix.IoctlGetUint32(fd, unix.TIOCGPTN)
	if err != nil {
		t.Skip("a pseudo-terminal has no number: ", err)
	}
	theirs, err := os.OpenFile(fmt.Sprint("/dev/pts/", number), os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Skip("a pseudo-terminal cannot be opened: ", err)
	}
	return theirs
}

func TestTerminalIsColoured(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": "shet 3A: 1/30 f16\n"})
	for _, c := range []struct {
		env    string
		colour bool
	}{{"TERM=xterm", true}, {"NO_COLOR=", true}, {"NO_COLOR=1", false}, {"TERM=dumb", false}} {
		out := onTerminal(t, []string{c.env}, "check", dir)
		if !strings.Contains(out, "[unknown-word]") || strings.Contains(out, "\x1b") != c.colour {
			t.Errorf("%s: colours %v, not so in %q", c.env, c.colour, out)
		}
	}
	out, _ := process([]string{"TERM=xterm"}, "check", dir).CombinedOutput()
	if strings.Contains(string(out), "\x1b") || !strings.Contains(string(out), "[unknown-word]") {
		t.Errorf("in a pipe there are colours: %q", out)
	}
}

// driven is what a terminal gets to see of a command.
func driven(t *testing.T, args ...string) string {
	t.Helper()
	return onTerminal(t, []string{"TERM=xterm"}, args...)
}
