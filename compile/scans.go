package compile

import (
	"path"
	"slices"
	"strings"

	"notchbook/lang"
	"notchbook/lang/source"
)

// scan is a pattern for all sheets, or names the file of some.
func (r *resolver) scan(st *lang.Statement) {
	if len(st.Labels) == 0 {
		r.now.scan = st
		r.toneOf(st) // what it cannot mean is said here
		r.outingPattern(st)
		return
	}
	names, how := r.scanPaths(st.StandingText()), r.toneOf(st)
	i := 0
	r.eachNamed(st, func(sh *sheet, _ lang.Label) {
		if len(names) == 0 {
			sh.tone.add(how)
		}
		for _, name := range share(names, i, len(st.Labels)) {
			if r.withholds(name) {
				continue
			}
			ref := r.scanRef(name, st.TextSpan())
			ref.tone.add(how)
			ref.sheets = append(ref.sheets, sh)
			sh.scans = append(sh.scans, ref)
		}
		i++
	})
}

// patternOfNone reports a pattern in a notebook without a day and without sheets.
func (r *resolver) patternOfNone() {
	o := r.outing
	if o == nil || r.dayed || len(o.sheets) > 0 || r.patternOf[o] == nil {
		return
	}
	r.report("pattern-without-sheets", r.patternOf[o].Span, "this pattern holds for the sheets of its own notebook, and there are none").
		note("it belongs into the notebooks that have sheets, above their days or below their last sheet")
}

// share is the files of the nth of several sheets: as many files as sheets are
// one each, and otherwise every file is of every sheet, since one file may hold
// several negatives and one negative may be scanned twice.
func share(names []string, nth, sheets int) []string {
	if len(names) == sheets {
		return names[nth : nth+1]
	}
	return names
}

// outingPattern remembers the pattern that holds for the outing it stands in,
// and for those after it.
func (r *resolver) outingPattern(st *lang.Statement) {
	r.patternOf[r.ground()] = st
}

// scanPaths splits a scan line's text into the files it names; what has no
// ending of a file is a word about the scan.
func (r *resolver) scanPaths(text string) []string { return r.files(r.book.name, text) }

// files is that for a line of a notebook.
func (s *season) files(book, text string) []string {
	var names []string
	for _, part := range s.scanParts(book, text) {
		if path.Ext(part.text) == "" {
			continue
		}
		if fields := strings.Fields(part.text); !part.whole && len(fields) > 1 && allFiles(fields) {
			names = append(names, fields...)
			continue
		}
		names = append(names, part.text)
	}
	return names
}

// scanPart is a name or a word of a scan line.
type scanPart struct {
	text  string
	whole bool // one name, whatever is in it: it stands in " ", or there is such a file
}

// scanParts are what stands between the commas of a scan line. A comma within " " is of the
// name, and so is one in a name that a file has exactly as it is typed.
func (s *season) scanParts(book, text string) []scanPart {
	var all []scanPart
	for text = strings.TrimLeft(text, ", \t"); text != ""; text = strings.TrimLeft(text, ", \t") {
		if name, rest, ok := quoted(text); ok {
			all, text = append(all, scanPart{name, true}), rest
			continue
		}
		name, rest := s.fileFirst(book, text)
		if name != "" {
			all, text = append(all, scanPart{name, true}), rest
			continue
		}
		name, text, _ = strings.Cut(text, ",")
		all = append(all, scanPart{strings.TrimSpace(name), false})
	}
	return all
}

// quoted is what stands in quotation marks at the beginning of a text, up to a comma or the end.
func quoted(text string) (name, rest string, ok bool) {
	for _, pair := range [...][2]string{{`"`, `"`}, {"“", "”"}, {"„", "“"}, {"«", "»"}} {
		inner, open := strings.CutPrefix(text, pair[0])
		name, rest, shut := strings.Cut(inner, pair[1])
		if rest = strings.TrimLeft(rest, " \t"); open && shut && name != "" && (rest == "" || rest[0] == ',') {
			return name, rest, true
		}
	}
	return "", text, false
}

// fileFirst is the longest beginning of a text, up to a comma or the end, that is the name
// of a file, though it has a comma or a blank in it; "" where there is none.
func (s *season) fileFirst(book, text string) (name, rest string) {
	for end := len(text); end > 0; end = strings.LastIndexByte(text[:end], ',') {
		name = strings.TrimSpace(text[:end])
		if !strings.ContainsAny(name, ", ") {
			break
		}
		if full, bad := scanPath(book, name); bad == "" && s.isScan(full) {
			return name, text[end:]
		}
	}
	return "", text
}

// isScan reports whether there is a scan file of a path.
func (s *season) isScan(full string) bool {
	if s.there == nil {
		s.there = map[string]bool{}
		for _, name := range s.world.Scans {
			s.there[name] = true
		}
	}
	return s.there[full]
}

// privateScans are the files of a notebook's lines that say that their scans are private.
func (s *season) privateScans(b string, tree *lang.Notebook) []string {
	var all []string
	for _, st := range tree.Statements {
		private := func(part scanPart) bool { return strings.EqualFold(part.text, "private") }
		if st.Word == lang.Scan && len(st.Labels) > 0 && slices.ContainsFunc(s.scanParts(b, st.Text), private) {
			all = append(all, s.files(b, st.Text)...)
		}
	}
	return all
}

func allFiles(names []string) bool {
	for _, n := range names {
		if path.Ext(n) == "" {
			return false
		}
	}
	return true
}

// scanRef is the file of a path, which is relative to the notebook that names
// it.
func (r *resolver) scanRef(name string, at source.Span) *scanRef {
	full, bad := scanPath(r.book.name, name)
	away := false
	if bad != "" && r.world.Elsewhere != nil {
		if path, ok := r.world.Elsewhere(full); ok {
			full, bad, away = path, "", true
		}
	}
	if ref := r.byPath[full]; ref != nil {
		return ref
	}
	ref := &scanRef{path: full, at: at, bad: bad, away: away}
	r.byPath[full] = ref
	r.scans = append(r.scans, ref)
	return ref
}

const leadsOut = "is not within the season's folder"

// scanPath joins a scan's path to its notebook's folder; a path that leaves
// the season's folder is no path of a scan.
func scanPath(book, name string) (full, bad string) {
	name = strings.ReplaceAll(name, `\`, "/")
	if strings.HasPrefix(name, "/") || len(name) > 1 && name[1] == ':' {
		return name, leadsOut
	}
	full = path.Join(path.Dir(book), name)
	if full == ".." || strings.HasPrefix(full, "../") {
		return full, leadsOut
	}
	return full, ""
}

// patterns gives every exposed sheet that no line names a file for the file
// that its outing's pattern names. A sheet of film exposed twice has one scan.
func (r *resolver) patterns() {
	var pattern *lang.Statement
	var of *book
	first := r.firstPatterns()
	for _, o := range r.outings {
		if o.book != of {
			of, pattern = o.book, nil
			if st := first[o.book]; st != nil && namesApart(st) {
				pattern = st
			}
		}
		if st := r.patternOf[o]; st != nil {
			pattern = st
		}
		r.book = o.book
		if pattern == nil {
			if st := first[o.book]; st != nil && !r.scannedBefore(o, st) {
				r.unserved(o, st)
			}
			continue
		}
		for _, sh := range o.sheets {
			r.byPattern(sh, pattern)
		}
	}
}

// unserved keeps which files would be those of a day's sheets by the first pattern of the notebook,
// which stands below that day and does not name days apart.
func (r *resolver) unserved(o *outing, pattern *lang.Statement) {
	names := r.scanPaths(pattern.StandingText())
	if len(names) == 0 {
		return
	}
	if r.ofUnserved == nil {
		r.ofUnserved = map[string]unserved{}
	}
	for _, sh := range o.sheets {
		full, _ := scanPath(o.book.name, r.fill(names[0], sh))
		if _, known := r.ofUnserved[full]; !known && len(sh.scans) == 0 {
			r.ofUnserved[full] = unserved{o, pattern}
		}
	}
}

// unserved is a day that a pattern does not hold for.
type unserved struct {
	day     *outing
	pattern *lang.Statement
}

// firstPatterns is the first of each notebook.
func (r *resolver) firstPatterns() map[*book]*lang.Statement {
	first := map[*book]*lang.Statement{}
	for _, o := range r.outings {
		if st := r.patternOf[o]; st != nil && first[o.book] == nil {
			first[o.book] = st
		}
	}
	return first
}

// namesApart reports whether a pattern names every sheet of every day apart: as the first of its
// notebook it is written when all is scanned, and holds for the days before it too.
func namesApart(pattern *lang.Statement) bool {
	return strings.Contains(pattern.Text, "{day}") || strings.Contains(pattern.Text, "{neg}")
}

// scannedBefore gives the sheets of a day the files that are there by the first pattern of the notebook,
// which does not name days, where it stands below all sheets and no two days have a sheet of one name:
// it is written when all is scanned. Nothing is missed by it.
func (r *resolver) scannedBefore(day *outing, pattern *lang.Statement) bool {
	names := r.scanPaths(pattern.Text)
	if len(names) == 0 {
		return false
	}
	days := map[string]*outing{}
	for _, o := range r.outings {
		if o.book != day.book {
			continue
		}
		for _, sh := range o.sheets {
			name := strings.ToLower(r.fill(names[0], sh))
			if other := days[name]; other != nil && other != o || sh.at.Start > pattern.Span.Start {
				return false
			}
			days[name] = o
		}
	}
	for _, sh := range day.sheets {
		if full, bad := scanPath(day.book.name, r.fill(names[0], sh)); bad == "" && r.isScan(full) {
			r.byPattern(sh, pattern)
		}
	}
	return true
}

// withholds reports whether a scan, as the notebook names it, is left out of what is public.
func (r *resolver) withholds(name string) bool {
	full, _ := scanPath(r.book.name, name)
	return r.withheld[full]
}

func (r *resolver) byPattern(sh *sheet, pattern *lang.Statement) {
	if has(sh.states, "unused") || len(sh.scans) > 0 || sh.tone.private || r.tones[pattern].private {
		return
	}
	if sh.first != nil {
		for _, ref := range sh.first.scans {
			ref.sheets = append(ref.sheets, sh)
			sh.scans = append(sh.scans, ref)
		}
		return
	}
	names := r.scanPaths(pattern.Text)
	if len(names) == 0 {
		return
	}
	if strings.Contains(names[0], "{neg}") && sh.number == "" {
		return // it has no number, and so no name
	}
	name := r.fill(names[0], sh)
	if r.withholds(name) {
		return
	}
	ref := r.scanRef(name, pattern.TextSpan())
	ref.pattern = true
	ref.tone.add(r.tones[pattern])
	ref.sheets = append(ref.sheets, sh)
	sh.scans = append(sh.scans, ref)
}

// fill puts a sheet's own words into a pattern.
func (r *resolver) fill(pattern string, sh *sheet) string {
	day := sh.outing.iso
	if day == "" {
		day = slug(sh.outing.date)
	}
	label, number := strings.ReplaceAll(sh.shown, "/", "-"), strings.ReplaceAll(sh.number, "/", "-")
	return strings.NewReplacer("{day}", day, "{sheet}", label, "{label}", label, "{neg}", number).Replace(pattern)
}
