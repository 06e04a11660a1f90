package compile

import (
	"slices"
	"strings"

	"notchbook/lang"
)

// The line that puts filters on for the sheets below it, or takes them off. It is read part
// by part: Y8 off, R25 on. What it does not say for sure leaves open what is on: the filters
// before it are not carried on in silence.

// filterPart is a part of a filter line, up to a comma or an and.
type filterPart struct {
	stacks  []*lang.Term
	drops   []*lang.Term
	ahead   []string // words before the first filter, in lower case
	behind  []string // and those behind it
	comma   bool     // nothing but a comma stands before it
	dubious bool     // marked, or with something that is no filter and no word of one
}

func (p *filterPart) words() []string { return append(slices.Clone(p.ahead), p.behind...) }

// filterParts splits a filter line, and reports what has no meaning in it. It is open where
// a term of it cannot be read; whose is a cost in it that is of no filter for sure.
func (t *reader) filterParts() (parts []*filterPart, open bool, whose *lang.Term) {
	p := &filterPart{}
	next := func(comma bool) {
		if len(p.stacks)+len(p.drops)+len(p.ahead) > 0 {
			parts = append(parts, p)
			p = &filterPart{comma: comma}
		}
		p.comma = p.comma && comma
	}
	terms := t.standing()
	open = t.sheet.unclear != ""
	for _, term := range terms {
		p.dubious = p.dubious || term.Doubtful
		switch k := term.Kind.(type) {
		case *lang.Stack:
			p.stacks = append(p.stacks, term)
		case *lang.Drop:
			p.drops = append(p.drops, term)
		case *lang.Loose:
			for _, w := range k.Words {
				w = plain(w)
				switch {
				case w == "and", w == "then", w == "but":
					next(false)
				case len(p.stacks) == 0:
					p.ahead = append(p.ahead, w)
				default:
					p.behind = append(p.behind, w)
				}
			}
		case *lang.Comma:
			next(true)
		case *lang.Amount:
			if k.Factor == nil || !costs(k, p, parts) {
				whose = term
			}
		case *lang.Remark:
		default:
			t.stray(term)
		}
	}
	next(false)
	return parts, open, whose
}

// costs gives a factor behind a comma to the filter before it: Y8, x4. Behind two filters it
// may be of both, Y8, R25, x16, and is nobody's. What was read of the line is left as it is,
// since the next edition of the notes may have it again.
func costs(k *lang.Amount, p *filterPart, parts []*filterPart) bool {
	if len(p.stacks) == 0 && len(p.ahead) == 0 && len(p.drops) == 0 && len(parts) > 0 {
		p, parts = parts[len(parts)-1], parts[:len(parts)-1]
	}
	if len(p.stacks) == 0 || len(parts) > 0 && parts[len(parts)-1].uncosted() {
		return false
	}
	last := len(p.stacks) - 1
	stack := *p.stacks[last].Kind.(*lang.Stack)
	if len(stack.Filters) != 1 || len(stack.Filters[0].Amounts) > 0 {
		return false
	}
	stack.Filters = slices.Clone(stack.Filters)
	stack.Filters[0].Amounts = []lang.Amount{*k}
	term := *p.stacks[last]
	term.Kind = &stack
	p.stacks[last] = &term
	return true
}

// uncosted reports whether a part puts a filter on and does not say what it costs.
func (p *filterPart) uncosted() bool {
	if len(p.stacks) == 0 || says(p.words(), filterOff) {
		return false
	}
	filters := p.stacks[len(p.stacks)-1].Kind.(*lang.Stack).Filters
	last := filters[len(filters)-1]
	grey, is := strings.CutPrefix(strings.ToLower(last.Name), "nd") // whose cost is its name, ND 6 stops
	return len(last.Amounts) == 0 && !(is && strings.ContainsAny(grey, "0123456789"))
}

// listOfFilters reports a line that tells what filters cost and puts none on: three and more,
// behind commas, each with its cost.
func (r *resolver) listOfFilters(st *lang.Statement, parts []*filterPart) bool {
	if len(parts) < 3 || slices.ContainsFunc(parts, func(p *filterPart) bool {
		return len(p.stacks) != 1 || len(p.words()) > 0 || p.uncosted()
	}) {
		return false
	}
	name := parts[0].stacks[0].Kind.(*lang.Stack).Filters[0].Name
	r.report("unknown-term", st.Body, "so many filters at once are taken for a list of what they cost, and none is on").
		note("what a filter costs is declared on a line of its own: filter " + name + ": x2")
	return true
}

// chooseFilters reads a filter line.
func (r *resolver) chooseFilters(st *lang.Statement) {
	sh := &sheet{filters: r.now.filters}
	t := reader{resolver: r, sheet: sh, st: st}
	lost := r.now.lost.filter
	r.now.lost.filter = 0
	parts, open, whose := t.filterParts()
	if pairs := r.explained(st.Body); len(pairs) > 0 {
		r.report("unknown-term", st.Body, "this says what words of your own stand for, and no filter is on by it").
			note("a word of your own for a term is written call: " + strings.Replace(pairs[0], "=", " = ", 1))
		r.now.lost.filter = placeOf(st.Span).Line
		return
	}
	if r.listOfFilters(st, parts) {
		r.now.lost.filter = placeOf(st.Span).Line
		return
	}
	r.filterLines, r.now.since.filter = append(r.filterLines, st), st.Span.Start
	named, understood, fresh, open := t.changeFilters(parts, open)
	body := bodyOf(st)
	switch {
	case whose != nil:
		r.now.lost.filter = placeOf(st.Span).Line
		cost := strings.TrimSpace(whose.Span.Text())
		r.report("not-declared", whose.Span, quote(cost)+" is of no filter for sure, and what is on from here costs is open").
			note("what a filter costs is written right behind it, without a comma: Y8 x2")
	case open || !understood:
		r.now.lost.filter = placeOf(st.Span).Line
		at, message := st.Body, quote(body)+" does not say for sure which filter is on from here"
		switch {
		case body == "":
			at, message = st.Span, "no filter is named, and what is on from here is open"
		case !understood && !named:
			message = quote(body) + " is no filter that is known, and what is on from here is open"
		}
		f := r.report("not-declared", at, message).note("without one it is written filter: none")
		if body != "" && !named && !open {
			f.note("declare it: filter " + strings.Join(strings.Fields(body), "-") + ": … stops")
		}
	case !fresh:
		r.now.lost.filter = lost // and what was open before still is
	}
	r.now.filters, r.ahead.filters = sh.filters, !r.bare
}

// bodyOf is what a line says, without blanks and a full stop around it.
func bodyOf(st *lang.Statement) string { return strings.Trim(st.Body.Text(), " \t.") }

// changeSince changes the filters that a sheet has from another as the filter lines below that one do.
func (t *reader) changeSince(from *sheet) {
	for _, st := range t.filterLines {
		if from.at.File == t.book.File && st.Span.Start < from.at.Start {
			continue
		}
		sh, said := t.sheet, len(t.found)
		line := reader{resolver: t.resolver, sheet: &sheet{filters: sh.filters, vague: sh.vague, strange: sh.strange}, st: st}
		parts, open, _ := line.filterParts()
		if _, _, fresh, _ := line.changeFilters(parts, open); fresh {
			sh.maybeOn = ""
		}
		sh.filters, sh.vague, sh.strange = line.sheet.filters, line.sheet.vague, line.sheet.strange
		t.found = t.found[:said] // what there is to say is said where it stands
	}
}

// changeFilters puts on and takes off what a filter line says. It is named where it has a filter, understood where
// it says what is on, fresh where what was on before counts no more, and open where it leaves that so.
func (t *reader) changeFilters(parts []*filterPart, unread bool) (named, understood, fresh, open bool) {
	sh, st := t.sheet, t.st
	named = slices.ContainsFunc(parts, func(p *filterPart) bool { return len(p.stacks)+len(p.drops) > 0 })
	open = unread || strings.HasPrefix(strings.TrimSpace(st.Body.Text()), "- ") // a bullet, or less
	on := false                                                                 // by a part just read
	for _, p := range parts {
		words := p.words()
		off, undone := says(words, filterOff), says(words, filterUndone)
		clean := only(words, filterOff, filterTaking) && !undone
		wasOn := on
		on = false
		switch {
		case p.dubious:
			open = true
		case len(p.stacks) > 1 && !(says(words, filterSwap) && only(words, filterSwap, filterTaking)), len(p.stacks) > 0 && undone:
			open = true
		case len(p.stacks) > 0 && off && !(clean && !says(p.behind, filterNo)):
			open = open || len(parts) > 1 || says(p.ahead, filterOff) || says(p.behind, filterGone) // else it is without a hood
			on = true
			t.putOn(sh, p.stacks, wasOn && p.comma, &fresh)
		case len(p.stacks) > 0 && off:
			for _, f := range p.stacks[0].Kind.(*lang.Stack).Filters {
				t.drop(sh, f.Name)
			}
		case len(p.stacks) > 0:
			on = true
			t.putOn(sh, p.stacks, wasOn && p.comma && len(p.ahead) == 0, &fresh)
		case len(p.drops) > 0:
			for _, term := range p.drops {
				t.filterTerm(sh, term)
				fresh = fresh || term.Kind.(*lang.Drop).What == "filter"
			}
			open = open || undone && len(parts) == 1
		case says(words, filterKept) && !undone && !(off && clean), len(words) == 2 && (noChange[words[0]] && filterChange[words[1]]):
		case named && fresh && off && clean: // Y8, off
			open = true
		case off && (clean || !undone && !named && (words[0] == "off" || words[0] == "removed")):
			sh.filters, fresh = nil, true
		case named:
			continue // of something else
		case off, undone:
			open = true
		default:
			continue
		}
		understood = true
	}
	if slices.Contains([]string{"-", "–", "—", "0", "/"}, bodyOf(st)) {
		sh.filters = nil
		return named, true, true, false
	}
	return named, understood, fresh, open
}

// putOn puts on the last filters of a part, beside those that only a comma parts from them.
func (t *reader) putOn(sh *sheet, stacks []*lang.Term, beside bool, fresh *bool) {
	last := stacks[len(stacks)-1]
	k := *last.Kind.(*lang.Stack)
	if beside && t.alreadyOn(sh, &k) {
		return
	}
	*fresh = *fresh || !k.Add
	k.Add = k.Add || beside
	t.filterTerm(sh, &lang.Term{Kind: &k, Span: last.Span})
}

// alreadyOn reports whether filters behind a comma are those that are on, said again: Y8, yellow.
func (t *reader) alreadyOn(sh *sheet, k *lang.Stack) bool {
	for _, f := range k.Filters {
		if len(f.Amounts) > 0 || !slices.ContainsFunc(sh.filters, func(u *use) bool { return t.book.kit.oneFilter(u.name, f.Name) || t.book.kit.oneFilter(f.Name, u.name) }) {
			return false
		}
	}
	return true
}

// The words are those of notes read for this (common practice, no source).
var (
	filterOff    = lang.SetOf("off no none removed remove without bare nothing clear out away taken took nil unfiltered")
	filterNo     = lang.SetOf("no none without bare nothing clear nil unfiltered") // are of what is behind them
	filterGone   = lang.SetOf("off none removed remove out away taken took bare nil unfiltered")
	filterKept   = lang.SetOf("same before still unchanged ditto above continued again kept stays")
	filterTaking = lang.SetOf("the my a it them filter filters now again back is was were are all both this that put here i have had been has still")
	filterSwap   = lang.SetOf("changed swapped switched exchanged from to for")
	filterChange = lang.SetOf("change changed changes changing new different else")
	noChange     = lang.SetOf("no not nothing")
	filterUndone = lang.SetOf("not never forgot forgotten didn't didn’t don't haven't wasn't isn't instead hardly nearly almost later maybe perhaps")
)
