package main

import (
	"context"
	"fmt"
	"io"
	"os/signal"
	"runtime"
	"syscall"
	"time"

	"notchbook/cmd/notchbook/desk"
	"notchbook/cmd/notchbook/disk"
	"notchbook/compile/query"
	"notchbook/compile/record"
	"notchbook/render/html"
)

// deskCommand shows the record live beside the scanner.
type deskCommand struct {
	Path string `arg:"" name:"path" help:"Folder of the season, or one notebook of it."`
	audience
}

// quiet is how long a folder must be left alone before it is read again: longer
// than an editor takes to save, shorter than a glance takes from the editor to
// the page.
const quiet = 150 * time.Millisecond

// interrupted ends with the terminal's Ctrl-C, or as the test says.
func (t terminal) interrupted() (context.Context, context.CancelFunc) {
	if t.until != nil {
		return context.WithCancel(t.until)
	}
	return signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
}

// followed is a season whose changes are told until the terminal is interrupted.
type followed struct {
	ctx     context.Context
	folder  *disk.Season
	changes <-chan struct{}
	close   func()
}

// follow opens the season of a path and follows it.
func (t terminal) follow(path string) (*followed, error) {
	folder, err := disk.Open(path)
	if err != nil {
		return nil, err
	}
	ctx, stop := t.interrupted()
	f := &followed{ctx: ctx, folder: folder, close: func() { stop(); folder.Close() }}
	if f.changes, err = folder.Changes(ctx, quiet); err != nil {
		f.close()
		return nil, err
	}
	return f, nil
}

// Run shows the record until it is interrupted.
func (c *deskCommand) Run(t terminal) error {
	if isStream(c.Path) {
		return fmt.Errorf("%s: the desk follows the files of a folder; a stream is none", c.Path)
	}
	f, err := t.follow(c.Path)
	if err != nil {
		return err
	}
	defer f.close()
	return desk.Serve(f.ctx, desk.Options{
		Build:   func() (*desk.Edition, error) { return edition(c.Path, c.audience, t) },
		Changes: f.changes,
		Open:    func(scan string) (io.ReadSeekCloser, error) { return openScan(f.folder, scan) },
		Ready: func(address string) {
			fmt.Fprintf(t.out, "the record lies open at %s\nit changes when a notebook is saved; stop with Ctrl-C\n", address)
		},
		Failed: t.complain,
	})
}

// edition makes the record in memory.
func edition(path string, a audience, t terminal) (*desk.Edition, error) {
	r, err := a.read([]string{path}, nil)
	if err != nil {
		return nil, err
	}
	defer r.close()
	r.problems(t)
	p := newProgress(t)
	r.prepare(p)
	p.done()
	defer r.withCache()()
	season, _ := r.compile()
	season.Find = query.Index(season)
	e := desk.NewEdition()
	for _, scan := range season.Scans {
		if scan.State == record.Present || scan.State == record.Orphan {
			e.Show(scan.Path)
		}
	}
	return e, html.Write(e, season, html.Options{
		Generator: "notchbook " + number, Picture: r.picture, View: r.view, Parallel: runtime.GOMAXPROCS(0), Live: desk.Script,
	})
}

// scanFile is a scan of the season as a browser reads it.
type scanFile struct {
	*io.SectionReader
	io.Closer
}

func openScan(folder *disk.Season, name string) (io.ReadSeekCloser, error) {
	s, err := folder.OpenScan(name)
	if err != nil {
		return nil, err
	}
	return scanFile{io.NewSectionReader(s, 0, s.Size), s}, nil
}
