package slip

import (
	"slices"
	"strings"

	"notchbook/lang/pattern"
)

// Some mistakes leave no trace in the settings: the lens stood open, the slide
// stayed in. They show on the film only, and only when the writer says what the
// film looks like. All of it is common practice, no source.

// Look is what a sheet looks like as a whole.
type Look string

// The looks.
const (
	Black  Look = "black"
	Fogged Look = "fogged"
	Clear  Look = "clear"
	Dense  Look = "dense"
	Thin   Look = "thin"
	Double Look = "doubly exposed"
)

// Silent is a mistake that no setting shows.
type Silent struct {
	Slug  string
	Title string          // what was done, in a clause
	Shows map[Look]string // the looks it gives, with the sentence for each
	says  pattern.Lazy    // words with which the writer names it himself
}

// The order is the one in which they are named.
var silent = []Silent{
	{"lens-left-open", "the lens was left open after focusing",
		map[Look]string{Black: "the lens was left open after focusing when the slide was pulled", Fogged: "the lens was left open after focusing when the slide was pulled"},
		pattern.Lazily(`\b(?:lens|shutter) (?:was |had been )?(?:still |left |stood )+open\b|\bleft the (?:lens|shutter) open\b`)},
	{"slide-not-pulled", "the slide was not pulled",
		map[Look]string{Clear: "the slide was not pulled"},
		pattern.Lazily(slideIn + `|\b(?:forgot|did not|didn'?t|never)(?: to)? (?:pull|` + pullSlide + `)`)},
	{"shutter-not-set", "the shutter was not closed before the slide was pulled, or not cocked",
		map[Look]string{Black: "the shutter was not closed before the slide was pulled", Fogged: "the shutter was not closed before the slide was pulled", Clear: "the shutter was not cocked and did not open"},
		pattern.Lazily(`\b(?:not|never|un|forgot to) ?cock|\bshutter (?:was )?(?:not|never) (?:closed|opened|fired)|\bshutter (?:did not|didn'?t|never) (?:open|close|fire)`)},
	{"side-exposed-twice", "one side of a holder was exposed twice and another not at all",
		map[Look]string{Double: "this side was exposed twice, and another, which will be blank, not at all", Clear: "another side was exposed twice, and this one not at all"},
		pattern.Lazily(`\bwrong (?:side|holder)\b|\bholder (?:was )?not turned\b|` + otherSlide)},
	{"developed-long", "it was developed longer, warmer or stronger than noted",
		map[Look]string{Dense: "it was developed longer, warmer or stronger than noted"}, nil},
	{"developed-short", "it was developed shorter, colder or in spent developer",
		map[Look]string{Thin: "it was developed shorter, colder or in spent developer"}, nil},
}

// SilentTable gives the mistakes that no setting shows, in their order.
func SilentTable() []Silent { return slices.Clone(silent) }

// LookupSilent finds one by its slug.
func LookupSilent(slug string) (Silent, bool) {
	i := slices.IndexFunc(silent, func(s Silent) bool { return s.Slug == slug })
	if i < 0 {
		return Silent{}, false
	}
	return silent[i], true
}

// othersSaid are causes of which the table knows nothing and that need none: light came in
// by the holder, the slide, the bellows.
var (
	othersSaid = pattern.Lazily(`\b(?:leak(?:s|ed|y|ing)?|holder|bellows|pinholes?|holes? in|light (?:got|came|gets|comes) in|light.?trap|light.?struck|safelight|changing (?:bag|tent)|x-?ray(?:s|ed)?)\b` +
		`|\bslide\b[^.;]*\b(?:early|too soon|half|out|open|pulled|drawn|cracked)\b|\b(?:pulled|drew)\b[^.;]*\bslide\b[^.;]*\b(?:early|too soon|before)\b`)
	saidNot = pattern.Lazily(`\b(?:no|not|never|without|neither|nor)\b[^.,;:!?(]*`)
)

// The words for a slide that was in the holder during the exposure: how it was, and behind
// "never" or "forgot to" what was not done.
const (
	slideIn = `\b(?:dark ?)?slide (?:(?:was |is |had |still |stayed |left |been )+in\b|in(?:$|[,.;:!?)])|(?:was |is |had |still )*(?:not|never) (?:pulled|drawn|out|came out|taken out))` +
		`|\b(?:left|leave|leaving) (?:the |my |its )?(?:dark ?)?slide in\b`
	pullSlide = `(?:pull|pulled|draw|drew|drawn|take out|took out|remove|removed) (?:the |out the )?(?:dark ?)?slide\b`
)

// Slide is what the writer says of a dark slide that had to be drawn.
type Slide int

// What is said of it: nothing; that it was in the holder during the exposure; that it nearly
// was, or was seen in time, or the exposure made again; or one of these, and not which.
const (
	SlideUnsaid Slide = iota
	SlideLeft
	SlideCaught
	SlideUnsure
)

// The words for it, and what makes another thing of them: before them, that it did not come to
// that; behind them, that it was put right; or only that something was seen or done, and not
// whether on this sheet. Common practice, no source.
var (
	slideLeft   = pattern.Lazily(slideIn + `|\b(?:forgot to|forgotten to|forgot|did not|didn'?t|never|not) ` + pullSlide)
	slideNearly = pattern.Lazily(`\b(?:nearly|almost|all but|about to|close to)\b[^.,;]*$`)
	slideDenied = pattern.Lazily(`\b(?:no|not|never|don't|didn't|without)\b[^.,;]*$`)
	slideMended = pattern.Lazily(`\b(?:first|1st)\b[^.;]*\bthen\b|\b(?:then|now|all|but) (?:it (?:is|was) )?(?:ok|okay|fine|good|well)\s*(?:$|[,.;!)])` +
		`|\bin time\b|\b(?:noticed|saw|caught|remembered|spotted)\b[^.;]*\bbefore\b` +
		`|\b(?:pulled|drew) it\b[^.;]*\b(?:again|once more|anew|before|shot|fired|exposed|took it)\b`)
	slideSeen = pattern.Lazily(`\b(?:first|1st|again|once more|anew|then|repeat|repeated|redone|redid|reshot|retake|retook|retaken|second (?:try|go|one|shot)|noticed|saw|caught|remembered|spotted|(?:pulled|drew|took) it)\b`)
	slideLost = pattern.Lazily(`\b(?:too late|afterwards?|blank|nothing (?:at all )?on|(?:on|with) (?:the |an)?(?:next|other)|[0-9]+ ?[ab])\b`)
)

// SlideOf is what a sheet's remarks, in their order, say of its own slide.
func SlideOf(remarks ...string) Slide {
	for i, words := range remarks {
		if !ofSlide.In(words) {
			continue
		}
		words = strings.ToLower(words)
		in := slideLeft().FindStringIndex(words)
		if in == nil {
			continue
		}
		before, behind := words[:in[0]], words[in[1]:]
		for _, more := range remarks[i+1:] {
			behind += ", " + strings.ToLower(more)
		}
		switch {
		case slideNearly().MatchString(before):
			return SlideCaught
		case doubted().MatchString(words) || slideDenied().MatchString(before):
			return SlideUnsure
		case slideLost().MatchString(behind):
			return SlideLeft
		case slideMended().MatchString(behind):
			return SlideCaught
		case slideSeen().MatchString(behind):
			return SlideUnsure
		}
		return SlideLeft
	}
	return SlideUnsaid
}

var doubted = pattern.Lazily(`\?|\b(?:think|maybe|perhaps|probably|possibly|may|might|could have|would have)\b`)

// otherSlide are the words by which the slide of another side was drawn, up to its label.
const otherSlide = `\b(?:drew|drawn|pulled|took out|opened) (?:the )?(?:dark ?)?slide (?:of|on|for|from) `

var otherSide = pattern.Lazily(otherSlide + `([a-z0-9/-]*[a-z0-9])`)

// OtherSide is the side, in lower case, that was exposed in the place of a sheet's own, where
// its writer says so.
func OtherSide(words string) (label string, found bool) {
	words = strings.ToLower(words)
	if !strings.Contains(words, "slide") {
		return "", false
	}
	if m := otherSide().FindStringSubmatch(words); m != nil {
		return m[1], true
	}
	return "", false
}

// DiagnoseSilent gives at most two causes for a look. words is what the writer
// says of the sheet: a cause that he names himself is the only one, and one that
// is not in the table leaves none to be named. twin says that another sheet of the
// day is doubly exposed.
func DiagnoseSilent(look Look, words string, twin bool) []Cause {
	words = strings.ToLower(words)
	var causes []Cause
	for _, s := range silent {
		text, shows := s.Shows[look]
		switch {
		case !shows:
		case s.says != nil && s.says().MatchString(words):
			return []Cause{{Slug: s.Slug, Text: text}}
		case s.Slug == "side-exposed-twice" && look == Clear && twin:
			causes = slices.Insert(causes, 0, Cause{Slug: s.Slug, Text: text})
		case s.Slug != "side-exposed-twice" || look == Double:
			causes = append(causes, Cause{Slug: s.Slug, Text: text})
		}
	}
	if othersSaid().MatchString(saidNot().ReplaceAllString(words, "")) {
		return nil
	}
	return causes[:min(len(causes), most)]
}

// Remarks speak of the scene: of black water, clear sky, fog and thin cloud. Only
// words that can be meant for the whole negative are taken: after a result line's
// label, or behind "the negative is" and its like, and with nothing behind them
// that they could belong to.
const (
	subject = `(?:(?:the |this |that )?(?:neg|negative|sheet|film|plate) (?:is|was|came out|came up|turned out)|(?:it )?(?:came out|turned out)) `
	degree  = `(?:(?:quite|very|too|far|completely|totally|entirely|almost|nearly|all|a bit|a little|rather|solid|jet) )*`
	wholly  = `(?:all over|edge to edge|from edge to edge|throughout|everywhere)`
	behind  = `(?: ` + wholly + `| as (?:coal|ink|night|soot|pitch)| neg| negative| film| glass| plate| sheet)?\s*(?:$|[,.;:!(])`
	cleared = `(?:blank` + behind + `|clear (?:as |glass|film|` + wholly + `)|(?:completely|totally|entirely) clear` + behind + `)`
)

// sights are the looks with the words for them, the surest first.
var sights = func() []sight {
	both := func(words string) [2]pattern.Lazy {
		return [2]pattern.Lazy{
			pattern.Lazily(`(?:^|[,.;:!?(]\s*|\band |\bbut )` + subject + words),
			pattern.Lazily(`^(?:` + subject + `)?` + words),
		}
	}
	return []sight{
		{Double, [2]pattern.Lazy{
			pattern.Lazily(`\btwo (?:images|pictures|exposures) on (?:it|one|the|this)\b|^(?:` + subject + `)?` + degree + `(?:double|doubly|twice) exposed\b`),
			pattern.Lazily(`\btwo (?:images|pictures|exposures)\b|\b(?:double|doubly|twice) exposed\b|^(?:a )?double exposure\b`)}},
		{Clear, both(degree + cleared)},
		{Clear, [2]pattern.Lazy{
			pattern.Lazily(`\b(?:nothing(?: at all)?|no image) on (?:the|this) (?:film|neg|negative|sheet|plate)\b`),
			pattern.Lazily(`^(?:nothing(?: at all)?|no image)(?: on (?:it|the film|the neg|the negative|the sheet|the plate))?\s*(?:$|[,.;:!(])|^clear\s*$`)}},
		{Clear, [2]pattern.Lazy{
			pattern.Lazily(`\bso (?:it is |it's )?blank\b`),
			pattern.Lazily(`\bso (?:it is |it's )?blank\b`)}},
		{Black, both(degree + `(?:black|dense ` + wholly + `)` + behind)},
		{Fogged, both(degree + `fogged` + behind)},
		{Dense, both(degree + `dense` + behind)},
		{Thin, both(degree + `thin` + behind)},
	}
}()

type sight struct {
	look  Look
	words [2]pattern.Lazy // in a remark, in a result
}

// LookOf reads what a sheet looks like from a remark, or from a line on the
// result, where single words are enough. It finds nothing in most.
func LookOf(words string, result bool) (look Look, found bool) {
	if !telling.In(words) {
		return "", false
	}
	words = strings.ToLower(strings.TrimSpace(words))
	at := 0
	if result {
		at = 1
	}
	left := result && SlideOf(words) == SlideLeft
	for _, s := range sights {
		if s.look == Clear && left || s.words[at]().MatchString(words) {
			return s.look, true
		}
	}
	return "", false
}

// ofSlide is what every remark on the slide holds.
var ofSlide = pattern.AnyOf("slide")

// telling is a part of every word that tells: most remarks hold none of them,
// and are not looked at closer.
var telling = pattern.AnyOf("black fogged dense clear blank nothing image thin expos two slide")
