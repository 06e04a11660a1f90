package compile

import (
	"fmt"
	"path"
	"strings"

	"notchbook/lang"
)

// How scans were made, as far as a scan line says it: whether their levels are
// proportional to the light that the film lets through, and whether their
// settings were those of others, so that levels can be compared.

// tone is what is stated of a scan.
type tone struct {
	linear, auto bool
	private      bool   // none is to be shown to others
	settings     string // scans of the same were made alike; "" not stated
	as           *sheet // they were made as this one's
}

// add puts a later statement over an earlier one.
func (t *tone) add(more tone) {
	t.linear, t.auto, t.private = t.linear || more.linear, t.auto || more.auto, t.private || more.private
	if more.settings != "" || more.as != nil {
		t.settings, t.as = more.settings, more.as
	}
}

// toneOf reads the words of a scan line that name no file. Others than these,
// such as a scanner's name, are the writer's own.
func (r *resolver) toneOf(st *lang.Statement) tone {
	var t tone
	for _, each := range r.scanParts(r.book.name, st.StandingText()) {
		part := each.text
		low := strings.ToLower(part)
		label, as := strings.CutPrefix(low, "settings as ")
		switch {
		case path.Ext(part) != "":
		case low == "linear":
			t.linear = true
		case low == "auto":
			t.auto = true
		case low == "private":
			t.private = r.world.Public
		case low == "same settings":
			t.settings = fmt.Sprintf("%s:%d", st.Span.File.Name, st.Span.File.Position(st.Span.Start).Line)
		case as:
			if t.as = r.bearer(lang.Label{Text: strings.TrimSpace(label)}); t.as == nil {
				r.report("no-such-sheet", st.TextSpan(), "no sheet above this line is "+strings.TrimSpace(part[len("settings as "):]))
			}
		case len(low) > 4 && lang.Slips(low, "linear") == 1:
			r.report("nearly-a-term", st.TextSpan(), quote(part)+" is no term, but nearly one").note("linear is near; as it stands it is kept as a remark")
		}
	}
	r.tones[st] = t
	return t
}

// shareTones assumes that every sheet has its scans. What is said of a sheet's
// scans holds for each of them, and scans that were made as another's are given
// the settings of that one.
func (r *resolver) shareTones() {
	for _, sh := range r.sheets {
		for _, ref := range sh.scans {
			ref.tone.add(sh.tone)
		}
	}
	for _, ref := range r.scans {
		for hops := 0; ref.tone.as != nil && hops < len(r.scans); hops++ {
			ref.tone = ref.tone.after()
		}
		ref.tone.as = nil
	}
}

// after is a tone one step nearer to the scan whose settings it took.
func (t tone) after() tone {
	as := t.as
	t.as = nil
	if len(as.scans) == 0 {
		t.settings = "as " + as.id
		return t
	}
	model := &as.scans[0].tone
	if model.settings == "" && model.as == nil {
		model.settings = "as " + as.id
	}
	t.settings, t.as = model.settings, model.as
	return t
}
