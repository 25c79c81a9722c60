package web

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"sync"
	"time"

	"rationwright/cmd/rationwright/internal/page"
	"rationwright/cmd/rationwright/internal/report"
	"rationwright/solver/check"
	"rationwright/solver/plan"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/swap"
)

// Times of a search.
const (
	checkEffort = 2 * time.Second        // what the work of a stock's completion is counted from
	waitTime    = 900 * time.Millisecond // how long a change waits for its answer before it shows progress
	leftTime    = 15 * time.Second       // without any request, the browser is taken to have left
)

// jobTime is that of any search other than for a plan.
var jobTime = 10 * time.Second

// job is one search. There is one at a time.
type job struct {
	what  string // "plan", "swap", "check" or "compare"
	stop  context.CancelFunc
	first chan struct{} // closed when there is something to show
	done  chan struct{} // closed at the end
	once  sync.Once

	mu       sync.Mutex
	now      search.Progress
	err      error
	stopped  bool
	showable bool
}

// progress takes what the search says of itself.
func (j *job) progress(p search.Progress) {
	j.mu.Lock()
	j.now = p
	j.mu.Unlock()
}

// show marks that there is something to show.
func (j *job) show() {
	j.once.Do(func() {
		j.mu.Lock()
		j.showable = true
		j.mu.Unlock()
		close(j.first)
	})
}

func (j *job) running() bool {
	select {
	case <-j.done:
		return false
	default:
		return true
	}
}

// start ends the search under way, starts another, and waits a little for its first
// answer.
func (s *Server) start(what string, do func(ctx context.Context, j *job) error) {
	s.stopJob()
	ctx, stop := context.WithCancel(context.Background())
	j := &job{what: what, stop: stop, first: make(chan struct{}), done: make(chan struct{})}
	s.locked(func() { s.job, s.lastSeen = j, time.Now() })
	go func() {
		defer close(j.done)
		defer j.show()
		defer stop()
		err := do(ctx, j)
		j.mu.Lock()
		j.err = err
		j.mu.Unlock()
		s.stored()
	}()
	select {
	case <-j.first:
	case <-time.After(waitTime):
	}
}

// stopJob ends the search under way and waits for its end.
func (s *Server) stopJob() {
	if j := s.lastJob(); j != nil {
		j.stop()
		<-j.done
	}
}

// wasSeen notes that the browser is there.
func (s *Server) wasSeen() {
	s.locked(func() { s.lastSeen = time.Now() })
}

// watch ends a search when the browser has left.
func (s *Server) watch(ctx context.Context) {
	tick := time.NewTicker(time.Second)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
			s.mu.Lock()
			j, left := s.job, time.Since(s.lastSeen) > leftTime
			s.mu.Unlock()
			if j != nil && left && j.running() {
				j.stop()
			}
		}
	}
}

// show works out what is shown of a plan.
func (s *Server) show(p *ration.Plan, req *ration.Request) (*made, error) {
	r, err := page.New(p, req, s.opt.Units)
	if err != nil {
		return nil, err
	}
	return &made{plan: p, req: req, report: r}, nil
}

// replace puts a plan in the place of the one shown; the old one can be taken back.
func (s *Server) replace(m *made, undoable bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if undoable && s.made != nil {
		s.before = append(s.before, s.made)
		s.before = s.before[max(0, len(s.before)-mostUndo):]
	}
	s.made = m
	s.version++
}

// mostUndo is how many plans can be taken back.
const mostUndo = 20

// errNoPlan asks for a plan first.
var errNoPlan = errors.New("there is no plan yet: enter the household and make one")

// current is the plan shown.
func (s *Server) current() (*made, error) {
	m := s.shown()
	if m == nil || m.plan.Totals == nil {
		return nil, errNoPlan
	}
	return m, nil
}

// strike takes a food out of the plan with the fewest changes.
func (s changes) strike(r *http.Request) (string, error) {
	m, err := s.current()
	if err != nil {
		return "/plan", err
	}
	food := r.PostFormValue("food")
	s.stopJob() // its better plan would not have this change
	kept := slices.DeleteFunc(slices.Clone(s.said().Kept), func(k string) bool { return k == food })
	change := swap.SwapRequest{Drop: []string{food}, Spread: swap.DefaultSpread, Keep: kept}
	s.start("swap", func(ctx context.Context, j *job) error {
		shown, quick, err := s.swapped(ctx, j, m, change, swapTime, nil)
		if err != nil {
			return err
		}
		if shown == nil {
			return fmt.Errorf("no ration keeps the balance without %s, so it stays", food)
		}
		s.replace(shown, true)
		s.locked(func() { s.entered.Without = append(s.entered.Without, food) })
		s.stored()
		j.show()
		next, found, err := s.swapped(ctx, j, m, change, jobTime, shown)
		if err == nil && next != nil && ctx.Err() == nil && s.shows(shown) && (found.Changes < quick.Changes || found.Changes == quick.Changes && best(found.Plan) < best(quick.Plan)) {
			s.replace(next, false)
		}
		return nil // what is shown stands
	})
	return "/plan", nil
}

// swapTime is what the work of the first answer to a swap is counted from.
const swapTime = time.Second

// swapped makes a swap of m, its work counted from effort, and keeps what is proven of a
// shorter one where that is there; nil where no plan is left.
func (s *Server) swapped(ctx context.Context, j *job, m *made, change swap.SwapRequest, effort time.Duration, shorter *made) (*made, *swap.Swap, error) {
	req := *m.req
	req.Time, req.Within = effort, shownGap
	found, err := swap.MakeFor(ctx, &req, m.plan, change, j.progress)
	if err != nil || found.Plan.Totals == nil {
		return nil, found, err
	}
	if shorter != nil {
		keepBound(found.Plan, shorter.plan)
	}
	found.Plan.Request.Options["time"] = jobTime.String()
	load, err := found.Plan.Request.Load()
	if err != nil {
		return nil, nil, err
	}
	next, err := s.show(found.Plan, load)
	if err == nil {
		next.swap = report.Swapped(found, s.opt.Units)
	}
	return next, found, err
}

// checkStock judges the stock that was entered.
func (s changes) checkStock(*http.Request) (string, error) {
	req, err := s.request()
	if err != nil {
		return "/stock", err
	}
	if len(req.Stock) == 0 {
		return "/stock", errors.New("the stock list is empty: add what is in store first")
	}
	req.Effort, req.Time = checkEffort, jobTime
	s.start("check", func(ctx context.Context, j *job) error {
		ctx, stop := context.WithTimeout(ctx, jobTime)
		defer stop()
		found, err := check.Check(ctx, req, j.progress)
		if err != nil {
			return err
		}
		laid := report.Check(found, s.opt.Units)
		s.locked(func() { s.check, s.version = laid, s.version+1 })
		return nil
	})
	return "/stock", nil
}

// compare sets the plans of least cost, weight and volume side by side.
func (s changes) compare(*http.Request) (string, error) {
	req, err := s.request()
	if err != nil {
		return "/compare", err
	}
	req.Time = compareTime
	s.start("compare", func(ctx context.Context, j *job) error {
		ctx, stop := context.WithTimeout(ctx, compareTime)
		defer stop()
		found, err := plan.Compare(ctx, req, true, j.progress)
		if err != nil {
			return err
		}
		put := func(c *comparedPlans) {
			c.found, c.sheet = found, report.Compare(found, s.opt.Units)
			s.locked(func() { s.compared, s.version = c, s.version+1 })
		}
		put(&comparedPlans{})
		j.show() // the plans between them are still to come
		if err := found.AddFrontier(ctx, req, ration.LeastCost, ration.LeastWeight); err != nil || found.Frontier == nil {
			return err
		}
		drawn, err := page.FrontierOf(found)
		if err != nil {
			return err
		}
		put(&comparedPlans{drawn: drawn})
		return nil
	})
	return "/compare", nil
}

// compareTime is for the three plans that are compared and those between them.
const compareTime = 20 * time.Second

// stop ends the search under way and keeps what it has.
func (s changes) stop(r *http.Request) (string, error) {
	j := s.lastJob()
	if j == nil {
		return "/plan", nil
	}
	j.mu.Lock()
	j.stopped = true
	j.mu.Unlock()
	s.stopJob()
	return pageOf(j.what), nil
}

// pageOf is where the answer of a search stands.
func pageOf(what string) string {
	return cmp.Or(map[string]string{"check": "/stock", "compare": "/compare"}[what], "/plan")
}
