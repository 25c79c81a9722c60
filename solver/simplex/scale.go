package simplex

import (
	"math"
	"slices"
)

// scaling turns the program's own terms into those the core computes in:
//
//	a'_ij = row_i · a_ij · col_j,  x'_j = x_j / col_j,  r'_i = row_i · r_i,
//	c'_j  = cost · col_j · c_j
//
// All factors are powers of two, so that scaling adds no rounding error.
type scaling struct {
	row, col []float64
	cost     float64
}

// unit returns the scaling that changes nothing.
func unit(rows, cols int) scaling {
	return scaling{row: slices.Repeat([]float64{1}, rows), col: slices.Repeat([]float64{1}, cols), cost: 1}
}

// powerOfTwo returns the power of two nearest to v in ratio, for v > 0.
func powerOfTwo(v float64) float64 {
	return math.Ldexp(1, int(math.Round(math.Log2(v))))
}

// spread returns the smallest and largest |value·factor[index]| of a vector
// without zeros; 1, 1 for an empty one.
func spread(index []int32, value, factor []float64) (low, top float64) {
	low, top = math.Inf(1), 0
	for t, k := range index {
		v := math.Abs(value[t] * factor[k])
		low, top = min(low, v), max(top, v)
	}
	if top == 0 {
		return 1, 1
	}
	return low, top
}

// newScaling finds factors by repeated geometric means of the smallest and
// largest entry of each row and column, then brings every column's largest
// entry near one.
func newScaling(a *matrix, cost []float64) scaling {
	s := unit(a.rows, a.cols)
	low, top := math.Inf(1), 0.0
	for _, v := range a.colVal {
		low, top = min(low, math.Abs(v)), max(top, math.Abs(v))
	}
	if len(a.colVal) > 0 && (low < wellScaledLow || top > wellScaledTop) {
		for range scalingRounds {
			for i := range a.rows {
				index, value := a.row(i)
				s.row[i] = geometric(index, value, s.col)
			}
			for j := range a.cols {
				index, value := a.column(j)
				s.col[j] = geometric(index, value, s.row)
			}
		}
		for i := range s.row {
			s.row[i] = powerOfTwo(s.row[i])
		}
		for j := range s.col {
			index, value := a.column(j)
			_, top := spread(index, value, s.row)
			s.col[j] = powerOfTwo(1 / top)
		}
	}
	s.setCost(cost)
	return s
}

// geometric returns the factor of a row under the factors of the columns, or of a column
// under those of the rows.
func geometric(index []int32, value, factor []float64) float64 {
	low, top := spread(index, value, factor)
	return 1 / math.Sqrt(low*top)
}

// setCost chooses the factor of the objective so that the geometric mean of its
// smallest and largest scaled coefficient is near one.
func (s *scaling) setCost(cost []float64) {
	low, top := math.Inf(1), 0.0
	for j, c := range cost {
		if c != 0 {
			v := math.Abs(c * s.col[j])
			low, top = min(low, v), max(top, v)
		}
	}
	s.cost = 1
	if top > 0 {
		s.cost = powerOfTwo(1 / math.Sqrt(low*top))
	}
}

// of returns the factor between variable k's scaled and own value:
// own = scaled · of(k). Rows come after the columns.
func (s *scaling) of(k int) float64 {
	if k < len(s.col) {
		return s.col[k]
	}
	return 1 / s.row[k-len(s.col)]
}
