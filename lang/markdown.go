package lang

import (
	"reflect"
	"strings"
	"sync"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"notchbook/lang/source"
)

// A log line must be read wherever a tired hand put it: above a rule that would
// make it a heading, indented into a code block, in a quote, lazily behind a
// list. Markdown has a rule for each of these that would swallow it. So the log
// line is a block of its own, tried before every other kind of block on every
// line, and one that may interrupt a paragraph. Only a fenced block keeps its
// lines, so that documentation can show the notation, and what apart.go tells of.

// logLines is goldmark's view of the notation.
type logLines struct{}

func (logLines) Trigger() []byte                             { return nil }
func (logLines) CanInterruptParagraph() bool                 { return true }
func (logLines) CanAcceptIndentedLine() bool                 { return true }
func (logLines) Close(ast.Node, text.Reader, parser.Context) {}
func (logLines) Continue(ast.Node, text.Reader, parser.Context) parser.State {
	return parser.Close
}

// Open takes the line if it is a log line. It looks at the file itself, not at
// what goldmark has made of tabs and indents, so that offsets stay exact.
func (logLines) Open(_ ast.Node, reader text.Reader, pc parser.Context) (ast.Node, parser.State) {
	r := pc.Get(readingKey).(*reading)
	_, segment := reader.PeekLine()
	n, start := r.place(segment.Start)
	line := &r.lines[n]
	if start >= line.BodyEnd || r.commented(n, start) || line.BodyEnd-start > longestLine || !hasColon(r.src[start:line.BodyEnd]) {
		return nil, parser.NoChildren
	}
	if r.deep(n, start) && isBullet(r.src[start:line.BodyEnd]) {
		start += len("- ")
	}
	found, ok := r.logLine(start, line.BodyEnd)
	if !ok {
		return nil, parser.NoChildren
	}
	line.Kind, line.Body = Log, start
	reader.AdvanceToEOL()
	found.node = next(&r.nodes, len(r.found))
	r.found = append(r.found, found)
	return found.node, parser.NoChildren
}

// logLine reads a line's head, if it is a log line, and learns what it declares.
func (r *reading) logLine(at, end int) (*logLine, bool) {
	l := next(&r.blank, len(r.found))
	*l = logLine{file: r.file, at: at, end: end, knew: len(r.names.taught)}
	if l.kept = r.before.log[r.src[at:end]]; l.kept != nil && l.kept.knew == l.knew && l.kept.head.year == r.names.dating() && r.knowsAsBefore(l.knew) {
		k := l.kept
		l.head, l.folded = k.head, k.folded
		if k.knows == k.knew {
			l.knows = l.knew
			if l.head.how.word == Day {
				r.underYear(l)
			}
			return l, true
		}
	} else {
		var ok bool
		l.folded = source.Fold(r.src[at:end])
		if l.head, ok = readHead(l.folded.Text, r.names); !ok {
			return nil, false
		}
		l.head.year = r.names.dating()
	}
	r.learn(l)
	l.knows = len(r.names.taught)
	return l, true
}

// next takes a thing from some that were made together; there are more of them the more there were
// before, since each by itself would cost more than what is read into it.
func next[T any](blank *[]T, before int) *T {
	const fewest, most = 4, 64
	if len(*blank) == 0 {
		*blank = make([]T, min(max(before, fewest), most))
	}
	one := &(*blank)[0]
	*blank = (*blank)[1:]
	return one
}

// deep reports whether so many blanks stand before the text of a line that
// Markdown takes it for code.
func (r *reading) deep(n, start int) bool {
	before := r.src[r.lines[n].Start:start]
	return len(before) >= 4 || strings.Contains(before, "\t")
}

// isBullet reports whether a text begins as an item of a list.
func isBullet(text string) bool {
	return len(text) > 1 && strings.IndexByte("-*+", text[0]) >= 0 && text[1] == ' '
}

// longestLine is the longest log line that is read.
const longestLine = 64 << 10

var readingKey = parser.NewContextKey()

// markdown is goldmark without its readers of HTML: what looks like HTML is
// text, and an unclosed comment hides nothing.
var markdown = parser.NewParser(
	parser.WithBlockParsers(append(boundedBlocks(without(parser.DefaultBlockParsers(), parser.NewHTMLBlockParser())),
		util.Prioritized(frontMatter{}, 0), util.Prioritized(logLines{}, 1))...),
	parser.WithInlineParsers(append(without(parser.DefaultInlineParsers(), parser.NewRawHTMLParser()),
		util.Prioritized(unmarked{}, 1), util.Prioritized(struck{}, 500))...),
	parser.WithParagraphTransformers(util.Prioritized(few{parser.LinkReferenceParagraphTransformer}, 100), util.Prioritized(newNarrow(), 200)),
	parser.WithASTTransformers(util.Prioritized(unstroked{}, 0)),
)

// without leaves out the parser of the same type as the one given.
func without(all []util.PrioritizedValue, drop any) []util.PrioritizedValue {
	var kept []util.PrioritizedValue
	for _, p := range all {
		if reflect.TypeOf(p.Value) != reflect.TypeOf(drop) {
			kept = append(kept, p)
		}
	}
	return kept
}

// reading is the state of one Parse.
type reading struct {
	file   *source.File
	src    string // the file's text
	names  *Lexicon
	lines  []Line
	base   int // bytes of the byte-order mark
	placed int // the line that was last asked for: the next is mostly it, or the one behind
	found  []*logLine
	blank  []logLine // for those that are found next, and their nodes
	nodes  []LogLine

	front    int          // the line with which front matter ends; 0 where there is none
	comments map[int]bool // the lines that begin within a comment: see apart.go

	dated int    // the line up to which a year was looked for that is lent to the days below
	lent  string // that year, and the level of its heading
	level int

	before, now *edition // what is remembered, and what will be; now is nil where nobody remembers
	agreed      int      // as far as is known, how much the lexicon was taught as before

	left     []*later // what is left for later
	read     []*Statement
	telling  sync.Once // fills the three below when they are first asked for
	told     map[dayLabel]bool
	exposing map[string][]*Statement // by label, in lower case
	days     []int                   // the lines at which a day begins

	// What is beyond a bound: see bounds.go.
	counted  ast.Node // the block whose marks were counted last
	crowded  bool     // and whether it has more than are read
	beyond   string
	beyondAt int
}

// dayLabel is a label on the nth day of a notebook.
type dayLabel struct {
	day   int
	label string
}

// markdown runs goldmark over the file.
func (r *reading) markdown() ast.Node {
	pc := &lender{parser.NewContext(), len(r.src) + borrowed}
	pc.Set(readingKey, r)
	return markdown.Parse(text.NewReader(r.file.Flat()[r.base:]), parser.WithContext(pc))
}

// place is the line that holds goldmark's offset, and the offset in the file of
// the first byte there that is not blank.
func (r *reading) place(offset int) (line, start int) {
	start = offset + r.base
	line = r.placed
	if r.lines[line].Close <= start && line+1 < len(r.lines) {
		line++
	}
	if r.lines[line].Start > start || r.lines[line].Close <= start {
		line = r.lineAt(start)
	}
	r.placed = line
	for start < r.lines[line].BodyEnd && isSpace(r.file.Text[start]) {
		start++
	}
	return line, start
}

func (r *reading) lineAt(offset int) int {
	low, high := 0, len(r.lines)
	for low+1 < high {
		if mid := (low + high) / 2; r.lines[mid].Start <= offset {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// learn keeps the names, labels and words that a line declares.
func (r *reading) learn(l *logLine) {
	how := l.head.how
	if how.word == Day {
		r.underYear(l)
	}
	for _, said := range l.head.labels {
		switch how.word {
		case Camera, Lens, Film, FilterWord:
			name := lower(said.text)
			learn(r.names, aName, &r.names.Names, name, how.word)
			if code := CodeIn(name); how.word == FilterWord && code != "" && code != name && r.names.Names[code] == "" {
				learn(r.names, aName, &r.names.Names, code, how.word)
			}
		case Load, Sheet:
			if how.word == Sheet && numbersAlone(said.text) {
				learn(r.names, aSeries, &r.names.series, numbers, true)
			}
			if single(said.text) {
				r.names.learnLabel(said.text)
				continue
			}
			for _, label := range said.written(how.word) {
				r.names.learnLabel(label)
			}
		}
	}
	if how.word == OwnWord || how.word == Call {
		r.learnOwn(how.word, l.statement(r.names, newBench()).TextSpan())
	}
}

// tile splits the file into lines: indent, text, trailing blanks with the end.
func tile(file *source.File, src string) []Line {
	starts := file.Lines()
	lines := make([]Line, len(starts))
	for i, start := range starts {
		end := len(src)
		if i+1 < len(starts) {
			end = starts[i+1]
		}
		stop := file.NthLine(i).End
		for stop > start && isSpace(src[stop-1]) {
			stop--
		}
		body := start
		for body < stop && isSpace(src[body]) {
			body++
		}
		lines[i] = Line{Kind: Prose, Start: start, Body: body, BodyEnd: stop, Close: end}
		if body == stop {
			lines[i].Kind = Blank
		}
	}
	return lines
}
