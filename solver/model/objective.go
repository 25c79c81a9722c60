package model

import (
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// Coefficient returns the objective coefficient of column j: stock that is
// already owned costs nothing but weighs and fills: water and heat on hand are
// taken off the cost again.
func (m *Model) Coefficient(j int, least ration.Least) float64 {
	info := m.Cols[j]
	switch info.Kind {
	case ColBuy, ColReserve:
		return rules.PackSupply(info.pack).Of(least)
	case colStock:
		s := rules.PackSupply(info.pack)
		s.Cost = 0
		return s.Of(least)
	case colWater:
		return m.Supplies.Water.Of(least)
	case colHeat:
		return m.Supplies.Heat.Of(least)
	case colOwnWater:
		return rules.Supply{Cost: -m.Supplies.Water.Cost}.Of(least)
	case colOwnHeat:
		return rules.Supply{Cost: -m.Supplies.Heat.Cost}.Of(least)
	}
	return 0
}

// aim sets the objective of the program.
func (m *Model) aim(least ration.Least) {
	for j := range m.Problem.Cols {
		m.Problem.Cols[j].Cost = m.Coefficient(j, least)
	}
}
