package sensitometry

import (
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Reading is one density of a sheet, the mean of what was read on one patch.
type Reading struct {
	Sheet int     // from 0
	LogH  float64 // of the exposure as it was set
	D     float64 // over base and fog
	Sd    float64 // standard error of D; 0: not known
}

// ErrTooFew says that the readings do not determine a curve.
var ErrTooFew = errors.New("the densities are too few for a curve")

// Sizes of the fit, from trials on synthetic films.
const (
	usualSd   = 0.02  // of one reading where nothing tells its error; common practice, no source
	stiffness = 0.016 // standard deviation of a third difference of the curve's coefficients
	falling   = 0.002 // standard deviation of a difference of coefficients that would fall
	darkSd    = 0.005 // of density, of what has got no light to speak of
	mostSteps = 20
	still     = 1e-5
	nearly    = 1e-3 // log10 exposure
	longest   = 0.4  // log10 exposure that one step may go
)

// problem is the readings of one test and what is not known of their exposures.
type problem struct {
	readings []Reading
	sheets   int
	effects  [][]float64 // by sheet, each a row: log10 exposure for one unit of each unknown
	start    []float64   // of the unknowns
	dark     []float64   // exposures that leave the film at base and fog
}

// solution is a curve, and the unknowns with their covariance.
type solution struct {
	spline  spline
	theta   []float64
	inverse *mat.SymDense // of the normal equations: coefficients, unknowns, then a free sheet
	low     float64       // exposures that readings reach
	high    float64
	off     []float64 // by sheet: how far it lies off, log10 exposure
	offSd   []float64
	free    float64 // offset of the sheet set free
	freeSd  float64
	chi     float64 // of the sheets about the fit, for each degree of freedom
	place   float64 // standard error of where all of it lies, log10 exposure
	misfit  float64 // what the fit makes least: the squares of what is left in errors, and of the prior
}

// view is how a fit looks at the sheets.
type view struct {
	weight []float64 // by sheet, 0 leaves it out
	free   int       // a sheet with an offset of its own, -1 none
	inD    bool      // the offset is one of density
}

// shift is the exposure of a sheet that the unknowns make.
func (p *problem) shift(sheet int, theta []float64) float64 {
	if len(theta) == 0 {
		return 0
	}
	return floats.Dot(p.effects[sheet], theta)
}

// solve fits the curve and the unknowns, from another fit where there is one.
func (p *problem) solve(v view, from *solution) (*solution, error) {
	if len(p.readings) < 4 {
		return nil, ErrTooFew
	}
	s := &solution{theta: slices.Clone(p.start)}
	if from != nil {
		s.theta, s.spline = slices.Clone(from.theta), from.spline
		s.spline.coef = slices.Clone(from.spline.coef)
	} else {
		low, high := p.reach(s, v)
		room := knotStep
		if len(p.start) > 0 {
			room = 5 * knotStep
		}
		if len(p.dark) > 0 {
			low = min(low, slices.Min(p.dark))
		}
		s.spline = newSpline(low, high, room)
		if _, err := p.step(s, v, true); err != nil {
			return nil, err
		}
	}
	var chol *mat.Cholesky
	for range mostSteps {
		next, err := p.step(s, v, false)
		if err != nil {
			return nil, err
		}
		chol = next.chol
		if next.moved < still || v.free >= 0 && next.moved < nearly {
			break
		}
	}
	n := len(s.spline.coef) + len(s.theta)
	if v.free >= 0 {
		n++
	}
	s.inverse = mat.NewSymDense(n, nil)
	if err := chol.InverseTo(s.inverse); err != nil && chol.Cond() > 1e15 {
		return nil, ErrTooFew
	}
	if v.free >= 0 {
		s.freeSd = math.Sqrt(s.inverse.At(n-1, n-1))
	}
	s.low, s.high = p.reach(s, v)
	p.offsets(s, v)
	s.misfit = p.misfit(s, v)
	return s, nil
}

// misfit is what the fit of a view makes least.
func (p *problem) misfit(s *solution, v view) (sum float64) {
	add := func(sd, off float64) { sum += off * off / (sd * sd) }
	for _, r := range p.readings {
		if v.weight[r.Sheet] == 0 {
			continue
		}
		x, d := r.LogH+p.shift(r.Sheet, s.theta), r.D
		switch {
		case r.Sheet == v.free && v.inD:
			d -= s.free
		case r.Sheet == v.free:
			x += s.free
		}
		value, _ := s.spline.at(x)
		add(sdOf(r)/math.Sqrt(v.weight[r.Sheet]), d-value)
	}
	for _, x := range p.dark {
		value, _ := s.spline.at(x)
		add(darkSd, value)
	}
	c := s.spline.coef
	for i := 0; i+1 < len(c); i++ {
		add(falling, min(c[i+1]-c[i], 0))
	}
	for i := 0; i+3 < len(c); i++ {
		add(stiffness, c[i+3]-3*c[i+2]+3*c[i+1]-c[i])
	}
	return sum
}

// reach is the least and the most exposure that counts.
func (p *problem) reach(s *solution, v view) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, r := range p.readings {
		if v.weight[r.Sheet] > 0 {
			x := r.LogH + p.shift(r.Sheet, s.theta)
			if r.Sheet == v.free && !v.inD {
				x += s.free
			}
			low, high = min(low, x), max(high, x)
		}
	}
	return low, high
}

// stepped is one step of the fit.
type stepped struct {
	chol  *mat.Cholesky
	moved float64 // by the unknown that went farthest
}

// step is one Gauss-Newton step; the first finds the curve for the unknowns as
// they start.
func (p *problem) step(s *solution, v view, first bool) (stepped, error) {
	nc, nt := len(s.spline.coef), len(s.theta)
	n := nc + nt
	if v.free >= 0 {
		n++
	}
	e := newEquations(n)
	for _, r := range p.readings {
		if v.weight[r.Sheet] > 0 {
			p.enter(e, s, v, r, first)
		}
	}
	for _, x := range p.dark {
		i, value, _ := s.spline.basis(x)
		e.begin()
		for k := range value {
			e.entry(i+k, value[k])
		}
		e.add(1/(darkSd*darkSd), 0)
	}
	e.hold(s.spline.coef)
	for k := nc; k < n; k++ {
		add := 1e-9
		if first { // they stay where they start
			add = 1
			if k < nc+nt {
				e.right[k] = s.theta[k-nc]
			}
		}
		e.normal[k*n+k] += add
	}
	var chol mat.Cholesky
	if !chol.Factorize(mat.NewSymDense(n, e.normal)) {
		return stepped{}, ErrTooFew
	}
	var found mat.VecDense
	if err := chol.SolveVecTo(&found, mat.NewVecDense(n, e.right)); err != nil && chol.Cond() > 1e15 {
		return stepped{}, ErrTooFew
	}
	return stepped{&chol, s.take(&found, v, first)}, nil
}

// enter adds one reading to the equations.
func (p *problem) enter(e *equations, s *solution, v view, r Reading, first bool) {
	nc, nt := len(s.spline.coef), len(s.theta)
	x := r.LogH + p.shift(r.Sheet, s.theta)
	free := r.Sheet == v.free
	if free && !v.inD {
		x += s.free
	}
	i, value, _ := s.spline.basis(x)
	e.begin()
	for k := range value {
		e.entry(i+k, value[k])
	}
	target := r.D
	_, slope := s.spline.at(x)
	if !first {
		for k := range nt {
			if by := p.effects[r.Sheet][k]; by != 0 {
				e.entry(nc+k, slope*by)
				target += slope * by * s.theta[k]
			}
		}
	}
	switch {
	case free && v.inD:
		e.entry(nc+nt, 1)
	case free && !first:
		e.entry(nc+nt, slope)
		target += slope * s.free
	}
	e.add(v.weight[r.Sheet]/(sdOf(r)*sdOf(r)), target)
}

// take takes a step's result over and says how far the unknowns moved.
func (s *solution) take(found *mat.VecDense, v view, first bool) (moved float64) {
	nc := len(s.spline.coef)
	was := s.spline.falls()
	for k := range s.spline.coef {
		s.spline.coef[k] = found.AtVec(k)
	}
	if first {
		return math.Inf(1)
	}
	if s.spline.falls() != was { // another curve is held up
		moved = 2 * nearly
	}
	for k := range s.theta {
		d := min(max(found.AtVec(nc+k)-s.theta[k], -longest), longest)
		s.theta[k] += d
		moved = max(moved, math.Abs(d))
	}
	if v.free >= 0 {
		d := min(max(found.AtVec(found.Len()-1)-s.free, -longest), longest)
		s.free += d
		moved = max(moved, math.Abs(d))
	}
	return moved
}

// equations are the normal equations of a least-squares fit in the making; the
// rows of the design hold few figures.
type equations struct {
	n             int
	normal, right []float64
	index         []int
	row           []float64
}

func newEquations(n int) *equations {
	return &equations{n: n, normal: make([]float64, n*n), right: make([]float64, n)}
}

func (e *equations) begin() { e.index, e.row = e.index[:0], e.row[:0] }

func (e *equations) entry(i int, x float64) { e.index, e.row = append(e.index, i), append(e.row, x) }

// add adds the row that was entered.
func (e *equations) add(weight, target float64) {
	for a, i := range e.index {
		wa := weight * e.row[a]
		e.right[i] += wa * target
		for b, j := range e.index {
			e.normal[i*e.n+j] += wa * e.row[b]
		}
	}
}

// hold adds the third differences of the curve's coefficients, which are to be
// small, and its falls, which are to be none: more light gives no less density
// (shape by asymmetric penalties: Bollaerts, Eilers and van Mechelen, Statistics in
// Medicine 25 (2006) 1615).
func (e *equations) hold(last []float64) {
	coefs := len(last)
	for i := 0; i+1 < coefs; i++ {
		if last[i+1] < last[i]-1e-9 {
			e.begin()
			e.entry(i, -1)
			e.entry(i+1, 1)
			e.add(1/(falling*falling), 0)
		}
	}
	for i := 0; i+3 < coefs; i++ {
		e.begin()
		for k, x := range [4]float64{-1, 3, -3, 1} {
			e.entry(i+k, x)
		}
		e.add(1/(stiffness*stiffness), 0)
	}
	for i := range coefs {
		e.normal[i*e.n+i] += 1e-6
	}
}

func sdOf(r Reading) float64 {
	if r.Sd > 0 {
		return r.Sd
	}
	return usualSd
}

// offsets is how far each sheet lies off the fit, in log10 exposure, and how much
// the sheets scatter beside what their readings explain.
func (p *problem) offsets(s *solution, v view) {
	s.off, s.offSd = make([]float64, p.sheets), make([]float64, p.sheets)
	up, down := make([]float64, p.sheets), make([]float64, p.sheets)
	flat, count := make([]float64, p.sheets), make([]float64, p.sheets)
	for _, r := range p.readings {
		x := r.LogH + p.shift(r.Sheet, s.theta)
		value, slope := s.spline.at(min(max(x, s.low), s.high))
		w := 1 / (sdOf(r) * sdOf(r))
		up[r.Sheet] += w * slope * (r.D - value)
		down[r.Sheet] += w * slope * slope
		flat[r.Sheet] += w * (r.D - value)
		count[r.Sheet] += w
	}
	sum, of := 0., 0
	for i := range s.off {
		if down[i] == 0 {
			continue
		}
		s.off[i], s.offSd[i] = up[i]/down[i], 1/math.Sqrt(down[i])
		if v.weight[i] > 0 && i != v.free {
			sum += v.weight[i] * s.off[i] * s.off[i] * down[i]
			of++
		}
	}
	if dof := of - len(s.theta) - 1; dof > 0 {
		s.chi = sum / float64(dof)
		if s.chi < 1+2*math.Sqrt(2/float64(dof)) {
			s.chi = 1 // no more than the readings' own error makes
		}
	} else {
		s.chi = 1
	}
}

// Huber's function.
const huberK = 1.345

// huber fits with each sheet weighed by how far it lies off.
func (p *problem) huber(out []bool) (*solution, view, error) {
	v := view{weight: make([]float64, p.sheets), free: -1}
	for i := range v.weight {
		if !out[i] {
			v.weight[i] = 1
		}
	}
	s, err := p.solve(v, nil)
	if err != nil {
		return nil, v, err
	}
	for range 6 {
		if p.sheets < 3 {
			break
		}
		changed, scale := 0., s.scale(out)
		for i := range v.weight {
			if out[i] || s.offSd[i] == 0 {
				continue
			}
			w := min(1, huberK*scale/max(math.Abs(s.off[i])/s.offSd[i], 1e-9))
			changed = max(changed, math.Abs(w-v.weight[i]))
			v.weight[i] = w
		}
		if changed < 0.02 {
			break
		}
		if s, err = p.solve(v, s); err != nil {
			return nil, v, err
		}
	}
	return s, v, nil
}

// scale is how much wider the sheets scatter than their readings' error: by the
// median of their distances, and no less than 1.
func (s *solution) scale(out []bool) float64 {
	var all []float64
	for i := range s.off {
		if !out[i] && s.offSd[i] > 0 {
			all = append(all, math.Abs(s.off[i])/s.offSd[i])
		}
	}
	return max(1, Median(all)/0.6745)
}

// Odd is a sheet that does not belong to the others.
type Odd struct {
	Sheet  int
	Off    float64 // stops by which it seems to have got more exposure; density where InD
	InD    bool
	Errors float64 // the same in standard errors
	Or     []int   // sheets that may as well be the one: the readings do not tell which
	Held   bool    // without these the others do not tell what is sought: all of them stay in
}

// What makes a sheet odd.
const (
	oddShare   = 0.01 // of series in which every sheet belongs one may be called odd
	oddDensity = 0.03
	likelihood = 20 // times as likely as another sheet is the one that is named
)

// OutOf is every sheet that a result leaves out: those that do not belong, and of
// which no one can tell whether they do.
func OutOf(odd []Odd) (out []int) {
	for _, o := range odd {
		if !o.Held {
			out = append(append(out, o.Sheet), o.Or...)
		}
	}
	return out
}

// robust fits, and leaves out the sheets that do not belong: at most a quarter.
func (p *problem) robust() (with, without *solution, odd []Odd, err error) {
	all := view{weight: make([]float64, p.sheets), free: -1}
	for i := range all.weight {
		all.weight[i] = 1
	}
	if with, err = p.solve(all, nil); err != nil {
		return nil, nil, nil, err
	}
	odd = p.odd()
	out := make([]bool, p.sheets)
	for i := range odd {
		o := &odd[i]
		o.Held = len(o.Or) > 0 && !p.sparedAll(append(slices.Clone(o.Or), o.Sheet), out)
		for _, s := range OutOf(odd[i : i+1]) {
			out[s] = true
		}
	}
	if without, _, err = p.huber(out); err != nil {
		return nil, nil, nil, err
	}
	if len(odd) == 1 && odd[0].Held && !odd[0].InD && len(p.start) == 0 {
		if s, ok := p.between(odd[0], without); ok {
			without = s
		}
	}
	return with, without, odd, nil
}

// between is the curve of sheets that got different exposures and no one can say
// which got what is written: its form is that of each, and it lies between them.
func (p *problem) between(o Odd, from *solution) (*solution, bool) {
	v := view{weight: make([]float64, p.sheets), free: o.Sheet}
	for i := range v.weight {
		v.weight[i] = 1
	}
	s, err := p.solve(v, from)
	if err != nil {
		return nil, false
	}
	s.place = math.Abs(s.free) / 2
	s.spline.from -= s.free / 2
	s.low, s.high = s.low-s.free/2, s.high-s.free/2
	return s, true
}

// odd finds the sheets that do not belong, the farthest off first.
func (p *problem) odd() (odd []Odd) {
	out := make([]bool, p.sheets)
	for len(odd) < max(1, p.sheets/4) {
		v := view{weight: make([]float64, p.sheets)}
		for i := range v.weight {
			if !out[i] {
				v.weight[i] = 1
			}
		}
		next, ok := p.oddest(v, out)
		if !ok { // two may hide one another
			_, v, err := p.huber(out)
			if err != nil {
				return odd
			}
			for i, w := range v.weight {
				if w > 0 {
					v.weight[i] = max(w, 0.2)
				}
			}
			if next, ok = p.oddest(v, out); !ok {
				break
			}
		}
		odd = append(odd, next)
		out[next.Sheet] = true
	}
	for i := range odd { // those that are odd beside another are not in its stead
		odd[i].Or = slices.DeleteFunc(odd[i].Or, func(s int) bool { return out[s] })
	}
	return odd
}

// oddest sets each sheet free in turn and gives the one by which the fit gains
// most, if it is odd, with those by which it would gain as much.
func (p *problem) oddest(v view, out []bool) (worst Odd, ok bool) {
	v.free = -1
	base, err := p.solve(v, nil)
	if err != nil {
		return worst, false
	}
	counts := make([]int, p.sheets)
	of := 0
	for _, r := range p.readings {
		if counts[r.Sheet]++; counts[r.Sheet] == 1 && !out[r.Sheet] {
			of++
		}
	}
	gains := make([]float64, p.sheets)
	most := 0.
	least := distuv.UnitNormal.Quantile(1 - oddShare/2/float64(max(of, 1)))
	chi := 1.
	for i := range p.sheets {
		if out[i] || counts[i] == 0 || !p.spared(i, out) {
			continue
		}
		w := view{weight: slices.Clone(v.weight), free: i, inD: counts[i] < 3}
		w.weight[i] = 1
		s, err := p.solve(w, base)
		if err != nil || s.freeSd == 0 {
			continue
		}
		gains[i] = max(base.misfit-s.misfit, 0)
		o := Odd{Sheet: i, Off: s.free / Stop, Errors: math.Sqrt(gains[i] / s.chi)}
		far := Stop / 6
		if w.inD {
			far, o.Off, o.InD = oddDensity, s.free, true
		}
		if o.Errors > least && gains[i] > most && math.Abs(s.free) > far {
			worst, ok, chi, most = o, true, s.chi, gains[i]
		}
	}
	for i, gain := range gains {
		if ok && i != worst.Sheet && (most-gain)/chi < 2*math.Log(likelihood) {
			worst.Or = append(worst.Or, i)
		}
	}
	return worst, ok
}

// sparedAll reports whether the others still determine a curve and every unknown
// without some sheets.
func (p *problem) sparedAll(sheets []int, out []bool) bool {
	gone := slices.Clone(out)
	for _, s := range sheets {
		if !p.spared(s, gone) {
			return false
		}
		gone[s] = true
	}
	left := 0
	for _, r := range p.readings {
		if !gone[r.Sheet] {
			left++
		}
	}
	return left >= 4
}

// spared reports whether the others still determine every unknown without a
// sheet.
func (p *problem) spared(sheet int, out []bool) bool {
	for k := range p.start {
		if p.effects[sheet][k] == 0 {
			continue
		}
		others := 0
		for i := range p.sheets {
			if i != sheet && !out[i] && p.effects[i][k] != 0 {
				others++
			}
		}
		if others == 0 {
			return false
		}
	}
	return true
}

// sd is the standard error of a sum of the unknowns.
func (s *solution) sd(of []float64) float64 {
	n, _ := s.inverse.Dims()
	v := mat.NewVecDense(n, nil)
	for k, x := range of {
		v.SetVec(len(s.spline.coef)+k, x)
	}
	return math.Sqrt(max(mat.Inner(v, s.inverse, v), 0) * s.chi)
}
