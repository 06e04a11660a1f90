package compile

import (
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// More or less that a sheet got on purpose, as its remarks say it in words of the
// writer's own: "one stop more for the shadows", "to be safe". What is meant and how much
// is for the writer to say (bracket +1), so such a sheet is neither right nor a mistake. A
// remark that owns to a slip is none of these, and words that name an amount speak only
// for about so much.

// An amount is one in the writer's words, and ends where nothing behind it is what it lies over
// or above: a stop over, and not a bus stop over the bridge.
const (
	amountSaid = `\b(?:(?:one|a|an|two|three|half a|a half|a third of a|two thirds of a|one and a half|[0-9½⅓⅔¼¾]+) (?:full |whole |extra )?stops?|half|a third|two thirds)`
	// amountElsewhere is one in other languages.
	amountElsewhere = `\b(?:(?:ein|eine|einen|anderthalb|zwei|drei|halbe|½|un|une|deux|trois|demi|[0-9½⅓⅔]+)[ -]?(?:halbe |drittel |ganze )?(?:stufen?|blenden?(?:stufen?)?|diaphs?|diaphragmes?|crans?|valeurs?))`
	endOfAmount     = `(?:\s*$|\s*[.,;:!)]| (?:for|to|on purpose|because|as|since|so|than|at|by time|in time)\b)`
	processedBy     = ` (?:(?:it|this|film|by) )*(?:(?:one|a|half a|two|[12½])(?: stops?)?|in (?:the )?dev\w*)` + endOfAmount // pushed one stop, to be pulled in development
	forReason       = `\b(?:for|to|because|since|so that|on purpose)\b`
)

// The words are those of notes read for this (common practice, no source).
var (
	morePurpose = pattern.Lazily(`\berr(?:ed|ing)? (?:\pL+ )*(?:generous|side of (?:more|plenty|density|light|over))|\bgenerous(?:ly)?\b(?: exposure|$)|\b(?:double|doubled|twice) (?:the )?(?:time|exposure)\b.*` + forReason + `|` + amountSaid + ` (?:more|extra)\b|` + amountSaid + ` (?:over|above|up)` + endOfAmount + `|\b(?:extra|additional) (?:half |third of a )?stop|\bplus (?:one|a (?:half|third|stop))` + endOfAmount + `|` +
		`\bopen(?:ed)? up (?:a|one|half|for the shadows?)\b|\bover-?expos\w*\b.*` + forReason + `|\bto be (?:safe|sure)` + endOfAmount + `|\bfor safety\b|\bon the safe side` + endOfAmount + `|(?:^|\b(?:for|as|an|some) )insurance` + endOfAmount + `|\b(?:a (?:bit|little|touch)|slightly|some) (?:extra|more|over|longer)\b|^(?:\w+ )?(?:lighter|brighter|denser|thicker) (?:version|one|variant|alternative|neg\w*)$|^(?:over|plus)$|\bmore (?:exposure|light|time) for\b|^(?:generous\w*|reichlich)$|\bgenerous(?:ly)? expos|\bexposed generously\b|\b(?:to )?pull(?:ed|ing)?` + processedBy + `|` + amountElsewhere + ` (?:über|mehr|länger|reichlicher|en plus|de plus|plus long)` + endOfAmount + `|\b(?:zur|aus|der) sicherheit(?: halber)?\b|\bsicherheitshalber\b|\b(?:etwas|ein wenig|bewusst|bewußt|absichtlich|lieber) (?:mehr|länger|reichlicher|über)\b|\büberbelichtet\b.*\b(?:für|wegen|weil|damit|absichtlich)\b|\b(?:par|pour plus de|pour la) (?:sécurité|précaution)` + endOfAmount + `|\bun peu plus (?:longtemps|long|de pose)?`)
	lessPurpose = pattern.Lazily(`\b(?:a (?:bit|little|touch)|slightly|some) (?:less|under|shorter)\b|^(?:\w+ )?(?:darker|thinner|moodier) (?:version|one|variant|alternative|neg\w*)$|^(?:under|minus)$|\bless (?:exposure|light|time) for\b|` + amountSaid + ` less\b|` + amountSaid + ` (?:under|below|down)` + endOfAmount + `|\bminus (?:one|a (?:half|third|stop))` + endOfAmount + `|` + amountElsewhere + ` (?:unter|weniger|kürzer|knapper|en moins|de moins|plus court)` + endOfAmount + `|\b(?:etwas|ein wenig|bewusst|bewußt|absichtlich|lieber) (?:weniger|kürzer|knapper|unter)\b|\bun peu moins\b|\bunder-?expos\w*\b.*` + forReason + `|\b(?:to )?push(?:ed|ing)?` + processedBy)
	anyPurpose  = pattern.Lazily(`\b(?:on purpose|purposely|deliberate(?:ly)?|intentional(?:ly)?|intended|absichtlich|bewusst|mit absicht|exprès|volontairement)\b|(?:^|[^a-z ] *|\b(?:a|to|as|my|the|this|was|is) )bracket(?:ed|ing)?(?:` + endOfAmount + `|,? (?:over|under|up|down|plus|minus|[+\-0-9]))`)
	ownsToSlip  = pattern.Lazily(`\b(?:forgot|forgotten|mistake|oops|should have|wrong|wrongly|accident|accidentally|by error|in error|meant to|misread|misset|botched|damn|blast|stupid|thought|sorry|fault|careless|idiot|fool|bother|alas|fear|vergessen|versehen|versehentlich|falsch|irrtum|irrtümlich|hätte|sollte|verdammt|erreur|aurait|zut|merde|(?:not|never|no|without) (?:on |a |any )?(?:purpose|intended|intentional(?:ly)?|deliberate(?:ly)?|meant|bracket\w*))\b|n't\b|\boublié|\?`)
	saidStops   = pattern.Lazily(`\b(one and a half|one|a|two|half a|half|a third|two thirds|[123])(?: of a)?(?: extra| additional)? stops?\b`)
	stopsInWord = map[string]float64{"one": 1, "a": 1, "1": 1, "two": 2, "2": 2, "3": 3, "half": 0.5, "half a": 0.5, "a third": 1. / 3, "two thirds": 2. / 3, "one and a half": 1.5}
)

// meantSo is the remark that says that so much more (positive) or less was given on
// purpose, in stops, "" where none does.
func (sh *sheet) meantSo(off float64) string {
	const unsaid = 1.5 // the most that words which name no amount speak for, in stops
	for _, remark := range sh.remarks {
		low := strings.ReplaceAll(strings.ToLower(remark), "better safe than sorry", "to be safe") // and no regret
		way := morePurpose
		if off < 0 {
			way = lessPurpose
		}
		any := anyPurpose().MatchString(low)
		if !any && !way().MatchString(low) || ownsToSlip().MatchString(low) {
			continue
		}
		most := unsaid
		if m := saidStops().FindStringSubmatch(low); m != nil {
			if math.Abs(math.Abs(off)-stopsInWord[m[1]]) > 0.5 {
				continue
			}
		} else if any {
			most = math.Inf(1)
		}
		if math.Abs(off) <= most {
			return remark
		}
	}
	return ""
}

// stopsBeside is an amount of stops on a sheet's line beside its terms: two stops for the orange;
// or one that is more on purpose.
type stopsBeside struct {
	stops float64
	at    source.Span

	pushed bool // the words before it say that it is of the development: pushed one stop
}

// said asks what the amounts of stops on a line are that are none of those which the sheet was
// reckoned with: what its filters cost, one by one and together, its bellows, or its zone.
func (r *reckoning) said() {
	if len(r.sh.stopsBeside) == 0 {
		return
	}
	const rounding = 1. / 6
	known := []float64{r.total, r.bellows}
	filters := 0.
	for _, s := range r.steps {
		known = append(known, s.Stops)
		if s.Kind == "filter" {
			filters += s.Stops
		}
	}
	known = append(known, filters)
	if rd := r.sh.reading; rd != nil {
		for i := range rd.areas {
			if rd.areas[i].placed {
				known = append(known, middleZone-rd.areas[i].zone)
			}
		}
	}
	for _, s := range r.sh.stopsBeside {
		if s.pushed {
			r.need("what " + quote(s.at.Text()) + " is: how it is to be developed is written N+1 or N-1, the index that it was exposed at EI 200")
			continue
		}
		if !slices.ContainsFunc(known, func(v float64) bool { return math.Abs(math.Abs(v)-math.Abs(s.stops)) <= rounding && v != 0 }) {
			r.need("what " + quote(strings.TrimSpace(s.at.Text())) + " is: on purpose it is written bracket " + spokenBracket(s.stops))
		}
	}
}

// middleZone is the zone that a meter makes of what it reads (Adams, The Negative).
const middleZone = 5

func spokenBracket(stops float64) string { return strings.TrimSpace(exposure.FormatStops(stops)) }
