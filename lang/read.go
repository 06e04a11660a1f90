package lang

import (
	"bytes"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"

	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// Parse reads a notebook. There is always a tree: what could not be read stands
// in it as typed and is reported. The lexicon is extended by what the notebook
// declares and logs.
func Parse(file *source.File, names *Lexicon) (*Notebook, diag.List) {
	return parse(file, names, false)
}

func parse(file *source.File, names *Lexicon, later bool) (*Notebook, diag.List) {
	r := &reading{file: file, src: file.Whole(), names: names, base: file.Mark()}
	r.lines = tile(file, r.src)
	book := &Notebook{File: file, Lines: r.lines}
	if why := notText(file.Text); why != "" {
		return r.refuse(book, why)
	}
	if len(file.Text) == 0 {
		book.Prose = ast.NewDocument()
		return book, nil
	}
	r.lines[0].Body = max(r.lines[0].Body, r.base)
	r.before = names.Memory.recall(file.Name)
	r.front = r.frontEnd()
	names.year, names.dayed = "", false
	book.Prose = r.markdown()
	r.follow()
	if names.puzzled {
		return book, nil // the terms may be others when it is its turn
	}
	if later {
		r.leave()
	}
	said := append(r.statements(book), r.foreign(), r.bounds(), r.unread(book))
	if book.later = r.left; len(r.left) > 0 {
		names.crew.add(r.left)
	}
	return book, slices.Concat(said...)
}

// statements reads the terms of every log line that was found, and says what is
// wrong with each.
func (r *reading) statements(book *Notebook) []diag.List {
	book.Statements = make([]*Statement, len(r.found))
	said := make([]diag.List, len(r.found))
	same := r.remember()
	r.sideBySide(len(r.found), func(i int, b *bench) {
		l := r.found[i]
		switch {
		case r.now != nil:
			if !same || l.kept == nil || !l.kept.head.same(&l.head) {
				l.kept = r.readAlone(l, b)
			}
			l.node.Statement, said[i] = l.kept.at(r.file, l.at)
		case l.piece != nil:
			l.node.Statement = l.begun()
			l.node.Statement.later = l.piece
		default:
			l.node.Statement = l.statement(r.names, b)
			said[i] = lint(l.node.Statement, r.names)
		}
		book.Statements[i] = l.node.Statement
	})
	if r.now != nil {
		for _, l := range r.found {
			l.kept.knew, l.kept.knows = l.knew, l.knows
			r.now.log[l.kept.text] = l.kept
		}
	}
	r.found = nil
	return said
}

// foreign reports the first bytes that are not UTF-8: what they stand for was
// not read.
func (r *reading) foreign() diag.List {
	if utf8.Valid(r.file.Text) {
		return nil
	}
	at := 0
	for at < len(r.src) {
		c, size := utf8.DecodeRuneInString(r.src[at:])
		if c == utf8.RuneError && size == 1 {
			break
		}
		at += size
	}
	return diag.List{{
		Code: "not-text", Severity: diag.Error, Span: r.span(at, min(at+1, len(r.src))), Message: "from here on there are bytes that are not UTF-8",
		Notes: []diag.Aside{{Text: "they are kept and not read; save the notebook as plain text in UTF-8 and compile again"}},
	}}
}

// sideBySide does n pieces of work on all cores. By then the lexicon is
// complete and only read, so that lines do not depend on one another.
func (r *reading) sideBySide(n int, do func(i int, b *bench)) {
	const piece = 64 // lines that one core takes at a time
	if n <= piece || r.names.listens {
		b := r.names.crew.bench()
		defer r.names.crew.back(b)
		for i := range n {
			do(i, b)
		}
		return
	}
	var (
		next atomic.Int64
		all  sync.WaitGroup
	)
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			b := r.names.crew.bench()
			defer r.names.crew.back(b)
			for {
				from := int(next.Add(piece)) - piece
				for i := from; i < min(from+piece, n); i++ {
					do(i, b)
				}
				if from+piece >= n {
					return
				}
			}
		})
	}
	all.Wait()
}

// follow hands on the paths of the `use:` lines.
func (r *reading) follow() {
	for _, l := range r.found {
		if l.head.how.word == Use && r.names.Follow != nil {
			r.names.Follow(l.statement(r.names, newBench()).TextSpan())
		}
	}
}

// refuse shows a file that is not text as what it is: nothing of it is read.
func (r *reading) refuse(book *Notebook, why string) (*Notebook, diag.List) {
	for i := range book.Lines {
		book.Lines[i].Kind = Unread
	}
	book.Prose = ast.NewDocument()
	return book, diag.List{{
		Code: "not-text", Severity: diag.Error, Span: source.Span{File: r.file},
		Message: why, Notes: []diag.Aside{{Text: "save it as plain text in UTF-8 and compile again"}},
	}}
}

// notText says why a file cannot be a notebook, or nothing.
func notText(text []byte) string {
	head := text[:min(len(text), 8<<10)]
	switch {
	case bytes.HasPrefix(head, []byte{0xFF, 0xFE}), bytes.HasPrefix(head, []byte{0xFE, 0xFF}):
		return "this file is UTF-16, not UTF-8"
	case bytes.Count(head, []byte{0}) > max(4, len(head)/64): // a stray one is no reason
		return "this file is not text"
	case bytes.HasPrefix(head, []byte(`{\rtf`)):
		return "this file is rich text (RTF), not plain text"
	}
	return ""
}

// logLine is a log line of which the head is read.
type logLine struct {
	node    *LogLine // where it stands in goldmark's tree
	file    *source.File
	at, end int // of what is folded
	folded  source.Folded
	head    head

	knew, knows int       // lessons of the lexicon before and behind the head
	kept        *keptLine // of the edition before, then of this one
	piece       *later    // with which its terms are read, where they are left for later
}

// begun is a log line of which the head alone is read.
func (l *logLine) begun() *Statement {
	h := &l.head
	span := func(from, to int) source.Span {
		start := l.at + l.folded.At(from)
		return source.Span{File: l.file, Start: start, End: max(start, l.at+l.folded.End(to))}
	}
	rest := func(from int) source.Span {
		start := l.at + l.folded.At(from)
		return source.Span{File: l.file, Start: start, End: max(start, l.end)}
	}
	s := &Statement{Span: rest(h.from), Word: h.how.word, Said: span(h.word, h.said), Either: h.either, Body: rest(h.body)}
	if h.word == h.said {
		s.Said.End = s.Said.Start
	}
	if h.hour.end > 0 && (h.hour.half || !h.hour.short) {
		s.Hour = clock(h.hour.seconds)
	}
	for _, label := range h.labels {
		var day source.Span
		if label.dayTo > label.day {
			day = span(label.day, label.dayTo)
		}
		if label.open && h.how.word == Sheet {
			s.open = span(label.start, label.end)
		}
		s.Labels = labels(s.Labels, h.how, label, span(label.start, label.end), day)
	}
	return s
}

// statement reads a log line's terms.
func (l *logLine) statement(names *Lexicon, b *bench) *Statement {
	s, h := l.begun(), &l.head
	if h.how.free || chooses(s) {
		s.freeText(&l.folded, h.body)
		if s.Word == Film || s.Word == Load {
			l.rated(s, names, b)
		}
		return s
	}
	if s.Word == FilterWord && len(s.Labels) == 0 {
		h.how.field |= onChosen
	}
	s.terms = readTerms(l.file, l.at, &l.folded, h.body, h.how, names, b)
	return s
}

// chooses reports whether a line names the thing to use, which is the name and
// nothing else.
func chooses(s *Statement) bool {
	return len(s.Labels) == 0 && (s.Word == Camera || s.Word == Lens || s.Word == Film) || s.Word == Load
}

// rated takes from a film's name what follows it of the film's own facts: "slate, EI
// 200", "slate EI 200". Where something follows that is none, all of it is the name. A
// full stop ends both, and what stands behind it is a remark: "slate. Set meter to 400".
func (l *logLine) rated(s *Statement, names *Lexicon, b *bench) {
	body := lower(l.folded.Text[l.head.body:])
	stop := nameStop(body, names)
	body = body[:stop]
	behind := s.Body.Sub(l.folded.At(l.head.body+stop)-l.folded.At(l.head.body), s.Body.End-s.Body.Start)
	if rest := strings.TrimLeft(behind.Text(), ". \t"); rest != "" {
		behind.Start = behind.End - len(rest)
		s.Text = strings.TrimSpace(s.Body.Sub(0, l.folded.At(l.head.body+stop)-l.folded.At(l.head.body)).Text())
		s.terms = []Term{{Kind: &Remark{Text: rest}, Span: behind}}
	}
	end := strings.IndexByte(body, ',')
	from := end + 1
	for _, lead := range [...]struct {
		words string
		skip  int // to the term
	}{{" rated ", 1}, {" shot at ", 1}, {" exposed at ", 1}, {" at ei ", len(" at ")}, {" ei ", 1}} {
		said, _, _ := strings.Cut(body, " -- ")
		if at := strings.Index(said, lead.words); end < 0 && at > 0 {
			end, from = at, at+lead.skip
		}
	}
	var bare []Term
	start := skip(body, 0)
	if name := start + names.longest(body[start:]); name > start {
		if figure, stop := bareIndex(body, name); stop > name { // stone at 50
			at := s.Body.Sub(l.folded.At(l.head.body+figure)-l.folded.At(l.head.body), l.folded.At(l.head.body+stop)-l.folded.At(l.head.body))
			bare = []Term{{Kind: &FilmEI{EI: Number(number(body[figure:stop]))}, Span: at}}
			end, from = name, stop
		} else if from == 0 && skip(body, name) < len(body) { // stone (EI 50), stone EI50
			end, from = name, skip(body, name)
		}
	}
	if end < 0 {
		return
	}
	from += l.head.body
	terms := readTerms(l.file, l.at, &l.folded, from, words["film"], names, b)
	terms = slices.DeleteFunc(terms, func(t Term) bool {
		return t.Span.Start >= l.at+l.folded.At(l.head.body+stop) && stop < len(l.folded.Text)-l.head.body
	})
	terms = append(bare, terms...)
	facts := 0
	for i := range terms {
		switch terms[i].Kind.(type) {
		case *ISO, *OldSpeed, *FilmEI, *MeterEI, *Class, *RuleOf:
			facts++
		case *Comma, *Remark:
		default:
			return
		}
		if terms[i].Unread {
			return
		}
	}
	if facts > 0 {
		name := s.Body.Sub(0, l.folded.At(l.head.body+end)-l.folded.At(l.head.body))
		if stop < len(l.folded.Text)-l.head.body {
			terms = append(terms, s.terms...)
		}
		s.Text, s.terms = strings.TrimSpace(name.Text()), terms
	}
}

// bareIndex is the film's index without its sign behind a declared film's name, and where it
// ends: at 50, @ 50. Elsewhere a bare figure may count other things: stone at 50 yards.
func bareIndex(body string, name int) (figure, stop int) {
	behind := unit(body, name, "at", "@")
	figure = skip(body, behind)
	stop = digits(body, figure)
	next := skip(body, stop)
	if behind == name || !slices.Contains(atDegrees, body[figure:stop]) || next < len(body) && strings.IndexByte(",(", body[next]) < 0 && !strings.HasPrefix(body[next:], "--") {
		return 0, 0
	}
	return figure, stop
}

// nameStop is where a full stop ends a film's name, or the end. A declared name may have
// one in it, and so may a number: no. 4.
func nameStop(body string, names *Lexicon) int {
	for i := names.longest(body[skip(body, 0):]); ; i++ {
		at := strings.Index(body[min(i, len(body)):], ". ")
		if at < 0 || i > len(body) {
			return len(body)
		}
		i += at
		if word := body[strings.LastIndexAny(body[:i], " \t")+1 : i]; word != "no" && word != "nr" && !strings.HasPrefix(strings.TrimLeft(body[i:], ". \t"), "--") && strings.TrimLeft(body[i:], ". \t") != "" {
			return i
		}
	}
}

// labels adds the labels of a word: one name as typed, or sheets written out.
func labels(all []Label, how manner, l labelAt, span, day source.Span) []Label {
	if how.labels == 1 || single(l.text) {
		return append(all, Label{l.text, span, day})
	}
	written := l.written(how.word)
	all = slices.Grow(all, len(written))
	for _, text := range written {
		all = append(all, Label{text, span, day})
	}
	return all
}

// freeText keeps the body as one text, a remark behind a dash apart.
func (s *Statement) freeText(folded *source.Folded, body int) {
	text := s.Body.Text()
	end := len(text)
	for i, quoted := body+1, false; i+2 < len(folded.Text); i++ {
		quoted = quoted != (folded.Text[i] == '"' && s.Word == Scan) // a file's name may have all in it
		if quoted || !isSpace(folded.Text[i-1]) {
			continue
		}
		if rest := folded.Text[i:]; strings.HasPrefix(rest, "--") && isSpace(rest[2]) || commentAt(rest, 0) == len(rest) {
			end = folded.At(i) - folded.At(body)
			break
		}
	}
	s.Text = strings.TrimSpace(text[:end])
	switch s.Word {
	case Sleeve, Neg, Print:
		s.bracketed()
	case Result:
		s.terms = losses(s)
	case Scene, Test:
		s.terms = trial(s)
	}
	if rest := s.Body.Sub(end, len(text)); end < len(text) {
		s.terms = append(s.terms, Term{Kind: &Remark{Text: unwrap(rest.Text())}, Span: rest})
	}
}

// bracketed keeps what stands in ( ) at the end of the text as a remark.
func (s *Statement) bracketed() {
	at := s.TextSpan()
	open := 0
	for i := len(s.Text) - 1; i > 0 && strings.HasSuffix(s.Text, ")"); i-- {
		switch s.Text[i] {
		case ')':
			open++
		case '(':
			open--
		}
		if open > 0 {
			continue
		}
		if said := strings.TrimSpace(s.Text[:i]); said != "" && isSpace(s.Text[i-1]) {
			behind := at.Sub(i, len(s.Text))
			s.terms = append(s.terms, Term{Kind: &Remark{Text: unwrap(behind.Text())}, Span: behind})
			s.Text = said
		}
		return
	}
}

// losses finds the words for what spoils a sheet in the text of a result.
func losses(s *Statement) []Term {
	var found []Term
	text := s.TextSpan()
	low := lower(Unstruck(text.Text()))
	for i := 0; i < len(low); {
		end := letterRun(low, i)
		kind, ok := lossWords[low[i:end]]
		switch leaked := gotIn(low, i); {
		case leaked > i:
			end, kind, ok = leaked, "leak", true
		case low[i:end] == "exposure" && strings.HasSuffix(low[:i], "double "):
			kind, ok = "double", judges(low, end)
		case low[i:end] == "exposed" && (strings.HasSuffix(low[:i], "double ") || wordAfter(low, end, "twice") > end):
			kind, ok = "double", true
		}
		if ok && !denied(low, i, end) && (!plainWords[low[i:end]] || judges(low, end)) && (kind != "gone" || isGone(low, i, end)) {
			found = append(found, Term{Kind: &Loss{Word: kind}, Span: text.Sub(i, end)})
		}
		i = max(end, i+1)
	}
	return found
}

// denied reports whether a verdict says that the sheet is free of what stands from i to
// end, or doubts it: fogged?, perhaps a leak, no leak at all, not fogged, nearly left the slide in, no sign of a light leak, dust-free, leaks: none.
func denied(low string, i, end int) bool {
	switch words := strings.Fields(strings.NewReplacer("-", " ", ":", " ").Replace(low[end:])); {
	case len(words) > 0 && (words[0] == "free" || strings.HasPrefix(strings.TrimLeft(low[end:], " "), ":") && (strings.HasPrefix(words[0], "no"))):
		return true
	}
	if at(low, skip(low, end)) == '?' {
		return true
	}
	clause := low[strings.LastIndexAny(low[:i], ",.;!(")+1 : i]
	words := strings.Fields(clause)
	for n := len(words) - 1; n >= 0; n-- {
		switch word := words[n]; {
		case word == "maybe" || word == "perhaps" || word == "possibly":
			return true
		case word == "no" || word == "not" || word == "without" || word == "never" || word == "nor" || word == "neither" || strings.HasSuffix(word, "n't"):
			return true
		case word == "nearly" || word == "almost":
			return n+1 == len(words) || words[n+1] != "all"
		case !between[word] && lossWords[word] == "":
			return false
		}
	}
	return false
}

// between may stand between a denial and what is denied.
var between = func() map[string]bool {
	all := map[string]bool{}
	for _, word := range strings.Fields("a an any the more much real visible light camera dark sign signs trace traces of or nor and been was at all even really badly left my edge shutter") {
		all[word] = true
	}
	return all
}()

// isGone reports whether a word such as lost, from i to end, is said of the negative and of
// nothing in the picture: it begins what is said, and no thing follows. Lost the shadows and a
// barn lost in mist are no lost sheets.
func isGone(low string, i, end int) bool {
	clause := low[strings.LastIndexAny(low[:i], ",.;:!(")+1 : i]
	for word := range strings.FieldsSeq(clause) {
		switch word {
		case "it", "is", "was", "got", "now", "the", "this", "negative", "neg", "sheet", "plate", "film", "one", "both", "all", "since", "also", "been", "has":
		default:
			return false
		}
	}
	rest := strings.TrimLeft(low[end:], " ")
	for _, place := range goneTo {
		if strings.HasPrefix(rest, place) {
			return true
		}
	}
	return judges(low, end)
}

// goneTo is where negatives are lost, and to what.
var goneTo = []string{"in the post", "in the mail", "in the wash", "in the tank", "in the move", "in the dark", "in the fire", "in the flood", "in the lab", "at the lab", "by the lab", "in transit", "to ", "for good", "somewhere"}

// plainWords are said of a subject too: the ruined mill, a blank wall.
var plainWords = map[string]bool{"blank": true, "ruined": true, "wasted": true}

// judges reports whether such a word ends what is said, or goes on as a verdict does.
func judges(low string, end int) bool {
	next := skip(low, end)
	if next == len(low) || strings.IndexByte(",.;:!-(", low[next]) >= 0 {
		return true
	}
	switch low[next:letterRun(low, next)] {
	case "film", "sheet", "negative", "frame", "again", "by", "when", "because", "after", "since", "as":
		return true
	}
	return false
}

// lossWords are the ways a sheet is lost, by the words people have for them.
var lossWords = map[string]string{
	"leak": "leak", "leaks": "leak", "leaked": "leak", "dust": "dust", "dusty": "dust", "scratch": "scratch", "scratched": "scratch",
	"scratches": "scratch", "shake": "shake", "shaken": "shake", "shook": "shake", "slide": "slide", "misfire": "misfire", "misfired": "misfire",
	"darkslide": "slide", "fogged": "fogged", "spoiled": "spoiled", "spoilt": "spoiled", "ruined": "spoiled", "wasted": "spoiled", "blank": "blank",
	"lost": "gone", "mislaid": "gone", "destroyed": "gone",
}

func (r *reading) span(start, end int) source.Span {
	return source.Span{File: r.file, Start: start, End: max(start, end)}
}
