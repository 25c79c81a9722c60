package solver

import (
	"context"
	"fmt"
	"math"
	"time"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/solver/branch"
	"rationwright/solver/ration"
	"rationwright/solver/verify"
)

// Names of the rows that shelves bring.
const (
	rowShelfSpace = "shelf-space"
	rowShelfLoad  = "shelf-load"
	rowShelfSize  = "shelf-size"
)

// mostReplans is how often a plan whose packs find no place is made anew.
const mostReplans = 3

// firstShare is the share of the time asked for that the first plan may take.
const firstShare = 0.7

// shelfSpace is what shelves hold in practice: litres of upright boxes after
// gaps and hand room, and the load of all boards together.
func shelfSpace(shelves []stores.Shelf) (boxL, kg float64) {
	for i := range shelves {
		boxL += shelves[i].VolumeL()
		kg += shelves[i].LoadKg
	}
	return boxL * stores.UsableShare().Value, kg
}

// addShelfRows holds food and water to the shelves, in whole containers c of
// L litres each:
//
//	L c − w ≥ 0
//	Σ_k box_k x_k + box c ≤ usable share · Σ volume of the shelves
//	Σ_k gross_k x_k + gross c ≤ Σ load of the shelves
//	Σ x_k ≤ 0 over packs that stand on no shelf alone
//
// Whether everything then finds a place is for [stores.FitShelves] to say.
func (r *Ration) addShelfRows() {
	shelves := r.Request.Shelves
	if len(shelves) == 0 {
		return
	}
	c := r.supplies.container
	load := stores.LoadOfContainer(c, 1)
	containers := r.addCol("containers["+c.Key+"]", 0, inf, true, colInfo{kind: colContainer, eater: -1, larder: -1})
	filled := r.addRow("containers-filled", 0, inf, rowInfo{
		kind: rowStored, class: structural, eater: -1, text: "water in containers", unit: "L", perDay: 1,
	})
	r.Problem.Set(filled, containers, c.NetML/1000)
	r.Problem.Set(filled, r.water, -1)

	boxL, kg := shelfSpace(shelves)
	shelfRow := func(name, text, unit string, most float64) int {
		return r.addRow(name, math.Inf(-1), most, rowInfo{
			kind: rowLimit, class: limit, eater: -1, text: text, unit: unit, perDay: 1, source: "shelf file",
		})
	}
	space := shelfRow(rowShelfSpace, "room on the shelves", "L", boxL)
	weight := shelfRow(rowShelfLoad, "load of the shelves", "kg", kg)
	r.Problem.Set(space, containers, load.BoxL())
	r.Problem.Set(weight, containers, load.Kg)
	tooLarge := -1
	for j, info := range r.cols {
		if info.pack == nil || info.kind != colBuy && info.kind != colStock && info.kind != colReserve {
			continue
		}
		load := stores.LoadOfPack(info.pack, 1)
		r.Problem.Set(space, j, load.BoxL())
		r.Problem.Set(weight, j, load.Kg)
		if !load.StandsOnAny(shelves) {
			if tooLarge < 0 {
				tooLarge = shelfRow(rowShelfSize, "packs that stand on none of the shelves", "packs", 0)
			}
			r.Problem.Set(tooLarge, j, 1)
		}
	}
	for _, row := range []int{space, weight} {
		r.Problem.Rows[row].Lazy = true
	}
}

// loadsOf returns the food and the water of a plan as loads, packs of one kind
// together.
func loadsOf(req *ration.Request, p *ration.Plan, container *stores.Container) []stores.Load {
	var loads []stores.Load
	at := map[*foods.Pack]int{}
	for _, line := range p.Packs {
		k := ration.FindPack(req, line.Pack)
		if k == nil {
			continue
		}
		i, ok := at[k]
		if !ok {
			i = len(loads)
			at[k] = i
			loads = append(loads, stores.LoadOfPack(k, 0))
		}
		loads[i].Count += line.Count
	}
	if n := containersFor(p.Totals.WaterL, container); n > 0 {
		loads = append(loads, stores.LoadOfContainer(container, n))
	}
	return loads
}

// containersFor is the whole containers that hold litres.
func containersFor(litres float64, c *stores.Container) int {
	return int(math.Ceil(litres*1000/c.NetML - checkTolerance))
}

// fitOf puts what a plan stores on the shelves of its request.
func (r *Ration) fitOf(p *ration.Plan) *ration.ShelfFit {
	fit := &ration.ShelfFit{Loads: loadsOf(r.Request, p, r.supplies.container)}
	fit.Fit = stores.FitShelves(r.Request.Shelves, fit.Loads)
	fit.Stands = len(fit.Left) == 0
	return fit
}

// makeOnShelves makes the plan, puts it on the shelves and, while something
// finds no place, makes it anew with as much less room as was missing, a few
// times. The bound is that of the plan with all of the room, so that the gap
// holds for the shelves as well. Where it still does not stand, the first plan
// says what finds no place. The first plan gets most of the time asked for, the
// others what is left of it.
func (r *Ration) makeOnShelves(ctx context.Context, progress func(Progress), fitOf func(*Ration, *ration.Plan) *ration.ShelfFit) (*ration.Plan, error) {
	began, all := time.Now(), r.Request.Time
	r.Request.Time = time.Duration(firstShare * float64(all))
	first, err := r.make(ctx, progress)
	r.Request.Time = all
	if err != nil {
		return nil, err
	}
	first.Request = ration.Record(r.Request)
	if first.Totals == nil {
		return first, nil
	}
	first.Shelves = fitOf(r, first)
	boxL, kg := shelfSpace(r.Request.Shelves)
	fit := first.Shelves
	for try := 1; try <= mostReplans && !fit.Stands && ctx.Err() == nil; try++ {
		left := all - time.Since(began)
		if left <= 0 {
			break
		}
		boxL, kg = lessRoom(fit, boxL, kg)
		tight := *r.Request
		tight.Time = left
		again, err := Build(&tight)
		if err != nil {
			return nil, err
		}
		again.capShelves(boxL, kg)
		p := again.inLessRoom(ctx, progress, first)
		if p == nil {
			break
		}
		p.Request = ration.Record(r.Request)
		fit = fitOf(again, p)
		fit.Replanned = try
		if fit.Stands {
			p.Shelves = fit
			return verified(r.Request, p)
		}
	}
	return verified(r.Request, first)
}

// lessRoom returns the room and load less what found no place.
func lessRoom(fit *ration.ShelfFit, boxL, kg float64) (lessBoxL, lessKg float64) {
	var all, left stores.Space
	all = stores.SpaceOf(fit.Loads)
	for _, over := range fit.Left {
		for _, l := range fit.Loads {
			if l.Key == over.Pack {
				l.Count = over.Count
				s := stores.SpaceOf([]stores.Load{l})
				left.BoxL += s.BoxL
				left.Kg += s.Kg
			}
		}
	}
	lessBoxL = math.Min(boxL, all.BoxL) - left.BoxL
	lessKg = kg
	// The load is what is missing only where the boards are near theirs.
	if heavy := 0.9; all.Kg > heavy*kg {
		lessKg = math.Min(kg, all.Kg) - left.Kg
	}
	return lessBoxL, lessKg
}

// capShelves lowers the room and the load of the shelves.
func (r *Ration) capShelves(boxL, kg float64) {
	for i := range r.Problem.Rows {
		switch row := &r.Problem.Rows[i]; row.Name {
		case rowShelfSpace:
			row.Upper = boxL
		case rowShelfLoad:
			row.Upper = kg
		}
	}
}

// inLessRoom makes the plan of a model with less room than the plan first had, nil
// where none is found. What is proven of first holds for it.
func (r *Ration) inLessRoom(ctx context.Context, progress func(Progress), first *ration.Plan) *ration.Plan {
	result := r.solve(ctx, progress, nil)
	var shortfalls []ration.Shortfall
	if result.Status == branch.Infeasible {
		var (
			start []float64
			ok    bool
		)
		if shortfalls, start, ok = r.relaxStoredVitamins(ctx); ok {
			result = r.solve(ctx, progress, start)
		}
	}
	if result.X == nil {
		return nil
	}
	p := r.answer(r.polish(ctx, result.X))
	p.Shortfalls, p.Prices = shortfalls, first.Prices
	p.Status = ration.StatusLimit
	if first.Bound != nil {
		bound := *first.Bound
		gap := ration.GapOf(*p.Value, bound, ration.SmallestStep(r.Request.Least))
		p.Bound, p.Gap = &bound, &gap
		if gap <= r.Request.Within {
			p.Status = ration.StatusOptimal
		}
	}
	if p.Status == ration.StatusLimit {
		p.Stopped = "to find every pack its place"
	}
	p.Notes = append(p.Notes, lessRoomNote)
	return r.complete(p)
}

const lessRoomNote = "made with less room than the shelves have, so that every pack finds a place"

// verified returns the plan, or [ErrUnverified] where it fails the independent
// check of the request.
func verified(req *ration.Request, p *ration.Plan) (*ration.Plan, error) {
	if found := verify.Check(req, p); len(found) > 0 {
		return nil, fmt.Errorf("%w: %s (%d findings)", ration.ErrUnverified, found[0], len(found))
	}
	return p, nil
}
