package plan

import (
	"context"
	"math"
	"time"

	"rationwright/foods/stores"
	"rationwright/solver/answer"
	"rationwright/solver/elastic"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/search"
)

// mostReplans is how often a plan whose packs find no place is made anew.
const mostReplans = 3

// fitOf puts what a plan stores on the shelves of its request.
func fitOf(m *model.Model, p *ration.Plan) *ration.ShelfFit {
	fit := &ration.ShelfFit{Loads: rules.LoadsOf(m.Request, p, m.Supplies.Container)}
	fit.Fit = stores.FitShelves(m.Request.Shelves, fit.Loads)
	fit.Stands = len(fit.Left) == 0
	return fit
}

// makeOnShelves makes the plan, puts it on the shelves and, while something
// finds no place, makes it anew with as much less room as was missing, a few
// times. The bound is that of the plan with all of the room, so that the gap
// holds for the shelves as well. Where it still does not stand, the first plan
// says what finds no place. The first plan gets most of the time asked for, the
// others what is left of it.
func makeOnShelves(ctx context.Context, m *model.Model, progress func(search.Progress), fitOf func(*model.Model, *ration.Plan) *ration.ShelfFit) (*ration.Plan, error) {
	all := m.Request.Time
	timed, stop := search.Part(ctx, search.FirstPart)
	first, err := MakeModel(timed, m.WithEffort(time.Duration(search.FirstPart*float64(all))), progress)
	stop()
	if err != nil {
		return nil, err
	}
	if first.Totals == nil {
		return first, nil
	}
	first.Shelves = fitOf(m, first)
	boxL, kg := rules.ShelfSpace(m.Request.Shelves)
	fit := first.Shelves
	for try := 1; try <= mostReplans && !fit.Stands && ctx.Err() == nil; try++ {
		boxL, kg = lessRoom(fit, boxL, kg)
		tight := *m.Request
		tight.Effort = time.Duration((1 - search.FirstPart) / mostReplans * float64(all))
		again, err := model.BuildFor(&tight, first)
		if err != nil {
			return nil, err
		}
		again = model.WithShelves(again, boxL, kg)
		timed, stop := search.Part(ctx, search.SearchPart/float64(mostReplans+1-try))
		p := inLessRoom(timed, again, progress, first)
		stop()
		if p == nil {
			break
		}
		fit = fitOf(again, p)
		fit.Replanned = try
		if fit.Stands {
			p.Shelves = fit
			return answer.Verified(m.Request, p)
		}
	}
	return answer.Verified(m.Request, first)
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

// inLessRoom makes the plan of a model with less room than the plan first had, nil
// where none is found. What is proven of first holds for it.
func inLessRoom(ctx context.Context, m *model.Model, progress func(search.Progress), first *ration.Plan) *ration.Plan {
	result := search.Solve(ctx, m, progress, nil)
	var shortfalls []ration.Shortfall
	if result.Status == search.Infeasible {
		if eased, short, start := elastic.EaseStoredVitamins(ctx, m); eased != nil {
			m, shortfalls = eased, short
			result = search.Solve(ctx, m, progress, start)
		}
	}
	if result.X == nil {
		return nil
	}
	p := answer.Write(m, search.Tidied(ctx, m, result.X))
	p.Shortfalls, p.Prices = shortfalls, first.Prices
	bound := math.Inf(-1)
	if first.Bound != nil {
		bound = *first.Bound
	}
	p.Judge(bound, m.Request.Within)
	if p.Status == ration.StatusLimit {
		p.Stopped = "to find every pack its place"
	}
	p.Notes = append(p.Notes, ration.LessRoomNote)
	return answer.Complete(m, p)
}
