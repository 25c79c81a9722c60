package ration_test

import (
	"errors"
	"strings"
	"testing"

	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// A request at each limit is built; one more is refused with the way out.
func TestSizeOfARequest(t *testing.T) {
	all := rationtest.Table(t)
	for _, c := range []struct {
		people, foods int
		says          string // "" where it is built
	}{
		{ration.MostPeople + 1, len(all.Foods), "count"},
		{1, ration.MostFoods + 1, "foods"},
		{ration.MostPeople, ration.MostPortions/ration.MostPeople + 1, "times"},
		{ration.MostPortions / ration.MostFoods, ration.MostFoods, ""},
	} {
		req := &ration.Request{People: rationtest.Crowd(c.people), Table: rationtest.MoreFoods(all, c.foods), Start: "2026-11-25"}
		_, err := model.Build(req)
		switch {
		case c.says == "" && err != nil:
			t.Errorf("%d people, %d foods: %v", c.people, c.foods, err)
		case c.says != "" && (!errors.Is(err, ration.ErrTooLarge) || !strings.Contains(err.Error(), c.says)):
			t.Errorf("%d people, %d foods: %v, want a refusal that says %q", c.people, c.foods, err, c.says)
		}
	}
}
