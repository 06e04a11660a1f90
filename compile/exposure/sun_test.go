package exposure

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
	"time"
)

// The heights are from a general-purpose ephemeris program, named in the file.
func TestSunHeightAgreesWithAnEphemeris(t *testing.T) {
	file, err := os.Open("testdata/sun.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	r := csv.NewReader(file)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 200 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	worst := 0.
	for _, row := range rows[1:] {
		at, err := time.Parse(time.RFC3339, row[0])
		if err != nil {
			t.Fatal(err)
		}
		var v [3]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(row[i+1], 64); err != nil {
				t.Fatal(err)
			}
		}
		off := math.Abs(SunHeight(at, v[0], v[1]) - v[2])
		worst = max(worst, off)
		if off > 0.03 {
			t.Errorf("%s at %s %s: off by %.3f degrees", row[0], row[1], row[2], off)
		}
	}
	t.Logf("the largest difference is %.4f degrees", worst)
}
