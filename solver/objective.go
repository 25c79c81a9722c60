package solver

import "rationwright/foods"

// Supply is what one unit of stored water or useful heat costs, weighs and
// fills, container included.
type Supply struct {
	Cost     float64 // currency of the prices, invented for the demo
	WeightKg float64
	VolumeL  float64
}

// The stored water's container is the 20 L stackable one: 1.2 kg tare and
// 26.47 shelf litres (provisions/packages, row can_water_20: sizes from
// memory). The price is invented for the demo.
var waterPerLitre = Supply{
	Cost:     0.15,
	WeightKg: 1 + 1.2/20,
	VolumeL:  26.47 / 20,
}

// Fuel is counted as butane cartridges for a table stove at the low end of its
// efficiency: 227 g × 45.7 MJ/kg × 0.4 = 4.15 MJ useful a cartridge
// (provisions/fuel, row butane); 0.33 kg and 0.55 shelf litres each (from
// memory). The price is invented for the demo.
var heatPerMJ = Supply{
	Cost:     2.40 / 4.15,
	WeightKg: 0.33 / 4.15,
	VolumeL:  0.55 / 4.15,
}

// of returns the amount that least minimises: cost, kg or litres.
func (s Supply) of(least Least) float64 {
	switch least {
	case LeastWeight:
		return s.WeightKg
	case LeastVolume:
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
func (r *Ration) coefficient(j int, least Least) float64 {
	info := r.cols[j]
	switch info.kind {
	case colBuy, colReserve:
		return packSupply(info.pack).of(least)
	case colStock:
		s := packSupply(info.pack)
		s.Cost = 0
		return s.of(least)
	case colWater:
		return waterPerLitre.of(least)
	case colHeat:
		return heatPerMJ.of(least)
	case colOwnWater:
		if least == LeastCost {
			return -waterPerLitre.Cost
		}
		return 0
	case colOwnHeat:
		if least == LeastCost {
			return -heatPerMJ.Cost
		}
		return 0
	default:
		return 0
	}
}

// aim sets the objective of the program.
func (r *Ration) aim(least Least) {
	for j := range r.Problem.Cols {
		r.Problem.Cols[j].Cost = r.coefficient(j, least)
	}
}
