// Package fieldcard makes the card for the field: one HTML file that needs no
// network and no server. In it lie the kit's tables, and the whole checker as
// WebAssembly, so that a note can be checked while the sheet is still in its
// holder. The checker is cmd/fieldcard; it is packed into checker.wasm.gz by
//
//	go generate ./cmd/notchbook/fieldcard
//
// which must be run when the compiler has changed: .ci/run compares.
package fieldcard

//go:generate ./pack

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/ascii85"
	"encoding/base64"
	"html/template"
	"io"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/render/saying"
)

var (
	//go:embed card.html
	page string
	//go:embed card.css
	style string
	//go:embed card.js
	script string
	//go:embed checker/checker.wasm.gz
	checker []byte
	//go:embed checker/wasm_exec.js
	runtime string // of WebAssembly, by the Go authors; LICENSE-go beside it
)

// Kit is the notebooks that declare things, as the checker is handed them.
type Kit struct {
	Names []string          `json:"names"`
	Texts map[string]string `json:"texts"`
}

// Write writes the card of a kit.
func Write(w io.Writer, card *record.Card, kit Kit, generator string) error {
	t, err := template.New("card").Funcs(template.FuncMap{"stops": exposure.FormatAmount, "bind": saying.Bind}).Parse(page)
	if err != nil {
		return err
	}
	// Nothing here but our own files becomes markup; the kit's words pass through
	// the template's escaping.
	return t.Execute(w, map[string]any{
		"Card": card, "Kit": kit, "Generator": generator, "Sources": sources(card),
		"Style":        template.HTML("<style>" + style + "</style>"),
		"Script":       template.HTML("<script>" + script + "</script>"),
		"Runtime":      template.HTML("<script>" + runtime + "</script>"),
		"Checker":      template.HTML(`<script type="application/octet-stream" id="checker">` + inAscii85(checker) + "</script>"),
		"StyleHash":    hash(style),
		"ScriptHashes": template.HTMLAttr(hash(runtime) + " " + hash(script)),
	})
}

// inAscii85 is bytes as a text that is a quarter longer than they are, where base64 is a third, with v in the place of the sign
// with which markup begins.
func inAscii85(b []byte) string {
	text := make([]byte, ascii85.MaxEncodedLen(len(b)))
	text = text[:ascii85.Encode(text, b)]
	return strings.ReplaceAll(string(text), "<", "v")
}

// Is reports whether a file is a card that was written before.
func Is(text []byte) bool {
	head := text[:min(len(text), 1500)]
	return bytes.Contains(head, []byte("<title>Field card –")) && bytes.Contains(head, []byte(`name="generator" content="notchbook`))
}

// hash is a text's source expression in a Content-Security-Policy.
func hash(text string) template.HTMLAttr {
	sum := sha256.Sum256([]byte(text))
	return template.HTMLAttr("'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'")
}

// sources are those of the lights, each once.
func sources(card *record.Card) []string {
	var all []string
	for _, l := range card.Lights {
		if !slices.Contains(all, l.Source) {
			all = append(all, l.Source)
		}
	}
	return all
}
