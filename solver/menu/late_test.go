package menu

import (
	"context"
	"errors"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/rationtest"
)

// late is a context that says after so many looks that its time has ended, and never stops anybody.
type late struct {
	context.Context
	looks int
}

func (l *late) Err() error {
	if l.looks--; l.looks >= 0 {
		return nil
	}
	return context.DeadlineExceeded
}

// TestMenuReadyAsTheTimeEnds: a menu that was made is one, though its time is over as it is handed
// over; what is not made by then is for want of time. Every number of looks at the clock is tried up to
// the first with which the menu is made: there the next one would say that the time is over.
func TestMenuReadyAsTheTimeEnds(t *testing.T) {
	signe := rationtest.Adult("Signe", 36, nutrients.Female)
	req := byHand(t, 2, []nutrients.Person{signe}, []packed{{"white-rice-907g-bag", 1, map[string]float64{"Signe": 1}}, {"canned-kidney-beans-439g-can", 2, map[string]float64{"Signe": 1}}})
	made, none := 0, 0
	for looks := 0; looks < 4000 && made == 0; looks++ {
		ctx := &late{t.Context(), looks}
		m, err := Make(ctx, req)
		switch {
		case err == nil && m != nil && ctx.looks <= 0: // one look more would say that the time is over
			made++
		case !errors.Is(err, ErrTime) || m != nil:
			t.Fatalf("after %d looks: a menu %v, %v", looks, m != nil, err)
		default:
			none++
		}
	}
	if made != 1 {
		t.Errorf("no menu, %d times for want of time", none)
	}
}
