package main

import (
	"notchbook/compile"
	"notchbook/compile/record"
)

// door is the only way out of the season's folder: scans on a disk of their own,
// where the writer says so on the command line. Nothing is ever written there.
type door struct {
	Scans string `placeholder:"DIR" help:"Read scans in this folder too, where the notes or a link in the season's folder lead to it. Else nothing outside the season's folder is read."`
}

// open opens it for a reading.
func (d door) open(r *reading) error {
	if d.Scans == "" {
		return nil
	}
	return r.folder.Allow(d.Scans)
}

// preview compiles the notes without a look at any file, for what must be known
// of the scans before they are read.
func (r *reading) preview() *record.Season {
	world := r.world()
	world.Scans, world.Look = nil, func(string) compile.Scan { return compile.Scan{State: record.Present} }
	season, _ := compile.Compile(world, r.names...)
	return season
}

// notListed is the scans that the notes name and no listing of the folder finds:
// those behind the door.
func (r *reading) notListed(season *record.Season) []string {
	listed := map[string]bool{}
	for _, name := range r.list.Scans {
		listed[name] = true
	}
	var all []string
	for _, s := range season.Scans {
		if s.State == record.Present && !listed[s.Path] {
			all = append(all, s.Path)
		}
	}
	return all
}
