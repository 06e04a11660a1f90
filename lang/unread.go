package lang

import (
	"fmt"
	"slices"
	"strings"

	"notchbook/lang/diag"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// unread looks through what was taken for prose for lines that look like log
// lines: nothing that was meant as a log line may pass in silence, and nothing
// that was meant as prose may be reported.
func (r *reading) unread(book *Notebook) diag.List {
	r.read = book.Statements
	fenced, list := r.fences(book.Prose)
	var prose []int // lines
	for i := range r.lines {
		if line := &r.lines[i]; line.Kind == Prose && !fenced[i] && !r.innocent(line, r.afterLog(i)) {
			prose = append(prose, i)
		}
	}
	said := make([]*suspicion, len(prose))
	r.sideBySide(len(prose), func(i int, b *bench) { said[i] = r.suspect(prose[i], r.afterLog(prose[i]), b) })
	inColumns(said, prose)
	acquit(said, prose)
	var alike run
	for i, n := range prose {
		line := &r.lines[n]
		if said[i] != nil && said[i].Code != "" {
			if said[i].Severity != diag.Note {
				line.Kind, line.Meant, line.Above = Unread, said[i].meant, said[i].above
			}
			list = alike.add(list, said[i], n)
		} else if said[i] == nil && r.now != nil && !r.afterLog(n) {
			text := strings.Clone(r.src[line.Body:line.BodyEnd])
			r.now.prose[text] = text
		}
	}
	return list
}

// run is lines of which one thing is to be said, close to one another: the rows of a
// table, forty sheets in columns. Few are reported each where it stands, many at the
// first.
type run struct {
	many  string // what is said of many; "" where no run goes on
	last  int    // line
	lines int
	at    []int // the findings of the first few in the list
}

// near is how many lines on a run goes on: a blank one and a remark may stand between.
const near = 3

// fewest is how many lines near one another must look alike where one alone would prove
// nothing.
const fewest = 3

// acquit leaves alone the lines that are suspicious only in company and have none.
func acquit(said []*suspicion, lines []int) {
	for i := 0; i < len(said); {
		if said[i] == nil || !said[i].company {
			i++
			continue
		}
		end, rows := i+1, 1 // of the run, which lines that are suspicious alone belong to
		for last := i; end < len(said) && lines[end] <= lines[last]+near; end++ {
			if said[end] != nil && said[end].Code != "" {
				last = end
				rows++
			}
		}
		for ; i < end; i++ {
			if said[i] != nil && said[i].company && rows < fewest {
				said[i] = &suspicion{}
			}
		}
	}
}

// inColumns makes one thing of rows that stand one below the other and begin as sheets do,
// where there is not the same to say of all: none of them is read, and what would mend some
// would make the others worse.
func inColumns(said []*suspicion, lines []int) {
	for i := 0; i < len(said); {
		end := i
		for end < len(said) && said[end] != nil && said[end].row && lines[end] == lines[i]+end-i {
			end++
		}
		rows := said[i:end]
		i = max(end, i+1)
		first := slices.IndexFunc(rows, func(s *suspicion) bool { return s.Code != "" && (!s.company || len(rows) >= fewest) })
		if first < 0 || len(rows) < 2 || !slices.ContainsFunc(rows, func(s *suspicion) bool {
			return s.Many != rows[first].Many || s.Code != rows[first].Code
		}) {
			continue
		}
		for _, s := range rows {
			s.Diagnostic = diag.Diagnostic{
				Code: "unknown-label", Severity: diag.Error, Span: s.whole, Message: "this row is not read",
				Notes: []diag.Aside{{Text: "a sheet's line has a colon behind its label: 3A: Y8, 1/30 f16"}},
				Many:  "stand in columns and are not read",
			}
			s.company, s.one = false, true
		}
	}
}

// mostAlike is how many lines are reported each by itself.
const mostAlike = 3

// add puts a finding into the list, or counts it to those before that say the same.
func (r *run) add(list diag.List, s *suspicion, line int) diag.List {
	if s.Many == "" || r.many != s.Many || line > r.last+near {
		*r = run{many: s.Many}
	}
	r.last = line
	if r.lines++; r.lines == 1 || r.lines <= mostAlike && !s.one {
		r.at = append(r.at, len(list))
		return append(list, s.Diagnostic)
	}
	for len(r.at) > 1 {
		second := r.at[1]
		list[r.at[0]].Also = append(list[r.at[0]].Also, list[second].Span)
		list, r.at = slices.Delete(list, second, second+1), slices.Delete(r.at, 1, 2)
		for i := range r.at[1:] {
			r.at[1+i]--
		}
	}
	first := &list[r.at[0]]
	first.Also = append(first.Also, s.Span)
	first.Message, first.Fix = fmt.Sprintf("%d lines from here to line %d %s", r.lines, line+1, r.many), nil
	return list
}

// afterLog reports whether the line before another is a log line.
func (r *reading) afterLog(line int) bool { return line > 0 && r.lines[line-1].Kind == Log }

// innocent reports whether a line is remembered as one in which nothing looked
// like a log line. Behind a log line more is looked at.
func (r *reading) innocent(line *Line, after bool) bool {
	if r.now == nil || after {
		return false
	}
	text, ok := r.before.prose[r.src[line.Body:line.BodyEnd]]
	if ok {
		r.now.prose[text] = text
	}
	return ok
}

// doubtful is a prose line that may have been meant as a log line.
type doubtful struct {
	*reading
	bench   *bench
	line    int
	start   int // offset in the file
	folded  source.Folded
	text    string // folded
	low     string // in lower case
	meant   Word   // the log word that is missing or misspelled, once it is known
	hangs   bool   // what is found hangs on other lines
	many    string // what is said of many such lines
	company bool   // one such line alone is nothing
	above   bool   // what it says may be of the sheets above it, too
}

// at is a stretch of the line by its folded offsets.
func (l *doubtful) at(from, to int) source.Span {
	start := l.start + l.folded.At(from)
	return l.reading.span(start, max(start, l.start+l.folded.End(to)))
}

// suspicion is what is wrong with a prose line that looks like a log line, and the
// log word that it was to begin with. Without a code nothing is wrong, but that
// hangs on other lines and is not to be remembered.
type suspicion struct {
	diag.Diagnostic
	meant   Word
	company bool // only where several such lines stand close to one another
	row     bool // in columns, with a sheet's label before them
	above   bool // may be said of the sheets above, too
	one     bool // with those beside it one finding, however few
	whole   source.Span
}

// suspect is what is wrong with a prose line, or nil.
func (r *reading) suspect(i int, after bool, b *bench) *suspicion {
	line := r.lines[i]
	text := r.src[line.Body:line.BodyEnd]
	if len(text) > longestLine {
		if _, isLog := readHead(source.Fold(text[:longestHead]).Text, r.names); !isLog {
			return nil
		}
		return &suspicion{Diagnostic: diag.Diagnostic{
			Code: "line-too-long", Severity: diag.Error, Span: r.span(line.Body, line.Body+longestHead),
			Message: "a log line of more than 64 KB is not read",
		}}
	}
	l := doubtful{reading: r, bench: b, line: i, start: line.Body, folded: source.Fold(text), hangs: r.comments[i]}
	var inside string
	if l.text, inside = withoutComments(l.folded.Text, r.comments[i]); strings.TrimSpace(l.text) == "" {
		return l.inComment(inside)
	}
	l.low = lower(l.text)
	d, ok := l.look(after, r.src[:line.Start])
	_, _, row := l.row()
	if !ok && !l.hangs && !row {
		return nil
	}
	d.Many = l.many
	return &suspicion{Diagnostic: d, meant: l.meant, company: l.company, above: l.above, one: l.text[0] == '|', row: row, whole: l.at(0, len(l.text))}
}

// look asks one after the other what could be wrong with a line.
func (l *doubtful) look(after bool, before string) (diag.Diagnostic, bool) {
	if l.ofNoSheet() {
		l.hangs = true // on the head of its table
		return diag.Diagnostic{}, false
	}
	figures := strings.ContainsAny(SidesInFigures(l.text), "0123456789")
	if d, ok := l.misspelled(); ok {
		return d, ok
	}
	if d, ok := l.explains(); ok {
		return d, ok
	}
	if after && l.goesOn(before) {
		return l.joins(Sheet), true
	}
	if !figures {
		if d, ok := l.colonless(); ok {
			return d, ok
		}
		if d, ok := l.inMarkup(); ok {
			return d, ok
		}
		if d, ok := l.below(); ok {
			return d, ok
		}
		if d, ok := l.filterAlone(); ok {
			return d, ok
		}
		return l.standing()
	}
	for _, look := range [...]func(*doubtful) (diag.Diagnostic, bool){(*doubtful).unlabelled, (*doubtful).mislabelled, (*doubtful).inMarks, (*doubtful).colonless, (*doubtful).inMarkup, (*doubtful).below, (*doubtful).strange} {
		if d, ok := look(l); ok {
			return d, true
		}
	}
	if d, ok := l.indexAlone(); ok {
		return d, true
	}
	if d, ok := l.corrects(); ok {
		return d, true
	}
	if d, ok := l.lost(); ok {
		return d, true // and no end of the line above
	}
	if d, ok := l.headed(); ok {
		return d, true // nor here
	}
	if d, ok := l.settingAlone(); ok {
		return d, true
	}
	if d, ok := l.readingAlone(); ok {
		return d, true
	}
	if after && !isBullet(l.text) && !wordsAndColon().MatchString(l.text) {
		if d, ok := l.wrapped(before); ok {
			return d, true
		}
	}
	for _, look := range [...]func(*doubtful) (diag.Diagnostic, bool){(*doubtful).filterAlone, (*doubtful).standing, (*doubtful).saidBetween, (*doubtful).headless, (*doubtful).plateAlone} {
		if d, ok := look(l); ok {
			return d, ok
		}
	}
	return l.listed()
}

// wordsAndColon is how a line begins that is no end of the one above: wall: EV 8 on III.
var wordsAndColon = pattern.Lazily(`^[A-Za-z][A-Za-z ]{1,30}: `)

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprint(n, " ", many)
}
