package solver

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"rationwright/solver/branch"
)

// Limits of the search behind one way out.
const (
	wayOutWork = 20000 // simplex iterations
	wayOutGap  = 0.01
)

// waysOut tries, for each limit of a conflict that is the user's to change,
// what happens when it alone gives way: how much more of a total is enough, or
// whether a ration fits without an exclusion or rule. Needs are given up only
// as the closest ration shows; safety rows never are. Only changes after which
// a ration was really found are returned, the cheapest first.
func (r *Ration) waysOut(ctx context.Context, set conflictSet) []WayOut {
	var out []WayOut
	for _, i := range set.rows {
		if r.rows[i].class != limit || ctx.Err() != nil {
			continue
		}
		if w, ok := r.wayOut(ctx, i); ok {
			out = append(out, w)
		}
	}
	slices.SortStableFunc(out, func(a, b WayOut) int {
		return cmp.Compare(costOf(a), costOf(b))
	})
	return out
}

func costOf(w WayOut) float64 {
	if w.Cost == nil {
		return math.Inf(1)
	}
	return *w.Cost
}

// wayOut lets row i give way. A total is made as small as the rest allows; an
// exclusion or rule is dropped and the plan's own objective kept.
func (r *Ration) wayOut(ctx context.Context, i int) (WayOut, bool) {
	p := r.copyProblem()
	row := p.Rows[i]
	p.Rows[i].Lower, p.Rows[i].Upper = math.Inf(-1), math.Inf(1)
	total := r.rows[i].kind == rowLimit && row.Upper < inf
	if total {
		for j := range p.Cols {
			p.Cols[j].Cost = 0
			for _, e := range p.Cols[j].Entries {
				if e.Row == i {
					p.Cols[j].Cost = e.Value
				}
			}
		}
	}
	result := branch.Solve(ctx, p, branch.Options{
		Gap: wayOutGap, MinDenom: smallest(r.Request.Least), Work: wayOutWork, Time: r.Request.Time,
	})
	if result.X == nil {
		return WayOut{}, false
	}
	cost := 0.0
	for j := range r.cols {
		cost += r.coefficient(j, LeastCost) * result.X[j]
	}
	w := WayOut{Cost: &cost, Tested: true}
	info := r.rows[i]
	switch {
	case total:
		w.Change = fmt.Sprintf("%s more %s", moreOf(result.Value-row.Upper, info.unit), info.text)
	case info.kind == rowLimit:
		w.Change = "give up " + info.text
	default:
		w.Change = "give up the " + info.text
	}
	if info.eater >= 0 {
		w.Change += " (" + r.eaters[info.eater].person.Name + ")"
	}
	return w, true
}

// moreOf rounds an amount up to two decimals, so that it is enough.
func moreOf(amount float64, unit string) string {
	return fmt.Sprintf("%.2f %s", math.Ceil(amount*100)/100, unit)
}
