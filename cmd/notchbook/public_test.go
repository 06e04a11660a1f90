package main

import (
	"encoding/base64"
	"io"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/alecthomas/kong"

	"notchbook/cmd/notchbook/program"
)

// ownNotes are the commands that say nothing of the notes to others: they write the
// writer's own notebooks, speak with the writer's editor, or read no notebook.
var ownNotes = []string{"tidy", "lsp", "handbook", "notation", "completion", "man", "help"}

// publicRuns is how each of the other commands is asked for all that it can write.
// {season} is the folder of the notes, {out} a folder for what is written.
var publicRuns = map[string][][]string{
	"check":     {{"{season}"}, {"{season}", "--format", "json"}, {"{season}", "--format", "sarif"}},
	"compile":   {{"{season}", "-o", "{out}/record"}},
	"archive":   {{"{season}", "-o", "{out}/bag"}, {"{season}", "-o", "{out}/bag", "--without-scans"}},
	"scans":     {{"{season}"}, {"{season}", "--rename-plan"}, {"{season}", "--xmp"}},
	"find":      {{"kiln", "{season}"}, {"kiln", "{season}", "--format", "json"}, {"kiln", "{season}", "--format", "csv"}},
	"explain":   {{"1A", "{season}"}, {"2026-12-05 1B", "{season}"}, {"26-001", "{season}"}},
	"reckon":    {{"--kit", "{season}/kit.md", "meter 1/60 f16, film slate"}},
	"fieldcard": {{"{season}", "-o", "{out}/card.html"}},
	"develop":   {{"{season}"}, {"{season}", "--format", "json"}},
	"negatives": {{"{season}"}},
	"losses":    {{"{season}"}},
	"years":     {{"{season}"}, {"{season}", "--format", "json"}},
	"holders":   {{"{season}"}, {"{season}", "--format", "json"}},
	"forecast":  {{"R25", "--kit", "{season}/kit.md"}, {"R25", "--kit", "{season}/kit.md", "--format", "json", "-o", "{out}/r25.svg"}},
	"tests":     {{"{season}"}, {"{season}", "--format", "json"}},
	"desk":      {{"{season}"}},
}

// Every command that writes something of the notes leaves private remarks out,
// with the one flag, whatever it writes and wherever: what is said, files, the
// streams of the book, the data in the field card, the pages of the desk.
func TestPublicOutputsHoldNothingPrivate(t *testing.T) {
	app := kong.Must(&commands{}, kong.Vars{"version": "", "sections": ""})
	for _, d := range describe(app) {
		runs := publicRuns[d.name]
		flagged := slices.ContainsFunc(d.flags, func(f describedFlag) bool { return f.name == "public" })
		switch {
		case slices.Contains(ownNotes, d.name):
			continue
		case len(runs) == 0 || !flagged:
			t.Errorf("%s writes something of the notes: it needs --public, and runs here", d.name)
			continue
		}
		t.Run(d.name, func(t *testing.T) {
			for _, args := range runs {
				text := everything(t, append(slices.Clone(args), "--public"), d.name)
				withoutSecret(t, strings.Join(args, " "), text)
			}
		})
	}
}

// The same look at everything finds private text where it was not left out.
func TestPrivateTextIsSeen(t *testing.T) {
	for command, runs := range map[string][][]string{
		"check": publicRuns["check"], "find": publicRuns["find"][1:], "explain": publicRuns["explain"][:1], "fieldcard": publicRuns["fieldcard"],
		"desk": publicRuns["desk"],
	} {
		for _, args := range runs {
			if text := everything(t, args, command); !strings.Contains(text, secret) {
				t.Errorf("%s %q shows nothing private, so its test above sees nothing", command, args)
			}
		}
	}
}

// everything is every byte that a command writes, also what lies packed in it.
func everything(t *testing.T, args []string, command string) string {
	t.Helper()
	season, out := privateSeason(t), t.TempDir()
	full := []string{command}
	for _, a := range args {
		full = append(full, strings.NewReplacer("{season}", season, "{out}", out).Replace(a))
	}
	if command == "desk" {
		return pagesOfDesk(t, full, season)
	}
	before := tree(t, season)
	said := notchbook(t, full...)
	if said.status == failed {
		t.Fatalf("%q could not run: %s", full, said.err)
	}
	all := []string{said.out, said.err}
	for name, text := range tree(t, season) {
		if before[name] != text {
			all = append(all, name, text)
		}
	}
	for _, text := range bytesOf(t, out) {
		all = append(all, text, unpackedData(text))
	}
	return strings.Join(all, "\n")
}

var packed = regexp.MustCompile(`[A-Za-z0-9+/]{40,}={0,2}`)

// unpackedData is what lies in a page as Base64.
func unpackedData(text string) string {
	var all []string
	for _, run := range packed.FindAllString(text, -1) {
		if b, err := base64.StdEncoding.DecodeString(run); err == nil {
			all = append(all, string(b))
		}
	}
	return strings.Join(all, "\n")
}

// pagesOfDesk is every page that the desk shows, by the names of a compiled record.
func pagesOfDesk(t *testing.T, args []string, season string) string {
	t.Helper()
	said := background(t, args...)
	eventually(t, "the desk's address", func() bool { return program.DeskAddress.MatchString(said.String()) })
	first := program.DeskAddress.FindString(said.String())
	c := program.Visitor(t, first)
	base, _, _ := strings.Cut(first, "?")
	out := filepath.Join(t.TempDir(), "record")
	must(t, "compile", season, "-o", out)
	all := []string{said.String()}
	pages := 0
	for name := range tree(t, out) {
		answer, err := c.Get(base + "record/" + name)
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(answer.Body)
		answer.Body.Close()
		if err != nil {
			t.Fatal(err)
		}
		if answer.StatusCode == 200 && strings.HasSuffix(name, ".html") {
			pages++
		}
		all = append(all, string(text))
	}
	if pages < 10 {
		t.Errorf("the desk showed %d pages", pages)
	}
	return strings.Join(all, "\n")
}

// What was read without its private remarks is not what is to be mended.
func TestPublicMendsNothing(t *testing.T) {
	dir := privateSeason(t)
	before := tree(t, dir)
	if s := notchbook(t, "check", "--fix", "--public", dir); s.status != failed || !strings.Contains(s.err, "--public") {
		t.Errorf("status %d: %s", s.status, s.err)
	}
	sameTree(t, "after --fix --public", before, tree(t, dir))
}
