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
// More light gives no less density: coefficients that would fall are held up by an
// asymmetric penalty (Bollaerts, Eilers and van Mechelen, Statistics in Medicine 25
// (2006) 1615). Four stops below the speed point the film is at base and fog, so that
// densities from there on tell it as well as readings of it do, and the curve comes
// from there.
//
// # The sheet that does not belong
//
// Each sheet in turn is given an offset of its own, and the one by which the fit gains
// most is the odd sheet, where so large an offset would come by chance in one series of
// a hundred and is beyond a sixth of a stop (the mean shift outlier model: Cook and
// Weisberg, Residuals and Influence in Regression, 1982). It is left out and the next
// one looked for, so that two may be found; where none shows, once more with the sheets
// weighed by Huber's function (Ann. Math. Statist. 35 (1964) 73, k = 1.345) of how far
// each lies off the others, by which the results are found too. Results are given with
// and without.
//
// What cannot be told is said. Where the fit would gain nearly as much by another sheet
// (a likelihood within 1 : 20) no one can say which of them is odd: at the end of a
// series of single patches, where a bad sheet looks like a bend of the curve, or of two
// sheets of one time. All of them are then given and left out, or stay in where the
// others would not tell the result without them. A sheet in the toe that differs by less
// than its readings' error cannot be told by anyone. How many are named is printed by
// the tests: behind a step wedge all of 1 000, of single patches that differ by six of
// their errors 96 of 100 (89 by themselves).
//
// Exposures are log10 of whatever unit they are in, densities are over base and
// fog, times in seconds; stops are log2.
package sensitometry

import "math"

// Stop is one stop as a difference of log10 exposure.
var Stop = math.Log10(2)
