// Command ours reads scans as a record does, for the bench beside it: header,
// fixity and both thumbnails, which it writes into a folder; then its peak memory.
//
//	ours FOLDER FILE...
package main

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"syscall"

	"notchbook/compile/scan"
)

func main() {
	if len(os.Args) < 3 {
		fmt.Fprintln(os.Stderr, "usage: ours FOLDER FILE...")
		os.Exit(2)
	}
	debug.SetGCPercent(20) // as the command has it
	for _, name := range os.Args[2:] {
		if err := read(os.Args[1], name); err != nil {
			fmt.Fprintf(os.Stderr, "%s: %v\n", name, err)
			os.Exit(1)
		}
	}
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err == nil {
		fmt.Fprintf(os.Stderr, "peak memory %d MB\n", used.Maxrss>>10) // KB on Linux
	}
}

func read(folder, name string) error {
	file, err := os.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	stat, err := file.Stat()
	if err != nil {
		return err
	}
	info, err := scan.Read(file, stat.Size(), scan.Options{
		Edges: []int{scan.ListEdge, scan.ViewerEdge}, Parallel: 3,
	})
	if err != nil {
		return err
	}
	for _, t := range info.Thumbnails {
		out := filepath.Join(folder, fmt.Sprintf("%s-%d.jpg", filepath.Base(name), t.Edge))
		if err := os.WriteFile(out, t.JPEG, 0o644); err != nil {
			return err
		}
	}
	fmt.Printf("%s  %s\n", info.SHA256, name)
	return nil
}
