package plan

import (
	"context"
	"errors"
	"testing"
	"time"

	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// Whatever is asked, and however much work and time the request itself allows, the
// deadline of the context ends it: twenty people, with a budget that nothing fits and
// without, end soon after. Before, each search had the request's whole time to itself
// and the reasons for an infeasible request none at all. The room is generous, since
// the machine may be shared.
func TestTheDeadlineOfTheContextEndsEverything(t *testing.T) {
	const patience, room = time.Second, 20 * time.Second
	none := 1.0
	for _, limits := range []ration.Limits{{}, {Budget: &none}, {WaterL: &none}} {
		req := &ration.Request{
			People: rationtest.Crowd(20), Table: rationtest.Table(t), Start: "2026-11-25", Limits: limits,
			Within: 1e-6, Time: time.Hour, Audit: true,
		}
		ctx, stop := context.WithTimeout(t.Context(), patience)
		began := time.Now()
		p, err := Make(ctx, req, nil)
		stop()
		if took := time.Since(began); took > patience+room {
			t.Errorf("limits %+v: took %v, told %v", limits, took, patience)
		}
		if err != nil && !errors.Is(err, ration.ErrNoPlan) {
			t.Errorf("limits %+v: %v", limits, err)
		}
		if err == nil && p.Status == ration.StatusOptimal {
			t.Errorf("limits %+v: proven to one part in a million in the time: the test shows nothing", limits)
		}
	}
}
