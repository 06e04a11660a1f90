package bag

import (
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// leadsOut says why a path in a manifest must not be followed: it could mean a
// file outside the bag on some system (RFC 8493, section 5.1). "" means it stays
// inside.
func leadsOut(name string) string {
	switch {
	case strings.HasPrefix(name, "/"), strings.HasPrefix(name, `\`):
		return "begins at the root of a disk"
	case strings.HasPrefix(name, "~"):
		return "begins with ~, which may be read as a home folder"
	case len(name) > 1 && name[1] == ':' && isLetter(name[0]):
		return "begins with the letter of a drive"
	case strings.ContainsRune(name, 0):
		return "holds a null character"
	case slices.Contains(strings.FieldsFunc(name, func(c rune) bool { return c == '/' || c == '\\' }), ".."):
		return "climbs out of its folder with .."
	}
	return ""
}

func isLetter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }

// clean is the path without what leads nowhere: "./", "//".
func clean(name string) (string, bool) {
	if fs.ValidPath(name) {
		return name, true
	}
	cleaned := path.Clean(name)
	return cleaned, fs.ValidPath(cleaned) && cleaned != "."
}

// spelling is the form in which names are compared that look the same: one
// character sequence for each way to compose the same letters.
func spelling(name string) string { return norm.NFC.String(name) }

// foldCase is the form in which names are compared that differ only in capitals.
func foldCase(name string) string { return cases.Fold().String(name) }

// reservedOnWindows are the names that Windows keeps for devices, with or without
// an ending (RFC 8493, section 6.1.2).
var reservedOnWindows = []string{
	"con", "prn", "aux", "nul", "com1", "com2", "com3", "com4", "com5", "com6", "com7", "com8", "com9",
	"lpt1", "lpt2", "lpt3", "lpt4", "lpt5", "lpt6", "lpt7", "lpt8", "lpt9",
}

// longestOnWindows is the most characters a path may have there.
const longestOnWindows = 255

// troublesOnWindows says what a Windows system would make of a path, "" where it
// can hold it (RFC 8493, section 6.1.2).
func troublesOnWindows(name string) string {
	if len([]rune(name)) > longestOnWindows {
		return "is longer than Windows can hold"
	}
	for part := range strings.SplitSeq(name, "/") {
		stem, _, _ := strings.Cut(part, ".")
		switch {
		case strings.ContainsAny(part, `<>:"\|?*`), strings.ContainsFunc(part, func(c rune) bool { return c < ' ' }):
			i := strings.IndexFunc(part, func(c rune) bool { return c < ' ' || strings.ContainsRune(`<>:"\|?*`, c) })
			if part[i] < ' ' {
				return "has a control character, which Windows cannot hold in a name"
			}
			return "has " + part[i:i+1] + ", which Windows cannot hold in a name"
		case slices.Contains(reservedOnWindows, strings.ToLower(strings.TrimSpace(stem))):
			return "is a name that Windows keeps for a device"
		case part != "" && strings.TrimRight(part, ". ") != part:
			return "ends in a dot or blank, which Windows drops"
		}
	}
	return ""
}

// names says which names not every system can hold or tell apart (RFC 8493,
// sections 6.1.1 and 6.1.2).
func (c *check) names() {
	all := map[string]bool{}
	for name := range c.files {
		all[name] = true
	}
	for name := range c.wanted {
		all[name] = true
	}
	alike := map[string]string{}
	for _, name := range slices.Sorted(maps.Keys(all)) {
		key := foldCase(spelling(name))
		switch other := alike[key]; {
		case other == "":
			alike[key] = name
		case spelling(other) == spelling(name):
			c.add(Problem{Names, Warning, name, 0, "differs from " + quoted(other) + " only in how its letters are composed", "6.1.1.3"})
		default:
			c.add(Problem{Names, Warning, name, 0, "differs from " + quoted(other) + " only in capitals", "6.1.1.3"})
		}
		if why := troublesOnWindows(name); why != "" {
			c.add(Problem{Names, Note, name, 0, why, "6.1.2"})
		}
	}
}
