package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
)

// How far the bellows were out is said at a sheet. A line by itself that says it is reported, and what
// stands below it is not checked but for sheets that say it themselves.
func TestExtensionInALineOfItsOwn(t *testing.T) {
	for _, said := range []string{
		"camera ext 290mm for the near chain.", "camera: field, ext 290mm", "camera: ext 290mm for the near chain.", "Camera extended to 290 mm.",
		"ext 290mm for the near chain", "bellows 290mm", "Bellows out to 290 for the near chain.", "Extension: 290 mm", "ext: 290mm", "lens: 210, ext 290mm",
		"bellows factor 2", "\nThe bellows were out to 290 mm here.\n",
	} {
		season, list := compileText("camera field: ext 70-400 mm\n" + wordingKit + "scene: wall\nmeter: EV 12\nlens: 210\n" + said + "\n1A: ext 210mm, f8 1/60\n1B: f8 1/60\nscene: gate\nmeter: EV 12\n2A: f8 1/60\n")
		first, second, other := season.Sheets[0], season.Sheets[1], season.Sheets[2]
		if first.State != record.Right || second.State != record.Unchecked || other.State != record.Right || len(list) == 0 {
			t.Errorf("%s: %s, %s, %s\n%v", said, first.State, second.State, other.State, list)
		}
	}
	for _, said := range []string{"Last year the bellows were out to 290 mm.", "The old bellows leaked.", "The bellows were out to 210 mm, for what it is worth."} {
		season, list := compileText(wordingKit + "scene: wall\nmeter: EV 12\nlens: 210\n1A: ext 210mm, f8 1/60\n\n" + said + "\n\n1B: f8 1/60\n")
		if sh := season.Sheets[1]; sh.State != record.Right || len(list) > 0 {
			t.Errorf("%s: %s\n%v", said, sh.State, list)
		}
	}
}

// An extension that the lens cannot have names the unit that was taken, where none is written.
func TestExtensionWithoutUnit(t *testing.T) {
	for said, want := range map[string]string{
		"bellows 30": "no unit is written, and millimetres were taken", "ext 30mm": "less than half of the focal length",
	} {
		season, _ := compileText(wordingKit + "scene: wall\nmeter: EV 12\n1A: f8 1/60, " + said + "\n")
		if sh := season.Sheets[0]; sh.State != record.Unchecked || !strings.HasSuffix(strings.Join(sh.Needs, "; "), want) {
			t.Errorf("%s: %s, %v", said, sh.State, sh.Needs)
		}
	}
}
