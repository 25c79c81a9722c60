package web

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"rationwright/solver/search"
)

// TestWordsOfASearch: what a page says of a search follows from what it is for, whether it
// goes on, what is found so far and how it ended; who stopped it reads that, and not the
// words of the machine.
func TestWordsOfASearch(t *testing.T) {
	s := newServer(t, Options{})
	if got := s.state(); got != (state{Version: s.version}) {
		t.Errorf("before any search: %+v", got)
	}
	found := search.Progress{HasValue: true, Value: 102, Bound: 100, Gap: 0.0196}
	ended := make(chan struct{})
	close(ended)
	const stopped = "Stopped before there was an answer."
	for _, c := range []struct {
		name, what, least string
		now               search.Progress
		done              bool
		err               error
		stopped           bool
		line, problem     string
	}{
		{"a plan, nothing yet", "plan", "", search.Progress{}, false, nil, false, "Searching.", ""},
		{"a plan by cost", "plan", "cost", found, false, nil, false, "Best so far 102.00; no plan does better than 100.00: within 2.0 % of the best possible.", ""},
		{"a plan by weight", "plan", "weight", found, false, nil, false, "Best so far 102.00 kg; no plan does better than 100.00 kg: within 2.0 % of the best possible.", ""},
		{"a plan by volume, at its end", "plan", "volume", found, true, nil, false, "Best so far 102.00 L; no plan does better than 100.00 L: within 2.0 % of the best possible.", ""},
		{"a check", "check", "", found, false, nil, false, "Searching.", ""},
		{"a swap", "swap", "", found, false, nil, false, "Looking for the fewest changes.", ""},
		{"a swap at its end", "swap", "", found, true, nil, false, "", ""},
		{"ended by whoever left", "plan", "", search.Progress{}, true, fmt.Errorf("search: %w", context.Canceled), false, "", stopped},
		{"stopped by the button", "plan", "", search.Progress{}, true, errors.New("the time ended"), true, "", stopped},
		{"stopped, and ended by that", "plan", "", search.Progress{}, true, context.Canceled, true, "", stopped},
		{"stopped with an answer", "plan", "", search.Progress{}, true, nil, true, "", ""},
		{"what went wrong", "plan", "", search.Progress{}, true, errors.New("no such food"), false, "", "no such food"},
	} {
		j := &job{what: c.what, done: make(chan struct{}), now: c.now, err: c.err, stopped: c.stopped}
		if c.done {
			j.done = ended
		}
		s.job, s.entered.Options = j, map[string]string{"least": c.least}
		if got := s.state(); got.Line != c.line || got.Problem != c.problem || got.Running == c.done || got.What != c.what {
			t.Errorf("%s: %+v, want %q and %q", c.name, got, c.line, c.problem)
		}
	}
	s.job = nil
}
