package compile

import (
	"slices"
	"strings"
	"unicode"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/pattern"
)

// Zones as people write them, in words that are no term: shadow III, the third zone, put on seven, Z. 3, sur VI, lll.
// One piece finds all of them in a text and says how sure each is; who asks takes what is sure enough for him. Behind a
// light value a zone is a term, and the notation's (lang).

// zoneNamed is a place of a text at which a zone is named.
type zoneNamed struct {
	zones    []float64 // that it may be; none where the number was not heard, or no zone has it: zone for, zone XI
	from, to int       // with the words that lead to it
	sure     zoneSure
	inWords  bool // as a number or an order in words
}

// zoneSure is how sure it is that something was placed on a zone that is named.
type zoneSure uint8

const (
	zoneSigned zoneSure = iota // what may be its sign stands among words, which may number anything: Study III
	zoneSaid                   // it is said to be one, but what is said fell there, was wished, or was not so
	zonePlaced                 // it is said as who places something says it
	zoneAlone                  // words that lead to it are all that is said: on III
)

// zonesIn are the zones that are named in a text.
func zonesIn(text string) []zoneNamed {
	if !mayNameZone(text) {
		return nil // as nearly all
	}
	z := &zoneWords{text: text, at: wordsAt(text)}
	z.low = make([]string, len(z.at))
	for i, w := range z.at {
		z.low[i] = strings.ToLower(text[w.from:w.to])
	}
	for i := 0; i < len(z.at); {
		i = max(i+1, z.named(i))
	}
	for i := range z.all {
		if k := &z.all[i]; k.sure == zonePlaced && !z.placed(i) {
			k.sure = zoneSaid
		}
	}
	if len(z.all) == 1 {
		z.all[0].sure = max(z.all[0].sure, z.alone(&z.all[0]))
	}
	return z.all
}

// withoutZones is a text without the zones that are named in it by more than their signs.
func withoutZones(text string) string {
	all := zonesIn(text)
	for i := len(all) - 1; i >= 0; i-- {
		if k := all[i]; k.sure > zoneSigned {
			text = text[:k.from] + " " + text[k.to:]
		}
	}
	return text
}

// mayNameZone reports at a glance whether a text may name a zone: a word of it may be the sign of one, III, lll, V., or begins
// with the letter for one, or a number stands behind a word that leads to it.
func mayNameZone(text string) bool {
	figures := false
	for i := 0; i < len(text); i++ {
		from, signs := i, true
		for ; i < len(text) && (text[i]|0x20 >= 'a' && text[i]|0x20 <= 'z' || text[i] >= '0' && text[i] <= '9'); i++ {
			signs = signs && strings.IndexByte("IVXivxl1", text[i]) >= 0
		}
		if i == from {
			continue
		}
		switch word := text[from:i]; {
		case signs && strings.Trim(word, "1") == "":
			figures = figures || len(word) <= len("10")
		case signs && len(word) > 1 && !isShortened(text[:from]), signs && word[0] < 'a' && (word == "V" || i == len(text) || text[i] != ' '), word[0]|0x20 == 'z':
			return true
		case word[0] <= '9' && len(word) <= len("10"):
			figures = true
		}
	}
	return (figures || mayLead.In(text)) && numberLed(text)
}

// isShortened reports whether a word is shortened behind a text: he'll.
func isShortened(before string) bool {
	return strings.HasSuffix(before, "’") || len(before) > 1 && strings.HasSuffix(before, "'") && unicode.IsLetter(rune(before[len(before)-2]))
}

// numberLed reports whether a text is a number, or has one behind a word that leads to it.
func numberLed(text string) bool {
	before := ""
	for word := range strings.FieldsFuncSeq(text, partsWords) {
		word = strings.ToLower(word)
		if _, figure := zoneInFigures(word); (figure || zoneNumber[word]) && (leadsNumber(before) || len(word) == len(strings.TrimSpace(text))) {
			return true
		}
		before = word
	}
	return false
}

// leadsNumber reports whether a number behind a word may be that of a zone.
func leadsNumber(word string) bool {
	return ontoZone[word] || inZone[word] || toZone[word] || wantsOf[word] || besideNumber[word] || placesZone[word]
}

// zoneWords is a text that is looked through for zones, by its words.
type zoneWords struct {
	text string
	at   []wordAt
	low  []string
	all  []zoneNamed
}

// written is the ith word of the text, and word the same in small letters, "" for none; gap is what stands before it.
func (z *zoneWords) written(i int) string { return z.text[z.at[i].from:z.at[i].to] }

func (z *zoneWords) word(i int) string {
	if i < 0 || i >= len(z.low) {
		return ""
	}
	return z.low[i]
}

func (z *zoneWords) gap(i int) string {
	from, to := 0, len(z.text)
	if i > 0 {
		from = z.at[i-1].to
	}
	if i < len(z.at) {
		to = z.at[i].from
	}
	return z.text[from:to]
}

// named takes the zone that begins with the ith word, but for words that lead to it, and is the number of the first word
// behind it, i where none does.
func (z *zoneWords) named(i int) int {
	low := z.low[i]
	if zoneWord[low] {
		return z.behindWord(i)
	}
	if low[0] == 'z' { // Z3, zone3, ZIII
		if zone, ok := zoneByWord(strings.TrimPrefix(z.written(i)[1:], "one")); ok {
			return z.take(i, i, zone, zonePlaced, false)
		}
		return i
	}
	if zone, ok := zoneCounted(low); ok {
		if z.word(i+1) == "zone" && strings.Trim(z.gap(i+1), " -") == "" {
			return z.take(i, i+1, zone, zonePlaced, true)
		}
		_, from := z.leads(i)
		if slices.Contains(z.low, "zone") || from < i && (ontoZone[z.low[from]] || countsZone[z.low[from]]) {
			return z.take(from, i, zone, zoneSigned, true)
		}
		return i
	}
	if zone, ok := z.sign(i); ok {
		return z.signed(i, zone)
	}
	return z.figure(i)
}

// behindWord takes the zone behind the ith word, which is the one for zones: zone 3, Zn III, zone three. Behind all of
// that word a number may stand that was not heard, or that no zone has.
func (z *zoneWords) behindWord(i int) int {
	n := i + 1
	if numbersZone[z.word(n)] && strings.TrimSpace(z.gap(n)) == "" {
		n++ // zone no. 3
	}
	if n >= len(z.at) || strings.Trim(z.gap(n), ` .:-–#=*"'([`) != "" {
		return i
	}
	lead, from := z.leads(i)
	if zone, ok := zoneByWord(z.written(n)); ok && !isTime().MatchString(z.text[z.at[n].from:]) {
		return z.take(from, n, zone, zonePlaced, false)
	}
	if !strings.HasPrefix(z.low[i], "zone") {
		return i
	}
	if zone, ok := numberOfZone(z.low[n]); ok {
		return z.take(from, n, zone, zonePlaced, true)
	}
	if lead == surelyOn && strings.TrimSpace(z.gap(n)) == "" && !notOnZone[z.low[n]] || homophone[z.low[n]] && n+1 == len(z.at) || inSigns(z.written(n)) || isNumber(z.written(n)) {
		z.all = append(z.all, zoneNamed{from: z.at[from].from, to: z.at[n].to, sure: zonePlaced})
		return n + 1
	}
	return i
}

// signed takes the zone whose sign the ith word may be: one letter may be a word, a cross or a five, and the writer calls
// himself I.
func (z *zoneWords) signed(i int, zone float64) int {
	lead, from := z.leads(i)
	first := z.written(i)[0]
	single, capital, ends := len(z.written(i)) == 1, strings.IndexByte("ivx", first) < 0, z.endsClause(i)
	sure := zoneSigned
	switch {
	case z.stepsFrom(i, i) != 0:
	case lead == surelyOn && (!single || ends), z.tonedBefore(i) && (!single || ends), z.tonedBehind(i), lead == maybeOn && !single && z.told(i, ofTones, placesZone, movesZone, givesZone):
		sure = zonePlaced
	case lead == maybeOn && !single && capital:
		sure = zoneSaid
	case !capital && len(z.at) > 1, single && (!ends || first == 'I' && len(z.at) > 1):
		return i
	}
	return z.take(from, i, zone, sure, false)
}

// figure takes the zone that the ith word is a figure for, or a number in words, which only other words can say: put on 3,
// on seven, wants five.
func (z *zoneWords) figure(i int) int {
	zone, digits := zoneInFigures(z.written(i))
	switch {
	case digits && len(z.at) == 1: // in quotes
		return z.take(i, i, zone, zoneSigned, false)
	case digits && z.word(i+1) == "zone" && strings.TrimSpace(z.gap(i+1)) == ".": // 3. Zone
		return z.take(i, i+1, zone, zonePlaced, false)
	}
	if !digits {
		number, ok := numberOfZone(z.low[i])
		if next := z.word(i + 1); !ok || z.low[i] == "one" || (next == "hundred" || zoneNumber[next]) && strings.TrimSpace(z.gap(i+1)) == "" {
			return i
		}
		zone = number
	}
	if inNumber().MatchString(z.text[z.at[i].to:]) {
		return i // on three-legged
	}
	_, from := z.leads(i)
	by, ends := z.low[from], z.endsClause(i) && !says(z.low, notOfZones)
	sure := zoneSigned
	switch {
	case ends && (ontoZone[by] && z.told(i, ofTones, placesZone) || inZone[by] && z.told(i, placesZone) || countsZone[by] && z.told(i, ofTones) || placesZone[by] && from == i-1),
		ends && !digits && (ontoZone[by] || by == "as" || wantsOf[by] && (z.word(from-1) == "i" || z.word(from-1) == "it")):
		sure = zonePlaced
	case ends && ontoZone[by]:
		sure = zoneSaid
	case digits, !ontoZone[by] && !wantsOf[by] && !countsZone[by]:
		return i
	}
	return z.take(from, i, zone, sure, !digits)
}

// take adds the zone that the words from the first to the last name, with a part behind its number and the other end of a
// range: III½, II-III, between III and IV. It is the number of the first word behind it.
func (z *zoneWords) take(first, last int, zone float64, sure zoneSure, inWords bool) int {
	if steps := z.stepsFrom(first, last); steps != 0 && zone+steps >= 0 && zone+steps <= lastZone {
		zone, sure = zone+steps, zonePlaced
	}
	k := zoneNamed{zones: []float64{zone}, from: z.at[first].from, to: z.at[last].to, sure: sure, inWords: inWords}
	next := last + 1
	if half := halfBehind().FindString(z.text[k.to:]); half != "" {
		k.zones[0], k.to = zone+0.5, k.to+len(half)
		if half == " 1/2" { // or a time
			k.zones = append(k.zones, zone)
		}
		for next < len(z.at) && z.at[next].from < k.to {
			next++
		}
	} else if end := z.otherEnd(next); end < len(z.at) {
		other, ok := z.sign(end)
		if !ok && last > first && zoneWord[z.low[last-1]] {
			other, ok = zoneInFigures(z.written(end))
		}
		if ok {
			k.zones, k.to, next = append(k.zones, other, (zone+other)/2), z.at[end].to, end+1
		}
	}
	z.all = append(z.all, k)
	return next
}

// stepsFrom is how many zones from the one that the words from the first to the last name something was placed, 0 for none:
// two zones below V, V minus 2, V+1.
func (z *zoneWords) stepsFrom(first, last int) float64 {
	before, behind := strings.ToLower(z.text[:z.at[first].from]), strings.ToLower(z.text[z.at[last].to:])
	for _, m := range [][]string{stepsBefore().FindStringSubmatch(before), stepsBehind().FindStringSubmatch(behind)} {
		if m == nil {
			continue
		}
		by := stepsCounted[m[1]+m[4]]
		if m[2]+m[3] != "" {
			return -by
		}
		return by
	}
	return 0
}

// otherEnd is the word at the other end of a range to which what stands before the next word may belong.
func (z *zoneWords) otherEnd(next int) int {
	switch joint := strings.TrimSpace(z.gap(next)); {
	case joint == "-", joint == "–", joint == "/":
		return next
	case joint == "" && (orZone[z.word(next)] || andZone[z.word(next)] && says(z.low, betweenZones)):
		return next + 1
	}
	return len(z.at)
}

// sign is the zone whose sign the ith word is, in capitals as by hand and as a phone may have its strokes, IIII, lll, or in
// small letters where it has several.
func (z *zoneWords) sign(i int) (zone float64, ok bool) {
	word := z.written(i)
	if word == "l" || isShortened(z.text[:z.at[i].from]) {
		return 0, false
	}
	if strings.ContainsAny(word, "IVX") {
		word = strings.ReplaceAll(word, "1", "I")
	}
	if zone, ok = zoneSigns[strokes.Replace(word)]; !ok && len(word) > 1 && word == z.low[i] {
		zone, ok = zoneSigns[strings.ToUpper(word)]
	}
	return zone, ok
}

// leads is how the words before the ith lead to a zone, and the first of them.
func (z *zoneWords) leads(i int) (lead zoneLead, from int) {
	if ledBySign().MatchString(z.gap(i)) {
		return maybeOn, i
	}
	n := i - 1
	if besideNumber[z.word(n)] {
		n--
	}
	if n < 0 || strings.Trim(z.gap(i), ` "'*([`) != "" {
		return noLead, i
	}
	switch word := z.low[n]; {
	case ontoZone[word], inZone[word], placesZone[word], movesZone[word]:
		return surelyOn, n
	case givesZone[word] && !besideNumber[z.word(i-1)]:
		return maybeOn, n
	case toZone[word], wantsOf[word]:
		return maybeOn, n
	}
	return noLead, i
}

// zoneLead is how words lead to a zone.
type zoneLead uint8

const (
	noLead   zoneLead = iota
	maybeOn           // to III, as III, = III
	surelyOn          // on III
)

// clause is where the clause with a place begins and ends.
func (z *zoneWords) clause(from, to int) (begin, end int) {
	begin, end = 0, len(z.text)
	for _, at := range clauseBreak().FindAllStringIndex(z.text, -1) {
		if at[1] <= from {
			begin = at[1]
		} else if at[0] >= to {
			return begin, at[0]
		}
	}
	return begin, end
}

// endsClause reports whether a clause ends with the ith word, and a part behind its number.
func (z *zoneWords) endsClause(i int) bool {
	behind := z.text[z.at[i].to:]
	behind = behind[len(halfBehind().FindString(behind)):]
	return clauseEndsAt().MatchString(behind) && !inNumber().MatchString(behind)
}

// tonedBefore reports whether the word before the ith is of what is placed: shadow III, sky: VIII; and tonedBehind whether the
// words behind it are: III for the shadow, VIII sky.
func (z *zoneWords) tonedBefore(i int) bool {
	return ofTones[z.word(i-1)] && strings.Trim(z.gap(i), ` .:="'([*-–>→`) == ""
}

func (z *zoneWords) tonedBehind(i int) bool {
	n := i + 1
	if begin, _ := z.clause(z.at[i].from, z.at[i].to); i > 0 && z.at[i-1].from >= begin {
		return false // Study III sky
	}
	for n < len(z.at) && (toZone[z.low[n]] || besideNumber[z.low[n]]) && strings.TrimSpace(z.gap(n)) == "" {
		n++
	}
	return ofTones[z.word(n)] && strings.Trim(z.gap(n), " =:") == ""
}

// told reports whether a word of some sets stands before the ith in its clause.
func (z *zoneWords) told(i int, sets ...map[string]bool) bool {
	begin, _ := z.clause(z.at[i].from, z.at[i].to)
	for n := i - 1; n >= 0 && z.at[n].from >= begin; n-- {
		if slices.ContainsFunc(sets, func(set map[string]bool) bool { return set[z.low[n]] }) {
			return true
		}
	}
	return false
}

// placed reports whether the clause of the nth zone says that something was placed on it, and not that it fell there, was
// wished or was not so.
func (z *zoneWords) placed(n int) bool {
	k := &z.all[n]
	begin, end := z.clause(k.from, k.to)
	if n > 0 {
		begin = max(begin, z.all[n-1].to)
	}
	before, behind := wordsIn(z.text[begin:k.from]), []string(nil)
	if n+1 == len(z.all) || z.all[n+1].from >= end {
		behind = wordsIn(z.text[k.to:end])
	}
	if says(behind, falling) || says(before, falling) && !says(before, meantTo) {
		return false
	}
	return !says(before, notPlaced) && !says(behind, notPlaced)
}

// alone is how sure a zone is to which nothing but words that lead to it are added: a figure, a cross and the writer's I may be
// anything where they stand by themselves.
func (z *zoneWords) alone(k *zoneNamed) zoneSure {
	if k.inWords && k.sure == zoneSigned {
		return zoneSigned // on the third
	}
	for i, w := range z.at {
		if (w.from < k.from || w.to > k.to) && !onlyLeads[z.low[i]] {
			return zoneSigned
		}
	}
	switch word := strings.TrimSpace(z.text[k.from:k.to]); {
	case len(z.at) > 1:
		return zoneAlone
	case word != "V" && (len(word) == 1 || word == "10"):
		return zoneSaid
	}
	return zonePlaced
}

// zoneByWord is the zone that a word behind the one for zones is the number of: III, iii, 3.
func zoneByWord(word string) (zone float64, ok bool) {
	if zone, ok = zoneInFigures(word); ok || word == "l" {
		return zone, ok
	}
	if zone, ok = zoneSigns[strokes.Replace(word)]; !ok {
		zone, ok = zoneSigns[strings.ToUpper(word)]
	}
	return zone, ok
}

func zoneInFigures(word string) (zone float64, ok bool) {
	if len(word) == 1 && word[0] >= '0' && word[0] <= '9' || word == "10" {
		return parseFloat(word), true
	}
	return 0, false
}

// inSigns reports whether a word has no other letters than the signs of zones, as have those of numbers that are none: XI.
func inSigns(word string) bool { return strings.Trim(word, "IVX") == "" }

const lastZone = 10

const fewSteps = `an?|one|two|three|eine?|zwei|drei|[123]`

// zoneSigns are the signs of the zones.
var zoneSigns = func() map[string]float64 {
	all := map[string]float64{}
	for zone := 1.; zone <= lastZone; zone++ {
		all[exposure.Roman(zone)] = zone
	}
	return all
}()

var strokes = strings.NewReplacer("Vllll", "IX", "VIIII", "IX", "llll", "IV", "IIII", "IV", "l", "I")

// numberOfZone is the zone that a word is the number of, in the tongues in which zones are written.
func numberOfZone(low string) (zone float64, ok bool) {
	if n := slices.Index(zoneNumbers, low); n >= 0 {
		return float64(n % (lastZone + 1)), true
	}
	return 0, false
}

// zoneCounted is the zone that a word counts: third, 3rd, dritten, troisième.
func zoneCounted(low string) (zone float64, ok bool) {
	if figures := strings.TrimRightFunc(low, unicode.IsLetter); figures != "" {
		zone, ok = zoneInFigures(figures)
		return zone, ok && zoneEndings[low[len(figures):]]
	}
	n := slices.Index(zoneOrders, low)
	if stem := strings.TrimRight(low, "nrs"); n < 0 && strings.HasSuffix(stem, "te") { // dritten
		n = slices.Index(zoneOrders, stem)
	}
	return float64(n%lastZone + 1), n >= 0
}

// The words are those of notes read for this (common practice, no source).
var (
	zoneNumbers = strings.Fields("zero one two three four five six seven eight nine ten null eins zwei drei vier fünf sechs sieben acht neun zehn zéro un deux trois quatre cinq six sept huit neuf dix")
	zoneOrders  = strings.Fields("first second third fourth fifth sixth seventh eighth ninth tenth erste zweite dritte vierte fünfte sechste siebte achte neunte zehnte première deuxième troisième quatrième cinquième sixième septième huitième neuvième dixième")

	mayLead      = pattern.AnyOf("auf sur " + strings.Join(lang.NumberWords(), " "))
	zoneNumber   = lang.SetOf(strings.Join(slices.Concat(zoneNumbers, zoneOrders), " "))
	zoneWord     = lang.SetOf("zone zones z zn zonen zona")
	ontoZone     = lang.SetOf("on onto upon auf sur")
	inZone       = lang.SetOf("at in between zwischen entre")
	toZone       = lang.SetOf("to into as for nach für fuer pour en be was is by")
	wantsOf      = lang.SetOf("want wants wanted wanting")
	zoneEndings  = lang.SetOf("st nd rd th te e ème eme")
	countsZone   = lang.SetOf("to into as")
	besideNumber = lang.SetOf("a an the it this that them der die das den la le")
	numbersZone  = lang.SetOf("no nr number nummer numéro")
	betweenZones = lang.SetOf("between zwischen entre")
	andZone      = lang.SetOf("and und et")
	orZone       = lang.SetOf("or to bis oder ou à")
	ofTones      = lang.SetOf("value tone valeur tonwert shadow shadows sh shad shade shades lows darks highlight highlights highs whites sky cloud clouds skin face snow schatten tiefen lichter himmel haut gesicht schnee ombre ombres ciel peau visage neige")
	placesZone   = lang.SetOf("placed place places placing placement put puts putting placé placée placés placées mis mise mises gelegt gesetzt")
	movesZone    = lang.SetOf("raised lifted dropped lowered moved")
	givesZone    = lang.SetOf("exposed exposing treated rendered given giving gave metered printed now")
	onlyLeads    = lang.SetOf("auf on onto upon to for at as nach für fuer pour en sur z zn zone zones in raised lifted lowered placed put dropped moved up down it them that is maybe perhaps probably about roughly around ca circa approx etwa ungefähr environ")
	notPlaced    = lang.SetOf("no not without never kein keine nicht pas would could should might ought system next")
	notOfZones   = lang.SetOf("lens aperture iris diaphragm shutter speed meter phone app timer clock watch focus still same")
	notOnZone    = lang.SetOf("system focus focusing plate of is was and or scale metering again where")

	ledBySign    = pattern.Lazily(`(?:=|->|→|=>|:|@) ?["'(*]?$`)
	halfBehind   = pattern.Lazily(`^(?:\+? ?½|[.,]5\b|\+1/2| 1/2\b|-1/2\b| (?:and )?(?:a )?half\b)`)
	clauseEndsAt = pattern.Lazily(`^["'*\]]?` + clauseEnds)
	stepsBefore  = pattern.Lazily(`\b(` + fewSteps + `)(?: (?:zones?|stops?|steps?|stufen?|blenden?))? (?:(below|under|unter)|above|over|über) $()()`)
	stepsBehind  = pattern.Lazily(`^()() ?(?:(-|−|minus)|\+|plus) ?(` + fewSteps + `)(?: (?:zones?|stops?|steps?))?(?:$|[ ,.;)])`)
	inNumber     = pattern.Lazily(`^(?:[.,:/]\d|-[\p{Ll}\d])`)
	isTime       = pattern.Lazily(`^\d+(?:/\d| ?(?i:s|secs?|sek|min)\b)`)
	clauseBreak  = pattern.Lazily(`[,;!?()]|\.(?: |$)|--| [-–—] `)
)
