package lsp

import (
	"strings"
	"text/tabwriter"

	"notchbook/compile"
	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/render/saying"
)

// hover says what is meant by what is under the pointer: a thing of the kit by
// its declaration, a sheet by its reasoning.
func (s *server) hover(v view, p positionParams) (any, error) {
	at := v.doc.offset(p.Position)
	n, named := v.naming(at)
	if named && n.Kind != compile.ASheet {
		if text := v.thing(n); text != "" {
			return hover{markup{"plaintext", text}, s.place(v.season, n.Span)}, nil
		}
	}
	sheets := v.check().SheetsAt(v.name, at)
	if len(sheets) == 0 {
		return nil, nil
	}
	start, end := v.doc.line(p.Position.Line)
	return hover{markup{"plaintext", sheetsText(sheets)}, v.doc.span(start, end)}, nil
}

// whole is how many sheets of one line are explained; of more, each has a line.
const whole = 4

func sheetsText(sheets []*record.Sheet) string {
	var all []string
	if len(sheets) <= whole {
		for _, sh := range sheets {
			all = append(all, sheetText(sh))
		}
		return strings.Join(all, "\n\n")
	}
	var b strings.Builder
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	for _, sh := range sheets {
		difference := ""
		if sh.Difference.Known {
			difference = exposure.FormatStops(sh.Difference.Value)
		}
		w.Write([]byte(strings.TrimRight(sh.ID+"\t"+string(sh.State)+"\t"+difference, "\t") + "\n"))
	}
	w.Flush()
	return strings.TrimRight(b.String(), "\n")
}

// sheetText is a sheet as a ladder of stops in words: what was read, what each
// step takes, what that asks for, what was given, and the gap.
func sheetText(sh *record.Sheet) string {
	var b strings.Builder
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	row := func(name, value, more string) {
		w.Write([]byte(strings.TrimRight(name+"\t"+value+"\t"+more, "\t") + "\n"))
	}
	row(sh.ID, string(sh.State), saying.Join(", ", sh.Film, sh.Lens))
	var areas []record.Area
	if r := sh.Reading; r != nil {
		row("read", saying.EV(r.EV), r.Text)
		areas = r.Areas
	}
	for _, st := range sh.Steps {
		row(st.Name, exposure.FormatStops(-st.Stops), st.Detail)
	}
	if sh.Asked.EV.Known {
		row("asked", exposure.FormatEV(sh.Asked.EV.Value), settings(sh.Asked))
	}
	if sh.Given.EV.Known {
		row("given", exposure.FormatEV(sh.Given.EV.Value), settings(sh.Given))
	}
	if sh.Difference.Known {
		row("difference", exposure.FormatStops(sh.Difference.Value), saying.Join(", ", saying.Gap(sh), saying.GapOf(sh)))
	}
	for _, a := range areas {
		if text := strings.Join(saying.Zones(&a), ", "); text != "" {
			row(a.Name, text, "")
		}
	}
	for i, c := range sh.Choices {
		row([]string{"right", ""}[min(i, 1)], c.Time+" "+c.Aperture, c.Kind)
	}
	for _, need := range sh.Needs {
		row("it would take", need, "")
	}
	w.Flush()
	return strings.TrimRight(b.String(), "\n")
}

func settings(s record.Settings) string { return saying.Join(" ", s.Time, s.Aperture) }
