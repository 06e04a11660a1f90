package main

import (
	"fmt"
	"io"
	"strings"

	"notchbook/compile"
	"notchbook/compile/record"
)

// audience is whom the output is for. Every command that writes something of the
// notes has it.
type audience struct {
	Public bool `help:"Leave out every remark that begins with \"private:\", for an output that is handed on."`
}

// read opens what the command line names, for this audience.
func (a audience) read(paths []string, in io.Reader) (*reading, error) {
	r, err := open(paths, in)
	if err == nil {
		r.public = a.Public
	}
	return r, err
}

// compiledAt is the record of what the command line names, without the scans'
// digests, for a darkroom at a temperature (0: the kit's), and the folder that it is of.
func (a audience) compiledAt(paths []string, t terminal, celsius float64) (season *record.Season, folder string, err error) {
	r, err := a.read(paths, t.in)
	if err != nil {
		return nil, "", err
	}
	defer r.close()
	r.quick = true
	r.problems(t)
	world := r.world()
	world.Celsius = celsius
	season, _ = compile.Compile(world, r.names...)
	return season, r.where(), nil
}

// sayLeft names what is in what is written to be handed on though it may be private: every
// line, since nobody looks for one that is not named.
func (r *reading) sayLeft(t terminal, season *record.Season) {
	if !season.Public {
		return
	}
	for _, kind := range []struct {
		why   string
		lines func(*record.Notebook) []int
	}{
		{"the word private, or the name of a private scan, stands in what is written, and is not marked to be left out", func(n *record.Notebook) []int { return n.Left }},
		{"what stands beside a private remark may belong to it, and is written", func(n *record.Notebook) []int { return n.Doubted }},
		{"log lines below a private heading are written, without their remarks", func(n *record.Notebook) []int { return n.Below }},
	} {
		var all []string
		for _, n := range season.Notebooks {
			for _, line := range kind.lines(n) {
				all = append(all, record.Place{Path: n.Path, Line: line}.String())
			}
		}
		if len(all) > 0 {
			t.complain(fmt.Errorf("%s: %s", kind.why, strings.Join(all, ", ")))
		}
	}
	for _, n := range season.Notebooks {
		if n.Unlogged {
			t.complain(fmt.Errorf("%s has no log line; it is published as a notebook", n.Path))
		}
	}
}
