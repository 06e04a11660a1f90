package main

import (
	"os"
	"path/filepath"
	"sync"
	"testing"

	"notchbook/cmd/notchbook/program"
	"notchbook/compile/record"
)

// What many tests only read is made once: the shipped season with its record, its
// book through other programs' eyes, and the hard notebook's. A test that writes into
// a folder makes one of its own.

// sharedDir is the folder in which they lie until the tests are over.
var sharedDir string

// once makes something for the first test that asks for it. When that one fails to
// make it, the others say where the fault is.
type once[T any] struct {
	once sync.Once
	made bool
	it   T
}

func (o *once[T]) get(t testing.TB, do func() T) T {
	t.Helper()
	o.once.Do(func() {
		o.it = do()
		o.made = true
	})
	if !o.made {
		t.Fatal("what the tests share could not be made: see the first of them that failed")
	}
	return o.it
}

var shipped, hard struct {
	dir    once[string]
	book   once[book]
	season once[*record.Season]
}

// compiledSeason is the folder of the shipped season and its record.
func compiledSeason(t testing.TB) (dir string) {
	t.Helper()
	return shipped.dir.get(t, func() string {
		dir := filepath.Join(sharedDir, "shipped", "season")
		program.AldermoorIn(t, dir)
		must(t, "compile", dir)
		return dir
	})
}

// compiledHard is that of the hard notebook.
func compiledHard(t testing.TB) (dir string) {
	t.Helper()
	return hard.dir.get(t, func() string {
		dir := filepath.Join(sharedDir, "hard", "season")
		fill(t, dir, hardNotebook())
		must(t, "compile", dir)
		return dir
	})
}

// compiledBook is the shipped season's folder, and its book.
func compiledBook(t testing.TB) (dir string, b book) {
	t.Helper()
	readersOfBooks(t)
	dir = compiledSeason(t)
	return dir, shipped.book.get(t, func() book { return readBook(t, filepath.Join(dir, "record", pdfName)) })
}

// shippedRecord is what the shipped season's record must say.
func shippedRecord(t testing.TB) *record.Season {
	t.Helper()
	return shipped.season.get(t, func() *record.Season { return recordOf(t, compiledSeason(t)) })
}

// readersOfBooks skips a test where the programs that read books are not there.
func readersOfBooks(t testing.TB) {
	t.Helper()
	for _, name := range []string{"pdftotext", "qpdf"} {
		tool(t, name, "the PDF is not read by other programs")
	}
}

// keep makes the folder for what tests share; forget removes it.
func keep() {
	var err error
	if sharedDir, err = os.MkdirTemp("", "notchbook"); err != nil {
		panic(err)
	}
}

func forget() { os.RemoveAll(sharedDir) }
