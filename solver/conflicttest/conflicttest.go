// Package conflicttest holds closest rations and ways out to what they say, for tests.
package conflicttest

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/elastic"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/verify"
)

// CheckClosest holds the closest ration to the independent check, but for what it
// says it lacks, and returns 1 when there was one.
func CheckClosest(t *testing.T, where string, m *model.Model) int {
	t.Helper()
	near := elastic.Closest(context.Background(), m, elastic.IsNeed)
	if near == nil {
		return 0
	}
	p := answer.Write(m, near)
	said := elastic.WriteClosest(m, near)
	p.Shortfalls = said.Shortfalls
	for _, o := range said.Passed {
		if !mayBePassed(m, o) {
			t.Errorf("%s: the closest ration passes %v", where, o)
		}
	}
	byNeed := *m.Request // the closest ration is one by needs and safety
	byNeed.IgnoreEatable = true
	for _, v := range verify.CheckPassing(&byNeed, p, said.Passed) {
		t.Errorf("%s: closest ration: %v", where, v)
	}
	return 1
}

// mayBePassed reports whether a ceiling is one that the closest ration may pass:
// a share of the energy, or sodium's against long-term illness, where no one's
// condition sets it.
func mayBePassed(m *model.Model, o ration.Over) bool {
	for _, e := range m.Eaters {
		if e.Person.Name != o.Person {
			continue
		}
		for _, s := range e.Needs.Shares {
			if s.Nutrient.Name() == o.Nutrient && s.Max != nil {
				return true
			}
		}
		return o.Nutrient == nutrients.Sodium.Name() && !slices.Contains(e.Person.Conditions, nutrients.LowSodium)
	}
	return false
}

// CheckWayOut holds one way out to what it says: a plan of the changed request
// that passes the check, made under no other safety than the request's own.
func CheckWayOut(t *testing.T, where string, req *ration.Request, w ration.WayOut) {
	t.Helper()
	if !w.Tested || w.Request == nil || w.Plan == nil {
		t.Errorf("%s: %q is not tested", where, w.Change)
		return
	}
	for _, v := range verify.Check(w.Request, w.Plan) {
		t.Errorf("%s: %q: %v", where, w.Change, v)
	}
	if len(w.Request.People) != len(req.People) {
		t.Errorf("%s: %q leaves people out", where, w.Change)
	}
	for i, p := range w.Request.People {
		if fmt.Sprint(p.Allergies, p.Conditions, p.AgeMonths, p.State) != fmt.Sprint(req.People[i].Allergies, req.People[i].Conditions, req.People[i].AgeMonths, req.People[i].State) {
			t.Errorf("%s: %q changes who %s is", where, w.Change, p.Name)
		}
	}
}
