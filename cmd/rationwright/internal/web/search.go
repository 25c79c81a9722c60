package web

import (
	"context"
	"errors"
	"math"
	"net/http"
	"strconv"
	"time"

	"rationwright/solver/menu"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/withmenu"
)

// Times of a search for a plan.
const (
	firstEffort = 200 * time.Millisecond // what the work of the first plan is counted from
	shownGap    = 0.01                   // of what is asked of a plan that is kept; also how near its best a swap is looked for
	furtherGap  = 0.002                  // where going on for a better one ends
)

// firstTime is the safety stop of the first plan on a busy machine.
var firstTime = 4 * time.Second

// stages are how long the search goes on, each from the plan shown, while that is
// looked at.
var stages = []time.Duration{3 * time.Second, 20 * time.Second}

// dishStages are how long dishes and packs are chosen together, each from the start.
var dishStages = []time.Duration{20 * time.Second, 2 * time.Minute}

// makePlan searches for a plan of what was entered.
func (s changes) makePlan(r *http.Request) (string, error) {
	req, err := s.request()
	if err != nil {
		return "/", err
	}
	if req.WithMenu && len(req.Shelves) > 0 {
		return "/wishes", errors.New("dishes cannot be chosen together with the packs where shelves are given: take away the tick for a menu, or the shelves")
	}
	s.start("plan", func(ctx context.Context, j *job) error { return s.search(ctx, j, req) })
	return "/plan", nil
}

// take puts p, a plan of req that was found, in the place of the one shown.
func (s *Server) take(p *ration.Plan, req *ration.Request, undoable bool) (*made, error) {
	p.Request.Options["time"], p.Request.Options["within"] = jobTime.String(), strconv.FormatFloat(shownGap, 'g', -1, 64) // for what is asked of the plan later
	judge(p)
	m, err := s.show(p, req)
	if err == nil {
		s.replace(m, undoable)
	}
	return m, err
}

// judge calls a plan of the page proven where it is within the gap that its request asks
// for: the search goes on beyond that, and would call it stopped.
func judge(p *ration.Plan) {
	if proof := p.Proof(); p.Status == ration.StatusLimit && proof != nil && *proof <= shownGap {
		p.Status, p.Stopped = ration.StatusOptimal, ""
	}
}

// search makes a first plan quickly and shows it, then goes on for a better one.
func (s *Server) search(ctx context.Context, j *job, req *ration.Request) error {
	quick := *req
	quick.Time, quick.Effort, quick.Slack, quick.WarmStart = firstTime, firstEffort, 0, s.bought()
	p, err := s.makeIn(ctx, j, &quick)
	for _, longer := range stages { // a slow machine, or a household that is hard to feed
		if !errors.Is(err, ration.ErrNoPlan) || ctx.Err() != nil {
			break
		}
		quick.Time, quick.Effort = longer, 0
		p, err = s.makeIn(ctx, j, &quick)
	}
	if err != nil {
		return err
	}
	shown, err := s.take(p, req, true)
	if err != nil {
		return err
	}
	s.stored()
	j.show()
	return s.goOn(ctx, j, req, shown)
}

// goOn goes on from the plan shown for one that is better.
func (s *Server) goOn(ctx context.Context, j *job, req *ration.Request, shown *made) error {
	if shown.plan.Totals == nil {
		return s.explain(ctx, j, req, shown)
	}
	if req.WithMenu {
		return s.searchDishes(ctx, j, req, shown)
	}
	for _, further := range stages {
		first := shown.plan.First != nil || req.Slack == 0
		if gap := shown.plan.Proof(); first && gap != nil && *gap <= furtherGap || ctx.Err() != nil {
			return nil
		}
		long := *req
		long.Time, long.Within, long.WarmStart = further, furtherGap, shown.plan.Bought()
		p, err := s.makeIn(ctx, j, &long)
		if err != nil || p.Value == nil || !s.shows(shown) {
			return nil // the plan shown stands
		}
		if better(p, shown.plan, req.Slack) {
			keepFirst(p, shown.plan)
			keepBound(p, shown.plan)
			if shown, err = s.take(p, req, false); err != nil {
				return err
			}
		}
	}
	return nil
}

// better reports whether p takes the place of the plan shown: it is no worse by the
// first aim, or it is the first that people eat gladly and costs no more than the slack.
func better(p, shown *ration.Plan, slack float64) bool {
	if p.First != nil && shown.First == nil {
		return *p.Value <= *shown.Value*(1+slack)
	}
	return best(p) <= best(shown)
}

// keepBound keeps what was proven of the plan shown where that is more: it holds for p,
// which was asked for with the same words, unless something had to give in one of them.
func keepBound(p, shown *ration.Plan) {
	gave := func(p *ration.Plan) bool {
		return len(p.Shortfalls) > 0 || p.Eatable != nil && len(p.Eatable.Loosened) > 0
	}
	if gave(p) || gave(shown) || shown.Bound == nil || p.Bound != nil && *p.Bound >= *shown.Bound || *shown.Bound > best(p) {
		return
	}
	bound := *shown.Bound
	if p.First != nil {
		gap := ration.GapOf(p.First.Value, bound, ration.SmallestStep(p.Least))
		p.First.Gap = &gap
	}
	status := p.Status
	p.Judge(bound, shownGap)
	if p.First != nil {
		p.Status = status
	}
}

// keepFirst keeps the plan shown as the best of the first aim where the search behind p, short
// of time, ended short of it: p is within the slack of that too.
func keepFirst(p, shown *ration.Plan) {
	if p.First == nil || shown.First != nil || shown.Eatable == nil || *shown.Value >= p.First.Value {
		return
	}
	value, of, step := *shown.Value, shown.Eatable, ration.SmallestStep(p.Least)
	p.First = &ration.First{Value: value, Products: of.Products, MostSizes: of.MostSizes, Crumbs: of.Crumbs}
	price := (*p.Value - value) / max(math.Abs(value), step)
	p.Eatable.Price = &price
	if p.Bound != nil {
		gap := ration.GapOf(value, *p.Bound, step)
		p.First.Gap = &gap
	}
}

// best is the best value found by the first aim.
func best(p *ration.Plan) float64 {
	if p.First != nil {
		return p.First.Value
	}
	return *p.Value
}

// bought is the packs of the plan shown, from which the search for the next begins; nil
// for none.
func (s *Server) bought() map[string]int {
	m, err := s.current()
	if err != nil {
		return nil
	}
	return m.plan.Bought()
}

// shows reports whether m is still the plan shown.
func (s *Server) shows(m *made) bool { return s.shown() == m }

// makeIn makes a plan in the time of its request.
func (s *Server) makeIn(ctx context.Context, j *job, req *ration.Request) (*ration.Plan, error) {
	ctx, stop := context.WithTimeout(ctx, req.Time)
	defer stop()
	return plan.Make(ctx, req, j.progress)
}

// explain looks longer for why nothing fits and for ways out, or for the plan that a
// short search missed.
func (s *Server) explain(ctx context.Context, j *job, req *ration.Request, shown *made) error {
	for _, further := range stages {
		if len(shown.plan.WaysOut) > 0 || len(shown.plan.People) == 0 && len(shown.plan.Refused) > 0 {
			return nil
		}
		long := *req
		long.Time = further
		p, err := s.makeIn(ctx, j, &long)
		if err != nil || ctx.Err() != nil || !s.shows(shown) {
			return nil // what is shown stands
		}
		if shown, err = s.take(p, req, false); err != nil || p.Totals != nil {
			return err
		}
	}
	return nil
}

// searchDishes chooses dishes and packs together while the plan without is shown.
// Where there is no such plan, that one stands, and says so.
func (s *Server) searchDishes(ctx context.Context, j *job, req *ration.Request, shown *made) error {
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
			_, err := s.take(p, req, false)
			return err
		}
	}
	if last != nil && last.Totals != nil {
		_, err := s.take(last, req, false)
		return err
	}
	return nil
}
