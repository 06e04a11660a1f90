package spectral

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
)

// table writes a curve as a table of a head, a value for every ten nanometres.
func table(head string, row func(i int) string) string {
	var b strings.Builder
	b.WriteString(head + "\n")
	for i := range count {
		b.WriteString(row(i) + "\n")
	}
	return b.String()
}

// One filter written in every way that is read is one curve: the published No. 25, whose
// percents the tables print.
func TestAFilterInEveryWriting(t *testing.T) {
	want, _ := Filter("25")
	percent := func(i int) float64 { return math.Round(want[i]*1e6) / 1e4 }
	for name, text := range map[string]string{
		"percent": table("wavelength_nm,transmittance_%", func(i int) string { return fmt.Sprintf("%d,%g", Nanometres(i), percent(i)) }),
		"parts":   table("nm;Transmittance", func(i int) string { return fmt.Sprintf("%d;%g", Nanometres(i), percent(i)/100) }),
		"commas": table("nm\tTransmission %", func(i int) string {
			return strings.ReplaceAll(fmt.Sprintf("%d\t%g", Nanometres(i), percent(i)), ".", ",")
		}),
		"quoted":    table("\ufeff# read with the tower's meter\r\n\"Wavelength (nm)\",\"Transmittance (%)\"\r", func(i int) string { return fmt.Sprintf("\"%d\",\"%g\"\r", Nanometres(i), percent(i)) }),
		"backwards": table("nm,% T", func(i int) string { return fmt.Sprintf("%d,%g", Nanometres(count-1-i), percent(count-1-i)) }),
		"wider":     "nm, percent transmission\n380, 0\n390, 0\n" + table("", func(i int) string { return fmt.Sprintf("%d, %g", Nanometres(i), percent(i)) }) + "710, 90\n",
	} {
		m, err := Read([]byte(text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for i := range want {
			if math.Abs(m.Curve[i]-want[i]) > 1e-6 {
				t.Errorf("%s at %d nm: %g, want %g", name, Nanometres(i), m.Curve[i], want[i])
				break
			}
		}
	}
}

// A density of d lets 10 to the −d through, by definition.
func TestDensitiesAreRead(t *testing.T) {
	m, err := Read([]byte(table("nm,density", func(i int) string { return fmt.Sprintf("%d,0.9", Nanometres(i)) })))
	if err != nil {
		t.Fatal(err)
	}
	if m.Quantity.OfFilm() || m.Readings != count || m.From != From || m.To != To {
		t.Errorf("%+v", m)
	}
	for _, class := range Classes() {
		s, _ := In(class, Tungsten)
		if got, want := s.Through(&m.Curve).Stops, 0.9/math.Log10(2); math.Abs(got-want) > 0.02 {
			t.Errorf("%s: %g stops, want %g", class, got, want)
		}
	}
}

// A film whose published sensitivity is handed in as the writer's own sees like the
// class, wherever its curve ends.
func TestAFilmAsOnesOwnIsTheFilm(t *testing.T) {
	class := all().class(Pan)
	end := 0
	for i, v := range class {
		if v > 0 {
			end = i
		}
	}
	linear, logs := "nm,relative sensitivity\n", "nm,log sensitivity\n"
	for i := range end + 1 {
		linear += fmt.Sprintf("%d,%g\n", Nanometres(i), 7*class[i]) // only relative
		logs += fmt.Sprintf("%d,%g\n", Nanometres(i), 1.5+math.Log10(class[i]))
	}
	red, _ := Filter("25")
	for _, text := range []string{linear, logs} {
		m, err := Read([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		if !m.Quantity.OfFilm() {
			t.Error("a sensitivity is a filter's")
		}
		for _, light := range Lights() {
			mine, _ := Own("mine", m.Curve, light)
			pan, _ := In(Pan, light)
			if a, b := mine.Through(&red).Stops, pan.Through(&red).Stops; math.Abs(a-b) > 1e-4 {
				t.Errorf("%s in %s: %g stops, the class %g", m.Quantity, light, a, b)
			}
		}
	}
}

// What is not said is not guessed: each of these is refused, at its line.
func TestWhatIsUnclearIsRefused(t *testing.T) {
	whole := func(head string, v string) string {
		return table(head, func(i int) string { return fmt.Sprintf("%d,%s", Nanometres(i), v) })
	}
	for _, c := range []struct {
		text string
		line int
		says string
	}{
		{"", 0, "nothing"},
		{"# remarks only\n", 0, "nothing"},
		{"400,0.5\n410,0.5\n", 1, "first column"},
		{whole("nm,value", "0.5"), 1, "second column"},
		{whole("wavelength,density", "0.5"), 1, "first column"}, // in which unit
		{whole("µm,density", "0.5"), 1, "first column"},
		{whole("nm;density,red", "0.5"), 1, "parted by"},
		{"nm density\n400 1\n", 1, "parted by"},
		{whole("nm,transmittance", "87"), 2, "between 0 and 1"},
		{whole("nm,density", "87"), 2, "between 0 and 10"},
		{whole("nm,transmittance %", "-1"), 2, "between 0 and 100"},
		{whole("nm,density", "-0.1"), 2, "between 0 and 10"},
		{whole("nm,density", "half"), 2, "no number"},
		{whole("nm,density", "Inf"), 2, "no number"},
		{whole("nm,density", "NaN"), 2, "no number"},
		{whole("nm,density", "0x1p2"), 2, "no number"},
		{whole("nm,density", "0,5"), 2, "3 columns"}, // a decimal comma between commas
		{"nm,density\n0.4,1\n", 2, "no wavelength"},
		{"nm,density\n400,1\n400,2\n", 3, "twice"},
		{"nm,density\n400,1\n700,1\n", 0, "between 400 and 700"},
		{"nm,density\n", 0, "no readings"},
		{"nm,density\n420,1\n460,1\n700,1\n", 0, "reaches from 420 to 700"},
		{"nm,density\n400,1\n440,1\n", 0, "reaches from 400 to 440"},
		{"nm,sensitivity\n400,0\n440,0\n", 0, "sees nothing"},
		{"nm,density\n400,\"1\n", 2, "quotation"},
		{"n\x00m,density\n", 0, "UTF-8"},
		{strings.Repeat("#", mostBytes+1), 0, "1 MB"},
	} {
		_, err := Read([]byte(c.text))
		var fault *Fault
		if !errors.As(err, &fault) || fault.Line != c.line || !strings.Contains(fault.Text, c.says) {
			t.Errorf("%.40q: %v, want line %d: …%s…", c.text, err, c.line, c.says)
		}
	}
}

// Whatever a file holds, it is a curve whose values can be what they are said to be, or
// a fault in words; and remarks and blank lines change neither.
func FuzzRead(f *testing.F) {
	f.Add([]byte(table("nm,density", func(i int) string { return fmt.Sprintf("%d,0.3", Nanometres(i)) })))
	f.Add([]byte("nm;transmittance %\n400;0,5\n450;1\n500;99,5\n550;3\n600;4e1\n650;0\n700;1"))
	f.Add([]byte("nm\tlog sensitivity\n390\t-3\n430\t1.5\n470\t1"))
	f.Add([]byte("nm,\"t\"\n400,0\n400,1"))
	f.Fuzz(func(t *testing.T, text []byte) {
		m, err := Read(text)
		if err != nil {
			var fault *Fault
			if !errors.As(err, &fault) || fault.Text == "" || fault.Line < 0 {
				t.Fatalf("%v", err)
			}
			return
		}
		for i, v := range m.Curve {
			if math.IsNaN(v) || v < 0 || !m.Quantity.OfFilm() && v > 1 {
				t.Fatalf("%s at %d nm is %g", m.Quantity, Nanometres(i), v)
			}
		}
		again, err := Read(append([]byte("# before\n\n"), bytes.TrimPrefix(text, []byte("\ufeff"))...))
		if err != nil || *again != *m {
			t.Fatalf("behind a remark: %v %v, and %v", again, err, m)
		}
	})
}
