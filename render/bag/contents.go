package bag

import (
	"io"
	"maps"
	"slices"
	"strings"
)

// complete says what is listed and not there, and what is there and not listed
// (RFC 8493, section 3).
func (c *check) complete() {
	var lost, extra []string
	for _, name := range slices.Sorted(maps.Keys(c.wanted)) {
		if _, there := c.files[name]; !there {
			lost = append(lost, name)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(c.files)) {
		if strings.HasPrefix(name, payload) && !c.listed(name) {
			extra = append(extra, name)
		}
	}
	moved := c.moved(lost, extra)
	for _, name := range lost {
		c.missing(name, moved[name])
	}
}

// listed wants a payload file in every list, or before 1.0 in one; it tells
// whether it is in any.
func (c *check) listed(name string) bool {
	if len(c.wanted[name]) == 0 {
		c.add(Problem{Extra, Error, name, 0, "is in no list", "3"})
		return false
	}
	for _, m := range c.lists {
		if m.ofPayload && c.strict() && !c.saidBy(m, name) {
			c.add(Problem{Extra, Error, name, 0, "is not listed in " + m.name, "3"})
		}
	}
	return true
}

// moved looks for the bytes of what is missing among the files that are in no
// list.
func (c *check) moved(lost, extra []string) map[string]string {
	names, makers := map[string]string{}, map[string]*digests{}
	by := map[string]map[string]string{} // the extra files, by algorithm and digest
	for _, name := range lost {
		said := c.wanted[name][len(c.wanted[name])-1]
		algorithm := said.list.algorithm
		if algorithms[algorithm] == nil {
			continue
		}
		if by[algorithm] == nil {
			by[algorithm] = map[string]string{}
			for _, other := range extra {
				if sum, ok := c.sums(other, []string{algorithm}, makers); ok {
					by[algorithm][sum[0]] = other
				}
			}
		}
		names[name] = by[algorithm][said.digest]
	}
	return names
}

func (c *check) missing(name, moved string) {
	message, section := "is missing, listed in "+listNames(c.wanted[name]), "3"
	switch alike := c.folded[foldCase(spelling(name))]; {
	case moved != "":
		message += "; " + quoted(moved) + " has its bytes"
	case c.fetched[name]:
		message, section = "is not there yet: fetch.txt says from where to fetch it", "2.2.3"
	case alike != "":
		message += "; " + quoted(alike) + " differs from it in capitals"
	}
	c.add(Problem{Missing, Error, name, 0, message, section})
}

// checksums reads every listed file once, with all algorithms that its lists have.
func (c *check) checksums() {
	var done, all int64
	for name := range c.wanted {
		all += c.files[name]
	}
	makers := map[string]*digests{}
	for _, name := range slices.Sorted(maps.Keys(c.wanted)) {
		if _, there := c.files[name]; !there {
			continue
		}
		c.checksum(name, makers)
		if done += c.files[name]; c.options.Progress != nil {
			c.options.Progress(done, all)
		}
	}
	c.exchanged()
}

// altered is a file that has other bytes than its lists say.
type altered struct {
	name, algorithm, was, is string // the digests that were listed, and that it has
	problem                  int    // its place in the report
}

// exchanged tells of files with other bytes which other file is listed with these: names
// that were confused are no damage.
func (c *check) exchanged() {
	of := map[string]string{} // a listed file, by what it was
	for _, name := range slices.Sorted(maps.Keys(c.wanted)) {
		for _, w := range c.wanted[name] {
			if key := w.list.algorithm + " " + w.digest; of[key] == "" {
				of[key] = name
			}
		}
	}
	by := map[string]altered{}
	for _, a := range c.altered {
		by[a.name] = a
	}
	for _, a := range c.altered {
		other := of[a.algorithm+" "+a.is]
		if other == "" || other == a.name {
			continue
		}
		text := ": it has those of " + quoted(other)
		if o, too := by[other]; too && o.algorithm == a.algorithm && o.is == a.was {
			text += ", and that one its own: the two have changed places"
		}
		c.report.Problems[a.problem].Message += text
	}
}

// checksum holds one file against its lists.
func (c *check) checksum(name string, makers map[string]*digests) {
	var names []string
	for _, w := range c.wanted[name] {
		if a := w.list.algorithm; algorithms[a] != nil && !slices.Contains(names, a) {
			names = append(names, a)
		}
	}
	sums, ok := c.sums(name, names, makers)
	if !ok {
		return
	}
	var right, wrong []wanted
	for _, w := range c.wanted[name] {
		switch i := slices.Index(names, w.list.algorithm); {
		case i < 0:
		case sums[i] == w.digest:
			right = append(right, w)
		default:
			wrong = append(wrong, w)
		}
	}
	switch {
	case len(wrong) > 0 && len(right) > 0:
		c.add(Problem{Changed, Error, name, 0, "agrees with " + listNames(right) + " and not with " + listNames(wrong), "3"})
	case len(wrong) > 0:
		w := wrong[0]
		c.altered = append(c.altered, altered{name, w.list.algorithm, w.digest, sums[slices.Index(names, w.list.algorithm)], len(c.report.Problems)})
		c.add(Problem{Changed, Error, name, 0, "has other bytes than those listed in " + listNames(wrong), "3"})
	}
}

// sums reads a file with these algorithms; makers keeps what reads with the same.
func (c *check) sums(name string, names []string, makers map[string]*digests) ([]string, bool) {
	key := strings.Join(names, " ")
	if makers[key] == nil {
		makers[key] = newDigests(names...)
	}
	file, err := c.fsys.Open(name)
	if err != nil {
		c.unreadable(name, err)
		return nil, false
	}
	defer file.Close()
	_, sums, err, _ := makers[key].copy(io.Discard, file)
	if err != nil {
		c.unreadable(name, err)
	}
	return sums, err == nil
}
