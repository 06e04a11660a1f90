package compile

import (
	"cmp"
	"fmt"
	"math"
	"path"
	"slices"
	"strings"
	"sync"

	"github.com/yuin/goldmark/ast"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// check assumes that every sheet is assessed and diagnosed. It says what there
// is to say: one finding for one slip. What is right is not mentioned.

func (s *season) check() {
	s.exposures()
	say(s, s.sheets, (*season).settings)
	s.unchecked()
	s.undeclaredValues()
	s.sensesTaken()
	s.testsUntold()
	s.forecasts()
	s.lightPlausible()
	s.fallsElsewhere()
	say(s, s.sheets, (*season).surroundings)
	s.longDevelopment()
	s.lookAtScans()
	s.datesInOrder()
	s.loadedAfresh()
}

// settings is what there is to say of what was given, besides whether it is right.
func (s *season) settings(sh *sheet) {
	s.aLittleMore(sh)
	s.filmBlind(sh)
	s.settingsPossible(sh)
	s.reachable(sh)
	s.filtersNamed(sh)
	s.unchanged(sh)
	s.developedOtherwise(sh)
}

// surroundings is what there is to say of the sun, the lens's circle and its depth.
func (s *season) surroundings(sh *sheet) {
	s.sunUp(sh)
	s.covered(sh)
	s.sharp(sh)
}

// aLittleMore says that a sheet got a little more than it needed, and no more.
func (s *season) aLittleMore(sh *sheet) {
	if a := &sh.sum; a.habit && a.state == record.Right {
		s.report("a-little-more", sh.settingsSpan(), fmt.Sprintf("%s got %s", sh.label, exposure.OverUnder(a.diff)), sh).
			note(sh.sumText()).note("no slip explains it; many give negative film so much on purpose")
	}
}

// filmBlind is film that cannot see what the filter passes.
func (s *season) filmBlind(sh *sheet) {
	f := s.filmOf(sh)
	if u := sh.sum.blind; u != nil {
		finding := s.report("film-blind", u.at, fmt.Sprintf("%s film does not see the light that %s passes", f.class, u.name), sh)
		finding.note("no factor is right: there is next to nothing on this sheet")
		if f.at != nil {
			finding.note(f.name+" is declared as "+f.class, f.at.Labels[0].Span)
		}
	} else if u := sh.sum.long; u != nil && (u.cost == nil || !u.cost.own) {
		s.report("film-nearly-blind", u.at, fmt.Sprintf("%s film sees very little of the light that %s passes", f.class, u.name), sh).
			note("only a factor of your own for this film can be trusted: filter " + u.name + ": " + f.class + " x…")
	}
}

// settingsPossible is speeds the shutter lacks and apertures the lens has not.
func (s *season) settingsPossible(sh *sheet) {
	if !sh.lens.known {
		return
	}
	l := sh.lens.v
	if sh.aperture.known && sh.aperture.carried == nil && !sh.aperture.copied {
		if av, ok := apertureAv(sh.aperture.v); ok && !sh.aperture.v.Widest && !l.HasAperture(av) {
			s.report("aperture-out-of-range", sh.aperture.at, fmt.Sprintf("the %s has no %s", l.name, apertureText(sh.aperture.v)), sh).
				note("its apertures are declared: "+apertures(l), l.at.Labels[0].Span)
		}
	}
	if sh.time.known && len(l.Speeds) > 0 && sh.time.carried == nil && !sh.time.copied {
		each, ok := exposures(sh.time.v)
		if ok && slices.ContainsFunc(each, func(s float64) bool { return !l.canHave(s) }) {
			s.report("speed-lacking", sh.time.at, fmt.Sprintf("the shutter of the %s has no %s", l.name, givenTime(sh.time.v)), sh).
				note("it has "+speedsText(l.speeds), l.at.Labels[0].Span)
		}
	}
}

// canHave reports whether a shutter may have a speed in seconds: a marked one, one
// of either series where only the ends are declared, and any that is longer than
// the slowest, by B, T or the cap.
func (l *lens) canHave(seconds float64) bool {
	switch {
	case l.HasSpeed(seconds), seconds > slices.Max(l.Speeds):
		return true
	case !l.ranged, seconds < slices.Min(l.Speeds):
		return false
	}
	either := exposure.Lens{Speeds: make([]float64, 0, len(newSpeeds)+len(oldSpeeds))}
	for _, den := range slices.Concat(newSpeeds, oldSpeeds) {
		if exact, ok := exposure.TimeSeconds(1, den); ok {
			either.Speeds = append(either.Speeds, exact)
		}
	}
	return either.HasSpeed(seconds)
}

// reachable is an extension that the camera has not.
func (s *season) reachable(sh *sheet) {
	if beyondBellows(sh) {
		c := sh.camera.v
		s.report("extension-out-of-range", sh.extension.at, fmt.Sprintf("the camera %s has no extension of %s mm", c.name, trim(math.Round(sh.extension.v))), sh).
			note(fmt.Sprintf("it is declared from %s to %s mm", trim(c.from), trim(c.to)), c.at.Labels[0].Span)
	}
}

// beyondBellows reports whether a sheet's own line names an extension that its
// camera cannot have.
func beyondBellows(sh *sheet) bool {
	if !sh.extension.known || !sh.camera.known || sh.camera.v.to == 0 || sh.extension.copied {
		return false
	}
	return sh.extension.v > sh.camera.v.to+1 || sh.extension.v < sh.camera.v.from-1
}

// filtersNamed is filters that nobody knows, and colours against numbers.
func (s *season) filtersNamed(sh *sheet) {
	for _, u := range sh.sum.owes {
		if u.found == nil && u.number == "" && u.cost == nil && !u.always {
			if n, told := s.undeclared[u.at]; told { // as on the sheet above
				s.found[n].sheets = append(s.found[n].sheets, sh)
				continue
			}
			if s.undeclared == nil {
				s.undeclared = map[source.Span]int{}
			}
			s.undeclared[u.at] = len(s.found)
			f := s.report("not-declared", u.at, quote(u.name)+" is not declared as a filter", sh)
			if sh.mayOwn(u) {
				f.Severity = diag.Note
				f.note("where it is the colour of what is seen, it stands behind a dash: -- " + u.name)
			}
			if near := kitOf(sh).nearest("filter", u.name); near != "" {
				f.note(quote(near) + " is declared")
			} else {
				f.note("declare it: filter " + u.name + ": … stops")
			}
		}
		if e, ok := handbook.Filter(u.number); ok && (u.found == nil || !u.found.called(u.name)) && !colourFits(e, u.name) {
			s.report("colour-against-number", u.at, fmt.Sprintf("%s: a Wratten %s is %s", u.name, e.Number, e.Colour), sh)
		}
	}
}

// colourFits reports whether the word before a Wratten number can be the
// filter's colour.
func colourFits(e handbook.FilterEntry, name string) bool {
	word := strings.ToLower(strings.TrimRight(name, "0123456789ab "))
	word = cmp.Or(colourElsewhere(strings.Fields(word)), word)
	switch word {
	case "", "#", "w", "wr", "wratten", "no", "no.", "k", "x", "c", strings.ToLower(e.Number): // pol, uv
		return true
	}
	fields := strings.Fields(word)
	return len(fields) == 0 || handbook.NumberOf(word) == "pol" || e.Called(fields[len(fields)-1])
}

// nearest is a declared name that differs by little from one that is not.
func (k *kit) nearest(what, name string) string {
	var names []string
	switch what {
	case "camera":
		names = namesOf(k.cameras)
	case "lens":
		names = namesOf(k.lenses)
	case "film":
		names = namesOf(k.films)
	case "filter":
		names = namesOf(k.filters)
	}
	low := strings.ToLower(name)
	for _, n := range names {
		if lang.Slips(low, strings.ToLower(n)) <= 1+len(low)/4 && len(low) > 1 {
			return n
		}
	}
	return ""
}

func namesOf[T interface{ statement() *lang.Statement }](all []T) []string {
	var names []string
	for _, t := range all {
		names = append(names, t.statement().Labels[0].Text)
	}
	return names
}

// unchanged is settings that stayed though the filter or the extension changed,
// where no reading can tell whether they should have.
func (s *season) unchanged(sh *sheet) {
	if sh.sum.known || sh.index == 0 || sh.sum.state == record.NoImage || sh.unclear != "" {
		return
	}
	p := s.sheets[sh.index-1]
	if p.unclear != "" || p.open() != "" || sh.open() != "" || len(sh.stopsBeside)+len(p.stopsBeside) > 0 || uncosted(sh) || uncosted(p) {
		return // what was before the film is not known, or what it cost
	}
	if sh.isUnused() || p.isUnused() || p.outing != sh.outing || p.scene != sh.scene || !sameSettings(sh, p) || sh.bracket.known || p.bracket.known {
		return
	}
	if costOf(sh) == costOf(p) || sh.reading != p.reading {
		return
	}
	s.report("settings-unchanged", sh.settingsSpan(), fmt.Sprintf("%s has the settings of %s, though what is before the film changed", sh.label, p.label), sh).
		note(fmt.Sprintf("filters and bellows ask for %s there and %s here", exposure.InStops(costOf(p)), exposure.InStops(costOf(sh))))
}

// uncosted reports whether it is not known what a filter of a sheet costs, or its bellows.
func uncosted(sh *sheet) bool {
	drawn := (sh.extension.known || sh.focus.known) && sh.sum.bellows == 0
	return drawn && sh.lens.v.focalOr0() == 0 || slices.ContainsFunc(sh.sum.owes, func(u *use) bool { return u.cost == nil })
}

func costOf(sh *sheet) float64 {
	sum := sh.sum.bellows
	for _, u := range sh.sum.owes {
		if u.cost != nil {
			sum += u.cost.stops
		}
	}
	return exposure.Round(sum)
}

// developedOtherwise is a development that was not the one asked for.
func (s *season) developedOtherwise(sh *sheet) {
	want, asked := sh.wanted.v, sh.wanted.known
	for _, d := range sh.developed {
		if asked && d.n.known && d.n.v != want && !d.maybe {
			s.report("developed-otherwise", d.n.at, fmt.Sprintf("%s was developed %s; %s was asked for", sh.label, nText(d.n.v), nText(want)), sh).
				note("asked for here", sh.wanted.at)
		}
	}
	if f := s.filmOf(sh); asked && want != 0 && len(sh.developed) == 0 && f != nil && len(f.times) > 0 && !f.knows(want) {
		s.report("no-time-for", sh.wanted.at, fmt.Sprintf("no developing time is declared for %s at %s", f.name, nText(want)), sh)
	}
}

func (f *film) knows(n float64) bool {
	return slices.ContainsFunc(f.times, func(d developing) bool { return d.n == n })
}

// nText is a development as it is written.
func nText(n float64) string {
	switch {
	case n == 0:
		return "N"
	case n > 0:
		return "N+" + exposure.FormatAmount(n)
	}
	return "N−" + exposure.FormatAmount(-n)
}

// unchecked says of each sheet that could not be checked what would settle it;
// sheets of one scene that lack the same are one note.
func (s *season) unchecked() {
	said := map[string]*finding{}
	var order []string
	told := sync.OnceValue(s.told) // few notes have a sheet to ask of
	for _, sh := range s.sheets {
		if sh.sum.state != record.Unchecked || sh.unclear != "" && told()(sh) {
			continue // what is unclear was reported where it stands
		}
		key := fmt.Sprintf("%p %s", sh.scene, strings.Join(sh.sum.needs, "; "))
		if sh.scene == nil {
			key = fmt.Sprintf("%p", sh) // by itself
		}
		if f := said[key]; f != nil {
			f.sheets = append(f.sheets, sh)
			continue
		}
		order = append(order, key)
		said[key] = &finding{sheets: []*sheet{sh}}
	}
	asked := map[string]*finding{}
	var rest []*finding
	count := map[*outing]int{}
	for _, key := range order {
		f := said[key]
		o := f.sheets[0].outing
		alike := fmt.Sprintf("%p %s", o, strings.Join(f.sheets[0].sum.needs, "; "))
		if count[o]++; count[o] < mostAsked || len(order) == 1 {
			s.reportUnchecked(f.sheets)
		} else if asked[alike] == nil {
			asked[alike] = f
			rest = append(rest, f)
		} else {
			asked[alike].sheets = append(asked[alike].sheets, f.sheets...)
		}
	}
	for _, f := range rest {
		s.reportUnchecked(f.sheets)
	}
}

// told knows whether something was said already of a sheet, of a line of its, or of what
// leaves it unclear on another's: that is then the one finding for the one slip.
func (s *season) told() func(*sheet) bool {
	lines, about := map[source.Span]bool{}, map[*sheet]bool{}
	for i := range s.found {
		if at := s.found[i].Span; at.File != nil {
			lines[at.File.Line(at.Start)] = true
		}
		for _, sh := range s.found[i].sheets {
			about[sh] = true
		}
	}
	own := func(sh *sheet) bool {
		return about[sh] || slices.ContainsFunc(sh.lines, func(st *lang.Statement) bool { return lines[st.Span.File.Line(st.Span.Start)] })
	}
	unclear := map[string]bool{}
	for _, sh := range s.sheets {
		if sh.unclear != "" && own(sh) {
			unclear[sh.unclear] = true
		}
	}
	return func(sh *sheet) bool {
		return own(sh) || unclear[sh.unclear] || strings.HasSuffix(sh.unclear, notRead)
	}
}

// mostAsked is how many facts of one outing are asked for scene by scene: what is left over is
// asked once of all its sheets that lack the very same.
const mostAsked = 3

// reportUnchecked says of sheets that lack the same what it is.
func (s *season) reportUnchecked(sheets []*sheet) {
	f := s.report("unchecked", sheets[0].at, these(sheets)+" could not be checked", sheets...)
	f.others(sheets)
	f.note("it would take " + few(sheets[0].sum.needs))
	if onlyReading(sheets[0].sum.needs[:1]) {
		if m := oddlyPlaced().FindStringSubmatch(sheets[0].lines[0].Span.Text()); m != nil {
			f.note("a reading that is placed is written: EV " + m[1] + m[4] + " on " + m[2] + m[3])
			return
		}
		if value := s.readingTold(sheets[0]); value.File != nil {
			f.note("the words with "+value.Text()+" are not read: a reading begins with its word and a colon, meter: "+value.Text(), value)
		}
	}
}

// oddlyPlaced is a light value and its zone on a sheet's line in a form that is not read: (EV 10) on
// III, Zone III = EV 10.
var oddlyPlaced = pattern.Lazily(`\(EV ?(\d+(?:[.,]\d)?)\) on (?:[Zz]one )?([IVX]+)\b|[Zz]one ([IVX]+) ?= ?EV ?(\d+(?:[.,]\d)?)\b`)

// readingTold is the first light value of the nearest line of prose that tells of one, above a
// sheet and in its scene: EV 12 in the foam, EV 8 in the roots.
func (s *season) readingTold(sh *sheet) source.Span {
	b := sh.outing.book
	for i := lineIndex(b, sh.at.Start) - 1; i >= 0 && b.Lines[i].Start >= sh.begins(); i-- {
		line := &b.Lines[i]
		said := string(b.File.Text[line.Body:line.BodyEnd])
		if line.Kind == lang.Log || !maySet(said) {
			continue
		}
		for _, t := range lang.Within(said, s.names) {
			if k, ok := t.Kind.(*lang.Exposure); ok && k.EV != nil {
				return source.Span{File: b.File, Start: line.Body + t.Span.Start, End: line.Body + t.Span.End}
			}
		}
	}
	return source.Span{}
}

// few lists the first facts; the rest of a long list stands at its sheets.
func few(needs []string) string {
	const most = 3
	if len(needs) <= most {
		return strings.Join(needs, "; and ")
	}
	return strings.Join(needs[:most], "; and ") + "; and " + counted(len(needs)-most, "fact", "facts") + " more"
}

// undeclaredValues says once of each filter that only the handbook knows what
// it costs.
func (s *season) undeclaredValues() {
	type use2 struct {
		sheets []*sheet
		first  *use
	}
	used := map[string]*use2{}
	var order []string
	for _, sh := range s.sheets {
		u := sh.sum.undecl
		if u == nil || sh.sum.blind != nil {
			continue
		}
		key := u.number
		if used[key] == nil {
			used[key] = &use2{first: u}
			order = append(order, key)
		}
		used[key].sheets = append(used[key].sheets, sh)
	}
	for _, key := range order {
		u := used[key].first
		s.report("filter-not-declared", u.at, fmt.Sprintf("published values for %s lie between %s and %s", u.name, exposure.InStops(u.cost.low), exposure.InStops(u.cost.high)), used[key].sheets...).
			note(fmt.Sprintf("%s is used (%s); a value of your own would settle it: filter %s: … stops", exposure.FormatAmount(u.cost.stops), u.cost.from, u.name))
	}
}

// datesInOrder is days that go back within a notebook.
func (s *season) datesInOrder() {
	var last *outing
	for _, o := range s.outings {
		if o.iso == "" || o.doubted {
			continue
		}
		if last != nil && last.book == o.book && o.iso < last.iso {
			s.report("dates-out-of-order", o.at, fmt.Sprintf("%s comes after %s in this notebook", o.iso, last.iso)).
				note("the day before", last.at)
		}
		last = o
	}
}

// loadedAfresh is sides that were loaded and exposed on an earlier day, and exposed again on one that
// has no load line. They are taken for loaded between, as most are whose loading nobody wrote down.
func (s *season) loadedAfresh() {
	for _, o := range s.outings {
		if len(o.afresh) == 0 {
			continue
		}
		var sides []string
		for _, sh := range o.afresh {
			sides = append(sides, sh.label)
		}
		were := " was"
		if len(sides) > 1 {
			were = " were"
		}
		first := o.afresh[0]
		f := s.report("loaded-afresh", o.at, "no line says that "+shorten(sides)+were+" loaded again").
			note("exposed before on "+first.outing.day(), first.at)
		f.note("each is taken for a fresh sheet; where it was not, both exposures are on one: write again behind the second")
	}
}

// lookAtScans asks the world about every scan that is named, and says what is
// missing, unreadable, claimed twice or named by nobody.
func (s *season) lookAtScans() {
	named := map[string]bool{}
	for _, ref := range s.scans {
		named[ref.path] = true
		switch {
		case ref.bad != "":
			ref.look.State = record.Outside
			s.report("scan-outside", ref.at, ref.path+" "+ref.bad, ref.sheets...)
			continue
		case s.world.Look != nil:
			ref.look = s.world.Look(ref.path)
		}
		if ref.look.State == record.Outside { // by a link
			s.report("scan-outside", ref.at, ref.path+" "+leadsOut, ref.sheets...)
		}
	}
	s.unreadableScans()
	if s.world.Look == nil {
		return
	}
	s.scans = slices.DeleteFunc(s.scans, (*scanRef).unmissed)
	s.missingScans()
	s.orphans(named)
}

// unmissed reports a name that only a pattern gives, of sheets of which the notes say that there
// is nothing to scan, where no file has it.
func (ref *scanRef) unmissed() bool {
	return ref.pattern && ref.look.State == record.Missing && !slices.ContainsFunc(ref.sheets, func(sh *sheet) bool { return !sh.pictureless() })
}

// scanGroup is files of one line of which one thing is to be said.
type scanGroup struct {
	first  *scanRef
	sheets []*sheet
	paths  []string
}

// scansWith groups the files of which something is to be said by their lines and by what that is; "" is
// nothing.
func (s *season) scansWith(said func(*scanRef) string) (order []*scanGroup) {
	type key struct {
		at  source.Span
		why string
	}
	groups := map[key]*scanGroup{}
	for _, ref := range s.scans {
		why := said(ref)
		if ref.bad != "" || why == "" {
			continue
		}
		g := groups[key{ref.at, why}]
		if g == nil {
			g = &scanGroup{first: ref}
			groups[key{ref.at, why}] = g
			order = append(order, g)
		}
		g.sheets = append(g.sheets, ref.sheets...)
		g.paths = append(g.paths, ref.path)
	}
	return order
}

// unreadableScans is one finding for all files of a line that cannot be read for one reason.
func (s *season) unreadableScans() {
	for _, g := range s.scansWith(func(ref *scanRef) string {
		if ref.look.State != record.Unreadable {
			return ""
		}
		return ref.look.Why + " " // also where no reason is known
	}) {
		why := strings.TrimSpace(g.first.look.Why)
		if len(g.paths) == 1 {
			s.report("scan-unreadable", g.first.at, g.paths[0]+" "+why, g.sheets...)
			continue
		}
		s.report("scan-unreadable", g.first.at, fmt.Sprintf("%d scans cannot be read: %s", len(g.paths), shorten(g.paths)), g.sheets...).note("each " + why)
	}
}

// missingScans is one finding for each line that names files that are not
// there. Of a pattern that nothing follows yet it is only noted.
func (s *season) missingScans() {
	present := map[source.Span]bool{}
	for _, ref := range s.scans {
		present[ref.at] = present[ref.at] || ref.bad == "" && ref.look.State != record.Missing
	}
	for _, g := range s.scansWith(func(ref *scanRef) string {
		if ref.look.State != record.Missing {
			return ""
		}
		return string(record.Missing)
	}) {
		message := "there is no scan " + g.paths[0]
		if len(g.paths) > 1 {
			message = fmt.Sprintf("%s are missing: %s", counted(len(g.paths), "scan", "scans"), shorten(g.paths))
		}
		f := s.report("scan-missing", g.first.at, message, g.sheets...)
		if g.first.pattern && !present[g.first.at] {
			f.Severity, f.sheets = diag.Note, nil
			f.note("none of the files that this pattern names is there yet")
		}
	}
}

// shorten lists the first few of many names.
func shorten(names []string) string {
	const most = 5
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return strings.Join(names[:most], ", ") + fmt.Sprintf(" and %d more", len(names)-most)
}

// shown is the files that the prose of the notebooks shows or links to.
func (s *season) shown() map[string]bool {
	all := map[string]bool{}
	for _, b := range s.books {
		p := prose{book: b.name}
		_ = ast.Walk(b.Prose, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			var to []byte
			switch n := n.(type) {
			case *ast.Image:
				to = n.Destination
			case *ast.Link:
				to = n.Destination
			}
			if entering && len(to) > 0 {
				all[path.Clean(p.target(destination(to)).Path)] = true
			}
			return ast.WalkContinue, nil
		})
	}
	return all
}

// orphans are scan files that no line names. Those that the prose shows are there
// for it; of the others none is handed on: nobody has said that they may be.
func (s *season) orphans(named map[string]bool) {
	var lost []string
	var shown map[string]bool // by the prose; nil before it is asked for
	for _, path := range s.world.Scans {
		if named[path] {
			continue
		}
		if shown == nil {
			shown = s.shown()
		}
		if s.world.Public && (!shown[path] || s.withheld[path]) {
			continue
		}
		ref := &scanRef{path: path, look: s.world.Look(path)}
		s.scans = append(s.scans, ref)
		if !shown[path] {
			ref.look.State = record.Orphan
			lost = append(lost, path)
		}
	}
	if len(lost) == 0 {
		return
	}
	f := s.report("scan-orphan", source.Span{}, fmt.Sprintf("no sheet names %s", shorten(lost)))
	days := map[*lang.Statement][]string{} // that a pattern does not hold for
	var patterns []*lang.Statement
	for _, path := range lost {
		if u, ok := s.ofUnserved[path]; ok {
			if days[u.pattern] == nil {
				patterns = append(patterns, u.pattern)
			}
			days[u.pattern] = append(days[u.pattern], u.day.day())
		}
	}
	for _, st := range patterns {
		slices.Sort(days[st])
		f.note("there are sheets of "+shorten(slices.Compact(days[st]))+" without a scan that would have such names by this pattern, which holds from its own day on: write it under the days that it is for as well", st.TextSpan())
	}
}
