package rules

import (
	"fmt"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// Supply is what one pack, litre of stored water or MJ of useful heat costs,
// weighs and fills, container included. Litres are of upright boxes; where they
// meet shelves, [stores.ShelfSpaceL] adds gaps and hand room, once.
type Supply struct {
	Cost     float64 // currency of the prices, invented for the demo
	WeightKg float64
	VolumeL  float64
}

// Supplies are what a litre of stored water and an MJ of useful heat come to in
// one request.
type Supplies struct {
	stove       *stores.Stove
	Container   *stores.Container
	Water, Heat Supply
}

// SuppliesOf works out the supplies of a request: water in the container of
// [stores.PlanContainer], heat from the packs of the stove's fuel at the low end
// of its efficiency, prices from the table.
func SuppliesOf(req *ration.Request) (Supplies, error) {
	s := Supplies{Container: stores.PlanContainer(req.Shelves)}
	var err error
	if s.stove, err = stores.StoveByName(req.Stove); err != nil {
		return s, err
	}
	water, err := req.Table.Supply(foods.StoredWater)
	if err != nil {
		return s, fmt.Errorf("the price of stored water: %w", err)
	}
	fuel, err := req.Table.Supply(req.Stove)
	if err != nil {
		return s, fmt.Errorf("the price of fuel: %w", err)
	}
	c, litres := s.Container, s.Container.NetML/1000
	s.Water = Supply{Cost: water.Price, WeightKg: c.GrossG() / 1000 / litres, VolumeL: c.BoxL / litres}
	useful, _, _ := s.stove.UsefulMJ()
	s.Heat = Supply{Cost: fuel.Price / useful, WeightKg: s.stove.GrossG / 1000 / useful, VolumeL: s.stove.BoxL() / useful}
	return s, nil
}

// Of returns the amount that least minimises: cost, kg or litres.
func (s Supply) Of(least ration.Least) float64 {
	switch least {
	case ration.LeastWeight:
		return s.WeightKg
	case ration.LeastVolume:
		return s.VolumeL
	default:
		return s.Cost
	}
}

// PackSupply returns what one pack costs, weighs and fills.
func PackSupply(k *foods.Pack) Supply {
	return Supply{Cost: k.Price, WeightKg: k.GrossG / 1000, VolumeL: k.VolumeL}
}
