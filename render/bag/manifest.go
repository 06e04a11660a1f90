package bag

import (
	"encoding/hex"
	"path"
	"strings"
)

// manifest is a list of digests as it was read.
type manifest struct {
	name      string
	algorithm string // normalized
	ofPayload bool
	entries   []listed
}

// listed is one line of a manifest, or of fetch.txt.
type listed struct {
	line   int
	digest string // in lower case
	path   string // decoded; "" where the line names nothing that may be looked at
}

// manifestAlgorithm takes the name of a manifest apart.
func manifestAlgorithm(name string) (algorithm string, ofPayload, ok bool) {
	stem, ok := strings.CutSuffix(name, ".txt")
	if !ok {
		return "", false, false
	}
	if algorithm, ok = strings.CutPrefix(stem, "manifest-"); ok {
		return algorithm, true, algorithm != ""
	}
	algorithm, ok = strings.CutPrefix(stem, "tagmanifest-")
	return algorithm, false, ok && algorithm != ""
}

// parseManifest reads the lines of a manifest. Every line that is not as it must
// be is a problem and none of the others suffers from it.
func (c *check) parseManifest(name, algorithm string, ofPayload bool) *manifest {
	m := &manifest{name: name, algorithm: normalized(algorithm), ofPayload: ofPayload}
	if m.algorithm != algorithm {
		c.form(name, 0, "2.4", "does not name its algorithm in lower case letters and digits alone")
	}
	size := 0 // of a digest; 0 where the algorithm is unknown
	if hash := algorithms[m.algorithm]; hash != nil {
		size = hash().Size()
	}
	for _, l := range c.read(name) {
		if e, ok := c.parseLine(m, l, size); ok {
			m.entries = append(m.entries, e)
		}
	}
	return m
}

// parseLine reads a line of checksum, blanks and path.
func (c *check) parseLine(m *manifest, l line, size int) (listed, bool) {
	end := strings.IndexAny(l.text, " \t")
	if strings.TrimSpace(l.text) == "" {
		c.loose(m.name, l.number, "2.1.3", "is empty")
		return listed{}, false
	}
	if end < 0 {
		c.form(m.name, l.number, "2.1.3", "is no checksum with a path behind it")
		return listed{}, false
	}
	digest, name := l.text[:end], strings.TrimLeft(l.text[end:], " \t")
	digest, escaped := strings.CutPrefix(digest, `\`)
	if raw, err := hex.DecodeString(digest); err != nil || digest == "" || size > 0 && len(raw) != size {
		c.form(m.name, l.number, "2.1.3", "has no checksum of "+m.algorithm)
		return listed{}, false
	}
	name = c.legacy(m.name, l.number, name, escaped)
	name, ok := c.place(m.name, l.number, name)
	return listed{l.number, strings.ToLower(digest), name}, ok
}

// legacy undoes what checksum tools write otherwise than the format has it: an
// asterisk before the path, and a backslash before the checksum where the path's
// own are doubled (RFC 8493, section 6.1.3).
func (c *check) legacy(list string, number int, name string, escaped bool) string {
	if starred, ok := strings.CutPrefix(name, "*"); ok {
		c.add(Problem{Form, Warning, list, number, "has the asterisk of a checksum tool before its path, which a strict check refuses", "6.1.3"})
		name = starred
	}
	if escaped {
		c.add(Problem{Form, Warning, list, number, "has the backslash of a checksum tool before its checksum, which a strict check refuses", "6.1.3"})
		name = strings.NewReplacer(`\\`, `\`, `\n`, "\n", `\r`, "\r").Replace(name)
	}
	return name
}

// place decodes a path and makes sure that it stays inside the bag.
func (c *check) place(list string, number int, name string) (string, bool) {
	name = c.decode(list, number, name)
	if why := leadsOut(name); why != "" {
		c.form(list, number, "5.1", "names "+quoted(name)+", which "+why)
		return "", false
	}
	cleaned, ok := clean(name)
	if !ok {
		c.form(list, number, "2.1.3", "names "+quoted(name)+", which is no path")
		return "", false
	}
	if cleaned != name {
		c.add(Problem{Form, Warning, list, number, "names " + quoted(name) + " and means " + quoted(cleaned), "2.1.3"})
	}
	return cleaned, true
}

// decode undoes the percent-encoding. Before 1.0 a percent sign might stand for
// itself: there the name that is in the bag counts.
func (c *check) decode(list string, number int, name string) string {
	if !strings.Contains(name, "%") {
		return name
	}
	decoded := decodePath.Replace(name)
	if !c.strict() {
		if _, there := c.files[path.Clean(name)]; there {
			return name
		}
		return decoded
	}
	bare := strings.NewReplacer("%25", "", "%0A", "", "%0a", "", "%0D", "", "%0d", "").Replace(name)
	if strings.Contains(bare, "%") {
		c.form(list, number, "2.1.3", "has a percent sign in its path that is not encoded as %25")
	}
	return decoded
}
