package web

import (
	"context"
	"errors"
	"maps"
	"net/http"
	"slices"
	"strconv"

	"rationwright/solver/plan"
	"rationwright/solver/ration"
)

// openFile takes up a plan that was saved before.
func (s changes) openFile(r *http.Request) (string, error) {
	text, _, err := upload(r)
	if err != nil || text == nil {
		return "/save", errors.Join(err, errors.New("no file was chosen"))
	}
	m, err := s.readPlan(text)
	if err != nil {
		return "/save", err
	}
	s.stopJob()
	s.replace(m, true)
	s.locked(func() {
		s.entered.RequestRecord, s.entered.ShelfRows = *m.plan.Request, nil
		s.entered.Household = fitted(m.plan.Request.Household, personColumns)
	})
	return "/plan", nil
}

// keepFood keeps a food in later changes, or lets it go again.
func (s changes) keepFood(r *http.Request) (string, error) {
	food := r.PostFormValue("food")
	s.mu.Lock()
	defer s.mu.Unlock()
	if k := slices.Index(s.entered.Kept, food); k >= 0 {
		s.entered.Kept = slices.Delete(slices.Clone(s.entered.Kept), k, k+1) // whoever looks at the list has it as it was
	} else if s.made != nil && slices.ContainsFunc(s.made.plan.Packs, func(p ration.PlanPack) bool { return p.Food == food }) {
		s.entered.Kept = append(s.entered.Kept, food)
	}
	return "/plan", nil
}

// undo shows the plan before this one.
func (s changes) undo(*http.Request) (string, error) {
	s.stopJob()
	s.mu.Lock()
	defer s.mu.Unlock()
	if n := len(s.before); n > 0 {
		s.made, s.before = s.before[n-1], s.before[:n-1]
		s.entered.Without = slices.Clone(s.made.plan.Request.Without)
	}
	return "/plan", nil
}

// takeWayOut enters what a way out changes and shows the plan that was found with it;
// the search goes on from there.
func (s changes) takeWayOut(r *http.Request) (string, error) {
	n, err := strconv.Atoi(r.PostFormValue("way"))
	var ways []ration.WayOut
	if m := s.shown(); m != nil {
		ways = m.plan.WaysOut
	}
	if err != nil || n < 0 || n >= len(ways) || ways[n].Request == nil {
		return "/plan", nil
	}
	s.stopJob()
	req := ways[n].Request
	p, err := plan.OfWayOut(&ways[n])
	if err != nil {
		return "/plan", err
	}
	shown, err := s.take(p, req, true)
	if err != nil {
		return "/plan", err
	}
	s.mu.Lock()
	next := *ration.Record(req)
	next.Demo, next.Household = s.entered.Demo, fitted(next.Household, personColumns)
	s.entered.RequestRecord = next
	s.mu.Unlock()
	s.start("plan", func(ctx context.Context, j *job) error {
		j.show()
		return s.goOn(ctx, j, req, shown)
	})
	return "/plan", nil
}

// choose shows one of the plans that were compared.
func (s changes) choose(r *http.Request) (string, error) {
	var c *comparedPlans
	s.locked(func() { c = s.compared })
	n, err := strconv.Atoi(r.PostFormValue("plan"))
	if c == nil || err != nil || n < 0 || n >= len(c.found.Plans) {
		return "/compare", nil
	}
	p := c.found.Plans[n]
	req, err := p.Request.Load()
	if err != nil {
		return "/compare", err
	}
	m, err := s.show(p, req)
	if err != nil {
		return "/compare", err
	}
	s.stopJob()
	s.replace(m, true)
	s.locked(func() {
		s.entered.Options = maps.Clone(s.entered.Options)
		s.entered.Options["least"] = string(p.Least)
	})
	return "/plan", nil
}
