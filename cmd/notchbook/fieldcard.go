package main

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"notchbook/cmd/notchbook/disk"
	"notchbook/cmd/notchbook/fieldcard"
	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/lang/diag"
	"notchbook/render/pdf"
)

// fieldcardCommand makes the card that is taken along.
type fieldcardCommand struct {
	Path   string `arg:"" name:"path" help:"Folder of the season, or the notebook that declares the kit."`
	Output string `short:"o" name:"output" placeholder:"FILE" help:"The card. Default: card.html, or card.pdf with --paper, in the current folder."`
	audience

	Paper string `enum:"none,a6,card" default:"none" help:"The tables to print, as PDF: a6 folds to eight panels of a quarter of the paper, card to a card for the pocket; none is the page for the phone."`
	On    string `enum:"a4,letter" default:"a4" help:"Paper to print on: a4 or letter."`
}

// Run writes the card.
func (c *fieldcardCommand) Run(t terminal) error {
	r, err := c.quickly([]string{c.Path}, t)
	if err != nil {
		return err
	}
	defer r.close()
	checked := r.check()
	var kit fieldcard.Kit
	if kit.Names, kit.Texts = checked.Kit(); len(kit.Names) == 0 {
		return errors.New("no notebook there declares a kit: a card has what its lines declare (lens 210: 210 mm; film slate: ISO 100; filter R25: x8), which may stand in a notebook of their own, kit.md")
	}
	read := func(name string) ([]byte, error) {
		if text, ok := kit.Texts[name]; ok {
			return []byte(text), nil
		}
		return r.notebook(name)
	}
	card, list := compile.Card(compile.World{Title: r.title(), Read: read, Public: r.public}, kit.Names...)
	if err := r.findings(t, t.out, list, 0); err != nil {
		return err
	}
	if c.Paper != "none" {
		return c.print(t, card)
	}
	c.Output = cmp.Or(c.Output, "card.html")
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

// print writes the card that is printed and folded.
func (c *fieldcardCommand) print(t terminal, card *record.Card) error {
	date, err := sourceDate(os.Getenv("SOURCE_DATE_EPOCH"))
	if err != nil {
		return err
	}
	o := pdf.CardOptions{Generator: "notchbook " + number, Date: date}
	if c.On == "letter" {
		o.Paper = pdf.Letter
	}
	if c.Paper == "card" {
		o.Fold = pdf.ToPocket
	}
	c.Output = cmp.Or(c.Output, "card.pdf")
	var b bytes.Buffer
	if err := pdf.WriteCard(&b, card, o); err != nil {
		return err
	}
	if err := writeOver(c.Output, b.Bytes(), pdf.IsCard); err != nil {
		return err
	}
	fmt.Fprintln(t.out, diag.Clean("the card is "+c.Output+": print it at its full size; how it is folded stands on it"))
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
	return renamed(folder.WriteFile(base, text), func(string) string { return name })
}
