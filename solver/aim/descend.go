package aim

import (
	"cmp"
	"context"
	"math"
	"slices"

	"rationwright/solver/model"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// descent betters a point move by move: a food or a size less, or portions of one
// more where variety is missing. A move is a change of bounds; the relaxation with
// the packs at hand as they are says what it costs, a dive makes the packs whole.
// Moves are tried by what they gain for what they cost, until none within the slack
// is any gain.
type descent struct {
	*program
	lp    *search.Relaxation
	most  float64 // of the first aim
	in    []bool  // foods of the larder that may be used
	x     []float64
	left  []leftRow
	firm  bool    // what is a portion or nothing to somebody stays so
	score float64 // structure: see [program.value]
	work  int64   // simplex iterations that are left beside those of lp
}

// move is a change of bounds.
type move struct {
	cols         []int
	lower, upper []float64
	gain         float64
	cost         float64 // of the relaxation
	food         int     // that it adds, -1 none
	rare         int     // that it makes rarer, -1 none
	tried        bool    // cost is that of whole packs
}

func (v *move) set(col int, lower, upper float64) {
	v.cols, v.lower, v.upper = append(v.cols, col), append(v.lower, lower), append(v.upper, upper)
}

// newDescent begins at a point of the model; foods that are missing to variety and
// cheap at the relaxation's reduced costs may come in.
func newDescent(p *program, x []float64, most float64, add []int, work int64) (*descent, error) {
	m := p.model
	d := &descent{program: p, most: most, x: slices.Clone(x[:len(m.Cols)]), work: work, in: make([]bool, len(m.Larder))}
	for li, lf := range m.Larder {
		d.in[li] = lf.Balance < 0 || len(lf.Stock) > 0 || len(lf.Reserve) > 0 || slices.Contains(add, li)
	}
	for j, info := range m.Cols {
		if info.Larder >= 0 && x[j] > model.Dust {
			d.in[info.Larder] = true
		}
	}
	out := make([]bool, len(m.Cols))
	for li := range m.Larder {
		if !d.in[li] {
			for _, j := range m.ColumnsOf(li) {
				out[j] = true
			}
		}
	}
	q := m.Problem.Clone()
	d.left = p.addLeftRows(q)
	var err error
	if d.lp, err = search.RelaxWithout(q, out); err != nil {
		return nil, err
	}
	d.hold()
	d.score = d.scoreOf(d.x)
	return d, nil
}

// hold keeps the packs at hand as the least; a food that is there may have more of
// the sizes that it has, a food that is not has none. What makes up the variety stays
// on the plates.
func (d *descent) hold() {
	for j, info := range d.model.Cols {
		if !d.model.Problem.Cols[j].Integer || info.Larder >= 0 && !d.in[info.Larder] {
			continue
		}
		col := d.model.Problem.Cols[j]
		n := math.Round(d.x[j])
		lower, upper := n, n
		if n > 0 && info.Kind == model.ColBuy {
			upper = col.Upper
		}
		d.lp.SetBounds(j, lower, upper)
	}
	most := d.mostOf(d.x)
	for _, e := range d.model.Eaters {
		for _, y := range e.Eats {
			if d.in[y.Food] {
				d.lp.SetBounds(y.Col, 0, atMost(most, y.Col, y.CapG))
			}
		}
	}
	if d.firm {
		keep := d.decided(d.x)
		d.applyIn(&keep)
	}
	keep := d.varied(d.x)
	d.apply(&keep)
	var rows []int
	for _, r := range d.sodium {
		rows = append(rows, r.row)
	}
	for _, r := range d.left {
		rows = append(rows, r.row)
	}
	d.lp.TakeRows(rows)
	for _, r := range d.sodium {
		d.lp.SetRowBounds(r.row, d.model.Problem.Rows[r.row].Lower, r.most)
	}
	for _, r := range d.left {
		d.lp.SetRowBounds(r.row, math.Inf(-1), r.most(d.x))
	}
}

// applyIn sets the bounds of a move for the foods that may be used.
func (d *descent) applyIn(v *move) {
	for k, j := range v.cols {
		if d.in[d.model.Cols[j].Larder] {
			d.lp.SetBounds(j, v.lower[k], v.upper[k])
		}
	}
}

// apply sets the bounds of a move; the function returned sets them back.
func (d *descent) apply(v *move) (undo func()) {
	lower, upper := make([]float64, len(v.cols)), make([]float64, len(v.cols))
	for k, j := range v.cols {
		lower[k], upper[k] = d.lp.Bounds(j)
		d.lp.SetBounds(j, v.lower[k], v.upper[k])
	}
	return func() {
		for k, j := range slices.Backward(v.cols) {
			d.lp.SetBounds(j, lower[k], upper[k])
		}
	}
}

// moves lists what may better the point.
func (d *descent) moves() []*move {
	var list []*move
	full := d.point(d.x)
	m := d.model
	for li, lf := range m.Larder {
		if !d.in[li] || d.bought[li] < 0 || full[d.bought[li]] == 0 {
			continue
		}
		whole := &move{rare: -1, food: -1}
		n := 0.0
		for _, k := range lf.Buy {
			if math.Round(d.x[k.Col]) == 0 {
				continue
			}
			n++
			whole.set(k.Col, 0, 0)
			whole.gain += d.Cols[d.sizes[li][k.Col]].Cost
		}
		whole.gain += d.Cols[d.bought[li]].Cost
		if len(lf.Stock) == 0 {
			for _, e := range m.Eaters {
				if y, ok := e.Eating(li); ok {
					whole.set(y.Col, 0, 0)
				}
			}
		}
		list = append(list, whole)
		if n < 2 {
			continue
		}
		for _, k := range lf.Buy { // one size in place of all, of those that there are or another
			one := &move{rare: -1, food: -1, gain: (n - 1) * d.Cols[d.sizes[li][k.Col]].Cost}
			for _, other := range lf.Buy {
				if other.Col != k.Col {
					one.set(other.Col, 0, 0)
				}
			}
			one.set(k.Col, 0, m.Problem.Cols[k.Col].Upper)
			list = append(list, one)
			if math.Round(d.x[k.Col]) > 0 && n > 2 { // or one size less
				less := &move{rare: -1, food: -1, gain: d.Cols[d.sizes[li][k.Col]].Cost}
				less.set(k.Col, 0, 0)
				list = append(list, less)
			}
		}
	}
	list = append(list, d.rarer()...)
	list = append(list, d.moreMains(full)...)
	for _, v := range d.varieties {
		if full[v.missing] < 1 {
			continue
		}
		for _, li := range v.foods {
			if e := d.counts[li]; !d.in[li] || full[e] > 0 || d.bought[li] < 0 {
				continue
			}
			more := d.serving(full, li, d.Cols[v.missing].Cost)
			if more.gain > 0 {
				list = append(list, more)
			}
		}
	}
	return list
}

// atMost is the most of a column, or the limit where it has none of its own.
func atMost(most map[int]float64, col int, limit float64) float64 {
	if own, ok := most[col]; ok {
		return math.Min(own, limit)
	}
	return limit
}

// varied is the portions that make up the variety at a point, as bounds.
func (p *program) varied(x []float64) move {
	var keep move
	full := p.point(x)
	for _, v := range p.varieties {
		held := 0.0
		for _, li := range v.foods {
			if full[p.counts[li]] > 0 && held < v.least {
				p.serve(&keep, x, li)
				held++
			}
		}
	}
	return keep
}

// serve lets half of those who may eat a food have a portion, those first who have
// one at x, then those who need least for it.
func (p *program) serve(v *move, x []float64, li int) {
	var may []int
	for ei := range p.eats {
		if _, ok := p.eats[ei][li]; ok {
			may = append(may, ei)
		}
	}
	short := func(ei int) float64 {
		y, _ := p.model.Eaters[ei].Eating(li)
		return math.Max(0, p.leastOf(ei, li)-x[y.Col])
	}
	slices.SortStableFunc(may, func(a, b int) int { return cmp.Compare(short(a), short(b)) })
	most := p.mostOf(x)
	for _, ei := range may[:(len(may)+1)/2] {
		y, _ := p.model.Eaters[ei].Eating(li)
		v.set(y.Col, p.leastOf(ei, li), atMost(most, y.Col, y.CapG))
	}
}

// over reports whether the work or the time is up.
func (d *descent) over(ctx context.Context) bool { return d.lp.Spent >= d.work || ctx.Err() != nil }

// run tries moves until none is a gain, and where none is, seeks the same for less:
// what that saves may pay for more.
func (d *descent) run(ctx context.Context) {
	for !d.over(ctx) {
		var list []*move
		for _, v := range d.moves() {
			if !d.over(ctx) && d.price(ctx, v, d.most) {
				list = append(list, v)
			}
		}
		if !d.make(ctx, list) && !d.save(ctx) {
			return
		}
	}
}

// price finds what a move costs for what it gains, by the relaxation; false where it
// goes beyond most.
func (d *descent) price(ctx context.Context, v *move, most float64) bool {
	undo := d.apply(v)
	r := d.lp.SolveUpTo(ctx, most)
	undo()
	if r.Status != simplex.Optimal || r.Value > most {
		return false
	}
	d.charge(v, r.Value)
	return true
}

func (d *descent) charge(v *move, value float64) {
	now := d.model.ValueOf(d.x)
	v.cost = math.Max(value-now, costStep*math.Abs(now)) / v.gain
}

// make makes the moves of the list that are gains, those that cost least for their
// gain first, and reports whether there were any. What a move costs in whole packs is
// known when it was tried; it waits where another then costs less.
func (d *descent) make(ctx context.Context, list []*move) bool {
	made := false
	for len(list) > 0 && !d.over(ctx) {
		slices.SortStableFunc(list, func(a, b *move) int { return cmp.Compare(a.cost, b.cost) })
		v := list[0]
		if made && !d.fits(v) || !v.tried && made && !d.price(ctx, v, d.most) {
			list = list[1:]
			continue
		}
		if len(list) > 1 && v.cost > list[1].cost {
			continue
		}
		x := d.dive(ctx, v, d.most)
		if x == nil || d.model.ValueOf(x) > d.most {
			list = list[1:]
			continue
		}
		score := d.scoreOf(x)
		if score >= d.score-scoreStep {
			list = list[1:]
			continue
		}
		gain := v.gain
		v.gain = d.score - score
		d.charge(v, d.model.ValueOf(x))
		v.gain = gain
		if !v.tried && len(list) > 1 && v.cost > list[1].cost {
			v.tried = true
			continue
		}
		made = true
		d.take(v, x, score)
		list = list[1:]
		for _, o := range list {
			o.tried = false
		}
	}
	return made
}

// take goes over to the point of a move.
func (d *descent) take(v *move, x []float64, score float64) {
	d.x, d.score = slices.Clone(x[:len(d.model.Cols)]), score
	if v.rare >= 0 {
		d.rare[v.rare] = true
	}
	d.hold()
}

// dive makes the packs whole after a move: the cheaper of what comes of the packs at
// hand and of one pack less of each.
func (d *descent) dive(ctx context.Context, v *move, most float64) []float64 {
	var best []float64
	for _, less := range []float64{0, 1} {
		if less > 0 && v.food < 0 && best != nil {
			break
		}
		var around move
		if less > 0 {
			for j, info := range d.model.Cols {
				if info.Kind == model.ColBuy && d.in[info.Larder] {
					if n := math.Round(d.x[j]); n > less {
						_, upper := d.lp.Bounds(j)
						around.set(j, n-less, upper)
					}
				}
			}
		}
		undoAround := d.apply(&around)
		undo := d.apply(v)
		if x := d.lp.DiveUpTo(ctx, most); x != nil && (best == nil || d.model.ValueOf(x) < d.model.ValueOf(best)) {
			best = slices.Clone(x)
		}
		undo()
		undoAround()
	}
	return best
}

// fits reports whether a move is still one after others were made: the packs that it
// takes away are there.
func (d *descent) fits(v *move) bool {
	if v.food >= 0 {
		return true
	}
	return slices.ContainsFunc(v.cols, func(j int) bool { return math.Round(d.x[j]) > 0 })
}

// begin goes on from x; firm keeps what is a portion or nothing to somebody so.
func (d *descent) begin(x []float64, firm bool) {
	d.firm = firm
	d.x, d.score = slices.Clone(x[:len(d.model.Cols)]), d.scoreOf(x)
	d.hold()
}
