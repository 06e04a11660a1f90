package house_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The house has rooms, and the arrows between them run one way only. This test
// reads every source file of the module, those for other systems too, and holds
// each room to what it may import and do.

// top leads from this folder to the module's.
const top = "../../.."

// rooms says what of the module each package may import. A package without a
// line here fails the test: where it stands is to be decided, not drifted into.
var rooms = map[string][]string{
	"lang/pattern":            {},
	"lang/source":             {},
	"lang/ruler":              {},
	"lang/diag":               {"lang/ruler", "lang/source"},
	"lang":                    {"lang/pattern", "lang/source", "lang/diag"},
	"compile/exposure":        {},
	"compile/scan":            {},
	"compile/handbook":        {"compile/exposure"},
	"compile/spectral":        {},
	"compile/sensitometry":    {},
	"compile/slip":            {"lang/pattern", "compile/exposure"},
	"compile/record":          {"compile/exposure"},
	"compile":                 {"lang", "lang/pattern", "lang/source", "lang/diag", "compile/exposure", "compile/handbook", "compile/slip", "compile/spectral", "compile/sensitometry", "compile/record"},
	"compile/query":           {"lang", "lang/pattern", "lang/diag", "lang/source", "compile/exposure", "compile/handbook", "compile/record", "compile/slip"},
	"render/draw":             {"compile/record", "compile/exposure"},
	"render/html/chrome":      {}, // of no room, see onlyTests
	"cmd/notchbook/program":   {}, // the same
	"render/saying":           {"compile/record", "compile/exposure"},
	"render/html":             {"lang/pattern", "compile/record", "compile/exposure", "render/draw", "render/saying"},
	"render/pdf":              {"lang/ruler", "lang/pattern", "compile/record", "compile/exposure", "render/draw", "render/saying"},
	"render/text":             {"lang/ruler", "compile/record", "compile/exposure", "render/saying"},
	"render/data":             {"lang/pattern", "compile/record", "compile/exposure"},
	"render/bag":              {},
	"cmd/notchbook/disk":      {},
	"cmd/fieldcard":           {"compile", "render/data"},
	"cmd/notchbook/desk":      {},
	"cmd/notchbook/fieldcard": {"compile/record", "compile/exposure", "render/saying"},
	"cmd/notchbook/lsp":       {"lang", "lang/source", "lang/diag", "compile", "compile/exposure", "compile/record", "render/saying"},
	"cmd/notchbook":           {}, // all of the house, see allowed
	"examples/draw":           {},
}

// mayPrint are the rooms that are no library: they speak, and meet the world.
func mayPrint(room string) bool {
	return strings.HasPrefix(room, "cmd/") || room == "examples/draw" || slices.Contains(onlyTests, room)
}

// onlyTests are the rooms that no other may import but for its tests.
var onlyTests = []string{"render/html/chrome", "cmd/notchbook/program"}

// worldly are the packages of the standard library that reach files, clock,
// network or terminal in whatever is called of them, or give chance a say.
var worldly = []string{
	"C", "expvar", "flag", "io/ioutil", "log", "log/slog", "log/syslog", "math/rand", "math/rand/v2", "crypto/rand", "net", "net/http",
	"os", "os/exec", "os/signal", "os/user", "path/filepath", "plugin", "runtime/debug", "syscall", "testing", "unsafe",
}

// acts are the single functions that do the same in packages that are else
// harmless.
var acts = map[string][]string{
	"fmt":  {"Print", "Printf", "Println", "Scan", "Scanf", "Scanln"},
	"time": {"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTicker", "NewTimer", "Local", "LoadLocation"},
}

func inModule(room string) string { return "notchbook/" + room }

// allowed tells whether a room may import another. The command stands on top of
// the house and takes from every room; from the example's program nobody does.
func allowed(room, other string) bool {
	if room == "cmd/notchbook" {
		return !strings.HasPrefix(other, "examples/") && !slices.Contains(onlyTests, other)
	}
	return slices.Contains(rooms[room], other)
}

// sources gives every Go file of the module that is no test.
func sources(t *testing.T) []string {
	t.Helper()
	var files []string
	err := filepath.WalkDir(top, func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && name != top && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata"):
			return filepath.SkipDir
		case !d.IsDir() && strings.HasSuffix(name, ".go") && !strings.HasSuffix(name, "_test.go"):
			files = append(files, name)
		}
		return nil
	})
	if err != nil || len(files) == 0 {
		t.Fatal("no sources found: ", err)
	}
	return files
}

func TestArrowsRunOneWay(t *testing.T) {
	for _, name := range sources(t) {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, fault := range faults(roomOf(t, name), name, text) {
			t.Error(fault)
		}
	}
}

func roomOf(t *testing.T, name string) string {
	t.Helper()
	room, err := filepath.Rel(top, filepath.Dir(name))
	if err != nil {
		t.Fatal(err)
	}
	return filepath.ToSlash(room)
}

// faults is what a source file does that its room does not allow.
func faults(room, name string, text []byte) []string {
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, name, text, parser.SkipObjectResolution)
	if err != nil {
		return []string{err.Error()}
	}
	r := reader{set: set, room: room, names: map[string]string{}}
	if _, known := rooms[room]; !known {
		r.fault(file.Name, "this package has no place in the house")
	}
	for _, spec := range file.Imports {
		r.imported(spec)
	}
	if !mayPrint(room) {
		for _, d := range file.Decls {
			r.declaration(d)
		}
	}
	return r.faults
}

// reader reads one file.
type reader struct {
	set    *token.FileSet
	room   string
	names  map[string]string // what an imported package is called here
	faults []string
}

func (r *reader) fault(at ast.Node, what string) {
	r.faults = append(r.faults, r.set.Position(at.Pos()).String()+": "+what)
}

func (r *reader) imported(spec *ast.ImportSpec) {
	full, _ := strconv.Unquote(spec.Path.Value)
	name := path.Base(full)
	if spec.Name != nil {
		name = spec.Name.Name
	}
	r.names[name] = full
	other, ours := strings.CutPrefix(full, "notchbook/")
	switch {
	case name == ".":
		r.fault(spec, full+" is imported without a name, so that nobody can tell what is whose")
	case ours && !allowed(r.room, other):
		r.fault(spec, r.room+" may not import "+other)
	case !mayPrint(r.room) && slices.Contains(worldly, full):
		r.fault(spec, "a library does not import "+full)
	}
}

// declaration looks for acts in one declaration. A panic may stand where a
// slip of ours shows when the program starts: in a variable's value, in init,
// and in functions named must.
func (r *reader) declaration(d ast.Decl) {
	function, ok := d.(*ast.FuncDecl)
	starts := !ok || function.Name.Name == "init" || strings.HasPrefix(function.Name.Name, "must")
	ast.Inspect(d, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			if f, ok := n.Fun.(*ast.Ident); ok && (f.Name == "print" || f.Name == "println" || f.Name == "panic" && !starts) {
				r.fault(n, "a library does not call "+f.Name)
			}
		case *ast.SelectorExpr:
			if x, ok := n.X.(*ast.Ident); ok && slices.Contains(acts[r.names[x.Name]], n.Sel.Name) {
				r.fault(n, "a library does not use "+r.names[x.Name]+"."+n.Sel.Name)
			}
		}
		return true
	})
}

// A test that finds nothing wrong must be able to: each of these is a fault in
// its room, and the last ones are none.
func TestArrowsThatRunTheWrongWayAreSeen(t *testing.T) {
	cases := []struct{ room, text, want string }{
		{"lang", `import "notchbook/compile"`, "lang may not import compile"},
		{"render/html", `import "notchbook/lang/diag"`, "render/html may not import lang/diag"},
		{"compile", `import "notchbook/compile/scan"`, "compile may not import compile/scan"},
		{"compile/record", `import p "notchbook/compile"`, "compile/record may not import compile"},
		{"cmd/notchbook/disk", `import "notchbook/compile"`, "cmd/notchbook/disk may not import compile"},
		{"lang/util", ``, "no place in the house"},
		{"lang", `import "os"`, "does not import os"},
		{"lang", `import . "fmt"`, "without a name"},
		{"lang", `import "fmt"; func f() { fmt.Println() }`, "fmt.Println"},
		{"lang", `import out "fmt"; var f = out.Print`, "fmt.Print"},
		{"lang", `import "time"; func f() { _ = time.Now }`, "time.Now"},
		{"lang", `func f() { println() }`, "call println"},
		{"lang", `func f() { panic(1) }`, "call panic"},
		{"lang", `func mustF() { panic(1) }; var a = func() int { panic(2) }()`, ""},
		{"lang", `import "fmt"; var a = fmt.Sprint(1)`, ""},
		{"cmd/notchbook", `import ("os"; "notchbook/render/html"); func f() { println(); os.Exit(1) }`, ""},
	}
	for _, c := range cases {
		found := faults(c.room, "x.go", []byte("package x; "+c.text))
		switch {
		case c.want == "" && len(found) > 0:
			t.Errorf("%s in %s: %q", c.text, c.room, found)
		case c.want != "" && (len(found) != 1 || !strings.Contains(found[0], c.want)):
			t.Errorf("%s in %s: found %q, want one fault: %s", c.text, c.room, found, c.want)
		}
	}
}

// What needs no files also runs in a browser.
func TestLibrariesBuildForBrowsers(t *testing.T) {
	if testing.Short() {
		t.Skip("short: nothing is built for browsers")
	}
	tool, err := exec.LookPath("go")
	if err != nil {
		t.Skip("the go tool is not there: nothing is built for browsers")
	}
	// As cmd/notchbook/fieldcard/pack builds, so that what is built serves both.
	args := []string{"build", "-trimpath"}
	for room := range rooms {
		if !mayPrint(room) && room != "compile/scan" {
			args = append(args, inModule(room))
		}
	}
	build := exec.Command(tool, args...)
	build.Dir = top
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	if out, err := build.CombinedOutput(); err != nil {
		t.Errorf("for js/wasm: %v\n%s", err, out)
	}
}

// Whatever we stand on is listed, with what it is for and why not less.
func TestLibrariesAreListed(t *testing.T) {
	mod, err := os.ReadFile(top + "/go.mod")
	if err != nil {
		t.Fatal(err)
	}
	house, err := os.ReadFile(top + "/DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, table, _ := strings.Cut(string(house), "## Libraries, and why not less")
	listed := 0
	for line := range strings.Lines(string(mod)) {
		name, _, ok := strings.Cut(strings.TrimSpace(line), " v")
		if !ok || strings.Contains(line, "// indirect") {
			continue
		}
		listed++
		if !strings.Contains(table, strings.TrimPrefix(name, "github.com/")) {
			t.Errorf("DEVELOPERS.md does not say what %s is for", name)
		}
	}
	if listed < 10 {
		t.Errorf("only %d libraries were found", listed)
	}
}

// Fits are solved by gonum: a product, a factorization or an elimination by hand is
// three loops in one another with an index each, and the room of the tests has none;
// nor does it sort or solve what gonum and the standard library do.
func TestFitsAreNotSolvedByHand(t *testing.T) {
	const room = "compile/sensitometry"
	uses := map[string]bool{}
	for _, name := range sources(t) {
		if roomOf(t, name) != room {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, i := range file.Imports {
			if p, err := strconv.Unquote(i.Path.Value); err == nil {
				uses[p] = true
			}
		}
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && deepest(f) > 2 {
				t.Errorf("%s: %s has %d loops in one another: is that not gonum's?", name, f.Name.Name, deepest(f))
			}
		}
	}
	for _, p := range []string{"mat", "stat", "interp", "floats"} {
		if !uses["gonum.org/v1/gonum/"+p] {
			t.Errorf("nothing of gonum's %s is used", p)
		}
	}
}

// deepest is how many loops lie in one another.
func deepest(n ast.Node) (most int) {
	ast.Inspect(n, func(inner ast.Node) bool {
		if inner == nil || inner == n {
			return true
		}
		switch inner.(type) {
		case *ast.ForStmt, *ast.RangeStmt:
			most = max(most, 1+deepest(inner))
			return false
		}
		return true
	})
	return most
}
