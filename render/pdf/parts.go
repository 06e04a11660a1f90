package pdf

import (
	"fmt"
	"slices"
	"strings"
)

// parts of the book between the contents and the colophon, in their order.
var parts = []struct {
	name  string
	write func(*book)
}{
	{"summary", (*book).summary},
	{"findings", (*book).findings},
	{"unchecked", (*book).unchecked},
	{"develop", (*book).develop},
	{"outings", (*book).chapters},
	{"scenes", (*book).scenes},
	{"holders", (*book).holders},
	{"negatives", (*book).negatives},
	{"losses", (*book).losses},
	{"years", (*book).years},
	{"kit", (*book).kit},
	{"tests", (*book).tests},
	{"contacts", (*book).contacts},
	{"scans", (*book).scans},
	{"indexes", (*book).indexes},
}

// Parts names what Options.Parts may choose from, in the order of the book.
func Parts() []string {
	var names []string
	for _, p := range parts {
		names = append(names, p.name)
	}
	return names
}

// known refuses names that are no part's.
func known(names []string) error {
	for _, n := range names {
		if !slices.Contains(Parts(), n) {
			return fmt.Errorf("pdf: the book has no part %q, only %s", n, strings.Join(Parts(), ", "))
		}
	}
	return nil
}

// has reports whether the book holds a part: chosen, and not empty where an
// empty one says nothing. Indexes are lists of pages of the entries and fall
// away with them.
func (b *book) has(name string) bool {
	if len(b.options.Parts) > 0 && !slices.Contains(b.options.Parts, name) {
		return false
	}
	s := b.season
	switch name {
	case "develop":
		d := &s.ToDevelop
		return len(d.Batches)+len(d.Held)+len(d.Otherwise) > 0
	case "scenes":
		return len(b.besideScenes()) > 0
	case "holders":
		return len(s.Holders) > 0
	case "negatives":
		n := &s.Negatives
		return len(n.Numbered)+len(n.Unlogged)+len(n.Without)+len(n.Unfiled) > 0
	case "losses":
		return len(s.Losses) > 0
	case "years":
		return len(s.Years) > 1 || len(s.Places) > 0
	case "tests":
		return len(s.Tests) > 0
	case "scans":
		return len(s.Scans) > 0
	case "contacts":
		return len(b.contactSheets()) > 0
	case "indexes":
		return len(s.Indexes) > 0 && b.has("outings")
	}
	return true
}
