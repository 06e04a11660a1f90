package compile

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/compile/record"
	"notchbook/compile/slip"
	"notchbook/lang/pattern"
)

// developing assumes that all is checked and every side stands. It leaves the
// page "To develop": the exposed sheets that wait, in batches that may share a
// tray or tank, those that should be looked at before, and what was developed
// otherwise than asked. Its times are declared or lie between two that are; it
// never goes past them, and never takes longer development for a rescue.

// waiting is the sheets that were exposed and, for all the notes say, not
// developed: of several exposures on one sheet of film the last.
func (s *season) waiting() []*sheet {
	under := map[*sheet]bool{}
	for _, sh := range s.sheets {
		if sh.first != nil {
			under[sh.first] = true
		}
	}
	var all []*sheet
	for _, sh := range s.sheets {
		if !under[sh] && sh.sum.state != record.Unexposed && !sh.wasDeveloped() {
			all = append(all, sh)
		}
	}
	return all
}

// recipe is what sheets must share to share a tray.
type recipe struct {
	declared *film // nil where it is not; films of two kits may share a name
	film     string
	wanted   float64
	asked    bool
}

func (g *gatherer) toDevelop() {
	page := &g.out.ToDevelop
	batches := map[recipe]*record.Batch{}
	var held []*sheet
	for _, sh := range g.waiting() {
		key := recipe{declared: g.filmOf(sh), film: strings.ToLower(filmName(sh)), wanted: sh.wanted.v, asked: sh.wanted.known}
		b := batches[key]
		if b == nil {
			b = g.batch(sh)
			batches[key] = b
		}
		if why := g.heldWhy(sh); why != "" {
			page.Held = append(page.Held, record.HeldSheet{Sheet: g.sheet[sh], Why: why, Still: g.still(sh), Batch: b})
			held = append(held, sh)
			continue
		}
		if len(b.Sheets) == 0 {
			page.Batches = append(page.Batches, b)
		}
		b.Sheets = append(b.Sheets, record.BatchSheet{Sheet: g.sheet[sh], Note: tankNote(sh)})
	}
	slices.SortStableFunc(page.Batches, func(a, b *record.Batch) int {
		return cmp.Or(plainly(a.Film, b.Film), cmp.Compare(a.Development, b.Development))
	})
	for _, b := range page.Batches {
		inTank(b)
	}
	page.Helps = g.helps(held)
	g.otherwise()
	if text := g.onlyNumbered(); text != "" {
		page.Cautions = append(page.Cautions, text)
	}
	if len(page.Batches)+len(page.Held) > 0 {
		page.Cautions = append(page.Cautions, darkroomCautions...)
	}
}

// onlyNumbered says which sheets wait for nothing because they have their numbers, which a
// negative is given when it is dry, while nothing else says that they were developed.
func (g *gatherer) onlyNumbered() string {
	var all []string
	for _, rs := range g.out.Sheets {
		if rs.Before == nil && rs.ShownDeveloped == hasNumber {
			all = append(all, rs.ID)
		}
	}
	switch len(all) {
	case 0:
		return ""
	case 1:
		return all[0] + " counts as developed, by its number alone, and is not listed."
	}
	return shorten(all) + " count as developed, by their numbers alone, and are not listed."
}

// darkroomCautions stand on every list that is taken into the darkroom.
var darkroomCautions = []string{
	"Follow the safety data sheet of each chemical: it overrules what is printed here.",
	"Ventilate the room, wear gloves and eye protection, keep chemicals away from food and from children.",
	"Dispose of used solutions and rinse water as local rules say.",
}

// batch is an empty batch for sheets like this one.
func (g *gatherer) batch(sh *sheet) *record.Batch {
	b := &record.Batch{Film: filmName(sh)}
	if sh.wanted.known {
		b.Development = nText(sh.wanted.v)
	}
	f := g.filmOf(sh)
	if f == nil || !strings.EqualFold(f.name, b.Film) {
		f = &film{}
	}
	b.Slug = g.slugs.unique("batch "+cmp.Or(b.Film, "film")+" "+strings.NewReplacer("+", "plus ", "−", "minus ").Replace(b.Development), "batch")
	b.Class, b.Safelight = f.class, safelight(f, b.Film)
	b.Developer, b.Dilution = cutDilution(f.care["developer"])
	b.Agitation, b.Capacity = f.care["agitation"], f.care["capacity"]
	b.Fits = firstNumber(b.Capacity)
	g.timed(b, f, sh)
	return b
}

// safelight is the light that the film may see. Panchromatic film sees all of it.
func safelight(f *film, name string) string {
	said := f.care["safelight"]
	switch {
	case f.class == handbook.Pan:
		return "total darkness: " + name + " sees every colour"
	case said != "":
		return "safelight as declared: " + said
	case f.class == handbook.Ortho || f.class == handbook.Blue:
		return "total darkness, as no safelight is declared for " + name
	}
	return "total darkness: what " + cmp.Or(name, "the film") + " sees is not declared"
}

var dilution = pattern.Lazily(`\b\d+(\s?[+:]\s?\d+)+\b`)

// cutDilution takes the dilution out of a developer as declared.
func cutDilution(text string) (developer, parts string) {
	at := dilution().FindStringIndex(text)
	if at == nil {
		return text, ""
	}
	return strings.Join(strings.Fields(text[:at[0]]+" "+text[at[1]:]), " "), strings.ReplaceAll(text[at[0]:at[1]], ":", "+")
}

var firstFigure = pattern.Lazily(`\d+`)

func firstNumber(text string) int {
	n, _ := strconv.Atoi(firstFigure().FindString(text))
	return n
}

// timed finds the batch's time, and how it was found.
func (g *gatherer) timed(b *record.Batch, f *film, sh *sheet) {
	if !sh.wanted.known {
		b.How = "no development is asked for: write it at the sheets, or develop: N"
		return
	}
	baths := f.baths
	if len(baths) == 0 {
		baths = []string{""}
	}
	var at []developing
	for _, bath := range baths {
		its := slices.DeleteFunc(slices.Clone(f.times), func(d developing) bool { return d.n != sh.wanted.v || d.bath != bath })
		switch {
		case len(its) == 0:
		case len(at) == 0:
			at = its
			b.Developer, b.Dilution = cutDilution(bath)
		default:
			defer func() { b.Others = append(b.Others, inBath(its, bath, b.Celsius)) }()
		}
	}
	if len(at) == 0 {
		b.How = "no time is declared for " + cmp.Or(b.Film, "the film") + " at " + b.Development
		return
	}
	celsius := cmp.Or(g.world.Celsius, firstStated(at))
	slices.SortStableFunc(at, func(x, y developing) int { return cmp.Compare(x.celsius, y.celsius) })
	at = stated(at)
	seconds, how, ok := timeAt(at, celsius)
	b.How = how
	if ok {
		b.Seconds, b.Time = record.Known(seconds), minutesText(seconds)
		if at[0].stated {
			b.Celsius, b.Temperature = record.Known(celsius), degreesText(celsius)
		}
	}
	b.Others = otherTimes(at, b.Celsius)
	if b.Seconds.Known && b.Seconds.Value < 300 {
		b.Cautions = append(b.Cautions, "under five minutes development easily comes out uneven (common practice, no source)")
	}
}

// inBath is the time in another developer, at the batch's temperature or, where
// there is none for it, at the one declared first.
func inBath(its []developing, bath string, celsius record.Figure) string {
	slices.SortStableFunc(its, func(x, y developing) int { return cmp.Compare(x.celsius, y.celsius) })
	its = stated(its)
	at := celsius.Value
	seconds, _, ok := timeAt(its, at)
	if !ok {
		at = its[0].celsius
		seconds, _, _ = timeAt(its, at)
	}
	text := minutesText(seconds)
	if its[0].stated {
		text += " at " + degreesText(at)
	}
	return text + " in " + bath
}

// stated leaves of several times those for a stated temperature, if there are
// any: of a time alone the temperature is not known, and it joins no range.
func stated(all []developing) []developing {
	some := slices.DeleteFunc(slices.Clone(all), func(d developing) bool { return !d.stated })
	if len(some) == 0 {
		return all[len(all)-1:] // the last declared counts
	}
	return some
}

// firstStated is the temperature that is declared first, 0 where none is.
func firstStated(all []developing) float64 {
	for _, d := range all {
		if d.stated {
			return d.celsius
		}
	}
	return 0
}

// timeAt is the time at a temperature, from times in the order of theirs, and how
// it was found. Between two that are declared the logarithm of the time goes
// along a straight line: the rate of a reaction grows by an even factor from
// degree to degree (S. Arrhenius's law over a few degrees), and the charts of
// time against temperature are printed so. Past the declared ones there is none.
func timeAt(all []developing, celsius float64) (seconds float64, how string, ok bool) {
	if !all[0].stated {
		if celsius != 0 {
			return 0, "the time is declared without a temperature (" + place(all[0].at) + "), so there is none for " + degreesText(celsius), false
		}
		return all[0].seconds, "declared, without a temperature (" + place(all[0].at) + ")", true
	}
	for i, d := range all {
		switch {
		case d.celsius == celsius:
			return d.seconds, "declared for " + degreesText(d.celsius) + " (" + place(d.at) + ")", true
		case d.celsius > celsius && i > 0 && all[i-1].celsius < celsius:
			return between(all[i-1], d, celsius), fmt.Sprintf("between the declared %s at %s and %s at %s (%s)", minutesText(all[i-1].seconds), degreesText(all[i-1].celsius),
				minutesText(d.seconds), degreesText(d.celsius), place(d.at)), true
		}
	}
	first, last := all[0], all[len(all)-1]
	if first.celsius == last.celsius {
		return 0, degreesText(celsius) + " is not declared; only " + degreesText(first.celsius) + " is (" + place(first.at) + ")", false
	}
	return 0, degreesText(celsius) + " lies outside the declared " + degreesText(first.celsius) + " to " + degreesText(last.celsius) + " (" + place(first.at) + ")", false
}

// between is the time at a temperature between two, to the nearest five seconds.
func between(a, b developing, celsius float64) float64 {
	share := (celsius - a.celsius) / (b.celsius - a.celsius)
	return math.Round(a.seconds*math.Pow(b.seconds/a.seconds, share)/5) * 5
}

// otherTimes is the times for every whole degree inside the declared range.
func otherTimes(all []developing, but record.Figure) []string {
	if !all[0].stated || len(all) < 2 {
		return nil
	}
	var out []string
	for c := math.Ceil(all[0].celsius); c <= all[len(all)-1].celsius; c++ {
		seconds, _, ok := timeAt(all, c)
		if ok && !(but.Known && but.Value == c) {
			out = append(out, minutesText(seconds)+" at "+degreesText(c))
		}
	}
	return out
}

// minutesText is a developing time as a clock is set.
func minutesText(seconds float64) string {
	s := int(math.Round(seconds))
	if s%60 == 0 {
		return fmt.Sprintf("%d min", s/60)
	}
	return fmt.Sprintf("%d min %d s", s/60, s%60)
}

func degreesText(celsius float64) string { return trim(math.Round(celsius*10)/10) + " °C" }

// inTank numbers the fillings of the tank and the order within.
func inTank(b *record.Batch) {
	for i := range b.Sheets {
		b.Sheets[i].Order = i + 1
		if b.Fits > 0 {
			b.Sheets[i].Run, b.Sheets[i].Order = i/b.Fits+1, i%b.Fits+1
		}
	}
}

// tankNote is what should be known of a sheet before it is wet.
func tankNote(sh *sheet) string {
	var all []string
	switch {
	case sh.sum.state == record.Unchecked:
		all = append(all, "unchecked")
	case sh.sum.known && math.Abs(sh.sum.diff) >= 1./6:
		text := exposure.OverUnder(sh.sum.diff)
		if least, only := sh.asOne(); only {
			text = exposure.Between(least, sh.sum.diff) + ", the exposures counted as one or each by itself"
		}
		all = append(all, text)
	}
	if slip.SlideOf(sh.remarks...) == slip.SlideUnsure {
		all = append(all, "its slide may have been in")
	}
	if sh.first != nil {
		all = append(all, "exposed again")
	}
	if sh.bracket.known {
		all = append(all, "bracket "+exposure.FormatStops(sh.bracket.v))
	}
	if sh.wantedSays != "" {
		all = append(all, "its line says "+quote(sh.wantedSays))
	}
	return strings.Join(all, ", ")
}

// heldWhy is why a sheet should not go into a batch unseen.
func (g *gatherer) heldWhy(sh *sheet) string {
	switch {
	case sh.hold:
		return "written hold"
	case len(sh.developed) > 0:
		return "may be developed already: the line leaves open which sheet it means"
	case sh.first != nil && !sh.onPurpose():
		return "two exposures are on it, one of them by mistake"
	case g.filmDoubt(sh) != "":
		return g.filmDoubt(sh)
	case has(sh.states, "fogged") || has(sh.states, "spoiled"):
		return "stated " + spoiledHow(sh)
	case has(sh.losses, slideLeft):
		return "its slide was left in: nothing is on it"
	case sh.sum.state == record.NoImage:
		return "the film does not see what the filter passes"
	case sh.sum.state == record.Off:
		return exposure.OverUnder(sh.sum.diff)
	case maybeUnused(sh):
		return "whether it was exposed is in doubt"
	}
	return ""
}

// filmDoubt is why it is not certain which film a sheet is: in the wrong batch it
// would spoil. "" where nothing speaks against what is logged.
func (g *gatherer) filmDoubt(sh *sheet) string {
	logged := filmName(sh)
	if logged == "" {
		return "which film it is, no line says"
	}
	if sh.loadedFilm != "" && !strings.EqualFold(sh.loadedFilm, logged) {
		return "logged as " + logged + ", and its holder was loaded with " + sh.loadedFilm
	}
	if sh.mixed != "" {
		return "its holder was loaded twice: it is " + sh.mixed
	}
	return ""
}

// still is what can be decided about a sheet while it is dry.
func (g *gatherer) still(sh *sheet) string {
	var all []string
	if sh.sum.state == record.Off {
		if twins := g.rightTwins(sh); len(twins) > 0 {
			some := shorten(twins)
			if len(twins) > 1 {
				some = "one of " + some
			}
			all = append(all, "develop "+some+" first: the same scene, and right")
		}
		all = append(all, shadowsOf(sh))
	}
	if len(sh.developed) > 0 {
		all = append(all, "look whether the holder is empty")
	}
	if g.filmDoubt(sh) != "" {
		all = append(all, "feel for the notches of the film in the dark, which tell the kinds apart")
	}
	if len(all) == 0 {
		return "whether to develop it, and when"
	}
	return strings.Join(all, "; ")
}

// rightTwins is the ids of right sheets of the same scene and film.
func (g *gatherer) rightTwins(sh *sheet) []string {
	if sh.scene == nil {
		return nil
	}
	var all []string
	for _, other := range sh.scene.sheets {
		if other.first != nil || slices.ContainsFunc(sh.scene.sheets, func(later *sheet) bool { return later.first == other }) {
			continue // two exposures are on its film
		}
		if other != sh && other.sum.state == record.Right && filmName(other) == filmName(sh) && len(other.developed) == 0 && !other.wasDeveloped() && sameFilters(sh, other) {
			all = append(all, other.shown)
		}
	}
	return all
}

// shadowsOf is what a sheet's shadows came to. A zone is a stop; Zone I is the first that film
// shows, near the speed point of ISO 6 (common practice, no source).
func shadowsOf(sh *sheet) string {
	const shadow, first = 3, 1 // zones
	switch lies := shadow + math.Round(2*sh.sum.diff)/2; {
	case sh.sum.diff > 0:
		return "its shadows have more than they ask for"
	case lies >= first:
		return "a shadow placed on Zone " + exposure.Roman(shadow) + " lies on Zone " + exposure.Roman(lies)
	}
	return "a shadow placed on Zone " + exposure.Roman(shadow) + " lies below Zone " + exposure.Roman(first) + ", where film shows next to nothing"
}

// helps is what another development could do for sheets that are off, and which of those their
// films are declared with. Common practice, no source.
func (g *gatherer) helps(held []*sheet) (all []string) {
	for _, way := range []struct {
		sign float64 // of the difference
		says string
	}{
		{-1, "Under: longer development raises the high values and does little for the shadows"},
		{+1, "Over: shorter development lowers the high values and does little to the shadows"},
	} {
		var declared []string
		some := false
		for _, sh := range held {
			f := g.filmOf(sh)
			if f == nil || sh.sum.state != record.Off || sh.sum.diff*way.sign <= 0 {
				continue
			}
			some = true
			for _, d := range f.times {
				if name := f.name + " " + nText(d.n); (d.n-sh.wanted.v)*way.sign < 0 && !slices.Contains(declared, name) {
					declared = append(declared, name)
				}
			}
		}
		switch {
		case some && len(declared) > 0:
			all = append(all, way.says+"; declared: "+strings.Join(declared, ", ")+".")
		case some:
			all = append(all, way.says+"; none is declared.")
		}
	}
	return all
}

// otherwise lists what was developed otherwise than asked.
func (g *gatherer) otherwise() {
	for _, sh := range g.season.sheets {
		for _, d := range sh.developed {
			if sh.wanted.known && d.n.known && d.n.v != sh.wanted.v && !d.maybe {
				g.out.ToDevelop.Otherwise = append(g.out.ToDevelop.Otherwise, record.Otherwise{
					Sheet: g.sheet[sh], Asked: nText(sh.wanted.v), Done: nText(d.n.v), Date: d.day(), Place: placeOf(d.st.Span),
				})
			}
		}
	}
}
