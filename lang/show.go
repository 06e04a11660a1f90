package lang

import (
	"fmt"
	"strings"
)

// String is what a statement was read as, in one line: the word, its labels, and
// its terms between bars. Commas, which only separate, are left out.
func (s *Statement) String() string {
	var b strings.Builder
	b.WriteString(string(s.Word))
	for i, l := range s.Labels {
		switch {
		case i > 0 && s.Either:
			b.WriteString(" or")
		case i > 0:
			b.WriteString(",")
		}
		if l.Day.File != nil && (i == 0 || l.Day != s.Labels[i-1].Day) {
			b.WriteString(" of " + l.Day.Text())
		}
		b.WriteString(" " + l.Text)
	}
	b.WriteString(":")
	sign := " "
	if s.Text != "" {
		fmt.Fprintf(&b, " %s", s.Text)
		sign = " | "
	}
	for i := range s.Terms() {
		if text := s.Terms()[i].String(); text != "" {
			b.WriteString(sign + text)
			sign = " | "
		}
	}
	return b.String()
}

// String is what a term was read as; a comma is nothing.
func (t *Term) String() string {
	text := kindText(t.Kind)
	switch {
	case text == "":
		return ""
	case t.Unread:
		text = "unread " + text
	case t.Struck:
		text = "struck " + text
	}
	if t.Doubtful {
		text += " (doubtful)"
	}
	if t.Sic {
		text += " (sic)"
	}
	return text
}

// clockText is what the hours of a line were read as, typed so that they are read again.
func clockText(hours string) string {
	text, unsure := strings.CutSuffix(hours, "?")
	from, to, stretch := strings.Cut(text, "-")
	switch {
	case stretch && to == "":
		text = "open " + from
	case stretch && from == "":
		text = "closed " + to
	default:
		text = "at " + text
	}
	if unsure {
		text += ", not for sure"
	}
	return text
}

// kindText names a term in the words of the notation's manual.
func kindText(kind any) string {
	switch k := kind.(type) {
	case *Exposure:
		return k.text()
	case *Stack:
		return k.text()
	case *Bellows:
		return "bellows " + k.Amount.text()
	case *Amount:
		return k.text()
	case *Class:
		return k.text()
	case *Cue:
		return k.Word
	case *Arrow:
		return "→"
	case *Drop:
		return "off " + k.What
	case *Movement:
		return "movement " + k.Text
	case *Same:
		return strings.TrimSuffix("same as "+k.Label, " as ")
	case *Choose:
		return "for this sheet " + k.Text
	case *Care:
		return k.Text
	case *CurveFile:
		return k.Text
	case *State:
		return "state " + k.Word
	case *Filed:
		return "filed in " + k.Place
	case *Scanned:
		return "scan " + k.Path
	case *Negative:
		return "negative " + k.Number
	case *Clock:
		return clockText(k.Time)
	case *Date:
		return "date " + k.ISO + k.Text
	case *Remark:
		return fmt.Sprintf("%q", k.Text)
	case *Withdraw:
		return map[bool]string{true: "not", false: "no"}[k.After]
	case *Sunny16:
		return k.Word
	case *Loose:
		return "words " + strings.Join(k.Words, " ")
	case *Hold:
		return "hold"
	case *Dilution:
		return "dilution " + k.Parts
	case *Batch:
		return "batch " + k.Name
	case *Notch:
		return "notch " + k.Code
	case *Loss:
		return "loss " + k.Word
	case *Format:
		return "format " + k.Text
	case *Back:
		return "back " + k.Format
	}
	return numberText(kind) + ruleText(kind)
}

// numberText is the terms that are one number.
func numberText(kind any) string {
	switch k := kind.(type) {
	case *Placed:
		return "zone " + k.Zone.text()
	case *Falls:
		return "falls on zone " + k.Zone.text()
	case *FilmEI:
		return "film EI " + k.EI.text()
	case *MeterEI:
		return "meter at EI " + k.EI.text()
	case *OldSpeed:
		return "speed " + k.Text
	case *ISO:
		return "ISO " + k.Speed.text()
	case *N:
		return k.text()
	case *Extension:
		return "extension " + k.MM.text() + " mm"
	case *ExtensionRange:
		return "extension " + k.From.text() + " to " + k.To.text() + " mm"
	case *Magnification:
		return "magnification " + k.M.text()
	case *Focus:
		return "focus " + k.MM.text() + " mm"
	case *FocusSpread:
		return "focus spread " + k.MM.text() + " mm"
	case *Near:
		return "near " + k.MM.text() + " mm"
	case *Far:
		return "far " + k.MM.text() + " mm"
	case *Confusion:
		return "circle of confusion " + k.MM.text() + " mm"
	case *BellowsScale:
		return k.text()
	case *Shorten:
		return k.text()
	case *Bracket:
		return "bracket " + signedText(k.Stops)
	case *Nth:
		return "sheet " + k.Sheets.text() + " only"
	case *Temperature:
		return k.C.text() + " °C"
	case *Densitometer:
		text := strings.TrimSpace(strings.Join(k.Place, " ") + " density")
		for _, d := range k.D {
			text += " " + d.text()
		}
		if k.Zone != nil {
			text += " on zone " + k.Zone.text()
		}
		return text
	case *LuxSeconds:
		return k.H.text() + " lux seconds"
	case *Spot:
		return k.text()
	case *Trial:
		return "test of " + k.Of
	case *Bare:
		return "number " + k.Value.text()
	case *Millimetres:
		return k.MM.text() + " mm"
	case *Circle:
		return "circle " + k.MM.text() + " mm"
	case *Flange:
		return "flange " + k.MM.text() + " mm"
	case *Sum:
		if k.Exposure != nil {
			return "sum " + k.Exposure.text()
		}
		return "sum " + k.Amount.text()
	}
	return ""
}

// ruleText is the terms of declarations.
func ruleText(kind any) string {
	switch k := kind.(type) {
	case *FNumbers:
		switch {
		case k.To != nil:
			return k.From.text() + " to " + k.To.text()
		case len(k.More) > 0:
			all := "apertures " + k.From.text()
			for i := range k.More {
				all += " " + k.More[i].text()
			}
			return all
		}
		return "widest " + k.From.text()
	case *Clicks:
		if k.Stops == nil {
			return "no clicks"
		}
		return "clicks " + k.Stops.text()
	case *Shutter:
		return k.text()
	case *Tested:
		var all []string
		for _, p := range k.Pairs {
			all = append(all, p.From.text()+" is "+p.To.text())
		}
		return "tested " + strings.Join(all, ", ")
	case *Measured:
		return "marked " + k.Marked.text() + ", open " + secondsText(k.Real)
	case *With:
		return "with " + k.Filter.text()
	case *TimeFor:
		text := (&N{k.N}).text()
		if k.EI != nil {
			text += " EI " + k.EI.text()
		}
		if k.Time != nil {
			text += " " + k.Time.text()
		}
		if k.At != nil {
			text += " at " + kindText(&Temperature{*k.At})
		}
		return text
	case *RuleOf:
		var all []string
		for i := range k.Laws {
			all = append(all, k.Laws[i].text())
		}
		return strings.TrimSpace("reciprocity "+k.Name) + " " + strings.Join(all, ", ")
	}
	return ""
}

func (n Number) text() string {
	s := fmt.Sprintf("%.3f", float64(n))
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

func signedText(n Number) string {
	if n >= 0 {
		return "+" + n.text()
	}
	return n.text()
}

func (k *N) text() string {
	if k.Stops == 0 {
		return "N"
	}
	return "N" + signedText(k.Stops)
}

func (k *Exposure) text() string {
	var all []string
	if len(k.Name) > 0 {
		all = append(all, "["+strings.Join(k.Name, " ")+"]")
	}
	if k.EV != nil {
		all = append(all, "EV "+k.EV.text())
	}
	for i := range k.Parts {
		if a := k.Parts[i].Aperture; a != nil {
			all = append(all, a.text())
		} else {
			all = append(all, k.Parts[i].Time.text())
		}
	}
	if k.Zone != nil {
		all = append(all, "on zone "+k.Zone.text())
	}
	return strings.Join(all, " ")
}

func (a *Aperture) text() string {
	switch mark := "f/" + Number(a.Mark).text(); {
	case a.Widest:
		return "wide open"
	case a.Upper != 0:
		return mark + "–" + Number(a.Upper).text()
	case a.Past != 0:
		return mark + "+" + Number(a.Past).text()
	default:
		return mark
	}
}

func (t *Time) text() string {
	text := strings.ReplaceAll(secondsText(t.Parts), " ", " + ")
	if t.Bulb {
		text = "B " + text
	}
	for _, n := range []*Number{t.Count, t.Again} {
		if n != nil {
			text = n.text() + " × " + text
		}
	}
	return text
}

func (s Seconds) text() string {
	if s.Den == 1 {
		return Number(s.Num).text() + "s"
	}
	return Number(s.Num).text() + "/" + Number(s.Den).text()
}

func secondsText(all []Seconds) string {
	var texts []string
	for _, s := range all {
		texts = append(texts, s.text())
	}
	return strings.Join(texts, " ")
}

func (k *Stack) text() string {
	text := "filter "
	if k.Add {
		text = "add filter "
	}
	for i := range k.Filters {
		if i > 0 {
			text += " + "
		}
		text += k.Filters[i].text()
	}
	return text
}

func (f *Filter) text() string {
	text := f.Name
	for i := range f.Amounts {
		text += " " + f.Amounts[i].text()
	}
	return text
}

func (a *Amount) text() string {
	switch {
	case a.Factor != nil:
		return "×" + a.Factor.text()
	case a.Density != nil:
		return "density " + a.Density.text()
	case a.Stops != nil:
		return a.Stops.text() + " stops"
	}
	return ""
}

func (k *Class) text() string {
	text := strings.Join(k.Names, " ")
	if k.Amount != nil {
		text += " " + k.Amount.text()
	}
	if k.EI != nil {
		text += " EI " + k.EI.text()
	}
	return text
}

func (k *Shutter) text() string {
	switch {
	case k.Fastest == nil:
		return "shutter " + secondsText(k.Speeds)
	case k.Slowest == nil:
		return "shutter to " + k.Fastest.text()
	}
	return "shutter " + k.Slowest.text() + " to " + k.Fastest.text()
}

func (l *Law) text() string {
	text := ""
	switch {
	case l.Power != nil:
		text = "t^" + l.Power.text()
	case l.UpTo != nil:
		text = "none to " + l.UpTo.text()
	case l.None:
		text = "none"
	case l.Pair != nil:
		text = l.Pair.From.text() + " becomes " + l.Pair.To.text()
	case l.At != nil:
		text = l.At.text() + " +" + l.More.text() + " stops"
	case l.From != nil && l.Times != nil:
		text = "from " + l.From.text() + " ×" + l.Times.text()
	case l.From != nil:
		text = "from " + l.From.text() + " +" + l.Stops.text() + " stops"
	}
	if l.Over != nil {
		text += " over " + l.Over.text()
	}
	return text
}

func (k *Spot) text() string {
	text := strings.TrimSpace("patch " + strings.Join(k.Name, " "))
	if k.Across != nil {
		text += " at " + k.Across.text() + ", " + k.Down.text()
	}
	if k.Level != nil {
		text += " level " + k.Level.text()
	}
	return text
}

func (k *BellowsScale) text() string {
	var all []string
	for _, r := range k.Rows {
		all = append(all, r.MM.text()+" mm "+(&Amount{Stops: r.Stops, Factor: r.Factor}).text())
	}
	return "bellows scale " + strings.Join(all, ", ")
}

func (k *Shorten) text() string {
	var all []string
	for _, r := range k.Rows {
		all = append(all, r.Percent.text()+" % from "+r.From.text())
	}
	return "development shorter by " + strings.Join(all, ", ")
}
