package main

import (
	"fmt"
	"slices"
	"strings"

	"notchbook/lang/diag"
	"notchbook/lang/pattern"
)

// again is what check --watch has said already, so that after a save it need only
// say what is new and what is gone.
type again struct {
	last    diag.List
	checked bool // at least once
}

// difference is two lists of findings set against each other. What stands in a line
// that was only moved is the same finding.
type difference struct {
	fresh   diag.List // not there before
	altered diag.List // there before, with other reasons or another correction
	gone    diag.List // there no more
	stay    int
}

// compared sets the findings of a check against those of the one before.
func compared(before, now diag.List) (d difference) {
	whole, bare := map[string]int{}, map[string]int{}
	for i := range before {
		whole[identity(&before[i], true)]++
	}
	var rest diag.List
	for i := range now {
		if key := identity(&now[i], true); whole[key] > 0 {
			whole[key]--
			d.stay++
			continue
		}
		rest = append(rest, now[i])
	}
	var left diag.List
	for i := range slices.Backward(before) {
		if key := identity(&before[i], true); whole[key] > 0 {
			whole[key]--
			bare[identity(&before[i], false)]++
			left = append(left, before[i])
		}
	}
	slices.Reverse(left)
	paired := map[string]int{}
	for i := range rest {
		key := identity(&rest[i], false)
		if bare[key] == 0 {
			d.fresh = append(d.fresh, rest[i])
			continue
		}
		bare[key]--
		paired[key]++
		d.altered = append(d.altered, rest[i])
	}
	for i := range left {
		if key := identity(&left[i], false); paired[key] > 0 {
			paired[key]--
			continue
		}
		d.gone = append(d.gone, left[i])
	}
	return d
}

// lineNumber is where a text names a line, which is another one when something is
// written above it.
var lineNumber = pattern.Lazily(`(\bline |\.\w+:)\d+`)

// identity is by what a finding is known again in the next edition of its notebook:
// alone, or with its reasons and its correction.
func identity(d *diag.Diagnostic, whole bool) string {
	parts := []string{d.Code, d.Severity.String(), d.Message}
	if d.Span.File != nil {
		parts = append(parts, d.Span.File.Name)
	}
	if whole {
		for _, n := range d.Notes {
			parts = append(parts, n.Text)
		}
		if d.Fix != nil {
			parts = append(parts, d.Fix.Text)
		}
	}
	return lineNumber().ReplaceAllString(strings.Join(parts, "\x00"), "$1")
}

// changes writes what is new in full, and what is gone in a line each: it is in the
// notes no more, and its place is another line's.
func (a *again) changes(t terminal, r *reading, list diag.List) error {
	d := compared(a.last, list)
	for _, part := range []struct {
		head string
		list diag.List
	}{{"new:", d.fresh}, {"with other reasons than before:", d.altered}} {
		if len(part.list) == 0 {
			continue
		}
		fmt.Fprintln(t.out, part.head)
		if err := r.findings(t, t.out, part.list, mostShown); err != nil {
			return err
		}
		fmt.Fprintln(t.out)
	}
	for i := range d.gone {
		where := ""
		if file := d.gone[i].Span.File; file != nil {
			where = r.named(file.Name) + ": "
		}
		fmt.Fprintln(t.out, diag.Clean(fmt.Sprintf("gone: %s%s: %s [%s]", where, d.gone[i].Severity, d.gone[i].Said(), d.gone[i].Code)))
	}
	if len(d.fresh)+len(d.altered)+len(d.gone) == 0 {
		fmt.Fprint(t.out, "nothing is new and nothing is gone; ")
	}
	fmt.Fprintln(t.out, plural(d.stay, "finding stays", "findings stay"))
	return nil
}
