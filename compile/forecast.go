package compile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/compile/record"
	"notchbook/compile/spectral"
	"notchbook/lang/diag"
)

// What the filters on a lens will do, by their curves and those of film and light.

// Asked is what a forecast is wanted for.
type Asked struct {
	Filters []string // one filter or stack each, as on a sheet line: "R25+pol"
	Film    string   // a class, or a film of the kit; "" takes panchromatic
	Light   string   // daylight or tungsten; "" takes daylight
}

// Forecast makes the forecast for filters with the kit of the notebooks named. Unread
// is what of the asked was not understood, in words; there is no forecast then.
func Forecast(world World, ask Asked, names ...string) (out *record.Forecast, unread []string, list diag.List) {
	const line = "terms"
	read := world.Read
	world.Read = func(name string) ([]byte, error) {
		if name == line {
			return ask.lines(), nil
		}
		return read(name)
	}
	s := compiled(world, append(names[:len(names):len(names)], line))
	s.found = slices.DeleteFunc(s.found, func(f finding) bool {
		return f.Span.File == nil || f.Span.File.Name == line || !reckons[f.Code] && f.Code != "curve-unreadable"
	})
	_, list = s.gather()
	if ask.Light = strings.ToLower(strings.TrimSpace(ask.Light)); ask.Light != "" && lightWords[ask.Light] == "" {
		return nil, []string{s.unlit(ask.Light)}, list
	}
	set, film, ok := s.filmAsked(ask.Film, ask.Light)
	if !ok {
		return nil, []string{fmt.Sprintf("%q is no film of the kit and no class: pan, ortho, blue", ask.Film)}, list
	}
	out = newForecast(&set, film)
	sheets := map[string]*sheet{}
	for _, sh := range s.sheets {
		if sh.at.File.Name == line {
			sheets[sh.label] = sh
		}
	}
	for i, words := range ask.Filters {
		sh := sheets[fmt.Sprint(i+1)]
		if sh == nil || len(sh.filters) == 0 || len(sh.remarks) > 0 {
			unread = append(unread, fmt.Sprintf("%q is not understood as a filter", words))
			continue
		}
		s.addCast(out, &set, s.usesOn(sh, &set, film))
	}
	if unread != nil {
		return nil, unread, list
	}
	return out, nil, list
}

// unlit says of a light that no curve of it is known, which lights can be asked for, and
// what the kit has for it or for others.
func (s *season) unlit(light string) string {
	k := s.latest()
	text := fmt.Sprintf("%q is no light whose curve is known; a forecast is made for daylight or tungsten", light)
	if values := k.valuesIn(light); len(values) > 0 {
		return text + "; for this light the kit has " + strings.Join(values, ", ")
	}
	others := slices.DeleteFunc(k.lights(), func(name string) bool { return lightWords[name] != "" })
	if len(others) > 0 {
		text += "; the kit has values, but no curve, for " + strings.Join(others, ", ")
	}
	return text
}

// valuesIn is what the kit declares for a light that is called so.
func (k *kit) valuesIn(light string) (all []string) {
	for _, f := range k.films {
		for _, in := range sortedKeys(f.inLight) {
			if _, ok := cutWords(light, in); ok {
				all = append(all, f.name+" "+in+" EI "+trim(f.inLight[in]))
			}
		}
	}
	for _, f := range k.filters {
		for i := range f.amounts {
			if _, ok := cutWords(light, k.ownLight(&f.amounts[i])); ok {
				all = append(all, f.name+" "+f.amounts[i].as+" "+f.amounts[i].detail)
			}
		}
	}
	return all
}

// lines are the filters as a notebook has them, a sheet each.
func (a Asked) lines() []byte {
	var b strings.Builder
	for i, words := range a.Filters {
		fmt.Fprintf(&b, "sheet %d: %s\n", i+1, strings.Join(strings.Fields(words), " "))
	}
	return []byte(b.String())
}

// usesOn is the filters of a sheet with what they cost on the film and in the light that
// are asked for.
func (s *season) usesOn(sh *sheet, set *spectral.Setting, on *film) []*use {
	if on == nil {
		on = &film{class: set.Film}
	}
	r := reckoning{season: s, sh: &sheet{light: set.Light, film: value[*film]{v: on, known: true}}}
	for _, u := range sh.sum.owes {
		if !isGraduated(u.name) {
			_, entry, _ := s.latest().filter(u.name)
			u.cost = r.costOf(u, u.found, entry, set.Film)
		}
	}
	return sh.sum.owes
}

// filmAsked is a film by its class or its name in the kit.
func (s *season) filmAsked(name, light string) (set spectral.Setting, f *film, ok bool) {
	if f, ok := find(s.latest().films, name); ok {
		set, ok = f.setting(light)
		return set, f, ok
	}
	name = shortClass(strings.ToLower(strings.TrimSpace(name)))
	set, ok = spectral.In(name, light)
	return set, nil, ok
}

// setting is the film in a light, where it is known what it sees.
func (f *film) setting(light string) (set spectral.Setting, ok bool) {
	switch {
	case f.sees != nil:
		return spectral.Own(f.name, f.sees.Curve, light)
	case f.class == "":
		return set, false
	}
	return spectral.In(f.class, light)
}

// classWords are the classes as they are spoken of, and the data that stand for them.
var classWords = map[string]struct{ name, from string }{
	handbook.Pan:   {"panchromatic film", "the mean of two films' printed sensitivities (Kodak F-4016 p. 8, F-4043 p. 7, Feb 2016)"},
	handbook.Ortho: {"orthochromatic film", "a model and no measurement: green-sensitive to 585 nm"},
	handbook.Blue:  {"blue-sensitive film", "one film's printed sensitivity (Kodak 2302)"},
}

// lightWords are the lights' data.
var lightWords = map[string]string{
	spectral.Daylight: "CIE daylight of 5000 K, at which the printed factors are met best",
	spectral.Tungsten: "a black body of 2600 K, at which the printed factors are met best",
}

func newForecast(set *spectral.Setting, f *film) *record.Forecast {
	words := classWords[set.Film]
	out := &record.Forecast{Film: words.name, Light: set.Light, Held: heldText(set)}
	from := words.from
	if set.Own {
		out.Film, from = f.name, ownFilm(f)
	} else if f != nil {
		out.Film = f.name + ", " + words.name
	}
	out.From = append(out.From, fact("film", from), fact("light", lightWords[set.Light]), fact("lens", "the ISO standard lens (ISO 7589)"))
	for _, k := range spectral.List() {
		out.Subjects = append(out.Subjects, record.Subject{Name: k.Name, Key: k.Key, From: k.From})
	}
	return out
}

func ownFilm(f *film) string {
	text := "your own, " + f.sees.text()
	if f.sees.To < spectral.To {
		text += fmt.Sprintf("; past %s nm it is taken to see nothing", trim(f.sees.To))
	}
	return text
}

// heldText says how well the method does, and where nobody knows.
func heldText(set *spectral.Setting) string {
	held := spectral.Against(set.Light)
	rms, farthest := spectral.Misses(held)
	text := fmt.Sprintf("against %d printed factors of two panchromatic films in %s (%s) it misses by %.2f stop (root mean square), by %.2f at most", len(held), set.Light, spectral.Source, rms, farthest)
	if set.Film != handbook.Pan || set.Own {
		text += "; for this film no factors are printed, and how well it does there is not known"
	}
	return text + "; how far subjects move was held against nothing published"
}

// addCast adds what some filters do together.
func (s *season) addCast(out *record.Forecast, set *spectral.Setting, on []*use) *record.Cast {
	c := &record.Cast{Name: stackName(on)}
	out.Casts = append(out.Casts, c)
	through := spectral.Neutral(0)
	declared, own := 0., true
	for _, u := range on {
		if own = own && u.cost != nil && u.cost.own; own {
			declared += u.cost.stops
			c.Source = u.cost.from
		}
		p := passing(u)
		if p.missing != "" && c.Missing == "" {
			c.Missing = p.missing
		}
		if p.note != "" {
			c.Notes = append(c.Notes, p.note)
		}
		if p.from != "" && !slices.ContainsFunc(out.From, func(f record.Fact) bool { return f.Name == u.name }) {
			out.From = append(out.From, fact(u.name, p.from))
		}
		through = through.Through(p.curve)
	}
	if own && len(on) > 0 {
		c.Declared = record.Known(exposure.Round(declared))
	} else {
		c.Source = ""
	}
	if c.Missing != "" {
		return c
	}
	f := set.Through(&through)
	if c.Dark = f.Dark; c.Dark {
		return c
	}
	c.Stops = record.Known(exposure.Round(f.Stops))
	for _, m := range f.Moves {
		c.Moves = append(c.Moves, record.Move{Stops: exposure.Round(m.Stops), Low: exposure.Round(m.Low), High: exposure.Round(m.High)})
	}
	return c
}

// passed is what a filter lets through, or which curve is missing.
type passed struct {
	curve               spectral.Curve
	from, missing, note string
	neutral             bool // it takes of all colours alike, by its name
}

// passing finds a filter's curve: the writer's own, that of its density, the published
// one of its number. A polarizer takes of all colours alike.
func passing(u *use) passed {
	if u.found != nil && u.found.passes != nil {
		return passed{curve: u.found.passes.Curve, from: "your own, " + u.found.passes.text()}
	}
	switch {
	case isGraduated(u.name):
		return passed{missing: u.name + " covers a part of the picture only"}
	case u.cost != nil && (isNeutral(u.name) || strings.HasPrefix(u.cost.detail, "density")):
		return passed{neutral: true, curve: neutral(u.cost.stops), from: "neutral by its name: every colour alike, " + u.cost.detail}
	case u.number == "pol" && u.cost != nil:
		return passed{neutral: true, curve: neutral(u.cost.stops), from: "taken as neutral: " + u.cost.detail,
			note: "a polarizer acts on the direction of light: how far it darkens the sky and takes reflections off is in no curve, and not in these figures"}
	}
	if c, ok := spectral.Filter(u.number); ok {
		return passed{curve: c, from: "Wratten " + u.number + ", a representative sample (Transmission of Wratten Filters, A. C. Peed Jr. for Eastman Kodak, CRC Handbook)"}
	}
	return passed{missing: "there is no curve of " + u.name + "; one that you measured is read by: filter " + u.name + ": curve FILE"}
}

// neutral is the curve of a neutral filter that costs some stops.
func neutral(stops float64) spectral.Curve { return spectral.Neutral(stops * math.Log10(2)) }
