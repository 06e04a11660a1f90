package compile_test

import (
	"testing"

	"notchbook/compile/record"
)

// A sheet that is right by what was read before is not called so where a line above it says of the
// filter, the lens, the film or the bellows what is not read there; titles and places tell of subjects.
func TestSettingsBesideAnotherMatter(t *testing.T) {
	const kit = "film heath: ISO 100\nfilm moth: ortho, EI 25\ncamera field: 4x5\nlens 150: 150 mm\nlens 210: 210 mm\nfilter Y8: yellow, x2\nfilter O22: orange, x4\nfilm: heath\nlens: 210\nmeter: EV 11\n"
	for line, want := range map[string]record.State{
		"lens: 150   filter: Y8": record.Unchecked, "lens: 150 filter: Y8": record.Unchecked, "film: heath, lens: 150": record.Unchecked, "lens: 210, Y8": record.Unchecked, "lens: 210, yellow": record.Unchecked,
		"lens: 210 at 297 mm": record.Unchecked, "lens: 210, ext 297mm": record.Unchecked, "scene: Gate, filter: Y8": record.Unchecked, "scene: rose, life size": record.Unchecked, "scene: rose with Y8": record.Unchecked,
		"light: dull   Y8": record.Unchecked, "light: dull, filter: Y8": record.Unchecked, "camera: field, filter: Y8": record.Unchecked, "day: 9 May 1986, Cleave, lens: 150, filter: Y8": record.Unchecked,
		"meter: EV 11, ext 297": record.Unchecked, "meter: EV 11, filter: Y8": record.Unchecked, "scene: Gate. Lens: 150": record.Unchecked, "film: heath; filter: none": record.Unchecked, "light: dull, film: moth": record.Unchecked,
		"Lens: 150 | Filter: Y8": record.Unchecked, "scene: Gate, light: lamps": record.Right, "meter: EV 11, lens: 210": record.Right,
		"lens: 210, f5.6": record.Right, "lens: 210 mm": record.Right, "lens: 210 mm f5.6": record.Right, "lens: 210mm at 297mm": record.Unchecked, "lens: 210 -- Y8 left at home": record.Right, "camera: field, 4x5": record.Right, "lens: 210, red dot": record.Right, "lens: 210 (green ring)": record.Right, "camera: field, red bellows": record.Right, "lens: 210, yellow filter": record.Unchecked, "scene: rose without Y8": record.Right,
		"scene: Y8 vs O22": record.Right, "scene: life size statue of the duke": record.Right, "scene: yellow house": record.Right, "scene: Mill at 1:2 slope": record.Right, "scene: rose 1:1": record.Unchecked, "scene: the meter: a study": record.Right, "scene: light: evening": record.Right,
		"light: lamps at ratio 3:1": record.Right, "scene: Heath House, film: the box": record.Right, "day: 9 May 1986, the film: premiere": record.Right, "scene: 210 sheep at 5:30": record.Right,
	} {
		season, list := compileText(kit + line + "\nmeter: EV 11\n1A: f16 1/8\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s %v, want %s; %v", line, sh.State, sh.Needs, want, list)
		}
	}
}
