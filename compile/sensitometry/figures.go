package sensitometry

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Figure is a result with its standard error, both in the unit that its name
// says; Sd is 0 where it is not known.
type Figure struct{ Value, Sd float64 }

// Median is the middle figure, or the mean of the two in the middle; 0 of none.
func Median(all []float64) float64 {
	if len(all) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(all))
	return (stat.Quantile(0.5, stat.Empirical, sorted, nil) + sorted[len(sorted)/2]) / 2
}

// Mean is the mean of repeated readings, and their scatter about it.
func Mean(all []float64) float64 { return stat.Mean(all, nil) }

// ReadingError is the standard error of one reading, from patches that were read
// more than once; ok is false where fewer than five readings repeat another.
func ReadingError(patches [][]float64) (sd float64, ok bool) {
	sum, dof := 0., 0
	for _, p := range patches {
		if len(p) > 1 {
			sum += stat.Variance(p, nil) * float64(len(p)-1)
			dof += len(p) - 1
		}
	}
	if dof < 5 {
		return 0, false
	}
	return max(math.Sqrt(sum/float64(dof)), 0.003), true // a densitometer shows hundredths: 0.01/√12
}

// Alike reports whether means of some readings each, all with one error, can be of
// the same thing: their scatter is no more than in 99 of 100 such sets (χ²).
func Alike(means, counts []float64, sd float64) bool {
	if len(means) < 2 {
		return len(means) == 1
	}
	chi := stat.MomentAbout(2, means, stat.Mean(means, counts), counts) * floats.Sum(counts) / (sd * sd)
	return chi <= distuv.ChiSquared{K: float64(len(means) - 1)}.Quantile(0.99)
}
