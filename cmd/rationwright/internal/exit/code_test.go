package exit

import (
	"errors"
	"fmt"
	"testing"

	"rationwright/solver/ration"
)

// The codes are those of the README.
func TestCodes(t *testing.T) {
	value := 1.0
	for want, p := range map[int]*ration.Plan{
		0: {Status: ration.StatusOptimal, Value: &value},
		1: {Status: "broken"},
		4: {Status: ration.StatusInfeasible, Value: &value},
		6: {Status: ration.StatusLimit},
	} {
		if got := OfPlan(p); got != want {
			t.Errorf("a plan of status %s ends with %d, want %d", p.Status, got, want)
		}
	}
	if got := OfPlan(&ration.Plan{Status: ration.StatusLimit, Refused: []ration.Refused{{Name: "Aud"}}}); got != 4 {
		t.Errorf("everybody refused ends with %d, want 4", got)
	}
	for _, c := range []struct {
		err  error
		want int
	}{
		{nil, 0}, {ration.ErrNoPlan, 6}, {fmt.Errorf("here: %w", ration.ErrNoPlan), 6},
		{ration.ErrNumerical, 1}, {ration.ErrUnverified, 1}, {errors.New("a word"), 3},
	} {
		if got := OfError(c.err); got != c.want {
			t.Errorf("%v ends with %d, want %d", c.err, got, c.want)
		}
	}
}
