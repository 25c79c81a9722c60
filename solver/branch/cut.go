package branch

import (
	"cmp"
	"math"
	"slices"
)

// cut is a row Σ terms ≤ upper that holds for every integer point of the
// program (better than the cutoff of the time), with the derivation that
// proves it.
type cut struct {
	terms  []term // ascending by column
	upper  float64
	origin derivation
	score  float64 // distance cut off, per unit length
	norm   float64
}

// derivation is how a cut follows from rows and bounds, by mixed-integer rounding of a
// combination of rows.
type derivation struct {
	// Multipliers of rows of the space and the side each is taken at. Row i with activity
	// r_i and slack t_i ≥ 0 is r_i = upper − t_i or lower + t_i.
	rows    []int32
	mult    []float64
	atUpper []bool
	whole   []bool // the slack is an integer
	// flipped columns are measured from their upper bounds, all others from
	// their lower ones.
	flipped []int32
}

// workspace holds dense vectors for building cuts.
type workspace struct {
	coef    []float64 // per column
	touched []int
	marked  []bool
	// Of the rounding in hand.
	isFlipped []bool
	flipped   []int32
	whole     []bool
}

func newWorkspace(n int) *workspace {
	return &workspace{coef: make([]float64, n), marked: make([]bool, n), isFlipped: make([]bool, n)}
}

// add adds value times the terms.
func (w *workspace) add(value float64, terms []term) {
	for _, t := range terms {
		if !w.marked[t.col] {
			w.marked[t.col] = true
			w.touched = append(w.touched, t.col)
		}
		w.coef[t.col] += value * t.value
	}
}

// clear empties the vector.
func (w *workspace) clear() {
	for _, j := range w.touched {
		w.coef[j], w.marked[j] = 0, false
	}
	w.touched = w.touched[:0]
}

// depth returns how far x is beyond Σ coef·x ≤ upper, per unit length.
func (w *workspace) depth(upper float64, x []float64) float64 {
	sum, norm := -upper, 0.0
	for _, j := range w.touched {
		v := w.coef[j]
		sum += v * x[j]
		norm += v * v
	}
	if sum <= 0 || norm == 0 {
		return 0
	}
	return sum / math.Sqrt(norm)
}

// take makes a cut of the vector: tiny coefficients are moved into the side at
// the bound that keeps the cut valid, the side is loosened against rounding. It
// returns nil if the cut is not fit for use at x.
func (w *workspace) take(s *space, upper float64, x []float64, origin derivation) *cut {
	slices.Sort(w.touched)
	c := &cut{origin: origin}
	largest := 0.0
	for _, j := range w.touched {
		largest = math.Max(largest, math.Abs(w.coef[j]))
	}
	if largest < 1e-9 || math.IsNaN(upper) || math.IsInf(upper, 0) {
		return nil
	}
	size, activity := math.Abs(upper), 0.0
	for _, j := range w.touched {
		v := w.coef[j]
		if v == 0 {
			continue
		}
		lo, up := s.impliedLower[j], s.impliedUpper[j]
		if math.Abs(v) < largest/cutRange || math.Abs(v) < 1e-9 {
			at := boundAt(v, lo, up) // v·x ≥ v·at
			if math.IsInf(at, 0) {
				return nil
			}
			upper -= v * at
			size += math.Abs(v * at)
			continue
		}
		c.terms = append(c.terms, term{j, v})
		c.norm += v * v
		activity += v * x[j]
		if !math.IsInf(lo, 0) && !math.IsInf(up, 0) {
			size += math.Abs(v) * math.Max(math.Abs(lo), math.Abs(up))
		} else {
			size += math.Abs(v) * math.Max(1, math.Abs(x[j]))
		}
	}
	if len(c.terms) == 0 || len(c.terms) > cutTerms+s.n/cutTermsPer {
		return nil
	}
	c.norm = math.Sqrt(c.norm)
	c.upper = upper + cutMargin*size
	c.score = (activity - c.upper) / c.norm
	if c.score < cutDepth {
		return nil
	}
	return c
}

// parallel returns the cosine between two cuts.
func parallel(a, b *cut) float64 {
	dot := 0.0
	i, j := 0, 0
	for i < len(a.terms) && j < len(b.terms) {
		switch {
		case a.terms[i].col < b.terms[j].col:
			i++
		case a.terms[i].col > b.terms[j].col:
			j++
		default:
			dot += a.terms[i].value * b.terms[j].value
			i++
			j++
		}
	}
	return dot / (a.norm * b.norm)
}

// selectCuts picks the deepest cuts that are not nearly parallel to a deeper
// one, at most limit.
func selectCuts(found []*cut, limit int) []*cut {
	slices.SortStableFunc(found, func(a, b *cut) int { return cmp.Compare(b.score, a.score) })
	var chosen []*cut
	for _, c := range found {
		if len(chosen) < limit && !slices.ContainsFunc(chosen, func(d *cut) bool { return parallel(c, d) > maxParallel }) {
			chosen = append(chosen, c)
		}
	}
	return chosen
}
