package main

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"notchbook/compile/record"
	"notchbook/lang/diag"
	"notchbook/render/data"
)

// developCommand lists what waits for development.
type developCommand struct {
	Paths  []string `arg:"" name:"path" help:"Notebooks or folders of notebooks; - is standard input."`
	At     string   `placeholder:"22C" help:"Temperature to develop at, where the kit declares times around it: 22C or 72F. Default: the one that the kit declares first."`
	Format string   `enum:"text,json" default:"text" help:"How the answer is written: text or json."`
	audience
}

// Run prints the list.
func (c *developCommand) Run(t terminal) error {
	celsius, err := degrees(c.At)
	if err != nil {
		return err
	}
	season, folder, err := c.compiledAt(c.Paths, t, celsius)
	if err != nil {
		return err
	}
	if c.Format == "json" {
		return data.ToDevelop(t.out, season, folder)
	}
	printDevelop(t.out, &season.ToDevelop)
	return nil
}

// degrees reads a temperature in degrees Celsius or, with an F, Fahrenheit; 0
// where none is given.
func degrees(text string) (float64, error) {
	if text == "" {
		return 0, nil
	}
	low := strings.ToLower(strings.ReplaceAll(strings.ReplaceAll(text, "°", ""), " ", ""))
	v, err := strconv.ParseFloat(strings.TrimRight(low, "cf"), 64)
	if strings.HasSuffix(low, "f") {
		v = (v - 32) / 1.8
	}
	if err != nil || !(v > 0 && v < 60) {
		return 0, fmt.Errorf("%q is no temperature of a developer; write 20C or 68F", text)
	}
	return v, nil
}

func printDevelop(out io.Writer, page *record.ToDevelop) {
	if len(page.Batches)+len(page.Held) == 0 {
		fmt.Fprintln(out, "nothing waits for development")
	}
	for _, b := range page.Batches {
		printBatch(out, b)
	}
	if len(page.Held) > 0 {
		fmt.Fprintln(out, "HOLD BACK")
		for _, h := range page.Held {
			fmt.Fprintln(out, "  "+diag.Clean(named(h.Sheet)+": "+h.Why))
			fmt.Fprintln(out, "      "+diag.Clean(h.Still))
		}
		for _, text := range page.Helps {
			fmt.Fprintln(out, "  "+diag.Clean(text))
		}
		fmt.Fprintln(out)
	}
	if len(page.Otherwise) > 0 {
		fmt.Fprintln(out, "DEVELOPED OTHERWISE THAN ASKED")
		for _, o := range page.Otherwise {
			fmt.Fprintln(out, "  "+diag.Clean(fmt.Sprintf("%s: %s, asked for %s  [%s]", named(o.Sheet), o.Done, o.Asked, o.Place)))
		}
		fmt.Fprintln(out)
	}
	for _, c := range page.Cautions {
		fmt.Fprintln(out, c)
	}
}

func printBatch(out io.Writer, b *record.Batch) {
	fmt.Fprintln(out, strings.ToUpper(diag.Clean(strings.TrimSpace(b.Film+" "+b.Development))))
	rows := [][2]string{
		{"time", timeLine(b)}, {"developer", strings.TrimSpace(b.Developer + " " + b.Dilution)}, {"agitation", b.Agitation}, {"capacity", b.Capacity},
		{"light", b.Safelight}, {"also", strings.Join(b.Others, ", ")}, {"note", strings.Join(b.Cautions, "; ")},
	}
	for _, row := range rows {
		if row[1] != "" {
			fmt.Fprintf(out, "  %-10s %s\n", row[0], diag.Clean(row[1]))
		}
	}
	for _, sh := range b.Sheets {
		order := fmt.Sprint(sh.Order)
		if b.Sheets[len(b.Sheets)-1].Run > 1 {
			order = fmt.Sprintf("%d.%d", sh.Run, sh.Order)
		}
		line := fmt.Sprintf("  [ ] %s  %s", order, named(sh.Sheet))
		if sh.Note != "" {
			line += " – " + sh.Note
		}
		fmt.Fprintln(out, diag.Clean(line))
	}
	fmt.Fprintln(out)
}

// timeLine is the time with its temperature and how both were found.
func timeLine(b *record.Batch) string {
	switch {
	case b.Time == "":
		return "not known: " + b.How
	case b.Temperature != "":
		return b.Time + " at " + b.Temperature + "; " + b.How
	}
	return b.Time + "; " + b.How
}

// named is a sheet by its id and its scene.
func named(sh *record.Sheet) string {
	if sh.Scene != nil && sh.Scene.Title != "" {
		return sh.ID + ", " + sh.Scene.Title
	}
	return sh.ID
}
