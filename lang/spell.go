package lang

import (
	"slices"
	"strings"
	"sync"
)

// What a word was probably meant for.

// nearest is the word of a list that another was probably meant for: one slip
// away, two for long words that begin alike; a word of the list itself is no slip. The list is in
// order, so that the first of equals wins always; nil is the log words.
func nearest(word string, list []string) string {
	if all := allNearest(word, list); len(all) > 0 {
		return all[0]
	}
	return ""
}

// allNearest is all words of a list that another may as well be meant for. One that only
// lacks its end is meant for the one word that has it.
func allNearest(word string, list []string) (all []string) {
	if list == nil {
		list = wordList()
	}
	if len(word) < 3 {
		return nil
	}
	best := 1 + len(word)/8
	for _, w := range list {
		if w == word {
			return nil
		}
		if d := len(w) - len(word); d > best || -d > best {
			continue
		}
		switch d := distance(word, w); {
		case d > 1 && w[0] != word[0]: // skylight is no daylight
		case d < best:
			best, all = d, append(all[:0], w)
		case d == best:
			all = append(all, w)
		}
	}
	begun := func(w string) bool { return strings.HasPrefix(w, word) }
	if first := slices.IndexFunc(all, begun); first >= 0 && !slices.ContainsFunc(all[first+1:], begun) {
		all = all[first : first+1]
	}
	return all
}

// meantWords is the log words that a word was probably meant for: those that it is the beginning of, one of each
// kind, as people shorten them, else those that are near.
func meantWords(word string) (all []string) {
	if _, whole := words[word]; whole || len(word) < 3 {
		return nil
	}
	for _, w := range wordList() { // in order: filter before filters
		alike := func(one string) bool { return words[one].word == words[w].word }
		if strings.HasPrefix(w, word) && !slices.ContainsFunc(all, alike) {
			all = append(all, w)
		}
	}
	if len(all) > 0 {
		return all
	}
	return allNearest(word, nil)
}

var wordList = sync.OnceValue(func() []string {
	var all []string
	for w := range words {
		all = append(all, w)
	}
	slices.Sort(all)
	return all
})

// termList is the words of terms that are long enough to be recognised when
// misspelled; aloneList is those of them that mean something without a value.
var termList, aloneList []string

func init() {
	for w := range keywords {
		if len(w) >= 4 && w != "dito" || w == "ext" || w == "mag" { // Dino is no slip for it
			termList = append(termList, w)
		}
	}
	for w := range colours {
		if len(w) >= 4 {
			termList = append(termList, w)
		}
	}
	termList = append(termList, "zone", "wratten", "polarizer", "filter", "stops")
	slices.Sort(termList)
	termList = slices.Compact(termList)
	for _, w := range termList {
		if !needsValue[w] {
			aloneList = append(aloneList, w)
		}
	}
}

// ordinary holds the common words of English, and of people who photograph
// outdoors, that lie one slip from a word of the notation.
var ordinary = sync.OnceValue(func() map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields(`
		accident accidents
		sheep sheer steel street sweet sheen shed sheets' letter later matter water better filler folder holder older colder bolder holster
		shatter scatter shutters results point paint print's prints sprint night right sight fight tight might slight flight lights alight
		eight less lets lend lenses pens hens tens dens firm fill films filmy farm seen scenes scent screen scents road lead leads roads
		load's loads loan goad toad gate late data fate rate mate date's dates day's days may say way lay bay pay ray jay stay may hay
		rest best test's text next nest west vest pest tests tent work ward wood cord lord wards wall tall ball all fall call's calls hall
		cell cull pitch match batch hatch watch catch curves carve scan's plan scar scans' scant swan sleeves sleeve's hold holders
		reed reeds bed beds rod rods subjects object project cameras cameo dew deer dev's den private's peace meters metre metres peter deter develops envelope develope
		heads beads reeds reader head bead dead ready real reed bread tread dread leading heading treading incidents gate gates give gale
		wave save cave have gaze pave rave game grave gives some sane came lame name tame fame sale safe sage shame dame sames used
		doubled doubles trouble gain against funny side ride hide tide wise wife wire wine wade wild shout bulbs brackets racket bracken
		firs fist thirst seconds thirds past fast east list lost cast vast mast lasts least blast lash walls halls balls fells fills
		feel bell well tell sell felt fellows yellows drew raw drawn drag scales stale scare rose risen ride ripe rice arise rising
		wall full fell fail falls shifts swift shirt till tile silt tilts hilt wilt wing swings sting frost fronts font near dear bear year
		tear wear hear fear gear roar reap filters factors barn care dare base bars bar rare fare bore bared done gone one bone tone lone
		nine note nose noon zones cold gold told bold sold fold old hole holds holt glue blur blues clue stutter written steps shops stop
		tops stoops fellow mellow bellow greens greet greed grey deer keep weep steep sleep peep seep bark park lark darn dart mark tale
		male pole pile palm page dogged foggy jogged bogged logged gray pray stray trap tram bath patch bank pack black lack hack sack rack
		ditty dittos mad man map bag max mat next exit text wish width wits pith both bother overs oven ever river cover hover lover
		noted notice knot not nothing notches unload reload measures pleased leased tasted rested nested tester tracks focal locus
		orange's range ranges grange granges granger orangery green's lightly light's lit metal mental mere merely ended rides ridge shade shaded shape ring rings
		fence pond spring string sling swim slide shirt drift lift gift sift front's rearm rears sunny's sunned shiny pans plan than pen
		path paths greek creating breaking regarding relating threading spreading headings heading extensions expansion incidence incidental
		coverage relative relatives filtered unaltered mediums sake negation again'st sami node nodes sell coverages loft left soft
		tan dull darks darker deeper paler scented circles circled flang flames flame shuttered slicks clocks licks cricks tasted`) {
		all[w] = true
	}
	return all
})

// Mistaken reports whether a word may stand in the place of another that a phone put right: one
// slip away; where the other is long, two, or its letters but one in another order, organ for orange.
func Mistaken(word, meant string) bool {
	const least, long = 3, 5 // letters
	if len(word) < least || len(meant) < least {
		return false
	}
	slips := distance(word, meant)
	return slips <= 1 || len(meant) >= long && word[0] == meant[0] && (slips == 2 || distance(inOrder(word), inOrder(meant)) <= 1)
}

// inOrder are the letters of a word in the order of the alphabet.
func inOrder(word string) string {
	letters := []byte(word)
	slices.Sort(letters)
	return string(letters)
}

// distance counts the slips between two words: a letter left out, put in,
// taken for another, or two swapped (optimal string alignment).
func distance(a, b string) int {
	var room [3][64]int
	if len(a) >= 64 || len(b) >= 64 {
		return max(len(a), len(b))
	}
	before, last, row := &room[0], &room[1], &room[2]
	for j := 0; j <= len(b); j++ {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}

// Slips counts the letters by which two words differ.
func Slips(a, b string) int { return distance(a, b) }

// SetOf is the words of a text, to be asked for by themselves.
func SetOf(words string) map[string]bool {
	all := map[string]bool{}
	for word := range strings.FieldsSeq(words) {
		all[word] = true
	}
	return all
}
