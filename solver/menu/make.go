package menu

import (
	"context"
	"errors"
)

// ErrTime says that the time of the question ended before the menu was made.
var ErrTime = errors.New("the time ended before the days were laid out")

// Make spreads the plan of req over its days and holds the menu to its rules by [Hold].
// The error is of the engine, [ErrTime] or [ration.ErrUnverified], never of the plan: what
// does not fit is in the menu's misfits.
func Make(ctx context.Context, req *Request) (*Menu, error) {
	m, err := spread(ctx, req)
	if err != nil && errors.Is(ctx.Err(), context.DeadlineExceeded) {
		err = ErrTime
	}
	return m, err
}

func spread(ctx context.Context, req *Request) (*Menu, error) {
	h := newHousehold(req)
	list := h.candidates()
	chosen, err := h.choose(ctx, list)
	if err != nil {
		return nil, err
	}
	l := h.lay(chosen)
	h.chill(l, list)
	for _, e := range h.eaters {
		if e.infant {
			continue
		}
		if err := h.seat(ctx, l, e, chosen); err != nil {
			return nil, err
		}
	}
	h.swap(l)
	if err := h.host(ctx, l); err != nil {
		return nil, err
	}
	if err := h.snacks(ctx, l); err != nil {
		return nil, err
	}
	coldSnacks(h, l)
	servings, err := h.share(ctx, l)
	if err != nil {
		return nil, err
	}
	for range repairs {
		other := l.withOwnInstead()
		repaired := h.repair(other, servings)
		starch := h.addStarch(other, servings)
		if !drawIn(h, other, servings) && !starch && !repaired {
			break
		}
		anew, err := h.share(ctx, other)
		if err != nil { // what is shared out already stands
			break
		}
		l, servings = other, anew
	}
	m := written(h, req, l, servings)
	return m, Hold(m, req.Plan, req.Of, req.Book)
}
