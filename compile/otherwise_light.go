package compile

import (
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/compile/record"
	"notchbook/lang/pattern"
)

// Another way to read by which light a sheet was exposed.

// litByLamps leaves a sheet unchecked whose words say that it was lit by lamps or candles where nothing
// chose that light, and what its film or filters take by them is not what they take by day.
func (s *season) litByLamps(sh *sheet) bool {
	if f := sh.film.v; len(sh.sum.owes) == 0 && (f == nil || len(f.inLight) == 0) {
		return false // by any light the same
	}
	said := sh.saysLamps()
	if said == "" || lightClass(sh.light) != handbook.Daylight {
		return false
	}
	at := *sh
	at.light = handbook.Tungsten
	lit := s.assessed(&at, sh.outing.book.at100)
	if lit.state == sh.sum.state && (lit.state == record.Right || exposure.Round(lit.diff) == exposure.Round(sh.sum.diff)) {
		return false
	}
	sh.ask("by which light it was exposed: " + quote(said) + ": it is written light: tungsten")
	return true
}

// saysLamps is what a sheet's line or its titles say of lamps as its light, "" for nothing.
func (sh *sheet) saysLamps() string {
	all := sh.lines[0].Terms()
	if !mayBeByLamps.In(sh.lines[0].Body.Text()) {
		all = nil
	}
	for i := range all {
		if said := saidIn(all[i].Kind); said != "" && !all[i].Struck && byLamps().MatchString(strings.ToLower(said)) {
			return said
		}
	}
	scene := ""
	if sh.scene != nil {
		scene = sh.scene.title
	}
	for _, said := range [...]string{sh.title, scene} {
		if mayBeByLamps.In(said) && byLamps().MatchString(strings.ToLower(said)) {
			return said
		}
	}
	return ""
}

// byLamps is light of lamps and candles; a lamp by which something stands is none (common practice, no
// source).
var byLamps = pattern.Lazily(`\b(?:by|in|under) (?:the )?(?:lamp|candle|gas|oil[- ]lamp|artificial|electric|fire)[- ]?light\b|\bunder (?:the |two |both |my |studio |photo )*(?:lamps|floods|floodlights|photofloods|bulbs)\b` +
	`|\b(?:lamp|candle|gas|fire)[- ]?(?:lit|lighting)\b|^(?:(?:by|with) )?(?:the |a |one |two |three )?(?:lamplight|candlelight|lamp light|candle light|candles?|(?:artificial|electric|tungsten|gas|incandescent) light|(?:oil|paraffin|kerosene|petroleum|gas|electric|incandescent|table|desk) lamps?|light ?bulbs?|photofloods?)$|\b(?:bei )?(?:kunstlicht|lampenlicht|kerzenlicht|kerzenschein|glühlicht|gaslicht|elektrisches licht)\b|^(?:(?:bei|mit|unter|einer|der|zwei|drei|im schein der) )*(?:glühlampen?|glühbirnen?|petroleumlampen?|öllampen?|gaslampen?|tischlampen?|stehlampen?)$|\blumière (?:artificielle|électrique|de (?:la |l['’])?lampe)|^(?:à la |avec (?:une |la )?)?(?:lampe à (?:huile|pétrole|incandescence)|ampoule électrique)$|\bà la (?:lampe|bougie)\b`)

var mayBeByLamps = pattern.May(byLamps)
