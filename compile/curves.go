package compile

import (
	"errors"
	"fmt"
	"path"
	"strings"

	"notchbook/compile/spectral"
	"notchbook/lang"
	"notchbook/lang/source"
)

// The writer's own curves of filters and films, read from the files that the kit names.

// ownCurve is such a curve.
type ownCurve struct {
	spectral.Measured
	file string // in the season's folder
	at   source.Span
}

// ownCurve reads the curve that a term names; nil, and a finding, where it cannot.
func (s *season) ownCurve(t *lang.Term, of lang.Word) *ownCurve {
	_, name, _ := strings.Cut(t.Span.Text(), " ")
	name = strings.TrimSpace(name)
	full, bad := scanPath(t.Span.File.Name, name)
	if bad != "" {
		s.report("curve-unreadable", t.Span, full+" "+bad)
		return nil
	}
	text, err := s.world.Read(full)
	if err != nil {
		s.report("curve-unreadable", t.Span, strings.TrimSuffix(err.Error(), "."))
		return nil
	}
	if s.curveFiles == nil {
		s.curveFiles = map[string][]byte{}
	}
	s.curveFiles[full] = text
	m, err := spectral.Read(text)
	var fault *spectral.Fault
	switch {
	case errors.As(err, &fault) && fault.Line > 0:
		s.report("curve-unreadable", t.Span, fmt.Sprintf("%s, line %d: %s", path.Base(full), fault.Line, fault.Text))
		return nil
	case err != nil:
		s.report("curve-unreadable", t.Span, path.Base(full)+": "+err.Error())
		return nil
	case m.Quantity.OfFilm() != (of == lang.Film):
		s.report("curve-unreadable", t.Span, fmt.Sprintf("%s holds %s, which is no %s's", path.Base(full), m.Quantity, of))
		return nil
	}
	return &ownCurve{*m, full, t.Span}
}

// text says what was read, so that a curve read otherwise than meant is seen.
func (c *ownCurve) text() string {
	if c == nil {
		return ""
	}
	return fmt.Sprintf("%s: %s, %d readings from %s to %s nm", c.file, c.Quantity, c.Readings, trim(c.From), trim(c.To))
}
