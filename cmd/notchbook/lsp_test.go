package main

import (
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode/utf16"
	"unicode/utf8"

	"github.com/creachadair/jrpc2"
	"github.com/creachadair/jrpc2/channel"

	"notchbook/compile"
	"notchbook/lang/diag"
)

// editor is a scripted editor: it speaks the protocol over pipes, as any editor
// does.
type editor struct {
	t    testing.TB
	rpc  *jrpc2.Client
	left chan error

	mu    sync.Mutex
	said  map[string]published
	heard int // how often
	news  chan struct{}
}

// published is what the server last said of a document.
type published struct {
	Version     int
	Diagnostics []problem
}

// problem is a diagnostic as the specification spells it.
type problem struct {
	Range    stretch
	Severity int
	Code     string
	Message  string
}

type spot struct{ Line, Character int }

type stretch struct{ Start, End spot }

// newEditor starts the server as the command does, and greets it.
func newEditor(t testing.TB, root string) *editor {
	t.Helper()
	toServer, fromEditor := io.Pipe()
	toEditor, fromServer := io.Pipe()
	e := &editor{t: t, left: make(chan error, 1), said: map[string]published{}, news: make(chan struct{}, 1)}
	go func() {
		e.left <- (&lspCommand{}).Run(terminal{in: toServer, out: fromServer})
		fromServer.Close()
	}()
	e.rpc = jrpc2.NewClient(channel.StrictHeader("")(toEditor, fromEditor), &jrpc2.ClientOptions{OnNotify: e.hear})
	var answer struct {
		Capabilities struct{ PositionEncoding string }
	}
	e.ask("initialize", map[string]any{"rootUri": "file://" + root, "capabilities": map[string]any{}}, &answer)
	if answer.Capabilities.PositionEncoding != "utf-16" {
		t.Errorf("an editor that says nothing counts UTF-16, not %q", answer.Capabilities.PositionEncoding)
	}
	e.tell("initialized", map[string]any{})
	t.Cleanup(e.leave)
	return e
}

// encoding greets again, and prefers one way to count columns.
func (e *editor) encoding(name string) {
	e.t.Helper()
	var answer struct {
		Capabilities struct{ PositionEncoding string }
	}
	e.ask("initialize", map[string]any{"capabilities": map[string]any{"general": map[string]any{"positionEncodings": []string{name, "utf-16"}}}}, &answer)
	if answer.Capabilities.PositionEncoding != name {
		e.t.Errorf("%s was asked for, and %s is counted", name, answer.Capabilities.PositionEncoding)
	}
}

func (e *editor) leave() {
	e.ask("shutdown", nil, nil)
	e.tell("exit", nil)
	if err := <-e.left; err != nil {
		e.t.Error(err)
	}
	e.rpc.Close()
}

func (e *editor) hear(r *jrpc2.Request) {
	if r.Method() != "textDocument/publishDiagnostics" {
		return
	}
	var p struct {
		URI string
		published
	}
	if err := r.UnmarshalParams(&p); err != nil {
		e.t.Error(err)
	}
	e.mu.Lock()
	e.said[p.URI] = p.published
	e.heard++
	e.mu.Unlock()
	select {
	case e.news <- struct{}{}:
	default:
	}
}

func (e *editor) ask(method string, params, result any) {
	e.t.Helper()
	if err := e.try(method, params, result); err != nil {
		e.t.Fatalf("%s: %v", method, err)
	}
}

func (e *editor) try(method string, params, result any) error {
	answer, err := e.rpc.Call(context.Background(), method, params)
	if err != nil || result == nil {
		return err
	}
	return answer.UnmarshalResult(result)
}

func (e *editor) tell(method string, params any) {
	e.t.Helper()
	if err := e.rpc.Notify(context.Background(), method, params); err != nil {
		e.t.Fatal(err)
	}
}

func (e *editor) open(uri, text string) {
	e.tell("textDocument/didOpen", map[string]any{"textDocument": map[string]any{"uri": uri, "languageId": "markdown", "version": 1, "text": text}})
}

func (e *editor) change(uri string, version int, changes ...map[string]any) {
	e.tell("textDocument/didChange", map[string]any{"textDocument": map[string]any{"uri": uri, "version": version}, "contentChanges": changes})
}

// hears waits until the server has spoken of a version of a document.
func (e *editor) hears(uri string, version int) []problem {
	e.t.Helper()
	limit := time.After(time.Minute)
	for {
		e.mu.Lock()
		p, ok := e.said[uri]
		e.mu.Unlock()
		if ok && p.Version == version {
			return p.Diagnostics
		}
		select {
		case <-e.news:
		case <-limit:
			e.t.Fatalf("nothing was said of %s, version %d", uri, version)
		}
	}
}

// utf16Spot is where an offset stands, counted here by other means than the
// server's.
func utf16Spot(text string, offset int) spot {
	before := strings.ReplaceAll(text[:offset], "\r\n", "\n")
	before = strings.ReplaceAll(before, "\r", "\n")
	lines := strings.Split(before, "\n")
	return spot{len(lines) - 1, len(utf16.Encode([]rune(lines[len(lines)-1])))}
}

// spots is utf16Spot for every offset of a text.
func spots(text string) []spot {
	all := make([]spot, len(text)+1)
	at := spot{}
	for i, c := range text {
		for j := range utf8.RuneLen(c) {
			all[i+j] = at
		}
		switch {
		case c == '\n', c == '\r' && !strings.HasPrefix(text[i+1:], "\n"):
			at = spot{at.Line + 1, 0}
		default:
			at.Character += utf16.RuneLen(c)
		}
	}
	all[len(text)] = at
	return all
}

// checkSays is what check says of a notebook, as an editor counts.
func checkSays(list diag.List, name string) []problem {
	all := []problem{}
	var where []spot
	for _, d := range list {
		if d.Span.File == nil || d.Span.File.Name != name {
			continue
		}
		if where == nil {
			where = spots(string(d.Span.File.Text))
		}
		p := problem{stretch{where[d.Span.Start], where[d.Span.End]}, int(d.Severity) + 1, d.Code, d.Message}
		for _, n := range d.Notes {
			p.Message += "\n" + n.Text
		}
		all = append(all, p)
	}
	return all
}

func sameProblems(a, b []problem) bool { return slices.Equal(a, b) }

// example is a copy of the shipped season, its notebook and the notebook's URI.
func exampleInEditor(t *testing.T, name string) (e *editor, dir, uri, text string) {
	t.Helper()
	dir = t.TempDir()
	copyNotes(t, dir, "../../examples/aldermoor")
	raw, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		t.Fatal(err)
	}
	e = newEditor(t, dir)
	uri = "file://" + filepath.Join(dir, name)
	e.open(uri, string(raw))
	return e, dir, uri, string(raw)
}

func checked(t *testing.T, dir string, with map[string]string) diag.List {
	t.Helper()
	r, err := open([]string{dir}, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer r.close()
	r.quick = true
	world := r.world()
	world.Read = func(name string) ([]byte, error) {
		if text, ok := with[name]; ok {
			return []byte(text), nil
		}
		return r.notebook(name)
	}
	return compile.Check(world, r.names...).Findings()
}

const brickworks = "2026-10-04-brickworks.md"

func TestEditorHearsWhatCheckSays(t *testing.T) {
	e, dir, uri, text := exampleInEditor(t, brickworks)
	got := e.hears(uri, 1)
	if want := checkSays(checked(t, dir, nil), brickworks); !sameProblems(got, want) || len(want) == 0 {
		t.Errorf("got %v\nwant %v", got, want)
	}
	// Unsaved: a mistake typed now is heard of now.
	line := strings.Count(text, "\n")
	e.change(uri, 2, map[string]any{"range": stretch{spot{line, 0}, spot{line, 0}}, "text": "\n9A: f16 ½, 1/30\n"})
	if !slices.ContainsFunc(e.hears(uri, 2), func(p problem) bool { return p.Range.Start.Line > line-1 }) {
		t.Error("the line typed last is not spoken of")
	}
	e.tell("textDocument/didClose", map[string]any{"textDocument": map[string]any{"uri": uri}})
}

// TestEditorAfterRandomEdits holds the server, after each of many edits, against
// check of the same text. NOTCHBOOK_EDITS says how many; a long run takes
// 10 000.
func TestEditorAfterRandomEdits(t *testing.T) {
	edits, sheets := 30, 200
	if n, err := strconv.Atoi(os.Getenv("NOTCHBOOK_EDITS")); err == nil {
		edits, sheets = n, 2000
	}
	dir := t.TempDir()
	kit, text := seasonOfSheets(sheets)
	for name, content := range map[string]string{"kit.md": kit, "log.md": text} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(content), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	e := newEditor(t, dir)
	uri := "file://" + filepath.Join(dir, "log.md")
	e.open(uri, text)
	random := rand.New(rand.NewPCG(1, 2))
	early := 0.0 // what the heap holds behind the first tenth
	var took, whole []time.Duration
	for version := 2; version <= edits+1; version++ {
		from, to, with := randomEdit(random, text)
		at := stretch{utf16Spot(text, from), utf16Spot(text, to)}
		text = text[:from] + with + text[to:]
		began := time.Now()
		e.change(uri, version, map[string]any{"range": at, "text": with})
		got := e.hears(uri, version)
		took = append(took, time.Since(began))
		began = time.Now()
		list := checked(t, dir, map[string]string{"log.md": text})
		whole = append(whole, time.Since(began))
		want := checkSays(list, "log.md")
		if !sameProblems(got, want) {
			t.Fatalf("edit %d, %q over bytes %d to %d:\ngot  %v\nwant %v", version-1, with, from, to, got, want)
		}
		if version-1 == edits/10 {
			early = heapMB()
		}
	}
	late := heapMB()
	slices.Sort(took)
	slices.Sort(whole)
	part := func(of []time.Duration, n int) time.Duration { return of[len(of)*n/100].Round(100 * time.Microsecond) }
	t.Logf("of %d sheets, from edit to findings: half within %v, 95 of 100 within %v; a whole check: half within %v, 95 of 100 within %v", sheets, part(took, 50), part(took, 95), part(whole, 50), part(whole, 95))
	t.Logf("the heap holds %.1f MB after %d edits and %.1f MB after %d; the text is %d bytes long", early, edits/10, late, edits, len(text))
	if late > 1.5*early+2 {
		t.Errorf("the server keeps more and more: %.1f MB after %d edits, %.1f MB after %d", early, edits/10, late, edits)
	}
}

// heapMB is what is still needed of the heap, in megabytes.
func heapMB() float64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc) / 1e6
}

// seasonOfSheets is a kit and a notebook of n sheets, one in ten of which is off,
// with more than ASCII in it.
func seasonOfSheets(n int) (kit, log string) {
	kit = "camera field: 4x5\nlens 210: 210 mm, f5.6-f64\nfilm sedge: ISO 100, pan\nfilter Y8: Wratten 8, x2\nfilter R25: Wratten 25, x8\n"
	var b strings.Builder
	b.WriteString("use: kit.md\n")
	for i := range n {
		if i%20 == 0 {
			fmt.Fprintf(&b, "\n# Gang %d 🌫\n\nday: 2026-%02d-%02d, Aldermoor\nload 1A-10B: sedge\n", i/20, i/20%12+1, i/240%28+1)
		}
		if i%5 == 0 {
			fmt.Fprintf(&b, "\nscene: Häuser %d – am Fluß\nmeter: EV 12\n\nSome prose, *as it comes*.\n\n", i)
		}
		filter := i % 3
		slow := filter
		if i%10 == 5 { // the time of another filter
			slow = (filter + 1) % 3
		}
		fmt.Fprintf(&b, "%d%c: %sf16 %s -- 🎞 frame %d\n", i%20/2+1, 'A'+i%2, []string{"", "Y8, ", "R25, "}[filter], []string{"1/15", "1/8", "½"}[slow], i)
	}
	return kit, b.String()
}

// randomEdit is a stretch of the text, at the bounds of characters, and what
// comes in its place: a slip, a line, a word, nothing.
func randomEdit(r *rand.Rand, text string) (from, to int, with string) {
	pieces := []string{"", "", "x", "½", "🌫", "\n", "\r\n", "f22", " no wait ", "3A: f11, 1/30\n", "~~", "`", "```\n", "- ", "EV 9 on III, ", "load 1A-2B: sedge\n", "scene: Tor\n", ": "}
	from = r.IntN(len(text) + 1)
	to = min(len(text), from+r.IntN(12))
	return runeStart(text, from), runeStart(text, to), pieces[r.IntN(len(pieces))]
}

// runeStart goes back to where a character begins, and not between CR and LF.
func runeStart(text string, at int) int {
	for at > 0 && at < len(text) && (text[at]&0xC0 == 0x80 || text[at] == '\n' && text[at-1] == '\r') {
		at--
	}
	return at
}

// at is the position of a piece of text in a document, n bytes into it.
func at(t *testing.T, text, piece string, n int) spot {
	t.Helper()
	i := strings.Index(text, piece)
	if i < 0 {
		t.Fatalf("%q is not in the notebook", piece)
	}
	return utf16Spot(text, i+n)
}

func inDocument(uri string, p spot) map[string]any {
	return map[string]any{"textDocument": map[string]any{"uri": uri}, "position": p}
}

type editLocation struct {
	URI   string
	Range stretch
}

type edit struct {
	Range   stretch
	NewText string
}

// applied is a text with edits, which are all of the text as it was.
func applied(text string, edits []edit) string {
	slices.SortFunc(edits, func(a, b edit) int {
		if a.Range.Start.Line != b.Range.Start.Line {
			return b.Range.Start.Line - a.Range.Start.Line
		}
		return b.Range.Start.Character - a.Range.Start.Character
	})
	for _, e := range edits {
		from, to := offsetOf(text, e.Range.Start), offsetOf(text, e.Range.End)
		text = text[:from] + e.NewText + text[to:]
	}
	return text
}

func offsetOf(text string, p spot) int {
	offset := 0
	for range p.Line {
		offset += strings.IndexByte(text[offset:], '\n') + 1
	}
	units := 0
	for i, c := range text[offset:] {
		if units >= p.Character {
			return offset + i
		}
		units += len(utf16.Encode([]rune{c}))
	}
	return len(text)
}

// BenchmarkEdit is the time from a key to the findings of a notebook of 2 000
// sheets, the way there and back included, of keys that come faster than any hand:
// what nineteen of twenty stay below, and the ratio of their median to that of the
// whole checks of the same text that are made in between.
func BenchmarkEdit(b *testing.B) {
	kit, text := seasonOfSheets(2000)
	world := compile.World{Read: func(name string) ([]byte, error) {
		if name == "kit.md" {
			return []byte(kit), nil
		}
		return []byte(text), nil
	}}
	b.Run("check", func(b *testing.B) {
		for b.Loop() {
			compile.Check(world, "log.md")
		}
	})
	b.Run("edit", func(b *testing.B) {
		dir := b.TempDir()
		if err := os.WriteFile(filepath.Join(dir, "kit.md"), []byte(kit), 0o644); err != nil {
			b.Fatal(err)
		}
		e, uri := newEditor(b, dir), "file://"+filepath.Join(dir, "log.md")
		e.open(uri, text)
		e.hears(uri, 1)
		from := utf16Spot(text, strings.Index(text, "frame 1000"))
		var took, whole []time.Duration
		version := 2
		for b.Loop() {
			time.Sleep(30 * time.Millisecond)
			began := time.Now()
			e.change(uri, version, map[string]any{"range": stretch{from, from}, "text": "x"})
			e.hears(uri, version)
			took = append(took, time.Since(began))
			if version%10 == 0 {
				began := time.Now()
				compile.Check(world, "log.md")
				whole = append(whole, time.Since(began))
			}
			version++
		}
		slices.Sort(took)
		b.ReportMetric(float64(took[len(took)*95/100].Microseconds())/1000, "p95-ms")
		b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "median-ms")
		if slices.Sort(whole); len(whole) > 0 {
			b.ReportMetric(float64(took[len(took)/2])/float64(whole[len(whole)/2]), "median/check")
		}
	})
}

// A kit that lies above a notebook's folder, within what the editor has open, is used.
func TestEditorUsesAKitAboveTheNotebook(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"kits/common.md": "film ash: ISO 100, EI 100\nfilter R25: x8\n",
		"front/kit.md":   "use: ../kits/common.md\nload 1A-2B: ash\n",
		"front/notes.md": "use: kit.md\nday: 2026-11-07\nmeter: 1/60 f16\n1A: R25, 1/60 f16\n",
	} {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	e := newEditor(t, dir)
	uri := "file://" + filepath.Join(dir, "front", "notes.md")
	text, err := os.ReadFile(filepath.Join(dir, "front", "notes.md"))
	if err != nil {
		t.Fatal(err)
	}
	e.open(uri, string(text))
	if got := e.hears(uri, 1); len(got) != 1 || got[0].Code != "exposure-off" {
		t.Errorf("said: %v", got)
	}
}
