package compile

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"

	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// load reads the notebooks, each once, those that a notebook uses before it. It
// leaves the books in the order in which they count: what has no day first, then
// by the first day, then by name; last the darkroom's that have none. One lexicon grows from book to book, so that a
// filter of the kit is known in every notebook of the season.

// book is one notebook as read.
type book struct {
	*lang.Notebook
	name     string
	turn     int // among all, in the order in which they count
	sha256   string
	figures  figures        // how its dates are written
	years    []*yearHead    // what gives its days their year; nil until asked for
	public   lang.Redaction // what was left out where private remarks are, and what was not
	uses     []string       // the notebooks that it uses
	lacks    string         // the first of them, or of those that they use, that could not be read
	kit      *kit           // share; what it knows
	shared   *kit           // share; what its folder knows
	drawer   *drawer        // resolve; the holders that it speaks of, nil where it speaks of none
	told     lines          // assess; what is told in prose beside its sheets
	darkroom bool           // notes of the darkroom without a day, behind all others

	ownEI  float64 // they are at this index, 0 where at none of the meter's own
	unlike bool    // its meters show different things, and a reading must say by which it is
	at100  bool    // its light values are at ISO 100, whatever the film's index
	stated bool    // that is declared, or clear from its sheets
	fits   [2]int  // sheets that are right with light values at the index, and with those at ISO 100, where that is not declared
}

func (s *season) load(names []string) {
	s.withheld = map[string]bool{}
	l := loader{season: s, state: map[string]progress{}, lacks: map[string]string{}, early: map[string]early{}}
	l.all(names)
	s.orders()
	first := make(map[*book]string, len(s.books))
	for _, b := range s.books {
		first[b] = firstDay(b)
		b.darkroom = first[b] == afterAll
	}
	slices.SortStableFunc(s.books, func(a, b *book) int {
		return cmp.Or(cmp.Compare(first[a], first[b]), cmp.Compare(a.name, b.name))
	})
	for i, b := range s.books {
		b.turn = i
	}
}

// afterAll is behind every first day.
const afterAll = "~~"

// firstDay is the date of a book's first day line, "" where it has none. Notes of the
// darkroom that stand in a book of their own speak of sheets that must be known by then:
// they count behind all days.
func firstDay(b *book) string {
	darkroom, more := false, false
	for _, s := range b.Statements {
		switch s.Word {
		case lang.Day:
			if iso, _, _, _ := dayLine(b, s); iso != "" {
				return iso
			}
			return "~" // a day without a whole date: behind all others
		case lang.Develop, lang.Patch:
			darkroom, more = darkroom || len(s.Labels) > 0, more || len(s.Labels) == 0 // else it is what is wanted, or the scene's
		case lang.Neg, lang.Sleeve, lang.Print, lang.Result, lang.Density, lang.Test, lang.Amend:
			darkroom = true
		case lang.Scan:
			darkroom = darkroom || len(s.Labels) > 0 // else it is a pattern
		case lang.Use, lang.Private:
		default:
			more = true // it declares or logs something, which must be known before
		}
	}
	if darkroom && !more {
		return afterAll
	}
	return ""
}

type progress uint8

const (
	underway progress = iota + 1
	read
	failed
)

type loader struct {
	*season
	state map[string]progress
	lacks map[string]string // of a notebook that could not be read, or not with all that it uses: the first that could not

	early   map[string]early // notebooks whose turn has not come
	lessons int              // of the lexicon with which they were read
}

// early is a notebook before its turn: its text, or why there is none, and what was read of
// it already.
type early struct {
	file *source.File
	err  error
	lang.Early
}

// all reads the notebooks of the given names, as many ahead as have taught nothing new of
// late.
func (l *loader) all(names []string) {
	for n := 1; len(names) > 0; {
		now := names[:min(n, len(names))]
		names = names[len(now):]
		l.lessons = l.names.Lessons()
		if len(now) > 1 {
			l.ahead(now)
		}
		for _, name := range now {
			l.book(path.Clean(name), source.Span{})
		}
		if n *= 2; l.names.Lessons() != l.lessons || l.names.Memory != nil || l.world.Public {
			n = 1
		}
		n = min(n, mostAhead)
	}
}

// A long notebook has work enough for all cores by itself.
const (
	mostAhead = 256
	longBook  = 64 << 10 // bytes
)

// ahead reads notebooks whose turn comes next.
func (l *loader) ahead(names []string) {
	var short []*source.File
	for _, name := range names {
		name = path.Clean(name)
		if _, there := l.early[name]; there || l.state[name] != 0 {
			continue
		}
		text, err := l.world.Read(name)
		e := early{err: err}
		if err == nil {
			e.file = source.New(name, text)
			if len(text) < longBook {
				short = append(short, e.file)
			}
		}
		l.early[name] = e
	}
	heard := func(use source.Span) bool { return l.state[bookOf(use)] == read }
	for i, ahead := range lang.Ahead(short, l.names, heard) {
		l.early[short[i].Name] = early{file: short[i], Early: ahead}
	}
}

// bookOf is the name of the notebook that a `use:` line names, which begins at its own folder.
func bookOf(use source.Span) string { return path.Join(path.Dir(use.File.Name), use.Text()) }

// text is a notebook as it is there, which is asked for once.
func (l *loader) text(name string) early {
	e, there := l.early[name]
	if delete(l.early, name); there {
		return e
	}
	text, err := l.world.Read(name)
	if err != nil {
		return early{err: err}
	}
	return early{file: source.New(name, text)}
}

// book reads a notebook for the first time it is named. at is the `use:` that
// names it. It gives the name of what was read: where only the redacted copy of a
// notebook is there, as in a folder that was handed on, that stands for it.
func (l *loader) book(name string, at source.Span) string {
	switch l.state[name] {
	case underway:
		l.report("use-in-circles", at, quote(name)+" is being read already: the notebooks use each other in a circle")
		return name
	case read, failed:
		return name
	}
	text := l.text(name)
	if public := record.PublicName(name); at.File != nil && errors.Is(text.err, fs.ErrNotExist) {
		if l.state[public] == read || l.state[public] == underway {
			return l.book(public, at)
		}
		if copied := l.text(public); copied.err == nil {
			name, text = public, copied
		}
	}
	if text.err != nil {
		l.state[name], l.lacks[name] = failed, name
		l.unreadable(name, at, text.err)
		return name
	}
	l.state[name] = underway
	l.add(name, text)
	l.state[name] = read
	return name
}

// mayLog is about how many sheets a text logs, and rarely more: its lines that begin with a
// figure and have a colon soon.
func mayLog(text []byte) (n int) {
	const soon = 8 // bytes
	for line := range bytes.Lines(text) {
		if line[0] >= '0' && line[0] <= '9' && bytes.IndexByte(line[:min(len(line), soon)], ':') > 0 {
			n++
		}
	}
	return n
}

// public reads a notebook again without its private remarks, if it has any.
// What it uses has been followed.
func (l *loader) public(tree *lang.Notebook, list diag.List) (*lang.Notebook, diag.List, lang.Redaction) {
	public := lang.Public(tree)
	if public.Private {
		l.names.Follow = func(source.Span) {}
		tree, list = lang.Parse(source.New(tree.File.Name, public.Text), l.names)
	}
	return tree, list, public
}

func (l *loader) unreadable(name string, at source.Span, err error) {
	if at.File == nil {
		at = source.Span{File: source.New(name, nil)}
	}
	f := l.report("notebook-unreadable", at, strings.TrimSuffix(err.Error(), "."))
	if at.File.Name != name {
		f.note("the sheets of this notebook cannot be checked without what it declares")
		if strings.HasPrefix(name, "../") {
			f.note("name the folder that holds both, not only what lies below it")
		}
	}
}

func (l *loader) add(name string, text early) {
	file := text.file
	var uses []string
	var follow func(source.Span)
	follow = func(use source.Span) {
		uses = append(uses, l.book(bookOf(use), use))
		l.names.Follow = follow // that one had its own
	}
	l.names.Follow = follow
	tree, list := text.Notebook, text.List
	if tree == nil || l.names.Lessons() != l.lessons {
		if len(file.Text) >= longBook {
			l.room.meanwhile(mayLog(file.Text))
		}
		if tree, list = lang.Begin(file, l.names); l.world.Public {
			list = append(list, tree.Late()...)
		}
	} else {
		for _, use := range text.Uses {
			follow(use)
		}
	}
	var public lang.Redaction
	if l.world.Public {
		for _, scan := range l.privateScans(name, tree) {
			full, _ := scanPath(name, scan)
			l.withheld[full] = true
		}
		tree, list, public = l.public(tree, list)
		file = tree.File
	}
	for _, scan := range public.Scans {
		full, _ := scanPath(name, scan)
		l.withheld[full] = true
	}
	sum := sha256.Sum256(file.Text)
	for _, other := range uses {
		l.lacks[name] = cmp.Or(l.lacks[name], l.lacks[other])
	}
	l.late = append(l.late, late{tree, len(l.found)})
	l.books = append(l.books, &book{Notebook: tree, name: name, sha256: hex.EncodeToString(sum[:]), public: public, uses: uses, lacks: l.lacks[name]})
	for _, d := range list {
		l.found = append(l.found, finding{Diagnostic: d})
	}
	if len(bytes.TrimSpace(bytes.TrimPrefix(file.Text, []byte("\ufeff")))) == 0 {
		l.report("empty-notebook", source.Span{File: file}, "there is nothing in this notebook")
	}
	l.keptAsTyped(tree)
}

// late is the notebook of which sheets' lines may still be read, and where the findings of those belong.
type late struct {
	book *lang.Notebook
	at   int
}

// takeLate takes in what is wrong with lines that were left for later.
func (s *season) takeLate() {
	var all []finding
	from := 0
	for _, l := range s.late {
		all = append(all, s.found[from:l.at]...)
		from = l.at
		for _, d := range l.book.Late() {
			all = append(all, finding{Diagnostic: d})
		}
	}
	s.found, s.late = append(all, s.found[from:]...), nil
}

// keptAsTyped says once a notebook and word that a line of it has no use yet.
func (l *loader) keptAsTyped(tree *lang.Notebook) {
	said := map[lang.Word]bool{}
	for _, s := range tree.Statements {
		if l.misplaced(s) || lang.Understood(s.Word) || said[s.Word] {
			continue
		}
		said[s.Word] = true
		l.report("kept-as-typed", s.Said, "lines of "+quote(string(s.Word))+" are kept as typed; nothing is computed from them")
	}
}

// misplaced reports settings on a line of a holder, which are a sheet's.
func (l *loader) misplaced(s *lang.Statement) bool {
	if s.Word != lang.HolderWord {
		return false
	}
	all := s.Terms()
	for i := range all {
		if k, ok := all[i].Kind.(*lang.Exposure); ok && len(k.Parts) > 0 && !all[i].Struck {
			l.report("unknown-term", all[i].Span, quote(all[i].Span.Text())+" has no meaning in a holder line").
				note("a sheet's line begins with its label: " + s.Labels[0].Text + ": " + all[i].Span.Text())
			return true
		}
	}
	return false
}

func quote(s string) string { return `"` + s + `"` }

// ordered gives the findings in the order of the notebooks and of their text, and each that begins with the label of a
// sheet its day, where the notebook has that label on another day too.
func (s *season) ordered() {
	turn := make(map[string]int, len(s.books)) // of each notebook; those that could not be read are first
	for i, b := range s.books {
		turn[b.File.Name] = i + 1
	}
	slices.SortStableFunc(s.found, func(a, b finding) int {
		x, y := a.Span.File, b.Span.File
		if x != y && x != nil && y != nil && turn[x.Name] != turn[y.Name] {
			return turn[x.Name] - turn[y.Name]
		}
		return diag.Compare(a.Diagnostic, b.Diagnostic)
	})
	type bookLabel struct {
		book  *book
		label string
	}
	of := func(sh *sheet) bookLabel { return bookLabel{sh.outing.book, strings.ToLower(sh.label)} }
	first, several := map[bookLabel]string{}, map[bookLabel]bool{}
	for _, sh := range s.sheets {
		key, day := of(sh), sh.outing.on()
		if was, ok := first[key]; !ok {
			first[key] = day
		} else if was != day {
			several[key] = true
		}
	}
	for i := range s.found {
		f := &s.found[i]
		if len(f.sheets) == 0 {
			continue
		}
		head, o := f.sheets[0], f.sheets[0].outing
		rest, ok := strings.CutPrefix(f.Message, head.label)
		if ok && strings.HasPrefix(rest, " ") && o.date != "" && slices.ContainsFunc(f.sheets, func(sh *sheet) bool { return several[of(sh)] }) &&
			!slices.ContainsFunc(f.sheets, func(sh *sheet) bool { return sh.outing != o }) {
			f.Day = o.day()
		}
	}
}
