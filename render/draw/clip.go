package draw

// holds reports whether a point lies within, edges included.
func (r rect) holds(p Point) bool {
	const hair = 1e-6
	return p.X >= r.left-hair && p.X <= r.right+hair && p.Y >= r.top-hair && p.Y <= r.bottom+hair
}

// clip cuts a line at the edges of a frame: the runs of it that lie within.
func clip(line []Point, f rect) [][]Point {
	var runs [][]Point
	open := false // the last run goes on
	for i := 1; i < len(line); i++ {
		from, to, ok := within(line[i-1], line[i], f)
		if !ok {
			open = false
			continue
		}
		if !open {
			runs = append(runs, []Point{from})
		}
		run := &runs[len(runs)-1]
		*run = append(*run, to)
		open = to == line[i]
	}
	return runs
}

// within is the part of a straight line inside a frame (Liang and Barsky 1984).
func within(a, b Point, f rect) (from, to Point, ok bool) {
	dx, dy := b.X-a.X, b.Y-a.Y
	first, last := 0., 1.
	for _, edge := range [4][2]float64{{-dx, a.X - f.left}, {dx, f.right - a.X}, {-dy, a.Y - f.top}, {dy, f.bottom - a.Y}} {
		way, room := edge[0], edge[1]
		switch {
		case way == 0 && room < 0:
			return a, b, false
		case way < 0:
			first = max(first, room/way)
		case way > 0:
			last = min(last, room/way)
		}
	}
	if first > last {
		return a, b, false
	}
	from, to = a, b
	if first > 0 {
		from = Point{a.X + first*dx, a.Y + first*dy}
	}
	if last < 1 {
		to = Point{a.X + last*dx, a.Y + last*dy}
	}
	return from, to, true
}
