package lang

import (
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"notchbook/lang/source"
)

// grammar is one type of term.go as a parser.
type grammar func(*lexer.PeekingLexer) (any, error)

// definition tells participle the names of the tokens; the tokens themselves
// are handed over ready, a line at a time.
type definition struct{ lexer.Definition }

func (definition) Symbols() map[string]lexer.TokenType { return symbols }

func of[T any]() grammar {
	p := participle.MustBuild[T](participle.Lexer(definition{}), participle.UseLookahead(4))
	return func(lex *lexer.PeekingLexer) (any, error) {
		v, err := p.ParseFromLexer(lex, participle.AllowTrailing(true))
		if err != nil {
			return nil, err
		}
		return v, nil
	}
}

// grammars chooses a term by its first token. A union of all terms would do
// the same, trying one after the other.
var grammars = func() map[lexer.TokenType]grammar {
	exposure := of[Exposure]()
	amount := of[Amount]()
	return map[lexer.TokenType]grammar{
		tComma: of[Comma](), tArrow: of[Arrow](), tCue: of[Cue](), tRemark: of[Remark](),
		tAperture: exposure, tTime: exposure, tCount: exposure, tBulb: exposure, tEV: exposure, tWord: exposure,
		tZone: of[Placed](), tEI: of[FilmEI](), tMeterEI: of[MeterEI](), tISO: of[ISO](), tSunny: of[Sunny16](),
		tFilter: of[Stack](), tPlus: of[Stack](), tDrop: of[Drop](), tFactor: amount, tStops: amount, tDensity: amount,
		tClass: of[Class](), tN: of[N](), tHold: of[Hold](), tExt: of[Extension](), tExtFrom: of[ExtensionRange](),
		tScale: of[Magnification](), tFocus: of[Focus](), tBellows: of[Bellows](), tMovement: of[Movement](),
		tBracket: of[Bracket](), tSame: of[Same](), tChoose: of[Choose](), tState: of[State](), tNegative: of[Negative](),
		tClock: of[Clock](), tDate: of[Date](), tDegrees: of[Temperature](), tEquals: of[Sum](), tNo: of[Withdraw](),
		tNot: of[Withdraw](), tLength: of[Millimetres](), tCircle: of[Circle](), tFlange: of[Flange](), tClicks: of[Clicks](),
		tShutter: of[Shutter](), tTested: of[Tested](), tWith: of[With](), tReciprocity: of[RuleOf](), tFormat: of[Format](),
		tBack: of[Back](), tNumber: of[Bare](),
	}
}()

// special chooses otherwise in the lines of one field.
var special = map[field]map[lexer.TokenType]grammar{
	onLens: {tAperture: of[FNumbers]()},
	onFilm: {tN: of[TimeFor]()},
	onRule: {tTime: of[RuleOf](), tPower: of[RuleOf](), tNone: of[RuleOf]()},
}

// terms parses a line's body. It is total: what no grammar takes becomes a
// Loose or a Bare, and the rules say what is to be said of it.
func terms(file *source.File, start, end int, how manner, names *Lexicon) []Term {
	folded := source.Fold(file.Text[start:end])
	s := scanner{src: folded.Text, low: lower(folded.Text), field: how.field, names: names}
	s.tokens = make([]lexer.Token, 0, 8)
	s.ends = make([]int, 0, 8)
	s.scan()
	p := &phrases{scanner: &s, line: source.Span{File: file, Start: start, End: end}, folded: &folded}
	return p.all()
}

// lower turns capital ASCII letters small, byte for byte.
func lower(s string) string {
	for i := 0; i < len(s); i++ {
		if s[i] >= 'A' && s[i] <= 'Z' {
			small := []byte(s)
			for ; i < len(small); i++ {
				if small[i] >= 'A' && small[i] <= 'Z' {
					small[i] += 'a' - 'A'
				}
			}
			return string(small)
		}
	}
	return s
}

// phrases walks the tokens of one line and lets the grammars take them.
type phrases struct {
	*scanner
	line   source.Span
	folded *source.Folded
	struck bool
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

func (p *phrases) all() []Term {
	lex, _ := lexer.Upgrade(&tokenList{tokens: p.tokens})
	for !lex.Peek().EOF() {
		from := int(lex.Cursor())
		switch lex.Peek().Type {
		case tStrike:
			p.struck = !p.struck
			lex.Next()
		case tDoubt:
			lex.Next()
			p.doubt(from)
		default:
			kind := p.term(lex)
			p.add(kind, from, int(lex.Cursor()))
		}
	}
	return p.terms
}

// term lets the grammar of the next token take what it can; a token that none
// takes stands for itself.
func (p *phrases) term(lex *lexer.PeekingLexer) any {
	first := lex.Peek()
	take, ok := special[p.field][first.Type]
	if !ok {
		take, ok = grammars[first.Type]
	}
	if ok {
		before := lex.MakeCheckpoint()
		if kind, err := take(lex); err == nil && int(lex.Cursor()) > int(before.Cursor()) {
			return p.finish(kind, first)
		}
		lex.LoadCheckpoint(before)
	}
	return p.loose(lex)
}

// loose takes words up to the next token that is not one.
func (p *phrases) loose(lex *lexer.PeekingLexer) any {
	words := &Loose{}
	for next := lex.Peek(); !next.EOF() && (next.Type == tWord || len(words.Words) == 0); next = lex.Peek() {
		from := int(lex.Cursor())
		words.Words = append(words.Words, p.span(from, from+1).Text())
		lex.Next()
	}
	return words
}

// finish fills in what a grammar cannot know: a remark's text as typed.
func (p *phrases) finish(kind any, first *lexer.Token) any {
	if r, ok := kind.(*Remark); ok {
		text := p.span(p.index(first), p.index(first)+1).Text()
		r.Text = unwrap(text)
	}
	return kind
}

func (p *phrases) index(t *lexer.Token) int {
	for i := range p.tokens {
		if p.tokens[i].Pos.Offset == t.Pos.Offset {
			return i
		}
	}
	return 0
}

// unwrap takes a remark out of its dash, brackets or quotes.
func unwrap(text string) string {
	text = strings.TrimLeft(text, "-–—―‒ \t\u00A0")
	for _, pair := range [...][2]string{{"(", ")"}, {`"`, `"`}, {"“", "”"}, {"„", "“"}, {"«", "»"}, {"”", "”"}} {
		if rest, ok := strings.CutPrefix(text, pair[0]); ok {
			return strings.TrimSuffix(rest, pair[1])
		}
	}
	return text
}

// span is the stretch of the original text that tokens from up to to cover.
func (p *phrases) span(from, to int) source.Span {
	a := p.folded.At(p.tokens[from].Pos.Offset)
	b := p.folded.End(p.ends[to-1], p.line.File.Text[p.line.Start:p.line.End])
	return p.line.Sub(a, max(a, b))
}

func (p *phrases) add(kind any, from, to int) {
	p.terms = append(p.terms, Term{Kind: kind, Span: p.span(from, to), Struck: p.struck})
}

// doubt marks the term before the question mark.
func (p *phrases) doubt(at int) {
	if n := len(p.terms); n > 0 {
		p.terms[n-1].Doubtful = true
		p.terms[n-1].Span.End = p.span(at, at+1).End
	}
}
