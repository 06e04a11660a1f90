package main

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/pattern"
)

// notationCommand prints how notes are read.
type notationCommand struct {
	Words []string `arg:"" optional:"" help:"Words of a heading, as in: notation filters; or a log word or any other word, for what is said of it: notation private. Without any, the whole is printed."`
}

// Run prints the manual of the notation, the chapters whose heading has the words,
// or what the chapters say of them.
func (c *notationCommand) Run(t terminal) error {
	words := wordsOf(strings.Join(c.Words, " "))
	if len(words) == 0 {
		_, err := fmt.Fprint(t.out, lang.Manual)
		return err
	}
	all := chapters(lang.Manual)
	headed := false
	for _, ch := range all {
		if hasWords(ch.head, words, strings.HasPrefix) {
			headed = true
			fmt.Fprintf(t.out, "## %s\n%s\n", ch.head, ch.text)
		}
	}
	if headed {
		return nil
	}
	for _, like := range []func(word, wanted string) bool{func(a, b string) bool { return a == b }, strings.HasPrefix} {
		if found := printPassages(t, all, words, like); found {
			return nil
		}
	}
	t.complain(fmt.Errorf("the notation says nothing of %q; its chapters are", strings.Join(c.Words, " ")))
	for _, ch := range all {
		fmt.Fprintln(t.err, "  "+ch.head)
	}
	return status(found)
}

// printPassages prints what the chapters say of words, and names the chapters.
func printPassages(t terminal, all []chapter, words []string, like func(word, wanted string) bool) (found bool) {
	for _, ch := range all {
		var said []string
		for _, p := range ch.passages() {
			if hasWords(p, words, like) {
				said = append(said, p)
			}
		}
		if len(said) == 0 {
			continue
		}
		found = true
		fmt.Fprintf(t.out, "## %s\n\n", ch.head)
		for i, p := range said {
			if i > 0 && (isProse(p) || isProse(said[i-1])) {
				fmt.Fprintln(t.out)
			}
			fmt.Fprintln(t.out, p)
		}
		fmt.Fprintln(t.out)
	}
	if found {
		fmt.Fprintln(t.out, diag.Clean("These are the passages that say it; for a whole chapter: notchbook notation WORDS OF ITS HEADING"))
	}
	return found
}

// chapter is what stands in the manual under one heading of the first or the second
// order.
type chapter struct{ head, text string }

// fence is a line that begins or ends an example; what looks like a heading between
// two is a line of a notebook.
const fence = "```"

// chapters cuts the manual at its headings. A heading over nothing is none.
func chapters(manual string) (all []chapter) {
	inside := false
	for line := range strings.Lines(manual) {
		if strings.HasPrefix(line, fence) {
			inside = !inside
		}
		head, ok := strings.CutPrefix(line, "# ")
		if !ok {
			head, ok = strings.CutPrefix(line, "## ")
		}
		switch {
		case ok && !inside:
			all = append(all, chapter{head: strings.TrimSpace(head)})
		case len(all) > 0:
			all[len(all)-1].text += line
		}
	}
	for i := range all {
		all[i].text = strings.TrimRight(all[i].text, "\n")
	}
	return slices.DeleteFunc(all, func(c chapter) bool { return strings.Trim(c.text, "-\n") == "" })
}

// item begins a passage of its own within a paragraph: an item of a list, or a row
// of a table.
var item = pattern.Later(`^(?:\d+\. |[-*] |\|)`)

// passages are the least parts of a chapter that can be read by themselves:
// paragraphs, items, rows, and examples with what they are read as.
func (c chapter) passages() (all []string) {
	inside, begin := false, true
	for line := range strings.Lines(c.text) {
		line = strings.TrimSuffix(line, "\n")
		switch {
		case strings.HasPrefix(line, fence):
			inside, begin = !inside, true
		case line == "":
			begin = true
		case begin || item().MatchString(line) || inside && !strings.HasPrefix(line, " "):
			all, begin = append(all, line), false
		default:
			all[len(all)-1] += "\n" + line
		}
	}
	return all
}

// isProse tells a paragraph from a row and from an example.
func isProse(passage string) bool {
	return !strings.HasPrefix(passage, "|") && !strings.Contains(passage, "\n    = ")
}

// hasWords reports whether a text has a word like each of those wanted.
func hasWords(text string, wanted []string, like func(word, wanted string) bool) bool {
	words := wordsOf(text)
	return !slices.ContainsFunc(wanted, func(w string) bool {
		return !slices.ContainsFunc(words, func(word string) bool { return like(word, w) })
	})
}

// wordsOf is the words and figures of a text, in small letters.
func wordsOf(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) })
}
