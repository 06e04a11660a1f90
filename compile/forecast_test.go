package compile_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/compile/spectral"
	"notchbook/lang/diag"
)

// files is a season's folder in memory.
func files(texts map[string]string) compile.World {
	return compile.World{Title: "Notes", Read: func(name string) ([]byte, error) {
		if text, ok := texts[name]; ok {
			return []byte(text), nil
		}
		return nil, errors.New(name + ": no such file")
	}}
}

func forecast(t *testing.T, kit, film, light string, filters ...string) *record.Forecast {
	t.Helper()
	f, unread, _ := compile.Forecast(files(map[string]string{"kit.md": kit}), compile.Asked{Filters: filters, Film: film, Light: light}, "kit.md")
	if f == nil || unread != nil {
		t.Fatalf("no forecast for %v: %v", filters, unread)
	}
	return f
}

// moves is a forecast's quoted moves by the subjects' keys.
func moves(f *record.Forecast, c *record.Cast) map[string]float64 {
	all := map[string]float64{}
	for i, m := range c.Moves {
		all[f.Subjects[i].Key] = exposure.Third(m.Stops)
	}
	return all
}

// A clear sky behind red does not come out black, for it goes down by a stop; foliage
// behind red moves by less than a third, either way; and nothing that is said claims
// more (the sums, from the published curves: TestWhatTheDataCarry in compile/spectral).
func TestForecastClaimsNoMoreThanTheData(t *testing.T) {
	f := forecast(t, "", "", "", "R25")
	m := moves(f, f.Casts[0])
	if m["sky"] > -2./3 || m["sky"] < -4./3-1e-6 || m["water"] != m["sky"] {
		t.Errorf("sky moves by %g, water by %g", m["sky"], m["water"])
	}
	if m["foliage"] != 0 || m["stone"] != 0 || m["cloud"] != 0 {
		t.Errorf("foliage moves by %g, stone by %g, cloud by %g", m["foliage"], m["stone"], m["cloud"])
	}
	if m["brick"] <= 0 || m["skin"] <= 0 {
		t.Errorf("brick moves by %g, skin by %g", m["brick"], m["skin"])
	}
	said := strings.ToLower(fmt.Sprint(f.From, f.Held, f.Subjects, f.Casts[0].Notes))
	for _, word := range []string{"black", "dramatic", "white foliage", "always", "exact"} {
		if strings.Contains(said, word) {
			t.Errorf("the forecast says %q", word)
		}
	}
}

// What a third of a stop is not worth is not quoted: costs lie within a third of the
// factors that are printed for the films of the data, rounded to the third.
func TestForecastQuotesWhatTheMakersPrint(t *testing.T) {
	for _, light := range spectral.Lights() {
		for _, h := range spectral.Against(light) {
			f := forecast(t, "", "pan", light, "#"+h.Filter)
			if got := exposure.Third(f.Casts[0].Stops.Value); math.Abs(got-h.Published) > 1./3+1./6 {
				t.Errorf("No. %s in %s: %g stops, printed %.2f", h.Filter, light, got, h.Published)
			}
		}
	}
}

// What is missing is said, and stands in no way of the rest.
func TestForecastSaysWhatIsMissing(t *testing.T) {
	f := forecast(t, "filter GG1: x2\nfilter pol: 1½ stops\n", "", "", "GG1", "GG1+R25", "grad 0.6", "W87", "R25 + pol", "ND 0.9", "R25+B47B")
	for i, c := range f.Casts {
		missing := i < 4
		if (c.Missing != "") != missing || missing && (c.Moves != nil || c.Stops.Known) {
			t.Errorf("%s: %+v", c.Name, c)
		}
	}
	if pol := f.Casts[4]; len(pol.Notes) != 1 || !strings.Contains(pol.Notes[0], "polarizer") {
		t.Errorf("a polarizer is forecast without a word: %+v", pol)
	}
	// d / log10 2 stops by definition of density
	if nd := f.Casts[5]; math.Abs(nd.Stops.Value-0.9/math.Log10(2)) > 0.02 || moves(f, nd)["sky"] != 0 {
		t.Errorf("a neutral filter of 0.9: %+v", nd)
	}
	if dark := f.Casts[6]; !dark.Dark || dark.Moves != nil || dark.Stops.Known {
		t.Errorf("colour opposites: %+v", dark)
	}
	if out, unread, _ := compile.Forecast(files(nil), compile.Asked{Filters: []string{"gravel", "R25"}}); out != nil || len(unread) != 1 {
		t.Errorf("gravel is a filter: %v", unread)
	}
	if out, unread, _ := compile.Forecast(files(nil), compile.Asked{Filters: []string{"R25"}, Film: "marl"}); out != nil || len(unread) != 1 {
		t.Errorf("marl is a film: %v", unread)
	}
}

// asTable writes a published filter as a writer's own file.
func asTable(number string) string {
	c, _ := spectral.Filter(number)
	text := "nm, transmittance %\n"
	for i, v := range c {
		text += fmt.Sprintf("%d, %g\n", spectral.Nanometres(i), 100*v)
	}
	return text
}

// The writer's own curve stands for the filter: the published No. 25 handed in as a file
// does what No. 25 does, also in a folder of its own; and the kit says what was read.
func TestOwnCurves(t *testing.T) {
	world := files(map[string]string{
		"notes.md":           "use: bag/kit.md\nday: 2026-11-07\n",
		"bag/kit.md":         "filter GG1: curve Curves/gg1.csv, x8\nfilm mine: ISO 100, sensitivity flat.csv, N 8:00\nfilm also: ISO 100, curve flat.csv\n",
		"bag/flat.csv":       "nm\tsensitivity\n400\t1\n450\t1\n500\t1\n550\t1\n600\t1\n650\t1\n",
		"bag/Curves/gg1.csv": asTable("25"),
	})
	f, unread, list := compile.Forecast(world, compile.Asked{Filters: []string{"GG1", "R25"}}, "notes.md")
	if unread != nil || len(list) > 0 {
		t.Fatal(unread, list)
	}
	mine, published := f.Casts[0], f.Casts[1]
	if math.Abs(mine.Stops.Value-published.Stops.Value) > 1e-4 || mine.Declared.Value != 3 {
		t.Errorf("mine %+v, published %+v", mine, published)
	}
	if !strings.Contains(fmt.Sprint(f.From), "bag/Curves/gg1.csv: transmittance in per cent, 31 readings from 400 to 700 nm") {
		t.Errorf("what was read is not said: %v", f.From)
	}
	season, list := compile.Compile(world, "notes.md")
	if len(list) > 0 {
		t.Error(list)
	}
	facts := ""
	for _, k := range season.Kit {
		facts += fmt.Sprint(k.Facts)
	}
	if !strings.Contains(facts, "gg1.csv: transmittance in per cent") || strings.Count(facts, "flat.csv: sensitivity, 6 readings from 400 to 650 nm") != 2 {
		t.Errorf("the kit: %s", facts)
	}
	own, unread, _ := compile.Forecast(world, compile.Asked{Filters: []string{"R25"}, Film: "mine"}, "notes.md")
	if unread != nil || own.Film != "mine" || !strings.Contains(own.Held, "no factors are printed") || !strings.Contains(fmt.Sprint(own.From), "past 650 nm") {
		t.Errorf("my film: %v %+v", unread, own)
	}
	if own.Casts[0].Stops.Value >= published.Stops.Value {
		t.Errorf("evenly sensitive film needs %g stops for red, panchromatic %g", own.Casts[0].Stops.Value, published.Stops.Value)
	}
}

// What is wrong with a curve is a finding at the words that name it.
func TestCurvesThatCannotBeRead(t *testing.T) {
	for _, c := range []struct{ kit, file, at, says string }{
		{"filter GG1: x2, curve gg1.csv", "", "curve gg1.csv", "no such file"},
		{"filter GG1: curve ../gg1.csv", "", "curve ../gg1.csv", "not within the season's folder"},
		{"filter GG1: curve /etc/passwd", "", "curve /etc/passwd", "not within the season's folder"},
		{"filter GG1: curve gg1.csv", "400,0.5\n410,0.5\n", "curve gg1.csv", "gg1.csv, line 1: the head"},
		{"filter GG1: curve gg1.csv", "nm,value\n400,0.5\n", "curve gg1.csv", "head of the second column"},
		{"filter GG1: curve gg1.csv", "nm,transmittance\n400,87\n", "curve gg1.csv", "line 2"},
		{"filter GG1: curve gg1.csv", "nm,sensitivity\n400,1\n450,1\n", "curve gg1.csv", "no filter's"},
		{"film slate: ISO 100, sensitivity gg1.csv", asTable("25"), "sensitivity gg1.csv", "no film's"},
		{"film slate: ISO 100, curve gg1.csv", asTable("25"), "curve gg1.csv", "no film's"},
	} {
		texts := map[string]string{"notes.md": c.kit + "\n"}
		if c.file != "" {
			texts["gg1.csv"] = c.file
		}
		_, list := compile.Compile(files(texts), "notes.md")
		if len(list) != 1 || list[0].Code != "curve-unreadable" || list[0].Span.Text() != c.at || !strings.Contains(list[0].Message, c.says) {
			t.Errorf("%s: %v, want …%s… at %q", c.kit, list, c.says, c.at)
		}
	}
}

// A value far from the forecast is noted where it is declared, once, and its sheets are
// right by it all the same.
func TestValuesFarFromTheForecast(t *testing.T) {
	const shared = "film slate: ISO 100, pan\nfilm plate: ISO 25, ortho\nfilm some: ISO 100\nlens 210: 210 mm\n"
	for _, c := range []struct {
		name, filter, sheet, at string
	}{
		{"far", "filter R25: Wratten 25, x2", "meter: 1/60 f16\n3A: film slate, R25, 1/30 f16\n3B: same\n", "x2"},
		{"two films", "filter G61: Wratten 61, 1 stop", "meter: 1/60 f16\n3A: film slate, G61, 1/30 f16\n3B: film plate, G61, 1/30 f16\n", "1 stop"},
		{"near", "filter R25: Wratten 25, x8", "meter: 1/60 f16\n3A: film slate, R25, 1/8 f16\n", ""},
		{"two thirds", "filter R25: Wratten 25, x10", "meter: 1/60 f16\n3A: film slate, R25, 1/6 f16\n", ""},
		{"another light", "filter R25: Wratten 25, x8, open shade x20", "light: open shade\nmeter: 1/60 f16\n3A: film slate, R25, 1/3 f16\n", ""},
		{"lamps", "filter B: Wratten 47, x8", "light: tungsten\nmeter: 1/60 f16\n3A: film slate, B, 1/8 f16\n", "x8"},
		{"lamps by the sheet", "filter B: Wratten 47, x8, tungsten x20", "light: tungsten\nmeter: 1/60 f16\n3A: film slate, B, 1/3 f16\n", ""},
		{"class not known", "filter R25: Wratten 25, x2", "meter: 1/60 f16\n3A: film some, R25, 1/30 f16\n", ""},
		{"no curve", "filter GG1: x2", "meter: 1/60 f16\n3A: film slate, GG1, 1/30 f16\n", ""},
		{"polarizer", "filter pol: 3 stops", "meter: 1/60 f16\n3A: film slate, pol, 1/8 f16\n", ""},
		{"with the sheet", "", "meter: 1/60 f16\n3A: film slate, R25 x2, 1/30 f16\n", "R25 x2"},
	} {
		season, list := compileText(shared + c.filter + "\n" + c.sheet)
		at := ""
		for _, d := range list {
			if d.Code == "far-from-forecast" {
				if d.Severity != diag.Note || at != "" {
					t.Errorf("%s: %v", c.name, list)
				}
				at = d.Span.Text()
			}
		}
		if at != c.at {
			t.Errorf("%s: noted at %q, want %q: %v", c.name, at, c.at, list)
		}
		for _, s := range season.Sheets {
			if s.State == record.Off {
				t.Errorf("%s: %s is off", c.name, s.Label)
			}
		}
	}
}

// Colour opposites leave no light; stacks that people use do.
func TestStacksThatLeaveNoLight(t *testing.T) {
	for stack, dark := range map[string]bool{
		"R25 + B47B": true, "B47 + O21": true, "R29 + G61": true, "R25 + pol": false, "Y8 + R25": false, "O21 + G11": false,
		"R25 + ND 3.9": false, // long, but there are nights for it
	} {
		_, list := compileText("film slate: ISO 100, pan\nmeter: 1/60 f16\n3A: film slate, " + stack + ", 8s f16\n")
		d, found := codes(list)["no-light-left"]
		if found != dark || found && d.Severity != diag.Warning {
			t.Errorf("%s: %v", stack, list)
		}
	}
}
