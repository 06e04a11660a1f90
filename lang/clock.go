package lang

import (
	"fmt"
	"strconv"
	"strings"
)

// Hours of the clock, and how long a shutter was open between two of them: from 22:10 to
// 23:25, open 23:55, closed 00:07, 9:40pm to 9:52pm, 23h55 – 00h07.

const day = 24 * 60 * 60 // seconds

// hour is a time of day as it was typed.
type hour struct {
	end     int  // in the line
	seconds int  // from midnight
	half    bool // it says which half of the day
	short   bool // of one figure with minutes, and so like a time: 2:30
	bare    bool // without a sign of its own, an hour only beside another: 2355, 23.55
}

// hourAt reads a time of day: 22:10, 0:10, 9:40pm, 9pm, 2340h, 23h55, midnight.
func hourAt(s string, i int) (h hour, ok bool) {
	end := digits(s, i)
	if end == i {
		return namedHour(s, i)
	}
	n, sign := end-i, at(s, end)
	first, minutes, seconds := s[i:end], "0", "0"
	signed := false
	switch {
	case n == 4:
		first, minutes = s[i:i+2], s[i+2:end]
	case n > 2:
		return hour{}, false
	case (sign == ':' || sign == '.' || sign == 'h') && digits(s, end+1) == end+3:
		minutes, h.short, signed = s[end+1:end+3], n == 1, sign != '.'
		if end += 3; sign == ':' && at(s, end) == ':' && digits(s, end+1) == end+3 {
			seconds, h.short = s[end+1:end+3], false
			end += 3
		}
	default:
		h.short = true
	}
	if behind := unit(s, end, hourUnits...); behind > end {
		end, signed = behind, n != 1 || signed
	}
	late := false
	if behind := unit(s, end, "a.m.", "a.m", "am", "p.m.", "p.m", "pm"); behind > end {
		late = at(s, skip(s, end)) == 'p'
		end, h.half, h.short, signed = behind, true, false, true
	}
	twelve := h.half
	if behind := unit(s, end, "uhr"); behind > end { // 9:30 Uhr, of twenty-four
		end, h.half, h.short, signed = behind, true, false, true
	}
	h.end, h.bare = end, !signed
	if h.bare && n != 4 && sign != '.' || !boundary(s, end) {
		return hour{}, false // as nearly all numbers
	}
	hours := int(number(first))
	if twelve && hours <= 12 {
		hours %= 12
		if late {
			hours += 12
		}
	}
	h.seconds = (3600*hours + 60*int(number(minutes)) + int(number(seconds))) % day
	return h, (hours <= 23 || hours == 24 && sign == ':') && number(minutes) <= 59 && number(seconds) <= 59
}

// namedHour is an hour that has a name: midnight, noon.
func namedHour(s string, i int) (h hour, ok bool) {
	switch end := letterRun(s, i); s[i:end] {
	case "midnight":
		return hour{end: end, half: true}, boundary(s, end)
	case "noon", "midday":
		return hour{end: end, seconds: day / 2, half: true}, boundary(s, end)
	}
	return hour{}, false
}

// clock writes a time of day: 22:10, 22:10:30.
func clock(seconds int) string {
	text := fmt.Sprintf("%02d:%02d", seconds/3600, seconds/60%60)
	if seconds%60 != 0 {
		text += fmt.Sprintf(":%02d", seconds%60)
	}
	return text
}

// stretch is the hours from one to another, over midnight where need be. Where only one
// says the half of the day, the other is the nearest to it. The text ends in a question mark
// where it is not sure what is meant: nobody holds a shutter open for half a day or for no
// time, and who writes so may have the hours of a clock with twelve.
func stretch(from, to hour) string {
	open := ((to.seconds-from.seconds)%day + day) % day
	if open >= day/2 && from.half != to.half {
		if from.half {
			to.seconds = (to.seconds + day/2) % day
		} else {
			from.seconds = (from.seconds + day/2) % day
		}
		open -= day / 2
	}
	text := clock(from.seconds) + "-" + clock(to.seconds)
	if open == 0 || open >= day/2 {
		text += "?"
	}
	return text
}

// opens and closes are the words before the hours at which a shutter was opened and
// closed. "To", "stop" and a dash close only what an hour stands before.
var (
	opens  = map[string]bool{"from": true, "between": true, "open": true, "opened": true, "started": true, "start": true, "began": true}
	closes = map[string]bool{"to": true, "until": true, "bis": true, "till": true, "til": true, "close": true, "closed": true, "ended": true, "finished": true, "shut": true, "stop": true, "stopped": true}
)

// shutterHours is a word and the hour behind it, and the hour that closes what it opens.
func (s *scanner) shutterHours() bool {
	end := letterRun(s.low, s.pos)
	word := s.low[s.pos:end]
	if s.field&onSheet == 0 || !opens[word] && !closes[word] || word == "from" && s.last() == tCue {
		return false
	}
	first, ok := s.hourBehind(end)
	switch {
	case !ok:
		return false
	case closes[word]:
		return !first.bare && (word != "to" && word != "stop" || s.opened()) && s.emit(tClock, "-"+clock(first.seconds), first.end)
	}
	if last, ok := s.closing(first.end, word == "between"); ok {
		return s.emit(tClock, stretch(first, last), last.end)
	}
	return !first.bare && s.emit(tClock, clock(first.seconds)+"-", first.end)
}

// opened reports whether the hour at which the shutter was opened stands before.
func (s *scanner) opened() bool {
	for _, t := range s.tokens {
		if t.Type == tClock && strings.HasSuffix(t.Value, "-") {
			return true
		}
	}
	return false
}

// hourBehind is the hour at i, "at" before it or not.
func (s *scanner) hourBehind(i int) (h hour, ok bool) {
	next := skip(s.low, i)
	if behind := unit(s.low, next, "at"); behind > next {
		next = skip(s.low, behind)
	}
	return hourAt(s.low, next)
}

// closing is the hour that follows another behind a word or a dash.
func (s *scanner) closing(i int, and bool) (h hour, ok bool) {
	next := skip(s.low, i)
	dash := next
	if c := at(s.low, next); c == ',' || c == ';' {
		next = skip(s.low, next+1)
	} else {
		for at(s.low, dash) == '-' && dash < next+2 {
			dash++
		}
	}
	if dash > next {
		return hourAt(s.low, skip(s.low, dash))
	}
	end := letterRun(s.low, next)
	if word := s.low[next:end]; !closes[word] && !(and && word == "and") {
		return hour{}, false
	}
	return s.hourBehind(end)
}

// twoHours is two hours in a row, between which the shutter was open: 23:55 – 00:07, 21:14 to :18,
// 21:14 on, 21:18 off. Where they could be minutes and seconds as well, it is not sure what they are;
// nobody counts from 22m30 down to 58 s, and 1:30 → 4:00 is asked and given.
func (s *scanner) twoHours() bool {
	if s.field&onSheet == 0 || s.behindWord("from") { // corrected from 1:30 to 4:00
		return false
	}
	first, ok := hourAt(s.low, s.pos)
	if !ok || first.bare {
		return false
	}
	last, ok := s.closing(first.end, false)
	if !ok {
		last, ok = s.minutesPast(first)
	}
	if !ok {
		last, ok = s.onAndOff(first)
	}
	if !ok {
		last, ok = s.behindArrow(first)
	}
	if !ok || last.bare {
		return false
	}
	text := stretch(first, last)
	if overMidnight := !first.short && last.seconds < first.seconds && !strings.HasSuffix(text, "?"); (first.short || last.short) && !overMidnight {
		if !s.settingFollows(last.end) {
			return false // 2:30 -- 3:00 would have been better
		}
		text = strings.TrimSuffix(text, "?") + "?"
	}
	return s.emit(tClock, text, last.end)
}

// minutesPast is a later minute of the same hour, behind a word or a dash: 21:14 to :18.
func (s *scanner) minutesPast(of hour) (h hour, ok bool) {
	next := skip(s.low, of.end)
	end := letterRun(s.low, next)
	if at(s.low, next) == '-' {
		end = next + 1
	} else if !closes[s.low[next:end]] {
		return hour{}, false
	}
	colon := skip(s.low, end)
	if stop := digits(s.low, colon+1); at(s.low, colon) == ':' && stop == colon+3 && boundary(s.low, stop) {
		minutes := int(number(s.low[colon+1 : stop]))
		of.end, of.seconds = stop, of.seconds/3600*3600+60*minutes
		return of, minutes <= 59
	}
	return hour{}, false
}

// onAndOff is the hour at which the shutter was closed, behind that at which it was opened: 21:14 on,
// 21:18 off.
func (s *scanner) onAndOff(from hour) (h hour, ok bool) {
	on := unit(s.low, from.end, "on", "opened", "open")
	next := skip(s.low, on)
	if c := at(s.low, next); c == ',' || c == ';' {
		next = skip(s.low, next+1)
	}
	h, ok = hourAt(s.low, next)
	off := unit(s.low, h.end, "off", "closed", "shut")
	if on == from.end || !ok || off == h.end || !boundary(s.low, off) {
		return hour{}, false
	}
	h.end = off
	return h, true
}

// behindArrow is the hour behind an arrow, where both are of the afternoon: 21:14 → 21:18.
func (s *scanner) behindArrow(from hour) (h hour, ok bool) {
	const afternoon = 13 * 60 * 60
	next := skip(s.low, from.end)
	if from.seconds < afternoon || !strings.HasPrefix(s.low[next:], "->") && !strings.HasPrefix(s.low[next:], "=>") {
		return hour{}, false
	}
	h, ok = hourAt(s.low, skip(s.low, next+2))
	return h, ok && h.seconds >= afternoon
}

// halfOfDay is an hour by itself that says its half of the day: 3pm, 3.40 pm.
func (s *scanner) halfOfDay() bool {
	h, ok := hourAt(s.low, s.pos)
	return ok && h.half && s.field&onSheet != 0 && s.emit(tClock, clock(h.seconds), h.end)
}

// hoursInWords is an hour as it is said, and the one in figures at which the shutter was closed:
// half past nine to 21:35. Which half of the day is meant only the other says.
func (s *scanner) hoursInWords() bool {
	if s.field&onSheet == 0 {
		return false
	}
	first, ok := hourInWords(s.low, s.pos)
	if !ok {
		return false
	}
	last, ok := s.closing(first.end, false)
	if !ok || last.bare {
		return false
	}
	last.half = last.half || last.seconds >= 13*60*60 || last.seconds < 60*60
	text := stretch(first, last)
	if !last.half {
		text = strings.TrimSuffix(text, "?") + "?"
	}
	return s.emit(tClock, text, last.end)
}

// hourInWords is half past nine, a quarter to ten, ten past 11.
func hourInWords(s string, i int) (h hour, ok bool) {
	number := func(i int) (end, n int) {
		if end, n = inWords(s, i); end > i {
			return end, n
		}
		if end = digits(s, i); end > i {
			n, _ = strconv.Atoi(s[i:end])
		}
		return end, n
	}
	end, minutes := number(i)
	for _, said := range [...]struct {
		word    string
		minutes int
	}{{"half", 30}, {"quarter", 15}, {"a quarter", 15}} {
		if stop := i + len(said.word); strings.HasPrefix(s[i:], said.word) && boundary(s, stop) {
			end, minutes = stop, said.minutes
		}
	}
	behind := unit(s, end, "past", "to")
	if end == i || behind == end {
		return hour{}, false // as nearly all
	}
	stop, hours := number(skip(s, behind))
	if stop <= behind+1 || hours < 1 || hours > 12 || minutes > 59 || !boundary(s, stop) || at(s, stop) == '.' {
		return hour{}, false
	}
	if strings.HasSuffix(s[:behind], "to") {
		minutes = -minutes
	}
	return hour{end: stop, seconds: 3600*hours + 60*minutes}, true
}

// behindWord reports whether the token before is a word that was left as such.
func (s *scanner) behindWord(word string) bool {
	last := len(s.tokens) - 1
	return s.last() == tWord && s.low[s.tokens[last].Pos.Offset:s.ends[last]] == word
}
