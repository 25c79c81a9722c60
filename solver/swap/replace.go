package swap

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/solver/answer"
	"rationwright/solver/elastic"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// Replacing is what could stand in for a food of a plan, without changing the
// plan.
type Replacing struct {
	ration.NotFed
	InsteadOf    string             `json:"instead_of"`
	For          string             `json:"for,omitempty"`
	Needless     bool               `json:"needless"`             // the rest of the plan meets every need without it
	Short        []ration.Shortfall `json:"short,omitempty"`      // what is missing without it
	Replacements []Replacement      `json:"replacements"`         // the best first
	Considered   int                `json:"considered,omitempty"` // foods that were looked at
}

// Replacement is one food that would stand in for another by itself, in whole
// packs, every other pack of the plan staying as it is. The changes count the
// packs of the food replaced as not bought.
type Replacement struct {
	Food         string             `json:"food"`
	NDB          string             `json:"ndb,omitempty"`
	Packs        []PackChange       `json:"packs"`
	CostChange   float64            `json:"cost_change"`
	WeightChange float64            `json:"weight_change"`
	VolumeChange float64            `json:"volume_change"`
	Balanced     bool               `json:"balanced"` // every need is met
	Short        []ration.Shortfall `json:"short,omitempty"`

	x []float64
}

// Limits of the search for what could replace a food.
const (
	replacementsShown = 10
	replaceTogether   = 8 // foods looked at between two looks at whether others can be better
)

// shortWeight is what the shortfall of a whole need counts against the plan's
// own objective, as a multiple of the plan's value: a balanced ration always
// comes before a cheap one.
const shortWeight = 10

// Replacements ranks what could replace a food of the plan, for everyone or for
// one person: foods that keep the balance first, the best by the plan's
// objective before the others; then those that come nearest to it.
func Replacements(ctx context.Context, plan *ration.Plan, food, who string) (*Replacing, error) {
	req, err := plan.Asked()
	if err != nil {
		return nil, err
	}
	return ReplacementsFor(ctx, req, plan, food, who)
}

// ReplacementsFor is [Replacements] with the request of the plan at hand.
func ReplacementsFor(ctx context.Context, old *ration.Request, plan *ration.Plan, food, who string) (*Replacing, error) {
	req, gone, err := SwapRequest{Drop: []string{food}, For: who}.apply(old, plan)
	if err != nil {
		return nil, err
	}
	if !slices.ContainsFunc(plan.Packs, func(k ration.PlanPack) bool {
		f := rules.FoodNamed(req.Table, k.Food)
		return gone[f] && !k.Reserve
	}) {
		return nil, fmt.Errorf("%w: %s is not in the plan", ErrSwap, food)
	}
	m, err := model.BuildFor(req, plan)
	if err != nil {
		return nil, err
	}
	w := &replaceSearch{model: m, plan: plan, gone: gone}
	if len(gone) == 1 {
		for f := range gone {
			food = f.Name
		}
	}
	out := &Replacing{NotFed: plan.NotFed(), InsteadOf: food, For: who, Replacements: []Replacement{}}
	if err := w.start(ctx); err != nil {
		return nil, err
	}
	without := w.write(w.base.X)
	out.Short = without.Short
	out.Needless = without.Balanced
	if out.Needless {
		return out, nil
	}
	return out, w.rank(ctx, out)
}

// replaceSearch is the relaxation of a plan whose packs are fixed, all needs
// soft, into which one food at a time is let.
type replaceSearch struct {
	model *model.Model
	plan  *ration.Plan
	gone  map[*foods.Food]bool
	soft  *elastic.Elastic
	lp    *search.Relaxation
	base  simplex.Result
}

// start fixes the packs of the plan, those of the food apart, and solves.
func (w *replaceSearch) start(ctx context.Context) error {
	m := w.model
	w.soft = elastic.New(m, func(info model.RowInfo) bool { return elastic.IsNeed(info) || info.Kind == model.RowUser }, false)
	p := w.soft.Problem
	for j := range m.Cols {
		p.Cols[j].Cost = m.Problem.Cols[j].Cost
	}
	for k, cost := range w.soft.Costs(func(model.RowInfo) bool { return true }) {
		p.Cols[w.soft.Cols[k]].Cost = cost * shortWeight * math.Max(*w.plan.Value, 1)
	}
	packs := make([]float64, len(m.Cols))
	for _, line := range w.plan.Packs {
		m.PlacePacks(packs, line)
	}
	m.FixPacks(p, packs)
	closed := p.Clone()
	m.CloseEmpty(closed)
	out := make([]bool, len(p.Cols))
	for j := range m.Cols {
		out[j] = closed.Cols[j].Upper <= 0
	}
	var err error
	if w.lp, err = search.RelaxWithout(p, out); err != nil {
		return err
	}
	w.base = w.lp.Solve(ctx)
	if w.base.Status != simplex.Optimal {
		return fmt.Errorf("%w: %s", ration.ErrNumerical, "what is left without the food could not be worked out: "+w.base.Why)
	}
	return nil
}

// rank lets in one food after another, the most promising first, and stops when
// no other can be better than the last one shown. How much a food can better the
// objective is bounded by what its packs are worth at the prices found, since
// the first gram is worth most.
func (w *replaceSearch) rank(ctx context.Context, out *Replacing) error {
	m := w.model
	type candidate struct {
		li    int
		bound float64 // most by which it can better the objective
		value float64
	}
	var all []candidate
	for li, lf := range m.Larder {
		if w.gone[lf.Food] || lf.Balance < 0 || len(lf.Buy) == 0 {
			continue
		}
		if c := (candidate{li: li, bound: w.promise(lf)}); c.bound > 0 {
			all = append(all, c)
		}
	}
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Compare(b.bound, a.bound) })
	var best []candidate
	timed, stop := search.Part(ctx, search.ReplacePart)
	defer stop()
	for part := range slices.Chunk(all, replaceTogether) {
		if len(best) == replacementsShown && w.base.Value-part[0].bound >= best[len(best)-1].value {
			break
		}
		search.Parallel(len(part), func(k int) {
			part[k].value = math.Inf(1)
			if result := w.with(timed, part[k].li); result.Status == simplex.Optimal {
				part[k].value = result.Value
			}
		})
		if search.Interrupted(ctx) {
			return ctx.Err()
		}
		if search.OutOfTime(timed) {
			break
		}
		out.Considered += len(part)
		for _, c := range part {
			if c.value < w.base.Value*(1-search.ShortTolerance) { // it helps
				best = append(best, c)
			}
		}
		slices.SortStableFunc(best, func(a, b candidate) int { return cmp.Compare(a.value, b.value) })
		best = best[:min(len(best), replacementsShown)]
	}
	done := make([]Replacement, len(best))
	search.Parallel(len(best), func(k int) { done[k] = w.whole(ctx, m.Larder[best[k].li]) })
	out.Replacements = slices.DeleteFunc(done, func(a Replacement) bool { return len(a.Packs) == 0 })
	cost := w.soft.Problem.CostAt // with what a replacement leaves short
	slices.SortStableFunc(out.Replacements, func(a, b Replacement) int {
		return cmp.Or(search.CompareBool(b.Balanced, a.Balanced), cmp.Compare(cost(a.x), cost(b.x)))
	})
	return nil
}

// promise bounds by how much a food can better the objective: at the prices
// found, with a gram of the food at what its keenest eater would give for it, the
// prices are those of a dual point of the program with the food let in.
func (w *replaceSearch) promise(lf *model.LarderFood) float64 {
	gram, opened := 0.0, 1.0
	for _, e := range w.model.Eaters {
		for _, y := range e.Eats {
			if w.model.Larder[y.Food] == lf {
				gram = math.Max(gram, -w.reduced(y.Col, lf.Balance)/(e.Count*y.SpareFactor))
				opened = math.Max(opened, y.CapG/y.Window)
			}
		}
	}
	cost, _ := lf.GramCost(func(col int) float64 { return w.reduced(col, lf.Balance) })
	best := math.Max(0, gram-cost)
	// More is never bought than all may eat of it, and as many packs as must be
	// opened for that.
	return best * math.Max(lf.CapG, opened*lf.Window)
}

// reduced is the reduced cost of a column, one row left out.
func (w *replaceSearch) reduced(j, without int) float64 {
	d := w.soft.Problem.Cols[j].Cost
	for _, entry := range w.soft.Problem.Cols[j].Entries {
		if entry.Row != without {
			d -= w.base.Dual[entry.Row] * entry.Value
		}
	}
	return d
}

// open lets packs of a food in, over those of the plan.
func (w *replaceSearch) open(set func(int, float64, float64), lf *model.LarderFood) {
	for _, k := range lf.Buy {
		set(k.Col, w.soft.Problem.Cols[k.Col].Lower, w.model.Problem.Cols[k.Col].Upper)
	}
}

// with solves with one food let in.
func (w *replaceSearch) with(ctx context.Context, li int) simplex.Result {
	lp := w.lp.Clone()
	if err := lp.AddColumns(w.model.ColumnsOf(li)); err != nil {
		return simplex.Result{Why: err.Error()}
	}
	w.open(lp.SetBounds, w.model.Larder[li])
	return lp.Solve(ctx)
}

// whole finds the whole packs of one food that replace the other best: those that leave
// nothing short where there are any, however little a cheaper ration would be short of.
func (w *replaceSearch) whole(ctx context.Context, lf *model.LarderFood) Replacement {
	p := w.soft.Problem.Clone()
	w.open(func(j int, lower, upper float64) { p.Cols[j].Lower, p.Cols[j].Upper = lower, upper }, lf)
	w.model.CloseEmpty(p)
	opt := search.Options{Gap: search.ReplaceGap / shortWeight, MinDenom: ration.SmallestStep(w.model.Request.Least), Work: search.ReplaceWork, Workers: 1}
	strict := p.Clone()
	for _, col := range w.soft.Cols {
		strict.Cols[col].Upper = 0
	}
	found := search.SolveSmaller(ctx, strict, opt)
	if found.X == nil {
		found = search.SolveSmaller(ctx, p, opt)
	}
	if found.X == nil {
		return Replacement{}
	}
	out := w.write(found.X)
	out.Food, out.NDB = lf.Food.Name, ration.NDBOf(lf.Food)
	for _, k := range lf.Buy {
		if n := int(math.Round(found.X[k.Col] - w.soft.Problem.Cols[k.Col].Lower)); n > 0 {
			out.Packs = append(out.Packs, PackChange{Pack: k.Pack.Key, Food: lf.Food.Name, Count: n})
		}
	}
	return out
}

// write says what a point comes to against the plan.
func (w *replaceSearch) write(x []float64) Replacement {
	m := w.model
	changed := answer.Write(m, x[:len(m.Cols)])
	short := elastic.WriteClosest(m, x[:len(m.Cols)]).Shortfalls
	old := w.plan.Totals
	return Replacement{
		CostChange:   ration.NoResidue(changed.Totals.Cost - old.Cost),
		WeightChange: ration.NoResidue(changed.Totals.WeightKg - old.WeightKg),
		VolumeChange: ration.NoResidue(changed.Totals.VolumeL - old.VolumeL),
		Short:        short,
		Balanced:     len(short) == 0,
		x:            x,
	}
}
