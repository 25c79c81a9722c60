package rules

import (
	"math"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// ShelfSpace is what shelves hold in practice: litres of upright boxes after
// gaps and hand room, and the load of all boards together.
func ShelfSpace(shelves []stores.Shelf) (boxL, kg float64) {
	for i := range shelves {
		boxL += shelves[i].VolumeL()
		kg += shelves[i].LoadKg
	}
	return boxL * stores.UsableShare().Value, kg
}

// LoadsOf returns the food and the water of a plan as loads, packs of one kind
// together.
func LoadsOf(req *ration.Request, p *ration.Plan, container *stores.Container) []stores.Load {
	var loads []stores.Load
	at := map[*foods.Pack]int{}
	for _, line := range p.Packs {
		k := ration.FindPack(req, line.Pack)
		if k == nil {
			continue
		}
		i, ok := at[k]
		if !ok {
			i = len(loads)
			at[k] = i
			loads = append(loads, stores.LoadOfPack(k, 0))
		}
		loads[i].Count += line.Count
	}
	if n := ContainersFor(p.Totals.WaterL, container); n > 0 {
		loads = append(loads, stores.LoadOfContainer(container, n))
	}
	return loads
}

// ContainersFor is the whole containers that hold litres.
func ContainersFor(litres float64, c *stores.Container) int {
	return int(math.Ceil(litres*1000/c.NetML - ration.CheckTolerance))
}
