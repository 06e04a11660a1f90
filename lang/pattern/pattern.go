// Package pattern has regular expressions for words that are seldom there: most lines of a
// notebook own to no slip, name no month and correct nothing. An expression of many
// words is slow to say no, so each is only tried on a text that holds one of the pieces
// without which it cannot match; those are taken from the expression itself, and looked for
// all in one go.
package pattern

import (
	"regexp"
	"regexp/syntax"
	"strings"
	"sync"
	"unicode/utf8"
)

// Pattern is a regular expression that knows which texts cannot match it. It says what the
// expression says, at less cost.
type Pattern struct {
	compiled func() *regexp.Regexp // when a text is first asked of it that may match
	pieces   []string              // every match holds one of them; none where no such are known
	fold     bool                  // they are in lower case, and a match may have them in another
	sieve    *sieve                // finds them
}

// Lazy is a pattern that is not looked at before it is asked for.
type Lazy func() *Pattern

// Lazily reads an expression when it is first asked for, and compiles it when a text may match:
// a short note needs few, and would wait longer for all of them than for its findings. It
// panics, then, if the expression is none.
func Lazily(expression string) Lazy {
	return sync.OnceValue(func() *Pattern { return New(expression) })
}

// Later compiles an expression when it is first asked for, and is for texts that may well match and
// for those that are no strings: a program that asks for none starts without it.
func Later(expression string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })
}

// New reads an expression, and panics if it is none.
func New(expression string) *Pattern {
	p := &Pattern{compiled: Later(expression)}
	tree, err := syntax.Parse(expression, syntax.Perl)
	if err != nil {
		p.compiled() // panics in its words
	}
	w := walk{}
	whole, some := w.of(tree)
	if whole != nil {
		some = whole
	}
	if w.broken {
		return p
	}
	if p.fold = w.fold; p.fold {
		for i := range some {
			some[i] = strings.ToLower(some[i])
		}
	}
	if p.pieces = telling(some); p.pieces != nil {
		p.sieve = sieveOf(p.pieces, p.fold)
	}
	return p
}

// may reports whether a text holds one of the pieces.
func (p *Pattern) may(text string) bool {
	if p.pieces == nil {
		return true
	}
	if p.fold && !ascii(text) {
		return true // letters there are whose small ones are of ASCII
	}
	return p.sieve.holds(text)
}

func (p *Pattern) MatchString(text string) bool {
	return p.may(text) && p.compiled().MatchString(text)
}

func (p *Pattern) FindString(text string) string {
	if !p.may(text) {
		return ""
	}
	return p.compiled().FindString(text)
}

func (p *Pattern) FindStringIndex(text string) []int {
	if !p.may(text) {
		return nil
	}
	return p.compiled().FindStringIndex(text)
}

func (p *Pattern) FindStringSubmatch(text string) []string {
	if !p.may(text) {
		return nil
	}
	return p.compiled().FindStringSubmatch(text)
}

func (p *Pattern) FindAllString(text string, n int) []string {
	if !p.may(text) {
		return nil
	}
	return p.compiled().FindAllString(text, n)
}

func (p *Pattern) FindAllStringIndex(text string, n int) [][]int {
	if !p.may(text) {
		return nil
	}
	return p.compiled().FindAllStringIndex(text, n)
}

func (p *Pattern) FindAllStringSubmatch(text string, n int) [][]string {
	if !p.may(text) {
		return nil
	}
	return p.compiled().FindAllStringSubmatch(text, n)
}

func (p *Pattern) ReplaceAllString(text, by string) string {
	if !p.may(text) {
		return text
	}
	return p.compiled().ReplaceAllString(text, by)
}

const (
	most   = 256 // pieces that are looked for
	few    = 16  // those up to which two sets are joined
	widest = 12  // characters of a class that are told one by one
)

// walk goes through an expression.
type walk struct {
	fold   bool // some of it holds in upper and lower case
	broken bool // it has the character that stands for bytes which are none, and matches those
}

// of are all the texts that an expression matches, or else pieces of which each match
// holds one; both are nil where it matches too many.
func (w *walk) of(re *syntax.Regexp) (whole, some []string) {
	switch re.Op {
	case syntax.OpEmptyMatch, syntax.OpBeginLine, syntax.OpEndLine, syntax.OpBeginText, syntax.OpEndText, syntax.OpWordBoundary, syntax.OpNoWordBoundary:
		return []string{""}, nil
	case syntax.OpLiteral:
		said := string(re.Rune)
		w.broken = w.broken || strings.ContainsRune(said, utf8.RuneError)
		w.fold = w.fold || re.Flags&syntax.FoldCase != 0
		return []string{said}, nil
	case syntax.OpCharClass:
		return characters(re.Rune), nil
	case syntax.OpCapture:
		return w.of(re.Sub[0])
	case syntax.OpQuest:
		if whole, _ := w.of(re.Sub[0]); whole != nil {
			return append([]string{""}, whole...), nil
		}
	case syntax.OpPlus:
		whole, some := w.of(re.Sub[0])
		if whole != nil {
			some = whole
		}
		return nil, some
	case syntax.OpRepeat:
		if re.Min > 0 {
			return w.of(&syntax.Regexp{Op: syntax.OpPlus, Sub: re.Sub})
		}
	case syntax.OpAlternate:
		return w.either(re.Sub)
	case syntax.OpConcat:
		return w.inTurn(re.Sub)
	}
	return nil, nil
}

// characters are those of a class, if they are few.
func characters(ranges []rune) (all []string) {
	for i := 0; i < len(ranges); i += 2 {
		for c := ranges[i]; c <= ranges[i+1]; c++ {
			if len(all) == widest || !utf8.ValidRune(c) || c == utf8.RuneError {
				return nil
			}
			all = append(all, string(c))
		}
	}
	return all
}

func (w *walk) either(subs []*syntax.Regexp) (whole, some []string) {
	exact := true
	for _, sub := range subs {
		all, part := w.of(sub)
		if all == nil {
			if exact = false; part == nil {
				return nil, nil
			}
			all = part
		}
		some = append(some, all...)
	}
	switch {
	case len(some) > most:
		return nil, nil
	case exact:
		return some, nil
	}
	return nil, some
}

func (w *walk) inTurn(subs []*syntax.Regexp) (whole, some []string) {
	run, exact := []string{""}, true
	for _, sub := range subs {
		all, part := w.of(sub)
		if all == nil || len(run) > 1 && len(all) > 1 && len(run)*len(all) > few {
			exact = false
			some = better(better(some, run), part)
			run = []string{""}
			if all == nil {
				continue
			}
		}
		var longer []string
		for _, head := range run {
			for _, tail := range all {
				longer = append(longer, head+tail)
			}
		}
		run = longer
	}
	if exact {
		return run, nil
	}
	return nil, better(some, run)
}

// better are those of two sets of pieces that tell more: long ones, and few.
func better(a, b []string) []string {
	worth := func(set []string) float64 {
		set = telling(set)
		if len(set) == 0 {
			return 0
		}
		shortest := len(set[0])
		for _, piece := range set {
			shortest = min(shortest, len(piece))
		}
		return float64(shortest) / float64(len(set))
	}
	if worth(b) > worth(a) {
		return b
	}
	return a
}

// telling are the pieces without those that hold another; nil if one is found in nearly any text.
func telling(pieces []string) (all []string) {
	for i, piece := range pieces {
		if !tells(piece) {
			return nil
		}
		held := false
		for j, other := range pieces {
			if held = i != j && strings.Contains(piece, other) && (piece != other || j < i); held {
				break
			}
		}
		if !held {
			all = append(all, piece)
		}
	}
	if len(all) > most {
		return nil
	}
	return all
}

// tells reports whether a piece is not found in nearly any text.
func tells(piece string) bool {
	return len(piece) > 1 || len(piece) == 1 && piece != " " && (piece[0]|0x20 < 'a' || piece[0]|0x20 > 'z')
}
