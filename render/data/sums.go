package data

import (
	"bufio"
	"io"
	"maps"
	"slices"
	"strings"

	"notchbook/compile/record"
)

// Sums writes the digest of every scan that was read in full, in the form of
// GNU coreutils' sha256sum, so that `sha256sum -c` checks the scans with nothing
// of ours. folder leads from the file's folder to the season's and ends with a
// slash, unless it is empty.
func Sums(w io.Writer, s *record.Season, folder string) error {
	b := bufio.NewWriter(w)
	for _, scan := range s.Scans {
		if scan.SHA256 != "" && scan.State != record.Outside {
			b.WriteString(sumLine(scan.SHA256, folder+scan.Path))
		}
	}
	return b.Flush()
}

// FormerSums writes, in the same form and in the order of names, digests that files had.
func FormerSums(w io.Writer, former map[string]string, folder string) error {
	b := bufio.NewWriter(w)
	for _, name := range slices.Sorted(maps.Keys(former)) {
		b.WriteString(sumLine(former[name], folder+name))
	}
	return b.Flush()
}

// sumLine is one line. A name that would break it is escaped, and a backslash
// in front of the line says so.
func sumLine(digest, name string) string {
	escaped := sumEscapes.Replace(name)
	if escaped != name {
		digest = `\` + digest
	}
	return digest + "  " + escaped + "\n"
}

var sumEscapes = strings.NewReplacer(`\`, `\\`, "\n", `\n`, "\r", `\r`)
