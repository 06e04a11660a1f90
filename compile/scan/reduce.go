package scan

import "math/bits"

// reducer shrinks an image handed to it line by line, each pixel of the result
// being the mean light of the rectangle it covers.
//
// The rectangles' edges fall between pixels: shrinking 7 to 3, each result
// covers 2 1/3. Measured in thirds of a pixel, though, everything is whole: a
// source pixel is 3 long and a result covers 7. So weights are whole numbers,
// along the line and down the column, those of one result add up to exactly
// srcW x srcH, and nothing is rounded until the one division at the end.
// A sum stays below 2^16 x 2^20 x 2^20 (maxSide), within 64 bits.
//
// Down comes first. Source lines are added up as they are, sample by sample,
// until a result line is complete; only then is that one line shrunk along its
// length. So what is done for every sample is to look it up and to add it, in
// one loop that need not know where pixels or channels begin.
//
// Lines need not come whole: a tile brings a stretch of each of its lines. The
// result lines that may still grow are open; finish closes those that lie above
// all that is to come.
type reducer struct {
	samples    int // of a source pixel, as stored
	channels   int // of them the first are shown
	srcW, srcH int
	w, h       int
	runs       []run

	first int        // number of the first open line
	open  [][]uint64 // the open lines: weighed sums of light, sample by sample
	spare [][]uint64 // closed ones, to be used again
	light []uint16
	sinks []sink
}

// sink takes the lines of a reduced image in order: light, channels
// interleaved, the sink's only until it returns.
type sink interface{ take(light []uint16) }

// adder adds a stretch of a line, weighed, into sums that begin with its first
// pixel.
type adder interface {
	add(sums []uint64, weight uint64, line []byte)
}

// newReducer shrinks srcW x srcH pixels to w x h, no more of either.
func newReducer(samples, channels, srcW, srcH, w, h int) *reducer {
	return &reducer{
		samples: samples, channels: channels, srcW: srcW, srcH: srcH, w: w, h: h,
		runs: layRuns(srcW, w), light: make([]uint16, w*channels),
	}
}

// fitted is the size an image is shown at within a longest edge; a smaller image
// keeps its size.
func fitted(width, height, edge int) (w, h int) {
	if long := max(width, height); long > edge {
		return shrunk(width, edge, long), shrunk(height, edge, long)
	}
	return width, height
}

// shrunk is side x edge / long to the nearest whole pixel, at least one.
func shrunk(side, edge, long int) int {
	scaled := (2*int64(side)*int64(edge) + int64(long)) / (2 * int64(long))
	return max(1, int(scaled))
}

// run is what falls on one result pixel: what the last pixel before left over,
// so many pixels wholly, and of the next one so many units; the rest of that is
// left over for the next result.
type run struct {
	whole int
	cover uint64
}

func layRuns(srcW, w int) []run {
	runs, x := make([]run, w), 0
	for o := range runs {
		end := (o + 1) * srcW // of the result pixel, where a source pixel is w long
		last := (end - 1) / w // the pixel its end falls on
		runs[o] = run{last - x, uint64(end - last*w)}
		x = last + 1
	}
	return runs
}

// line takes a source line, or the stretch of it that begins with pixel x.
func (r *reducer) line(x, y int, k adder, line []byte) {
	at, end := y*r.h, (y+1)*r.h
	for at < end {
		edge := (at/r.srcH + 1) * r.srcH // where this result line ends
		weight := min(end, edge) - at
		k.add(r.opened(at / r.srcH)[x*r.samples:], uint64(weight), line)
		at += weight
	}
}

// opened gives the sums of a result line.
func (r *reducer) opened(n int) []uint64 {
	for n >= r.first+len(r.open) {
		r.open = append(r.open, r.blank())
	}
	return r.open[n-r.first]
}

func (r *reducer) blank() []uint64 {
	n := len(r.spare)
	if n == 0 {
		return make([]uint64, r.srcW*r.samples)
	}
	line := r.spare[n-1]
	r.spare = r.spare[:n-1]
	clear(line)
	return line
}

// finish closes the result lines that source lines from y on do not reach.
func (r *reducer) finish(y int) {
	done := y * r.h / r.srcH
	for r.first < done && len(r.open) > 0 {
		line := r.open[0]
		for c := range r.channels {
			r.along(line, c)
		}
		for _, to := range r.sinks {
			to.take(r.light)
		}
		r.spare = append(r.spare, line)
		r.open = r.open[:copy(r.open, r.open[1:])]
		r.first++
	}
}

// along shrinks one channel of a line of sums along its length, and divides by
// the area. A division takes ten times as long as the multiplication by 2^64
// over the area does; that may be one too low in 65535.
func (r *reducer) along(sums []uint64, c int) {
	area, unit := uint64(r.srcW)*uint64(r.srcH), uint64(r.w)
	inverse := ^uint64(0)/area + 1 // an area of one comes out as 0: see below
	i, left := c, uint64(0)
	for o, run := range r.runs {
		sum := left
		for range run.whole {
			sum += sums[i] * unit
			i += r.samples
		}
		sum += sums[i] * run.cover
		left = sums[i] * (unit - run.cover)
		i += r.samples
		mean, _ := bits.Mul64(sum+area/2, inverse)
		if area == 1 {
			mean = sum
		}
		r.light[o*r.channels+c] = uint16(min(mean, 0xffff))
	}
}

// chained is a reducer that takes the lines of another: the small picture is
// made of the large one, for a hundredth of the work.
type chained struct {
	*reducer
	y int
}

func (c *chained) take(light []uint16) {
	c.line(0, c.y, lightLine(light), nil)
	c.y++
	c.finish(c.y)
}

// lightLine is a line that is light already.
type lightLine []uint16

func (l lightLine) add(sums []uint64, weight uint64, _ []byte) {
	sums = sums[:len(l)]
	for i, v := range l {
		sums[i] += uint64(v) * weight
	}
}
