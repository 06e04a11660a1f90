package compile

import (
	"slices"
	"strconv"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/source"
)

// The lines that choose a camera, a lens or a film for what follows, and things that are chosen and
// declared nowhere.

// choice looks up what a line without a label chooses. Where the notes declare
// no such thing at all, as a plain phone note does not, the name as typed is
// taken for what it is: a thing of which nothing is known.
func choice[T interface{ called(string) bool }](r *resolver, st *lang.Statement, all []T, what string, unknown func(name string) T) (T, bool) {
	name := r.nameSaid(st)
	t, ok := find(all, name)
	if !ok {
		name, _ = r.nameAlone(name)
		name = unmarked(name)
		t, ok = find(all, name)
	}
	for _, said := range spellings(name, what) {
		if !ok {
			t, ok = find(all, said)
		}
	}
	switch {
	case ok || name == "":
	case len(all) == 0:
		return unknown(name), true
	default:
		r.undeclared(what, name, st.TextSpan())
	}
	return t, ok
}

// nameAlone parts a name from what is said behind it, a comma or brackets between them: stone, the last box; stone [old
// box]. Brackets that name another thing may stand for it.
func (r *resolver) nameAlone(text string) (name, behind string) {
	end := strings.IndexAny(text, ",;")
	for _, open := range [...]string{" (", " ["} {
		if at := strings.Index(text, open); at > 0 && (end < 0 || at < end) {
			if _, thing := r.names.Names[strings.ToLower(strings.Trim(text[at:], " ()[]?"))]; !thing {
				end = at
			}
		}
	}
	if end < 0 {
		return text, ""
	}
	return strings.TrimSpace(text[:end]), text[end+1:]
}

// nameSaid is the name on a line that chooses a thing: the last that it names where it takes one back, moor, sorry tarn.
func (r *resolver) nameSaid(st *lang.Statement) (name string) {
	text := r.unheadedText(st)
	if name = r.namedAnew(text, st.Word); name == "" {
		name = lastSaid(text)
	}
	return unmarked(name)
}

// namedAnew is what stands behind words that take back what stands before them, where that is a thing of the kit, by itself or
// with its index: no tarn left is none.
func (r *resolver) namedAnew(text string, w lang.Word) string {
	anew := lang.Anew(text)
	if anew == "" {
		return ""
	}
	end := len(anew)
	if at := strings.IndexAny(anew, ",;(["); at >= 0 {
		end = at
	}
	if at := saidIndex().FindStringIndex(anew[:end]); at != nil {
		end = at[0]
	}
	head := strings.ToLower(strings.TrimSpace(anew[:end]))
	all := append(spellings(head, string(w)), head)
	for _, name := range r.book.kit.namesOf(w) {
		if slices.Contains(all, strings.ToLower(name)) {
			if end < len(anew) && !strings.ContainsRune(",;([", rune(anew[end])) {
				return name + ", " + anew[end:] // tarn EI 50
			}
			return name + anew[end:]
		}
	}
	return ""
}

// namesOf are the names of the things that a word declares.
func (k *kit) namesOf(w lang.Word) (names []string) {
	switch w {
	case lang.Lens:
		for _, l := range k.lenses {
			names = append(names, l.name)
		}
	case lang.Film:
		for _, f := range k.films {
			names = append(names, f.name)
		}
	case lang.Camera:
		for _, c := range k.cameras {
			names = append(names, c.name)
		}
	}
	return names
}

// unmarked is a name as it is declared: without a question mark, and what was struck out of it.
func unmarked(name string) string {
	return strings.Join(strings.Fields(strings.TrimRight(name, ",. ?")), " ")
}

// nameDoubted reports whether the name on such a line is marked as doubtful.
func (r *resolver) nameDoubted(st *lang.Statement) bool {
	name, _ := r.nameAlone(lastSaid(st.StandingText()))
	return strings.HasSuffix(strings.TrimSpace(name), "?")
}

// spellings are other ways to say a name: the 90, 90mm, 90 mm lens, the slate film.
func spellings(name, what string) []string {
	low := strings.ToLower(name)
	for _, article := range [...]string{"the ", "my ", "to the "} {
		low = strings.TrimPrefix(low, article)
	}
	low = strings.TrimSpace(strings.TrimSuffix(low, what))
	if what != "lens" {
		return []string{low}
	}
	first, _, _ := strings.Cut(low, " f") // 90 f8
	return []string{low, lang.Figure(low), strings.TrimSpace(strings.TrimSuffix(low, "mm")), strings.TrimSpace(strings.TrimSuffix(first, "mm")), low + "mm", low + " mm"}
}

// lastSaid is what stands of a name that was taken back: "300 no wait 210".
func lastSaid(text string) string {
	low := strings.ToLower(text)
	for _, no := range []string{" no wait, ", " no wait ", " no, ", " no "} {
		if i := strings.LastIndex(low, no); i >= 0 {
			return strings.TrimSpace(text[i+len(no):])
		}
	}
	return strings.TrimSpace(text)
}

// unknownLens and unknownFilm are things that only have a name. In a lens's its focal length may
// stand, with the unit.
func (r *resolver) unknownLens(name string) *lens {
	key := strings.ToLower(name)
	if r.lenses[key] == nil {
		r.lenses[key] = &lens{declared: declared{name: name}, focal: focalIn(name)}
	}
	return r.lenses[key]
}

// focalIn is the length with which a lens's name begins, and the only figure in it but for its
// aperture, in millimetres: 150mm, the 6 inch, 150 mm f5.6; 0 where there is none.
func focalIn(name string) float64 {
	name, _, _ = strings.Cut(strings.TrimPrefix(strings.ToLower(name), "the "), " f")
	words := strings.Fields(name)
	for n := range min(2, len(words)) {
		mm, ok := lang.LengthOf(strings.Join(words[:n+1], " "))
		if ok && !strings.ContainsAny(strings.Join(words[n+1:], ""), "0123456789") {
			return mm
		}
	}
	return 0
}

func (r *resolver) unknownFilm(name string) *film {
	key := strings.ToLower(name)
	if r.films[key] == nil {
		r.films[key] = &film{declared: declared{name: name}}
	}
	return r.films[key]
}

func unknownCamera(name string) *camera { return &camera{declared: declared{name: name}} }

func (r *resolver) undeclared(what, name string, at source.Span) {
	f := r.report("not-declared", at, quote(name)+" is not declared as a "+what)
	if near := r.book.kit.nearest(what, name); near != "" {
		f.note(quote(near) + " is declared")
		return
	}
	f.note("declare it: " + what + " " + name + ": …")
}

func (r *resolver) chooseCamera(st *lang.Statement) {
	if c, ok := choice(r, st, r.book.kit.cameras, "camera", unknownCamera); ok {
		r.now.camera = c
	}
}

func (r *resolver) chooseLens(st *lang.Statement) {
	text := st.StandingText()
	if anew := r.namedAnew(text, lang.Lens); anew != "" {
		text = anew
	}
	_, r.now.lensSaid = r.nameAlone(text)
	r.now.lensDoubt = r.nameDoubted(st)
	r.now.lens, _ = choice(r, st, r.book.kit.lenses, "lens", r.unknownLens)
	if r.now.lens == nil {
		r.now.lens = r.lensByLength(r.nameSaid(st))
	}
}

// lensByLength is a lens that is named by its length among others that are declared: it is as long as
// that says, but where the name of another is near, and a slip of it. Nil for none.
func (r *resolver) lensByLength(name string) *lens {
	if focalIn(name) == 0 || r.book.kit.nearest("lens", name) != "" {
		return nil
	}
	return r.unknownLens(name)
}

func (r *resolver) chooseFilm(st *lang.Statement) {
	unknown := func(name string) *film { return r.filmOf(name, st) }
	if f, ok := choice(r, st, r.book.kit.films, "film", unknown); ok {
		r.now.film, r.now.filmDoubt, r.now.rated = f, r.nameDoubted(st), r.ratedIn(st, f)
		if n := r.developmentIn(st.Body); n.known {
			r.now.wanted, r.wantedBefore = n, nil
		}
	} else {
		r.now.film, r.now.filmDoubt, r.now.rated = nil, false, value[float64]{}
	}
}

// inOldScale is an index that is said in a scale without a conversion.
const inOldScale = -1

// ratedIn is the exposure index that a line puts behind the film it names. A speed there that is none of
// the film's may be its index, and that is left open.
func (r *resolver) ratedIn(st *lang.Statement, f *film) (ei value[float64]) {
	var box boxSpeed
	if f != nil {
		box = f.box
	}
	for i := range st.Terms() {
		t := &st.Terms()[i]
		if t.Struck {
			continue
		}
		switch k := t.Kind.(type) {
		case *lang.FilmEI:
			open := box.inDegrees(t, float64(k.EI))
			ei = value[float64]{v: float64(k.EI), known: !open, at: t.Span, doubt: t.Doubtful || open}
		case *lang.MeterEI: // stone at 50 ASA
			open := box.inDegrees(t, float64(k.EI))
			ei = value[float64]{v: float64(k.EI), known: !open, at: t.Span, doubt: t.Doubtful || open}
		case *lang.ISO:
			if !ei.known && !f.bears(float64(k.Speed)) {
				ei = value[float64]{v: float64(k.Speed), at: t.Span, doubt: true}
			}
		case *lang.OldSpeed:
			if !ei.known {
				ei = value[float64]{v: inOldScale, at: t.Span, doubt: true}
			}
		case *lang.Remark: // stone -- at EI 50 for lye
			if m := saidIndex().FindStringSubmatch(k.Text); m != nil && !ei.known && f != nil && !f.bears(parseFloat(m[1])) {
				ei = value[float64]{v: parseFloat(m[1]), at: t.Span, doubt: true}
			}
		}
	}
	_, behind := r.nameAlone(st.StandingText())
	if index, may := mayRate(behind, box); may && !ei.known && !ei.doubt {
		ei = value[float64]{at: st.TextSpan(), doubt: true}
		if f != nil && !f.bears(index) {
			ei.v = index
		}
	}
	return ei
}

// mayRate reports whether words behind a film's name may be its index and are not read as one:
// stone, at 50; stone [EI 50]; stone, one stop over; and the index, 0 where there is none in figures.
func mayRate(behind string, box boxSpeed) (index float64, may bool) {
	words := strings.FieldsFunc(strings.ToLower(behind), func(c rune) bool { return strings.ContainsRune(" \t,;()[]?", c) })
	for i, word := range words {
		n, err := strconv.ParseFloat(word, 64)
		last := i+1 == len(words)
		switch {
		case err == nil && n > 0 && (exposure.NearestIndex(n) == n || box.mayMean(n)) && last && !ofBox(words[:i]):
			if i > 0 && !beforeIndex[strings.Trim(words[i-1], ".:")] {
				return 0, true // new box of 50
			}
			return n, true
		case ofIndex(word), word == "speed", word == "stop", word == "stops":
			may = true
		}
	}
	return 0, may
}

// beforeIndex are words before a film's index (common practice, no source).
var beforeIndex = lang.SetOf("at @ ei e.i index rated shot exposed iso asa")

// filmOf is a film that is declared nowhere, with what the line that names it says of
// it.
func (r *resolver) filmOf(name string, st *lang.Statement) *film {
	f := r.unknownFilm(name)
	if f.at == nil && len(st.Terms()) > 0 {
		line := st.With(slices.DeleteFunc(slices.Clone(st.Terms()), func(t lang.Term) bool {
			switch t.Kind.(type) {
			case *lang.FilmEI, *lang.MeterEI: // is of the sheets that follow
				return true
			}
			return t.Struck
		}))
		line.Labels = []lang.Label{{Text: name, Span: st.TextSpan()}}
		*f = *r.newFilm(line)
	}
	return f
}
