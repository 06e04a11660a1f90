package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"time"
	"unicode"

	"notchbook/cmd/notchbook/disk"
	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/compile/scan"
)

// scanned is what is known of the scans of a season. Of a scan that was read
// once, as it is now, the cache knows all; so a season is read in full the first
// time, and a run that was interrupted goes on where it was.
type scanned struct {
	looked    map[string]compile.Scan
	thumbs    map[string][]byte // of the list; those of the viewer stay in the cache
	negatives map[string]bool
	cache     *disk.Cache // nil where none can be had
	afresh    bool        // what the cache holds is written, not believed
	taken     atomic.Int64
	parallel  int                           // pieces of one scan side by side, where there are fewer scans than processors
	reread    func(path string, size int64) // told of what the cache does not know; for tests
}

// kept is what the cache holds of a scan, and by what it is known to be the
// same still.
type kept struct {
	Form     int // of this very structure and of how pictures are made
	Path     string
	Bytes    int64
	Modified int64 // nanoseconds since 1970
	Head     string
	Negative bool

	Scan         compile.Scan
	List, Viewer []byte `json:"-"` // JPEG
	Lengths      [2]int // of these
}

// keptForm changes whenever what is kept would come out otherwise.
const keptForm = 3

// encode is a line of JSON, and behind it the pictures as they are.
func (k kept) encode() ([]byte, error) {
	k.Lengths = [2]int{len(k.List), len(k.Viewer)}
	line, err := json.Marshal(k)
	return slices.Concat(line, []byte("\n"), k.List, k.Viewer), err
}

// decodeKept reads it again; what is damaged is not understood.
func decodeKept(data []byte) (k kept, ok bool) {
	line, pictures, _ := bytes.Cut(data, []byte("\n"))
	if json.Unmarshal(line, &k) != nil {
		return kept{}, false
	}
	list, viewer := k.Lengths[0], k.Lengths[1]
	if list < 0 || viewer < 0 || list > len(pictures) || viewer != len(pictures)-list {
		return kept{}, false
	}
	if list > 0 {
		k.List = pictures[:list]
	}
	if viewer > 0 {
		k.Viewer = pictures[list:]
	}
	return k, true
}

func keptKey(path string) string {
	sum := sha256.Sum256([]byte(path))
	return hex.EncodeToString(sum[:16])
}

// look says what was found out about a scan, and finds it out if nobody has.
func (r *reading) look(path string) compile.Scan {
	if s, ok := r.looked[path]; ok {
		return s
	}
	s := r.read(path).Scan
	r.looked[path] = s
	return s
}

// read finds out about one scan: from the cache, or from all of the file.
func (r *reading) read(path string) kept {
	file, err := r.folder.OpenScan(path)
	switch {
	case errors.Is(err, disk.Missing):
		return kept{Scan: compile.Scan{State: record.Missing}}
	case errors.Is(err, disk.Outside):
		return kept{Scan: compile.Scan{State: record.Outside}}
	case err != nil:
		return kept{Scan: compile.Scan{State: record.Unreadable, Why: why(err)}}
	}
	defer file.Close()
	if r.quick {
		info, err := scan.Read(file, file.Size, scan.Options{HeadOnly: true})
		return kept{Scan: known(info, err)}
	}
	now := kept{Form: keptForm, Path: path, Bytes: file.Size, Modified: file.ModTime.UnixNano(),
		Head: headOf(file), Negative: r.negatives[path]}
	if old, ok := r.recall(now); ok {
		r.taken.Add(file.Size)
		return old
	}
	if r.reread != nil {
		r.reread(path, file.Size)
	}
	options := scan.Options{Edges: []int{scan.ListEdge, scan.ViewerEdge}, Negative: now.Negative, Parallel: r.parallel}
	info, err := scan.Read(&counted{file, &r.taken}, file.Size, options)
	now.Scan = known(info, err)
	if len(info.Thumbnails) == 2 {
		now.List, now.Viewer = info.Thumbnails[0].JPEG, info.Thumbnails[1].JPEG
	}
	r.remember(now, err)
	return now
}

func known(info scan.Info, err error) compile.Scan {
	s := compile.Scan{
		State: record.Present, Format: string(info.Format), Width: info.Width, Height: info.Height,
		Depth: info.Depth, Bytes: info.Bytes, SHA256: info.SHA256,
	}
	var bad *scan.Error
	if errors.As(err, &bad) {
		s.State, s.Why = record.Unreadable, bad.Sentence
	}
	return s
}

// headOf is the digest of a scan's first and last bytes, where headers stand:
// size and time may be the same by chance, or be set so.
func headOf(file *disk.Scan) string {
	const ends = 8 << 10
	hash := sha256.New()
	io.Copy(hash, io.NewSectionReader(file, 0, ends))
	io.Copy(hash, io.NewSectionReader(file, max(0, file.Size-ends), ends))
	return hex.EncodeToString(hash.Sum(nil))
}

// recall gives what the cache knows of a file, if it is the same file still.
func (r *reading) recall(now kept) (kept, bool) {
	if r.cache == nil || r.afresh {
		return kept{}, false
	}
	old, ok := decodeKept(r.cache.Get(keptKey(now.Path)))
	if !ok {
		return kept{}, false
	}
	same := old.Form == now.Form && old.Path == now.Path && old.Bytes == now.Bytes && old.Modified == now.Modified &&
		old.Head == now.Head && old.Negative == now.Negative
	return old, same
}

// remember keeps what was found out; a disk that failed may not fail again.
func (r *reading) remember(now kept, err error) {
	var bad *scan.Error
	if r.cache == nil || errors.As(err, &bad) && bad.Kind == scan.Unreadable {
		return
	}
	if data, err := now.encode(); err == nil {
		r.cache.Put(keptKey(now.Path), data)
	}
}

// counted counts what is read of a file.
type counted struct {
	*disk.Scan
	taken *atomic.Int64
}

func (c *counted) ReadAt(p []byte, off int64) (int, error) {
	n, err := c.Scan.ReadAt(p, off)
	c.taken.Add(int64(n))
	return n, err
}

// mostAtOnce bounds the scans that are read side by side, whatever the number of
// processors: each takes some megabytes, and disks gain nothing by more.
const mostAtOnce = 4

// prepare reads all scans of the season, side by side, with their pictures.
func (r *reading) prepare(p *progress) {
	scans := r.list.Scans
	if preview := r.needsPreview(); preview != nil {
		r.negatives = findNegatives(preview)
		scans = append(slices.Clip(scans), r.notListed(preview)...)
	}
	if cache, err := r.folder.Cache(); err == nil {
		r.cache = cache
		defer func() { r.cache = nil; cache.Close() }()
	}
	// The pictures of scans are large and soon done with: collected earlier than
	// is usual, they keep the memory of a season below 64 MB.
	defer debug.SetGCPercent(debug.SetGCPercent(20))
	if len(scans) < runtime.GOMAXPROCS(0) {
		r.parallel = 3
	}
	meter, tick := r.newMeter(scans), time.NewTicker(200*time.Millisecond)
	defer tick.Stop()
	results := r.readAll(scans)
	for {
		select {
		case <-tick.C:
			p.say(meter.text(r.taken.Load()))
		case k, more := <-results:
			if !more {
				r.sweep()
				return
			}
			r.looked[k.Path] = k.Scan
			if k.List != nil {
				r.thumbs[k.Path] = bytes.Clone(k.List) // which may lie beside the large one
			}
			meter.done++
		}
	}
}

// readAll reads all scans and gives what it finds, in the order in which it is
// found.
func (r *reading) readAll(scans []string) <-chan kept {
	paths, results := make(chan string), make(chan kept)
	var workers sync.WaitGroup
	for range min(mostAtOnce, runtime.GOMAXPROCS(0)) {
		workers.Go(func() {
			for path := range paths {
				k := r.read(path)
				k.Path = path
				results <- k
			}
		})
	}
	go func() {
		for _, path := range scans {
			paths <- path
		}
		close(paths)
		workers.Wait()
		close(results)
	}()
	return results
}

// sweep drops from the cache what belongs to scans that are no more, where all
// scans of the folder were looked at.
func (r *reading) sweep() {
	if r.cache == nil || r.folder.File != "" {
		return
	}
	keys := map[string]bool{}
	for path := range r.looked {
		keys[keptKey(path)] = true
	}
	r.cache.Sweep(keys)
}

// picture hands the writers of the record a scan's picture, or nothing.
func (r *reading) picture(path string, _ int) ([]byte, error) { return r.thumbs[path], nil }

// view hands out a scan's large picture: from the cache where there is one, else
// from the scan once more, because those of a season would fill the memory.
func (r *reading) view(path string) ([]byte, error) { return r.read(path).Viewer, nil }

// turned reports whether a scan's pictures are positives made of a negative.
func (r *reading) turned(path string) bool { return r.negatives[path] }

// withCache opens the cache for what is read after prepare; what it returns
// closes it.
func (r *reading) withCache() func() {
	cache, err := r.folder.Cache()
	if err != nil {
		return func() {}
	}
	r.cache = cache
	return func() { r.cache = nil; cache.Close() }
}

// needsPreview compiles the notes beforehand where something of the scans must
// be known before they are read: which are negatives, which lie elsewhere.
func (r *reading) needsPreview() *record.Season {
	if !r.folder.Allowed() && !r.mentions("negative") {
		return nil
	}
	return r.preview()
}

// findNegatives gives the scans that the notes call negatives: by a `scan` line
// of a sheet, or by the pattern that holds for it.
func findNegatives(season *record.Season) map[string]bool {
	negatives, pattern := map[string]bool{}, false
	for _, o := range season.Outings {
		for _, e := range o.Entries {
			if e.Line != nil && e.Line.Word == "scan" {
				pattern = saysNegative(e.Line.Text)
			}
		}
		for _, sheet := range o.Sheets {
			negative := pattern
			for _, line := range sheet.Lines {
				if line.Word == "scan" {
					negative = negative || saysNegative(line.Text)
				}
			}
			for _, s := range sheet.Scans {
				negatives[s.Path] = negatives[s.Path] || negative
			}
		}
	}
	return negatives
}

// mentions tells whether a word occurs in the notebooks at all, which is quickly
// known and nearly always answers the question.
func (r *reading) mentions(word string) bool {
	for _, name := range append(r.list.Notebooks, r.names...) {
		text, err := r.folder.ReadFile(name)
		if err == nil && strings.Contains(strings.ToLower(string(text)), word) {
			return true
		}
	}
	return strings.Contains(strings.ToLower(string(r.stdin)), word)
}

func saysNegative(text string) bool {
	for word := range strings.FieldsFuncSeq(text, func(c rune) bool { return c == ',' || unicode.IsSpace(c) }) {
		if strings.EqualFold(word, "negative") || strings.EqualFold(word, "negatives") {
			return true
		}
	}
	return false
}
