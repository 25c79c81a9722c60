package branch

import (
	"math"

	"rationwright/solver/simplex"
)

// restrictedMaster returns a restricted master that starts from the basis b of the optimum
// out, nil if it cannot be built. b is changed.
func (s *space) restrictedMaster(b *Basis, out outcome) *relaxation {
	var keepCol func(int) bool
	var blocks []int
	loose := make([]bool, s.m)
	for i := range loose {
		loose[i] = !s.eager(i)
	}
	if s.n >= masterColumns {
		dear := s.dearColumns(out)
		blocks = s.idleBlocks(out, b)
		for _, i := range blocks {
			b.Rows[i] = simplex.Basic
			for _, t := range s.rows[i] {
				b.Cols[t.col], dear[t.col] = simplex.AtLower, true
			}
		}
		keepCol = func(j int) bool { return b.Cols[j] != simplex.AtLower || !dear[j] }
		loose = s.looseRows(out.x)
	}
	keepRow := func(i int) bool {
		return i < len(b.Rows) && b.Rows[i] != simplex.Basic || i < s.m && !loose[i]
	}
	fresh, err := newRelaxation(s, keepCol, keepRow)
	if err != nil {
		return nil
	}
	fresh.leaveOut(blocks)
	fresh.load(b)
	return fresh
}

// dearColumns marks the columns that are unlikely to be used near the root's
// optimum out.
func (s *space) dearColumns(out outcome) []bool {
	size := make([]float64, s.n)
	for j, c := range s.cost {
		size[j] = math.Abs(c)
	}
	for k, y := range out.duals {
		if y == 0 {
			continue
		}
		terms, _, _ := s.rowTerms(out.rows[k])
		for _, t := range terms {
			size[t.col] += math.Abs(y * t.value)
		}
	}
	dear := make([]bool, s.n)
	for j := range dear {
		dear[j] = out.reduced[j] > masterShare*size[j] && s.lower[j] == 0
	}
	return dear
}

// looseRows marks the rows with room to spare at x.
func (s *space) looseRows(x []float64) []bool {
	loose := make([]bool, s.m)
	for i := range loose {
		sum, size := 0.0, 0.0
		for _, t := range s.rows[i] {
			sum += t.value * x[t.col]
			size = math.Max(size, math.Abs(t.value*x[t.col]))
		}
		room := math.Min(sum-s.rowLower[i], s.rowUpper[i]-sum)
		size = math.Max(size, math.Abs(sum))
		loose[i] = room > masterSlack*size || len(s.rows[i]) > 0 && size == 0 && room >= 0 && s.n >= masterColumns
	}
	return loose
}
