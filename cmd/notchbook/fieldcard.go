package main

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"

	"notchbook/cmd/notchbook/disk"
	"notchbook/cmd/notchbook/fieldcard"
	"notchbook/compile"
	"notchbook/lang/diag"
)

// fieldcardCommand makes the card that is taken along.
type fieldcardCommand struct {
	Path   string `arg:"" name:"path" help:"Folder of the season, or the notebook that declares the kit."`
	Output string `short:"o" name:"output" default:"card.html" placeholder:"FILE" help:"The card. Default: card.html, where you stand."`
	audience
}

// Run writes the card.
func (c *fieldcardCommand) Run(t terminal) error {
	r, err := c.read([]string{c.Path}, t.in)
	if err != nil {
		return err
	}
	defer r.close()
	r.quick = true
	r.problems(t)
	checked := compile.Check(r.world(), r.names...)
	kit := fieldcard.Kit{Names: checked.KitNames(), Texts: map[string]string{}}
	if len(kit.Names) == 0 {
		return errors.New("no notebook there declares a kit: a card has the lenses, films and filters that are declared")
	}
	for _, name := range kit.Names {
		kit.Texts[name] = string(checked.Notebook(name).File.Text)
	}
	card, list := compile.Card(compile.World{Title: r.title(), Read: r.notebook, Public: r.public}, kit.Names...)
	if err := (diag.Writer{Out: t.out, Colour: t.colour}).Write(list); err != nil {
		return err
	}
	var b bytes.Buffer
	if err := fieldcard.Write(&b, card, kit, "notchbook "+number); err != nil {
		return err
	}
	if err := writeOver(c.Output, b.Bytes(), fieldcard.Is); err != nil {
		return err
	}
	fmt.Fprintln(t.out, diag.Clean("the card is "+c.Output+": it needs no network; send it to the phone as it is"))
	return nil
}

// writeOver writes a file whole or not at all. One that stands there already is
// replaced only where it is of the same sort: notes have the same right to a
// name.
func writeOver(name string, text []byte, same func([]byte) bool) error {
	folder, err := disk.Open(filepath.Dir(name))
	if err != nil {
		return err
	}
	defer folder.Close()
	base := filepath.Base(name)
	if old, err := folder.ReadFile(base); err == nil && !same(old) {
		return fmt.Errorf("%s exists and was not written by notchbook; nothing was changed", name)
	}
	return folder.WriteFile(base, text)
}
