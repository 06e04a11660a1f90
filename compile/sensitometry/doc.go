// Package sensitometry finds what a photographer's own tests say: the speed of a
// film, its gradients and developing times, what a filter costs, how the film
// fails reciprocity, how a shutter and a meter stand. It knows exposures,
// densities and which sheet a density is of, and nothing of notes.
//
// # One fit
//
// All tests with densities are one problem. A density D of a sheet s is
//
//	D = f(x + e·θ) + error,   x the log10 of the exposure as it was set,
//
// where f is the film's characteristic curve, the same for all sheets that were
// developed together, and e·θ what the exposure is not known by: the stops of a
// filter, the drift of the light, the loss at long times. The curve is a cubic
// spline of many pieces of which only the third differences are held down
// (P-splines: Eilers and Marx, Statistical Science 11 (1996) 89), so that it takes
// the form of the data and not one of ours. The curve and θ are found together by
// Gauss-Newton steps, each a Cholesky solution by gonum; what is read off the curve
// is read from a monotone interpolation through it (Fritsch and Butland, SIAM J.
// Sci. Stat. Comput. 5 (1984) 300). The spread of the result is that of the normal
// equations, in which the prior of the spline counts as data (the Bayesian
// intervals of Wahba, J. R. Statist. Soc. B 45 (1983) 133, and Nychka).
//
// # The sheet that does not belong
//
// Sheets are weighed by Huber's function (Ann. Math. Statist. 35 (1964) 73, k =
// 1.345) of how far each lies off the others. Then each in turn is given an offset
// of its own: the one whose offset is largest against its error is the odd sheet,
// where that is beyond four errors and beyond a sixth of a stop, and the fit is
// made again without it (deletion residuals: Cook and Weisberg, Residuals and
// Influence in Regression, 1982). Results are given with and without.
//
// Exposures are log10 of whatever unit they are in, densities are over base and
// fog, times in seconds; stops are log2.
package sensitometry

import "math"

// Stop is one stop as a difference of log10 exposure.
var Stop = math.Log10(2)
