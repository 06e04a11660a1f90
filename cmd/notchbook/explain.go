package main

import (
	"fmt"
	"io"
	"strings"

	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/compile/slip"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/render/saying"
)

// explainCommand prints a rule of the catalogue, or one sheet's reasoning.
type explainCommand struct {
	Code string `arg:"" optional:"" name:"code, sheet or scene" help:"Code of a finding or of a cause; a sheet: its label, its id (2026-10-04 3A) or its negative's number; or a scene by its title: what its filters did beside the control. Without one, all codes are listed."`
	Path string `arg:"" optional:"" default:"." help:"Notebook or folder of notebooks, for a sheet or a scene. Default: the current folder."`
	audience
}

// Run explains.
func (c *explainCommand) Run(t terminal) error {
	if c.Code == "" {
		return list(t.out)
	}
	code := strings.Trim(strings.ToLower(c.Code), "[]")
	if h, ok := slip.Lookup(code); ok {
		explainSlip(t.out, h)
		return nil
	}
	if silent, ok := slip.LookupSilent(code); ok {
		fmt.Fprintf(t.out, "%s: %s\n\n%s\n", silent.Slug, silent.Title, wrap(silentText, 78))
		return nil
	}
	rule := diag.Lookup(code)
	if rule.Title == "" {
		return c.sheet(t, code)
	}
	fmt.Fprintf(t.out, "%s: %s\n\n%s\n", rule.Code, rule.Title, wrap(rule.Text, 78))
	if rule.Bad != "" && printable(rule.Bad) {
		fmt.Fprintf(t.out, "\nThis is reported as %s:\n\n%s\nThis is not:\n\n%s", article(rule.Severity.String()), indent(rule.Bad), indent(rule.Good))
	}
	return nil
}

// sheet prints one sheet's reasoning, or a scene's comparison. A single word without
// a figure, and no notebook named, was meant for a code.
func (c *explainCommand) sheet(t terminal, code string) error {
	if !strings.ContainsAny(code, "0123456789 ") && c.Path == "." {
		return fmt.Errorf("there is no finding %q%s", c.Code, nearestCode(code))
	}
	r, err := c.quickly([]string{c.Path}, t)
	if err != nil {
		return err
	}
	defer r.close()
	switch all := compile.Explain(r.world(), c.Code, r.names...); len(all) {
	case 0:
		return c.scene(t, r)
	case 1:
		explainSheet(t.out, all[0])
		return nil
	default:
		var ids []string
		for _, e := range all {
			ids = append(ids, fmt.Sprintf("%q", e.Sheet.ID))
		}
		return fmt.Errorf("%s is the label of %d sheets: name one of %s", c.Code, len(all), strings.Join(ids, ", "))
	}
}

// scene prints a scene's comparison.
func (c *explainCommand) scene(t terminal, r *reading) error {
	season, _ := r.compile()
	switch all := scenesCalled(season, c.Code); len(all) {
	case 0:
		return fmt.Errorf("there is no finding, no sheet and no scene %q", c.Code)
	case 1:
		return explainScene(t.out, all[0])
	default:
		var titles []string
		for _, sc := range all {
			titles = append(titles, fmt.Sprintf("%q", sc.Title))
		}
		return fmt.Errorf("%s is in the titles of %d scenes: %s", c.Code, len(all), strings.Join(titles, ", "))
	}
}

// explainSheet prints the reasoning in parts; where a row comes from stands
// behind it.
func explainSheet(out io.Writer, e compile.Explained) {
	title := e.Sheet.ID
	if label := strings.TrimPrefix(e.Sheet.Label, "#"); e.Sheet.Number == title && label != strings.TrimPrefix(e.Sheet.Number, "#") {
		title = saying.Join(" ", "negative "+title+",", e.Sheet.Outing.Day(), label)
	}
	if e.Sheet.Scene != nil && e.Sheet.Scene.Title != "" {
		title += ", " + e.Sheet.Scene.Title
	}
	fmt.Fprintf(out, "%s: %s\n", diag.Clean(title), stateWords[e.Sheet.Standing()])
	for _, p := range e.Parts {
		fmt.Fprintf(out, "\n%s\n", p.Head)
		for _, row := range p.Rows {
			text := row.Text
			if row.From != "" {
				text += "  [" + row.From + "]"
			}
			fmt.Fprintln(out, "  "+diag.Clean(text))
		}
	}
	for _, again := range e.Again {
		fmt.Fprintln(out)
		explainSheet(out, again)
	}
}

// stateWords says a sheet's state as the last line of check does.
var stateWords = map[record.State]string{
	record.Right: "right", record.Off: "off", record.NoImage: "no image", record.Unchecked: "unchecked", record.Unexposed: "unexposed",
	record.Doubled: "exposed twice",
}

// explainSlip prints a mistake that may be why a sheet is off.
func explainSlip(out io.Writer, h slip.Hypothesis) {
	fmt.Fprintf(out, "%s: %s\n\n%s\n\nIt fits the last sheet of:\n\n%s", h.Slug, h.Title,
		wrap("A mistake that may be why a sheet got too much or too little. To be tried it must be known: "+h.Needs+".", 78), indent(h.Example))
}

const silentText = "A mistake that no setting shows. It is named where a remark or a result line says that the film is black, clear, dense, thin or doubly exposed, and the settings are right or cannot be checked. It is common practice, no source."

func article(word string) string {
	if strings.HasPrefix(word, "e") {
		return "an " + word
	}
	return "a " + word
}

func list(out io.Writer) error {
	fmt.Fprintln(out, "What may be found:")
	for _, r := range diag.Rules() {
		fmt.Fprintf(out, "  %-24s %-8s %s\n", r.Code, r.Severity, r.Title)
	}
	fmt.Fprintln(out, "\nMistakes that may be why a sheet is off:")
	for _, h := range slip.Table() {
		fmt.Fprintf(out, "  %-33s %s\n", h.Slug, h.Title)
	}
	fmt.Fprintln(out, "\nMistakes that no setting shows:")
	for _, s := range slip.SilentTable() {
		fmt.Fprintf(out, "  %-33s %s\n", s.Slug, s.Title)
	}
	return nil
}

func nearestCode(code string) string {
	for _, r := range diag.Rules() {
		if lang.Slips(code, r.Code) <= 2 || strings.HasPrefix(r.Code, code) && len(code) > 3 {
			return "; " + r.Code + " is near"
		}
	}
	return "; notchbook explain lists them"
}

func printable(text string) bool {
	return !strings.ContainsFunc(text, func(r rune) bool { return r < ' ' && r != '\n' || r == '\uFFFD' })
}

func indent(text string) string {
	return "    " + strings.ReplaceAll(strings.TrimSuffix(text, "\n"), "\n", "\n    ") + "\n"
}

// wrap breaks a paragraph into lines.
func wrap(text string, width int) string {
	var b strings.Builder
	column := 0
	for _, word := range strings.Fields(text) {
		if column > 0 && column+1+len(word) > width {
			b.WriteByte('\n')
			column = 0
		} else if column > 0 {
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += len(word)
	}
	return b.String()
}
