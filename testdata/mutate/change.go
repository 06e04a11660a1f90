package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// change is one thing that may be otherwise.
type change struct {
	number       int // from 1
	place        token.Position
	was, becomes string
}

// edit puts a text at an offset of a file. Of those at one offset that with the
// higher rank comes first.
type edit struct {
	at, drop, rank int
	text           string
}

// loaded is the package with its changes.
type loaded struct {
	name    string
	set     *token.FileSet
	names   []string // of the files to change
	texts   [][]byte
	edits   [][]edit
	info    types.Info
	parents map[ast.Node]ast.Node
	changes []change
}

// switches are what the changes are made of. A changed operator takes its operands
// through a function, which does the one thing or the other.
const switches = `
import (
	"cmp"
	"os"
	"strconv"
)

var mutant = func() int { n, _ := strconv.Atoi(os.Getenv("NOTCHBOOK_MUTANT")); return n }()

type mutantNumber interface {
	~int | ~int8 | ~int16 | ~int32 | ~int64 | ~uint | ~uint8 | ~uint16 | ~uint32 | ~uint64 | ~uintptr | ~float32 | ~float64
}

func mutantNot(n int, v bool) bool { return v != (mutant == n) }

func mutantAnd(n int, a bool, b func() bool) bool {
	if mutant == n {
		return a || b()
	}
	return a && b()
}

func mutantOr(n int, a bool, b func() bool) bool {
	if mutant == n {
		return a && b()
	}
	return a || b()
}

func mutantLess[T cmp.Ordered](n int, a, b T) bool    { return a < b || mutant == n && a == b }
func mutantGreater[T cmp.Ordered](n int, a, b T) bool { return a > b || mutant == n && a == b }
func mutantMost[T cmp.Ordered](n int, a, b T) bool    { return a < b || mutant != n && a == b }
func mutantLeast[T cmp.Ordered](n int, a, b T) bool   { return a > b || mutant != n && a == b }

func mutantAdd[T mutantNumber](n int, a, b T) T {
	if mutant == n {
		return a - b
	}
	return a + b
}

func mutantSub[T mutantNumber](n int, a, b T) T {
	if mutant == n {
		return a + b
	}
	return a - b
}

func mutantMul[T mutantNumber](n int, a, b T) T {
	if mutant == n {
		return a / b
	}
	return a * b
}

func mutantDiv[T mutantNumber](n int, a, b T) T {
	if mutant == n {
		return a * b
	}
	return a / b
}

func mutantNeg[T mutantNumber](n int, a T) T {
	if mutant == n {
		return a
	}
	return -a
}

func mutantMore[T mutantNumber](n int, a T) T {
	if mutant == n {
		return a + 1
	}
	return a
}

func mutantTenth[T ~float32 | ~float64](n int, a T) T {
	if mutant == n {
		return a * 1.1
	}
	return a
}
`

// load reads the package that the files are of, with the types of all of it.
func load(files []string) (*loaded, error) {
	p := &loaded{set: token.NewFileSet(), parents: map[ast.Node]ast.Node{}, info: types.Info{Types: map[ast.Expr]types.TypeAndValue{}}}
	dir := "./" + filepath.Dir(files[0])
	list := func(args ...string) ([]string, error) {
		out, err := exec.Command("go", append([]string{"list"}, args...)...).Output()
		return strings.Fields(string(out)), err
	}
	all, err := list("-f", `{{join .GoFiles "\n"}}`, dir)
	if err != nil {
		return nil, err
	}
	exports, err := list("-export", "-deps", "-f", "{{.ImportPath}}={{.Export}}", dir)
	if err != nil {
		return nil, err
	}
	at := map[string]string{}
	for _, e := range exports {
		path, file, _ := strings.Cut(e, "=")
		at[path] = file
	}
	open := func(path string) (io.ReadCloser, error) { return os.Open(at[path]) }
	var trees []*ast.File
	changed := map[*ast.File]int{}
	for _, name := range all {
		full := filepath.Join(filepath.Dir(files[0]), name)
		tree, err := parser.ParseFile(p.set, full, nil, 0)
		if err != nil {
			return nil, err
		}
		trees = append(trees, tree)
		p.name = tree.Name.Name
		if slices.ContainsFunc(files, func(f string) bool { return filepath.Clean(f) == full }) {
			text, err := os.ReadFile(full)
			if err != nil {
				return nil, err
			}
			changed[tree] = len(p.names)
			p.names, p.texts, p.edits = append(p.names, full), append(p.texts, text), append(p.edits, nil)
		}
	}
	if _, err := (&types.Config{Importer: importer.ForCompiler(p.set, "gc", open)}).Check(p.name, p.set, trees, &p.info); err != nil {
		return nil, err
	}
	for _, tree := range trees {
		if file, ok := changed[tree]; ok {
			p.find(tree, file)
		}
	}
	return p, nil
}

// find finds the changes of a file.
func (p *loaded) find(tree *ast.File, file int) {
	var above []ast.Node
	ast.Inspect(tree, func(node ast.Node) bool {
		if node == nil {
			above = above[:len(above)-1]
			return true
		}
		if len(above) > 0 {
			p.parents[node] = above[len(above)-1]
		}
		switch node := node.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.GenDecl:
			if node.Tok == token.CONST {
				return false
			}
		case *ast.ArrayType:
			if node.Len != nil {
				return false
			}
		case *ast.BinaryExpr:
			p.binary(node, file)
		case *ast.UnaryExpr:
			p.unary(node, file)
		case *ast.BasicLit:
			p.literal(node, file)
		}
		above = append(above, node)
		return true
	})
}

func (p *loaded) constant(x ast.Expr) bool { return p.info.Types[x].Value != nil }

func (p *loaded) add(at token.Pos, was, becomes string) int {
	p.changes = append(p.changes, change{len(p.changes) + 1, p.set.Position(at), was, becomes})
	return len(p.changes)
}

// put replaces so many bytes. What begins further out has the higher rank where it
// begins, and the lower where it ends.
func (p *loaded) put(file int, at token.Pos, drop, rank int, text string) {
	p.edits[file] = append(p.edits[file], edit{p.set.Position(at).Offset, drop, rank, text})
}

// around puts a call around an expression.
func (p *loaded) around(file int, x ast.Expr, before, after string) {
	wide := int(x.End() - x.Pos())
	p.put(file, x.Pos(), 0, wide, before)
	p.put(file, x.End(), 0, -wide, after)
}

// binaries are the functions that take the place of operators, and what these become.
var binaries = map[token.Token][2]string{
	token.LSS: {"mutantLess", "<="}, token.LEQ: {"mutantMost", "<"}, token.GTR: {"mutantGreater", ">="}, token.GEQ: {"mutantLeast", ">"},
	token.ADD: {"mutantAdd", "-"}, token.SUB: {"mutantSub", "+"}, token.MUL: {"mutantMul", "/"}, token.QUO: {"mutantDiv", "*"},
	token.EQL: {"mutantNot", "!="}, token.NEQ: {"mutantNot", "=="}, token.LAND: {"mutantAnd", "||"}, token.LOR: {"mutantOr", "&&"},
}

// turned are comparisons of floats, and what these become.
var turned = map[token.Token]string{token.LSS: ">=", token.LEQ: ">", token.GTR: "<=", token.GEQ: "<"}

func (p *loaded) isFloat(x ast.Expr) bool {
	basic, _ := p.info.Types[x].Type.Underlying().(*types.Basic)
	return basic != nil && basic.Info()&types.IsFloat != 0
}

func (p *loaded) binary(x *ast.BinaryExpr, file int) {
	to, ok := binaries[x.Op]
	if !ok || p.constant(x) {
		return
	}
	basic, _ := p.info.Types[x].Type.Underlying().(*types.Basic)
	if basic == nil || basic.Info()&types.IsString != 0 {
		return // a text has no other sign
	}
	if p.isFloat(x.X) { // no two that were reckoned are the same, and so nobody could mind the edge
		if round, ok := turned[x.Op]; ok {
			p.around(file, x, fmt.Sprintf("mutantNot(%d, ", p.add(x.OpPos, x.Op.String(), round)), ")")
			return
		}
	}
	n := p.add(x.OpPos, x.Op.String(), to[1])
	width := len(x.Op.String())
	begin, end := fmt.Sprintf("%s(%d, ", to[0], n), ")"
	switch x.Op {
	case token.EQL, token.NEQ:
	case token.LAND, token.LOR:
		p.put(file, x.OpPos, width, 0, ", func() bool { return (")
		end = ") })"
	default:
		p.put(file, x.OpPos, width, 0, ",")
	}
	if b, named := p.info.Types[x].Type.(*types.Named); named && b.Obj() != nil && x.Op != token.ADD {
		// A named bool is not what the functions give.
		if basic.Info()&types.IsBoolean != 0 {
			begin, end = b.Obj().Name()+"("+begin, end+")"
		}
	}
	p.around(file, x, begin, end)
}

func (p *loaded) unary(x *ast.UnaryExpr, file int) {
	if p.constant(x) {
		return
	}
	switch x.Op {
	case token.NOT:
		n := p.add(x.OpPos, "!", "")
		p.around(file, x, fmt.Sprintf("mutantNot(%d, ", n), ")")
	case token.SUB:
		n := p.add(x.OpPos, "-", "")
		p.put(file, x.OpPos, 1, 0, "")
		p.around(file, x, fmt.Sprintf("mutantNeg(%d, ", n), ")")
	}
}

// literal changes a number that stands for a value of a type. One within a larger
// constant is part of that.
func (p *loaded) literal(x *ast.BasicLit, file int) {
	var outer ast.Expr = x
	for {
		up, ok := p.parents[outer].(ast.Expr)
		if _, call := up.(*ast.CallExpr); !ok || call || !p.constant(up) {
			break
		}
		outer = up
	}
	if outer != x && x.Kind != token.INT && x.Kind != token.FLOAT {
		return
	}
	if kv, ok := p.parents[outer].(*ast.KeyValueExpr); ok && kv.Key == outer {
		return // an index or a key
	}
	switch p.parents[outer].(type) {
	case *ast.CaseClause, *ast.IndexExpr:
		return
	}
	if b, ok := p.parents[outer].(*ast.BinaryExpr); ok && (b.Op == token.SHL || b.Op == token.SHR) {
		return
	}
	basic, _ := p.info.Types[outer].Type.Underlying().(*types.Basic)
	if basic == nil || basic.Info()&types.IsUntyped != 0 || outer != x && p.literalIn(outer) != x {
		return
	}
	if call, ok := p.parents[outer].(*ast.CallExpr); ok && p.constant(call) {
		return
	}
	name := types.TypeString(p.info.Types[outer].Type, func(other *types.Package) string { return other.Name() })
	if i := strings.LastIndex(name, "."); i >= 0 && strings.HasPrefix(name, p.name+".") {
		name = name[i+1:]
	}
	switch {
	case x.Kind == token.FLOAT && basic.Info()&types.IsFloat != 0:
		n := p.add(x.Pos(), x.Value, x.Value+"·1.1")
		p.around(file, outer, fmt.Sprintf("mutantTenth[%s](%d, ", name, n), ")")
	case x.Kind == token.INT && basic.Info()&types.IsNumeric != 0:
		n := p.add(x.Pos(), x.Value, x.Value+"+1")
		p.around(file, outer, fmt.Sprintf("mutantMore[%s](%d, ", name, n), ")")
	}
}

// literalIn is the first number of a constant: it stands for all of them.
func (p *loaded) literalIn(x ast.Expr) (first *ast.BasicLit) {
	ast.Inspect(x, func(node ast.Node) bool {
		if lit, ok := node.(*ast.BasicLit); ok && first == nil {
			first = lit
		}
		return first == nil
	})
	return first
}

// switched is a file with its changes.
func (p *loaded) switched(file int) []byte {
	edits := p.edits[file]
	slices.SortStableFunc(edits, func(a, b edit) int {
		if a.at != b.at {
			return a.at - b.at
		}
		return order(a) - order(b)
	})
	var out bytes.Buffer
	at := 0
	for _, e := range edits {
		out.Write(p.texts[file][at:e.at])
		out.WriteString(e.text)
		at = e.at + e.drop
	}
	out.Write(p.texts[file][at:])
	return out.Bytes()
}

// order at one offset: first what ends there, the innermost first; then what begins
// there, the outermost first; then what takes the place of an operator.
func order(e edit) int {
	const large = 1 << 40
	switch {
	case e.rank < 0:
		return -large - e.rank // the narrowest has the least
	case e.rank > 0:
		return large - e.rank
	}
	return large
}
