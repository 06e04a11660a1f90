package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"github.com/creachadair/jrpc2/channel"

	"notchbook/cmd/notchbook/lsp"
	"notchbook/compile"
)

// Every feature of the server, asked for by the scripted editor on the example.

func TestEditorExplainsOnHover(t *testing.T) {
	e, _, uri, text := exampleInEditor(t, brickworks)
	var h struct {
		Contents struct{ Value string }
		Range    stretch
	}
	e.ask("textDocument/hover", inDocument(uri, at(t, text, "3B: same as 1A, O21", 1)), &h)
	for _, words := range []string{"2026-10-04 3B", "read", "EV 14", "O21", "−2", "asked", "EV 12", "2 stops under", "1/8 f/22"} {
		if !strings.Contains(h.Contents.Value, words) {
			t.Errorf("%q is not in\n%s", words, h.Contents.Value)
		}
	}
	e.ask("textDocument/hover", inDocument(uri, at(t, text, "3B: same as 1A, O21", 17)), &h)
	if !strings.HasPrefix(h.Contents.Value, "filter O21\n") || !strings.Contains(h.Contents.Value, "kit.md:") {
		t.Errorf("a filter is explained as %q", h.Contents.Value)
	}
}

func TestEditorFindsNames(t *testing.T) {
	e, dir, uri, text := exampleInEditor(t, brickworks)
	kit, err := os.ReadFile(filepath.Join(dir, "kit.md"))
	if err != nil {
		t.Fatal(err)
	}
	var where editLocation
	e.ask("textDocument/definition", inDocument(uri, at(t, text, "3B: same as 1A, O21", 17)), &where)
	from, to := offsetOf(string(kit), where.Range.Start), offsetOf(string(kit), where.Range.End)
	if where.URI != "file://"+filepath.Join(dir, "kit.md") || string(kit[from:to]) != "O21" {
		t.Errorf("the filter is declared at %v", where)
	}
	var all []editLocation
	params := inDocument(uri, at(t, text, "3B: same as 1A, O21", 1))
	params["context"] = map[string]any{"includeDeclaration": true}
	e.ask("textDocument/references", params, &all)
	for _, l := range all {
		if from, to := offsetOf(text, l.Range.Start), offsetOf(text, l.Range.End); l.URI == uri && text[from:to] != "3B" && text[from:to] != "1A-5B" {
			t.Errorf("%q is no name of the sheet", text[from:to])
		}
	}
	if len(all) == 0 {
		t.Error("the sheet is named nowhere")
	}
}

// A sheet's references are its own line, what amends and develops it, where its
// film was loaded, and its scans: one by a line of its own, one by its name.
func TestEditorFindsWhatSpeaksOfASheet(t *testing.T) {
	e, dir, uri, text := exampleInEditor(t, "2026-11-07-wharf.txt")
	for label, want := range map[string][]string{
		"3B": {"3B: grey, f22", "amend 3B: f32", "develop 1A-6A:", "load 1A-6A:", "scans/2026-11-07-3B.jpg"},
		"5A": {"5A: 1/25 f8⅓", "scan 5A: scans/", "develop 1A-6A:", "load 1A-6A:", "scans/lock-gate.tif"},
	} {
		for _, from := range want[:2] { // asked at its own line, and at one that speaks of it
			params := inDocument(uri, at(t, text, from, strings.Index(from, label)+1))
			params["context"] = map[string]any{"includeDeclaration": true}
			var all []editLocation
			e.ask("textDocument/references", params, &all)
			var got []string
			for _, l := range all {
				if scan, ok := strings.CutPrefix(l.URI, "file://"+dir+"/"); ok && strings.HasPrefix(scan, "scans/") {
					got = append(got, scan)
					continue
				}
				line, _, _ := strings.Cut(text[offsetOf(text, spot{l.Range.Start.Line, 0}):], "\n")
				i := slices.IndexFunc(want, func(w string) bool { return l.URI == uri && strings.HasPrefix(line, w) })
				if i < 0 {
					t.Errorf("%s: %q does not speak of it", label, line)
					continue
				}
				got = append(got, want[i])
			}
			slices.Sort(got)
			if !slices.Equal(got, slices.Sorted(slices.Values(want))) {
				t.Errorf("%s: got %q, want %q", label, got, want)
			}
			var where editLocation
			e.ask("textDocument/definition", params, &where)
			if got := text[offsetOf(text, where.Range.Start):]; !strings.HasPrefix(got, want[0]) {
				t.Errorf("%s is logged at %v", label, where)
			}
		}
	}
	var where editLocation
	e.ask("textDocument/definition", inDocument(uri, at(t, text, "scans/lock-gate.tif", 3)), &where)
	if where.URI != "file://"+filepath.Join(dir, "scans", "lock-gate.tif") {
		t.Errorf("the scan line leads to %v", where)
	}
}

func TestEditorRenames(t *testing.T) {
	e, dir, uri, text := exampleInEditor(t, brickworks)
	before := checked(t, dir, nil)
	params := inDocument(uri, at(t, text, "3B: same as 1A, O21", 17))
	params["newName"] = "Amber"
	var out struct{ Changes map[string][]edit }
	e.ask("textDocument/rename", params, &out)
	with := map[string]string{}
	for file, edits := range out.Changes {
		raw, err := os.ReadFile(strings.TrimPrefix(file, "file://"))
		if err != nil {
			t.Fatal(err)
		}
		with[filepath.Base(file)] = applied(string(raw), edits)
	}
	if !strings.Contains(with["kit.md"], "filter Amber:") || !strings.Contains(with[brickworks], "same as 1A, Amber") {
		t.Errorf("renamed: %v", out.Changes)
	}
	after := checked(t, dir, with)
	if len(after) != len(before) {
		t.Errorf("%d findings before, %d after: %v", len(before), len(after), after)
	}
	params["newName"] = "R25" // is declared already
	if err := e.try("textDocument/rename", params, nil); err == nil {
		t.Error("two filters may come to be called the same")
	}
}

// A sheet is renamed where it is logged, loaded, developed and amended, in every
// notebook, saved or not; ranges are taken apart around it. Where its scan is
// known by its name alone, that is to be written down first.
func TestEditorRenamesASheet(t *testing.T) {
	e, dir, uri, text := exampleInEditor(t, brickworks)
	rename := func(text string) (map[string]string, error) {
		params := inDocument(uri, at(t, text, "3B: same as 1A, O21", 1))
		params["newName"] = "7C"
		var out struct{ Changes map[string][]edit }
		err := e.try("textDocument/rename", params, &out)
		with := map[string]string{}
		for file, edits := range out.Changes {
			raw := text
			if file != uri {
				b, err := os.ReadFile(strings.TrimPrefix(file, "file://"))
				if err != nil {
					t.Fatal(err)
				}
				raw = string(b)
			}
			with[filepath.Base(file)] = applied(raw, edits)
		}
		return with, err
	}
	if _, err := rename(text); err == nil || !strings.Contains(err.Error(), "first write where it is, scan 3B: scans/2026-10-04-3B.jpg") {
		t.Fatalf("the scan would be lost: %v", err)
	}
	text += "\nscan 3B: scans/2026-10-04-3B.jpg\n"
	e.change(uri, 2, map[string]any{"text": text})
	later := filepath.Join(dir, "2026-10-05-later.md")
	if err := os.WriteFile(later, []byte("use: kit.md\n\nday: 2026-10-05\n\namend 3B: f22 not f16½\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	e.tell("workspace/didChangeWatchedFiles", map[string]any{"changes": []any{}})
	before := checked(t, dir, map[string]string{brickworks: text})
	with, err := rename(text)
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range []string{"\n7C: same as 1A, O21\n", "\nload 1A-3A 7C 4A-5B: sedge\n", "\ndevelop 1A-3A 7C 4A-5B: 2026-10-06", "\nscan 7C: scans/2026-10-04-3B.jpg\n"} {
		if !strings.Contains(with[brickworks], line) {
			t.Errorf("%q is not in\n%s", line, with[brickworks])
		}
	}
	if !strings.Contains(with["2026-10-05-later.md"], "amend 7C:") {
		t.Errorf("in the other notebook: %q", with["2026-10-05-later.md"])
	}
	after := checked(t, dir, with)
	for i := range max(len(before), len(after)) {
		if len(before) != len(after) || strings.ReplaceAll(before[i].Message, "3B", "7C") != strings.ReplaceAll(after[i].Message, "3B", "7C") {
			t.Fatalf("before\n%v\nafter\n%v", before, after)
		}
	}
}

func TestEditorShowsTheOrder(t *testing.T) {
	e, _, uri, text := exampleInEditor(t, brickworks)
	doc := map[string]any{"textDocument": map[string]any{"uri": uri}}
	type symbol struct {
		Name     string
		Children []symbol
	}
	var outline []symbol
	e.ask("textDocument/documentSymbol", doc, &outline)
	sheets := 0
	for _, outing := range outline {
		for _, scene := range outing.Children {
			sheets += max(1, len(scene.Children))
		}
	}
	if len(outline) != 1 || sheets < 8 {
		t.Errorf("the outline is %+v", outline)
	}
	var folds []struct{ StartLine, EndLine int }
	e.ask("textDocument/foldingRange", doc, &folds)
	if len(folds) < 2 || folds[0].EndLine >= strings.Count(text, "\n")+1 {
		t.Errorf("the folds are %v", folds)
	}
	var hints []struct {
		Position spot
		Label    string
	}
	e.ask("textDocument/inlayHint", map[string]any{"textDocument": map[string]any{"uri": uri}, "range": stretch{spot{0, 0}, spot{9999, 0}}}, &hints)
	at3B := at(t, text, "3B: same as 1A, O21", len("3B: same as 1A, O21"))
	got := map[spot]string{}
	for _, h := range hints {
		got[h.Position] = h.Label
	}
	if got[at3B] != "−2" || len(hints) < 5 {
		t.Errorf("3B is hinted at as %q among %d hints", got[at3B], len(hints))
	}
	var links []struct{ Target string }
	e.ask("textDocument/documentLink", doc, &links)
	if !slices.ContainsFunc(links, func(l struct{ Target string }) bool { return strings.HasSuffix(l.Target, "/kit.md") }) {
		t.Errorf("the kit is not linked: %v", links)
	}
}

// Each token stands on the word that it colours, as the legend names it.
func TestEditorColours(t *testing.T) {
	const note = "use: kit.md\nday: 2026-10-04, 🎞 Aldermoor\nlens 🌫: 300 mm, f9-f90\n1A: 🎞🎞, Y8 + pol, ~~1/60~~ 1/30 f16, N-1, same -- 🎞 dull\n"
	kinds := []string{"keyword", "variable", "type", "number", "parameter", "comment", "string", "operator"}
	for _, encoding := range []string{"utf-16", "utf-8"} {
		e := newEditor(t, t.TempDir())
		e.encoding(encoding)
		e.open("untitled:Note-1", note)
		var tokens struct{ Data []int }
		e.ask("textDocument/semanticTokens/full", map[string]any{"textDocument": map[string]any{"uri": "untitled:Note-1"}}, &tokens)
		if len(tokens.Data) == 0 || len(tokens.Data)%5 != 0 {
			t.Fatalf("%d numbers make no tokens", len(tokens.Data))
		}
		found := map[string]string{}
		line, column := 0, 0
		for c := range slices.Chunk(tokens.Data, 5) {
			if c[0] > 0 {
				line, column = line+c[0], 0
			}
			column += c[1]
			row := strings.Split(note, "\n")[line]
			word := ""
			if encoding == "utf-8" {
				word = row[column : column+c[2]]
			} else {
				word = string(utf16.Decode(utf16.Encode([]rune(row))[column : column+c[2]]))
			}
			found[word] = strings.TrimSpace(kinds[c[3]] + strings.Repeat(" declares", c[4]&1) + strings.Repeat(" struck", c[4]>>1&1))
		}
		for word, want := range map[string]string{
			"use": "keyword", "kit.md": "string", "day": "keyword", "lens": "keyword", "🌫": "type declares", "1A": "variable declares",
			"Y8 + pol": "parameter", "1/60": "number struck", "1/30 f16": "number", "N-1": "number", "same": "keyword", "-- 🎞 dull": "comment",
		} {
			if found[word] != want {
				t.Errorf("%s: %q is %q and not %q, of %q", encoding, word, found[word], want, found)
			}
		}
	}
}

func TestEditorCompletes(t *testing.T) {
	e, _, uri, text := exampleInEditor(t, brickworks)
	line := strings.Count(text, "\n")
	e.change(uri, 2, map[string]any{"range": stretch{spot{line, 0}, spot{line, 0}}, "text": "lens: \n\n9A: R\n"})
	labels := func(p spot) []string {
		var items []struct{ Label string }
		e.ask("textDocument/completion", inDocument(uri, p), &items)
		var all []string
		for _, i := range items {
			all = append(all, i.Label)
		}
		return all
	}
	if got := labels(spot{line, 6}); !slices.Contains(got, "300") || slices.Contains(got, "R25") {
		t.Errorf("lenses: %v", got)
	}
	if got := labels(spot{line + 2, 5}); !slices.Contains(got, "R25") || !slices.Contains(got, "same as") {
		t.Errorf("terms of a sheet: %v", got)
	}
	if got := labels(spot{line + 1, 0}); !slices.Contains(got, "scene:") {
		t.Errorf("words of a line: %v", got)
	}
	// 6B is loaded and, without its line, not exposed: it comes first, though the
	// season goes on for two more outings.
	open := strings.Replace(text, "6B: film sedge, Y8, 1⁄30 f16 -- and then the rain\n", "\nload 7A: \namend \n9A: same as \n", 1)
	e.change(uri, 3, map[string]any{"text": open})
	row := at(t, open, "\nload 7A: \n", 0).Line
	if got := labels(spot{row, 0}); len(got) == 0 || got[0] != "6B:" {
		t.Errorf("the next side: %v", got)
	}
	if got := labels(spot{row + 1, 9}); !slices.Equal(got, []string{"sedge", "curlew"}) {
		t.Errorf("films: %v", got)
	}
	for _, p := range []spot{{row + 2, 6}, {row + 3, 12}} {
		if got := labels(p); !slices.Contains(got, "1A") || slices.Contains(got, "2A'2") || len(got) > 13 {
			t.Errorf("sheets logged so far: %v", got)
		}
	}
}

func TestEditorMendsAndTidies(t *testing.T) {
	e, dir, uri, text := exampleInEditor(t, brickworks)
	slip := text + "\nload 9A 9B: slate\n9A f16 ½\n"
	e.change(uri, 2, map[string]any{"text": slip})
	e.hears(uri, 2)
	type action struct {
		Title, Kind string
		Edit        struct{ Changes map[string][]edit }
	}
	actions := func(p spot) (all []action) {
		e.ask("textDocument/codeAction", map[string]any{"textDocument": map[string]any{"uri": uri}, "range": stretch{p, p}, "context": map[string]any{"diagnostics": []any{}}}, &all)
		return all
	}
	mends := actions(at(t, slip, "9A f16 ½", 1))
	if len(mends) == 0 || mends[0].Kind != "quickfix" {
		t.Fatalf("nothing is mended: %+v", mends)
	}
	mended := applied(slip, mends[0].Edit.Changes[uri])
	for _, d := range checked(t, dir, map[string]string{brickworks: mended}) {
		if d.Code == "missing-colon" && d.Span.Text() == "9A" {
			t.Errorf("mended, and still: %s", d.Message)
		}
	}
	back := actions(at(t, slip, "3B: same as 1A, O21", 1))
	if len(back) == 0 || !strings.Contains(back[0].Title, "9B: same as 3B, ") && !strings.Contains(back[0].Title, ": same as 3B, ") {
		t.Fatalf("the right settings are not offered: %+v", back)
	}
	again := applied(slip, back[0].Edit.Changes[uri])
	label, _, _ := strings.Cut(strings.TrimPrefix(back[0].Title, "for going back, write "), ":")
	for _, d := range checked(t, dir, map[string]string{brickworks: again}) {
		if d.Code == "exposure-off" && strings.HasPrefix(d.Message, label+" ") {
			t.Errorf("what is offered is wrong: %s", d.Message)
		}
	}
	var edits []edit
	e.ask("textDocument/formatting", map[string]any{"textDocument": map[string]any{"uri": uri}, "options": map[string]any{"tabSize": 4, "insertSpaces": true}}, &edits)
	tidied, _ := compile.Tidy(compile.World{Read: func(name string) ([]byte, error) {
		if name == brickworks {
			return []byte(slip), nil
		}
		return os.ReadFile(filepath.Join(dir, name))
	}}, brickworks)
	if got := applied(slip, edits); got != tidied[0].New {
		t.Errorf("formatting is not tidy:\n%s", got)
	}
}

// Where no loads are logged the right settings are offered on the side behind the last
// one of the day, and hold; where loads are logged and all sides are exposed, on none.
func TestEditorOffersRightSettingsWithoutLoads(t *testing.T) {
	const wrong = "film slate: EI 250, pan\nfilter R25: x8\n\nday: 2026-11-07\nfilm: slate\nmeter: 1/60 f16\n1A: R25, 1/60 f16\n3A: 1/60 f16\n\nday: 2026-11-08\nmeter: 1/60 f16\n7B: 1/60 f16\n"
	for _, c := range []struct{ text, want string }{
		{wrong, "for going back, write 3B: same as 1A, 1/8 f16"},
		{strings.Replace(wrong, "3A:", "3B:", 1), "for going back, write 4A: same as 1A, 1/8 f16"},
		{strings.Replace(wrong, "film: slate", "load 1A 3A: slate", 1), ""},
	} {
		e := newEditor(t, t.TempDir())
		const name = "untitled:Note-1"
		e.open(name, c.text)
		e.hears(name, 1)
		var offered []struct {
			Title string
			Edit  struct{ Changes map[string][]edit }
		}
		p := at(t, c.text, "1A: R25", 1)
		e.ask("textDocument/codeAction", map[string]any{"textDocument": map[string]any{"uri": name}, "range": stretch{p, p}, "context": map[string]any{"diagnostics": []any{}}}, &offered)
		if c.want == "" {
			if len(offered) > 0 {
				t.Errorf("%s is offered where no side is free", offered[0].Title)
			}
			continue
		}
		if len(offered) == 0 || offered[0].Title != c.want {
			t.Errorf("want %q, got %+v", c.want, offered)
			continue
		}
		label, _, _ := strings.Cut(strings.TrimPrefix(c.want, "for going back, write "), ":")
		again := applied(c.text, offered[0].Edit.Changes[name])
		for _, d := range compile.Check(compile.World{Read: func(string) ([]byte, error) { return []byte(again), nil }}, name).Findings() {
			if strings.Contains(d.Message, label) {
				t.Errorf("what is offered is wrong: %s", d.Message)
			}
		}
	}
}

// Positions are counted in bytes where an editor prefers them, in a document of
// no file too: what is edited at such positions is edited there.
func TestEditorOfBytesWithoutAFile(t *testing.T) {
	e := newEditor(t, t.TempDir())
	e.encoding("utf-8")
	const text = "🎞🎞 1A: nothing\nfilm slate: EI 100\n1A: metered EV 12, f16 ½, 1/8 -- 🎞\n1B: 🎞, f16 ½, 1/8\n"
	const name = "untitled:Note-1"
	e.open(name, text)
	of := func(text string) (want []problem) {
		list := compile.Check(compile.World{Read: func(string) ([]byte, error) { return []byte(text), nil }}, name).Findings()
		for i, p := range checkSays(list, name) {
			p.Range = stretch{byteSpot(text, list[i].Span.Start), byteSpot(text, list[i].Span.End)}
			want = append(want, p)
		}
		return want
	}
	if got, want := e.hears(name, 1), of(text); !sameProblems(got, want) || len(want) < 2 {
		t.Fatalf("got %v, want %v", got, want)
	}
	from := strings.LastIndex(text, "🎞")
	edited := text[:from] + "½" + text[from+len("🎞"):]
	e.change(name, 2, map[string]any{"range": stretch{byteSpot(text, from), byteSpot(text, from+len("🎞"))}, "text": "½"})
	if got, want := e.hears(name, 2), of(edited); !sameProblems(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func byteSpot(text string, offset int) spot {
	return spot{strings.Count(text[:offset], "\n"), offset - strings.LastIndex(text[:offset], "\n") - 1}
}

// The kit and two notebooks lie open, changed and not saved; a third is new and
// nowhere on the disk. Each is heard as it stands in the editor, and as on the
// disk again when it is closed.
func TestEditorOfAWholeSeasonUnsaved(t *testing.T) {
	e, dir, uri, text := exampleInEditor(t, brickworks)
	raw, err := os.ReadFile(filepath.Join(dir, "kit.md"))
	if err != nil {
		t.Fatal(err)
	}
	with := map[string]string{brickworks: text}
	agrees := func(when string, version int) []problem {
		t.Helper()
		got, want := e.hears(uri, version), checkSays(checked(t, dir, with), brickworks)
		if !sameProblems(got, want) {
			t.Fatalf("%s: got %v, want %v", when, got, want)
		}
		return got
	}
	before := agrees("opened", 1)
	kit, kitURI := strings.Replace(string(raw), "filter O21: orange, Wratten 21, x4", "filter O21: orange, x16", 1), "file://"+filepath.Join(dir, "kit.md")
	e.open(kitURI, string(raw))
	e.change(kitURI, 2, map[string]any{"text": kit})
	with["kit.md"] = kit
	e.hears(kitURI, 2)
	text += "\n"
	with[brickworks] = text
	e.change(uri, 2, map[string]any{"text": text})
	if got := agrees("the kit changed", 2); sameProblems(got, before) || !slices.ContainsFunc(got, func(p problem) bool { return strings.HasPrefix(p.Message, "3B got 4 stops under") }) {
		t.Errorf("what the kit says now is not heard of: %v", got)
	}
	// A kit that is on no disk.
	fresh := "file://" + filepath.Join(dir, "borrowed.md")
	e.open(fresh, "filter B2: x16\n")
	with["borrowed.md"] = "filter B2: x16\n"
	text = strings.Replace(text, "use: kit.md", "use: kit.md\nuse: borrowed.md", 1) + "\n9A: B2, f16, 1/60\n"
	with[brickworks] = text
	e.change(uri, 3, map[string]any{"text": text})
	if got := agrees("a kit in the editor alone", 3); slices.ContainsFunc(got, func(p problem) bool {
		return strings.Contains(p.Message, "B2") && strings.Contains(p.Message, "declared")
	}) {
		t.Errorf("B2 is declared: %v", got)
	}
	e.tell("textDocument/didClose", map[string]any{"textDocument": map[string]any{"uri": kitURI}})
	delete(with, "kit.md")
	e.change(uri, 4, map[string]any{"text": text + "\n"})
	with[brickworks] = text + "\n"
	if got := agrees("the kit closed", 4); slices.ContainsFunc(got, func(p problem) bool { return strings.HasPrefix(p.Message, "3B got 4 stops under") }) {
		t.Error("the kit that was closed is still heard as it stood in the editor")
	}
}

// Of questions that are withdrawn while a check makes them wait, those that were
// not answered yet are answered with the protocol's RequestCancelled, -32800.
func TestEditorWithdrawsQuestions(t *testing.T) {
	toServer, fromEditor := io.Pipe()
	toEditor, fromServer := io.Pipe()
	left := make(chan error, 1)
	go func() {
		left <- lsp.Serve(toServer, fromServer, lsp.Options{Open: openFolder, Pause: time.Millisecond})
		fromServer.Close()
	}()
	ch := channel.StrictHeader("")(toEditor, fromEditor)
	send := func(format string, args ...any) {
		if err := ch.Send(fmt.Appendf(nil, `{"jsonrpc":"2.0",`+format+`}`, args...)); err != nil {
			t.Error(err)
		}
	}
	_, log := seasonOfSheets(2000)
	go func() {
		send(`"id":1,"method":"initialize","params":{"capabilities":{}}`)
		send(`"method":"textDocument/didOpen","params":{"textDocument":{"uri":"untitled:1","version":1,"text":%s}}`, quoted(log))
		for id := 2; id <= 12; id++ {
			send(`"id":%d,"method":"textDocument/documentSymbol","params":{"textDocument":{"uri":"untitled:1"}}`, id)
		}
		for id := 3; id <= 12; id++ {
			send(`"method":"$/cancelRequest","params":{"id":%d}`, id)
		}
	}()
	codes := map[int]int{}
	for len(codes) < 12 {
		raw, err := ch.Recv()
		if err != nil {
			t.Fatal(err)
		}
		var m struct {
			ID    int
			Error struct{ Code int }
		}
		if err := json.Unmarshal(raw, &m); err != nil {
			t.Fatal(err)
		}
		if m.ID > 0 {
			codes[m.ID] = m.Error.Code
		}
	}
	withdrawn := 0
	for id, code := range codes {
		if code == -32800 && id > 2 {
			withdrawn++
		} else if code != 0 {
			t.Errorf("question %d is answered with %d", id, code)
		}
	}
	if withdrawn == 0 {
		t.Error("every question was answered, also those that were withdrawn")
	}
	go send(`"id":13,"method":"shutdown"`)
	if _, err := ch.Recv(); err != nil {
		t.Error(err)
	}
	go send(`"method":"exit"`)
	go io.Copy(io.Discard, toEditor)
	if err := <-left; err != nil {
		t.Error(err)
	}
}

// What is typed in one go is checked once.
func TestEditorWaitsForThePause(t *testing.T) {
	e, dir, uri, text := exampleInEditor(t, brickworks)
	e.hears(uri, 1)
	e.mu.Lock()
	heard := e.heard
	e.mu.Unlock()
	for version := 2; version <= 51; version++ {
		e.change(uri, version, map[string]any{"range": stretch{spot{0, 1}, spot{0, 1}}, "text": "x"})
		text = text[:1] + "x" + text[1:]
	}
	if got, want := e.hears(uri, 51), checkSays(checked(t, dir, map[string]string{brickworks: text}), brickworks); !sameProblems(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	e.mu.Lock()
	defer e.mu.Unlock()
	if n := e.heard - heard; n > 25 {
		t.Errorf("50 keys in one go were answered %d times", n)
	}
}

func quoted(text string) string {
	b, _ := json.Marshal(text)
	return string(b)
}
