package data

import (
	"io"

	"notchbook/compile/record"
)

// Audit is what is amiss between the sheets, the scans and what earlier records knew of
// their bytes. Names are paths within the season.
type Audit struct {
	Scans            int  // in the season, there or not
	Files            int  // those that are there
	Compared         bool // there was a record to compare with
	Missing, Orphans []string
	Unreadable       []*record.Scan
	ClaimedTwice     []*record.Scan
	Changed, Gone    []Altered
	Moved, Renamed   [][2]string // from, to
	Copies           [][2]string // a file, and the scan that has the same bytes
	Slips, Gaps      []string    // sentences
}

// Altered is a scan whose bytes are not under its name any more.
type Altered struct {
	Path   string   `json:"path"`
	SHA256 string   `json:"sha256"` // now, "" where there is no file
	Was    string   `json:"was"`    // in an earlier record
	Had    string   `json:"had"`    // the name that an earlier record knew its bytes by, "" where none
	Same   []string `json:"same"`   // files that have the bytes of before
}

type badScanJSON struct {
	Path string `json:"path"`
	Why  string `json:"why"`
}

type claimedJSON struct {
	Path   string   `json:"path"`
	Sheets []string `json:"sheets"`
}

type renamedJSON struct {
	From string `json:"from"`
	To   string `json:"to"`
}

type copyJSON struct {
	Path string `json:"path"`
	Of   string `json:"of"`
}

// Write writes it as one JSON object.
func (a Audit) Write(w io.Writer) error {
	return indented(w, map[string]any{
		"format": "notchbook scans", "version": 1, "scans": a.Scans, "files": a.Files, "compared": a.Compared,
		"missing": list(a.Missing), "orphans": list(a.Orphans), "slips": list(a.Slips), "gaps": list(a.Gaps),
		"unreadable":   each(a.Unreadable, func(s *record.Scan) badScanJSON { return badScanJSON{s.Path, s.Why} }),
		"claimedTwice": each(a.ClaimedTwice, func(s *record.Scan) claimedJSON { return claimedJSON{s.Path, idsOf(s.Sheets)} }),
		"changed":      each(a.Changed, listed), "gone": each(a.Gone, listed),
		"moved":   each(a.Moved, func(m [2]string) renamedJSON { return renamedJSON{m[0], m[1]} }),
		"renamed": each(a.Renamed, func(m [2]string) renamedJSON { return renamedJSON{m[0], m[1]} }),
		"copies":  each(a.Copies, func(m [2]string) copyJSON { return copyJSON{m[0], m[1]} }),
	})
}

func listed(a Altered) Altered { a.Same = list(a.Same); return a }

func each[A, B any](all []A, to func(A) B) []B {
	out := make([]B, 0, len(all))
	for _, a := range all {
		out = append(out, to(a))
	}
	return out
}
