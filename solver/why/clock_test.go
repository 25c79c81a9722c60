package why

import (
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// ending is a context that ends when it has been asked so often: a clock that stops in the
// same place each time.
type ending struct {
	context.Context
	left int
}

func (e *ending) Err() error {
	if e.left--; e.left < 0 {
		return context.DeadlineExceeded
	}
	return nil
}

// TestClockStopsPrices: where the time is up what there is so far is told, and no fault: of foods and
// limits none where there was no time at all.
func TestClockStopsPrices(t *testing.T) {
	over, stop := context.WithDeadline(t.Context(), time.Now().Add(-time.Second))
	defer stop()
	w := groceries(t)
	if list, err := w.foods(over, nil); err != nil || len(list) > 0 {
		t.Errorf("foods %+v, %v", list, err)
	}
	w = groceries(t)
	w.lp.SetCost(w.model.Larder[1].Buy[0].Col, 9) // so that there is something to solve
	if list, err := w.limits(over); err != nil || len(list) > 0 {
		t.Errorf("limits %+v, %v", list, err)
	}
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: rationtest.SmallTable(t, rationtest.SmallShop...), Start: "2026-11-25",
		Days: 6, Standard: nutrients.StandardBasic, Least: ration.LeastWeight, IgnoreEatable: true,
	}
	stopped, whole := 0, 0
	for asked := 1; asked < 4000 && whole == 0; asked = asked*3/2 + 1 {
		out, err := ExplainFor(&ending{t.Context(), asked}, req, &ration.Plan{}, WhyRequest{})
		switch {
		case err != nil:
			if !errors.Is(err, ration.ErrNoPlan) {
				t.Errorf("asked %d times: %v", asked, err)
			}
		case slices.Equal(out.Unsettled, []string{"the prices of some foods"}):
			stopped++
		case len(out.Unsettled) > 0 || len(out.Foods) == 0:
			t.Errorf("asked %d times: %d foods, unsettled %q", asked, len(out.Foods), out.Unsettled)
		default:
			whole++
		}
	}
	if stopped == 0 || whole == 0 {
		t.Errorf("stopped among the foods %d times, whole %d times: the test shows nothing", stopped, whole)
	}
}
