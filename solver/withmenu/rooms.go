package withmenu

import (
	"context"
	"time"

	"rationwright/solver/model"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// choice chooses the dishes, with the foods that they are made from; none, and why, where
// what is needed cannot all be eaten in dishes, whatever gives, or the time for it ends.
func (d *dining) choice(ctx context.Context) (l *larder, c *chosen, why string, err error) {
	ctx, stop := search.Part(ctx, choicePart)
	defer stop()
	atFirst := besides
	if gave := d.tight.Eatable != nil && len(d.tight.Eatable.Loosened) > 0; gave {
		atFirst = besides[:1] // rather loosen them than eat beside the dishes
	}
	l, c, err = d.chooseAny(ctx, atFirst)
	for _, room := range rooms {
		if err != nil || c != nil || search.OutOfTime(ctx) {
			break
		}
		var ok bool
		if l, c, ok, err = d.loosen(ctx, room); !ok {
			break
		}
	}
	if err == nil && c == nil && d.room == 0 && len(atFirst) < len(besides) && !search.OutOfTime(ctx) {
		l, c, err = d.chooseAny(ctx, besides[len(atFirst):])
	}
	if c == nil {
		why = "what is needed cannot all be eaten in dishes"
		if search.OutOfTime(ctx) {
			why, err = outOfTime, nil
		}
	}
	return l, c, why, err
}

// outOfTime is why there is no plan with dishes where the time for it ended.
const outOfTime = "time limit reached; a longer --time may find one"

// rooms are the parts by which planning rules that gave as little as a plan without dishes
// needs give more, one after the other, where nothing of that can be eaten in dishes.
var rooms = []float64{0.1, 0.25}

// loosen gives the planning rules of those for whom they gave more room, and by them makes
// the plan without dishes again and chooses dishes, both at once. It reports whether there
// is such a plan: where not, there are no dishes either.
func (d *dining) loosen(ctx context.Context, room float64) (l *larder, c *chosen, ok bool, err error) {
	if d.tight.Eatable == nil || len(d.tight.Eatable.Loosened) == 0 {
		return nil, nil, false, nil
	}
	was := d.room
	d.room = room
	m, err := d.model()
	if err != nil {
		return nil, nil, false, err
	}
	var free *ration.Plan
	var fault error
	search.Parallel(2, func(k int) {
		if k == 0 {
			free, fault = d.roomier(ctx, m)
		} else {
			l, c, err = d.chooseAny(ctx, besides)
		}
	})
	if fault != nil || free.Totals == nil {
		d.room = was
		return nil, nil, false, nil
	}
	d.free = free
	return l, c, true, err
}

// roomier is the plan without dishes of m, whose rules give more than those of the tight one.
func (d *dining) roomier(ctx context.Context, m *model.Model) (*ration.Plan, error) {
	req := *m.Request
	req.Slack, req.Audit, req.Effort = 0, false, time.Duration(freeEffort*float64(req.Time))
	req.WarmStart = d.tight.Bought()
	m.Request = &req
	timed, stop := search.Part(ctx, freePart)
	defer stop()
	return plan.MakeModelWith(timed, m, nil, d.tight.Shortfalls, search.Tidied)
}

// chooseAny chooses dishes, with as little of the list beside them as may be.
func (d *dining) chooseAny(ctx context.Context, list []float64) (*larder, *chosen, error) {
	l, err := d.larder(ctx)
	if err != nil {
		return nil, nil, err
	}
	if d.wanted == nil {
		d.wanted = l.in
	}
	for li, in := range d.wanted {
		l.in[li] = l.in[li] || in
	}
	d.wanted = l.in
	for _, beside := range list {
		c, err := d.choose(ctx, l, beside)
		if err != nil || c != nil {
			return l, c, err
		}
		if beside > 0 { // better more sodium than more beside the dishes
			d.sodium = nil
		}
	}
	return l, nil, nil
}
