package web

import (
	"context"
	"errors"
	"net/http"
	"time"

	"rationwright/solver/menu"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/withmenu"
)

// Times of a search for a plan.
const (
	firstTime  = 700 * time.Millisecond // until the first plan is shown
	furtherGap = 0.002                  // where going on for a better one ends
)

// stages are how long the search goes on, each from the start, while the best plan so
// far is looked at.
var stages = []time.Duration{3 * time.Second, 20 * time.Second}

// dishStages are how long dishes and packs are chosen together, each from the start.
var dishStages = []time.Duration{20 * time.Second, 2 * time.Minute}

// makePlan searches for a plan of what was entered.
func (s changes) makePlan(r *http.Request) (string, error) {
	s.mu.Lock()
	req, err := s.entered.request()
	s.mu.Unlock()
	if err != nil {
		return "/", err
	}
	if req.WithMenu && len(req.Shelves) > 0 {
		return "/wishes", errors.New("dishes cannot be chosen together with the packs where shelves are given: take away the tick for a menu, or the shelves")
	}
	s.start("plan", func(ctx context.Context, j *job) error { return s.search(ctx, j, req) })
	return "/plan", nil
}

// taking puts a plan that was found in the place of the one shown.
type taking func(p *ration.Plan, err error, undoable bool) (*made, error)

// search makes a first plan quickly and shows it, then goes on for a better one.
func (s *Server) search(ctx context.Context, j *job, req *ration.Request) error {
	take := func(p *ration.Plan, err error, undoable bool) (*made, error) {
		if err != nil {
			return nil, err
		}
		p.Request.Options["time"], p.Request.Options["within"] = jobTime.String(), "0.01" // for what is asked of the plan later
		m, err := s.show(p, req)
		if err == nil {
			s.replace(m, undoable)
		}
		return m, err
	}
	quick := *req
	quick.Time = firstTime
	p, err := s.makeIn(ctx, j, &quick)
	for _, longer := range stages { // a slow machine, or a household that is hard to feed
		if !errors.Is(err, ration.ErrNoPlan) || ctx.Err() != nil {
			break
		}
		quick.Time = longer
		p, err = s.makeIn(ctx, j, &quick)
	}
	shown, err := take(p, err, true)
	if err != nil {
		return err
	}
	j.show()
	if req.WithMenu {
		return s.searchDishes(ctx, j, req, shown, take)
	}
	for _, further := range stages {
		if shown.plan.Totals == nil || shown.plan.Gap == nil || *shown.plan.Gap <= furtherGap || ctx.Err() != nil {
			return nil
		}
		long := *req
		long.Time, long.Within = further, furtherGap
		p, err := s.makeIn(ctx, j, &long)
		if err != nil || p.Value == nil || !s.shows(shown) {
			return nil // the plan shown stands
		}
		if *p.Value <= *shown.plan.Value {
			if shown, err = take(p, nil, false); err != nil {
				return err
			}
		}
	}
	return nil
}

// shows reports whether m is still the plan shown.
func (s *Server) shows(m *made) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.made == m
}

// makeIn makes a plan in the time of its request.
func (s *Server) makeIn(ctx context.Context, j *job, req *ration.Request) (*ration.Plan, error) {
	ctx, stop := context.WithTimeout(ctx, req.Time)
	defer stop()
	return plan.Make(ctx, req, j.progress)
}

// searchDishes chooses dishes and packs together while the plan without is shown.
// Where there is no such plan, that one stands, and says so.
func (s *Server) searchDishes(ctx context.Context, j *job, req *ration.Request, shown *made, take taking) error {
	book, err := menu.BookOf(req)
	if err != nil {
		return err
	}
	var last *ration.Plan
	for _, further := range dishStages {
		long := *req
		long.Time = further
		timed, stop := context.WithTimeout(ctx, further)
		p, err := withmenu.Make(timed, &long, book, j.progress)
		stop()
		if err != nil || ctx.Err() != nil || !s.shows(shown) {
			return nil // the plan shown stands
		}
		if last = p; p.Menu != nil {
			_, err := take(p, nil, false)
			return err
		}
	}
	if last != nil && last.Totals != nil {
		_, err := take(last, nil, false)
		return err
	}
	return nil
}
