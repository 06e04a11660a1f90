package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"notchbook/cmd/notchbook/disk"
	"notchbook/compile/record"
	"notchbook/lang/diag"
	"notchbook/render/bag"
	"notchbook/render/data"
	"notchbook/render/pdf"
)

// archiveCommand puts a season into a bag (RFC 8493), or checks one.
type archiveCommand struct {
	Paths        []string `arg:"" optional:"" name:"path" help:"Notebooks or folders of notebooks; with --verify, the bag."`
	Output       string   `short:"o" name:"output" placeholder:"BAG" help:"Folder for the bag. Nothing may be there yet: a bag takes no other's place."`
	Record       string   `placeholder:"DIR" help:"Folder of the record whose sums tell what has changed since. Default: record, in the season's folder."`
	WithoutScans bool     `help:"Leave the scans out; a list with their digests stands for them."`
	Verify       bool     `help:"Check the bag at PATH completely, whoever made it: what has changed, is missing or extra, or is not as RFC 8493 demands. Exit status 1 when it is not valid."`
	Strict       bool     `help:"With --verify: warnings count as errors for the exit status."`
	Format       string   `enum:"text,json" default:"text" help:"With --verify: how the answer is written: text or json."`
	door
	audience
}

// The payload's folders: the season as it lies on the disk, and the record that
// was compiled from it.
const (
	bagSeason = "season"
	bagRecord = "record"
	bagSums   = "scans.sha256" // instead of the scans
	upToIt    = "../" + bagSeason + "/"
)

// Validate refuses what does not go together, before anything is read.
func (c *archiveCommand) Validate() error {
	switch {
	case c.Verify && (len(c.Paths) != 1 || c.Output != ""):
		return errors.New("--verify BAG goes with one bag, without a season and without -o")
	case c.Verify:
		return nil
	case len(c.Paths) == 0 || c.Output == "":
		return errors.New("archive needs a season and -o BAG, or --verify BAG")
	case c.Strict || c.Format != "text":
		return errors.New("--strict and --format go with --verify BAG")
	case slices.ContainsFunc(c.Paths, isStream):
		return errors.New("a bag holds files; a stream is none")
	}
	return nil
}

// Run makes the bag, all of it or nothing, or checks one.
func (c *archiveCommand) Run(t terminal) error {
	if c.Verify {
		return c.verify(t)
	}
	date, err := sourceDate(os.Getenv("SOURCE_DATE_EPOCH"))
	if err != nil {
		return err
	}
	r, err := c.audience.read(c.Paths, t.in)
	if err != nil {
		return err
	}
	defer r.close()
	if r.folder.Together() {
		return errors.New("a bag holds one folder: name the one that holds them all")
	}
	if err := c.open(r); err != nil {
		return err
	}
	out, err := disk.NewBag(filepath.Clean(c.Output))
	if err != nil {
		return err
	}
	defer out.Abort(false)
	r.problems(t)
	a := &archiving{archiveCommand: c, t: t, r: r, out: out, bag: bag.NewWriter(out), here: map[string]bool{}, told: map[string]bool{}, p: newProgress(t)}
	err = a.run(date)
	a.p.done()
	if err != nil {
		return a.fail(err)
	}
	a.say()
	return nil
}

// archiving is a bag being made of a season.
type archiving struct {
	*archiveCommand
	t      terminal
	r      *reading
	season *record.Season
	out    *disk.Bag
	bag    *bag.Writer
	p      *progress

	here   map[string]bool // files of the season that are in the bag
	told   map[string]bool // files that it was already said of why they are not
	copied amount          // scans
	kept   amount          // of these, taken over from an interrupted run
	more   int             // other files that the prose leads to
	absent int             // scans that the notes name and that are not there
	read   int64           // bytes of scans, for the progress
}

type amount struct {
	files int
	bytes int64
}

func (a *amount) add(bytes int64) { a.files++; a.bytes += bytes }

func (a amount) String() string {
	if a.files == 0 {
		return "no scans"
	}
	return plural(a.files, "scan", "scans") + " of " + bag.Size(a.bytes) // the payload holds the record as well
}

// run fills the bag and gives it its name.
func (a *archiving) run(date time.Time) error {
	a.r.prepare(a.p)
	a.season, _ = a.r.compile()
	if err := sayChanged(a.t, a.r, a.season, a.Record, "compile the record anew and "); err != nil {
		return err
	}
	a.r.sayLeft(a.t, a.season)
	for _, step := range []func() error{a.scans, a.notebooks, a.sidecars, a.others, func() error { return a.record(date) }} {
		if err := step(); err != nil {
			return err
		}
	}
	if err := a.bag.Tag(disk.Marker, disk.BagMarker); err != nil {
		return err
	}
	if err := a.bag.Close(a.info(date)); err != nil {
		return err
	}
	a.p.say("writing to the disk")
	return a.out.Commit()
}

// fail drops the bag. Where the season was at fault, or the place is taken, what
// was copied stays for the next run.
func (a *archiving) fail(err error) error {
	var season *bag.ReadError
	left := a.out.Abort(errors.As(err, &season) || errors.Is(err, disk.Taken))
	if left == "" {
		return err
	}
	return fmt.Errorf("%w; what was copied is in %s, and the next run takes it over", err, left)
}

// bagPath is where a file of the season's folder lies in the payload; a scan that
// lies elsewhere keeps its way there.
func bagPath(name string) (string, bool) {
	inside := path.Join(bagSeason, name)
	ok := filepath.IsLocal(filepath.FromSlash(inside)) && inside != bagSums && inside != bagRecord && !strings.HasPrefix(inside, bagRecord+"/")
	return inside, ok
}

// scans copies the scans, or lists them.
func (a *archiving) scans() error {
	for _, s := range a.season.Scans {
		switch s.State {
		case record.Missing, record.Outside:
			a.absent++
			continue
		}
		a.copied.add(s.Bytes)
		if a.WithoutScans {
			continue
		}
		if err := a.copy(s.Path, s.Bytes, s.SHA256); err != nil {
			return err
		}
	}
	if !a.WithoutScans {
		return nil
	}
	var list bytes.Buffer
	if err := data.Sums(&list, a.season, ""); err != nil {
		return err
	}
	_, err := a.bag.Payload(bagSums, &list)
	return err
}

// copy copies one file of the season, or takes it over from an interrupted run if
// its bytes are those that are known of it; sha256 is "" where they are not.
func (a *archiving) copy(from string, size int64, sha256 string) error {
	name, ok := bagPath(from)
	if !ok {
		return fmt.Errorf("%s lies too far from the season's folder to have a place in the bag", from)
	}
	a.here[from] = true
	kept, err := a.takeOver(name, size, sha256)
	if kept || err != nil {
		return err
	}
	file, err := a.r.folder.OpenScan(from)
	if err != nil {
		return &bag.ReadError{Err: err}
	}
	defer file.Close()
	copied, err := a.bag.Payload(name, &toldReader{io.NewSectionReader(file, 0, file.Size), a})
	if err != nil {
		return err
	}
	if sha256 != "" && copied.SHA256 != sha256 {
		return &bag.ReadError{Err: fmt.Errorf("%s has other bytes than when it was read for the record; notchbook scans --full reads every scan anew", from)}
	}
	return nil
}

func (a *archiving) takeOver(name string, size int64, sha256 string) (bool, error) {
	left, ok := a.out.Left("data/" + name)
	if !ok {
		return false, nil
	}
	defer left.Close()
	if sha256 == "" || left.Size != size {
		return false, nil
	}
	kept, err := a.bag.Kept(name, &toldReader{io.NewSectionReader(left, 0, left.Size), a}, size, sha256)
	if !kept || err != nil {
		return false, err
	}
	a.kept.add(size)
	return true, a.out.Keep("data/" + name)
}

// toldReader tells how much of the scans was read.
type toldReader struct {
	io.Reader
	a *archiving
}

func (r *toldReader) Read(p []byte) (int, error) {
	n, err := r.Reader.Read(p)
	r.a.read += int64(n)
	r.a.p.sometimes(func() string { return "copying the scans: " + bag.Size(r.a.read) })
	return n, err
}

// notebooks copies the notebooks and the kit as they were read, or their copies
// without what is private.
func (a *archiving) notebooks() error {
	for _, n := range a.season.Files() {
		name, ok := bagPath(n.CopyName())
		if !ok {
			return fmt.Errorf("%s has no place in the bag", n.Path)
		}
		if _, err := a.bag.Payload(name, bytes.NewReader(n.Text)); err != nil {
			return err
		}
		a.here[n.CopyName()] = true
	}
	return nil
}

// others copies what else the prose shows or links to, so that no link of the
// record leads nowhere. In a public bag no notes are among it: nobody has looked
// for private remarks in them.
func (a *archiving) others() error {
	left := map[string]bool{}
	for _, s := range a.season.Scans {
		left[s.Path] = true
	}
	for _, n := range a.season.Files() {
		left[n.Path] = true
	}
	for _, name := range linked(a.season) {
		if left[name] || a.here[name] || a.Public && disk.IsNotebook(name) {
			continue
		}
		left[name] = true
		file, err := a.r.folder.OpenScan(name)
		if err != nil {
			if !errors.Is(err, disk.Folder) {
				a.told[name] = true
				a.t.complain(fmt.Errorf("%w; the notes lead to it, and it is not in the bag", a.r.openable(err)))
			}
			continue
		}
		size := file.Size
		file.Close()
		if a.Public && !disk.IsScan(name) {
			a.told[name] = true
			a.t.complain(fmt.Errorf("%s: nobody has looked into it for what is private; it is left out of what is public", name))
			continue
		}
		if err := a.copy(name, size, a.r.looked[name].SHA256); err != nil {
			return err
		}
		a.more++
	}
	return nil
}

// linked is the paths of files that the prose of a season shows or links to.
func linked(s *record.Season) (paths []string) {
	var inlines func([]record.Inline)
	inlines = func(all []record.Inline) {
		for _, in := range all {
			if in.Target.Path != "" {
				paths = append(paths, path.Clean(in.Target.Path))
			}
			inlines(in.Inlines)
		}
	}
	var block func(record.Block)
	block = func(b record.Block) {
		inlines(b.Text)
		for _, inner := range b.Blocks {
			block(inner)
		}
	}
	for _, o := range s.Outings {
		for _, e := range o.Entries {
			if e.Prose != nil {
				block(*e.Prose)
			}
		}
	}
	return paths
}

// sidecars puts beside each scan the sidecar that lies there, or one written from
// the record. In a public bag it is always the latter: what others wrote may say
// what was to be left out.
func (a *archiving) sidecars() error {
	names := sidecarNames(a.season)
	for _, s := range a.season.Scans {
		if s.State == record.Missing || s.State == record.Outside {
			continue
		}
		for _, name := range sidecarsOf(s.Path, names[s.Path]) {
			text, err := a.sidecar(s, name, name == names[s.Path])
			if err != nil {
				return err
			}
			inside, ok := bagPath(name)
			if text == nil || !ok || a.here[name] {
				continue
			}
			if _, err := a.bag.Payload(inside, bytes.NewReader(text)); err != nil {
				return err
			}
			a.here[name] = true
		}
	}
	return nil
}

// sidecarsOf is the names that a scan's sidecar may have, the one we write last.
func sidecarsOf(scan, ours string) []string {
	var names []string
	for _, name := range []string{strings.TrimSuffix(scan, path.Ext(scan)) + ".xmp", scan + ".xmp"} {
		if name != ours {
			names = append(names, name)
		}
	}
	return append(names, ours)
}

// sidecar gives the bytes of a sidecar, nil where there is none.
func (a *archiving) sidecar(s *record.Scan, name string, ours bool) ([]byte, error) {
	text, err := a.r.folder.ReadFile(name)
	switch {
	case err == nil && !a.Public:
		return text, nil
	case err == nil && !data.OwnXMP(text):
		a.told[name] = true
		a.t.complain(fmt.Errorf("%s was not written by notchbook; it is left out of what is public", name))
		return nil, nil
	case err != nil && !errors.Is(err, disk.Missing) && !errors.Is(err, disk.Outside):
		return nil, &bag.ReadError{Err: err}
	case ours && len(s.Sheets) > 0:
		return data.XMP(a.season, s, "notchbook "+number), nil
	}
	return nil, nil
}

// record compiles the record into the bag: all that compile writes.
func (a *archiving) record(date time.Time) error {
	out := &noted{Folder: a.bag.Within(bagRecord)}
	here := func(name string) bool { return a.here[name] }
	if err := writeRecord(out, a.r, a.season, upToIt, here, a.p, pdf.Options{Date: date}); err != nil {
		return err
	}
	text := disk.RecordMarker(out.names)
	return writing(out, disk.Marker, func(w io.Writer) error { _, err := io.WriteString(w, text); return err })
}

// noted is a folder that knows what was written into it.
type noted struct {
	bag.Folder
	names []string
}

func (n *noted) Create(name string) (io.WriteCloser, error) {
	n.names = append(n.names, name)
	return n.Folder.Create(name)
}

// say tells what was done.
func (a *archiving) say() {
	for _, w := range a.bag.Warnings() {
		a.t.complain(errors.New(w))
	}
	if a.absent > 0 {
		a.t.complain(fmt.Errorf("%s that the notes name could not be put into the bag: missing, or outside the season's folder", plural(a.absent, "scan", "scans")))
	}
	if a.kept.files > 0 {
		fmt.Fprintf(a.t.out, "taken over from the run that was interrupted: %s\n", a.kept)
	}
	if a.Public && !a.WithoutScans && a.copied.files > 0 {
		fmt.Fprintln(a.t.out, "the scans carry what cameras and programs wrote into them, names and places too: look before you hand them on")
	}
	what := a.copied.String()
	if a.WithoutScans && a.copied.files > 0 {
		what += ", left out and listed"
	}
	if a.more > 0 {
		what += ", " + plural(a.more, "other file", "other files")
	}
	unclaimed, theirs := a.unclaimed()
	if behind := a.behind(a.r.list.Others); len(behind) > 0 {
		fmt.Fprintln(a.t.out, diag.Clean(fmt.Sprintf("left out, since nothing in the notes leads to them: %s: %s", plural(len(behind), "file", "files"), strings.Join(behind, ", "))))
	}
	if links := a.behind(a.r.list.Links); len(links) > 0 {
		fmt.Fprintln(a.t.out, diag.Clean(fmt.Sprintf("left out, since links are not followed: %s: %s", plural(len(links), "link", "links"), strings.Join(links, ", "))))
	}
	if unclaimed > 0 {
		with := ""
		if theirs > 0 {
			with = ", with " + plural(theirs, "sidecar", "sidecars")
		}
		fmt.Fprintf(a.t.out, "left out of what is public: %s that no sheet names or a line calls private%s\n", plural(unclaimed, "scan", "scans"), with)
	}
	fmt.Fprintln(a.t.out, diag.Clean(fmt.Sprintf("the bag is in %s: %s, %s; to check it: notchbook archive --verify %s", filepath.Clean(a.Output),
		plural(len(a.season.Notebooks), "notebook", "notebooks"), what, filepath.Clean(a.Output))))
}

// behind is those of the season's folder that are not in its bag, and of which it was
// not said why. Where single notebooks were named, nobody knows what else of the folder is
// theirs.
func (a *archiving) behind(listed []string) (names []string) {
	if a.r.folder.File != "" || a.r.some {
		return nil
	}
	for _, name := range listed {
		if !a.here[name] && !a.told[name] {
			names = append(names, name)
		}
	}
	return names
}

// unclaimed is how many scans of the folder are not in a public bag, and how many sidecars lie
// beside them. Of those no more is to be said: what they are called may be private too.
func (a *archiving) unclaimed() (scans, sidecars int) {
	if !a.Public {
		return 0, 0
	}
	in := map[string]bool{}
	for _, s := range a.season.Scans {
		in[s.Path] = true
	}
	for _, name := range a.r.scans() {
		if in[name] || a.here[name] {
			continue
		}
		scans++
		for _, beside := range sidecarsOf(name, "") {
			if _, there := slices.BinarySearch(a.r.list.Others, beside); there && !a.here[beside] && !a.told[beside] {
				a.told[beside] = true
				sidecars++
			}
		}
	}
	return scans, sidecars
}

// verify checks a bag and says what is amiss.
func (c *archiveCommand) verify(t terminal) error {
	tree, err := disk.OpenTree(c.Paths[0])
	if err != nil {
		return err
	}
	defer tree.Close()
	p := newProgress(t)
	report, err := bag.Verify(tree.FS(), bag.Options{Progress: func(done, all int64) {
		p.sometimes(func() string { return fmt.Sprintf("checking: %s of %s", bag.Size(done), bag.Size(all)) })
	}})
	p.done()
	if err != nil {
		return err
	}
	if c.Format == "json" {
		err = report.JSON(t.out)
	} else {
		for _, problem := range report.Problems {
			fmt.Fprintln(t.out, diag.Clean(problem.String()))
		}
		fmt.Fprintln(t.out, report.Summary())
	}
	if err == nil && (!report.Valid() || c.Strict && report.Count(bag.Warning) > 0) {
		return status(found)
	}
	return err
}
