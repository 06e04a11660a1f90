package compile

import (
	"path"
	"slices"
	"strings"

	"notchbook/lang"
)

// The holders of notebooks with different kits are different people's, or those of
// another camera: 1A of the one is not 1A of the other. They are kept apart by the
// cameras that the kits declare, since one photographer's kits of two seasons have those
// in common; and where a kit declares none, by the notebooks that declare it, but for
// those in folders that are called by their years.

// drawer is the holders of some notebooks.
type drawer struct {
	of      string // which they are, in words, where there are several; "" the season's only one
	books   []*book
	cameras map[string]bool // as declared
	kit     []*book

	holders map[string]*holder // by label, in lower case
	sides   map[string]*side
}

func newDrawer() *drawer {
	return &drawer{cameras: map[string]bool{}, holders: map[string]*holder{}, sides: map[string]*side{}}
}

// drawers gives every notebook that speaks of holders its drawer.
func (s *season) drawers() {
	var all []*drawer
	for _, b := range s.books {
		if !b.holds() {
			continue
		}
		now := newDrawer()
		now.books, now.kit = []*book{b}, b.shared.books
		for _, c := range b.shared.cameras {
			now.cameras[strings.ToLower(c.name)+" "+strings.Join(strings.Fields(strings.ToLower(c.at.Body.Text())), " ")] = true
		}
		all = slices.DeleteFunc(all, func(d *drawer) bool {
			if !d.same(now) {
				return false
			}
			now.take(d)
			return true
		})
		all = append(all, now)
	}
	for _, d := range all {
		for _, b := range d.books {
			b.drawer = d
		}
	}
	if len(all) > 1 {
		callDrawers(all)
	}
}

// same reports whether two drawers are one: a camera is declared alike for both, or where
// one has none a notebook declares for both, or nothing is declared for either.
func (d *drawer) same(o *drawer) bool {
	if len(d.cameras) > 0 && len(o.cameras) > 0 {
		for c := range d.cameras {
			if o.cameras[c] {
				return true
			}
		}
		return false
	}
	return slices.ContainsFunc(d.kit, func(b *book) bool { return slices.Contains(o.kit, b) }) || len(d.kit)+len(o.kit) == 0 || d.ofYear() && o.ofYear()
}

// ofYear reports whether the folder of a notebook is called by a year: 2025, 2025-spain.
func (d *drawer) ofYear() bool {
	name := path.Base(path.Dir(d.books[0].name))
	year, _, _ := strings.Cut(name+"-", "-")
	return len(year) == 4 && year[0] >= '1' && year[0] <= '2' && strings.Trim(year, "0123456789") == ""
}

func (d *drawer) take(o *drawer) {
	d.books = append(slices.Clone(o.books), d.books...)
	d.kit = append(slices.Clone(o.kit), d.kit...)
	for c := range o.cameras {
		d.cameras[c] = true
	}
}

// callDrawers names each by the folder that its notebooks lie in, or where that does not
// tell them apart by the notebook that declares its kit, else by its first.
func callDrawers(all []*drawer) {
	for _, by := range []func(*drawer) string{(*drawer).folder, (*drawer).declaredIn, func(d *drawer) string { return d.books[0].name }} {
		names := map[string]bool{}
		for _, d := range all {
			d.of = by(d)
			if d.of != "" {
				names[d.of] = true
			}
		}
		if len(names) == len(all) {
			return
		}
	}
}

// folder is the one in which all notebooks of a drawer lie, "" where that is the season's.
func (d *drawer) folder() string {
	in := path.Dir(d.books[0].name)
	for _, b := range d.books {
		for !lies(path.Dir(b.name), in) {
			in = path.Dir(in)
		}
	}
	return strings.TrimPrefix(in, ".")
}

func (d *drawer) declaredIn() string {
	if len(d.kit) == 0 {
		return ""
	}
	return d.kit[len(d.kit)-1].name
}

// holds reports whether a notebook says anything of holders.
func (b *book) holds() bool {
	return slices.ContainsFunc(b.Statements, func(st *lang.Statement) bool {
		return st.Word == lang.Sheet || st.Word == lang.Load || st.Word == lang.HolderWord
	})
}
