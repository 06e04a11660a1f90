package main

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"notchbook/cmd/notchbook/disk"
	"notchbook/compile/record"
	"notchbook/lang/diag"
	"notchbook/render/data"
	"notchbook/render/html"
)

// scansCommand holds the notes, the files and the record's sums against each
// other. It never opens a scan for writing.
type scansCommand struct {
	Path       string `arg:"" name:"path" help:"Folder of notebooks and scans."`
	Record     string `placeholder:"DIR" help:"Folder of the record whose sums tell what has changed since. Default: record, in the season's folder."`
	Full       bool   `help:"Read every byte again, whatever is known of a scan that seems unchanged."`
	RenamePlan bool   `help:"Print the renames by which the scans and their sidecars follow the notes, as a shell script."`
	Apply      bool   `help:"With --rename-plan: rename, never over an existing file, and write how to undo it."`
	Format     string `enum:"text,json" default:"text" help:"How the answer is written: text or json."`
	XMP        bool   `name:"xmp" help:"Write an XMP sidecar beside every scan that a sheet names."`
	door
	audience
}

// sumsName is the file of digests in a record.
const sumsName = "SHA256SUMS"

// formerName is the file of the digests that scans had in earlier records and have no
// more: they are changed, missing, not to be read, or gone. Until somebody takes it away, having seen to it, no record forgets them.
const formerName = "SHA256SUMS.former"

// Run audits, and then does what else was asked for.
func (c *scansCommand) Run(t terminal) error {
	switch {
	case c.Apply && !c.RenamePlan:
		return errors.New("--apply goes with --rename-plan")
	case c.Format != "text" && (c.RenamePlan || c.XMP):
		return errors.New("--format goes with neither --rename-plan nor --xmp")
	}
	r, err := c.read([]string{c.Path}, t.in)
	if err != nil {
		return err
	}
	defer r.close()
	if r.folder.File != "" || r.stdin != nil {
		return fmt.Errorf("%s: scans are audited by the folder, not by the notebook", c.Path)
	}
	if err := c.open(r); err != nil {
		return err
	}
	if c.Apply {
		release, err := r.folder.Hold()
		if err != nil {
			return err
		}
		defer release()
	}
	r.problems(t)
	p := newProgress(t)
	r.afresh = c.Full
	r.prepare(p)
	season, _ := r.compile()
	p.done()
	a, err := c.audit(r, season)
	if err != nil {
		return err
	}
	switch {
	case c.RenamePlan:
		return c.rename(t, r, a)
	case c.XMP:
		return writeSidecars(t, r, season)
	case c.Format == "json":
		return a.json(t)
	}
	return a.print(t)
}

func (c *scansCommand) audit(r *reading, season *record.Season) (*audit, error) {
	a, err := c.compare(r, season)
	if err == nil && !a.compared && c.Record != "" {
		return nil, noSums(c.Record)
	}
	return a, err
}

// compare audits the season against the last record, if there is one.
func (c *scansCommand) compare(r *reading, season *record.Season) (*audit, error) {
	last, err := c.sums(r, sumsName)
	if err != nil {
		return nil, err
	}
	former, err := c.sums(r, formerName)
	if err != nil {
		return nil, err
	}
	a := newAudit(season, last, former, r.there())
	a.others = r.list.Others
	return a, nil
}

// folder is where the record lies that is compared with.
func (c *scansCommand) folder(r *reading) string {
	return cmp.Or(c.Record, filepath.Join(r.folder.Path, "record"))
}

// noSums is that a folder which was to have them has no sums of scans.
func noSums(record string) error {
	return fmt.Errorf("%s is missing: no scan can be compared with what it was", filepath.Join(record, sumsName))
}

// sums reads one of the last record's lists of sums, by path within the season; nil
// where there is none yet. The one in the season's folder is read like all else
// there: a link may not lead out.
func (c *scansCommand) sums(r *reading, name string) (map[string]string, error) {
	var text []byte
	var err error
	if c.Record == "" {
		text, err = r.folder.ReadFile(path.Join("record", name))
		err = r.openable(err)
	} else {
		text, err = disk.ReadFrom(c.Record, name)
	}
	folder := c.folder(r)
	switch {
	case errors.Is(err, disk.Missing):
		return nil, nil
	case err != nil:
		return nil, err
	}
	sums, err := readSums(text, folder, r.folder.Path)
	if err != nil {
		return nil, fmt.Errorf("%s %w", filepath.Join(folder, name), err)
	}
	return sums, nil
}

// readSums gives the digests by path within the season. The list's paths lead from the
// folder it lies in.
func readSums(text []byte, folder, season string) (map[string]string, error) {
	folder, err := filepath.Abs(folder)
	if err != nil {
		return nil, err
	}
	if season, err = filepath.Abs(season); err != nil {
		return nil, err
	}
	sums, n := map[string]string{}, 0
	for line := range strings.Lines(string(text)) {
		n++
		line, whole := strings.CutSuffix(line, "\n")
		line, escaped := strings.CutPrefix(line, `\`)
		digest, name, ok := strings.Cut(line, "  ")
		sum, err := hex.DecodeString(digest)
		if !whole || !ok || err != nil || len(sum) != sha256.Size {
			return nil, fmt.Errorf("is damaged: line %d is not a SHA-256 sum and a name", n)
		}
		if escaped {
			name = strings.NewReplacer(`\\`, `\`, `\n`, "\n", `\r`, "\r").Replace(name)
		}
		name, err = filepath.Rel(season, filepath.Join(folder, filepath.FromSlash(name)))
		if err != nil {
			return nil, err
		}
		sums[filepath.ToSlash(name)] = digest
	}
	return sums, nil
}

// writeSums puts the digests of all scans into the record.
func writeSums(out html.Folder, s *record.Season, up string) error {
	file, err := out.Create(sumsName)
	if err != nil {
		return err
	}
	return closing(file, data.Sums(file, s, up))
}

// writeFormer puts into the record what scans were whose bytes are there no more. In a
// public one stand only names that it has already.
func writeFormer(out html.Folder, s *record.Season, former map[string]string, up string) error {
	if s.Public {
		here := map[string]bool{}
		for _, scan := range s.Scans {
			here[scan.Path] = true
		}
		former = maps.Clone(former)
		maps.DeleteFunc(former, func(name, _ string) bool { return !here[name] })
	}
	if len(former) == 0 {
		return nil
	}
	file, err := out.Create(formerName)
	if err != nil {
		return err
	}
	return closing(file, data.FormerSums(file, former, up))
}

// writeSidecars writes the sidecars of all scans that sheets name. One that
// somebody else wrote or changed stays as it is: to merge the two is not for a
// program to do.
func writeSidecars(t terminal, r *reading, season *record.Season) error {
	written, refused, away := 0, 0, 0
	names := sidecarNames(season)
	for _, s := range season.Scans {
		if len(s.Sheets) == 0 || s.State != record.Present && s.State != record.Unreadable {
			continue
		}
		if s.Elsewhere || r.folder.Reaches(path.Dir(s.Path)) {
			away++
			continue
		}
		name := names[s.Path]
		old, err := r.folder.ReadFile(name)
		switch {
		case err == nil && !data.OwnXMP(old):
			t.complain(fmt.Errorf("%s was not written by notchbook, or was changed since; it is left as it is, and nothing is merged", r.named(name)))
			refused++
			continue
		case err != nil && !errors.Is(err, disk.Missing):
			return r.openable(err)
		}
		if err := r.folder.WriteFile(name, data.XMP(season, s, "notchbook "+number)); err != nil {
			return r.openable(err)
		}
		written++
	}
	fmt.Fprintf(t.out, "%s written\n", plural(written, "sidecar", "sidecars"))
	if away > 0 {
		fmt.Fprintf(t.out, "none for %s outside the season's folder: nothing is written there\n", plural(away, "scan", "scans"))
	}
	if refused > 0 {
		return status(found)
	}
	return nil
}

// sidecarNames gives each scan its sidecar: its own name with the ending .xmp,
// as other programs look for it; where two scans differ by their endings only,
// .xmp behind the whole name.
func sidecarNames(season *record.Season) map[string]string {
	stem := func(name string) string { return strings.TrimSuffix(name, path.Ext(name)) }
	count := map[string]int{}
	for _, s := range season.Scans {
		count[strings.ToLower(stem(s.Path))]++
	}
	names := map[string]string{}
	for _, s := range season.Scans {
		names[s.Path] = stem(s.Path) + ".xmp"
		if count[strings.ToLower(stem(s.Path))] > 1 {
			names[s.Path] = s.Path + ".xmp"
		}
	}
	return names
}

// rename prints the plan, or carries it out.
func (c *scansCommand) rename(t terminal, r *reading, a *audit) error {
	plan, why := a.plan()
	for _, w := range why {
		t.complain(errors.New(w))
	}
	if len(plan) == 0 {
		fmt.Fprintln(t.out, "# nothing to rename: no file is known to belong under another name")
		return nil
	}
	if !c.Apply {
		fmt.Fprint(t.verbatim(), script("Renames by which the scans follow the notes. Run in the season's folder.", plan))
		return nil
	}
	guessed := 0
	sure := slices.DeleteFunc(plan, func(m step) bool {
		if m.why == byCount {
			t.complain(fmt.Errorf("%s is not renamed to %s: only the number of files speaks for it", m.from, m.to))
			guessed++
		}
		return m.why == byCount
	})
	if guessed > 0 {
		t.complain(errors.New("where that is so, rename it yourself: scans --rename-plan without --apply prints the commands"))
	}
	if len(sure) == 0 {
		fmt.Fprintln(t.out, "nothing was renamed")
		return nil
	}
	return carryOut(t, r.folder, sure)
}

// carryOut renames step by step. How to undo it is on the disk before the first
// step is taken.
func carryOut(t terminal, folder *disk.Season, plan []step) error {
	free := map[string]bool{}
	for _, m := range plan {
		if folder.Exists(m.to) && !free[m.to] {
			return fmt.Errorf("%s exists; nothing was renamed", filepath.Join(folder.Path, filepath.FromSlash(m.to)))
		}
		free[m.from] = true
	}
	undo := undoName(folder)
	if err := folder.WriteFile(undo, []byte(undoScript(plan))); err != nil {
		return renamed(err, func(name string) string { return filepath.Join(folder.Path, name) })
	}
	for i, m := range plan {
		if err := folder.Rename(m.from, m.to); err != nil {
			return fmt.Errorf("%w; %d of %d were renamed; to undo it: sh %s", err, i, len(plan), filepath.Join(folder.Path, undo))
		}
	}
	fmt.Fprintln(t.out, diag.Clean(fmt.Sprintf("%s renamed; to undo it: sh %s", renamings(plan), filepath.Join(folder.Path, undo))))
	return nil
}

// renamings counts what is renamed.
func renamings(plan []step) string {
	sidecars := 0
	for _, m := range plan {
		if isSidecar(m.from) {
			sidecars++
		}
	}
	text := plural(len(plan)-sidecars, "scan", "scans")
	if sidecars > 0 {
		text += " and " + plural(sidecars, "sidecar", "sidecars")
	}
	return text
}

// undoName is the first of its kind that is not taken.
func undoName(folder *disk.Season) string {
	for i := 1; ; i++ {
		if name := fmt.Sprintf("undo-renames-%d.sh", i); !folder.Exists(name) {
			return name
		}
	}
}

// sayChanged names, before a record is replaced or a bag made, the scans that are
// not what they were in the last record, which is in the folder dest ("": the
// season's own), or in one before it. The record is told of them too; what it is to
// keep of them is left in the reading. Sums that are there and cannot be read are an
// error: what would be written in their place forgets what the scans were. To settle a change,
// its line is taken out of the list that a record has of what scans were: first is what must
// be done before it stands there.
func sayChanged(t terminal, r *reading, season *record.Season, dest, first string) error {
	if r.stdin != nil || r.folder.Together() && dest == "" {
		return nil
	}
	c := &scansCommand{Record: dest}
	a, err := c.compare(r, season)
	if err != nil {
		return fmt.Errorf("%w; nothing was written: bring the list back, or take it away if no scan is to be compared with what it was", err)
	}
	if folder := c.folder(r); !a.compared && len(season.Scans) > 0 && disk.Wrote(folder, sumsName) {
		t.complain(noSums(folder))
	}
	r.former = a.former
	for _, s := range season.Scans {
		s.Was = a.former[s.Path]
	}
	list := filepath.Join(c.folder(r), formerName)
	say := func(one, many string, names []string, end string) {
		if len(names) > 0 {
			t.complain(fmt.Errorf("%s: %s%s", plural(len(names), "scan "+one, "scans "+many), strings.Join(inRuns(names), ", "), end))
		}
	}
	var other, gone, named, under []string
	for _, c := range a.changed {
		other = append(other, c.Path)
	}
	for _, g := range a.lost() {
		if len(g.sheets) > 0 {
			named = append(named, g.path)
			continue
		}
		gone = append(gone, g.path)
	}
	for _, m := range slices.Concat(a.renamed, a.moved, a.carried) {
		under = append(under, m.from+" as "+m.to)
	}
	settled := func(names []string) string {
		return "; when that is as you meant, " + first + "take " + map[bool]string{true: "its line", false: "their lines"}[len(names) == 1] + " out of " + list
	}
	say("has other bytes than in an earlier record", "have other bytes than in an earlier record", other, settled(other))
	say("of an earlier record is gone, and a sheet names it", "of an earlier record are gone, and sheets name them", named, "")
	say("of an earlier record is gone, and no sheet names it", "of an earlier record are gone, and no sheet names them", gone, settled(gone))
	if len(under) > 0 {
		t.complain(fmt.Errorf("%s under another name than in the last record: %s", plural(len(under), "scan is", "scans are"), strings.Join(under, ", ")))
	}
	return nil
}

// there tells which files a listing of the whole folder has found; nil where only some
// notebooks were named, since nobody knows then what else is the season's.
func (r *reading) there() func(string) bool {
	if r.folder.File != "" || r.some || r.stdin != nil {
		return nil
	}
	names := map[string]bool{}
	for _, name := range r.list.Scans {
		names[name] = true
	}
	return func(name string) bool { return names[name] }
}
