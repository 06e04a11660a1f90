package query

import (
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/compile/slip"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/pattern"
)

// sheet gives a sheet everything that is said of it.
func (x *indexer) sheet(sh *record.Sheet) {
	x.identity(sh)
	x.when(sh)
	x.equipment(sh)
	x.metered(sh)
	x.exposed(sh)
	x.development(sh)
	x.states(sh)
	x.findings(sh)
	x.fate(sh)
	x.folders(sh)
	for _, text := range append([]string{sh.Title, sh.Sleeve}, sh.Remarks...) {
		x.said(text)
	}
	for _, line := range slices.Concat(sh.Prints, sh.Results) {
		x.said(line.Text)
	}
}

// always are the terms that mean something though no sheet is so, the kit's names among
// them: a filter that was never used is no word of a remark.
func (x *indexer) always() {
	for _, it := range x.season.Kit {
		switch it.Kind {
		case "film", "lens", "camera", "filter":
			x.thing(it.Kind, it.Name)
		}
	}
	for _, word := range []string{
		"right", "off", "underexposed", "overexposed", "unchecked", "unexposed", "exposed", "developed", "undeveloped", "scanned", "unscanned",
		"lost", "duplicate", "other development", "developed otherwise than asked", "reciprocity corrected", "bracketed", "held back", "amended",
		"exposed more than once", "struck", "doubtful", "no image", "no filter", "extension written", "rise", "fall", "shift", "tilt", "swing",
	} {
		x.know(word, as(spelledOf[word]...))
	}
	for _, c := range cuts {
		for _, side := range sides {
			x.know(c.name(side), as(c.spelled(side)...))
		}
	}
	for n := -2.; n <= 2; n++ {
		word := nText(n)
		x.know(word+" asked", func() []string { return nSpelled("", word) })
		x.know("developed "+word, func() []string { return nSpelled("developed ", word) })
	}
	for m := time.January; m <= time.December; m++ {
		x.know("in "+m.String(), as(m.String(), m.String()[:3]))
	}
}

// spelledOf is how the trade's words for a sheet's state are written.
var spelledOf = map[string][]string{
	"right": {"right"}, "off": {"off", "wrong"}, "underexposed": {"underexposed", "under exposed", "under"}, "overexposed": {"overexposed", "over exposed", "over"},
	"unchecked": {"unchecked"}, "unexposed": {"unexposed", "unused"}, "exposed": {"exposed"}, "developed": {"developed"},
	"undeveloped": {"undeveloped", "to develop"}, "scanned": {"scanned"}, "unscanned": {"unscanned", "not scanned", "no scan", "no scans", "without scan", "without scans", "without a scan"}, "lost": {"lost"},
	"duplicate": {"duplicate", "duplicates", "twin", "twins"}, "other development": {"other development"},
	"developed otherwise than asked": {"otherwise", "developed otherwise"},
	"reciprocity corrected":          {"reciprocity", "reciprocity corrected", "corrected"},
	"bracketed":                      {"bracket", "bracketed"}, "held back": {"hold", "held", "held back"}, "amended": {"amended"}, "struck": {"struck"},
	"exposed more than once": {"double", "double exposure", "double exposures", "double exposed", "doubly exposed", "exposed twice", "twice exposed", "twice",
		"multiple exposure", "multiple exposures", "multiply exposed", "exposed more than once", "exposed again", "several exposures"},
	"doubtful": {"doubtful", "in doubt", "question mark"},
	"no image": {"no image", "off", "blank"}, "no filter": {"no filter", "no filters", "unfiltered", "bare"},
	"extension written": {"ext", "extension", "bellows", "close-up", "close up"},
	"rise":              {"rise"}, "fall": {"fall"}, "shift": {"shift"}, "tilt": {"tilt"}, "swing": {"swing"},
}

// state gives the sheet one of the words that always mean something.
func (x *indexer) state(word string) { x.mark(x.terms[word]) }

// fate is what became of the sheet after it was dry, and its duplicates.
func (x *indexer) fate(sh *record.Sheet) {
	if sh.Sleeve != "" {
		close := strings.ReplaceAll(sh.Sleeve, " ", "")
		x.is("sleeve "+sh.Sleeve, as("sleeve "+sh.Sleeve, sh.Sleeve, "sleeve "+close, close, parted(sh.Sleeve), "sleeve "+parted(sh.Sleeve)))
		for _, part := range placed().FindAllString(sh.Sleeve, -1) {
			x.is("in "+part, func() []string { return leafSpelled(part) })
		}
	}
	if sh.Lost != "" {
		x.state("lost")
		x.is("lost to "+sh.Lost, as("lost to "+sh.Lost, "lost "+sh.Lost, sh.Lost))
	}
	if x.several[sh.First()] || slices.ContainsFunc(sh.Lines, func(l record.Line) bool { return saysSeveral(l.Text) }) {
		x.state("exposed more than once")
	}
	if len(sh.Twins) > 0 {
		x.state("duplicate")
	}
	if slices.ContainsFunc(sh.Twins, func(o *record.Sheet) bool { return treatment(o) != treatment(sh) }) {
		x.state("other development")
	}
}

// saysSeveral reports whether a line calls its sheet exposed more than once.
func saysSeveral(line string) bool {
	folded := " " + strings.Join(parts(Fold(line)), " ") + " "
	for _, said := range spelledOf["exposed more than once"] {
		if strings.Contains(said, " ") && !strings.HasPrefix(said, "exposed again") {
			before, _, is := strings.Cut(folded, " "+said+" ")
			if is && !strings.HasSuffix(before, " no") && !strings.HasSuffix(before, " not") && !strings.HasSuffix(before, " not a") {
				return true
			}
		}
	}
	return false
}

// folders are the folders on the way to the sheet's notebook, each by its name.
func (x *indexer) folders(sh *record.Sheet) {
	if sh.Outing == nil {
		return
	}
	names := strings.Split(sh.Outing.Path, "/")
	for _, name := range names[:len(names)-1] {
		if name == "" || name == "." || name == ".." {
			continue
		}
		x.is("in folder "+name, as("in "+name, "folder "+name, "in folder "+name))
		x.said(name)
	}
}

// parted is a sleeve's name with a blank between letters and figures: A 1.
func parted(name string) string {
	var all []rune
	for _, c := range name {
		if n := len(all); n > 0 && (unicode.IsLetter(all[n-1]) && unicode.IsDigit(c) || unicode.IsDigit(all[n-1]) && unicode.IsLetter(c)) {
			all = append(all, ' ')
		}
		all = append(all, c)
	}
	return string(all)
}

// placed is a part of where negatives are filed: binder 2, page 14, box 9a.
var placed = pattern.Lazily(`\p{L}+\.? \d+\p{L}?\b`)

// leafSpelled is a part of where negatives are filed, with its word whole or cut short.
func leafSpelled(part string) (all []string) {
	word, which, _ := strings.Cut(part, " ")
	words := []string{word}
	for _, leaf := range leaves {
		if slices.Contains(leaf, strings.ToLower(word)) {
			words = append(words, leaf...)
		}
	}
	for _, w := range words {
		all = append(all, "sleeve "+w+" "+which, w+" "+which)
	}
	return all
}

// leaves are words for a leaf of an album or a binder, as they are cut short (common practice, no source).
var leaves = [][]string{{"page", "p.", "p", "pg."}, {"folio", "fol.", "fol", "fo.", "f."}}

// treatment is the development that a sheet got, else the one asked for.
func treatment(sh *record.Sheet) string {
	if n := len(sh.Developed); n > 0 {
		return sh.Developed[n-1].Text
	}
	return sh.Development
}

// identity is the label, the holder side and the number.
func (x *indexer) identity(sh *record.Sheet) {
	x.is("sheet "+sh.Label, as(sh.Label, "sheet "+sh.Label))
	if side := sh.Side; side != "" {
		holder := side[:len(side)-1]
		x.is("holder side "+side, as(side, "side "+side, "holder "+side))
		x.is("holder "+holder, as("holder "+holder))
	}
	if sh.Number != "" {
		x.is("negative "+sh.Number, as(sh.Number, "neg "+sh.Number, "negative "+sh.Number))
	}
	if o := sh.Outing; o != nil && strings.HasSuffix(sh.ID, " ("+o.Path+")") { // another notebook has the label on that day too
		x.is("in "+o.Path, as("("+o.Path+")", "in "+o.Path))
	}
}

// when is the day and its month, and the words of the outing and the scene.
func (x *indexer) when(sh *record.Sheet) {
	if sh.Scene != nil {
		x.said(sh.Scene.Title)
		x.said(sh.Scene.Light)
	}
	x.said(sh.Light)
	if sh.Flash {
		x.is("lit by flash", as("lit by flash", "flash", "flashed", "with flash", "strobe"))
	}
	if sh.LightClass != "" {
		x.is("light "+sh.LightClass, as("light "+sh.LightClass, sh.LightClass))
	}
	o := sh.Outing
	if o == nil {
		return
	}
	x.said(o.Title)
	x.said(o.Place)
	day, err := time.Parse(time.DateOnly, o.ISO)
	if err != nil {
		x.said(o.Date)
		return
	}
	put(x.dates, o.ISO)
	x.mark(x.dates[o.ISO])
	month, year := day.Month().String(), day.Format("2006")
	x.is("in "+month, as(month, month[:3]))
	x.is("in "+month+" "+year, as(month+" "+year, month[:3]+" "+year))
	x.is("on "+o.ISO, func() []string { return daySpelled(day, o.Date) })
}

// daySpelled is a day as people type it: with its month by name or in Roman figures, with
// points, which say the day first, with strokes where the day can be no month, and as the
// notes have it.
func daySpelled(day time.Time, typed string) []string {
	all := []string{typed}
	month := strings.ToLower(day.Month().String())
	roman := [...]string{"i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii"}[day.Month()-1]
	d, m := strconv.Itoa(day.Day()), strconv.Itoa(int(day.Month()))
	for _, year := range []string{day.Format("2006"), day.Format("06")} {
		all = append(all, d+" "+month+" "+year, d+" "+month[:3]+" "+year, month+" "+d+" "+year, month[:3]+" "+d+" "+year,
			d+"."+roman+"."+year, d+"."+m+"."+year, day.Format("02.01.")+year)
		if day.Day() > 12 {
			all = append(all, d+"/"+m+"/"+year, day.Format("02/01/")+year, m+"/"+d+"/"+year, day.Format("01/02/")+year)
		}
	}
	return all
}

// equipment is what stood between the scene and the film.
func (x *indexer) equipment(sh *record.Sheet) {
	for _, of := range [][2]string{{"film", sh.Film}, {"lens", sh.Lens}, {"camera", sh.Camera}} {
		if of[1] != "" {
			x.mark(x.thing(of[0], of[1]))
		}
	}
	if sh.EI.Known {
		ei := trim(sh.EI.Value)
		x.is("EI "+ei, as("ei "+ei, "ei"+ei))
	}
	if sh.Format != "" {
		x.is("format "+sh.Format, as(sh.Format, "format "+sh.Format))
	}
	for _, name := range sh.Filters {
		x.mark(x.thing("filter", name))
	}
	if len(sh.Filters) == 0 && sh.State != record.Unexposed {
		x.state("no filter")
	}
	x.bellows(sh.Extension, sh.ExtensionTyped)
	for _, m := range sh.Movements {
		x.movement(m)
	}
}

// thing has the term of a film, a lens, a camera or a filter.
func (x *indexer) thing(kind, name string) *record.Findable {
	return x.know(kind+" "+name, func() []string {
		switch kind {
		case "lens":
			return x.lensSpelled(name)
		case "filter":
			return x.filterSpelled(name)
		case "camera":
			return []string{"camera " + name}
		}
		return []string{name, kind + " " + name}
	})
}

// metered is the light values read and the zones they were placed on.
func (x *indexer) metered(sh *record.Sheet) {
	if sh.Reading == nil {
		return
	}
	for _, a := range sh.Reading.Areas {
		x.said(a.Name)
	}
	if name := sh.Reading.Meter; name != "" {
		x.is("meter "+name, as("meter "+name, name+" meter"))
		x.said(name)
	}
	for _, t := range x.of(lang.Meter, sh.Reading.Text) {
		switch k := t.Kind.(type) {
		case *lang.Exposure:
			if k.EV != nil {
				x.is("EV "+trim(float64(*k.EV)), as(withFractions("ev ", float64(*k.EV), "")...))
			}
			if k.Zone != nil {
				x.placed(float64(*k.Zone))
			}
		case *lang.Placed:
			x.placed(float64(k.Zone))
		}
	}
	switch sh.Reading.Kind {
	case "", "plain":
	default:
		x.is("metered "+sh.Reading.Kind, as("metered "+sh.Reading.Kind, sh.Reading.Kind+" reading", sh.Reading.Kind))
	}
}

func (x *indexer) placed(zone float64) {
	roman := exposure.Roman(zone)
	x.is("placed on "+roman, func() []string {
		return append(withFractions("zone ", zone, ""), "on "+roman, "zone "+roman, "on zone "+roman)
	})
}

// exposed is what was given, and what came between.
func (x *indexer) exposed(sh *record.Sheet) {
	if a := strings.TrimSuffix(sh.Given.Aperture, "?"); a != "" {
		x.is(a, func() []string { return apertureSpelled(a) })
		x.typed(a, sh.Given.ApertureTyped)
	}
	if t := strings.TrimSuffix(sh.Given.Time, "?"); t != "" {
		x.is(t, func() []string { return timeSpelled(t, sh.Given.Seconds) })
		x.typed(t, sh.Given.TimeTyped)
	}
	if sh.Given.OnFilm.Known || sh.Asked.OnFilm.Known {
		x.state("reciprocity corrected")
	}
	for _, st := range sh.Steps {
		if st.Kind == "bracket" {
			x.state("bracketed")
			x.is(st.Name, as(st.Name))
		}
	}
	if len(sh.Doubts) > 0 {
		x.state("doubtful")
	}
	for _, h := range sh.History {
		x.is(h.How, as(h.How))
	}
}

// development is what was asked for and what was done.
func (x *indexer) development(sh *record.Sheet) {
	for _, word := range strings.Fields(sh.Development) {
		if word == "hold" {
			x.state("held back")
			continue
		}
		x.is(word+" asked", func() []string { return nSpelled("", word) })
	}
	for _, d := range sh.Developed {
		for _, t := range x.of(lang.Develop, d.Text) {
			if n, ok := t.Kind.(*lang.N); ok {
				word := nText(float64(n.Stops))
				x.is("developed "+word, func() []string { return nSpelled("developed ", word) })
			}
		}
		if day, err := time.Parse(time.DateOnly, d.ISO); err == nil {
			x.is("developed "+d.ISO, func() []string {
				all := append(daySpelled(day, d.Date), d.ISO)
				for i := range all {
					all[i] = "developed " + all[i]
				}
				return all
			})
		} else if d.Date != "" {
			x.is("developed "+d.Date, as("developed "+d.Date))
		}
	}
}

// states is how the sheet stands.
func (x *indexer) states(sh *record.Sheet) {
	switch sh.State {
	case record.Right:
		x.state("right")
	case record.Off:
		x.state("off")
		if sh.Difference.Known && sh.Difference.Value > 0 {
			x.state("overexposed")
		} else if sh.Difference.Known {
			x.state("underexposed")
		}
		x.beyond(sh.Difference)
	case record.Unchecked:
		x.state("unchecked")
	case record.NoImage:
		x.state("no image")
	case record.Unexposed:
		x.state("unexposed")
		return
	}
	x.state("exposed")
	x.either(sh.WasDeveloped(), "developed", "undeveloped")
	x.either(slices.ContainsFunc(sh.Scans, func(s *record.Scan) bool { return s.State == record.Present }), "scanned", "unscanned")
}

func (x *indexer) either(holds bool, yes, no string) {
	if !holds {
		yes = no
	}
	x.state(yes)
}

// findings is what was found, by code, and the causes that fit.
func (x *indexer) findings(sh *record.Sheet) {
	for _, f := range sh.Findings {
		x.is("found "+f.Code, as(f.Code, strings.ReplaceAll(f.Code, "-", " "), "finding:"+f.Code))
		for _, c := range f.Causes {
			x.is("fits "+c, as(c, strings.ReplaceAll(c, "-", " "), "cause:"+c))
		}
		if f.Code == "developed-otherwise" {
			x.state("developed otherwise than asked")
		}
	}
}

// codes are those of the findings and the causes that no sheet has: who asks for one is
// told so, and not shown sheets beside which its words stand. One of a single word is
// asked for with its kind.
func (x *indexer) codes() {
	none := func(said, kind, code string) {
		spelled := []string{kind + code}
		if strings.Contains(code, "-") {
			spelled = append(spelled, code)
		}
		x.know(said+code, as(spelled...))
	}
	for _, r := range diag.Rules() {
		none("found ", "finding:", r.Code)
	}
	for _, h := range slip.Table() {
		none("fits ", "cause:", h.Slug)
	}
	for _, h := range slip.SilentTable() {
		none("fits ", "cause:", h.Slug)
	}
}
