package main

import (
	"io"

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
// digests, for a darkroom at a temperature (0: the kit's).
func (a audience) compiledAt(paths []string, t terminal, celsius float64) (*record.Season, error) {
	r, err := a.read(paths, t.in)
	if err != nil {
		return nil, err
	}
	defer r.close()
	r.quick = true
	r.problems(t)
	world := r.world()
	world.Celsius = celsius
	season, _ := compile.Compile(world, r.names...)
	return season, nil
}
