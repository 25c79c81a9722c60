package model

import (
	"math"

	"rationwright/foods/stores"
	"rationwright/solver/rules"
)

// addShelfRows holds food and water to the shelves, in whole containers c of
// L litres each:
//
//	L c − w ≥ 0
//	Σ_k box_k x_k + box c ≤ usable share · Σ volume of the shelves
//	Σ_k gross_k x_k + gross c ≤ Σ load of the shelves
//	Σ x_k ≤ 0 over packs that stand on no shelf alone
//
// Whether everything then finds a place is for [stores.FitShelves] to say.
func addShelfRows(m *Model) {
	shelves := m.Request.Shelves
	if len(shelves) == 0 {
		return
	}
	c := m.Supplies.Container
	load := stores.LoadOfContainer(c, 1)
	containers := m.addCol("containers["+c.Key+"]", 0, Inf, true, colInfo{Kind: colContainer, Eater: -1, Larder: -1})
	filled := m.addRow("containers-filled", 0, Inf, RowInfo{
		Kind: rowStored, Class: Structural, Eater: -1, Text: "water in containers", Unit: "L", PerDay: 1,
	})
	m.Problem.Set(filled, containers, c.NetML/1000)
	m.Problem.Set(filled, m.Water, -1)

	boxL, kg := rules.ShelfSpace(shelves)
	shelfRow := func(on LimitOn, name, text, unit string, most float64) int {
		return m.addRow(name, math.Inf(-1), most, RowInfo{
			Kind: RowLimit, Class: UserLimit, Eater: -1, On: on, Text: text, Unit: unit, PerDay: 1,
		})
	}
	space := shelfRow(OnShelfRoom, "shelf-space", "room on the shelves", "L", boxL)
	weight := shelfRow(OnShelfLoad, "shelf-load", "load of the shelves", "kg", kg)
	m.Problem.Rows[space].Lazy, m.Problem.Rows[weight].Lazy = true, true
	m.Problem.Set(space, containers, load.BoxL())
	m.Problem.Set(weight, containers, load.Kg)
	tooLarge := -1
	for j, info := range m.Cols {
		if info.pack == nil {
			continue
		}
		load := stores.LoadOfPack(info.pack, 1)
		m.Problem.Set(space, j, load.BoxL())
		m.Problem.Set(weight, j, load.Kg)
		if !load.StandsOnAny(shelves) {
			if tooLarge < 0 {
				tooLarge = shelfRow(OnShelfSize, "shelf-size", "packs that stand on none of the shelves", "packs", 0)
			}
			m.Problem.Set(tooLarge, j, 1)
		}
	}
}
