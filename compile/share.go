package compile

import (
	"cmp"
	"path"
	"slices"
	"strings"

	"notchbook/lang"
)

// Which notebook knows what another declares. A notebook knows what is declared in
// its own folder, in the folders above it, and in the notebooks that those use. So
// a folder of many seasons may hold a kit for each, and a filter of one name may
// cost another amount in each of them. What a notebook with sheets declares itself
// counts over all for its own sheets: a filter of forty years ago stays what it was
// when another of its name is bought.

// share gives every notebook its kit: notebooks that know the same declaring
// notebooks have one together, but for those that declare something otherwise than
// another does. A folder that knows none has the run's only kit, if there is only one.
func (s *season) share() {
	by := map[string]*kit{}
	in := map[string]*kit{} // by folder
	for _, b := range s.books {
		folder := path.Dir(b.name)
		if in[folder] == nil {
			known := s.declaredFor(folder)
			key := keyOf(known)
			if by[key] == nil {
				by[key] = &kit{books: known, near: map[*book]int{}}
				for _, o := range known {
					by[key].near[o] = nearness(folder, o)
				}
				s.kits = append(s.kits, by[key])
			}
			in[folder] = by[key]
		}
		b.kit, b.shared = in[folder], in[folder]
	}
	if none := by[""]; none != nil && len(s.kits) == 2 {
		s.kits = slices.DeleteFunc(s.kits, func(k *kit) bool { return k == none })
		for _, b := range s.books {
			b.kit, b.shared = s.kits[0], s.kits[0]
		}
	}
	s.ownKits()
}

// ownKits gives notebooks with sheets a kit of their own where a thing is declared in
// more than one way and they declare it, or use a notebook that does: their own lines
// count first, then those of the notebooks that they use, whatever a neighbour says.
func (s *season) ownKits() {
	differ := map[*kit]map[string]bool{} // things declared in more than one way
	for _, k := range s.kits {
		differ[k] = declaredOtherwise(k.books)
	}
	made := map[string]*kit{}
	for _, b := range s.books {
		shared := b.kit
		if len(differ[shared]) == 0 || !b.logs() {
			continue
		}
		nearest := append(s.usedBy(b), b)
		says := func(o *book) bool {
			return slices.ContainsFunc(o.Statements, func(st *lang.Statement) bool { return differ[shared][thingOf(st)] })
		}
		nearest = slices.DeleteFunc(nearest, func(o *book) bool { return !says(o) })
		if len(nearest) == 0 {
			continue
		}
		books := slices.DeleteFunc(slices.Clone(shared.books), func(o *book) bool { return slices.Contains(nearest, o) })
		books = append(books, nearest...)
		key := keyOf(books)
		switch {
		case key == keyOf(shared.books):
			continue
		case made[key] == nil:
			made[key] = &kit{books: books, near: shared.near, own: true}

			s.kits = append(s.kits, made[key])
		}
		b.kit = made[key]
	}
}

// reach marks a notebook and all that it uses, and that these use, by their names.
func (s *season) reach(b *book, reached map[string]bool) {
	if reached[b.name] {
		return
	}
	reached[b.name] = true
	for _, name := range b.uses {
		if i := slices.IndexFunc(s.books, func(o *book) bool { return o.name == name }); i >= 0 {
			s.reach(s.books[i], reached)
		}
	}
}

// usedBy is the notebooks that one uses, and those that these use, in the order in which
// all are read.
func (s *season) usedBy(b *book) []*book {
	used := map[string]bool{}
	s.reach(b, used)
	return slices.DeleteFunc(slices.Clone(s.books), func(o *book) bool { return !used[o.name] || o == b })
}

// declaredOtherwise is the things that notebooks declare in other words than one
// another.
func declaredOtherwise(books []*book) map[string]bool {
	type saying struct {
		book *book
		text string
	}
	said, differ := map[string]saying{}, map[string]bool{}
	for _, b := range books {
		for _, st := range b.Statements {
			if thing := thingOf(st); thing != "" {
				now := saying{b, strings.Join(strings.Fields(st.Body.Text()), " ")}
				if was, ok := said[thing]; ok && was.book != b && was.text != now.text {
					differ[thing] = true
				}
				said[thing] = now
			}
		}
	}
	return differ
}

// thingOf is what a line declares, "" for any other.
func thingOf(st *lang.Statement) string {
	if len(st.Labels) != 1 || !declares(st.Word) {
		return ""
	}
	return string(st.Word) + " " + strings.ToLower(st.Labels[0].Text)
}

// logs reports whether a notebook has sheets.
func (b *book) logs() bool {
	return slices.ContainsFunc(b.Statements, func(st *lang.Statement) bool { return st.Word == lang.Sheet })
}

func keyOf(books []*book) string {
	var names []string
	for _, b := range books {
		names = append(names, b.name)
	}
	return strings.Join(names, "\n")
}

// declaredFor is the declaring notebooks that those of a folder know, in the order in
// which they count.
func (s *season) declaredFor(folder string) []*book {
	seen := map[string]bool{}
	for _, b := range s.books {
		if lies(folder, path.Dir(b.name)) {
			s.reach(b, seen)
		}
	}
	known := slices.DeleteFunc(slices.Clone(s.books), func(b *book) bool { return !seen[b.name] || !b.declares() })
	slices.SortStableFunc(known, func(a, b *book) int { return cmp.Compare(nearness(folder, a), nearness(folder, b)) })
	return known
}

// nearness is how far down towards a folder a notebook lies; what is only used
// lies farthest, and what lies nearer counts over it.
func nearness(folder string, b *book) int {
	switch in := path.Dir(b.name); {
	case !lies(folder, in):
		return -1
	case in == ".":
		return 0
	default:
		return 1 + strings.Count(in, "/")
	}
}

// lies reports whether a folder is another or lies in it.
func lies(folder, in string) bool {
	return in == "." || folder == in || strings.HasPrefix(folder, in+"/")
}

// declares reports a notebook that says something for others too.
func (b *book) declares() bool {
	return slices.ContainsFunc(b.Statements, func(st *lang.Statement) bool {
		switch st.Word {
		case lang.Reciprocity, lang.Tolerance:
			return true
		case lang.ShutterWord:
			return len(st.Labels) == 1
		case lang.Develop:
			return len(st.Labels) == 0 && firstDay(b) == ""
		}
		return len(st.Labels) == 1 && declares(st.Word)
	})
}

// kitOf is what is known where a sheet was logged.
func kitOf(sh *sheet) *kit {
	if sh.kit != nil {
		return sh.kit
	}
	return sh.outing.book.kit
}

// latest is the kit of the last notebook, for what rests on one kit alone.
func (s *season) latest() *kit {
	if len(s.books) == 0 {
		return &kit{}
	}
	return s.books[len(s.books)-1].kit
}

// all is everything that the kits hold, each thing once, in the order of the kits.
func all[T comparable](s *season, of func(*kit) []T) []T {
	var out []T
	for _, k := range s.kits {
		for _, t := range of(k) {
			if !slices.Contains(out, t) {
				out = append(out, t)
			}
		}
	}
	return out
}
