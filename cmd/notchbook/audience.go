package main

import (
	"errors"
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

// quickly opens what the command line names to be read without the scans' digests, and says what
// cannot be read of it.
func (a audience) quickly(paths []string, t terminal) (*reading, error) {
	r, err := a.read(paths, t.in)
	if err != nil {
		return nil, err
	}
	r.quick = true
	r.problems(t)
	return r, nil
}

// kit opens the notebook that declares the kit, none where no path is given.
func (a audience) kit(path string, t terminal) (*reading, compile.World, error) {
	if path == "" {
		none := func(string) ([]byte, error) { return nil, errors.New("there is no kit") }
		return &reading{stdin: []byte{}}, compile.World{Read: none}, nil
	}
	r, err := a.read([]string{path}, t.in)
	if err != nil {
		return nil, compile.World{}, err
	}
	return r, compile.World{Read: r.world().Read, Public: r.public}, nil
}

// compiledAt is the record of what the command line names, without the scans'
// digests, for a darkroom at a temperature (0: the kit's), and the folder that it is of.
func (a audience) compiledAt(paths []string, t terminal, celsius float64) (season *record.Season, folder string, err error) {
	r, err := a.quickly(paths, t)
	if err != nil {
		return nil, "", err
	}
	defer r.close()
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
