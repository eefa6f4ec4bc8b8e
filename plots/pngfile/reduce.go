package pngfile

import "math"

// unbroken splits a line at NaN, in x or y, into the runs of points between.
func unbroken(x, y []float64) [][][2]float64 {
	var out [][][2]float64
	var run [][2]float64
	for i := range x {
		if math.IsNaN(x[i]) || math.IsNaN(y[i]) {
			if len(run) > 0 {
				out, run = append(out, run), nil
			}
			continue
		}
		run = append(run, [2]float64{x[i], y[i]})
	}
	if len(run) > 0 {
		out = append(out, run)
	}
	return out
}

// reduce thins a line with ascending x to at most four points for each column
// of width perColumn: the first, the lowest, the highest and the last, in
// their order. A line drawn through them covers the same pixels, at a fraction
// of the cost.
func reduce(line [][2]float64, perColumn float64) [][2]float64 {
	if len(line) < 3 {
		return line
	}
	columns := (line[len(line)-1][0] - line[0][0]) / perColumn
	if float64(len(line)) <= 4*columns {
		return line
	}
	out := make([][2]float64, 0, int(4*columns)+8)
	for i := 0; i < len(line); {
		column := math.Floor(line[i][0] / perColumn)
		first, low, high := i, i, i
		for ; i < len(line) && math.Floor(line[i][0]/perColumn) == column; i++ {
			if line[i][1] < line[low][1] {
				low = i
			}
			if line[i][1] > line[high][1] {
				high = i
			}
		}
		last, done := i-1, -1
		for _, k := range [4]int{first, min(low, high), max(low, high), last} {
			if k > done {
				out, done = append(out, line[k]), k
			}
		}
	}
	return out
}
