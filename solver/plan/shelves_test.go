package plan

import (
	"errors"
	"testing"

	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/verify"
)

// Where the first plan finds no arrangement, another with as much less room does
// without what was left over; its gap is to the bound of the first.
func TestReplannedForShelves(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	req.Least = ration.LeastCost
	req.Shelves = []stores.Shelf{{Name: "floor", WidthCm: 150, DepthCm: 60, HeightCm: 60, LoadKg: 400}}
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	var first *ration.Plan
	p, err := makeOnShelves(t.Context(), m, nil, func(m *model.Model, p *ration.Plan) *ration.ShelfFit {
		fit := fitOf(m, p)
		if first == nil {
			// As if one of the largest packs of food had found no place.
			first = p
			largest := fit.Loads[0]
			for _, l := range fit.Loads {
				if l.Key != m.Supplies.Container.Key && l.BoxL()/float64(l.Count) > largest.BoxL()/float64(largest.Count) {
					largest = l
				}
			}
			fit.Left = []stores.LeftOver{{Pack: largest.Key, Count: 1}}
			fit.Stands = false
		}
		return fit
	})
	if err != nil {
		t.Fatal(err)
	}
	rationtest.StandsOn(t, req, p)
	before, after := stores.SpaceOf(first.Shelves.Loads), stores.SpaceOf(p.Shelves.Loads)
	left := 0.0
	for _, l := range first.Shelves.Loads {
		if l.Key == first.Shelves.Left[0].Pack {
			left = l.BoxL() / float64(l.Count)
		}
	}
	if p.Shelves.Replanned != 1 || left <= 0 || after.BoxL > before.BoxL-left+1e-6 {
		t.Errorf("made anew %d times, %g L of boxes where %g did not stand by %g", p.Shelves.Replanned, after.BoxL, before.BoxL, left)
	}
	if *p.Value < *first.Bound || !rationtest.Near1(*p.Bound, *first.Bound) || !rationtest.Near1(*p.Gap, (*p.Value-*p.Bound) / *p.Value) || (*p.Gap > req.Within) != (p.Status == ration.StatusLimit) {
		t.Errorf("value %g, bound %g, gap %g, status %s; bound of the first %g", *p.Value, *p.Bound, *p.Gap, p.Status, *first.Bound)
	}
	if found := verify.Check(req, p); len(found) > 0 {
		t.Error(found)
	}

	// An arrangement that contradicts the plan is refused, after a few tries.
	tries := 0
	p, err = makeOnShelves(t.Context(), m, nil, func(m *model.Model, p *ration.Plan) *ration.ShelfFit {
		tries++
		fit := fitOf(m, p)
		fit.Stands, fit.Left = false, append(fit.Left, stores.LeftOver{Pack: fit.Loads[0].Key, Count: 1})
		fit.Places[0].Count--
		return fit
	})
	if err == nil || !errors.Is(err, ration.ErrUnverified) || tries > 1+mostReplans {
		t.Errorf("%d fits, %v, %v: an arrangement that contradicts the plan is shown", tries, p, err)
	}
}
