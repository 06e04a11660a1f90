package spectral

import (
	"embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"
)

// The tables lie beside this source as CSV, their sources in their first lines.
//
//go:embed tables/*.csv
var files embed.FS

// data is all that is published, read once.
type data struct {
	filters map[string]Curve     // by Wratten number: transmittance
	films   map[string]column    // log10 sensitivity
	lights  map[string]column    // relative energy
	curves  []subjectCurve       // of the subjects
	lens    Curve                // transmittance of the ISO standard lens
	weights map[[2]string]weight // film class and light: what every forecast begins with
	factors []Held               // as printed, without a forecast
}

// column is a published column; at a wavelength it may lack a value.
type column map[int]float64

// curve takes 400 to 700 nm of a column; what it lacks is zero.
func (c column) curve() (out Curve) {
	for i := range out {
		out[i] = c[Nanometres(i)]
	}
	return out
}

var published = sync.OnceValues(readAll)

// all is what is published. The tables are part of the program, and a test reads
// them; were they broken nothing would be found in them.
func all() *data {
	d, err := published()
	if err != nil {
		return &data{}
	}
	return d
}

func readAll() (*data, error) {
	d := &data{filters: map[string]Curve{}}
	filters, err := readColumns("wratten.csv")
	if err != nil {
		return nil, err
	}
	for number, percent := range filters {
		d.filters[number] = percent.curve().Through(flat(1. / 100))
	}
	if d.films, err = readColumns("film.csv"); err != nil {
		return nil, err
	}
	if d.lights, err = readColumns("illuminants.csv"); err != nil {
		return nil, err
	}
	subjects, err := readColumns("subjects.csv")
	if err != nil {
		return nil, err
	}
	if d.factors, err = readFactors(); err != nil {
		return nil, err
	}
	shapes := map[string]Curve{}
	for name, values := range subjects {
		shapes[name] = values.curve()
	}
	d.curves = drawAll(shapes)
	d.lens = standardLens(d.lights)
	d.weights = weights(d)
	return d, nil
}

// readColumns reads a table whose first column is the wavelength. Lines that begin
// with # are the sources.
func readColumns(name string) (map[string]column, error) {
	rows, err := readRows(name)
	if err != nil {
		return nil, err
	}
	columns := map[string]column{}
	for i, head := range rows[0][1:] {
		columns[head] = column{}
		for _, row := range rows[1:] {
			if row[i+1] == "" {
				continue
			}
			nm, err := strconv.Atoi(row[0])
			if err != nil {
				return nil, fmt.Errorf("table %s: %w", name, err)
			}
			v, err := strconv.ParseFloat(row[i+1], 64)
			if err != nil || math.IsNaN(v) {
				return nil, fmt.Errorf("table %s, %s at %d nm: %w", name, head, nm, err)
			}
			columns[head][nm] = v
		}
	}
	return columns, nil
}

func readRows(name string) ([][]string, error) {
	f, err := files.Open("tables/" + name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 2 {
		return nil, fmt.Errorf("table %s: %w", name, err)
	}
	return rows, nil
}

// Filter is the transmittance of a filter by its Wratten number: "8", "25", "47B".
// ok is false where none is published.
func Filter(number string) (c Curve, ok bool) {
	c, ok = all().filters[strings.ToUpper(strings.TrimSpace(number))]
	return c, ok
}
