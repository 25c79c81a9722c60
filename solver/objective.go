package solver

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

// supplies are what a litre of stored water and an MJ of useful heat come to in
// one request.
type supplies struct {
	stove       *stores.Stove
	container   *stores.Container
	water, heat Supply
}

// suppliesOf works out the supplies of a request: water in the container of
// [stores.PlanContainer], heat from the packs of the stove's fuel at the low end
// of its efficiency, prices from the table.
func suppliesOf(req *ration.Request) (supplies, error) {
	s := supplies{container: stores.PlanContainer(req.Shelves)}
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
	c, litres := s.container, s.container.NetML/1000
	s.water = Supply{Cost: water.Price, WeightKg: c.GrossG() / 1000 / litres, VolumeL: c.BoxL / litres}
	useful, _, _ := s.stove.UsefulMJ()
	s.heat = Supply{Cost: fuel.Price / useful, WeightKg: s.stove.GrossG / 1000 / useful, VolumeL: s.stove.BoxL() / useful}
	return s, nil
}

// of returns the amount that least minimises: cost, kg or litres.
func (s Supply) of(least ration.Least) float64 {
	switch least {
	case ration.LeastWeight:
		return s.WeightKg
	case ration.LeastVolume:
		return s.VolumeL
	default:
		return s.Cost
	}
}

// packSupply returns what one pack costs, weighs and fills.
func packSupply(k *foods.Pack) Supply {
	return Supply{Cost: k.Price, WeightKg: k.GrossG / 1000, VolumeL: k.VolumeL}
}

// coefficient returns the objective coefficient of column j: stock that is
// already owned costs nothing but weighs and fills: water and heat on hand are
// taken off the cost again.
func (r *Ration) coefficient(j int, least ration.Least) float64 {
	info := r.cols[j]
	switch info.kind {
	case colBuy, colReserve:
		return packSupply(info.pack).of(least)
	case colStock:
		s := packSupply(info.pack)
		s.Cost = 0
		return s.of(least)
	case colWater:
		return r.supplies.water.of(least)
	case colHeat:
		return r.supplies.heat.of(least)
	case colOwnWater:
		if least == ration.LeastCost {
			return -r.supplies.water.Cost
		}
		return 0
	case colOwnHeat:
		if least == ration.LeastCost {
			return -r.supplies.heat.Cost
		}
		return 0
	default:
		return 0
	}
}

// aim sets the objective of the program.
func (r *Ration) aim(least ration.Least) {
	for j := range r.Problem.Cols {
		r.Problem.Cols[j].Cost = r.coefficient(j, least)
	}
}
