package scan

// reducer shrinks an image handed to it line by line, top to bottom, each
// pixel of the result being the mean light of the rectangle it covers.
//
// The rectangles' edges fall between pixels: shrinking 7 to 3, each result
// covers 2 1/3. Measured in thirds of a pixel, though, everything is whole: a
// source pixel is 3 long and a result covers 7. So weights are whole numbers,
// along the line and down the column, those of one result add up to exactly
// srcW x srcH, and nothing is rounded until the one division at the end.
// A sum stays below 2^16 x 2^20 x 2^20 (maxSide), within 64 bits.
type reducer struct {
	channels   int
	srcW, srcH int
	w, h       int

	line int      // source lines taken in
	row  []uint64 // the last of them, shrunk along its length
	sum  []uint64 // the result line being gathered
	pix  []uint8  // finished lines, sRGB, channels interleaved
}

// newReducer shrinks to the longest edge given; a smaller image keeps its size.
func newReducer(channels, srcW, srcH, edge int) *reducer {
	r := &reducer{channels: channels, srcW: srcW, srcH: srcH, w: srcW, h: srcH}
	if long := max(srcW, srcH); long > edge {
		r.w, r.h = shrunk(srcW, edge, long), shrunk(srcH, edge, long)
	}
	r.row = make([]uint64, r.w*channels)
	r.sum = make([]uint64, r.w*channels)
	r.pix = make([]uint8, 0, r.w*r.h*channels)
	return r
}

// shrunk is side x edge / long to the nearest whole pixel, at least one.
func shrunk(side, edge, long int) int {
	scaled := (2*int64(side)*int64(edge) + int64(long)) / (2 * int64(long))
	return max(1, int(scaled))
}

// add takes the next source line: srcW x channels of linear light.
func (r *reducer) add(light []uint16) {
	for c := range r.channels {
		r.shrinkLine(light, c)
	}
	at, end := r.line*r.h, (r.line+1)*r.h
	r.line++
	for at < end {
		edge := (at/r.srcH + 1) * r.srcH // where the current result line ends
		weight := uint64(min(end, edge) - at)
		for i, v := range r.row {
			r.sum[i] += v * weight
		}
		at += int(weight)
		if at == edge {
			r.finishLine()
		}
	}
}

// shrinkLine weighs one channel of a line into row.
func (r *reducer) shrinkLine(light []uint16, c int) {
	n := r.channels
	for o := range r.w {
		start, end := o*r.srcW, (o+1)*r.srcW
		first, last := start/r.w, (end-1)/r.w
		if first == last {
			r.row[o*n+c] = uint64(light[first*n+c]) * uint64(r.srcW)
			continue
		}
		var whole uint64
		for i := (first+1)*n + c; i < last*n; i += n {
			whole += uint64(light[i])
		}
		r.row[o*n+c] = whole*uint64(r.w) +
			uint64(light[first*n+c])*uint64((first+1)*r.w-start) +
			uint64(light[last*n+c])*uint64(end-last*r.w)
	}
}

func (r *reducer) finishLine() {
	value, area := value8(), uint64(r.srcW)*uint64(r.srcH)
	for i, s := range r.sum {
		r.pix = append(r.pix, value[(s+area/2)/area])
		r.sum[i] = 0
	}
}
