package conflict

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// SetAside returns req with everyone unplanned whose orders by a clinician cannot
// all be kept, whatever is bought: the reason names the orders and what they are
// against, and the others can be planned. It is req itself where there is nobody
// such, or nobody else to plan. What is left of ctx bounds it; what is not settled in
// that time stays as it is.
func SetAside(ctx context.Context, req *ration.Request) (*ration.Request, error) {
	ordered := func(p nutrients.Person) bool { return len(p.Orders.List) > 0 && p.Unplanned == nil }
	if !slices.ContainsFunc(req.People, ordered) {
		return req, nil
	}
	ctx, stop := search.Part(ctx, search.AsidePart)
	defer stop()
	out := *req
	out.People = slices.Clone(req.People)
	fed := 0
	for i := range req.People {
		m, err := model.Build(alone(req, i))
		if err != nil {
			return nil, err
		}
		if len(m.Eaters) == 0 {
			continue // refused already
		}
		fed++
		if !ordered(req.People[i]) {
			continue
		}
		if against := ordersAgainst(ctx, m); against != "" {
			out.People[i].Unplanned = &nutrients.Refusal{
				Reason: against,
				Source: "clinician's orders", Verified: "set by the clinician",
			}
			fed--
		}
	}
	if fed == 0 {
		return req, nil
	}
	return &out, nil
}

// alone is the request of one person of a household: the others eat nothing, and
// neither money nor room nor stock is short.
func alone(req *ration.Request, person int) *ration.Request {
	out := *req
	out.IgnoreEatable, out.StockOnly, out.Allowance = true, false, false
	out.Limits, out.Shelves, out.Keep = ration.Limits{}, nil, nil
	out.People = slices.Clone(req.People)
	for i := range out.People {
		if i != person {
			out.People[i].Unplanned = &nutrients.Refusal{Reason: "another person"}
		}
	}
	return &out
}

// ordersAgainst says what the one eater of m cannot be given at once, and what of it
// is ordered; "" where the relaxation has a ration, or none of it is ordered.
func ordersAgainst(ctx context.Context, m *model.Model) string {
	f := newFinder(m)
	set := conflictSet{limits: f.everything(), proven: true}
	if conflicts, ok := f.relaxedFilter(ctx, &set); !ok || !conflicts {
		return ""
	}
	isOrder := func(l conflictLimit) bool { return l.row >= 0 && m.Rows[l.row].Ordered }
	if !slices.ContainsFunc(set.limits, isOrder) {
		return ""
	}
	f.filter(ctx, &set, set.exclusions())
	var orders, others []string
	by := m.Eaters[0].Person.Orders
	for _, l := range set.limits {
		if text := f.words(l).Limit; isOrder(l) {
			orders = append(orders, strings.TrimPrefix(text, fmt.Sprintf("order by %s, %s: ", by.By, by.On)))
		} else if !slices.Contains(others, text) {
			others = append(others, text)
		}
	}
	why := fmt.Sprintf("no food keeps all that is ordered (%s, %s): %s", by.By, by.On, strings.Join(orders, "; "))
	if len(others) > 0 {
		why += "; against " + strings.Join(others, "; ")
	}
	return why + ". Ask " + by.By + " which of it may give way"
}
