package html

import (
	"io/fs"
	"net/url"
	"path"
	"strings"

	"notchbook/compile/record"
)

// inSeason checks that a path of the record names something inside the season's
// folder, and cleans it. The record has checked it already; a link is the last
// place where a mistake can be caught. Backslashes are refused because some
// systems take them for slashes, control characters because no one means them.
func inSeason(p string) (string, bool) {
	clean := path.Clean(p)
	odd := strings.ContainsFunc(p, func(r rune) bool { return r < ' ' || r == '\\' || r == 0x7f })
	return clean, p != "" && !odd && clean != "." && fs.ValidPath(clean)
}

// reachable checks the path of a scan: inside the season's folder, or where the
// writer let scans lie elsewhere.
func reachable(s *record.Scan) bool {
	within := s.Path
	for s.Elsewhere && strings.HasPrefix(within, "../") {
		within = within[len("../"):]
	}
	clean, ok := inSeason(within)
	return ok && clean == within
}

// scanURL leads from a page to a scan, "" where it may not.
func (w *site) scanURL(s *record.Scan) string {
	if !reachable(s) || !w.here(s.Path) {
		return ""
	}
	return w.opt.Season + escapePath(s.Path)
}

// fileURL leads from a page to a file of the season's folder, "" where it may
// not. Every segment is percent-encoded, so that "50% #2?.tif" is a name and
// neither a fragment nor a query.
func (w *site) fileURL(p string) string {
	clean, ok := inSeason(p)
	if !ok || !w.here(clean) {
		return ""
	}
	return w.opt.Season + escapePath(clean)
}

func (w *site) here(p string) bool { return w.opt.Here == nil || w.opt.Here(p) }

func escapePath(p string) string {
	if !strings.ContainsFunc(p, reserved) {
		return p
	}
	parts := strings.Split(p, "/")
	for i, s := range parts {
		parts[i] = url.PathEscape(s)
	}
	return strings.Join(parts, "/")
}

// webURL checks the target of a link of the prose: whole addresses of the web
// and of mail, nothing that runs, reads a disk or speaks to another program.
func webURL(raw string) string {
	u, err := url.Parse(raw)
	if err != nil {
		return ""
	}
	switch u.Scheme {
	case "http", "https":
		if u.Host != "" {
			return u.String()
		}
	case "mailto":
		return u.String()
	}
	return ""
}

// reserved reports whether a character may have to be encoded in a path: all but
// the unreserved ones of RFC 3986, section 2.3, and the slash.
func reserved(r rune) bool {
	plain := r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r == '-' || r == '.' || r == '_' || r == '~' || r == '/'
	return !plain
}
