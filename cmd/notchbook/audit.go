package main

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"

	"notchbook/compile/record"
	"notchbook/lang/diag"
	"notchbook/render/data"
)

// audit is what is amiss between the sheets, the files and the last record.
// Everything is in the order of the record, or of names.
type audit struct {
	season   *record.Season
	compared bool // there was a record to compare with
	missing  []*record.Scan
	orphans  []*record.Scan
	shared   []*record.Scan // claimed by several sheets, by lines of their own
	bad      []*record.Scan // cannot be read
	slips    []offset
	gaps     []string
	named    map[string]string // the first scan of a sheet, by digest
	others   []string          // the folder's other files, among them sidecars
	fixity
}

// newAudit compares with the digests of the last record, and with those that scans had
// in records before it. There tells of a file that it is in the folder; nil where
// only some of the folder was looked at.
func newAudit(season *record.Season, last, former map[string]string, there func(string) bool) *audit {
	a := &audit{season: season, compared: last != nil, named: map[string]string{}, fixity: newFixity(season, last, former, there)}
	moved := map[string]bool{}
	for _, m := range a.moved {
		moved[m.from], moved[m.to] = true, true
	}
	for _, s := range season.Scans {
		if s.SHA256 != "" && s.State == record.Present && len(s.Sheets) > 0 && a.named[s.SHA256] == "" {
			a.named[s.SHA256] = s.Path
		}
		switch s.State {
		case record.Missing:
			if !moved[s.Path] {
				a.missing = append(a.missing, s)
			}
		case record.Orphan:
			if !moved[s.Path] {
				a.orphans = append(a.orphans, s)
			}
		case record.Unreadable:
			a.bad = append(a.bad, s)
		}
		if claimedTwice(s) {
			a.shared = append(a.shared, s)
		}
	}
	a.findNumbering()
	return a
}

// claimedTwice tells a scan that two sheets claim without knowing of each other.
// One line may well name several sheets for one file, and a sheet exposed twice
// has one scan.
func claimedTwice(s *record.Scan) bool {
	for i, sheet := range s.Sheets[min(1, len(s.Sheets)):] {
		first := s.Sheets[0]
		if sheet.Side != "" && sheet.Side == first.Side && sheet.Outing == first.Outing && i == 0 {
			continue
		}
		if !shareLine(sheet, first) {
			return true
		}
	}
	return false
}

func shareLine(a, b *record.Sheet) bool {
	return slices.ContainsFunc(a.Lines, func(line record.Line) bool {
		return line.Word == "scan" && slices.ContainsFunc(b.Lines, func(other record.Line) bool { return other.Place == line.Place })
	})
}

// numbered is a file whose name ends in a number, or one that should be there.
type numbered struct {
	scan   *record.Scan
	number int
}

// series is the files whose names differ by the number only.
type series struct {
	before, behind string
	width          int // of the number, 0 if it has no leading zeros
	files          []numbered
	elsewhere      map[int]bool // numbers of files that were moved
}

// offset is a slip in numbering: a run of files that is off by some numbers: so many names are missing
// at its one end, and as many files are too many at the other.
type offset struct {
	series *series
	files  []numbered // in order, missing and orphans too
	by     int        // above 0: the files' numbers are too high
}

// findNumbering looks through every series for slips and gaps.
func (a *audit) findNumbering() {
	for _, s := range a.series() {
		for _, run := range s.runs() {
			if found, ok := s.slip(run); ok {
				a.slips = append(a.slips, found)
			}
		}
		if strings.HasPrefix(s.behind, ".") {
			a.gaps = append(a.gaps, s.gaps()...)
		}
	}
}

func (a *audit) series() []*series {
	byName, order := map[string]*series{}, []*series(nil)
	for _, scan := range a.season.Scans {
		before, digits, behind, ok := splitNumber(scan.Path)
		if !ok || scan.State == record.Outside {
			continue
		}
		key := before + "\x00" + behind
		if byName[key] == nil {
			byName[key] = &series{before: before, behind: behind, elsewhere: map[int]bool{}}
			order = append(order, byName[key])
		}
		s := byName[key]
		if digits[0] == '0' {
			s.width = len(digits)
		}
		number, _ := strconv.Atoi(digits)
		if slices.ContainsFunc(a.moved, func(m move) bool { return m.from == scan.Path || m.to == scan.Path }) {
			s.elsewhere[number] = true
			continue
		}
		s.files = append(s.files, numbered{scan, number})
	}
	for _, s := range order {
		slices.SortStableFunc(s.files, func(a, b numbered) int { return a.number - b.number })
	}
	return order
}

// splitNumber takes a path apart at the last number of its name.
func splitNumber(name string) (before, digits, behind string, ok bool) {
	stem := strings.TrimSuffix(name, path.Ext(name))
	isDigit := func(c rune) bool { return c >= '0' && c <= '9' }
	end := strings.LastIndexFunc(stem, isDigit) + 1
	start := strings.LastIndexFunc(stem[:end], func(c rune) bool { return !isDigit(c) }) + 1
	if end <= start || end-start > 9 || start <= strings.LastIndex(name, "/") {
		return "", "", "", false
	}
	return name[:start], name[start:end], name[end:], true
}

// runs are the stretches of a series without a gap.
func (s *series) runs() (runs [][]numbered) {
	start := 0
	for i := 1; i <= len(s.files); i++ {
		if i == len(s.files) || s.files[i].number != s.files[i-1].number+1 {
			runs = append(runs, s.files[start:i])
			start = i
		}
	}
	return runs
}

// fewestInSlip is how many scans that seem to be right must lie between the two
// ends of a slip: between fewer, one missing and one too many are more likely
// just that, and nothing is to be renamed.
const fewestInSlip = 3

// slip tells whether a run is off: k missing at one end, k too many at the
// other, and between them at least as many that seem to be right.
func (s *series) slip(run []numbered) (offset, bool) {
	ends := func(first, last record.ScanState) int {
		k := 0
		for k < len(run)/2 && run[k].scan.State == first && run[len(run)-1-k].scan.State == last {
			k++
		}
		return k
	}
	within := func(k int) bool {
		for _, f := range run[k : len(run)-k] {
			if f.scan.State != record.Present && f.scan.State != record.Unreadable {
				return false
			}
		}
		return k > 0 && len(run)-2*k >= max(k, fewestInSlip)
	}
	if k := ends(record.Missing, record.Orphan); within(k) {
		return offset{s, run, k}, true
	}
	if k := ends(record.Orphan, record.Missing); within(k) {
		return offset{s, run, -k}, true
	}
	return offset{}, false
}

// moves brings every file of a run to its place; the free end comes first.
func (s offset) moves() (moves []move) {
	n, by := len(s.files), s.by
	if by > 0 {
		for i := by; i < n; i++ {
			moves = append(moves, move{s.files[i].scan.Path, s.files[i-by].scan.Path})
		}
		return moves
	}
	for i := n + by - 1; i >= 0; i-- {
		moves = append(moves, move{s.files[i].scan.Path, s.files[i-by].scan.Path})
	}
	return moves
}

func (s offset) text() string {
	n, k := len(s.files), max(s.by, -s.by)
	missing, extra := s.files[:k], s.files[n-k:]
	if s.by < 0 {
		missing, extra = extra, missing
	}
	names := func(files []numbered) string {
		if len(files) == 1 {
			return files[0].scan.Path
		}
		return files[0].scan.Path + " to " + path.Base(files[len(files)-1].scan.Path)
	}
	return fmt.Sprintf("%d scans look off by %d: no file is %s, and no sheet names %s", n-k, k, names(missing), names(extra))
}

// gaps are numbers that neither a file nor a sheet has, within a series that
// else goes on without a break.
func (s *series) gaps() (gaps []string) {
	if len(s.files) < 4 {
		return nil
	}
	for i := 1; i < len(s.files); i++ {
		a, b := s.files[i-1].number, s.files[i].number
		if missing := b - a - 1; missing > 0 && missing <= len(s.files)/4 && !s.elsewhere[a+1] {
			text := fmt.Sprintf("%s%0*d%s", s.before, s.width, a+1, s.behind)
			if missing > 1 {
				text += fmt.Sprintf(" to %0*d", s.width, b-1)
			}
			gaps = append(gaps, text)
		}
	}
	return gaps
}

// explained is the paths of which a slip says what they are.
func (a *audit) explained() map[string]bool {
	all := map[string]bool{}
	for _, s := range a.slips {
		for _, f := range s.files {
			all[f.scan.Path] = true
		}
	}
	return all
}

// absent tells the names that no file has: those that none had when the last record was
// written, and the files that are gone since.
func (a *audit) absent(missing []string) (never []string, gone []loss) {
	explained, since := a.explained(), map[string]bool{}
	for _, g := range a.gone {
		if !explained[g.path] {
			gone, since[g.path] = append(gone, g), true
		}
	}
	return slices.DeleteFunc(slices.Clone(missing), func(name string) bool { return since[name] }), gone
}

// leftover is the paths that no slip explains: files that no sheet names, and
// names that no file has, the latter in the order of the sheets.
// A copy of a file that a sheet names is no sheet's scan under another name.
func (a *audit) leftover() (lost, missing []string) {
	explained := a.explained()
	for _, s := range a.orphans {
		if !explained[s.Path] && a.copyOf(s) == "" {
			lost = append(lost, s.Path)
		}
	}
	for _, s := range a.missing {
		if !explained[s.Path] {
			missing = append(missing, s.Path)
		}
	}
	return lost, missing
}

// copyOf is the scan of a sheet that has the same bytes as a file that no sheet names.
func (a *audit) copyOf(orphan *record.Scan) string { return a.named[orphan.SHA256] }

// copies are files, each with the first scan of a sheet that has the same bytes:
// scans of sheets, and files that no sheet names.
func (a *audit) copies() (copies []move) {
	for _, s := range a.season.Scans {
		if of := a.named[s.SHA256]; s.State == record.Present && len(s.Sheets) > 0 && of != "" && of != s.Path {
			copies = append(copies, move{s.Path, of})
		}
	}
	for _, s := range a.orphans {
		if of := a.copyOf(s); of != "" {
			copies = append(copies, move{s.Path, of})
		}
	}
	return copies
}

// print says everything, one line each.
func (a *audit) print(t terminal) error {
	say := func(kind, text string) { fmt.Fprintln(t.out, diag.Clean(kind+": "+text)) }
	for _, s := range a.slips {
		say("slip", s.text())
	}
	lost, missing := a.leftover()
	missing, gone := a.absent(missing)
	unclaimed := map[string]bool{}
	for _, o := range a.orphans {
		unclaimed[o.Path] = true
	}
	for _, text := range inRuns(missing) {
		say("missing", text)
	}
	for _, s := range a.bad {
		say("unreadable", s.Path+" "+s.Why)
	}
	for _, c := range a.changed {
		say("changed", c.text())
	}
	for _, g := range gone {
		say("gone", g.text())
	}
	for _, m := range a.moved {
		say("moved", m.from+" is now "+m.to)
	}
	for _, m := range a.carried {
		say("moved", m.from+" is now "+m.to+", and no sheet names it")
	}
	for _, m := range a.renamed {
		say("renamed", m.to+" was "+m.from+" in the last record")
	}
	for _, s := range a.shared {
		say("claimed twice", s.Path+" by "+labels(s.Sheets))
	}
	for _, text := range inRuns(lost) {
		say("orphan", text)
	}
	for _, m := range a.copies() {
		say("copy", m.from+" has the same bytes as "+m.to+map[bool]string{true: ", and no sheet names it"}[unclaimed[m.from]])
	}
	for _, g := range a.gaps {
		say("gap", "no file and no sheet is "+g)
	}
	if !a.compared {
		fmt.Fprintln(t.out, "no record has sums of the scans: nothing could be compared with what the scans were")
	}
	fmt.Fprintln(t.out, a.summary(len(lost), len(missing), len(gone)))
	return a.status(len(missing))
}

// status makes a failure of files that are missing, bad, changed or gone; the rest may
// be as it is meant.
func (a *audit) status(missing int) error {
	if missing+len(a.bad)+len(a.changed)+len(a.slips)+len(a.moved)+len(a.lost()) > 0 {
		return status(found)
	}
	return nil
}

func (a *audit) summary(lost, missing, gone int) string {
	files, without := a.files()
	return fmt.Sprintf("%s, %s without a file; %d missing, %d unreadable, %d changed, %d gone, %d moved, %d claimed twice, %s, %s",
		plural(files, "file", "files"), plural(without, "name", "names"), missing, len(a.bad), len(a.changed), gone, len(a.moved)+len(a.carried), len(a.shared),
		plural(lost, "orphan", "orphans"), plural(len(a.slips), "slip", "slips"))
}

// files counts the scans that are there, and the names that no file has.
func (a *audit) files() (files, without int) {
	for _, s := range a.season.Scans {
		switch s.State {
		case record.Missing, record.Outside:
			without++
		default:
			files++
		}
	}
	return files, without
}

func labels(sheets []*record.Sheet) string {
	var ids []string
	for _, s := range sheets {
		ids = append(ids, s.ID)
	}
	return strings.Join(ids, ", ")
}

// inRuns puts names that count on from one another together.
func inRuns(names []string) (lines []string) {
	names = slices.SortedFunc(slices.Values(names), naturally)
	for i := 0; i < len(names); {
		j := i + 1
		for j < len(names) && follows(names[j-1], names[j]) {
			j++
		}
		switch {
		case j-i < 3:
			lines = append(lines, names[i:j]...)
		default:
			lines = append(lines, fmt.Sprintf("%s to %s, %d files", names[i], path.Base(names[j-1]), j-i))
		}
		i = j
	}
	return lines
}

func follows(a, b string) bool {
	before, m, behind, ok := splitNumber(a)
	other, n, tail, also := splitNumber(b)
	x, _ := strconv.Atoi(m)
	y, _ := strconv.Atoi(n)
	return ok && also && before == other && behind == tail && y == x+1
}

// json writes everything as one JSON object, nothing put together or cut.
func (a *audit) json(t terminal) error {
	lost, missing := a.leftover()
	missing, gone := a.absent(missing)
	files, _ := a.files()
	out := data.Audit{
		Scans: len(a.season.Scans), Files: files, Compared: a.compared, Missing: missing, Orphans: lost, Gaps: a.gaps,
		Moved: pairs(slices.Concat(a.moved, a.carried)), Renamed: pairs(a.renamed), Copies: pairs(a.copies()),
		Unreadable: a.bad, ClaimedTwice: a.shared,
	}
	for _, s := range a.slips {
		out.Slips = append(out.Slips, s.text())
	}
	for _, c := range a.changed {
		out.Changed = append(out.Changed, data.Altered{Path: c.Path, SHA256: c.SHA256, Was: c.was, Had: c.had, Same: c.same})
	}
	for _, g := range gone {
		out.Gone = append(out.Gone, data.Altered{Path: g.path, Was: g.was, Same: g.same})
	}
	if err := out.Write(t.out); err != nil {
		return err
	}
	return a.status(len(missing))
}

func pairs(moves []move) (all [][2]string) {
	for _, m := range moves {
		all = append(all, [2]string{m.from, m.to})
	}
	return all
}
