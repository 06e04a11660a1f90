package lang

import (
	"path"
	"slices"
	"strconv"
	"strings"
	"sync"

	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// Terms of what was used: names, filters, extension, movements, sheets.

// declared is a name from the kit, of which only filters stand in a line as
// they are, or one of the writer's calls.
func (s *scanner) declared() bool {
	n := s.names.longest(s.low[s.pos:])
	if n == 0 || !boundary(s.low, s.pos+n) {
		return false
	}
	name := s.low[s.pos : s.pos+n]
	if s.names.Names[name] == Film && s.field == onSheet && s.ownCell(s.pos+n) {
		return s.emit(tWord, s.src[s.pos:s.pos+n], s.pos+n) // O25, that looks like a filter
	}
	if s.names.Names[name] == Film {
		if end := unit(s.low, s.pos+n, "film"); s.field == onSheet && end > s.pos+n && s.namesFilm(end) {
			return s.emit(tChoose, "film "+name, end)
		}
	}
	if s.names.Names[name] == FilterWord && s.field&(onSheet|onLens|onFilter) != 0 {
		if isFactor(name) && s.src[s.pos] == 'x' && (s.field&onFilter != 0 || s.last() == tFilter) {
			return false // what the filter costs: Y8 x2
		}
		if colours[name] { // "orange" may be the beginning of "orange 21"
			return s.filter()
		}
		if name == "f" && isDigit(at(s.low, skip(s.low, s.pos+1))) {
			return false // an aperture
		}
		if (name == "nd" || name == "grad") && s.filter() { // and "nd" of "nd 0.9"
			return true
		}
		return s.emit(tFilter, s.src[s.pos:s.pos+n], unit(s.low, s.pos+n, "filter"))
	}
	means, ok := s.names.Calls[name]
	return ok && s.field&onSheet != 0 && s.called(means, s.pos+n)
}

// namesFilm reports whether a film's name, with the word for one behind it up to end, stands by itself or behind words by
// which a film is taken: on slate film, 1/30 f16. Other words may deny it, or count the sheets that are left.
func (s *scanner) namesFilm(end int) bool {
	next := skip(s.low, end)
	return s.takenBefore(len(s.tokens)) && (!isLetter(at(s.low, next)) || apertureAt(s.low, next))
}

// ownCell reports whether what ends at end is all that stands between two commas of a line, or
// between several blanks.
func (s *scanner) ownCell(end int) bool {
	before := strings.TrimRight(s.low[s.begin:s.pos], " ")
	gap := s.pos - s.begin - len(before)
	if next := skip(s.low, end); next < len(s.low) && strings.IndexByte(",;|", s.low[next]) < 0 && next < end+2 && s.low[end] != '\t' {
		return false
	}
	return before == "" || gap > 1 || strings.IndexByte(",;|\t", before[len(before)-1]) >= 0
}

// called puts the tokens of a call's meaning where the call stands. Calls are
// not followed within it.
func (s *scanner) called(means string, end int) bool {
	inner := scanFolded(source.Fold(means).Text, s.field, &Lexicon{Names: s.names.Names, Labels: s.names.Labels})
	for _, t := range inner.tokens {
		t.Pos.Offset = s.pos
		s.tokens, s.ends = append(s.tokens, t), append(s.ends, end)
	}
	if len(inner.tokens) > 0 {
		s.pos = end
	}
	return len(inner.tokens) > 0
}

// LightThings are the words behind "light" or "sun" with which these are no light: what is
// light of weight, little of its kind, or a thing by that name (common practice, no source).
// Light cloud, haze and mist are states of the light.
func LightThings() []string { return lightThings() }

var lightThings = sync.OnceValue(func() []string {
	return strings.Fields("rain rains rainfall drizzle shower showers snow snowfall sleet hail wind winds breeze breezes air airs frost dew ice meter meters lightmeter " +
		"tent box table pad bulb bulbs switch stand stands cable post posts pole railway rail aircraft plane boat ship vessel house housed bag bags load lunch supper meal snack breakfast jacket coat shirt " +
		"hat hats cap cream dial bed glasses shade shades screen lounge block traffic work touch grip pack packed footed weight tripod camera lens dust sand soil leak leaks leaked industry engine engines entertainment reading readings")
})

// LightGotIn is how one says that light leaked: light had got in, light came in at the corner. Where
// it comes in by a window it is the subject's.
const LightGotIn = `\b(?:day)?light (?:(?:has|had|have|must|may|might|could) )*(?:got|gets|getting|came|comes|coming|come|crept|seeped) in(?:to|side)?` +
	`(?:$|[,.;:!)]| (?:at|by|on|along|round|around) (?:the |one |a )?(?:\pL+ )?(?:corners?|edges?|sides?|end|ends|hinge|flap)\b` +
	`| (?:the |my |this |that |its )?(?:film |plate |dark )?(?:holder|slide|darkslide|sheath|box|bag|tank|camera|bellows|back)\b)`

var (
	lightGotIn = pattern.Lazily(`^` + LightGotIn)
	entering   = pattern.Lazily(`^(?:(?:has|had|have|must|may|might|could) )*(?:got|gets|getting|(?:came|comes|coming|come|crept|seeped) in(?:to|side)?)\b`)
)

// gotIn is the end of such words at i of a text in lower case, else i.
func gotIn(low string, i int) int {
	if word := low[i:letterRun(low, i)]; word != "light" && word != "daylight" {
		return i
	}
	return i + len(lightGotIn().FindString(low[i:]))
}

// light is the kind of light for this sheet: the words up to a term.
func (s *scanner) light(end int) bool {
	start := skip(s.low, end)
	stop := letterRun(s.low, start)
	word := s.low[start:stop]
	kind := word == "tungsten" || word == "daylight"
	if slices.Contains(LightThings(), word) || entering().MatchString(s.low[start:]) {
		return false
	}
	if !kind && (s.last() == tWord || word == "ev" || word == "lv" || word == "lw" || word == "f" || keywords[word].field&s.field != 0) {
		return false // last light, by the light
	}
	for next := skip(s.low, stop); next > stop && stop > start; next = skip(s.low, stop) {
		more := letterRun(s.low, next)
		if more < next+2 || keywords[s.low[next:more]].read != nil || !boundary(s.low, more) {
			break
		}
		stop = more
	}
	return stop > start && s.emit(tChoose, "light "+s.src[start:stop], stop)
}

// kindOfLight is a kind of light by its name: of a declaration what a value holds
// for, else the light of the sheet, with or without the word light behind it.
func (s *scanner) kindOfLight(end int) bool {
	if s.field&(onFilm|onFilter) != 0 {
		return s.emit(tClass, s.low[s.pos:end], end)
	}
	name := s.src[s.pos:end]
	return s.emit(tChoose, "light "+name, wordAfter(s.low, end, "light"))
}

// ofFilter is the word before a filter: filter R25.
func (s *scanner) ofFilter(end int) bool {
	from := s.pos
	s.pos = articles(s.low, skip(s.low, end))
	s.named = strings.HasPrefix(s.low[from:], "filt")
	defer func() { s.named = false }()
	known := s.names.longest(s.low[s.pos:]) > 0
	costs := at(s.low, s.pos) == 'x' && s.low[s.pos:digits(s.low, s.pos+1)] != "x1" && !known // filter x8 is a factor
	if before := len(s.tokens); costs && s.factor() && len(s.tokens) > before {
		s.tokens[before].Pos.Offset = from
		return true
	} else if s.filterHere() {
		s.tokens[before].Pos.Offset = from
		return true
	}
	s.pos = from
	return false
}

// articles is where the noun stands: behind the, my, its and blanks.
func articles(text string, i int) int {
	end := letterRun(text, i)
	switch text[i:end] {
	case "the", "my", "a", "any", "that", "its":
		if next := skip(text, end); next > end {
			return next
		}
	}
	return i
}

// with is what is always on a lens; on a sheet's line it is the word before its
// filter.
func (s *scanner) with(end int) bool {
	if s.field&onSheet != 0 {
		return s.ofFilter(end)
	}
	s.emit(tWith, "with", end)
	s.blanks()
	if s.pos < len(s.low) && isLetter(s.low[s.pos]) && !s.declared() && !s.filter() {
		stop := s.pos
		for stop < len(s.low) && !isSpace(s.low[stop]) && strings.IndexByte(",;()+", s.low[stop]) < 0 {
			stop++
		}
		s.emit(tFilter, s.src[s.pos:stop], stop)
	}
	return true
}

// clicks is the step of a lens's aperture scale: clicks 1/3, clicks none.
func (s *scanner) clicks(end int) bool {
	s.emit(tClicks, "clicks", end)
	start := skip(s.low, end)
	if stop := unit(s.low, end, "none"); stop != end {
		s.pos = start
		return s.emit(tNone, "none", stop)
	}
	if stop, value := mixed(s.low, start); stop > start {
		s.pos = start
		s.emit(tStops, value, unit(s.low, stop, "of a stop", "stops", "stop"))
	}
	return true
}

// monthDay is Nov 9 of a develop line.
func (s *scanner) monthDay(end int) bool {
	start := skip(s.low, end)
	stop := digits(s.low, start)
	if stop == start || stop > start+2 || !boundary(s.low, stop) {
		return false
	}
	if year := digits(s.low, skip(s.low, stop)); year == skip(s.low, stop)+4 {
		stop = year
	}
	return s.emit(tDay, s.src[s.pos:stop], stop)
}

// extension is ext 260mm, and ext 75-380 mm of a camera; bellows +1½ and
// bellows x2.25 are amounts.
func (s *scanner) extension(end int) bool {
	start := skip(s.low, end)
	if s.field&onLens != 0 {
		return s.emit(tBellows, "bellows", end) // of a lens it is the scale
	}
	drawn := skip(s.low, drawnOut(s.low, end)) // bellows out to 300 mm
	if stop, mm, ok := length(s.low, drawn, false); ok {
		return s.emit(tExt, trimFloat(mm), stop)
	}
	if s.field&onCamera != 0 {
		return s.extensionRange(start)
	}
	if stop, mm := hundreds(s.low, drawn); stop > drawn && (drawn > start || isLetter(s.low[drawn])) {
		return s.emit(tExt, mm, stop)
	}
	if stop, value := decimal(s.low, start); stop > start && boundary(s.low, stop) && unit(s.low, stop, "stops", "stop") == stop && !s.unitOfTime(stop) {
		return s.emit(tExt, value, stop) // millimetres by default
	}
	word, behind := s.low[s.pos:end], s.low[start:]
	if strings.HasPrefix(behind, "factor") && word != "draw" || word[0] == 'b' {
		return s.emit(tBellows, "bellows", end)
	}
	return false
}

// apart is how far the lens is from the film, which is the extension: film plane to lens 297 mm. Else
// the word chooses.
func apart(what string) func(*scanner, int) bool {
	chosen := choose(what)
	return func(s *scanner, end int) bool {
		if said := filmToLens().FindString(s.low[s.pos:]); said != "" && s.field&onSheet != 0 && s.racked(s.pos+len(said)) {
			return true
		}
		return chosen(s, end)
	}
}

var filmToLens = pattern.Lazily(`^(?:film(?: plane)? to (?:the )?lens(?: ?board)?|lens(?: ?board)? to (?:the )?film(?: plane)?)`)

// hundreds is a number of three figures without a unit, which are millimetres, in words too: bellows out to 300, bellows
// two ninety seven. The end is i where there is none.
func hundreds(s string, i int) (end int, mm string) {
	end = digits(s, i)
	mm = s[i:end]
	if end == i {
		var n int
		end, n = figureInWords(s, i)
		mm = strconv.Itoa(n)
	}
	next := skip(s, end)
	if len(mm) != 3 || !boundary(s, end) || isLetter(at(s, next)) && !apertureAt(s, next) && !goesOnBehind[s[next:letterRun(s, next)]] {
		return i, ""
	}
	return end, mm
}

// goesOnBehind are words behind a number that count nothing by it.
var goesOnBehind = SetOf("so and with but at for vergessen übersehen forgotten oublié oubliés")

// drawnOut is where a length may stand behind the bellows: out, out to, at, of, scale at, about.
func drawnOut(text string, i int) int {
	i = unit(text, unit(text, i, "is", "are", "was", "were"), "now")
	i = unit(text, i, "extended", "drawn", "racked", "pulled", "scale", "on the scale")
	i = unit(text, i, "out")
	i = unit(text, i, "to", "at", "of", "on", "=", "reads", "reading")
	return unit(text, i, "about", "approx.", "approx", "ca.", "ca", "roughly", "nearly")
}

// racked is a length behind a word that speaks of the bellows alone: racked out to 300 mm.
func (s *scanner) racked(end int) bool {
	drawn := skip(s.low, drawnOut(s.low, end))
	if stop, mm := hundreds(s.low, drawn); stop > drawn {
		return s.emit(tExt, mm, stop)
	}
	stop, mm, ok := length(s.low, drawn, false)
	return ok && s.emit(tExt, trimFloat(mm), stop)
}

// standing is the same behind words that are ordinary but for what follows: standard at 300, drawn to 12
// in, pulled out to 300. A standard 300 is a lens, and film is pulled to 200.
func (s *scanner) standing() bool {
	if s.field&onSheet == 0 {
		return false
	}
	end := letterRun(s.low, s.pos)
	leads := standings[s.low[s.pos:end]]
	return leads != nil && unit(s.low, end, leads...) > end && s.racked(end)
}

var standings = map[string][]string{"drawn": {"to", "out"}, "pulled": {"out"}, "standard": {"at", "on", "to", "out", "pulled", "drawn", "racked"}, "rail": {"at", "on", "to", "scale", "out"}}

// onRail is a length on the camera's rail, in millimetres where it has no unit: 300 on the rail.
func (s *scanner) onRail() bool {
	end, mm, ok := length(s.low, s.pos, false)
	if !ok {
		if end = digits(s.low, s.pos); end != s.pos+3 {
			return false
		}
		mm = number(s.low[s.pos:end])
	}
	stop := unit(s.low, end, "on the rail", "on rail", "on the monorail", "on the bed", "on the bellows scale", "on the bellows", "on bellows", "of bellows", "bellows")
	return s.field&onSheet != 0 && stop > end && s.termEnds(stop) && s.emit(tExt, trimFloat(mm), stop)
}

func (s *scanner) extensionRange(start int) bool {
	dash, from := decimal(s.low, start)
	if dash == start || at(s.low, dash) != '-' {
		return false
	}
	stop, mm, ok := length(s.low, dash+1, false)
	if !ok {
		return false
	}
	factor := mm / max(number(s.low[dash+1:digits(s.low, dash+1)]), 1)
	s.emit(tExtFrom, trimFloat(number(from)*factor), dash)
	return s.emit(tExtTo, trimFloat(mm), stop)
}

// magnification is mag 0.5 and mag 1:12.
func (s *scanner) magnification(end int) bool {
	start := skip(s.low, end)
	stop, value := mixed(s.low, start)
	if at(s.low, stop) == ':' {
		if close, over := decimal(s.low, stop+1); close > stop+1 {
			return s.emit(tScale, value+"/"+over, close)
		}
	}
	if close, of, over := toInWords(s.low, start); close > start {
		return s.emit(tScale, of+"/"+over, close)
	}
	if number(value) > largestScale && s.low[s.pos:end] == "scale" {
		return false // of a rail
	}
	return stop > start && s.emit(tScale, value, stop)
}

// largestScale is how many times its size nothing is that bellows are drawn out for.
const largestScale = 20

// toInWords is one to two, 1 to 4, as a scale is said behind its word.
func toInWords(s string, i int) (end int, of, over string) {
	number := func(i int) (int, string) {
		if end, value := spokenInWords(s, i); end > i {
			return end, value
		}
		return decimal(s, i)
	}
	stop, of := number(i)
	to := unit(s, stop, "to")
	from := skip(s, to)
	end, over = number(from)
	if stop == i || to == stop || end == from || !boundary(s, end) {
		return i, "", ""
	}
	return end, of, over
}

// circle is a lens's image circle, and a camera's circle of confusion.
func (s *scanner) circle(end int) bool {
	if s.field&onCamera == 0 {
		return sized(tCircle)(s, end)
	}
	behind := unit(s.low, end, "of confusion")
	return behind != end && sized(tConfusion)(s, behind)
}

func (s *scanner) focus(end int) bool {
	start := skip(s.low, end)
	if spread := unit(s.low, start, "spread"); spread != start {
		return sized(tSpread)(s, spread)
	}
	if after := unit(s.low, start, "at"); after != start {
		start = skip(s.low, after)
	}
	stop, mm, ok := length(s.low, start, true)
	return ok && s.emit(tFocus, trimFloat(mm), stop)
}

// movement is "front rise 12 mm", "tilt 4": words and an amount as typed.
func (s *scanner) movement(end int) bool {
	next := skip(s.low, end)
	if first := s.low[s.pos:end]; first == "front" || first == "rear" {
		end = letterRun(s.low, next)
		if !isMovement(s.low[next:end]) {
			return false
		}
		next = skip(s.low, end)
	}
	stop, _ := spoken(s.low, next)
	if stop == next {
		return false
	}
	stop = unit(s.low, unit(s.low, stop, ofSizes...), "degrees", "deg", "°")
	stop = unit(s.low, stop, "front", "rear")
	return boundary(s.low, stop) && s.emit(tMovement, s.src[s.pos:stop], stop)
}

func isMovement(word string) bool {
	switch word {
	case "rise", "fall", "shift", "tilt", "swing":
		return true
	}
	return false
}

// same is same, same as 3A, same 3A, ditto, as 3A, as above, wie vor.
func (s *scanner) same(end int) bool {
	word := s.low[s.pos:end]
	if IsDittoMark(word) {
		return s.emit(tSame, "", end)
	}
	isSame := strings.HasPrefix(word, "same")
	named := !isSame
	if after := unit(s.low, end, "as"); isSame && after != end {
		end, named = after, true
	}
	if stop := unit(s.low, end, "above", "before", "last", "again", "vorher", "vor", "zuvor", "oben"); stop != end && (named || s.low[stop-1] == 'n') {
		return s.emit(tSame, "", stop)
	}
	start := skip(s.low, end)
	stop := start
	for stop < len(s.low) && !isSpace(s.low[stop]) && strings.IndexByte(",;()\"?~", s.low[stop]) < 0 {
		stop++
	}
	if s.low[start:stop] == "b4" && named && !s.names.Labels["b4"] {
		return s.emit(tSame, "", stop) // as before, as thumbs type it
	}
	if label := s.low[start:stop]; looksLabel(label, s.names) && (named || sided(label)) {
		return s.emit(tSame, s.src[start:stop], stop)
	}
	return isSame && s.emit(tSame, "", end)
}

// abridged is do., the ditto of typed columns, and dto., dgl. and id. where a line or a column begins
// with them.
func (s *scanner) abridged(end int) bool {
	column := s.wideBefore() || s.last() == tComma
	if s.last() == tWord && !column {
		return false // all one could do.
	}
	if !column && strings.TrimRight(s.low[s.pos:end], ".") != "do" {
		return false
	}
	if at(s.low, end) == '.' {
		end++
	} else if s.low[end-1] != '.' {
		return false
	}
	return (end == len(s.low) || isSpace(at(s.low, end)) || at(s.low, end) == ',' || at(s.low, end) == ';') && s.emit(tSame, "", end)
}

// filed is a binder by its number, and the page in it: binder 6 p 1, binder 3, page 14.
func (s *scanner) filed(end int) bool {
	stop := digits(s.low, skip(s.low, end))
	if stop == skip(s.low, end) || !boundary(s.low, stop) {
		return false
	}
	next := skip(s.low, stop)
	if at(s.low, next) == ',' {
		next = skip(s.low, next+1)
	}
	for _, word := range [...]string{"page", "sheet", "slot", "p.", "p"} {
		if rest, ok := strings.CutPrefix(s.low[next:], word); ok {
			first := skip(s.low, len(s.low)-len(rest))
			if last := digits(s.low, first); last > first && boundary(s.low, last) {
				stop = last
				break
			}
		}
	}
	return s.emit(tFiled, s.src[s.pos:stop], stop)
}

// arrow stands between what was metered and what was given; before the file of a picture
// it is that of the sheet's scan.
func (s *scanner) arrow() bool {
	behind := s.pos + len("->")
	if from, end := s.picture(behind); end > 0 {
		return s.emit(tScanned, s.src[from:end], end)
	}
	return s.emit(tArrow, "->", behind)
}

// picture is where the path of a picture stands behind an arrow, to its end before a blank,
// a comma or the line's end; 0 where there is none. A folder's name may have blanks in it,
// and words may lead to a path without: → file 1a.tif.
func (s *scanner) picture(i int) (from, end int) {
	from = skip(s.low, i)
	text, _, _ := strings.Cut(s.low[from:], ",")
	if s.field&onSheet == 0 || strings.Contains(text, "->") || strings.Contains(text, "=>") {
		return 0, 0
	}
	for _, ending := range pictureEndings {
		n := strings.Index(text, ending)
		if n <= 0 || len(text) > n+len(ending) && !isSpace(text[n+len(ending)]) || isSpace(text[n-1]) {
			continue
		}
		end = from + n + len(ending)
		last := from + strings.LastIndexAny(text[:n], " \t") + 1
		switch first, _, several := strings.Cut(text[:n], " "); {
		case !several, strings.Contains(first, "/") && !isDigit(first[0]):
			return from, end
		case strings.IndexFunc(text[:last-from], func(c rune) bool { return c > 127 || !isLetter(byte(c)) && !isSpace(byte(c)) && c != ':' }) < 0:
			return last, end
		}
	}
	return 0, 0
}

// IsPicture reports whether a name is that of a file of a kind that scans are kept in.
func IsPicture(name string) bool {
	ending := lower(path.Ext(name))
	return len(name) > len(ending) && slices.Contains(pictureEndings, ending)
}

// pictureEndings are those of the files that scans are kept in.
var pictureEndings = []string{".tif", ".tiff", ".png", ".jpg", ".jpeg"}

func (s *scanner) negative(end int) bool {
	start := skip(s.low, end)
	stop := start
	for stop < len(s.low) && !isSpace(s.low[stop]) && s.low[stop] != ',' {
		stop++
	}
	return strings.ContainsAny(s.low[start:stop], "0123456789") && s.emit(tNegative, s.src[start:stop], stop)
}

// no drops what follows (no filter, no pol, no rise), or takes back what
// precedes (no, no wait).
func (s *scanner) no(end int) bool {
	next := articles(s.low, skip(s.low, end))
	stop := letterRun(s.low, next)
	if s.field&(onFilm|onRule) != 0 && s.low[next:stop] == "reciprocity" {
		return s.none(unit(s.low, stop, "failure", "correction", "effect", "needed"))
	}
	what := s.low[next:stop]
	if s.field&onSheet != 0 && (s.low[end-1] == '.' || meansFilterBehind(s.low[next:])) && wholeNumber(s.low, next) {
		return s.emit(tWord, s.src[s.pos:end], end) // No. 2 shed, no 8 filter
	}
	switch {
	case meansFilter(what):
		return s.emit(tDrop, "filter", stop)
	case strings.HasPrefix(what, "polar"), what == "cpl":
		return s.emit(tDrop, "pol", stop)
	case what == "pol" || what == "ext" || what == "bellows" || isMovement(what):
		return s.emit(tDrop, what, stop)
	case (what == "nd" || what == "grad") && s.field&onSheet != 0 && !isDigit(at(s.low, skip(s.low, stop))):
		return s.emit(tDrop, what, stop) // whichever of them is on
	case what == "wait":
		if at(s.low, stop) == ',' {
			stop++
		}
		return s.emit(tNo, "no wait", stop)
	}
	if s.last() != tFilter && s.dropped(next) {
		return true // behind a filter it takes that one back: yellow no orange
	}
	return strings.HasPrefix(s.low[s.pos:end], "no") && s.emit(tNo, "no", end)
}

// wholeNumber reports whether a number stands at i that is no part of a setting: 8, and not 1/8, 8s.
func wholeNumber(low string, i int) bool {
	end := digits(low, i)
	return end > i && boundary(low, end) && at(low, end) != '/' && at(low, end) != ':' && unit(low, end, secondUnits...) == end && unit(low, end, minuteUnits...) == end
}

// meansFilterBehind reports whether a number and the word for a filter stand there: 8 filter.
func meansFilterBehind(low string) bool {
	word := skip(low, digits(low, 0))
	return meansFilter(low[word:letterRun(low, word)])
}

// meansFilter reports whether a word behind "no" is filter, cut short or with a slip in it, and
// nothing else that people write.
func meansFilter(word string) bool {
	const filter, least = "filters", 4
	return len(word) >= least && strings.HasPrefix(filter, word) || nearest(word, []string{filter[:len(filter)-1], filter}) != "" && !ordinary()[word]
}

// dropped is that the filter named at i is off.
func (s *scanner) dropped(i int) bool {
	from, before := s.pos, len(s.tokens)
	s.pos = i
	named := i < len(s.low) && s.filterHere() && len(s.tokens) == before+1 && s.tokens[before].Type == tFilter
	if !named {
		s.tokens, s.ends, s.pos = s.tokens[:before], s.ends[:before], from
		return false
	}
	s.tokens[before].Type, s.tokens[before].Pos.Offset = tDrop, from
	return true
}

// minus is a copy of a sheet without its filter: same minus the yellow, same less R25.
// An amount behind it, or a line that copies nothing, is the writer's own sum.
func (s *scanner) minus(end int) bool {
	next := articles(s.low, skip(s.low, end))
	if s.count(tSame) == 0 || s.count(tAperture, tTime, tEV) > 0 {
		return false
	}
	if stop := unit(s.low, next, "filters", "filter"); stop > next {
		return s.emit(tDrop, "filter", stop)
	}
	return s.dropped(next)
}

// without is w/o filter, and the w/ of w/yellow, a word by itself.
func (s *scanner) without(end int) bool {
	if strings.HasPrefix(s.low[end:], "/o ") {
		return s.no(end + len("/o"))
	}
	return at(s.low, end) == '/' && isLetter(at(s.low, end+1)) && s.emit(tWord, s.src[s.pos:end+1], end+1)
}

// dottedNo is o.F., which is short for ohne Filter.
func (s *scanner) dottedNo(int) bool {
	if s.byte(1) != '.' {
		return false
	}
	next := skip(s.low, s.pos+2)
	if stop := unit(s.low, next, "filter"); stop > next {
		return s.emit(tDrop, "filter", stop)
	}
	stop := next + 1
	if at(s.low, stop) == '.' {
		stop++
	}
	return at(s.src, next) == 'F' && boundary(s.low, stop) && !isDigit(at(s.low, skip(s.low, stop))) && s.emit(tDrop, "filter", stop)
}

// none is the word of a filter line; elsewhere the rule without correction.
func (s *scanner) none(end int) bool {
	if s.field&(onFilm|onRule) != 0 {
		return s.emit(tNone, "none", unit(s.low, end, "up")) // none up to 10s
	}
	return s.field&(onFilter|onSheet) != 0 && s.emit(tDrop, "filter", end)
}
