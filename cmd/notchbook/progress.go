package main

import (
	"fmt"
	"net/url"
	"strings"
	"time"
)

// progress says on a terminal how far the work is, once it has taken longer
// than a second; elsewhere it says nothing.
type progress struct {
	t     terminal
	start time.Time
	last  time.Time
	shown bool
}

func newProgress(t terminal) *progress { return &progress{t: t, start: time.Now()} }

func (p *progress) say(text string) {
	if !p.t.progress || time.Since(p.start) < time.Second {
		return
	}
	p.last, p.shown = time.Now(), true
	fmt.Fprintf(p.t.err, "\r\x1b[K%s", text)
}

// sometimes says how far the work is where that changes faster than one reads.
func (p *progress) sometimes(text func() string) {
	if p.t.progress && time.Since(p.last) > 200*time.Millisecond {
		p.last = time.Now()
		p.say(text())
	}
}

// done clears the line.
func (p *progress) done() {
	if p.shown {
		fmt.Fprint(p.t.err, "\r\x1b[K")
	}
}

// urlPath percent-encodes a relative path with slashes.
func urlPath(path string) string {
	parts := strings.Split(path, "/")
	for i := range parts {
		parts[i] = url.PathEscape(parts[i])
	}
	return strings.Join(parts, "/")
}
