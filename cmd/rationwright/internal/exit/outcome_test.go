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
		if got := OfPlan(p).Code; got != want {
			t.Errorf("a plan of status %s ends with %d, want %d", p.Status, got, want)
		}
	}
	if got := OfPlan(&ration.Plan{Status: ration.StatusOptimal, Value: &value}); got.Status != "optimal" || got.Sentence != "" {
		t.Errorf("an optimal plan ends as %q with %q", got.Status, got.Sentence)
	}
	if got := OfPlan(&ration.Plan{Status: ration.StatusLimit, Value: &value}); got.Code != 0 || got.Sentence == "" {
		t.Errorf("a plan that was stopped ends with %d and %q, want 0 and a sentence that says so", got.Code, got.Sentence)
	}
	if got := OfPlan(&ration.Plan{Status: ration.StatusLimit, Refused: []ration.Refused{{Name: "Aud"}}}).Code; got != 4 {
		t.Errorf("everybody refused ends with %d, want 4", got)
	}
	for _, c := range []struct {
		err    error
		want   int
		status string
	}{
		{nil, 0, "optimal"}, {ration.ErrNoPlan, 6, "limit"}, {fmt.Errorf("here: %w", ration.ErrNoPlan), 6, "limit"},
		{ration.ErrNumerical, 1, "numerical"}, {fmt.Errorf("here: %w", ration.ErrNumerical), 1, "numerical"}, {fmt.Errorf("here: %w", ration.ErrUnverified), 1, "numerical"}, {ration.ErrUnverified, 1, "numerical"}, {errors.New("a word"), 3, "unread"},
	} {
		if got := OfError(c.err); got.Code != c.want || got.Status != c.status {
			t.Errorf("%v ends with %d %q, want %d %q", c.err, got.Code, got.Status, c.want, c.status)
		}
	}
	for status, want := range map[string]int{"optimal": 0, "infeasible": 0, "unbounded": 0, "limit": 6, "numerical": 1, "a word": 1} {
		if got := OfSolve(status).Solve; got != want {
			t.Errorf("solve ends %s with %d, want %d", status, got, want)
		}
	}
}

// Every code is explained once in the help, and a status or a code stands for one thing:
// a limit alone has two, with a plan and without.
func TestOneRowForEach(t *testing.T) {
	helped, statuses := map[int]int{}, map[string]int{}
	for _, o := range Outcomes() {
		if o.Help != "" {
			helped[o.Code]++
		}
		statuses[o.Status]++
	}
	for _, code := range []int{0, 1, 2, 3, 4, 5, 6, 130} {
		if helped[code] != 1 {
			t.Errorf("code %d is explained %d times, want once", code, helped[code])
		}
	}
	for status, n := range statuses {
		if n > 1 && status != "" && status != "limit" {
			t.Errorf("status %q stands in %d rows", status, n)
		}
	}
}

// Of many households the worst says how all ended: whoever has no plan is not passed over.
func TestWorst(t *testing.T) {
	for _, c := range []struct {
		codes []int
		want  int
	}{
		{nil, 0}, {[]int{0, 0}, 0}, {[]int{0, 6, 0}, 6}, {[]int{1, 0}, 1}, {[]int{1, 6}, 6}, {[]int{6, 4, 1}, 4}, {[]int{4, 3, 6, 0}, 3},
	} {
		if got := Worst(c.codes...); got != c.want {
			t.Errorf("households that end with %v end with %d together, want %d", c.codes, got, c.want)
		}
	}
}
