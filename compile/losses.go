package compile

import (
	"cmp"
	"slices"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// losses counts what was lost, and to what, by what the notes say: the word for a
// fault in a result line, a state, two exposures on one sheet by mistake, film
// that does not see what the filter passes, an exposure that is off by a stop or
// more, once it is developed. A sheet that a result line calls a keeper is none of them.

// lossNames are the causes in the trade's words, in the order in which one is
// taken where several fit.
var lossNames = []struct{ slug, name string }{
	{"leak", "light leak"}, {"slide", "dark slide"}, {"misfire", "shutter misfire"}, {"shake", "camera shake"}, {"scratch", "scratch"}, {"dust", "dust"},
	{"fogged", "fogged"}, {"double", "exposed twice"}, {"blank", "blank"}, {"spoiled", "spoiled"}, {"gone", "negative lost"},
	{"blind", "film blind to the filter"}, {"off", "off exposure"},
}

func (g *gatherer) lossesOf() {
	by := map[string]*record.Loss{}
	for _, sh := range g.season.sheets {
		slug := g.lostTo(sh)
		if slug == "" {
			continue
		}
		i := slices.IndexFunc(lossNames, func(n struct{ slug, name string }) bool { return n.slug == slug })
		if by[slug] == nil {
			by[slug] = &record.Loss{Cause: lossNames[i].name, Slug: slug}
			g.out.Losses = append(g.out.Losses, by[slug])
		}
		rs := g.sheet[sh]
		rs.Lost = lossNames[i].name
		by[slug].Sheets = append(by[slug].Sheets, rs)
	}
	slices.SortStableFunc(g.out.Losses, func(a, b *record.Loss) int { return cmp.Compare(len(b.Sheets), len(a.Sheets)) })
}

// lostTo is the cause by which a sheet is lost, or "".
func (g *gatherer) lostTo(sh *sheet) string {
	if sh.filed.keeper || sh.isUnused() {
		return ""
	}
	for _, n := range lossNames {
		if n.slug == "double" && sh.onPurpose() {
			continue
		}
		if has(sh.losses, n.slug) || has(sh.states, n.slug) && n.slug != "double" {
			return n.slug
		}
	}
	switch {
	case sh.doubles():
		return "double"
	case sh.sum.state == record.NoImage:
		return "blind"
	case sh.wasDeveloped() && sh.sum.state == record.Off && exposure.AStop(sh.sum.diff):
		return "off"
	}
	return ""
}

// pictureless reports a sheet of which the notes say that it has no picture, or that the negative
// is gone: it was fogged or spoiled, came out blank, was mislaid.
func (sh *sheet) pictureless() bool {
	return !sh.filed.keeper && slices.ContainsFunc(noPicture, func(slug string) bool { return has(sh.losses, slug) || has(sh.states, slug) })
}

var noPicture = []string{"slide", "misfire", "fogged", "blank", "spoiled", "gone"}

// doubles reports a sheet of film that was exposed twice by mistake. It is one
// sheet of film; the picture that was meant to be on another is the loss.
func (sh *sheet) doubles() bool {
	return sh.first != nil && !sh.onPurpose() && !sh.first.isUnused()
}

// mistaken reports the second of two exposures that are on one sheet of film by mistake,
// and the first.
func (sh *sheet) mistaken() bool { return sh.doubles() || sh.over != nil && sh.over.doubles() }
