package main

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"notchbook/compile/record"
	"notchbook/lang/diag"
)

// move is one rename, by paths within the season.
type move struct{ from, to string }

// step is a move of a plan, and what speaks for it.
type step struct {
	move
	why string
}

// byCount speaks for a rename that nothing but the number of files suggests: it is shown, and
// carried out by who has looked.
const byCount = "as many files as names, in order: look whether it is so"

func steps(moves []move, why string) (steps []step) {
	for _, m := range moves {
		steps = append(steps, step{m, why})
	}
	return steps
}

// plan gives the renames by which files come to stand where the notes expect
// them, in an order in which none takes the place of another; and what it would
// not decide. What the digests say is certain. A slip moves a run as a whole. A name
// that differs from the one asked for in the case of letters only is that one.
// Else files that no sheet names are matched with the names of their kind that are missing
// in the same folder, both in order, if there are as many of the one as of the
// other. Files of one name but for its ending stay together, and sidecars go with their scans.
func (a *audit) plan() (plan []step, undecided []string) {
	for _, m := range a.moved {
		if leadsOut(m.from) || leadsOut(m.to) {
			undecided = append(undecided, m.from+" is now "+m.to+": nothing outside the season's folder is renamed")
			continue
		}
		plan = append(plan, step{move{m.to, m.from}, "the same bytes as in the last record"})
	}
	for _, s := range a.slips {
		plan = append(plan, steps(s.moves(), s.text())...)
	}
	lost, missing := a.leftover()
	pairs := sameButForCase(lost, missing)
	for _, m := range pairs {
		plan = append(plan, step{m, "the same name but for the case of letters"})
		lost = slices.DeleteFunc(lost, func(name string) bool { return name == m.from })
		missing = slices.DeleteFunc(missing, func(name string) bool { return name == m.to })
	}
	for _, folder := range foldersOf(missing) {
		want := inFolder(folder, missing)
		have := ofKind(inFolder(folder, lost), path.Ext(want[0]))
		switch {
		case len(have) == 0:
		case len(have) != len(want):
			undecided = append(undecided, fmt.Sprintf("%s: %s for %s: it cannot be told which is which",
				folder, plural(len(have), "file that no sheet names", "files that no sheet names"), plural(len(want), "missing name", "missing names")))
		case !sameKinds(have, want):
			undecided = append(undecided, fmt.Sprintf("%s: the files that no sheet names are of other kinds than the missing names", folder))
		default:
			slices.SortStableFunc(have, naturally)
			for i := range have {
				plan = append(plan, step{move{have[i], want[i]}, byCount})
			}
		}
	}
	plan, left := a.withFollowers(plan)
	return plan, append(undecided, left...)
}

// sameButForCase pairs names that are equal when the case of letters is ignored, where
// there is but one of each.
func sameButForCase(have, want []string) (pairs []move) {
	like := func(names []string, name string) (found []string) {
		for _, n := range names {
			if strings.EqualFold(n, name) {
				found = append(found, n)
			}
		}
		return found
	}
	for _, name := range want {
		if found := like(have, name); len(found) == 1 && len(like(want, name)) == 1 {
			pairs = append(pairs, move{found[0], name})
		}
	}
	return pairs
}

// ofKind is the files of the ending that the missing names have, all where none is of it.
func ofKind(names []string, ext string) []string {
	other := func(name string) bool { return !strings.EqualFold(path.Ext(name), ext) }
	if some := slices.DeleteFunc(slices.Clone(names), other); len(some) > 0 {
		return some
	}
	return names
}

// withFollowers lets files that no sheet names, and sidecars, follow the scans whose names they
// have. A sidecar whose name would fit a file that stays as well, and what would come to stand where
// another is, stays and is named.
func (a *audit) withFollowers(plan []step) (all []step, left []string) {
	for _, m := range plan {
		together := []step{m}
		for _, s := range a.orphans {
			if withoutExt(s.Path) == withoutExt(m.from) && !slices.ContainsFunc(plan, func(o step) bool { return o.from == s.Path }) {
				together = append(together, step{move{s.Path, withoutExt(m.to) + path.Ext(s.Path)}, m.why})
			}
		}
		all = append(all, together...)
		for _, name := range a.others {
			stem := withoutExt(name)
			owner := slices.IndexFunc(together, func(o step) bool { return stem == o.from })
			switch {
			case !isSidecar(name):
			case owner >= 0: // behind the whole name
				all = append(all, step{move{name, together[owner].to + path.Ext(name)}, m.why})
			case stem != withoutExt(m.from):
			case a.alike(stem) > len(together):
				left = append(left, name+" keeps its name: it cannot be told which of the files called so it is the sidecar of")
			default:
				all = append(all, step{move{name, withoutExt(m.to) + path.Ext(name)}, m.why})
			}
		}
	}
	// One that stays is in the way of the next.
	for {
		i := slices.IndexFunc(all, func(m step) bool { return !slices.Contains(plan, m) && a.taken(m, all) })
		if i < 0 {
			return all, left
		}
		left = append(left, fmt.Sprintf("%s keeps its name: %s is there already", all[i].from, all[i].to))
		all = slices.Delete(all, i, i+1)
	}
}

// taken reports whether the name to which a step leads is that of a file that stays, or of another
// that comes to have it.
func (a *audit) taken(m step, all []step) bool {
	if slices.ContainsFunc(all, func(o step) bool { return o.to == m.to && o.from != m.from }) {
		return true
	}
	there := slices.Contains(a.others, m.to) || slices.ContainsFunc(a.season.Scans, func(s *record.Scan) bool {
		return s.Path == m.to && s.State != record.Missing && s.State != record.Outside
	})
	return there && !slices.ContainsFunc(all, func(o step) bool { return o.from == m.to })
}

// alike is how many files, sidecars left out, have a name but for its ending.
func (a *audit) alike(stem string) (n int) {
	for _, s := range a.season.Scans {
		if s.State != record.Missing && s.State != record.Outside && withoutExt(s.Path) == stem {
			n++
		}
	}
	for _, name := range a.others {
		if !isSidecar(name) && withoutExt(name) == stem {
			n++
		}
	}
	return n
}

// isSidecar tells a sidecar by its ending.
func isSidecar(name string) bool { return strings.EqualFold(path.Ext(name), ".xmp") }

// withoutExt is a path without its ending.
func withoutExt(name string) string { return strings.TrimSuffix(name, path.Ext(name)) }

// sameKinds reports whether names have one ending between them.
func sameKinds(have, want []string) bool {
	return !slices.ContainsFunc(slices.Concat(have, want), func(name string) bool { return !strings.EqualFold(path.Ext(name), path.Ext(want[0])) })
}

// leadsOut tells a path that leaves the season's folder.
func leadsOut(name string) bool { return strings.HasPrefix(name, "../") }

func foldersOf(names []string) (folders []string) {
	for _, n := range names {
		if dir := path.Dir(n); !slices.Contains(folders, dir) {
			folders = append(folders, dir)
		}
	}
	return folders
}

func inFolder(folder string, names []string) (some []string) {
	for _, n := range names {
		if path.Dir(n) == folder {
			some = append(some, n)
		}
	}
	return some
}

// naturally compares names with the numbers in them as numbers: 9 before 10.
func naturally(a, b string) int {
	for a != "" && b != "" {
		m, n := digits(a), digits(b)
		if m > 0 && n > 0 {
			x, y := strings.TrimLeft(a[:m], "0"), strings.TrimLeft(b[:n], "0")
			if len(x) != len(y) {
				return len(x) - len(y)
			}
			if x != y {
				return strings.Compare(x, y)
			}
			a, b = a[m:], b[n:]
			continue
		}
		if a[0] != b[0] {
			return int(a[0]) - int(b[0])
		}
		a, b = a[1:], b[1:]
	}
	return len(a) - len(b)
}

// digits is how many digits a text begins with.
func digits(s string) int {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return n
}

// script is a plan for a POSIX shell: mv -n takes no file's place.
func script(head string, plan []step) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n", head)
	why := ""
	for _, m := range plan {
		if m.why != why {
			why = m.why
			fmt.Fprintf(&b, "\n# %s\n", diag.Clean(why)) // a comment is one line
		}
		fmt.Fprintf(&b, "mv -n -- %s %s\n", shell(m.from), shell(m.to))
	}
	return b.String()
}

// undoScript takes a plan back, from its end, and also one of which only some
// was carried out: what was not renamed has its old name still, and a file whose
// renaming was cut off has both (-ef tells two names of one file).
func undoScript(plan []step) string {
	var b strings.Builder
	b.WriteString("#!/bin/sh\n# Gives the scans the names they had before.\ncd \"$(dirname \"$0\")\" || exit 1\n")
	for _, m := range slices.Backward(plan) {
		from, to := shell(m.from), shell(m.to)
		fmt.Fprintf(&b, "if [ ! -e %s ]; then mv -n -- %s %s; elif [ %s -ef %s ]; then rm -- %s; fi\n", from, to, from, from, to, to)
	}
	return b.String()
}

// shell quotes a name for a POSIX shell, whatever is in it. A name that begins
// with a hyphen stands behind --.
func shell(name string) string { return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'" }
