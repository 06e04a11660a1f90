package main

import (
	"io"
	"runtime/debug"
	"time"

	"notchbook/cmd/notchbook/disk"
	"notchbook/cmd/notchbook/lsp"
	"notchbook/compile"
)

// lspCommand speaks with an editor over standard input and output.
type lspCommand struct{}

// pause is how long it takes at most until the next of the changes that come in one
// go, so that they are one check; a hand is slower.
const pause = 5 * time.Millisecond

// Run serves one editor until it leaves.
func (c *lspCommand) Run(t terminal) error {
	// Every key makes a season and throws the last one away: collected less often,
	// a third of the time goes to the writer instead.
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	return lsp.Serve(t.in, closer{t.out}, lsp.Options{Open: openFolder, Version: number, Pause: pause})
}

// closer makes of standard output what the connection closes at its end.
type closer struct{ io.Writer }

func (closer) Close() error { return nil }

// seasonFolder is a season's folder as an editor's server asks for it.
type seasonFolder struct{ *reading }

func openFolder(dir string) (lsp.Folder, error) {
	folder, err := disk.Open(dir)
	if err != nil {
		return nil, err
	}
	r := &reading{folder: folder, list: folder.List(), quick: true, scanned: scanned{looked: map[string]compile.Scan{}}}
	return seasonFolder{r}, nil
}

func (f seasonFolder) Notebooks() []string  { return f.list.Notebooks }
func (f seasonFolder) World() compile.World { return f.world() }
func (f seasonFolder) Close()               { f.close() }
