package handbook

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode"

	"notchbook/compile/exposure"
)

// Film classes, by the colours they are sensitive to.
const (
	Pan   = "pan"   // all colours
	Ortho = "ortho" // blind to red
	Blue  = "blue"  // blind to all but blue
)

// Lights that filter factors are published for.
const (
	Daylight = "daylight"
	Tungsten = "tungsten"
)

// Published is one printed value of a filter.
type Published struct {
	Stops   float64 // to compute with: log2 of the factor, else as printed
	Factor  float64 // as printed; 0 where only stops were
	Printed float64 // stops as printed beside the factor, rounded; 0 where none were
	Light   string  // Daylight or Tungsten; empty where the source does not say
	Film    string  // Pan or Ortho
	Source  string
}

// FilterEntry is what the handbook knows of a filter. Its slices are shared and
// must not be changed.
type FilterEntry struct {
	Number string // Wratten number, "25", "23A"; "pol" for the polarizer
	Colour string // as named: "deep yellow"
	Hues   []string
	Letter string // old letter: "K2", "G", "A"; empty for none
	Values []Published
	sight  map[string]string // film class to ok, long or blind
}

// filterTable is every filter by number and by old letter, read once.
var filterTable = sync.OnceValues(readFilters)

// Filter finds a filter by Wratten number ("25", "#25", "W25", "No. 25"), by old
// letter ("K2"), or "pol". Spelling and case do not matter.
func Filter(number string) (FilterEntry, bool) {
	entries, err := filterTable()
	if err != nil {
		return FilterEntry{}, false
	}
	key := filterKey(number)
	if e, ok := entries[key]; ok {
		return e, true
	}
	// 25A and 12A are 25 and 12 with a maker's suffix; 23A and 47B stand in the table
	e, ok := entries[strings.TrimSuffix(key, "A")]
	return e, ok && key[0] >= '0' && key[0] <= '9'
}

// NumberOf is the Wratten number within a filter's name: 25 of R25, red 25, W25,
// #25; "pol" of a polarizer; "" of anything else.
func NumberOf(name string) string {
	low := strings.ToLower(strings.TrimSpace(name))
	switch {
	case strings.HasPrefix(low, "pol"), low == "cpl":
		return "pol"
	case strings.HasPrefix(low, "nd"), strings.HasPrefix(low, "grad"):
		return ""
	}
	if e, ok := Filter(low); ok { // old letters too
		return e.Number
	}
	start := strings.IndexAny(low, "0123456789")
	if start < 0 {
		return ""
	}
	if e, ok := Filter(low[start:]); ok {
		return e.Number
	}
	return ""
}

// IsOldLetter reports whether a filter's name is an old letter and no number: G, K2.
func IsOldLetter(name string) bool {
	e, ok := Filter(name)
	return ok && e.Letter != "" && filterKey(name) == e.Letter
}

// filterKey brings the ways to write a number to one.
func filterKey(number string) string {
	key := strings.Map(func(c rune) rune {
		if unicode.IsSpace(c) {
			return -1
		}
		return unicode.ToUpper(c)
	}, number)
	for _, prefix := range [...]string{"WRATTEN", "NO.", "NO", "#", "W"} {
		if rest, ok := strings.CutPrefix(key, prefix); ok && rest != "" && rest[0] >= '0' && rest[0] <= '9' {
			return rest
		}
	}
	if strings.HasPrefix(key, "POLAR") {
		return "POL"
	}
	return key
}

// shortHues are the letters that stand for a hue before a number: Y8, R25.
var shortHues = map[string]string{
	"y": "yellow", "o": "orange", "r": "red", "g": "green", "b": "blue", "yg": "yellow green",
}

// Called reports whether the filter may be called by a colour word or its first
// letter: 8 is "yellow" and "Y", 25 is not "green". Shades (light, deep) do not
// count, and the old letter is a name of its own.
func (e FilterEntry) Called(word string) bool {
	if e.Letter != "" && strings.EqualFold(word, e.Letter) {
		return true
	}
	word = strings.ToLower(word)
	if hue, ok := shortHues[word]; ok {
		word = hue
	}
	words := strings.FieldsFunc(word, func(r rune) bool { return r == ' ' || r == '-' })
	named := false
	for _, w := range words {
		switch w {
		case "light", "medium", "deep", "dark", "pale":
			continue
		}
		if !slices.Contains(e.Hues, w) && w != strings.ToLower(e.Colour) {
			return false
		}
		named = true
	}
	return named
}

// BlindOn reports whether film of a class cannot see the light the filter passes,
// so that no factor is right, or sees so little that the time becomes very long.
// A class that is not known sees everything.
func (e FilterEntry) BlindOn(class string) (blind, veryLong bool) {
	return e.sight[class] == "blind", e.sight[class] == "long"
}

// Default returns the value to compute with where none was declared, for a light
// and a film class; empty for either takes daylight and pan. ok is false where
// nothing is published for them.
func (e FilterEntry) Default(light, film string) (p Published, ok bool) {
	if light == "" {
		light = Daylight
	}
	if film == "" {
		film = Pan
	}
	for _, v := range e.Values {
		if v.suits(light, film) {
			return v, true
		}
	}
	return Published{}, false
}

// Span returns the least and the most stops that were ever published for a light
// and a film class, within which an undeclared filter cannot be called wrong.
// Empty for either takes all of them.
func (e FilterEntry) Span(light, film string) (lo, hi float64, ok bool) {
	for _, v := range e.Values {
		if !v.suits(light, film) {
			continue
		}
		if !ok {
			lo, hi, ok = v.Stops, v.Stops, true
		}
		lo, hi = min(lo, v.Stops), max(hi, v.Stops)
	}
	return lo, hi, ok
}

func (p Published) suits(light, film string) bool {
	return (light == "" || p.Light == "" || p.Light == light) && (film == "" || p.Film == film)
}

func readFilters() (map[string]FilterEntry, error) {
	values, err := readValues()
	if err != nil {
		return nil, err
	}
	t, err := readTable("filters.csv")
	if err != nil {
		return nil, err
	}
	entries := make(map[string]FilterEntry)
	for _, row := range t.rows {
		e := FilterEntry{
			Number: t.text(row, "number"),
			Colour: t.text(row, "colour"),
			Hues:   strings.Fields(t.text(row, "hues")),
			Letter: t.text(row, "letter"),
			sight:  make(map[string]string),
		}
		for _, class := range [...]string{Pan, Ortho, Blue} {
			e.sight[class] = t.text(row, class)
		}
		e.Values = values[e.Number]
		entries[strings.ToUpper(e.Number)] = e
		if e.Letter != "" {
			entries[e.Letter] = e
		}
	}
	return entries, nil
}

// readValues returns the published values by filter number, in the order printed.
func readValues() (map[string][]Published, error) {
	t, err := readTable("values.csv")
	if err != nil {
		return nil, err
	}
	values := make(map[string][]Published)
	for _, row := range t.rows {
		p, err := publishedIn(t, row)
		if err != nil {
			return nil, err
		}
		number := t.text(row, "number")
		values[number] = append(values[number], p)
	}
	return values, nil
}

func publishedIn(t table, row []string) (Published, error) {
	p := Published{Light: t.text(row, "light"), Film: t.text(row, "film"), Source: t.text(row, "source")}
	var hasFactor, hasStops bool
	var err error
	if p.Factor, hasFactor, err = t.number(row, "factor"); err != nil {
		return p, err
	}
	if p.Printed, hasStops, err = t.number(row, "stops"); err != nil {
		return p, err
	}
	ok := hasStops
	p.Stops = p.Printed
	if hasFactor {
		p.Stops, ok = exposure.FactorStops(p.Factor)
	}
	if !ok {
		return p, fmt.Errorf("table %s: %v holds no value", t.name, row)
	}
	return p, nil
}
