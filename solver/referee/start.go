package referee

import "slices"

// start is where phase 1 begins: the columns of the scaled form followed by
// artificial ones, the costs of phase 1 (one for each artificial column), and a
// basis of them that is feasible.
type start struct {
	cols  [][]float64
	cost  []float64
	basis []int
}

// cold starts from the slacks, with an artificial column for each row that has
// no slack to start from.
func (d *scaled) cold() start {
	s := d.bare()
	for i, k := range d.slacks() {
		if k < 0 {
			k = s.artificial(d.m, i, 1)
		}
		s.basis = append(s.basis, k)
	}
	return s
}

// warm starts from the basis that was optimal before the last rows were added,
// all of them caps that its point exceeds. What a row is exceeded by goes into
// an artificial column, so a few pivots mend it.
func (d *scaled) warm(before []int) start {
	s := d.bare()
	s.basis = append([]int(nil), before...)
	for i := len(before); i < d.m; i++ {
		s.basis = append(s.basis, s.artificial(d.m, i, -1))
	}
	return s
}

func (d *scaled) bare() start {
	return start{cols: append([][]float64(nil), d.a...), cost: make([]float64, d.n)}
}

// artificial adds a column with the coefficient in one row of m and returns it.
func (s *start) artificial(m, row int, coefficient float64) int {
	col := make([]float64, m)
	col[row] = coefficient
	s.cols = append(s.cols, col)
	s.cost = append(s.cost, 1)
	return len(s.cols) - 1
}

// slacks returns for each row a column without cost that has a positive
// coefficient there and none elsewhere, −1 where there is none.
func (d *scaled) slacks() []int {
	slack := slices.Repeat([]int{-1}, d.m)
	for k, col := range d.a {
		at, count := -1, 0
		for i, v := range col {
			if v != 0 {
				at = i
				count++
			}
		}
		if count == 1 && col[at] > 0 && !(d.c[k] < 0) && !(d.c[k] > 0) {
			slack[at] = k
		}
	}
	return slack
}
