package lang

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// numeric reads what begins with a digit, by what stands behind the number.
func (s *scanner) numeric() bool {
	if s.field&onPatch != 0 {
		return s.onPicture()
	}
	if c := s.low[s.pos]; c == '+' || c == '-' {
		return s.signed()
	}
	if s.changed() || s.weather() {
		return true
	}
	for _, read := range numerics {
		if read(s) {
			return true
		}
	}
	return false
}

// numerics are the shapes that begin with a digit, tried in this order.
var numerics = []func(*scanner) bool{
	(*scanner).strokes, (*scanner).lux, (*scanner).twoHours, (*scanner).halfOfDay, (*scanner).dated, (*scanner).diluted, (*scanner).format, (*scanner).clockTime, (*scanner).hours, (*scanner).minutes, (*scanner).amount,
	(*scanner).measured, (*scanner).onRail, (*scanner).length, (*scanner).partOfSecond, (*scanner).fractionTime, (*scanner).seconds, (*scanner).percent, (*scanner).signedSpeed, (*scanner).degrees, (*scanner).times,
	(*scanner).bare,
}

// strokes is a sign of a zone of which a phone or a typist made a figure, 1II, 1V: it is a word, and no number before a zone.
func (s *scanner) strokes() bool {
	if s.src[s.pos] != '1' {
		return false
	}
	end, signs := s.pos, false
	for ; strings.IndexByte("1IVX", at(s.src, end)) >= 0 && end < len(s.src); end++ {
		signs = signs || s.src[end] != '1'
	}
	return signs && boundary(s.low, end) && s.emit(tWord, s.src[s.pos:end], end)
}

// signed is stops (+1, -2/3, -1 stop), the dash of a range in a lens's line, or
// the plus of 20s+17s.
func (s *scanner) signed() bool {
	c, last := s.low[s.pos], s.last()
	if c == '-' && s.field&onLens != 0 && (last == tAperture || last == tTime) {
		return s.emit(tDash, "-", s.pos+1)
	}
	end, value := mixed(s.low, s.pos+1)
	if c == '-' && s.field&onDensity != 0 && boundary(s.low, end) {
		return s.emit(tD, "-"+value, end)
	}
	if last == tTime && s.field&(onSheet|onMeter) != 0 && s.unitOfTime(end) {
		if c == '+' {
			return s.emit(tPlus, "+", s.pos+1)
		}
		return s.emit(tWord, "-", s.pos+1) // 15m-3m
	}
	if s.weather() || c == '+' && s.densityOn() {
		return true
	}
	sign := ""
	if c == '-' {
		sign = "-"
	}
	end = unit(s.low, end, "stops", "stop")
	return boundary(s.low, end) && s.emit(tStops, sign+value, end)
}

// densityOn is the second of two densities, which the sign of the first stands for: ND 0.3+0.6,
// ND 0.3 + 0.6. With its unit it is in stops.
func (s *scanner) densityOn() bool {
	n := len(s.tokens) - 1
	if s.last() != tFilter || !strings.HasPrefix(strings.ToLower(s.tokens[n].Value), "nd") || !strings.Contains(s.tokens[n].Value, ".") {
		return false
	}
	start := skip(s.low, s.pos+1)
	end, value := decimal(s.low, start)
	if !strings.Contains(value, ".") || !boundary(s.low, end) && at(s.low, end) != '+' || inStopsBehind(s.low, end) || s.unitOfTime(end) {
		return false
	}
	s.emit(tPlus, "+", s.pos+1)
	s.pos = start
	return s.emit(tFilter, "ND "+value, end)
}

// unitOfTime reports whether the unit of a time stands behind a number.
func (s *scanner) unitOfTime(end int) bool {
	return unit(s.low, end, secondUnits...) != end || unit(s.low, end, minuteUnits...) != end || unit(s.low, end, hourUnits...) != end ||
		digits(s.low, end+1) > end+1 && (at(s.low, end) == 'm' || at(s.low, end) == 'h') // 1m15
}

// lux is an exposure in lux seconds, behind the clear part of a wedge: 0.42 lux s.
func (s *scanner) lux() bool {
	if s.field&onSheet == 0 {
		return false
	}
	end, value := decimal(s.low, s.pos)
	behind := unit(s.low, end, "lux seconds", "lux-seconds", "lux s", "lx s")
	return behind != end && s.emit(tLux, value, behind)
}

// dated is a date of a develop line, as a day has it, and without the year: 2026-11-09,
// 9.XI.26, 7.11.26, 9 Nov, 7/11.
func (s *scanner) dated() bool {
	if s.field&onDevelop == 0 {
		return false
	}
	if end, ok := isoDate(s.low, s.pos); ok {
		return s.emit(tDate, s.low[s.pos:end], end)
	}
	word, _, _ := strings.Cut(s.src[s.pos:], " ") // 9.XI.86 N: a year of two figures may have no comma behind it
	for _, text := range [...]string{s.src[s.pos:], word} {
		if iso, length, ambiguous := DateOf(text); iso != "" || ambiguous {
			return boundary(s.low, s.pos+length) && s.emit(tDay, s.src[s.pos:s.pos+length], s.pos+length)
		}
	}
	end := digits(s.low, s.pos)
	if end > s.pos+2 {
		return false
	}
	if stop := monthAt(s.low, skip(s.low, unit(s.low, end, "st", "nd", "rd", "th"))); stop > 0 {
		if year := digits(s.low, skip(s.low, stop)); year == skip(s.low, stop)+4 {
			stop = year
		}
		return s.emit(tDay, s.src[s.pos:stop], stop)
	}
	c := at(s.low, end)
	month := digits(s.low, end+1)
	if c != '.' && c != '/' || month == end+1 || month > end+3 {
		return false
	}
	if stop := digits(s.low, month+1); at(s.low, month) == c && stop > month+1 {
		return boundary(s.low, stop) && s.emit(tDay, s.src[s.pos:stop], stop)
	}
	return c == '/' && boundary(s.low, month) && s.emit(tDay, s.src[s.pos:month], month)
}

// monthAt is the end of a month's name at i, short or in full, or 0.
func monthAt(s string, i int) int {
	end := letterRun(s, i)
	if end < i+3 {
		return 0
	}
	for _, month := range months {
		if strings.HasPrefix(month, s[i:end]) || s[i:end] == "sept" {
			return end
		}
	}
	return 0
}

var months = []string{
	"january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december",
}

// diluted is a developer's dilution: 1+31, 1:31.
func (s *scanner) diluted() bool {
	sign := digits(s.low, s.pos)
	if c := at(s.low, sign); s.field&onDevelop == 0 || c != '+' && (c != ':' || s.low[s.pos:sign] != "1") {
		return false
	}
	end := digits(s.low, sign+1)
	for at(s.low, end) == '+' && isDigit(at(s.low, end+1)) { // in parts: 1+1+100
		end = digits(s.low, end+1)
	}
	return end > sign+1 && boundary(s.low, end) && s.emit(tDilution, s.low[s.pos:sign]+"+"+s.low[sign+1:end], end)
}

// format is 4x5 or 9x12cm, where a size can be meant.
func (s *scanner) format() bool {
	if s.field&onSheet != 0 {
		return s.printSize()
	}
	if s.field&(onCamera|onHolder) == 0 {
		return false
	}
	end, _ := decimal(s.low, s.pos)
	cross := skip(s.low, end)
	if at(s.low, cross) != 'x' || !isDigit(at(s.low, skip(s.low, cross+1))) {
		return false
	}
	end, _ = decimal(s.low, skip(s.low, cross+1))
	end = unit(s.low, end, ofSizes...)
	return boundary(s.low, end) && s.emit(tFormat, s.low[s.pos:end], end)
}

// printSize is the size of a print or a holder on a sheet's line, a word: 8x10 print, ½-plate. With
// the unit of a time it is exposures, 4x5s.
func (s *scanner) printSize() bool {
	if end, ok := fraction(s.low, s.pos); ok && strings.HasPrefix(s.low[end:], "-plate") {
		return s.emit(tWord, s.src[s.pos:end+len("-plate")], end+len("-plate"))
	}
	cross := digits(s.low, s.pos)
	if at(s.low, cross) != 'x' {
		return false
	}
	end := digits(s.low, cross+1)
	return sizes[s.low[s.pos:end]] && boundary(s.low, end) && !s.unitOfTime(end) && s.emit(tWord, s.src[s.pos:end], end)
}

// sizes are those of sheet film and paper, in inches and centimetres.
var sizes = SetOf("4x5 5x7 8x10 7x17 8x20 11x14 12x16 16x20 20x24 9x12 13x18 18x24 24x30 30x40 40x50")

// clockTime is 2:30 (minutes and seconds), 0:02:30, or a ratio 1:3.
func (s *scanner) clockTime() bool {
	colon := digits(s.low, s.pos)
	if stop, of := decimal(s.low, s.pos); stop > colon && s.field&(onSheet|onMeter) != 0 && strings.HasPrefix(s.low[stop:], ":1") && boundary(s.low, stop+2) {
		return !s.ofBrightness() && s.emit(tScale, of+"/1", stop+2) // 1.5:1
	}
	if at(s.low, colon) != ':' {
		return false
	}
	end := digits(s.low, colon+1)
	left, right, figures := s.low[s.pos:colon], s.low[colon+1:end], end-colon-1
	if stop, ratio := decimal(s.low, colon+1); figures == 1 || figures == 2 && left == "1" && strings.Contains(ratio, ".") {
		end, right, figures = stop, ratio, 1 // 1:2.5, 1:12.5
	}
	if left != "" && figures == 2 && s.field&(onSheet|onMeter) != 0 {
		if behind := s.ofTime(end, hourUnits); behind > end && boundary(s.low, behind) { // 1:30 h
			s.emit(tTime, trimFloat(3600*number(left)+60*number(right)), behind)
			return number(left) < morning || s.emit(tDoubt, "?", behind)
		}
		if behind := s.ofTime(end, minuteUnits); behind > end && boundary(s.low, behind) { // 1:30 min
			return s.emit(tTime, trimFloat(60*number(left)+number(right)), behind)
		}
	}
	if left == "0" && figures == 2 && at(s.low, end) == ':' && digits(s.low, end+1) == end+3 && boundary(s.low, end+3) {
		return s.emit(tTime, trimFloat(60*number(right)+number(s.low[end+1:end+3])), end+3) // 0:04:16
	}
	if !boundary(s.low, end) {
		return false
	}
	switch figures {
	case 1:
		if s.behindDeveloper() || s.ofBrightness() || s.thinned(end) {
			return false // a dilution: ash-11 1:1; lighting ratio 3:1
		}
		return right != "0" && s.field&(onSheet|onMeter) != 0 && s.emit(tScale, left+"/"+right, end)
	case 2:
		if left == "1" && s.behindDeveloper() {
			return false // ash-11 1:50
		}
		return s.emit(tTime, trimFloat(60*number(left)+number(right)), end)
	}
	return false
}

// morning is the hour from which on 9:30 h may as well be one of the day (common practice, no source).
const morning = 5

// settingFollows reports whether a line goes on with a comma, an aperture or a remark, or ends.
func (s *scanner) settingFollows(i int) bool {
	next := skip(s.low, i)
	if next == len(s.low) || strings.IndexByte(",;", s.low[next]) >= 0 {
		return true
	}
	return next > i && (strings.IndexByte("@(\"", s.low[next]) >= 0 || strings.HasPrefix(s.low[next:], "--") || strings.HasPrefix(s.low[next:], "<!--") || apertureAt(s.low, next))
}

// behindDeveloper reports whether the last word has the shape of a developer's name, in
// which letters and figures are mixed, and time and aperture stand before it: what follows
// is a dilution.
func (s *scanner) behindDeveloper() bool {
	if s.field&onSheet == 0 || s.last() != tWord || s.count(tAperture) == 0 || s.count(tTime) == 0 {
		return false
	}
	last := len(s.tokens) - 1
	word := s.low[s.tokens[last].Pos.Offset:s.ends[last]]
	return strings.ContainsAny(word, "0123456789") || word == "pyro" || strings.HasSuffix(word, "al") || strings.HasSuffix(word, "ol")
}

// thinned reports whether the words right before a ratio, or right behind it, where it ends at end, say that it is how a
// developer is thinned: Entwickler 1:1, 1:1 verdünnt.
func (s *scanner) thinned(end int) bool {
	next := skip(s.low, end)
	if unit(s.low, next, "diluted", "dilution", "dil.", "verdünnt", "verdünnung", "verd.", "dilué", "developer", "dev.") > next {
		return true
	}
	last := len(s.tokens) - 1
	return s.last() == tWord && ofThinning[s.low[s.tokens[last].Pos.Offset:s.ends[last]]]
}

// ofThinning are words right before a developer's dilution (common practice, no source).
var ofThinning = SetOf("developer dev dev. diluted dilution dil dil. entwickler entw entw. verdünnt verdünnung verd verd. révélateur dilué")

// ofBrightness reports whether the words right before a ratio say that it is one of light, and
// not of sizes: lighting ratio 3:1, contrast of 4:1.
func (s *scanner) ofBrightness() bool {
	for n := len(s.tokens) - 1; s.kind(n) == tWord; n-- {
		switch s.low[s.tokens[n].Pos.Offset:s.ends[n]] {
		case "lighting", "contrast":
			return true
		case "ratio", "of", "is":
		default:
			return false
		}
	}
	return false
}

// hours is 2h, 2h26m, 1 hour 10 min, 1h30, 1 1/2 hrs, 1/2 Std.
func (s *scanner) hours() bool {
	if s.field&(onLens|onCamera) != 0 {
		return false
	}
	end, value := s.counted(hourUnits)
	behind := s.longUnit(end, value, hourUnits)
	if behind == end {
		behind = s.shortHours(end)
	}
	if behind == end || !boundary(s.low, behind) && !isDigit(at(s.low, behind)) {
		return false
	}
	total := 3600 * number(value)
	if half := s.halfMore(behind); half > behind {
		return s.emit(tTime, trimFloat(total+3600/2), half)
	}
	if next := skip(s.low, behind); isDigit(at(s.low, next)) {
		stop, more := mixed(s.low, next)
		if minutes := unit(s.low, stop, minuteUnits...); (minutes != stop || next == behind) && boundary(s.low, minutes) {
			return s.emit(tTime, trimFloat(total+60*number(more)), minutes)
		}
	}
	return boundary(s.low, behind) && s.emit(tTime, trimFloat(total), behind)
}

// halfMore is the end of a half behind a unit: 1 heure et demie, 2 min and a half.
func (s *scanner) halfMore(i int) int {
	end := unit(s.low, i, "et demie", "et demi", "and a half", "und eine halbe", "und eine halb")
	if next := skip(s.low, end); !boundary(s.low, end) || strings.HasPrefix(s.low[next:], "stop") {
		return i
	}
	return end
}

// minutes is 1m30s, 2 min, 1 min 30 s, 1m30.
func (s *scanner) minutes() bool {
	if s.field&(onLens|onCamera) != 0 {
		return false
	}
	if stop := digits(s.low, s.pos); at(s.low, stop) == '\'' && stop > s.pos { // 1'20"
		from := skip(s.low, stop+1) // 1' 15"
		if last := digits(s.low, from); last > from && (at(s.low, last) == '"' || strings.HasPrefix(s.low[last:], "''")) && s.field&(onSheet|onMeter) != 0 {
			behind := last + 1
			if s.low[last] == '\'' {
				behind++
			}
			return boundary(s.low, behind) && s.emit(tTime, trimFloat(60*number(s.low[s.pos:stop])+number(s.low[from:last])), behind)
		}
	}
	end, value := s.counted(minuteUnits)
	behind := s.longUnit(end, value, minuteUnits)
	if behind == end || !boundary(s.low, behind) && !isDigit(at(s.low, behind)) {
		return false
	}
	total := 60 * number(value)
	if half := s.halfMore(behind); half > behind {
		return s.emit(tTime, trimFloat(total+60/2), half)
	}
	if stop, n := inWords(s.low, skip(s.low, behind)); n > 0 && n < 60 && !strings.Contains(value, "/") { // 1 minute thirty four
		if seconds := unit(s.low, stop, secondUnits...); seconds > stop || s.settingFollows(stop) {
			return s.emit(tTime, trimFloat(total+float64(n)), seconds)
		}
	}
	if next := skip(s.low, behind); isDigit(at(s.low, next)) {
		stop, more := mixed(s.low, next)
		bare := next > behind && digits(s.low, next) == stop && number(more) < 60 && s.settingFollows(stop) // 1 min 35
		if seconds := s.secondsEnd(stop); seconds != stop || next == behind || bare {
			stop = seconds
			if boundary(s.low, stop) && number(more) < 60 && at(s.low, skip(s.low, stop)) != '=' { // 60s=3m 120s=7m is two rows
				return s.emit(tTime, trimFloat(total+number(more)), stop)
			}
		}
	}
	return boundary(s.low, behind) && s.emit(tTime, trimFloat(total), behind) // 1m20s/4m15s is no minute
}

// counted is a number of hours, minutes or seconds: also 1 1/2, and 1-1/2 where the unit follows.
func (s *scanner) counted(units []string) (end int, value string) {
	if stop, said := hyphened(s.low, s.pos); unit(s.low, stop, units...) != stop {
		return stop, said
	}
	return spoken(s.low, s.pos)
}

// shortHours is the end of the "St." of hours behind a number, which is a saint's where words follow;
// end where there is none.
func (s *scanner) shortHours(end int) int {
	behind := unit(s.low, end, "st.")
	if behind == end || !s.settingFollows(behind) && !isWide(s.low[behind:skip(s.low, behind)]) {
		return end
	}
	return behind
}

// ofTime is the end of the unit of a time behind a number, end where there is none. A single letter
// is one right at the number, or in lower case one blank behind it; further off it is a cell of its
// own: 1/8   H, upright, and H3, the holder.
func (s *scanner) ofTime(end int, units []string) int {
	behind := unit(s.low, end, units...)
	letter := behind - 1
	switch {
	case letter <= end || isLetter(s.low[letter-1]): // none, right at it, or a word
		return behind
	case letter > end+1 || s.low[end] == '\t' || s.src[letter] < 'a':
		return end
	}
	if stop := digits(s.low, behind); stop == behind+1 && !s.unitOfTime(stop) {
		return end
	}
	return behind
}

// longUnit is the end of the unit of minutes or hours behind a number. A shutter's speed has none,
// nor has any fraction one in another cell: nobody counts an eighth of an hour.
func (s *scanner) longUnit(end int, value string, units []string) int {
	behind := s.ofTime(end, units)
	if !strings.Contains(value, "/") || strings.Contains(value, "+") {
		return behind
	}
	wide := isWide(s.low[end:skip(s.low, end)])
	if !properFraction(value) || strings.HasSuffix(value, "/8") || wide || isDigit(at(s.low, behind)) {
		return end
	}
	return behind
}

var hourUnits = []string{"hours", "hour", "hrs", "hr", "h", "stunden", "stunde", "std.", "std", "heures", "heure"}

var minuteUnits = []string{"minutes", "minute", "minuten", "mins", "min", "mn", "m"}

// UnitOfTime reports whether a word is the unit of a time and cannot be short for another: Std., min, and no H.
func UnitOfTime(word string) bool {
	low := strings.TrimRight(lower(word), ".")
	return len(low) > 1 && (slices.Contains(hourUnits, low) || slices.Contains(minuteUnits, low) || slices.Contains(secondUnits, low))
}

var secondUnits = []string{"seconds", "second", "secs", "sec", "s", "sekunden", "sekunde", "sek", "secondes", "seconde"}

// percent is the 20 % by which a film's line shortens development.
func (s *scanner) percent() bool {
	end, value := decimal(s.low, s.pos)
	behind := unit(s.low, end, "%", "percent", "per cent")
	return s.field&onFilm != 0 && behind != end && s.emit(tPercent, value, behind)
}

// amount is 3 stops, 1 1/2 stop, 2/3 of a stop, 8x, 2½x, 4fach.
func (s *scanner) amount() bool {
	if stop, value := stopsAt(s.low, s.pos); value != "" && boundary(s.low, stop) {
		return s.neutralBehind(value, stop) || s.emit(tStops, value, stop)
	}
	end, value := mixed(s.low, s.pos)
	if stop := unit(s.low, end, "fach", "-fach"); value != "" && stop > end && s.termEnds(stop) { // 4fach
		s.ofFilterBefore()
		return s.emit(tFactor, value, stop)
	}
	if at(s.low, end) != 'x' || !boundary(s.low, end+1) {
		return false
	}
	if inStopsBehind(s.low, end+1) {
		return s.emit(tNumber, value, end+1)
	}
	if !isDigit(at(s.low, skip(s.low, end+1))) {
		s.ofFilterBefore()
		return s.emit(tFactor, value, end+1)
	}
	// Before a time it is the filter's, or the bellows', right behind it, and behind a comma a number of
	// exposures as well: Y8, 2x 1/60.
	last := len(s.tokens) - 1
	if s.last() == tFilter || s.last() == tBellows || s.last() == tComma && s.kind(last-1) == tFilter && s.field&onSheet != 0 {
		return s.emit(tFactor, value, end+1)
	}
	return false
}

// stopsAt reads a number of stops with its unit: 3 stops, 1-1/2 stop, 2/3 of a stop, 6-stop. The value is
// "" where there is none.
func stopsAt(s string, i int) (end int, value string) {
	end, value = spoken(s, i)
	if stop, said := hyphened(s, i); unitOfStops(s, stop) != stop {
		end, value = stop, said
	}
	from := end
	if at(s, from) == '-' && isLetter(at(s, from+1)) {
		from++
	}
	stop := unitOfStops(s, from)
	if end == i || stop == from {
		return i, ""
	}
	return stop, value
}

// unitOfStops is the end of the word for stops at i, in German and French too, else i. Blende 8 is an aperture, and Stufen are
// steps as well where no word follows by which the exposure is more or less.
func unitOfStops(s string, i int) int {
	if stop := unit(s, i, "of a stop", "a stop", "stops", "stop", "blendenstufen", "blendenstufe", "diaphragmes", "diaphragme", "diaphs", "diaph", "crans", "cran"); stop > i {
		return stop
	}
	stop := unit(s, i, "blenden", "blende", "stufen", "stufe")
	next := skip(s, stop)
	if stop == i || isDigit(at(s, next)) || apertureAt(s, next) || cardinals[s[next:letterRun(s, next)]] > 0 {
		return i
	}
	if s[stop-1] == 'e' && s[stop-2] == 'd' || s[stop-1] == 'n' && s[stop-3] == 'd' || moreOrLess[s[next:letterRun(s, next)]] {
		return stop
	}
	return i
}

var moreOrLess = SetOf("mehr weniger kürzer länger knapper reichlicher heller dunkler drüber drunter über unter zu")

// ofFilterBefore takes away the comma between what comes and the filter that was named right
// before: a factor means nothing else. Behind two filters it may be of both, R25 and pol, x16,
// and the comma stays.
func (s *scanner) ofFilterBefore() {
	last := len(s.tokens) - 1
	if s.last() != tComma || s.kind(last-1) != tFilter || s.field&onSheet == 0 {
		return
	}
	before := last - 2
	for s.kind(before) == tComma || s.kind(before) == tPlus || s.kind(before) == tWord {
		before--
	}
	if s.kind(before) != tFilter {
		s.tokens, s.ends = s.tokens[:last], s.ends[:last]
	}
}

// measured is a shutter's time as a tester shows it: 17.1 17.4 ms, and of slow
// speeds 1.02 1.04 s. The unit may stand behind the last of several numbers only.
func (s *scanner) measured() bool {
	if s.field&onShutter == 0 {
		return false
	}
	end, value := decimal(s.low, s.pos)
	if behind := unit(s.low, end, millisUnits...); behind != end || s.unitFollows(end, millisUnits) {
		return s.emit(tMilli, value+"/1000", behind)
	}
	last := s.last()
	if last == tComma {
		last = s.kind(len(s.tokens) - 2)
	}
	if last != tMilli && last != tMeasured && last != tEquals {
		return false
	}
	behind := unit(s.low, end, secondUnits...)
	if unit(s.low, behind, "measured", "=") != behind || behind == end && !s.unitFollows(end, secondUnits) {
		return false // the next speed
	}
	return s.emit(tMilli, value, behind)
}

var millisUnits = []string{"msec", "ms"}

// unitFollows reports whether the numbers from i on end in one of the units.
func (s *scanner) unitFollows(i int, units []string) bool {
	for {
		start := skip(s.low, i)
		if at(s.low, start) == ',' {
			start = skip(s.low, start+1)
		}
		end, _ := decimal(s.low, start)
		if end == start {
			return false
		}
		if unit(s.low, end, units...) != end {
			return true
		}
		i = end
	}
}

// length is a length with its unit, in millimetres; before a movement or the
// extension it is the amount of that: 20mm rise, 260mm ext.
func (s *scanner) length() bool {
	end, mm, ok := length(s.low, s.pos, false)
	if !ok || s.field&onDevelop != 0 || s.low[end-1] == '"' && s.field&(onSheet|onMeter) != 0 {
		return false // 4" is four seconds where an exposure can stand
	}
	next := skip(s.low, end)
	stop := letterRun(s.low, next)
	switch what := s.low[next:stop]; {
	case s.field&onSheet == 0, isDigit(at(s.low, skip(s.low, stop))): // 210mm   ext 297
	case isMovement(what):
		return s.emit(tMovement, s.src[next:stop]+" "+s.src[s.pos:end], stop)
	case what == "ext" || what == "extension" || what == "auszug" || what == "balgenauszug" || what == "tirage":
		return s.emit(tExt, trimFloat(mm), stop)
	}
	return s.emit(tLength, trimFloat(mm), end)
}

// fractionTime is 1/60, 1/15th, 1/2s: a fraction below one; and 15th.
func (s *scanner) fractionTime() bool {
	slash := digits(s.low, s.pos)
	if stop := unit(s.low, slash, "th"); stop == slash+2 {
		return s.ordinal(slash, stop)
	}
	if end, value := s.dictatedTime(); value != "" { // 1 / 15
		return s.emit(tTime, value, end)
	}
	if at(s.low, slash) != '/' {
		return false
	}
	end := digits(s.low, slash+1)
	if s.low[s.pos:slash] == "1" && end == slash+2 && at(s.low, end) == '.' && digits(s.low, end+1) == end+2 {
		end += 2 // 1/2.5, 1/1.6: a third of a stop between two marks, as meters show it
	}
	left, right := s.low[s.pos:slash], s.low[slash+1:end]
	if stop := unit(s.low, end, "th", "rd", "nd", "st"); stop == end+2 {
		end = stop
	}
	end = s.ofTime(end, fractionUnits)
	behind := boundary(s.low, end) || apertureAt(s.low, end) // 1/30f16
	return right != "" && number(left) < number(right) && behind && s.emit(tTime, left+"/"+right, end)
}

// dictatedTime is a part of a second with blanks in it, 1 / 15: a speed that shutters are marked with, or before its unit or
// beside an aperture, and no count of sheets. The value is "" where there is none.
func (s *scanner) dictatedTime() (end int, value string) {
	figures, value := apartFraction(s.low, s.pos)
	if value == "" || s.field&(onSheet|onMeter) == 0 {
		return s.pos, ""
	}
	end = s.ofTime(figures, fractionUnits)
	n := len(s.tokens) - 1
	counted := s.kind(n) == tWord && numbered[strings.TrimRight(s.low[s.tokens[n].Pos.Offset:s.ends[n]], ".:")]
	over, part := strings.CutPrefix(value, "1/")
	if counted || !boundary(s.low, end) || end == figures && (!part || !markedSpeeds[over] && !s.besideAperture(end)) {
		return s.pos, ""
	}
	return end, value
}

var fractionUnits = append([]string{"of a second", "of a sec", "of second"}, secondUnits...)

// ordinal is 15th, a fifteenth of a second; "the 4th try" is none.
func (s *scanner) ordinal(figures, end int) bool {
	if s.field&(onSheet|onMeter) == 0 || s.last() == tWord {
		return false
	}
	stop := s.ofTime(end, fractionUnits)
	next := skip(s.low, stop)
	if word := s.low[next:letterRun(s.low, next)]; stop == end && len(word) > 1 && word != "at" {
		return false
	}
	return number(s.low[s.pos:figures]) > 1 && boundary(s.low, stop) && s.emit(tTime, "1/"+s.low[s.pos:figures], stop)
}

// seconds is 2s, 0.7 sec, 1 1/2 s, 250ms, and the 20s of 20s+17s.
func (s *scanner) seconds() bool {
	end, value := s.counted(secondUnits)
	if behind := unit(s.low, end, millisUnits...); behind != end && s.field&(onSheet|onMeter) != 0 && boundary(s.low, behind) {
		return s.emit(tTime, trimFloat(number(value)/1000), behind)
	}
	behind := s.secondsEnd(end)
	return behind != end && boundary(s.low, behind) && s.emit(tTime, trimFloat(number(value)), behind)
}

// secondsEnd is the end of the unit of seconds behind a number, end where there is none.
func (s *scanner) secondsEnd(end int) int {
	if at(s.low, end) == '"' && s.field&(onSheet|onMeter) != 0 {
		return end + 1
	}
	return s.ofTime(end, secondUnits)
}

// atDegrees are the arithmetic speeds S by their degrees, from 0° on (ISO 6: S° = 1 + 10 lg S,
// rounded to the marks).
var atDegrees = strings.Fields("0.8 1 1.2 1.6 2 2.5 3 4 5 6 8 10 12 16 20 25 32 40 50 64 80 100 125 160 200 250 320 400 500 640 800 1000 1250 1600 2000 2500 3200 4000 5000 6400")

// fromDegrees is the arithmetic speed of one in degrees, "" for none.
func fromDegrees(figure string) string {
	n, err := strconv.Atoi(figure)
	if err != nil || n < 0 || n >= len(atDegrees) {
		return ""
	}
	return atDegrees[n]
}

// speed is a film's speed at i: 64, 64 ASA, 100/21°, 125 ASA/22 DIN, or in degrees, 19 DIN, 19°, 15/10° DIN.
// It is signed where what stands with the figures makes them a speed. Without a speed the value is "", as
// where two that do not agree are given.
func (s *scanner) speed(i int) (end int, value string, signed bool) {
	end, value = decimal(s.low, i)
	if end == i { // EI two hundred fifty
		if stop, n := figureInWords(s.low, i); stop > i && slices.Contains(atDegrees, strconv.Itoa(n)) && boundary(s.low, stop) {
			return stop, strconv.Itoa(n), false
		}
		return i, "", false
	}
	figure := s.low[i:end]
	stop := s.ofSpeed(end, arithmetic...)
	switch slash := skip(s.low, stop); {
	case at(s.low, slash) == '/' && (stop > end || slash == end) && isDigit(at(s.low, skip(s.low, slash+1))): // both, as film boxes have it
		from := skip(s.low, slash+1)
		last := digits(s.low, from)
		behind := s.din(last)
		const alike = 1.3 // what a degree and a rounding come to
		same := number(cmp.Or(fromDegrees(s.low[from:last]), "0")) / number(value)
		both := same > 1/alike && same < alike
		switch old := s.low[slash:last] == "/10" && stop == end && behind > last; { // 15/10 DIN, until 1957
		case both && (!old || fromDegrees(figure) == value):
			end, signed = behind, stop > end || behind > last
		case old && !both && fromDegrees(figure) != "":
			end, value, signed = behind, fromDegrees(figure), true
		default:
			return i, "", false
		}
	case stop > end:
		end, signed = stop, true
	default:
		if stop = s.din(end); stop > end {
			signed = strings.HasSuffix(s.low[:stop], "din")
			end, value = stop, fromDegrees(figure)
		}
	}
	if !boundary(s.low, end) {
		return i, "", false
	}
	return end, value, signed
}

// arithmetic are the signs of a speed that is no logarithm (ISO 6:1993).
var arithmetic = []string{"asa", "iso", "ei"}

// ofSpeed is the end of a sign behind a speed's figures, or i. A sign with figures behind it is that of
// those: ISO 100 EI 50.
func (s *scanner) ofSpeed(i int, signs ...string) int {
	end := unit(s.low, i, signs...)
	if next := skip(s.low, end); isDigit(at(s.low, next)) || strings.IndexByte(":=", at(s.low, next)) >= 0 && at(s.low, next) != 0 {
		return i
	}
	return end
}

// din is the end of the sign of degrees, or the word DIN, behind a number.
func (s *scanner) din(end int) int {
	return s.ofSpeed(degree(s.low, end), "din")
}

// degree is the end of the sign of degrees at i, blanks before it or not, or i.
func degree(s string, i int) int {
	if next := skip(s, i); strings.HasPrefix(s[next:], "°") {
		return next + len("°")
	}
	return i
}

// signedSpeed is a film's speed by itself, its sign behind it: 21 DIN, 21° DIN, 125 ASA, 125/22°; or in
// a scale that has no conversion.
func (s *scanner) signedSpeed() bool {
	if s.field&(onFilm|onSheet|onMeter) == 0 {
		return false
	}
	if end := s.scaleBehind(s.pos); end > s.pos {
		return s.emit(tOldSpeed, s.src[s.pos:end], end)
	}
	end, value, signed := s.speed(s.pos)
	if value == "" || !signed {
		return false
	}
	if strings.HasSuffix(s.low[:end], "ei") {
		return s.emit(tEI, value, end)
	}
	return s.emit(tISO, value, end)
}

// otherScales are those of speeds that no one formula turns into ISO's: degrees Scheiner were not the same
// in Europe and in America, and Hurter and Driffield's figures were found otherwise by each maker
// (common practice, no source).
var otherScales = []string{"scheiner", "sch", "h&d", "h & d", "h. & d", "h.&d"}

// scaleBehind is the end of a speed whose sign of another scale stands behind it, 23° Sch., 17/10 Sch,
// 400 H&D; else i.
func (s *scanner) scaleBehind(i int) int {
	end, _ := decimal(s.low, i)
	if strings.HasPrefix(s.low[end:], "/10") {
		end += len("/10")
	}
	from := degree(s.low, end)
	stop := unit(s.low, from, otherScales...)
	if end == i || stop == from || !boundary(s.low, stop) {
		return i
	}
	return fullStop(s.low, stop)
}

// scaleBefore is such a speed behind its sign: Scheiner 23, H&D 400.
func (s *scanner) scaleBefore() bool {
	stop := unit(s.low, s.pos, otherScales...)
	if s.field&(onFilm|onSheet|onMeter) == 0 || stop == s.pos {
		return false
	}
	from := skip(s.low, fullStop(s.low, stop))
	end, _ := decimal(s.low, from)
	end = degree(s.low, end)
	return end > from && boundary(s.low, end) && s.emit(tOldSpeed, s.src[s.pos:end], end)
}

// fullStop is behind the full stop at i of a word cut short, or i.
func fullStop(s string, i int) int {
	if at(s, i) == '.' {
		return i + 1
	}
	return i
}

// degrees is a temperature, in Celsius: 20C, 68F, 20 °C.
func (s *scanner) degrees() bool {
	if s.field&(onDevelop|onFilm) == 0 {
		return false
	}
	end, value := decimal(s.low, s.pos)
	end = unit(s.low, degree(s.low, end), "degrees", "deg")
	switch behind := unit(s.low, end, "c", "f"); {
	case behind == end || !boundary(s.low, behind):
		return false
	case s.low[behind-1] == 'f':
		return s.emit(tDegrees, trimFloat((number(value)-32)/1.8), behind)
	default:
		return s.emit(tDegrees, value, behind)
	}
}

// times is the 4 x of 4 x 1s, 4 times 1s, 4mal 1s, 4 exposures of 1s and 4 parts of 1s, and the 4 times of 1s 4 times.
func (s *scanner) times() bool {
	end := digits(s.low, s.pos)
	return s.often(s.low[s.pos:end], end)
}

// timesInWords is the same in words: four exposures of 1s, twice 1s, 1s four times.
func (s *scanner) timesInWords() bool {
	end, n := inWords(s.low, s.pos)
	if often := map[string]int{"twice": 2, "thrice": 3}[s.low[s.pos:letterRun(s.low, s.pos)]]; often > 0 {
		end, n = letterRun(s.low, s.pos), often
	}
	return n > 1 && s.field&onSheet != 0 && s.often(strconv.Itoa(n), end)
}

// often is a number of exposures that ends at end, before their time or right behind it, where nothing goes on about
// it: not 12m twice round the barn, nor capped three times 2 min.
func (s *scanner) often(n string, end int) bool {
	inWords := isLetter(s.low[s.pos])
	if s.last() == tTime && s.field&onSheet != 0 {
		stop := unit(s.low, end, "times")
		return (stop > end || inWords && strings.HasSuffix(s.low[:end], "ice")) && boundary(s.low, stop) && s.settingFollows(stop) && s.emit(tAgain, n, stop)
	}
	behind := s.countEnd(end)
	if last := len(s.tokens) - 1; inWords && s.last() == tWord && !ofExposing[s.low[s.tokens[last].Pos.Offset:s.ends[last]]] {
		return false
	}
	if inWords && behind == end && strings.HasSuffix(s.low[:end], "ice") && s.timeBehind(end) { // twice, thrice
		return s.emit(tCount, n, end)
	}
	return behind > end && s.emit(tCount, n, behind)
}

// ofExposing are words before a number of exposures.
var ofExposing = SetOf("exposed exposing gave given in made of")

// countEnd is the end of what makes a number that ends at end one of exposures, where a time follows.
func (s *scanner) countEnd(end int) int {
	behind := unit(s.low, end, "exposures of", "exp of", "parts of", "pops of", "bursts of", "times", "mal", "exposures", "exp")
	if cross := skip(s.low, end); at(s.low, cross) == 'x' {
		if behind = cross + 1; isDigit(at(s.low, skip(s.low, behind))) {
			return behind
		}
	} else if s.timeBehind(behind) {
		return behind
	}
	return end
}

// timeBehind reports whether a time in figures stands behind i.
func (s *scanner) timeBehind(i int) bool {
	next := skip(s.low, i)
	stop, _ := spoken(s.low, next)
	return isDigit(at(s.low, next)) && (s.unitOfTime(stop) || at(s.low, digits(s.low, next)) == '/')
}

// inShutter reports whether the list of a shutter's speeds is being read.
func (s *scanner) inShutter() bool {
	switch s.last() {
	case tShutter, tBulb, tTime:
		return true
	case tComma: // 1, 2, 4, 8: behind a whole one
		n := len(s.tokens) - 2
		return s.kind(n) == tTime && digits(s.low, s.tokens[n].Pos.Offset) == s.ends[n]
	}
	return false
}

// changed is by how much the light changed, behind the words that say so: light fell 1,
// light down 2/3. What an aperture follows is a time.
func (s *scanner) changed() bool {
	if s.last() != tChoose && s.last() != tWord || s.field&onSheet == 0 {
		return false
	}
	before := s.low[max(0, s.pos-24):s.pos]
	_, said, ok := strings.Cut(before, "light ")
	if !ok {
		return false
	}
	words := strings.Fields(said)
	if len(words) == 0 || len(words) > 3 || !changes[words[len(words)-1]] {
		return false
	}
	end, value := mixed(s.low, s.pos)
	if end == s.pos || !boundary(s.low, end) || number(value) > 5 || number(value) < 1./4 {
		return false
	}
	stop := unit(s.low, end, "of a stop", "stops", "stop")
	if c := at(s.low, skip(s.low, end)); stop == end && c != 0 && c != ',' && c != ')' && c != ';' { // light up 2 miles off, light down f16
		return false
	}
	return s.emit(tStops, value, stop)
}

// changes are words that lead to the stops by which the light changed.
var changes = map[string]bool{"fell": true, "fallen": true, "dropped": true, "down": true, "lost": true, "rose": true, "risen": true, "up": true, "by": true}

// weather is how warm it was on a sheet's line, in degrees: minus 3 degrees, -3°C. By so many
// degrees the camera is moved too, behind the words for that.
func (s *scanner) weather() bool {
	start := s.pos
	if c := s.low[start]; c == '-' || c == '+' {
		start++
	}
	end, _ := mixed(s.low, start)
	stop := unit(s.low, degree(s.low, end), "degrees celsius", "degrees", "deg", "celsius")
	if s.field&onSheet == 0 || stop == end || end == start {
		return false
	}
	if _, _, ofFilm := s.speed(start); ofFilm || s.scaleBehind(start) > start {
		return false
	}
	stop = unit(s.low, stop, "c", "f")
	before := s.low[:s.pos]
	before = before[strings.LastIndexByte(before, ',')+1:]
	behind, _, _ := strings.Cut(s.low[stop:], ",")
	for word := range strings.FieldsSeq(before + " " + behind) {
		if isMovement(word) || word == "front" || word == "rear" || word == "tilted" || word == "swung" || word == "back" || word == "lens" || word == "standard" {
			return false
		}
	}
	return boundary(s.low, stop) && s.emit(tWord, s.src[s.pos:stop], stop)
}

// ofAmount are words behind a number of EV that make it an amount.
var ofAmount = SetOf("less more under over darker brighter dimmer lower higher down up stronger weaker")

// bare is a number without a unit: a light value where the line, a zone or EV
// behind it says so, a density with a decimal point in its own line, the far end
// of a lens's apertures; else a number that nothing explains.
func (s *scanner) bare() bool {
	if end := s.yearly(); end > s.pos {
		return s.emit(tNegative, s.src[s.pos:end], end)
	}
	if end := s.referred(); end > s.pos {
		return s.emit(tWord, s.src[s.pos:end], end)
	}
	end, value := unitless(s.low, s.pos)
	if stop, said := hyphened(s.low, s.pos); s.field&onSheet != 0 && stop > end && isMark(said) && boundary(s.low, stop) {
		return s.emit(tNumber, said, stop) // 22-1/2
	}
	if s.field&onLens != 0 && s.inShutter() { // shutter 1 1/2 1/4: whole seconds without their unit
		end, value = decimal(s.low, s.pos)
		return boundary(s.low, end) && s.emit(tTime, value, end)
	}
	if s.field&onMeter != 0 || s.field&onSheet != 0 && at(s.low, end) == '/' { // 9/III
		if _, _, ok := s.zoneBehind(end); ok {
			return s.emit(tEV, value, end)
		}
	}
	if !boundary(s.low, end) {
		return false
	}
	if stop := unit(s.low, end, "ev", "lv", "lw", "il"); stop != end && (s.low[stop-1] != 'l' || s.src[stop-1] == 'L') && s.field&(onSheet|onMeter) != 0 && !isDigit(at(s.low, skip(s.low, stop))) { // gate 3 EV 12
		if next := skip(s.low, stop); s.last() != tCue && ofAmount[s.low[next:letterRun(s.low, next)]] {
			return s.emit(tStops, value, stop) // 1 EV less light
		}
		return s.emit(tEV, value, stop)
	}
	if s.meteredAlone(end) {
		return s.emit(tEV, value, end)
	}
	if s.behindTime() && isMark(value) && s.count(tAperture) == 0 && unit(s.low, end, "am", "pm", "a.m.", "p.m.", "o'clock") == end {
		return s.emit(tAperture, value, end)
	}
	_, _, placed := zone(s.low, skip(s.low, end))
	if s.field&onMeter != 0 && !placed && s.last() == tWord && relative[s.low[s.tokens[len(s.tokens)-1].Pos.Offset:s.ends[len(s.ends)-1]]] {
		return s.emit(tNumber, value, end) // down 1
	}
	switch {
	case s.field&(onSheet|onMeter) != 0 && placed || s.field&onMeter != 0:
		if s.behindWord("minus") { // shadow minus 2 on III
			last := len(s.tokens) - 1
			s.pos, value = s.tokens[last].Pos.Offset, "-"+value
			s.tokens, s.ends = s.tokens[:last], s.ends[:last]
			if before := s.last(); !placed && (before == tEV || before == tZone || before == tComma && s.kind(last-2) == tZone) {
				return s.emit(tStops, value, end) // EV 10 on V minus 2
			}
		}
		return s.emit(tEV, value, end)
	case s.field&onDensity != 0 && strings.Contains(value, "."):
		return s.emit(tD, value, end)
	case s.field&onDensity != 0 && s.last() == tWord && isDigit(at(s.low, skip(s.low, end))): // step 5
		return s.emit(tWord, value, end)
	case s.field&onLens != 0 && (s.last() == tDash || s.last() == tTo) && s.kind(len(s.tokens)-2) == tAperture:
		return s.emit(tAperture, value, end)
	case s.field&onLens != 0:
		if mark := s.nextMark(value); mark != "" {
			return s.emit(tAperture, mark, end)
		}
	}
	return s.emit(tNumber, value, end)
}

// nextMark is a number on a lens's line as the f-number of an engraved mark: one of a series that a
// word opens, or the next smaller opening behind another of its own system; else "". f/8 11 16 22,
// apertures 4.5 6.3 9, US 4 8 16.
func (s *scanner) nextMark(value string) string {
	n := len(s.tokens) - 1
	if n >= 0 && s.tokens[n].Type == tComma {
		n--
	}
	if n < 0 {
		return ""
	}
	before := s.tokens[n]
	switch {
	case before.Type == tAperture && s.uniformSeries(n):
		value = uniformMarks[value]
	case before.Type == tAperture && isMark(value):
	case before.Type == tWord && n == len(s.tokens)-1 && isMark(value) && ofMarks[s.low[before.Pos.Offset:s.ends[n]]]:
		return value
	default:
		return ""
	}
	last, _ := strconv.ParseFloat(before.Value, 64)
	if next, _ := strconv.ParseFloat(value, 64); next <= last || next > 2*last {
		return ""
	}
	return value
}

// uniformSeries reports whether the apertures that end with the nth token began in the Uniform System.
func (s *scanner) uniformSeries(n int) bool {
	for n > 0 && (s.tokens[n-1].Type == tAperture || s.tokens[n-1].Type == tComma) {
		n--
	}
	for s.tokens[n].Type == tComma {
		n++
	}
	return s.low[s.tokens[n].Pos.Offset] == 'u'
}

// ofMarks are the words with which the apertures engraved on a lens are told.
var ofMarks = SetOf("aperture apertures f-stop f-stops stop stops stopped mark marks marked diaphragm blende blenden opens opening wide widest smallest largest max min maximum minimum down and from to")

// relative are words before a number that is no light value, but what one changed by.
var relative = SetOf("zone down up dropped drop lost gained rose fell by plus increased decreased")

// yearly is the end of a negative's number, a year and a count, with which the terms of a
// sheet's line begin: 1A: 94-001 K2 1/30 f16; else pos.
func (s *scanner) yearly() int {
	end := digits(s.low, s.pos)
	if s.field != onSheet || len(s.tokens) > 0 || end != s.pos+2 || at(s.low, end) != '-' {
		return s.pos
	}
	if stop := digits(s.low, end+1); stop == end+4 && boundary(s.low, stop) {
		return stop
	}
	return s.pos
}

// referred is the end of the number of another negative, behind a word that leads to it: cf. 26-017;
// else pos.
func (s *scanner) referred() int {
	n := len(s.tokens) - 1
	for s.kind(n) == tComma && s.low[s.tokens[n].Pos.Offset] == '.' {
		n--
	}
	if s.field != onSheet || s.kind(n) != tWord || !leadsToOther[strings.TrimRight(s.low[s.tokens[n].Pos.Offset:s.ends[n]], ".:")] {
		return s.pos
	}
	end := s.pos
	for end < len(s.low) && (isDigit(s.low[end]) || s.low[end] == '-') {
		end++
	}
	if isLetter(at(s.low, end)) && boundary(s.low, end+1) {
		end++ // 86-12a
	}
	if from, to, ok := cutDash(s.low[s.pos:end]); ok && boundary(s.low, end) && ofYear(from, to) {
		return end
	}
	return s.pos
}

// leadsToOther are words behind which another sheet is named (common practice, no source).
var leadsToOther = SetOf("cf cp see vgl s. siehe voir compare like unlike with than from")

// brightestRead is more than any subject has at ISO 100, in EV.
const brightestRead = 20

// meteredAlone reports whether a number that ends at end is the whole of what stands behind
// "metered", but for the words that name the place: metered wall 12, gave ... It is a light
// value there as it is on a meter's line. A mark of a lens may be half of a pair.
func (s *scanner) meteredAlone(end int) bool {
	n := len(s.tokens) - 1
	for s.kind(n) == tWord {
		n--
	}
	if s.field&onSheet == 0 || s.kind(n) != tCue || at(s.low, end) != ',' && skip(s.low, end) < len(s.low) {
		return false
	}
	switch s.tokens[n].Value {
	case "gave", "corrected":
		return false
	}
	if last := len(s.tokens) - 1; last > n {
		switch word := s.low[s.tokens[last].Pos.Offset:s.ends[last]]; {
		case numbered[word], word == "of", word == "from", word == "for", word == "with", word == "in", word == "on", word == "to", word == "by", word == "after", word == "before", word == "than", word == "about":
			return false // an average of 3, gate 3
		}
	}
	if number(s.low[s.pos:end]) > brightestRead {
		return false
	}
	rest, _, gave := strings.Cut(s.low[end:], "gave")
	lone := n+1 == len(s.tokens) && isMark(s.low[s.pos:end])
	if !strings.ContainsAny(rest, "0123456789") {
		return !lone || gave
	}
	return !lone && apertureIn(rest)
}

// apertureIn reports whether a text has an aperture in it.
func apertureIn(text string) bool {
	for i := range len(text) - 1 {
		if next := text[i+1]; text[i] == 'f' && (isDigit(next) || next == '/') && (i == 0 || !isLetter(text[i-1])) {
			return true
		}
	}
	return false
}

// behindTime reports whether a time and the sign @ stand right before: 1/30 @ 16. The word
// is not enough, since hours stand behind it too.
func (s *scanner) behindTime() bool {
	n := len(s.tokens) - 1
	return s.field&(onSheet|onMeter) != 0 && s.kind(n) == tAt && s.src[s.tokens[n].Pos.Offset] == '@' && s.kind(n-1) == tTime
}

// isMark reports whether a number is a full, half or third stop as lenses are marked
// (ISO 517), f/1 to f/128, a fraction behind it or not.
func isMark(value string) bool {
	mark, _, _ := strings.Cut(value, "+")
	return slices.Contains(marked, mark)
}

var marked = strings.Fields("1 1.1 1.2 1.4 1.6 1.7 1.8 2 2.2 2.4 2.5 2.8 3.2 3.4 3.5 4 4.5 4.8 5 5.6 6.3 6.7 6.8 7.1 8 9 9.5 10 11 12.5 12.7 13 14 16 18 19 20 22 25 27 29 32 36 38 40 45 51 54 57 64 72 76 80 90 102 108 114 128")
