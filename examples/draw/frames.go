package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
)

// Frame is one sheet of film as far as its look is concerned.
type Frame struct {
	ID      string
	Scene   string
	Filters []string // Wratten numbers; "pol" for the polarizer; neutral ones are left out
	Film    string   // "pan" or "ortho"
	// Stops is the difference on film, + too much, after filters, bellows and reciprocity; NaN
	// where nothing reached the film.
	Stops float64
	Shake bool   // the tripod was knocked, or the wind had it
	Again *Frame // a second exposure on the same sheet
	Out   string // file name, its ending chooses the format
	Long  int    // long side in pixels; 0 for the whole scan
}

// subject is what the key does not know of a sheet: what stood before the lens, and how the
// sheet was scanned.
type subject struct {
	id, scene string
	filters   []string
	film      string
	out       string  // "" for the season's pattern, "-" for no scan
	guess     float64 // stops where the key has none
	shake     bool
}

// subjects are in the order of the notebook, but that those of one scene stay together.
var subjects = []subject{
	{id: "2026-10-04 1A", scene: "kiln"},
	{id: "2026-10-04 1B", scene: "kiln", filters: []string{"8"}},
	{id: "2026-10-04 2A", scene: "kiln", filters: []string{"25"}, shake: true},
	{id: "2026-10-04 2B", scene: "kiln"},
	{id: "2026-10-04 3A", scene: "kiln", filters: []string{"11"}},
	{id: "2026-10-04 3B", scene: "kiln", filters: []string{"21"}},
	{id: "2026-10-04 4A", scene: "mouth"},
	{id: "2026-10-04 4B", scene: "mouth"},
	{id: "2026-10-04 5A", scene: "mouth"},
	{id: "2026-10-04 5B", scene: "stack", filters: []string{"25", "pol"}, out: "2026-10-04-5B.png"},
	{id: "2026-10-04 6A", scene: "stack", filters: []string{"25"}, film: "ortho"},
	{id: "2026-10-04 6B", scene: "stack", filters: []string{"8"}, film: "ortho"},
	{id: "2026-10-25 1A", scene: "shed"},
	{id: "2026-10-25 1B", scene: "shed"},
	{id: "2026-10-25 2A", scene: "shed", filters: []string{"8"}},
	{id: "2026-10-25 2B", scene: "shed", filters: []string{"8"}, guess: 1},
	{id: "2026-10-25 6A", scene: "shed", guess: .2}, // the planted orphan: no sheet has it
	{id: "2026-10-25 3A", scene: "thumbprint", out: "thumbprint.tif"},
	{id: "2026-10-25 3B", scene: "bench", film: "ortho"},
	{id: "2026-10-25 4A", scene: "bench", film: "ortho", out: "-"},
	{id: "2026-10-25 4B", scene: "post", film: "ortho", out: "2026-10-25-4B.png"},
	{id: "2026-10-25 5A", scene: "post", film: "ortho", filters: []string{"8"}},
	{id: "2026-10-25 5B", out: "-"},
	{id: "2026-11-07 1A", scene: "wharf"},
	{id: "2026-11-07 1B", scene: "wharf", filters: []string{"8"}},
	{id: "2026-11-07 2B", scene: "wharf", filters: []string{"8"}},
	{id: "2026-11-07 3A", scene: "wharf", filters: []string{"21"}},
	{id: "2026-11-07 2A", scene: "wharf", filters: []string{"21", "pol"}},
	{id: "2026-11-07 3B", scene: "footbridge"},
	{id: "2026-11-07 4A", scene: "footbridge"},
	{id: "2026-11-07 4B", scene: "lock"},
	{id: "2026-11-07 5A", scene: "lock", out: "lock-gate.tif"},
	{id: "2026-11-07 2A'2", scene: "lock", out: "-"},
	{id: "2026-11-07 5B", scene: "poplars"},
	{id: "2026-11-07 6A", scene: "heron", guess: .1},
}

// frames joins the key of the season with the subjects.
func frames(key io.Reader) ([]Frame, error) {
	stops, err := differences(key)
	if err != nil {
		return nil, err
	}
	var list []Frame
	byID := map[string]*Frame{}
	for _, s := range subjects {
		f := s.frame(stops)
		byID[s.id] = &f
		if s.out != "-" {
			list = append(list, f)
		}
	}
	for i := range list {
		// The second exposure has no scan of its own: the key calls it 2A'2, the film is 2A's.
		list[i].Again = byID[list[i].ID+"'2"]
	}
	return list, nil
}

func (s subject) frame(stops map[string]float64) Frame {
	f := Frame{ID: s.id, Scene: s.scene, Filters: s.filters, Film: s.film, Out: s.out, Shake: s.shake}
	if f.Film == "" {
		f.Film = "pan"
	}
	// A guess adds to the key: a bracket is off on purpose, which the key does not count.
	d, known := stops[s.id]
	if known {
		f.Stops = d
	}
	f.Stops += s.guess
	if f.Out == "" {
		f.Out = s.id[:10] + "-" + s.id[11:] + ".jpg"
	} else {
		f.Long = 520
	}
	return f
}

// differences reads the key's column of stops by id. A sheet without an image has NaN; one that
// is only unchecked is left out.
func differences(key io.Reader) (map[string]float64, error) {
	rows, err := csv.NewReader(key).ReadAll()
	if err != nil {
		return nil, err
	}
	found := map[string]float64{}
	for _, row := range rows[min(1, len(rows)):] {
		if row[1] == "no-image" {
			found[row[0]] = math.NaN()
		}
		if row[2] == "" {
			continue
		}
		if found[row[0]], err = strconv.ParseFloat(row[2], 64); err != nil {
			return nil, fmt.Errorf("key, sheet %s: %w", row[0], err)
		}
	}
	return found, nil
}

// scenes holds each subject by name. A scene is built when it is looked at.
var scenes = map[string]func() *Scene{
	"kiln": kiln, "mouth": mouth, "stack": stack,
	"shed": shed, "thumbprint": thumbprint, "bench": bench, "post": post,
	"wharf": wharf, "footbridge": footbridge, "lock": lock, "poplars": poplars, "heron": heron,
}

// views keeps the last scenes looked at: sheets of one scene follow one another, and each
// takes seconds to trace.
var views = map[string]*View{}

// view traces a scene, or finds it traced already.
func view(scene string, polarised bool) *View {
	name := scene
	if polarised {
		name += " pol"
	}
	if v, ok := views[name]; ok {
		return v
	}
	if len(views) > 5 {
		clear(views)
	}
	s := scenes[scene]()
	if polarised {
		s.polarise()
	}
	long, short := gate()
	views[name] = look(s, long, short)
	return views[name]
}
