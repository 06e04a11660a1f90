package compile

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang/source"
)

// The part of gather that writes a sheet's entry, and the indexes over them.

func (g *gatherer) sheets() {
	for _, sh := range g.season.sheets {
		rs := &record.Sheet{
			ID: sh.id, Slug: g.slugs.unique(sh.id, "sheet"), Label: sh.shown, Number: sh.number, Title: sh.title, State: sh.sum.state,
			Movements: sh.movements, Hour: sh.clock, Needs: sh.sum.needs, Doubts: texts(sh.doubts), History: sh.history, Remarks: allEvenly(sh.besideTitle()), Steps: sh.sum.steps,
		}
		rs.Sharpness, _, _ = sh.sharpness()
		rs.Flash = sh.flashed()
		if isSide(sh.label) {
			rs.Side = strings.ToUpper(sh.label)
		}
		if sh.sum.state != record.Unchecked {
			rs.Needs = nil
		}
		g.things(sh, rs)
		g.exposureOf(sh, rs)
		g.developmentOf(sh, rs)
		g.filedOf(sh, rs)
		for _, st := range sh.lines {
			rs.Lines = append(rs.Lines, lineOf(st))
		}
		rs.Before, rs.Mistaken = g.sheet[sh.first], sh.mistaken()
		g.sheet[sh] = rs
		g.out.Sheets = append(g.out.Sheets, rs)
	}
}

// besideTitle are the remarks without those that are the title.
func (sh *sheet) besideTitle() []string { return sh.remarks[sh.headed:] }

// things is what was used.
func (g *gatherer) things(sh *sheet, rs *record.Sheet) {
	if sh.film.known {
		rs.Film = sh.film.v.name
	} else {
		rs.Film = sh.loadedFilm
	}
	if sh.lens.known {
		rs.Lens = sh.lens.v.name
	}
	if sh.camera.known {
		rs.Camera, rs.Format = sh.camera.v.name, sh.camera.v.format
	}
	if sh.sum.ei != 0 {
		rs.EI = record.Known(sh.sum.ei)
	}
	for _, u := range sh.filters {
		name := u.name
		if f, _, ok := kitOf(sh).filter(u.name); ok && f != nil {
			name = f.name
		}
		rs.Filters = append(rs.Filters, name)
	}
	if sh.light != "" {
		rs.Light, rs.LightClass = sh.light, lightClass(sh.light)
	}
	switch {
	case sh.extension.known:
		rs.Extension, rs.ExtensionTyped = "ext "+trim(math.Round(sh.extension.v))+" mm", sh.extension.at.Text()
	case sh.scale.known:
		rs.Extension, rs.ExtensionTyped = "mag "+trim(math.Round(sh.scale.v*1000)/1000), sh.scale.at.Text()
	case sh.focus.known:
		rs.Extension, rs.ExtensionTyped = "focus "+trim(math.Round(sh.focus.v/10)/100)+" m", sh.focus.at.Text()
	}
}

// exposureOf is the reading, what was asked, what was given, and the difference.
func (g *gatherer) exposureOf(sh *sheet, rs *record.Sheet) {
	a := &sh.sum
	if rd := sh.reading; rd != nil && rd.at.File != nil {
		rs.Reading = &record.Reading{Text: rd.at.Text(), Kind: rd.kind, How: how(sh), Areas: a.fells}
		for _, read := range rd.areas {
			if read.by != nil {
				rs.Reading.Meter = read.by.name
			}
		}
		for i := range a.fells {
			a.fells[i].Read, a.fells[i].Brought = shownAndBrought(&rd.areas[i], a.fells[i].EV, a.ei)
		}
		if a.hasBase {
			rs.Reading.EV = record.Known(a.base)
		}
	}
	rs.Given = givenOf(sh)
	rs.Tolerance = toleranceText(toleranceOf(sh))
	if a.state == record.NoImage {
		return
	}
	if a.hasAsked {
		rs.Asked = askedOf(sh)
	}
	if rs.Given.OnFilm.Known || rs.Asked.OnFilm.Known {
		rs.Rule = ruleOf(sh)
	}
	if !a.known {
		return
	}
	rs.Difference = record.Known(a.diff)
	if byClock := exposure.Difference(a.asked, a.clock); math.Abs(byClock-a.diff) > 1e-6 {
		rs.ByClock = record.Known(byClock)
	}
	if least, only := sh.asOne(); only {
		rs.AsOne = record.Known(least)
	}
	if a.state == record.Off {
		rs.Choices = g.choices(sh)
	}
}

// shownAndBrought is what the meter showed of an area, and that at the index of the film
// where it is not the same figure.
func shownAndBrought(a *area, ev, ei float64) (shown, brought string) {
	brought = exposure.FormatEV(ev)
	if shown = exposure.FormatEV(a.ev); !a.asEV {
		shown = timeText(a.time) + " " + apertureText(a.aperture)
	}
	switch {
	case shown == brought:
		return shown, ""
	case ei == 0:
		return shown, brought
	}
	return shown, brought + " at EI " + trim(ei)
}

// how says how the reading became the base exposure.
func how(sh *sheet) string {
	var all []string
	for _, part := range []string{sh.sum.howBase, howRead(sh)} {
		if part != "" {
			all = append(all, part)
		}
	}
	return strings.Join(all, "; ")
}

// howRead is what was made of what the meter showed.
func howRead(sh *sheet) string {
	var all []string
	rd := sh.reading
	if rd.ei != 0 && sh.sum.ei != 0 && rd.ei != sh.sum.ei {
		shift, _ := exposure.SpeedShift(sh.sum.ei, rd.ei)
		all = append(all, "the meter at EI "+trim(rd.ei)+" for film at EI "+trim(sh.sum.ei)+", "+exposure.FormatStops(shift))
	}
	if at := sh.shownAt(); at != 0 && rd.ei == 0 && sh.sum.ei != 0 {
		shift, _ := exposure.SpeedShift(sh.sum.ei, at)
		if shift != 0 {
			index := "EI "
			if at == 100 {
				index = "ISO "
			}
			all = append(all, "light values at "+index+trim(at)+" for film at EI "+trim(sh.sum.ei)+", "+exposure.FormatStops(shift))
		}
	}
	if a := &sh.sum; a.leastBase != a.mostBase {
		all = append(all, "the low placements disagree: "+exposure.FormatEV(a.leastBase)+" to "+exposure.FormatEV(a.mostBase))
	}
	if a := &sh.sum; a.asksN != 0 {
		all = append(all, strings.TrimSpace(a.asksFor+" asks for "+nText(a.asksN)))
	}
	return strings.Join(all, "; ")
}

func givenOf(sh *sheet) record.Settings {
	var s record.Settings
	a := &sh.sum
	if sh.aperture.known {
		s.Aperture = apertureText(sh.aperture.v) + sh.doubtMark(sh.aperture.at)
		s.ApertureTyped = asTyped(sh.aperture.at)
		s.Av = record.Figure{Value: a.av, Known: a.av != 0}
	}
	if sh.time.known {
		s.Time = givenTime(sh.time.v) + sh.doubtMark(sh.time.at)
		s.TimeTyped = asTyped(sh.time.at)
		s.Seconds = record.Figure{Value: a.seconds, Known: a.seconds > 0}
	}
	if a.hasGave {
		s.EV = record.Known(a.given)
		if math.Abs(a.onFilm-a.seconds) > 1e-9 {
			s.OnFilm = record.Known(a.onFilm)
		}
	}
	s.Note = givenNote(sh)
	return s
}

// asTyped is the notes' own words at a place, "" where there is none.
func asTyped(at source.Span) string {
	if at.File == nil {
		return ""
	}
	return at.Text()
}

// givenNote says what was read into the settings that is not written there.
func givenNote(sh *sheet) string {
	var notes []string
	if sh.doubtMark(sh.aperture.at)+sh.doubtMark(sh.time.at) != "" {
		notes = append(notes, "marked as doubtful in the notes")
	}
	if v := sh.aperture.v; sh.aperture.known && v.Past == 0 && v.Upper == 0 {
		if read, ok := exposure.ReadAperture(v.Mark); ok && read.How == exposure.PastMark {
			notes = append(notes, "f"+trim(v.Mark)+" read as "+exposure.InStops(read.Past)+" past f/"+trim(read.Mark))
		}
	}
	if sh.aperture.carried != nil {
		notes = append(notes, "aperture carried from "+sh.aperture.carried.label)
	}
	if sh.time.carried != nil {
		notes = append(notes, "time carried from "+sh.time.carried.label)
	}
	if sh.lens.known && sh.time.known {
		if each, ok := exposures(sh.time.v); ok && lensOf(sh).Real(each[0]) != each[0] {
			notes = append(notes, "the shutter's "+givenTime(sh.time.v)+" was tested as "+exposure.FormatTime(lensOf(sh).Real(each[0]))+sh.timedWhere(each[0]))
		}
	}
	return strings.Join(append(notes, otherRules(sh)...), "; ")
}

// otherRules is what a film's other reciprocity rules would have made of a long
// time.
func otherRules(sh *sheet) []string {
	if !sh.film.known || len(sh.film.v.rules) < 2 || sh.sum.seconds <= 0 {
		return nil
	}
	var all []string
	for _, r := range sh.film.v.rules[1:] {
		onFilm, status := r.rule.Effective(sh.sum.seconds)
		if status == exposure.Corrected {
			all = append(all, "by rule "+r.name+" "+exposure.FormatTime(sh.sum.seconds)+" counts as "+exposure.FormatTime(onFilm))
		}
	}
	return all
}

// ruleOf is the rule for long times that holds for a sheet, and where it is
// declared.
func ruleOf(sh *sheet) string {
	if f := sh.film.v; sh.film.known && f.how != "" {
		return f.how + " (" + place(f.at.Span) + ")"
	}
	return "the rule that the notes state for every film"
}

// askedOf is the exposure asked for, met exactly at the aperture given.
func askedOf(sh *sheet) record.Settings {
	a := &sh.sum
	s := record.Settings{EV: record.Known(a.asked)}
	if !sh.aperture.known {
		return s
	}
	s.Aperture, s.Av = apertureText(sh.aperture.v), record.Known(a.av)
	onFilm := exposure.Seconds(a.asked, a.av)
	clock, status := a.rule.Corrected(onFilm)
	if status == exposure.Beyond {
		return s
	}
	s.Time, s.Seconds = exposure.FormatTime(clock), record.Known(clock)
	if math.Abs(clock-onFilm) > 1e-9 {
		s.OnFilm = record.Known(onFilm)
	}
	return s
}

func toleranceText(t tolerance) string {
	if t.over == t.under {
		return "±" + exposure.InStops(t.over)
	}
	return "+" + exposure.FormatAmount(t.over) + " −" + exposure.InStops(t.under)
}

// choices is the right settings for going back. Only what the film's rule
// reaches is offered.
func (s *season) choices(sh *sheet) []record.Choice {
	all := s.choicesAt(sh, exposure.Exposure{Av: sh.sum.av, Seconds: sh.sum.seconds})
	if len(all) > 0 && math.Abs(all[0].Left) > toleranceOf(sh).most() && beyondTable(sh) {
		return nil // the nearest that the table vouches for is no answer
	}
	return all
}

// choicesAt is the right settings that start from an exposure.
func (s *season) choicesAt(sh *sheet, from exposure.Exposure) []record.Choice {
	var all []record.Choice
	for _, c := range exposure.RightSettings(sh.sum.asked, from, lensOf(sh), sh.sum.rule) {
		if c.Status == exposure.Beyond {
			continue
		}
		all = append(all, record.Choice{
			Kind: [...]string{exposure.KeptAperture: keptAperture, exposure.Split: "split", exposure.KeptTime: "time kept"}[c.Kind],
			Time: markedTime(sh, c.Seconds), Aperture: markedAperture(sh, c.Av), Left: c.Left,
		})
	}
	return all
}

// keptAperture is the kind of a choice that changes the time alone.
const keptAperture = "aperture kept"

// markedTime is a time as the lens's own shutter has it engraved.
func markedTime(sh *sheet, seconds float64) string {
	if sh.lens.known {
		for _, s := range sh.lens.v.speeds {
			if exact, ok := exposure.TimeSeconds(s.Num, s.Den); ok && math.Abs(exact-seconds) < 1e-9 {
				return timeText(s)
			}
		}
	}
	return exposure.FormatTime(seconds)
}

// markedAperture is an aperture as the sheet's line has it, or as it stands on the lens: a mark that is
// declared, or in a series of these one and the part past it.
func markedAperture(sh *sheet, av float64) string {
	const slack = 1e-9
	if at := sh.aperture.v; sh.aperture.known && !at.Widest && at.Upper == 0 && math.Abs(markAv(at)-av) < slack {
		return apertureText(at)
	}
	if !sh.lens.known {
		return exposure.FormatAperture(av)
	}
	series := len(sh.lens.v.Marks) > 0
	for _, m := range slices.Backward(sh.lens.v.marks) {
		if past := exposure.Round(av - markAv(m)); math.Abs(past) < slack || series && past > 0 {
			m.Past += past
			return apertureText(m)
		}
	}
	return exposure.FormatAperture(av)
}

func (g *gatherer) developmentOf(sh *sheet, rs *record.Sheet) {
	if sh.wanted.known {
		rs.Development = nText(sh.wanted.v)
	}
	if sh.hold {
		rs.Development = strings.TrimSpace(rs.Development + " hold")
	}
	if !sh.isDeveloped() {
		rs.ShownDeveloped = sh.shownDeveloped()
	}
	for _, d := range sh.developed {
		rs.Developed = append(rs.Developed, record.Development{Text: withoutDate(d), Date: d.typed, ISO: d.iso, Place: placeOf(d.st.Span), Maybe: d.maybe})
	}
}

// withoutDate is what a develop line says, as typed, but for its date.
func withoutDate(d done) string {
	text := strings.Replace(d.st.Body.Text(), d.typed, "", 1)
	return strings.TrimLeft(strings.TrimSpace(text), ", ")
}

// indexes are the ways to look a sheet up.
func (g *gatherer) indexes() {
	g.index("side", "By holder side", naturally, func(s *record.Sheet) []string { return one(s.Side) })
	g.index("film", "By film", naturally, func(s *record.Sheet) []string { return one(s.Film) })
	g.index("filter", "By filter", naturally, func(s *record.Sheet) []string { return s.Filters })
	g.index("lens", "By lens", naturally, func(s *record.Sheet) []string { return one(s.Lens) })
	g.index("subject", "By subject", plainly, subjects(g.out.Sheets))
	g.index("place", "By place", naturally, func(s *record.Sheet) []string { return one(s.Outing.Place) })
	g.index("date", "By date", plainly, func(s *record.Sheet) []string { return one(s.Outing.Day()) })
	g.index("development", "By development asked for", plainly, func(s *record.Sheet) []string { return one(s.Development) })
	g.index("sleeve", "By sleeve", naturally, func(s *record.Sheet) []string { return one(s.Sleeve) })
	g.index("number", "By negative number", byNumber(g.out.Sheets), func(s *record.Sheet) []string { return one(s.Number) })
}

func one(key string) []string {
	if key == "" {
		return nil
	}
	return []string{key}
}

func (g *gatherer) index(kind, title string, order func(a, b string) int, keys func(*record.Sheet) []string) {
	rows := map[string]*record.IndexRow{}
	var names []string
	for _, sh := range g.out.Sheets {
		for _, key := range keys(sh) {
			if rows[key] == nil {
				rows[key] = &record.IndexRow{Key: key}
				names = append(names, key)
			}
			if n := rows[key].Sheets; len(n) == 0 || n[len(n)-1] != sh {
				rows[key].Sheets = append(rows[key].Sheets, sh)
			}
		}
	}
	slices.SortFunc(names, order)
	index := &record.Index{Kind: kind, Title: title}
	for _, name := range names {
		rows[name].Slug = g.slugs.unique(kind+" "+name, kind)
		index.Rows = append(index.Rows, *rows[name])
	}
	if len(index.Rows) > 0 {
		g.out.Indexes = append(g.out.Indexes, index)
	}
}

func plainly(a, b string) int { return strings.Compare(strings.ToLower(a), strings.ToLower(b)) }

// naturally orders 2A before 10A, S2 before S10, and "binder 2, page 9" before "binder 2,
// page 14".
func naturally(a, b string) int {
	for x, y := a, b; ; {
		i, j := figure(x), figure(y)
		if c := plainly(x[:i], y[:j]); c != 0 || i == len(x) || j == len(y) {
			return cmp.Or(c, len(x)-i-(len(y)-j), plainly(a, b), strings.Compare(a, b))
		}
		x, y = x[i:], y[j:]
		if c := leading(x) - leading(y); c != 0 {
			return c
		}
		x, y = strings.TrimLeft(x, "0123456789"), strings.TrimLeft(y, "0123456789")
	}
}

// figure is where the first figure of a text stands, or its end.
func figure(s string) int {
	if i := strings.IndexAny(s, "0123456789"); i >= 0 {
		return i
	}
	return len(s)
}

func leading(s string) int {
	n := 0
	for i := 0; i < len(s) && s[i] >= '0' && s[i] <= '9' && i < 7; i++ {
		n = 10*n + int(s[i]-'0')
	}
	return n
}

// extent is the stretch of the source that a block of prose covers, to the end
// of its last line.
func extent(n ast.Node) (first, last int, ok bool) {
	first = math.MaxInt
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering || n.Type() != ast.TypeBlock || n.Lines() == nil {
			return ast.WalkContinue, nil
		}
		for i := range n.Lines().Len() {
			segment := n.Lines().At(i)
			first, last, ok = min(first, segment.Start), max(last, segment.Stop), true
		}
		return ast.WalkContinue, nil
	})
	return first, last, ok
}
