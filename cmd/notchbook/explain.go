package main

import (
	"fmt"
	"io"
	"strings"

	"notchbook/compile/slip"
	"notchbook/lang"
	"notchbook/lang/diag"
)

// explainCommand prints a rule of the catalogue.
type explainCommand struct {
	Code string `arg:"" optional:"" help:"Code of a finding, as it stands in brackets behind it. Without one, all are listed."`
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
	rule := diag.Lookup(code)
	if rule.Title == "" {
		return fmt.Errorf("there is no finding %q%s", c.Code, nearestCode(code))
	}
	fmt.Fprintf(t.out, "%s: %s\n\n%s\n", rule.Code, rule.Title, wrap(rule.Text, 78))
	if rule.Bad != "" && printable(rule.Bad) {
		fmt.Fprintf(t.out, "\nThis is reported as %s:\n\n%s\nThis is not:\n\n%s", article(rule.Severity.String()), indent(rule.Bad), indent(rule.Good))
	}
	return nil
}

// explainSlip prints a mistake that may be why a sheet is off.
func explainSlip(out io.Writer, h slip.Hypothesis) {
	fmt.Fprintf(out, "%s: %s\n\n%s\n\nIt fits the last sheet of:\n\n%s", h.Slug, h.Title,
		wrap("A mistake that may be why a sheet got too much or too little. To be tried it must be known: "+h.Needs+".", 78), indent(h.Example))
}

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
		fmt.Fprintf(out, "  %-24s          %s\n", h.Slug, h.Title)
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
