package main

import (
	"cmp"
	"fmt"
	"io"
	"path"
	"slices"

	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// What check --fix does: it writes the corrections that are certain, and shows
// them. Only the notebooks that were named are written, never one that they use:
// other seasons may rest on it.

// mended is a notebook as it is and as it would be with its fixes.
type mended struct {
	file *source.File
	text []byte
}

// mend applies the fixes of a list to the notebooks they are for, in the order
// of their names.
func mend(list diag.List) []mended {
	fixes := map[*source.File][]*diag.Fix{}
	var files []*source.File
	for _, d := range list {
		if d.Fix == nil || d.Fix.Span.File == nil {
			continue
		}
		file := d.Fix.Span.File
		if fixes[file] == nil {
			files = append(files, file)
		}
		fixes[file] = append(fixes[file], d.Fix)
	}
	slices.SortStableFunc(files, func(a, b *source.File) int { return cmp.Compare(a.Name, b.Name) })
	var all []mended
	for _, file := range files {
		all = append(all, mended{file, fixed(file.Text, fixes[file])})
	}
	return all
}

// fixed applies fixes from the end, so that those before keep their places. Of
// fixes that touch one another the first is taken: behind it the second may no
// longer be what was meant, and the next run says whether it is.
func fixed(text []byte, fixes []*diag.Fix) []byte {
	slices.SortStableFunc(fixes, func(a, b *diag.Fix) int {
		return cmp.Or(cmp.Compare(a.Span.Start, b.Span.Start), cmp.Compare(a.Span.End, b.Span.End))
	})
	var apart []*diag.Fix
	for _, f := range fixes {
		if n := len(apart); n == 0 || f.Span.Start >= apart[n-1].Span.End && f.Span.Start > apart[n-1].Span.Start {
			apart = append(apart, f)
		}
	}
	out := slices.Clone(text)
	for _, f := range slices.Backward(apart) {
		out = slices.Replace(out, f.Span.Start, f.Span.End, []byte(f.Text)...)
	}
	return out
}

// fix writes what is certain, each notebook whole or not at all, and shows it.
func fix(out io.Writer, r *reading, list diag.List) error {
	if r.stdin != nil {
		return fmt.Errorf("%s cannot be mended: --fix needs a notebook or a folder", r.names[0])
	}
	for _, m := range mend(list) {
		name := m.file.Name
		if !slices.ContainsFunc(r.names, func(n string) bool { return path.Clean(n) == path.Clean(name) }) {
			continue
		}
		if err := r.folder.ReplaceFile(name, m.file.Text, m.text); err != nil {
			return r.openable(err)
		}
		shown := diag.Clean(r.named(name))
		fmt.Fprint(out, unified(shown, shown+" (mended)", string(m.file.Text), string(m.text)))
	}
	return nil
}
