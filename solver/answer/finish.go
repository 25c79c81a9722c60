package answer

import (
	"context"
	"fmt"

	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/verify"
)

// AdviseSupplements says what to do about vitamins that the plan leaves short.
func AdviseSupplements(shortfalls []ration.Shortfall) []string {
	if len(shortfalls) == 0 {
		return nil
	}
	return []string{"vitamins A, D and B12 are stored in the body, so the plan is made although it is short of them; " +
		"ask a pharmacist or a clinician about a supplement"}
}

// TidyAnswer writes the plan at x without crumbs, or as x is where that would not
// pass the check.
func TidyAnswer(ctx context.Context, m *model.Model, x []float64, shortfalls []ration.Shortfall) *ration.Plan {
	p := Write(m, search.WithoutCrumbs(ctx, m, x))
	p.Shortfalls = shortfalls
	if len(verify.Check(m.Request, p)) > 0 {
		return Write(m, x)
	}
	return p
}

// Finish writes and checks the plan at x, a point no worse than the result's, or at
// the same packs shared out without crumbs.
func Finish(ctx context.Context, m *model.Model, x []float64, result search.Result, shortfalls []ration.Shortfall) (*ration.Plan, error) {
	var p *ration.Plan
	if m.Request.Terse {
		p = Write(m, x)
	} else {
		p = TidyAnswer(ctx, m, x, shortfalls)
	}
	shortfalls = Gets(p, shortfalls)
	p.Shortfalls = shortfalls
	p.Notes = append(p.Notes, AdviseSupplements(shortfalls)...)
	p.Judge(result.Bound, m.Request.Within)
	switch {
	case p.Status != ration.StatusLimit:
	case search.Interrupted(ctx):
		p.Stopped = "interrupted; another run may differ"
	case result.ByClock:
		p.Stopped = "time limit reached; another run may differ"
	}
	p.Prices = ShadowPrices(m, result)
	p.Notes = append(p.Notes, withoutSupplements(m, result)...)
	Complete(m, p)
	if _, err := Verified(m.Request, p); err != nil {
		return nil, err
	}
	if m.Request.Audit {
		audit, err := audit(ctx, m, result)
		if err != nil {
			return nil, err
		}
		p.Audit = audit
	}
	return p, nil
}

// Complete adds what every plan carries.
func Complete(m *model.Model, p *ration.Plan) *ration.Plan {
	p.Cautions = Cautions(m, p)
	p.Request = ration.Record(m.Request)
	return p
}

// Verified returns the plan, or [ErrUnverified] where it fails the independent
// check of the request.
func Verified(req *ration.Request, p *ration.Plan) (*ration.Plan, error) {
	if found := verify.Check(req, p); len(found) > 0 {
		return nil, fmt.Errorf("%w: %s (%d findings)", ration.ErrUnverified, found[0], len(found))
	}
	return p, nil
}

// Gets replaces the amounts of shortfalls, which are what the plan must reach, by
// what the people of p get, and leaves out what is reached after all.
func Gets(p *ration.Plan, shortfalls []ration.Shortfall) []ration.Shortfall {
	var list []ration.Shortfall
	for _, s := range shortfalls {
		if n := p.NeedOf(s.Person, s.Nutrient); n != nil {
			s.Amount = n.Amount
		}
		if s.Amount < s.Target*(1-search.ShortTolerance) {
			list = append(list, s)
		}
	}
	return list
}
