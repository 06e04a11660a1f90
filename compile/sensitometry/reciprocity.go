package sensitometry

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// LongTest is sheets that were exposed for different times.
type LongTest struct {
	Readings []Reading // LogH is that of the time by the clock
	Seconds  []float64 // by sheet, by the clock
	Short    float64   // up to which time a film loses nothing, where the sheets do not tell that themselves; 0 where nobody knows
}

// Loss is how much a time falls short.
type Loss struct {
	Seconds float64
	Stops   Figure  // by which the film got less than the clock says
	Residue float64 // stops by which the law misses it
}

// Law is a power law: a time t by the clock counts as T(t/T)^(1/p) above the
// threshold T, so that a metered time m takes T(m/T)^p.
type Law struct {
	Exponent   Figure  // p
	Threshold  float64 // T, seconds; 0 where all times lie above it
	Found      bool    // the test shows T; else it is the usual second
	Odd        []Odd
	Losses     []Loss // by time, the shortest first, which is taken to lose nothing
	From, To   float64
	Rms        float64   // of the residues, stops
	Misses     bool      // the times lie off the law by more than their errors: the film follows none
	Together   []float64 // the short times that were taken as one which loses nothing, the last for all of them; nil where each was fitted
	Curve      *Curve
	Known      bool
	CannotTell string // why no law is given
}

// ErrOneTime says that all sheets had the same time.
var ErrOneTime = errors.New("all sheets had one time")

// Solve finds the law. Where the data do not tell it, Known is false and
// CannotTell says why. Each time is asked for what it loses, but where the sheets
// are too few for that, as grey cards at many times are, those that are short are
// taken as one: different times and apertures are then points of one curve.
func (t *LongTest) Solve() (*Law, error) {
	law, err := t.solve(0)
	if err == nil && law.Known || err != nil && err != ErrTooFew {
		return law, err
	}
	together, failed := t.solve(t.Short)
	if failed == nil && together.Together != nil && (err != nil || together.Known) {
		return together, nil
	}
	return law, err
}

// solve finds the law with the times up to one taken together.
func (t *LongTest) solve(short float64) (*Law, error) {
	times, class, together := t.classes(short)
	if len(times) < 2 {
		return nil, ErrOneTime
	}
	p := &problem{readings: t.Readings, sheets: len(t.Seconds), start: make([]float64, len(times)-1)}
	for _, c := range class {
		row := make([]float64, len(times)-1)
		if c > 0 {
			row[c-1] = -Stop
		}
		p.effects = append(p.effects, row)
	}
	_, s, odd, err := p.robust()
	if err != nil {
		return nil, err
	}
	law := &Law{From: times[0], To: times[len(times)-1], Odd: odd, Together: together}
	if law.Curve, err = s.curve(); err != nil {
		return nil, err
	}
	for i, seconds := range times {
		l := Loss{Seconds: seconds}
		if i > 0 {
			unit := make([]float64, len(times)-1)
			unit[i-1] = 1
			l.Stops = Figure{s.theta[i-1], s.sd(unit)}
		}
		law.Losses = append(law.Losses, l)
	}
	law.fitTold(s)
	return law, nil
}

// untold is the standard error in stops beyond which a loss says nothing.
const untold = 2

// fitTold finds the law from the times of which the densities tell something.
func (l *Law) fitTold(s *solution) {
	all := l.Losses
	var told []int
	l.Losses = nil
	for i, loss := range all {
		if loss.Stops.Sd <= untold {
			told, l.Losses = append(told, i), append(l.Losses, loss)
		}
	}
	l.To = l.Losses[len(l.Losses)-1].Seconds
	if len(told) > 1 {
		l.fit(s, told[1:])
	} else {
		l.CannotTell = "the densities tell the loss of no time"
	}
	for i, k := range told {
		all[k] = l.Losses[i]
	}
	l.Losses = all
}

// classes are the distinct times, the shortest first, and which of them each
// sheet had. Those up to a short one are one, if they are several.
func (t *LongTest) classes(short float64) (times []float64, class []int, together []float64) {
	times = monotoneTimes(t.Seconds)
	n := 0
	for n < len(times) && times[n] <= short {
		n++
	}
	if n > 1 {
		together, times = times[:n], times[n-1:]
	}
	for _, s := range t.Seconds {
		class = append(class, max(slices.Index(times, s), 0)) // a short one is the first
	}
	return times, class, together
}

func monotoneTimes(all []float64) []float64 {
	x, _ := monotone(all, make([]float64, len(all)))
	return x
}

// hinge is the loss in stops of a law with the slope b in stops a stop above a
// threshold, both log2 of seconds, counted from what the shortest time loses.
func (l *Law) hinge(b, threshold float64, u float64) float64 {
	short := max(0, math.Log2(l.Losses[0].Seconds)-threshold)
	return b * (max(0, u-threshold) - short)
}

// fit finds the law that the losses follow, weighed by their covariance; which of the
// times each of them is of, but for the first.
func (l *Law) fit(s *solution, which []int) {
	n := len(l.Losses) - 1
	nc := len(s.spline.coef)
	covariance := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			covariance.SetSym(i, j, s.inverse.At(nc+which[i]-1, nc+which[j]-1)*s.chi)
		}
	}
	switch {
	case n < 2:
		l.CannotTell = "two times tell a loss and no law; it takes three"
		return
	case !slices.ContainsFunc(l.Losses[1:], func(x Loss) bool { return x.Stops.Value >= max(2.5*x.Stops.Sd, 0.1) }):
		l.CannotTell = "no time that was tested loses anything for certain: the film holds to there, or the threshold lies beyond"
		return
	}
	var chol mat.Cholesky
	if !chol.Factorize(covariance) {
		l.CannotTell = "the losses depend on one another"
		return
	}
	low, high := math.Log2(l.From), math.Log2(l.To)
	usual := max(low, 0) // one second, unless the data say otherwise for certain
	b, threshold := 0., usual
	b, least := l.slope(&chol, usual)
	free := false
	for try := low; try < high; try += 0.02 { // for each threshold the slope is a linear fit
		if slope, miss := l.slope(&chol, try); miss < least-6 || free && miss < least {
			b, threshold, least, free = slope, try, miss, true
		}
	}
	sd := l.slopeError(&chol, b, threshold, free)
	above := 0
	for i := range l.Losses {
		if math.Log2(l.Losses[i].Seconds) > threshold-0.01 {
			above++
		}
	}
	sum := 0.
	for i := range l.Losses {
		loss := &l.Losses[i]
		loss.Residue = loss.Stops.Value - l.hinge(b, threshold, math.Log2(loss.Seconds))
		sum += loss.Residue * loss.Residue
	}
	l.Rms = math.Sqrt(sum / float64(len(l.Losses)))
	p := 1 / (1 - b)
	l.Exponent = Figure{p, sd * p * p}
	if threshold > low+0.05 {
		l.Threshold, l.Found = math.Exp2(threshold), free
	}
	left := n - 1
	if free {
		left--
	}
	l.Misses = left > 0 && l.Rms > leastMiss && least > distuv.ChiSquared{K: float64(left)}.Quantile(0.99)
	switch {
	case above < 3:
		l.CannotTell = "fewer than three times lie above the threshold"
	case math.IsNaN(sd) || l.Exponent.Sd > 0.15:
		l.CannotTell = fmt.Sprintf("the exponent is known no better than ±%.2f", l.Exponent.Sd)
	default:
		l.Known = true
	}
}

// leastMiss is what the times may lie off a law, in stops, without another rule being
// wanted: about what a shutter and a lamp scatter.
const leastMiss = 0.08

// slope is the best slope for a threshold, and the misses that it leaves, weighed.
func (l *Law) slope(chol *mat.Cholesky, threshold float64) (b, miss float64) {
	n := len(l.Losses) - 1
	unit, loss := mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	for i, x := range l.Losses[1:] {
		unit.SetVec(i, l.hinge(1, threshold, math.Log2(x.Seconds)))
		loss.SetVec(i, x.Stops.Value)
	}
	var weighed mat.VecDense
	if chol.SolveVecTo(&weighed, unit) != nil {
		return 0, math.Inf(1)
	}
	if of := mat.Dot(unit, &weighed); of > 0 {
		b = min(max(mat.Dot(loss, &weighed)/of, 0), 0.9)
	}
	loss.AddScaledVec(loss, -b, unit)
	if chol.SolveVecTo(&weighed, loss) != nil {
		return 0, math.Inf(1)
	}
	return b, mat.Dot(loss, &weighed)
}

// slopeError is the standard error of the slope; free: with the threshold unknown
// too.
func (l *Law) slopeError(chol *mat.Cholesky, b, threshold float64, free bool) float64 {
	n := len(l.Losses) - 1
	jacobian := mat.NewDense(n, 2, nil)
	for i, loss := range l.Losses[1:] {
		u := math.Log2(loss.Seconds)
		jacobian.Set(i, 0, l.hinge(1, threshold, u))
		jacobian.Set(i, 1, (l.hinge(b, threshold+1e-4, u)-l.hinge(b, threshold-1e-4, u))/2e-4)
	}
	var solved mat.Dense
	if chol.SolveTo(&solved, jacobian) != nil {
		return math.NaN()
	}
	var normal mat.Dense
	normal.Mul(jacobian.T(), &solved)
	if !free || math.Abs(normal.At(1, 1)) < 1e-9 {
		return 1 / math.Sqrt(normal.At(0, 0))
	}
	var inverse mat.Dense
	if inverse.Inverse(&normal) != nil {
		return math.NaN()
	}
	return math.Sqrt(inverse.At(0, 0))
}
