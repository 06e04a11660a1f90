package compile

import (
	"slices"
	"strings"
	"unicode/utf8"

	"notchbook/compile/handbook"
	"notchbook/lang"
	"notchbook/lang/pattern"
)

// Things of the kit as people name them in words that are no term: no, the red; the Y8 was on; mit dem Rotfilter; with the
// 150. One piece finds all of them in a text, and says how sure each is and what is said of it; who asks takes what is sure
// enough for him.

// thingNamed is a place of a text at which a thing of the kit is named.
type thingNamed struct {
	calling
	sure        thingSure
	on, instead bool // that it was on, or took the place of another; where nothing else is said
}

// thingSure is how sure it is that a name stands for the thing.
type thingSure uint8

const (
	thingAmong  thingSure = iota // among words that may own it: red barn
	thingItself                  // as who speaks of the thing says it: the red one
	thingAlone                   // with nothing else but what was done with it: no, it was the red
)

// coded reports whether it has a name with a figure, that nothing but a thing of the kit is called by.
func (n *thingNamed) coded() bool {
	f, is := n.thing.(*filter)
	return is && !n.byColour && strings.ContainsAny(f.name, "0123456789")
}

// calling is what a thing of the kit is called by, in lower case; a filter by its colour too.
type calling struct {
	thing
	name     string
	byColour bool
}

// learn keeps what the things of a kit are called by, in the order of the kit.
func (k *kit) learn() {
	k.called = nil
	var names []string
	add := func(t thing, byColour bool, all ...string) {
		for _, name := range all {
			k.called = append(k.called, calling{t, strings.ToLower(name), byColour})
		}
		names = append(names, all...)
	}
	for _, f := range k.filters {
		add(f, false, f.name)
		add(f, true, f.colours()...)
		names = append(names, filterNouns)
	}
	for _, f := range k.films {
		add(f, false, f.name)
	}
	for _, l := range k.lenses {
		if add(l, false, l.name); l.focal > 0 && l.name != trim(l.focal) {
			add(l, false, trim(l.focal), trim(l.focal)+"mm")
		}
	}
	for _, m := range k.meters {
		add(m, false, m.name)
	}
	k.names = pattern.AnyOf(strings.Join(names, " "))
}

// mayName reports at a glance whether a text may name a thing of the kit.
func (k *kit) mayName(text string) bool { return len(k.called) > 0 && k.names.In(text) }

// thingsIn are the things of the kit that a text in lower case names, in the order of the kit.
func (k *kit) thingsIn(low string) (all []thingNamed) {
	if !k.mayName(low) {
		return nil // as most
	}
	low = filtersElsewhere(low)
	for _, c := range k.called {
		for from, to := 0, 0; c.name != ""; from = to {
			i := strings.Index(low[from:], c.name)
			if i < 0 {
				break
			}
			from, to = from+i, from+i+len(c.name)
			if isWhole(low, from, to) {
				n := thingNamed{calling: c}
				n.weigh(low, from, to)
				all = append(all, n)
			}
		}
	}
	return all
}

// colours are those that a filter may be called by, but for its name: the one that it is declared with, or those that the
// trade calls it by.
func (f *filter) colours() (all []string) {
	all = []string{f.colour}
	if entry, ok := handbook.Filter(f.number); ok && f.colour == "" {
		all = append(slices.Clone(entry.Hues), strings.ToLower(entry.Colour))
	}
	slices.Sort(all)
	return slices.DeleteFunc(slices.Compact(all), func(colour string) bool { return colour == "" || strings.EqualFold(colour, f.name) })
}

// isOn reports whether a filter that is named is on, or another one that is called by the same colour.
func (k *kit) isOn(n *thingNamed, uses []*use) bool {
	return slices.ContainsFunc(uses, func(u *use) bool {
		f, _, _ := k.filter(u.name)
		return f != nil && (f == n.thing || n.byColour && slices.ContainsFunc(f.colours(), func(colour string) bool { return slices.Contains(n.thing.(*filter).colours(), colour) }))
	})
}

// isWhole reports whether neither a letter nor a figure stands right before or behind a stretch of a text.
func isWhole(text string, from, to int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:from])
	behind, _ := utf8.DecodeRuneInString(text[to:])
	return partsWords(before) && partsWords(behind)
}

// weigh finds out how sure a thing is that is named from one place of a text in lower case to another, and what is said of it.
func (n *thingNamed) weigh(low string, from, to int) {
	if n.standsFor(low, from, to) {
		n.sure = thingItself
	}
	head := len(takesBack().FindString(low))
	if from < head {
		return
	}
	behind, _, denied := strings.Cut(low[to:], " not the ")
	on, off, forgot := false, false, false
	for _, said := range [...]string{low[head:from], behind} {
		for word := range strings.FieldsSeq(said) {
			switch word = strings.Trim(word, ".,;:!()"); {
			case word == "", strings.HasSuffix(word, "'s"), strings.HasSuffix(word, "’s"), besideThing[word]:
			case sayOn[word]:
				on = true
			case word == "off":
				off = true
			case word == "forgot", word == "forgotten":
				forgot = true
			default:
				return
			}
		}
	}
	if off == forgot { // forgot to take it off
		n.sure, n.on, n.instead = thingAlone, on || forgot, head > 0 || denied
	}
}

// standsFor reports whether a name stands for the thing itself, and not before what it is said of, nor is denied: the red,
// the red one, red on; not red barn.
func (n *thingNamed) standsFor(low string, from, to int) bool {
	before, behind := strings.TrimRight(low[:from], " "), low[to:]
	words := wordsIn(before)
	begins := len(words) == 0 || strings.ContainsAny(before[len(before)-1:], ",;.:(") || len(before) < from && strings.HasSuffix(before, "-") // lens - 210
	if !begins && len(before) == from || behind != "" && !strings.ContainsAny(behind[:1], " ,;.:)!?") {
		return false
	}
	if !begins && !leadsThing[words[len(words)-1]] && !strings.HasSuffix(before, "'s") && !strings.HasSuffix(before, "’s") {
		return false
	}
	if n := len(words); n > 0 && words[n-1] == "not" || n > 1 && words[n-2] == "not" {
		return false // not the red
	}
	rest := strings.Trim(behind, " ")
	next, more, _ := strings.Cut(rest, " ")
	if next == "on" && more != "" && !strings.HasPrefix(more, "for ") && !strings.ContainsAny(low[from:to], "0123456789") {
		return false // red on the hills
	}
	return rest == "" || strings.ContainsAny(rest[:1], ",;.:)!?") || behindThing[strings.Trim(next, ",;.:)!?")]
}

const (
	aroundThing = "that this one was were is the a my and actually now to for only had "
	scrapIt     = `(?:scrap|scratch|strike|forget) (?:that|it|this)`
)

// The words are those of notes read for this (common practice, no source).
var (
	leadsThing  = lang.SetOf(aroundThing + "are be with by from off used using put so no then not but have rather lent me")
	besideThing = lang.SetOf(aroundThing + "it both of these those still really in fact after all i see damn take taken shot left oh film sheet filter holder done has holds held got")
	behindThing = lang.SetOf("one filter film lens meter on for in after instead again back then now here off from home i this it took mm had")
	sayOn       = lang.SetOf("on with w/ through had")
	takesBack   = pattern.Lazily(`^(?:no,|` + scrapIt + `|sorry|oops|edit|correction|amend|wait,)[,:. ]*`)
)
