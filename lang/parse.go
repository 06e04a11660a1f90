package lang

import (
	"strings"
	"sync"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"notchbook/lang/source"
)

// grammar is one type of term.go as a parser: the term that tokens begin with,
// and how many of them it takes; nil where they begin with none.
type grammar func(lex *lexer.PeekingLexer) (kind any, took int)

// definition tells participle the names of the tokens; the tokens themselves
// are handed over ready, a line at a time.
type definition struct{ lexer.Definition }

func (definition) Symbols() map[string]lexer.TokenType { return symbols }

// of builds a grammar when the first term of its kind is read: few notebooks have
// terms of all kinds, and a short note would wait longer for the grammars than for
// its findings.
func of[T any]() grammar {
	p := sync.OnceValue(func() *participle.Parser[T] {
		return participle.MustBuild[T](participle.Lexer(definition{}), participle.UseLookahead(4))
	})
	return func(lex *lexer.PeekingLexer) (any, int) {
		from := lex.Checkpoint
		v, err := p().ParseFromLexer(lex, participle.AllowTrailing(true))
		took := lex.Cursor() - from.Cursor()
		lex.Checkpoint = from
		if err != nil || took == 0 {
			return nil, 0
		}
		return v, took
	}
}

// grammars chooses a term by its first token. A union of all terms would do
// the same, trying one after the other.
var grammars = func() map[lexer.TokenType]grammar {
	exposure, amount := of[Exposure](), of[Amount]()
	return map[lexer.TokenType]grammar{
		tArrow: of[Arrow](), tCue: of[Cue](), tAperture: exposure, tTime: exposure, tCount: exposure,
		tBulb: exposure, tEV: exposure, tAt: exposure, tD: of[Densitometer](), tZone: of[Placed](), tEI: of[FilmEI](),
		tMeterEI: of[MeterEI](), tISO: of[ISO](), tOldSpeed: of[OldSpeed](), tSunny: of[Sunny16](), tFilter: of[Stack](), tPlus: of[Stack](),
		tDrop: of[Drop](), tFactor: amount, tStops: amount, tDensity: amount, tClass: of[Class](), tN: of[N](),
		tHold: of[Hold](), tExt: of[Extension](), tExtFrom: of[ExtensionRange](), tScale: of[Magnification](),
		tFocus: of[Focus](), tBellows: of[Bellows](), tMovement: of[Movement](), tBracket: of[Bracket](), tSame: of[Same](),
		tChoose: of[Choose](), tState: of[State](), tNegative: of[Negative](), tFiled: of[Filed](), tClock: of[Clock](), tDate: of[Date](),
		tDay: of[Date](), tDilution: of[Dilution](), tBatch: of[Batch](), tDegrees: of[Temperature](), tEquals: of[Sum](),
		tNo: of[Withdraw](), tNot: of[Withdraw](), tNth: of[Nth](), tFalls: of[Falls](), tLength: of[Millimetres](),
		tCircle: of[Circle](), tFlange: of[Flange](), tClicks: of[Clicks](), tShutter: of[Shutter](), tTested: of[Tested](),
		tWith: of[With](), tReciprocity: of[RuleOf](), tRuleName: of[RuleOf](), tFormat: of[Format](), tBack: of[Back](),
		tNotch: of[Notch](), tCare: of[Care](), tSpread: of[FocusSpread](), tNear: of[Near](), tFar: of[Far](), tConfusion: of[Confusion](), tShorten: of[Shorten](), tCurve: of[CurveFile](),
		tPatch: of[Spot](), tLux: of[LuxSeconds](), tAcross: of[Spot](), tLevel: of[Spot](), tNumber: of[Bare](),
	}
}()

// special chooses otherwise in the lines of one field.
var special = func() map[field]map[lexer.TokenType]grammar {
	rule := of[RuleOf]()
	return map[field]map[lexer.TokenType]grammar{
		onLens:    {tAperture: of[FNumbers](), tBellows: of[BellowsScale]()},
		onFilm:    {tN: of[TimeFor](), tTime: rule, tPower: rule, tNone: rule, tOver: rule},
		onRule:    {tTime: rule, tPower: rule, tNone: rule, tOver: rule},
		onShutter: {tTime: of[Measured]()},
	}
}()

// bench is what one worker keeps from line to line: the scanner and the phrases
// with their room for tokens, and the terms that it has parsed before. A season's
// lines say the same few terms over and over (1/30 f16, N, Y8 + pol), and parsing
// one costs more than finding it. Terms are never changed, so that lines can share
// them.
type bench struct {
	scanner scanner
	phrases phrases
	key     []byte
	seen    map[string]seenTerm
}

// scan lexes a folded text from an offset on. What it gives holds until the next.
func (b *bench) scan(text string, from int, f field, names *Lexicon) *scanner {
	s := &b.scanner
	*s = scanner{src: text, low: unpictured(lower(text)), pos: from, begin: from, field: f, names: names, tokens: s.tokens[:0], ends: s.ends[:0]}
	s.scan()
	return s
}

// seenTerm is a parsed term and the number of tokens it took.
type seenTerm struct {
	kind any
	took int
}

// mostSeen bounds the terms that are kept, mostKey the tokens of one.
const (
	mostSeen = 4096
	mostKey  = 6
)

func newBench() *bench { return &bench{seen: map[string]seenTerm{}} }

// keyOf writes what decides the term that begins at a token: the line's field
// and all tokens up to the comma. There is none for long terms, and for those
// that go on behind a comma.
func (b *bench) keyOf(f field, tokens []lexer.Token) bool {
	if f&(onSheet|onMeter|onDevelop|onLoad) == 0 {
		return false
	}
	b.key = append(b.key[:0], byte(f), byte(f>>8))
	for i := range tokens {
		t := &tokens[i]
		switch {
		case t.Type == tComma || t.Type == tRemark:
			return true
		case i == mostKey || t.Type == tOpen:
			return false
		}
		b.key = append(append(append(b.key, byte(t.Type)), t.Value...), 0)
	}
	return true
}

// readTerms parses the body of a folded line that stands at an offset of the
// file. It is total: what no grammar takes becomes a Loose or a Bare, and the
// rules say what is to be said of it.
func readTerms(file *source.File, at int, folded *source.Folded, body int, how manner, names *Lexicon, b *bench) []Term {
	s, p := b.scan(folded.Text, body, how.field, names), &b.phrases
	s.settle()
	*p = phrases{scanner: s, bench: b, file: file, at: at, folded: folded, terms: p.terms[:0]}
	p.all()
	return append(make([]Term, 0, len(p.terms)), p.terms...)
}

// lower turns capital ASCII letters small, byte for byte.
func lower(s string) string {
	for i := 0; i < len(s); i++ {
		if s[i] >= 'A' && s[i] <= 'Z' {
			var b strings.Builder
			b.Grow(len(s))
			b.WriteString(s[:i])
			for ; i < len(s); i++ {
				c := s[i]
				if c >= 'A' && c <= 'Z' {
					c += 'a' - 'A'
				}
				b.WriteByte(c)
			}
			return b.String()
		}
	}
	return s
}

// phrases walks the tokens of one line and lets the grammars take them.
type phrases struct {
	*scanner
	next   int                 // token
	lex    *lexer.PeekingLexer // the line's tokens, up to next; nil: no grammar has been asked yet
	bench  *bench
	file   *source.File
	at     int // offset in the file of the folded line
	folded *source.Folded
	struck bool
	about  bool // the next term is doubtful
	terms  []Term
}

// tokenList feeds participle from tokens that are already there.
type tokenList struct {
	tokens []lexer.Token
	next   int
}

func (l *tokenList) Next() (lexer.Token, error) {
	if l.next == len(l.tokens) {
		return lexer.EOFToken(lexer.Position{}), nil
	}
	l.next++
	return l.tokens[l.next-1], nil
}

// comma is shared by all, since none differs from another.
var comma = &Comma{Mark: ","}

func (p *phrases) all() {
	for p.next < len(p.tokens) {
		from := p.next
		switch p.tokens[from].Type {
		case tComma:
			p.next++
			p.add(comma, from, p.next)
		case tStrike:
			p.struck = !p.struck
			p.next++
		case tAbout:
			p.about = true
			p.next++
		case tDoubt, tSic:
			p.next++
			p.mark(p.tokens[from].Type, from)
		default:
			kind := p.term()
			p.add(kind, from, p.next)
		}
	}
}

// term lets the grammar of the next token take what it can; a token that none
// takes stands for itself.
func (p *phrases) term() any {
	from := p.next
	switch p.kind(from) {
	case tWord:
		return p.named(from)
	case tRemark: // by far the most frequent term, and no two are alike
		p.next++
		return &Remark{Text: unwrap(p.span(from, p.next).Text())}
	case tScanned: // a file is called as it was typed
		p.next++
		start := p.at + p.folded.At(p.ends[from]-len(p.tokens[from].Value))
		return &Scanned{Path: source.Span{File: p.file, Start: start, End: p.span(from, p.next).End}.Text()}
	}
	if kind := p.take(); kind != nil {
		return kind
	}
	p.next++
	return p.loose(from)
}

// take is the term that the next token begins, or nil.
func (p *phrases) take() any {
	rest := p.tokens[p.next:]
	keyed := p.bench.keyOf(p.field, rest)
	if keyed {
		if seen, ok := p.bench.seen[string(p.bench.key)]; ok {
			p.next += seen.took
			return seen.kind
		}
	}
	kind, took := p.parse()
	if keyed && kind != nil && len(p.bench.seen) < mostSeen {
		p.bench.seen[string(p.bench.key)] = seenTerm{kind, took}
	}
	p.next += took
	return kind
}

// parse lets the grammar of the next token take what it can. All terms of a line are
// read from one list of its tokens: one for each would make long lines dear.
func (p *phrases) parse() (any, int) {
	kind := p.tokens[p.next].Type
	take, ok := special[p.field][kind]
	if !ok {
		take, ok = grammars[kind]
	}
	if !ok {
		return nil, 0
	}
	if p.lex == nil {
		p.lex, _ = lexer.Upgrade(&tokenList{tokens: p.tokens})
	}
	for p.lex.Cursor() < p.next {
		p.lex.Next()
	}
	return take(p.lex)
}

// named is words, and the reading, density or patch that they name.
func (p *phrases) named(from int) any {
	for p.kind(p.next) == tWord {
		p.next++
	}
	to := p.next
	switch p.kind(to) {
	case tAperture, tTime, tCount, tBulb, tEV, tAt, tD, tAcross, tLevel:
		switch kind := p.take().(type) {
		case *Exposure:
			named := *kind
			named.Name = p.words(from, to)
			return &named
		case *Densitometer:
			return &Densitometer{Place: p.words(from, to), D: kind.D}
		case *Spot:
			named := *kind
			named.Name = p.words(from, to)
			return &named
		}
		if p.field != onLens || p.opens(from, to) {
			p.next = to // it has no name, and stands for itself
		}
	}
	return p.loose(from)
}

// opens reports whether words on a lens's line lead to its apertures, and do not tell of one:
// stops down to f/45, and not sharp from f/11.
func (p *phrases) opens(from, to int) bool {
	for _, w := range p.words(from, to) {
		if !ofMarks[lower(w)] {
			return false
		}
	}
	return true
}

// loose takes words up to the next token that is not one.
func (p *phrases) loose(from int) any {
	for p.kind(p.next) == tWord {
		p.next++
	}
	return &Loose{Words: p.words(from, p.next)}
}

// words are the tokens from up to to as typed, without a colon behind.
func (p *phrases) words(from, to int) []string {
	all := make([]string, 0, to-from)
	for i := from; i < to; i++ {
		all = append(all, strings.TrimSuffix(p.span(i, i+1).Text(), ":"))
	}
	return all
}

// unwrap takes a remark out of its dash, brackets, quotes or comment. What stands behind the
// dash is the remark's own, a minus too.
func unwrap(text string) string {
	const dashes, blanks = "-–—―‒", " \t\u00A0"
	text = strings.TrimLeft(strings.TrimLeft(strings.TrimLeft(text, blanks), dashes), blanks)
	if end := commentAt(text, 0); end > 0 && end == len(text) {
		return strings.Trim(strings.TrimSuffix(strings.TrimPrefix(text, "<!--"), "-->"), blanks)
	}
	for _, pair := range [...][2]string{{"(", ")"}, {`"`, `"`}, {"“", "”"}, {"„", "“"}, {"«", "»"}, {"”", "”"}} {
		if rest, ok := strings.CutPrefix(text, pair[0]); ok {
			return strings.TrimSuffix(rest, pair[1])
		}
	}
	return text
}

// span is the stretch of the original text that tokens from up to to cover.
func (p *phrases) span(from, to int) source.Span {
	offset := p.tokens[from].Pos.Offset
	a := p.folded.At(offset)
	if offset > 0 && a == p.folded.At(offset-1) {
		a = p.folded.End(offset) // within a sign that folds to several, such as ½: it belongs to the term before
	}
	return source.Span{File: p.file, Start: p.at + a, End: p.at + max(a, p.folded.End(p.ends[to-1]))}
}

func isComma(t Term) bool {
	_, comma := t.Kind.(*Comma)
	return comma
}

func (p *phrases) add(kind any, from, to int) {
	term := Term{Kind: kind, Span: p.span(from, to), Struck: p.struck, Doubtful: p.about}
	if k, ok := kind.(*Exposure); ok && len(k.Parts) == 2 {
		term.Second = p.span(p.secondPart(k, from, to), to).Start - term.Span.Start
	}
	p.terms = append(p.terms, term)
	p.about = false
}

// secondPart is the token with which the second of two settings begins: the
// aperture, or what stands behind it.
func (p *phrases) secondPart(k *Exposure, from, to int) int {
	at := from
	for at < to && p.tokens[at].Type != tAperture {
		at++
	}
	if k.Parts[0].Aperture == nil {
		return min(at, to-1)
	}
	for at++; at < to-1 && p.tokens[at].Type == tAt; at++ {
	}
	return min(at, to-1)
}

// mark notes a question mark, or [sic], on the term before it. Behind a comma it is of the
// value before that, or of one that follows at once: both are then doubtful.
func (p *phrases) mark(what lexer.TokenType, at int) {
	n := len(p.terms)
	for n > 0 && isComma(p.terms[n-1]) {
		n--
	}
	for n == 0 && what == tDoubt && p.next < len(p.tokens) && p.kind(p.next) == tComma {
		p.next++ // at the line's beginning it can be of what follows alone
	}
	if n == 0 || n < len(p.terms) {
		p.about = what == tDoubt && p.next < len(p.tokens) && p.kind(p.next) != tComma && p.kind(p.next) != tRemark
	}
	if n == 0 {
		return
	}
	p.terms = p.terms[:n]
	last := &p.terms[n-1]
	last.Doubtful = last.Doubtful || what == tDoubt
	last.Sic = last.Sic || what == tSic
	last.Span.End = p.span(at, at+1).End
}

// Within is the terms that a stretch of words would have if it were a sheet's line: for who
// asks what words that were kept as they are may have meant as well. Its spans are of a file
// of its own; the lexicon is only read.
func Within(words string, names *Lexicon) []Term {
	file := source.New("", []byte(words))
	folded := source.Fold(file.Whole())
	b := idle.Get().(*bench)
	defer idle.Put(b)
	return readTerms(file, 0, &folded, 0, sheetLine, names, b)
}

// idle are the benches at which such stretches are read, kept from one to the next.
var idle = sync.Pool{New: func() any { return newBench() }}
