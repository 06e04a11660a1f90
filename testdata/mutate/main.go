// Command mutate asks whether the tests would notice: it changes one comparison,
// sign, constant or connective of a package at a time, runs the tests that should
// mind, and prints the changes that nobody minded.
//
//	go run ./testdata/mutate -n 100 -test ./compile/exposure compile/exposure/*.go
//	go run ./testdata/mutate -n 60 -test ./compile compile/slip/*.go compile/diagnose.go
//	go run ./testdata/mutate -n 60 -test ./lang lang/lexer.go lang/shape.go lang/number.go
//
// Of all changes it tries so many, drawn by a seed. Nothing in the tree is written:
// the changed file is laid over it (go help build, -overlay). A change that does
// not compile is no change.
package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// change replaces a stretch of a file.
type change struct {
	file     string
	from, to int // bytes
	text     string
	place    token.Position
	was      string
}

// other is what an operator is changed into.
var other = map[token.Token]string{
	token.LSS: "<=", token.LEQ: "<", token.GTR: ">=", token.GEQ: ">", token.EQL: "!=", token.NEQ: "==",
	token.ADD: "-", token.SUB: "+", token.MUL: "/", token.QUO: "*", token.LAND: "||", token.LOR: "&&",
}

func main() {
	n := flag.Int("n", 50, "changes to try")
	seed := flag.Uint64("seed", 1, "of the draw")
	tests := flag.String("test", "", "packages whose tests are run, separated by blanks")
	limit := flag.Duration("limit", 5*time.Minute, "for the tests of one change; tests that do not end have minded")
	flag.Parse()
	all, err := changes(flag.Args())
	if err == nil && (len(all) == 0 || *tests == "") {
		err = fmt.Errorf("there is nothing to change, or no -test")
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(2)
	}
	rand.New(rand.NewPCG(*seed, 0)).Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	minded, tried := 0, 0
	for _, c := range all[:min(*n, len(all))] {
		switch outcome := try(c, strings.Fields(*tests), *limit); outcome {
		case "minded":
			minded++
			tried++
		case "not minded":
			tried++
			fmt.Printf("nobody minds %s:%d:%d: %s became %s\n", c.file, c.place.Line, c.place.Column, c.was, c.text)
		}
	}
	fmt.Printf("%d of %d changes were minded, %.0f %%; %d are possible\n", minded, tried, 100*float64(minded)/float64(max(tried, 1)), len(all))
}

// changes finds all of some files but tests.
func changes(files []string) (all []change, err error) {
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		src, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		set := token.NewFileSet()
		tree, err := parser.ParseFile(set, name, src, 0)
		if err != nil {
			return nil, err
		}
		add := func(at token.Pos, was, text string) {
			p := set.Position(at)
			all = append(all, change{name, p.Offset, p.Offset + len(was), text, p, was})
		}
		ast.Inspect(tree, func(node ast.Node) bool {
			switch node := node.(type) {
			case *ast.BinaryExpr:
				if text := other[node.Op]; text != "" {
					add(node.OpPos, node.Op.String(), text)
				}
			case *ast.UnaryExpr:
				if node.Op == token.NOT || node.Op == token.SUB {
					add(node.OpPos, node.Op.String(), " ")
				}
			case *ast.BasicLit:
				switch node.Kind {
				case token.INT:
					add(node.ValuePos, node.Value, "("+node.Value+"+1)")
				case token.FLOAT:
					add(node.ValuePos, node.Value, "("+node.Value+"*1.1)")
				}
			case *ast.ImportSpec:
				return false
			}
			return true
		})
	}
	return all, nil
}

// try runs the tests with one change laid over the tree.
func try(c change, tests []string, limit time.Duration) string {
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return err.Error()
	}
	defer os.RemoveAll(dir)
	src, err := os.ReadFile(c.file)
	if err != nil {
		return err.Error()
	}
	full, _ := filepath.Abs(c.file)
	laid := filepath.Join(dir, filepath.Base(c.file))
	overlay := filepath.Join(dir, "overlay.json")
	list, _ := json.Marshal(map[string]map[string]string{"Replace": {full: laid}})
	if err := os.WriteFile(laid, []byte(string(src[:c.from])+c.text+string(src[c.to:])), 0o644); err != nil {
		return err.Error()
	}
	if err := os.WriteFile(overlay, list, 0o644); err != nil {
		return err.Error()
	}
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	args := append([]string{"test", "-overlay", overlay, "-vet=off", "-failfast", "-short", "-count=1", "-p=1"}, tests...)
	out, err := exec.CommandContext(ctx, "go", args...).CombinedOutput()
	switch {
	case err == nil:
		return "not minded"
	case strings.Contains(string(out), "[build failed]"):
		return "does not compile"
	}
	return "minded"
}
