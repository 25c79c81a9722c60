package aim

import (
	"context"
	"testing"

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

// sharingAsks is more often than it is asked while packs are shared out, and fewer than
// until the first move.
const sharingAsks = 60

// Where the clock stops the second aim before its first move, the packs of the best found
// are shared out anew at least: fewer amounts are under a portion, at no more of the first
// aim than the slack.
func TestPortionsBeforeTheClockStops(t *testing.T) {
	req := rationtest.Request(t, rationtest.Islanders(3)...)
	req.Slack = 0.03
	m, first := built(t, req)
	if first.X == nil {
		t.Fatal("no plan")
	}
	if small(m, first.X) == 0 {
		t.Fatal("no amount is under a portion at the best found: the test shows nothing")
	}
	clock := &ending{t.Context(), sharingAsks}
	found, err := Seek(clock, m, first.X, m.ValueOf(first.X), first)
	if err != nil {
		t.Fatal(err)
	}
	if found.X == nil || small(m, found.X) >= small(m, first.X) || found.Value >= found.Before {
		t.Fatalf("nothing better than %d amounts under a portion, weight %g", small(m, first.X), found.Before)
	}
	if value := m.ValueOf(found.X); value > m.ValueOf(first.X)*(1+req.Slack+1e-9) {
		t.Errorf("costs %g, the best found %g", value, m.ValueOf(first.X))
	}
	if clock.left >= 0 || !found.ByClock {
		t.Error("the clock did not stop it: the test shows nothing")
	}
	t.Logf("%d amounts under a portion, %d after; weight %.1f, %.1f after", small(m, first.X), small(m, found.X), found.Before, found.Value)
}
