package pdf

import (
	"bytes"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"sync"
	"sync/atomic"

	"github.com/klauspost/compress/zlib"

	"notchbook/lang/pattern"
)

// The streams of the pages
//
// The library keeps every page as it was drawn until the book is done, then packs
// one after the other, with a packer made for each. Here the pen keeps what it
// draws, and a page to which nothing more can be added is packed at once, beside
// the drawing of the next. The library makes all else of the file: the objects,
// the bookmarks, the fonts and the pictures. It is called for these, what it writes
// into the pages by itself is dropped, and when it hands over the file, bind puts
// the packed pages and their links in, and the attachments behind. Fonts and pictures are called F0, F1, … and I0, I1, … in the
// pages instead of by forty letters each.

// leaf is the stream of one page, and its links.
type leaf struct {
	links  []byte
	drawn  []byte // nil once it is packed
	packed []byte
}

// pack packs the leaf for good.
func (l *leaf) pack() {
	p := packers.Get().(*packer)
	defer packers.Put(p)
	p.out.Reset()
	p.Reset(&p.out)
	p.Write(l.drawn)
	p.Close()
	l.drawn, l.packed = nil, bytes.Clone(p.out.Bytes())
}

// packer packs one leaf after the other, in the same memory.
type packer struct {
	*zlib.Writer
	out bytes.Buffer
}

var packers = sync.Pool{New: func() any {
	w, _ := zlib.NewWriterLevel(nil, zlib.DefaultCompression) // fails for other levels only
	return &packer{Writer: w}
}}

// sheaf is all leaves of a file, by the number of their pages less one.
type sheaf struct {
	leaves   []*leaf
	attached []*attachment
	work     sync.WaitGroup // leaves that are being packed
	busy     atomic.Int32   // how many of them
}

// packBeside has a leaf packed beside other work; the pen does it itself where too
// many wait for that, since they take much memory.
func (s *sheaf) packBeside(l *leaf) {
	if s.busy.Add(1) > 8 {
		l.pack()
		s.busy.Add(-1)
		return
	}
	s.work.Go(func() { l.pack(); s.busy.Add(-1) })
}

// output writes the file that the library has made, with the leaves in it.
func (d *pen) output(w io.Writer) error {
	d.settle()
	d.sheaf.work.Wait()
	for _, l := range d.sheaf.leaves {
		if l.packed == nil {
			d.sheaf.packBeside(l)
		}
	}
	d.sheaf.work.Wait()
	if err := d.pdf.Error(); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	var file bytes.Buffer
	err := d.pdf.Output(&file)
	if err == nil {
		err = bind(w, file.Bytes(), d.sheaf)
	}
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	return nil
}

// What bind looks for in the library's file.
var (
	tableAt   = pattern.Later(`startxref\n(\d+)\n%%EOF\s*$`)
	tableLine = pattern.Later(`(?m)^(\d{10}) 00000 n $`)
	pageTree  = pattern.Later(`^1 0 obj\n<</Type /Pages\n/Kids \[([^\]]*)\]`)
	kid       = pattern.Later(`(\d+) 0 R`)
	faceName  = pattern.Later(`/F[0-9a-f]{40}\b`)
	imageName = pattern.Later(`/I[0-9a-f]{40}\b`)
)

const resources = "2 0 obj\n" // of all pages, by the library

// bind writes the file with the leaves as its pages' streams.
func bind(w io.Writer, file []byte, s *sheaf) error {
	objects, end, err := objectsOf(file)
	if err != nil {
		return err
	}
	streams, err := streamsOf(objects, len(s.leaves))
	if err != nil {
		return err
	}
	names := namesIn(objects, streams)
	out := &counting{w: w}
	out.write(file[:objects[0].at])
	offsets := make([]int, len(objects)+1)
	for i := range objects {
		o := &objects[i]
		offsets[o.number] = out.n
		page, stream := streams[o.number]
		under, isPage := streams[o.number+1]
		switch {
		case stream:
			fmt.Fprintf(out, "%d 0 obj\n<</Filter /FlateDecode /Length %d>>\nstream\n", o.number, len(s.leaves[page].packed))
			out.write(s.leaves[page].packed)
			out.write([]byte("\nendstream\nendobj\n"))
		case isPage && len(s.leaves[under].links) > 0:
			if err := writeLinked(out, o.text, s.leaves[under].links); err != nil {
				return err
			}
		case bytes.HasPrefix(o.text, []byte(resources)):
			out.write(renamed(o.text, names))
		case o.number == len(objects) && len(s.attached) > 0: // the catalog
			catalog, err := named(o.text, len(s.attached), len(offsets))
			if err != nil {
				return err
			}
			out.write(catalog)
		default:
			out.write(o.text)
		}
	}
	for _, a := range s.attached {
		at := a.writeObjects(out, len(offsets))
		offsets = append(offsets, at[:]...)
	}
	table := out.n
	fmt.Fprintf(out, "xref\n0 %d\n0000000000 65535 f \n", len(offsets))
	for _, at := range offsets[1:] {
		fmt.Fprintf(out, "%010d 00000 n \n", at)
	}
	size := fmt.Appendf(nil, "/Size %d\n", len(objects)+1)
	out.write(bytes.Replace(file[end.trailer:end.number], size, fmt.Appendf(nil, "/Size %d\n", len(offsets)), 1))
	fmt.Fprintf(out, "%d\n%%%%EOF\n", table)
	return out.err
}

// pageObject is the number that the library gives to the object of a page.
func pageObject(page int) int { return 1 + 2*page }

// writeLinked writes a page's object with its links.
func writeLinked(out *counting, page, links []byte) error {
	at := bytes.Index(page, pageBegins)
	if at < 0 {
		return fmt.Errorf("the library's page is none: %.40q", page)
	}
	at += len(pageBegins)
	for _, part := range [...][]byte{page[:at], []byte("/Annots [\n"), links, []byte("]\n"), page[at:]} {
		out.write(part)
	}
	return nil
}

var pageBegins = []byte("<</Type /Page\n")

// object is one object of the file, from its number to its end.
type object struct {
	number, at int
	text       []byte
}

// tail is where the file's trailer begins, and the number at its very end.
type tail struct{ trailer, number int }

// objectsOf cuts the file into its objects, in their order in the file.
func objectsOf(file []byte) ([]object, tail, error) {
	at := tableAt().FindSubmatchIndex(file[max(0, len(file)-64):])
	if at == nil {
		return nil, tail{}, fmt.Errorf("the library's file has no end")
	}
	number := max(0, len(file)-64) + at[2]
	table, err := strconv.Atoi(string(file[number : max(0, len(file)-64)+at[3]]))
	if err != nil || table > number {
		return nil, tail{}, fmt.Errorf("the library's file has no table")
	}
	trailer := bytes.LastIndex(file[:number], []byte("trailer\n"))
	if trailer < table {
		return nil, tail{}, fmt.Errorf("the library's file has no trailer")
	}
	var all []object
	for _, row := range tableLine().FindAllSubmatch(file[table:trailer], -1) {
		at, _ := strconv.Atoi(string(row[1]))
		all = append(all, object{number: len(all) + 1, at: at})
	}
	slices.SortFunc(all, func(a, b object) int { return a.at - b.at })
	for i := range all {
		to := table
		if i+1 < len(all) {
			to = all[i+1].at
		}
		if all[i].at > to || !bytes.HasPrefix(file[all[i].at:to], fmt.Appendf(nil, "%d 0 obj\n", all[i].number)) {
			return nil, tail{}, fmt.Errorf("the library's file has no object %d", all[i].number)
		}
		all[i].text = file[all[i].at:to]
	}
	return all, tail{trailer, number}, nil
}

// streamsOf says which object is the stream of which page. The library writes
// each right behind its page.
func streamsOf(objects []object, pages int) (map[int]int, error) {
	streams := map[int]int{}
	for _, o := range objects {
		if tree := pageTree().FindSubmatch(o.text); tree != nil {
			for i, k := range kid().FindAllSubmatch(tree[1], -1) {
				if n, _ := strconv.Atoi(string(k[1])); n == pageObject(i+1) {
					streams[n+1] = i
				}
			}
		}
	}
	if len(streams) != pages {
		return nil, fmt.Errorf("the library has made %d pages of %d", len(streams), pages)
	}
	return streams, nil
}

// namesIn says what the library's names are called in the leaves: fonts and
// pictures are numbered as they come in what it has written into the pages.
func namesIn(objects []object, streams map[int]int) map[string]string {
	names := map[string]string{}
	counts := map[byte]int{}
	for _, o := range objects {
		if _, ok := streams[o.number]; !ok {
			continue
		}
		for _, form := range []*regexp.Regexp{faceName(), imageName()} {
			for _, name := range form.FindAll(o.text, -1) {
				if names[string(name)] == "" {
					names[string(name)] = fmt.Sprintf("/%c%d", name[1], counts[name[1]])
					counts[name[1]]++
				}
			}
		}
	}
	return names
}

// renamed calls fonts and pictures as the leaves do.
func renamed(text []byte, names map[string]string) []byte {
	for _, form := range []*regexp.Regexp{faceName(), imageName()} {
		text = form.ReplaceAllFunc(text, func(name []byte) []byte {
			if short := names[string(name)]; short != "" {
				return []byte(short)
			}
			return name
		})
	}
	return text
}

// counting counts what is written and keeps the first fault.
type counting struct {
	w   io.Writer
	n   int
	err error
}

func (c *counting) write(p []byte) { c.Write(p) }

func (c *counting) Write(p []byte) (int, error) {
	if c.err == nil {
		_, c.err = c.w.Write(p)
	}
	c.n += len(p)
	return len(p), c.err
}
