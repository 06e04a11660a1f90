package main

import (
	"fmt"
	"io"
	"io/fs"
	"strings"
	"testing"
	"unicode/utf8"

	"notchbook/cmd/notchbook/lsp"
	"notchbook/compile"
	"notchbook/lang/diag"
)

// FuzzSums sends any bytes through the reader of a record's sums: a list is read
// or refused, and what is read has whole digests.
func FuzzSums(f *testing.F) {
	sum := strings.Repeat("0a", 32)
	for _, text := range []string{"", sum + "  scans/1.tif\n", `\` + sum + `  a\\b\nc.tif` + "\n", sum + " *x\n", sum + "  ../../x\n", sum + "  /abs\n", "no\n", sum} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		sums, err := readSums(text, "season/record", "season")
		for name, digest := range sums {
			if err == nil && (len(digest) != 64 || name == "") {
				t.Errorf("%q has the digest %q", name, digest)
			}
		}
	})
}

// FuzzTerms sends any text through the field calculation.
func FuzzTerms(f *testing.F) {
	for _, terms := range []string{"EV 12, R25, ext 300mm", "1/60 f16", "metered 1/2 f8 at EI 50, 2s", "EV 1e308", "f0", "1/0 f16", "D 1.2 on III", "ext 0mm", "N-1, bracket ±1, falls on VII"} {
		f.Add(terms)
	}
	kit := "lens 300: 300 mm, f9-f64\nfilm slate: ISO 400, EI 250, reciprocity 2s=3s 4s=7s\nfilter R25: x8\nfilm: slate\nlens: 300\n"
	read := func(name string) ([]byte, error) {
		if name == "kit.md" {
			return []byte(kit), nil
		}
		return nil, fs.ErrNotExist
	}
	f.Fuzz(func(t *testing.T, terms string) {
		_, list := compile.Reckon(compile.World{Read: read}, "", terms, "kit.md")
		for _, d := range list {
			if diag.Lookup(d.Code).Title == "" {
				t.Errorf("%q is no finding", d.Code)
			}
		}
	})
}

// FuzzMessages sends any message to the editor's server between a notebook that
// is opened and a goodbye: what it answers is framed and is text.
func FuzzMessages(f *testing.F) {
	for _, message := range []string{
		`{"jsonrpc":"2.0","id":7,"method":"textDocument/hover","params":{"textDocument":{"uri":"untitled:a.md"},"position":{"line":2,"character":3}}}`,
		`{"jsonrpc":"2.0","method":"textDocument/didChange","params":{"textDocument":{"uri":"untitled:a.md","version":2},"contentChanges":[{"range":{"start":{"line":0,"character":0},"end":{"line":9,"character":9}},"text":"1A: f16"}]}}`,
		`{"jsonrpc":"2.0","id":8,"method":"textDocument/completion","params":{"textDocument":{"uri":"untitled:a.md"},"position":{"line":-1,"character":99999999}}}`,
		`{"jsonrpc":"2.0","id":9,"method":"textDocument/rename","params":{"textDocument":{"uri":"untitled:a.md"},"position":{"line":2,"character":0},"newName":"\n"}}`,
		`{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"file:///../../etc/passwd","languageId":"x","version":1,"text":"\u0000"}}}`,
		`{"jsonrpc":"2.0","id":10,"method":"textDocument/documentLink","params":null}`,
		`{"jsonrpc":"2.0","id":11,"method":"textDocument/hover","params":{"textDocument":{"uri":"untitled:a.md"},"position":{"line":99999999,"character":0}}}`,
		`{"jsonrpc":"2.0","id":12,"method":"textDocument/codeAction","params":{"textDocument":{"uri":"untitled:a.md"},"range":{"start":{"line":-9,"character":-1},"end":{"line":9223372036854775807,"character":0}}}}`,
		`{"jsonrpc":"2.0","id":2,"method":"exit"}`, `[{"jsonrpc":"2.0","method":"exit"},{"sonrpc":"2.0","method":"exit"}]`,
		`[]`, `{}`, `null`, `{"id":{}}`,
	} {
		f.Add(message)
	}
	f.Fuzz(func(t *testing.T, message string) {
		var in strings.Builder
		for _, m := range []string{
			`{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"capabilities":{}}}`, `{"jsonrpc":"2.0","method":"initialized","params":{}}`,
			`{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"untitled:a.md","languageId":"markdown","version":1,"text":"lens 300: 300 mm\nmeter: 1/60 f16\n1A: 1/30 f16, lens 300\n"}}}`,
			message, `{"jsonrpc":"2.0","id":2,"method":"shutdown"}`, `{"jsonrpc":"2.0","method":"exit"}`,
		} {
			fmt.Fprintf(&in, "Content-Length: %d\r\n\r\n%s", len(m), m)
		}
		out := &answers{}
		lsp.Serve(strings.NewReader(in.String()), out, lsp.Options{Version: number, Open: func(string) (lsp.Folder, error) { return nil, fs.ErrNotExist }}) // whatever it ends with
		if said := out.text.String(); !utf8.ValidString(said) || said != "" && !strings.HasPrefix(said, "Content-Length: ") {
			t.Errorf("it answers %q", said)
		}
	})
}

// answers collects what the server says.
type answers struct{ text strings.Builder }

func (a *answers) Write(p []byte) (int, error) { return a.text.Write(p) }
func (a *answers) Close() error                { return nil }

var _ io.WriteCloser = (*answers)(nil)
