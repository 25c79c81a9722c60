package swap

import (
	"context"
	"errors"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/plantest"
	"rationwright/solver/rationtest"
)

// A swap does not touch the feed: neither taken away nor held to a part of it.
func TestSwapLeavesTheFeed(t *testing.T) {
	req := rationtest.Request(t, rationtest.Infant("Liv", 4, 5.5, nutrients.FormulaFed))
	plan := plantest.MustMake(t, req)
	const name = "infant formula powder, milk based, median"
	for _, change := range []SwapRequest{
		{Drop: []string{name}}, {Reduce: map[string]float64{name: 0.5}}, {Drop: []string{name}, For: "Liv"},
	} {
		if swap, err := Make(context.Background(), plan, change, nil); !errors.Is(err, ErrSwap) {
			t.Errorf("%+v gives %+v, %v; want it refused", change, swap, err)
		}
	}
}
