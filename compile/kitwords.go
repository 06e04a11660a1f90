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
	thing
	byColour    bool // a filter, and by nothing else
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

// thingsIn are the things of the kit that a text in lower case names, in the order of the kit.
func (k *kit) thingsIn(low string) (all []thingNamed) {
	if !k.mayName(low) {
		return nil // as most
	}
	low = filtersElsewhere(low)
	take := func(t thing, byColour bool, names ...string) {
		for _, name := range names {
			for from, i := 0, 0; name != ""; from += i + len(name) {
				if i = strings.Index(low[from:], name); i < 0 {
					break
				}
				if at := from + i; isWhole(low, at, at+len(name)) {
					n := thingNamed{thing: t, byColour: byColour}
					n.weigh(low, at, at+len(name))
					all = append(all, n)
				}
			}
		}
	}
	for _, f := range k.filters {
		take(f, false, strings.ToLower(f.name))
		take(f, true, f.colours()...)
	}
	for _, f := range k.films {
		take(f, false, strings.ToLower(f.name))
	}
	for _, l := range k.lenses {
		take(l, false, l.callings()...)
	}
	for _, m := range k.meters {
		take(m, false, strings.ToLower(m.name))
	}
	return all
}

// mayName reports at a glance whether a text may name a thing of the kit.
func (k *kit) mayName(text string) bool { return k.names != nil && k.names.In(text) }

// learn keeps what the kit's things are called by, for mayName.
func (k *kit) learn() {
	var all []string
	for _, f := range k.filters {
		all = append(append(all, f.name), f.colours()...)
	}
	for _, f := range k.films {
		all = append(all, f.name)
	}
	for _, l := range k.lenses {
		all = append(all, l.callings()...)
	}
	for _, m := range k.meters {
		all = append(all, m.name)
	}
	names := pattern.AnyOf(strings.Join(all, " "))
	if len(k.filters) > 0 {
		names = names.Or(mayBeFilter)
	}
	k.names = &names
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

// callings are what a lens is called by: its name, and its focal length.
func (l *lens) callings() []string {
	name, focal := strings.ToLower(l.name), trim(l.focalOr0())
	if name == focal || focal == "0" {
		return []string{name}
	}
	return []string{name, focal, focal + "mm"}
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
	begins := len(words) == 0 || strings.ContainsAny(before[len(before)-1:], ",;.:(")
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
	besideThing = lang.SetOf(aroundThing + "it both of these those still really in fact after all i see damn take taken shot left oh film sheet filter done")
	behindThing = lang.SetOf("one filter film lens meter on for in after instead again back then now here off from home i this it took mm had")
	sayOn       = lang.SetOf("on with w/ through had")
	takesBack   = pattern.Lazily(`^(?:no,|` + scrapIt + `|sorry|oops|edit|correction|amend|wait,)[,:. ]*`)
)
