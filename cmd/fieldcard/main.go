//go:build js

// Command fieldcard is the checker as it lies in a field card: the whole
// compiler as WebAssembly, called by the card's page. It reads what it is handed
// and nothing else.
package main

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"syscall/js"

	"notchbook/compile"
	"notchbook/render/data"
)

func main() {
	js.Global().Set("notchbook", js.ValueOf(map[string]any{
		"check":    js.FuncOf(check),
		"settings": js.FuncOf(settings),
	}))
	js.Global().Call("notchbookReady")
	select {} // the page calls from now on
}

// notes are the texts that a call hands over, by name.
type notes map[string]string

func (n notes) read(name string) ([]byte, error) {
	text, ok := n[name]
	if !ok {
		return nil, &fs.PathError{Op: "read", Path: name, Err: fs.ErrNotExist}
	}
	return []byte(text), nil
}

// given is what a call hands over first: a JSON object of notebooks by name,
// and the names of those to read, in order.
func given(args []js.Value) (notes, []string) {
	n, names := notes{}, []string{}
	if json.Unmarshal([]byte(args[0].String()), &n) != nil || json.Unmarshal([]byte(args[1].String()), &names) != nil {
		return notes{}, nil
	}
	return n, names
}

// check(texts, names) gives the findings as check --format json does.
func check(_ js.Value, args []js.Value) any {
	n, names := given(args)
	season, _ := compile.Compile(compile.World{Title: "Notes", Read: n.read}, names...)
	var b bytes.Buffer
	if err := data.Findings(&b, season, ""); err != nil {
		return err.Error()
	}
	return b.String()
}

// settings(texts, names, reading) gives what each filter asks for at a reading, a
// JSON object of terms, light and aperture, as JSON.
func settings(_ js.Value, args []js.Value) any {
	n, names := given(args)
	var rd compile.Reading
	if json.Unmarshal([]byte(args[2].String()), &rd) != nil {
		return "[]"
	}
	b, err := json.Marshal(compile.ReckonEach(compile.World{Read: n.read}, rd, names...))
	if err != nil {
		return "[]"
	}
	return string(b)
}
